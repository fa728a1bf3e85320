"""The formulary by HTTP: the same number on every face, mistakes as JSON, and a description that holds."""

from __future__ import annotations

import json
import math
import re
from typing import Any
from urllib.parse import urlencode

import pytest
from fastapi.openapi.models import OpenAPI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from axlewright.formulary import formula, functions, names, said
from axlewright.formulary.ask import ask, headline
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.ranges import ranges
from axlewright.quantities.units import parse
from axlewright.web.api import si_unit
from axlewright.web.openapi import HOME

PLAIN = {"torque": "340 N·m", "diameter": "20 mm", "nut-factor": "0.14"}


@pytest.fixture(scope="module")
def told(pages: TestClient) -> dict[str, Any]:
    """The description of all operations."""
    got: dict[str, Any] = pages.get("/openapi.json").json()
    return got


@pytest.mark.parametrize("name", names())
def test_the_same_number_on_every_face(name: str, pages: TestClient) -> None:
    """By address and by JSON, as texts and as bare SI numbers."""
    found, texts = formula(name), texts_to_try(formula(name))
    want = json.loads(json.dumps(said.answer_data(ask(name, texts))))
    by_address = pages.get(f"{HOME}/{name}?{urlencode(texts)}")
    assert by_address.status_code == 200
    assert {k: v for k, v in by_address.json().items() if k != "says"} == want
    assert by_address.json()["says"] == headline(ask(name, texts))
    by_json = pages.post(f"{HOME}/{name}", json=nested(texts))
    assert by_json.json() == by_address.json()
    numbers = pages.post(f"{HOME}/{name}", json=nested(in_si(name, texts)))
    assert numbers.status_code == 200
    for key, value in numbers.json()["values"].items():
        same(value.get("si", value["value"]), want["values"][key].get("si", want["values"][key]["value"]))
    assert set(want["values"]) >= {
        said.name_of(s.name) for s in found.gives if s.form != "structure" and not found.many
    }


def same(got: Any, wanted: Any) -> None:
    if isinstance(wanted, list):
        assert len(got) == len(wanted)
        for one, other in zip(got, wanted, strict=True):
            same(one, other)
    elif isinstance(wanted, float):
        assert got == pytest.approx(wanted, rel=1e-9, abs=1e-12)
    else:
        assert got == wanted


def in_si(name: str, texts: dict[str, str]) -> dict[str, Any]:
    """Texts as bare numbers in SI, where they are quantities."""
    out: dict[str, Any] = dict(texts)
    for key, slot in said.leaves(formula(name).takes, texts):
        if slot.form in ("quantity", "whole") and key in texts and slot.kind.name != "yes-no":
            read = [parse(one, slot.kind).si for one in texts[key].split(";")]
            out[key] = [int(n) if slot.kind.name == "count" else n for n in read] if slot.many else read[0]
            if slot.kind.name == "count" and not slot.many:
                out[key] = int(read[0])
        elif slot.kind.name == "yes-no" and key in texts:
            said_yes = [one.strip() == "yes" for one in texts[key].split(";")]
            out[key] = said_yes if slot.many else said_yes[0]
    return out


def nested(texts: dict[str, Any]) -> Any:
    """Flat names as nested JSON: `legs.2.length` in the second of a list."""
    tree: dict[str, Any] = {}
    for key, value in texts.items():
        *path, last = key.split(".")
        at = tree
        for part in path:
            at = at.setdefault(part, {})
        at[last] = value
    return listed(tree)


def listed(tree: Any) -> Any:
    if not isinstance(tree, dict):
        return tree
    if tree and all(key.isdigit() for key in tree):
        return [listed(tree[key]) for key in sorted(tree, key=int)]
    return {key: listed(value) for key, value in tree.items()}


def test_every_kind_has_a_unit_for_bare_numbers() -> None:
    for found in functions().values():
        for key, slot in said.leaves(found.takes, {}):
            if slot.form == "quantity" and slot.kind.name != "yes-no":
                symbol = si_unit(slot.kind.name)
                assert parse(f"1 {symbol}".strip(), slot.kind).si == pytest.approx(1.0), key


@pytest.mark.parametrize(
    ("body", "status", "where"),
    [
        (b"", 400, "body"),
        (b"[]", 400, "body"),
        (b"null", 400, "body"),
        (b"{", 400, "body"),
        (b"\xff\xfe\x00", 400, "body"),
        (b"[" * 100_000, 400, "body"),
        (b'{"torque": NaN, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": 1e999, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": {"a": {"b": 1}}, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": [1, 2], "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": null, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": true, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": 340, "diameter": 0.02, "nut-factor": 0.9}', 422, "nut-factor"),
        (b'{"torque": 340, "diameter": 0.02, "nut-factor": 0.14, "zap": 1}', 400, "zap"),
        (b'{"torque": 340, "diameter": 0.02, "nut-factor": 0.14, "measures": "us"}', 400, "measures"),
        (b'{"torque": "340 N\xc2\xb7m", "diameter": "20", "nut-factor": 0.14}', 400, "diameter"),
    ],
)
def test_mistakes_come_as_json_with_their_name(body: bytes, status: int, where: str, pages: TestClient) -> None:
    got = pages.post(f"{HOME}/preload-from-nut-factor", content=body)
    assert got.status_code == status
    assert where in {row["where"].split(".")[0] for row in got.json()["faults"]}


def test_other_mistakes_by_address(pages: TestClient) -> None:
    right = urlencode(PLAIN)
    at = f"{HOME}/preload-from-nut-factor"
    assert pages.get(f"{at}?{right}&torque=1").json()["faults"][0]["what"].startswith("It comes twice")
    assert pages.get(f"{at}?{right}&measures=imperial").status_code == 400
    assert pages.get(f"{at}?{right}&decimal=x").status_code == 400
    lost = pages.get(f"{HOME}/bolt-windw")
    assert lost.status_code == 404
    assert lost.json()["faults"][0]["right"] == "Did you mean bolt-window?"
    assert pages.post(f"{HOME}/nope", json={}).status_code == 404
    assert pages.get(f"{HOME}/nope/about").status_code == 404
    assert pages.get(at).status_code == 400, "without values all of them are missing"
    assert {row["where"] for row in pages.get(at).json()["faults"]} == set(PLAIN)
    assert pages.post(at, json=PLAIN, headers={"origin": "http://yard.example"}).status_code == 403


def test_a_range_where_only_numbers_go_is_said_so(pages: TestClient) -> None:
    for name, key, wide in (
        ("crib-layouts", "task.load", "30 kN to 50 kN"),
        ("whole-links", "pitch", "20 mm to 30 mm"),
    ):
        got = pages.get(f"{HOME}/{name}?{urlencode({**texts_to_try(formula(name)), key: wide})}")
        assert got.status_code == 400
        assert [(row["where"], row["what"]) for row in got.json()["faults"]] == [
            (key, "It takes one number here, no range.")
        ]


def test_a_value_beyond_all_measure_gives_no_number(pages: TestClient) -> None:
    got = pages.post(f"{HOME}/slab-bending-at-edge", json={**in_si_of("slab-bending-at-edge"), "thickness": 1e120})
    assert got.status_code in (400, 422)
    assert got.json()["faults"]


def in_si_of(name: str) -> dict[str, Any]:
    return dict(nested(in_si(name, texts_to_try(formula(name)))))


def test_a_comma_is_a_decimal_mark_where_it_is_said_so(pages: TestClient) -> None:
    at = f"{HOME}/preload-from-nut-factor"
    comma = pages.post(f"{at}?decimal=,", json={"torque": 340.125, "diameter": 0.125, "nut-factor": "0,125"})
    point = pages.post(at, json={"torque": 340.125, "diameter": 0.125, "nut-factor": 0.125})
    assert comma.json()["values"]["result"]["si"] == point.json()["values"]["result"]["si"]
    assert "," in comma.json()["says"]


def test_no_limit_is_null_and_said(pages: TestClient) -> None:
    """A hook behind the front castors never tips the hoist: there is no such number in JSON."""
    got = pages.get(f"{HOME}/hoist-loads?{urlencode(texts_to_try(formula('hoist-loads')))}").json()["values"]["margin"]
    assert got["value"] is None
    assert got["says"] == "no limit"


# --- the description


def test_openapi_has_every_function_as_its_own_operations(told: dict[str, Any]) -> None:
    OpenAPI.model_validate(told)
    text = json.dumps(told)
    for link in set(re.findall(r'"#/components/schemas/([^"]+)"', text)):
        assert link in told["components"]["schemas"]
    ids = re.findall(r'"operationId": "([^"]+)"', text)
    assert len(ids) == len(set(ids))
    for name, found in functions().items():
        for method in ("get", "post"):
            operation = told["paths"][f"{HOME}/{name}"][method]
            assert set(operation["responses"]) == {"200", "400", "422"}
            assert found.source in operation["description"]
            assert found.valid in operation["description"]
        body = told["paths"][f"{HOME}/{name}"]["post"]["requestBody"]["content"]["application/json"]["schema"]
        assert body["required"] == [slot.key for slot in found.takes if slot.needed]
        for slot in found.takes:
            place = body["properties"][slot.key]
            if slot.form == "quantity":
                assert place["x-unit"] == slot.kind.unit
            allowed = ranges(found).get(slot.name)
            if allowed and allowed.high is not None:
                assert place["anyOf"][0]["maximum"] == allowed.high
        asked = {one["name"] for one in told["paths"][f"{HOME}/{name}"]["get"]["parameters"]}
        assert {key for key, _ in said.leaves(found.takes, {})} <= asked


def fits(value: Any, schema: dict[str, Any], told: dict[str, Any]) -> bool:
    """Whether a value is of a schema: as much of JSON Schema as ours use."""
    if "$ref" in schema:
        return fits(value, told["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]], told)
    if "anyOf" in schema:
        return any(fits(value, one, told) for one in schema["anyOf"])
    if "const" in schema:
        return bool(value == schema["const"])
    if "enum" in schema and value not in schema["enum"]:
        return False
    kinds = schema.get("type", [])
    kinds = [kinds] if isinstance(kinds, str) else kinds
    is_a = {
        "object": isinstance(value, dict),
        "array": isinstance(value, list),
        "string": isinstance(value, str),
        "boolean": isinstance(value, bool),
        "null": value is None,
        "integer": isinstance(value, int) and not isinstance(value, bool),
        "number": isinstance(value, int | float) and not isinstance(value, bool),
    }
    if kinds and not any(is_a[kind] for kind in kinds):
        return False
    if isinstance(value, dict):
        known, more = schema.get("properties", {}), schema.get("additionalProperties", True)
        return set(schema.get("required", ())) <= value.keys() and all(
            fits(one, known[key], told)
            if key in known
            else more is True or (more is not False and fits(one, more, told))
            for key, one in value.items()
        )
    if isinstance(value, list):
        return all(fits(one, schema.get("items", {}), told) for one in value)
    if is_a["number"]:
        low, over, high = (
            schema.get("minimum", -math.inf),
            schema.get("exclusiveMinimum"),
            schema.get("maximum", math.inf),
        )
        return low <= value <= high and (over is None or value > over)
    return len(value) <= schema.get("maxLength", math.inf) if isinstance(value, str) else True


@pytest.mark.parametrize("name", names())
def test_what_is_sent_and_answered_is_as_described(name: str, pages: TestClient, told: dict[str, Any]) -> None:
    operation = told["paths"][f"{HOME}/{name}"]["post"]
    sent = nested(in_si(name, texts_to_try(formula(name))))
    assert fits(sent, operation["requestBody"]["content"]["application/json"]["schema"], told)
    got = pages.post(f"{HOME}/{name}", json=sent)
    assert fits(got.json(), operation["responses"]["200"]["content"]["application/json"]["schema"], told)
    wrong = pages.post(f"{HOME}/{name}", json={"zap": 1})
    assert wrong.status_code == 400
    assert fits(wrong.json(), operation["responses"]["400"]["content"]["application/problem+json"]["schema"], told)


def test_the_list_and_about(pages: TestClient, told: dict[str, Any]) -> None:
    rows = pages.get(HOME)
    assert rows.json()["formulas"][0]["formula"] == "bolt-window"
    assert len(rows.json()["formulas"]) == len(functions())
    assert fits(
        rows.json(), told["paths"][HOME]["get"]["responses"]["200"]["content"]["application/json"]["schema"], told
    )
    for row in rows.json()["formulas"]:
        about = pages.get(f"{row['address']}/about").json()
        assert about["source"]
        assert about["valid"]
        assert about["example"]


SCALARS = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**6), 10**6),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=20),
)


@given(st.data())
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_anything_at_all_is_answered_in_json(pages: TestClient, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(names()))
    sent = dict(nested(in_si(name, texts_to_try(formula(name)))))
    for key in data.draw(st.lists(st.sampled_from(sorted(sent)), max_size=3)):
        sent[key] = data.draw(SCALARS)
    got = pages.post(f"{HOME}/{name}", content=json.dumps(sent))
    assert got.status_code in (200, 400, 422), f"{name} {sent}"
    assert ("faults" in got.json()) == (got.status_code != 200)
