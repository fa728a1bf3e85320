"""What a program sends: read to an end that is kept, as JSON and nothing else, with the yard's decimal mark."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright.yard import Fault, Faults, Yard, faults_of

M = TypeVar("M", bound=BaseModel)
DAY = re.compile(r"\d{4}-\d\d-\d\d")
IS = {
    "integer": "a whole number, without quotes",
    "number": "a number, without quotes",
    "string": "a text, in quotes",
    "boolean": "true or false",
    "array": "a list, in square brackets",
    "object": "an object, in braces",
    "null": "null",
    "date": "a day in quotes, as 2026-08-28",
}


class Unread(Exception):
    """The body is no JSON object: nothing in it can be said to be wrong by its name."""

    def __init__(self, fault: Fault) -> None:
        self.fault = fault
        super().__init__(str(fault))


async def body_of(request: Request, most: int) -> bytes:
    """All that was sent; over its most it is not read to the end.

    Raises:
        HTTPException: it is too long
    """
    read = bytearray()
    async for part in request.stream():
        read += part
        if len(read) > most:
            raise HTTPException(413, f"that is over {most / 1e6:g} MB")
    return bytes(read)


def read(model: type[M], body: bytes, yard: Yard) -> M:
    """A body as what it must be. A text with a number in it is as the yard types it; a number in JSON is no text.

    Raises:
        Unread: it is no JSON object
        Faults: every field that cannot be; `where` is its name
    """
    try:
        sent = json.loads(body)
    except (ValueError, RecursionError):
        sent = None
    if not isinstance(sent, dict):
        right = "Send one JSON object, such as the description of this operation shows."
        raise Unread(Fault("body", "This is no JSON object.", right))
    misfit = {fault.where: fault for fault in _of_no_kind(sent, _schema(model), _schema(model).get("$defs", {}))}
    context: dict[str, Any] = {"decimal": yard.title.decimal, "json": True}
    try:
        made = model.model_validate(sent, context=context)
    except ValidationError as bad:
        for fault in faults_of(bad, model, lambda key: key or "body"):
            misfit.setdefault(fault.where, replace(fault, right=in_json(fault.right)))
    if misfit:
        raise Faults(*misfit.values())
    return made


@cache
def _schema(model: type[BaseModel]) -> dict[str, Any]:
    return model.model_json_schema()


def _of_no_kind(value: Any, schema: dict[str, Any], defs: dict[str, Any], where: str = "") -> Iterator[Fault]:
    """Values that are a text where a number goes, or the like; the model itself would take a number in quotes."""
    schema = defs[schema["$ref"].rsplit("/", 1)[1]] if "$ref" in schema else schema
    choices = [defs[one["$ref"].rsplit("/", 1)[1]] if "$ref" in one else one for one in schema.get("anyOf", [schema])]
    fitting = [one for one in choices if _is(value, one)]
    if not fitting and any("type" in one for one in choices):
        kinds = dict.fromkeys(IS[one.get("format", "") if one.get("format") == "date" else one["type"]] for one in choices if one.get("type", "null") != "null")  # fmt: skip
        yield Fault(where or "body", f"This is {' or '.join(kinds)}.")
        return
    for one in fitting:
        if isinstance(value, dict):
            known, more = one.get("properties", {}), one.get("additionalProperties")
            for key, inner in value.items():
                part = known.get(key, more if isinstance(more, dict) else None)
                if part is not None:
                    yield from _of_no_kind(inner, part, defs, where or key)
        if isinstance(value, list) and isinstance(one.get("items"), dict):
            for inner in value:
                yield from _of_no_kind(inner, one["items"], defs, where)


def _is(value: Any, schema: dict[str, Any]) -> bool:
    """Whether a value is of the kind that a schema names."""
    match schema.get("type"):
        case "string":
            return isinstance(value, str) and (schema.get("format") != "date" or bool(DAY.fullmatch(value)))
        case "integer":
            return isinstance(value, int | float) and not isinstance(value, bool) and float(value).is_integer()
        case "number":
            return isinstance(value, int | float) and not isinstance(value, bool)
        case "boolean":
            return isinstance(value, bool)
        case "array":
            return isinstance(value, list)
        case "object":
            return isinstance(value, dict)
        case "null":
            return value is None
        case _:
            return True


def in_json(right: str) -> str:
    """What would be right, as it stands in JSON and not in a file of the yard."""
    told = re.fullmatch(r"Write (\w+) = (.+)\.", right)
    if not told:
        return right
    value = f'"{told[2]}"' if DAY.fullmatch(told[2]) else told[2]
    return f'Write "{told[1]}": {value}.'
