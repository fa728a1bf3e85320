"""The formulary for programs: every function by GET with typed values or POST with JSON; mistakes as JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, cast

from fastapi import APIRouter, FastAPI
from fastapi.responses import JSONResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright.desk.tables import formula_table
from axlewright.engines.limits import OutOfRange
from axlewright.formulary import formula, said
from axlewright.formulary.ask import ask, headline
from axlewright.formulary.call import Decimal
from axlewright.formulary.examples import flat
from axlewright.formulary.families import families
from axlewright.formulary.read import Formula
from axlewright.quantities import Measures
from axlewright.quantities.units import units_of
from axlewright.render import csv
from axlewright.web import openapi
from axlewright.web.api import bodies, problems
from axlewright.web.api.wanted import wants_csv
from axlewright.web.guard import MOST_BYTES
from axlewright.yard import Fault, Faults

router = APIRouter(prefix=openapi.HOME, include_in_schema=False)
SHOWN = {"measures": ("metric", "us"), "decimal": (".", ",")}  # what a query may say besides the function's own values


def describe(app: FastAPI) -> None:
    """Let the app's /openapi.json tell of every function. It is made when it is first asked for."""
    plain = app.openapi

    def whole() -> dict[str, Any]:
        if app.openapi_schema is None:
            made = plain()
            made["paths"] |= openapi.paths()
            made.setdefault("components", {}).setdefault("schemas", {}).update(openapi.components())
            app.openapi_schema = made
        return app.openapi_schema

    app.openapi = whole  # type: ignore[method-assign]


@router.get("")
def every() -> JSONResponse:
    """All functions."""
    rows = [
        {
            "formula": one.name,
            "title": one.title,
            "family": family.name,
            "group": group.name,
            "address": f"{openapi.HOME}/{one.name}",
        }
        for family in families()
        for group in family.groups
        for one in group.formulas
    ]
    return JSONResponse({"formulas": rows})


@router.get("/{name}/about")
def about(name: str) -> JSONResponse:
    """What a function takes and gives."""
    try:
        return JSONResponse(said.formula_data(formula(name)))
    except Faults as bad:
        return wrong(bad, 404)


@router.get("/{name}")
def by_address(name: str, request: Request) -> Response:
    """The answer to values typed in the address; as a table where its ending or Accept says CSV."""
    table = wants_csv(request)
    name = name.removesuffix(".csv")
    texts: dict[str, str] = {}
    twice = []
    for key, text in request.query_params.multi_items():
        if key in texts:
            twice.append(Fault(key, f"It comes twice, as {texts[key]} and as {text}.", "Send it once."))
        texts[key] = text
    return answer(name, texts, twice, table)


@router.post("/{name}")
async def by_json(name: str, request: Request) -> Response:
    """The answer to values in JSON: a number is in SI, a text carries its unit."""
    body = await bodies.body_of(request, MOST_BYTES)
    return await run_in_threadpool(from_json, name, body, dict(request.query_params), wants_csv(request))


def from_json(name: str, body: bytes, shown: dict[str, str], table: bool = False) -> Response:
    try:
        found = formula(name)
    except Faults as bad:
        return wrong(bad, 404)
    try:
        sent = json.loads(body)
    except (ValueError, RecursionError):
        return wrong(Faults(Fault("body", "This is no JSON.", 'Send an object: {"torque": "340 N·m"}.')), 400)
    if not isinstance(sent, dict):
        return wrong(Faults(Fault("body", "This is no JSON object.", 'Send one: {"torque": "340 N·m"}.')), 400)
    clash = [Fault(key, f"{key} goes in the address.", f"?{key}={sent[key]}") for key in SHOWN if key in sent]
    try:
        texts = texts_of(found, sent, shown.get("decimal", "."))
    except RecursionError:
        return wrong(Faults(Fault("body", "This is nested too deep.", "")), 400)
    return answer(name, {**texts, **shown}, clash, table)


def texts_of(found: Formula, sent: Mapping[str, Any], decimal: str) -> dict[str, str]:
    """Values of JSON as texts: a bare number gets the SI unit of its kind."""
    values = {key.replace("_", "-"): value for key, value in flat(sent) if value is not None}
    units = {
        key: si_unit(slot.kind.name)
        for key, slot in said.leaves(found.takes, dict.fromkeys(values, ""))
        if slot.form == "quantity"
    }
    return {key: text_of(value, units.get(key), decimal) for key, value in values.items()}


def si_unit(kind: str) -> str:
    """The spelling of a kind's SI unit."""
    plain = (unit.symbol for unit in units_of(kind) if unit.factor == 1 and not unit.offset and not unit.sloped)
    return next(plain, "")


def text_of(value: Any, unit: str | None, decimal: str) -> str:
    """A value as it is typed; a number of no unit, such as a head mark 8.8, keeps its point."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float) and unit is not None:
        return f"{value!r} {unit}".replace(".", decimal, 1).strip()
    if isinstance(value, list):
        return "; ".join(text_of(one, unit, decimal) for one in value)
    return str(value)


def answer(name: str, texts: dict[str, str], faults: list[Fault], table: bool = False) -> Response:
    """The answer to texts, or all that is wrong: 404 no such function, 422 out of range, 400 anything else."""
    try:
        found = formula(name)
    except Faults as bad:
        return wrong(bad, 404)
    shown = {}
    for key, choices in SHOWN.items():
        shown[key] = texts.pop(key, choices[0])
        if shown[key] not in choices:
            faults.append(Fault(key, f"{shown[key][:20]} is none of them.", f"Send {choices[0]} or {choices[1]}."))
    if faults:
        return wrong(Faults(*faults), 400)
    decimal = cast("Decimal", shown["decimal"])
    try:
        got = ask(found.name, texts, cast("Measures", shown["measures"]), decimal)
    except Faults as bad:
        return wrong(bad, 422 if isinstance(bad.__cause__, OutOfRange | ArithmeticError) else 400)
    if table:
        made = csv.written(formula_table(got), decimal)
        return Response(made, media_type=csv.MEDIA, headers={"Content-Disposition": f'inline; filename="{name}.csv"'})
    return JSONResponse({"says": headline(got, decimal), **said.answer_data(got, decimal)})


def wrong(bad: Faults, status: int) -> JSONResponse:
    return problems.problem(status, *bad.faults)
