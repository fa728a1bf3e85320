"""The description of the formulary's operations, made from the registry: one operation a function, typed, with its range."""

from __future__ import annotations

from functools import cache
from typing import Any

from axlewright.formulary import Formula, said
from axlewright.formulary.call import example_of
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.families import families
from axlewright.formulary.ranges import Range, ranges
from axlewright.formulary.slots import Slot
from axlewright.quantities.units import LONGEST

Schema = dict[str, Any]
HOME = "/api/formula"

MISTAKES: dict[str, tuple[str, str]] = {
    "400": (
        "Unusable",
        "Something cannot be read: a unit is missing or of the wrong kind, a name is unknown, a value is missing.",
    ),
    "422": ("OutOfRange", "All was read, and lies outside what the formula holds for."),
}
SHOWN: list[Schema] = [
    {
        "name": "measures",
        "in": "query",
        "description": "units of the answer",
        "schema": {"type": "string", "enum": ["metric", "us"], "default": "metric"},
    },
    {
        "name": "decimal",
        "in": "query",
        "description": "decimal mark of typed values and of `says`",
        "schema": {"type": "string", "enum": [".", ","], "default": "."},
    },
]


@cache
def paths() -> dict[str, Schema]:
    """Every operation of the formulary. Imports every engine."""
    found: dict[str, Schema] = {HOME: {"get": listing()}}
    found[HOME + "/{name}/about"] = {"get": about()}
    for family in families():
        for group in family.groups:
            for one in group.formulas:
                found[f"{HOME}/{one.name}"] = {"get": asked(one, family.name), "post": sent(one, family.name)}
    return found


def components() -> dict[str, Schema]:
    """What the operations share."""
    number_or_none: Schema = {"type": ["number", "null"]}
    value: Schema = {
        "description": "A value in the unit shown and in SI, and as people read it. null has no limit.",
        "type": "object",
        "required": ["value", "says", "kind", "words"],
        "properties": {
            "value": {"type": ["number", "string", "boolean", "null", "array"], "items": {}},
            "says": {"type": "string"},
            "unit": {"type": "string"},
            "si": {"type": ["number", "null", "array"], "items": number_or_none},
            "si_unit": {"type": "string"},
            "low": {**number_or_none, "description": "5 in a hundred lie below, where a range was typed"},
            "high": {**number_or_none, "description": "5 in a hundred lie above, where a range was typed"},
            "kind": {"type": "string"},
            "words": {"type": "string"},
        },
        "additionalProperties": False,
    }
    return {
        "Value": value,
        "Values": {"type": "object", "additionalProperties": reference("Value")},
    }


def reference(name: str) -> Schema:
    return {"$ref": f"#/components/schemas/{name}"}


def in_json(schema: Schema) -> Schema:
    return {"application/json": {"schema": schema}}


def mistakes(*codes: str) -> dict[str, Schema]:
    return {code: {"description": MISTAKES[code][1], "content": wrong()} for code in codes}


def wrong() -> Schema:
    """What a mistake comes as."""
    return {"application/problem+json": {"schema": reference("Problem")}}


def listing() -> Schema:
    row: Schema = {
        "type": "object",
        "required": ["formula", "title", "family", "group", "address"],
        "properties": {key: {"type": "string"} for key in ("formula", "title", "family", "group", "address")},
    }
    every: Schema = {
        "type": "object",
        "required": ["formulas"],
        "properties": {"formulas": {"type": "array", "items": row}},
    }
    return {
        "operationId": "formulas",
        "summary": "Every formula by family, the greased-bolt window first",
        "tags": ["formulary"],
        "responses": {"200": {"description": "all of them", "content": in_json(every)}},
    }


def about() -> Schema:
    name: Schema = {"name": "name", "in": "path", "required": True, "schema": {"type": "string"}}
    told: Schema = {
        "type": "object",
        "required": ["formula", "title", "takes", "gives", "source", "valid", "example", "command"],
        "properties": {"takes": {"type": "array"}, "gives": {"type": "array"}, "example": {"type": "object"}},
    }
    return {
        "operationId": "about-formula",
        "summary": "What a formula takes, in which range, and what it gives",
        "tags": ["formulary"],
        "parameters": [name | {"description": "such as bolt-window"}],
        "responses": {
            "200": {"description": "the formula", "content": in_json(told)},
            "404": {
                "description": "There is no such formula; the nearest is named.",
                "content": wrong(),
            },
        },
    }


def shared(one: Formula, family: str) -> Schema:
    words = "\n\n".join(filter(None, (one.words, f"Source: {one.source}", f"Valid: {one.valid}")))
    return {"summary": one.title, "description": words, "tags": [family]}


def answers(one: Formula) -> dict[str, Schema]:
    """The responses: an answer with this function's own values, and what may be wrong."""
    known = [said.name_of(slot.name) for slot in one.gives if slot.form != "structure" and not one.many]
    values: Schema = {
        "type": "object",
        "required": known,
        "properties": {name: reference("Value") for name in known},
        "additionalProperties": reference("Value"),
    }
    answer: Schema = {
        "type": "object",
        "required": ["formula", "title", "says", "inputs", "values", "source", "valid", "basis"],
        "properties": {
            "formula": {"const": one.name},
            "title": {"type": "string"},
            "says": {"type": "string", "description": "the answer in one sentence"},
            "inputs": reference("Values"),
            "values": values,
            "source": {"type": "string"},
            "valid": {"type": "string"},
            "basis": {"const": "computed"},
        },
    }
    content = in_json(answer) | {"text/csv": {"schema": {"type": "string"}}}
    return {"200": {"description": "the answer", "content": content}} | mistakes("400", "422")


def asked(one: Formula, family: str) -> Schema:
    """The operation by address: every value typed with its unit."""
    texts, allowed = texts_to_try(one), ranges(one)
    parameters = [
        parameter(
            key, slot, needed, texts.get(key, example_of(slot)), allowed.get(slot.name) if "." not in key else None
        )
        for top in one.takes
        for key, slot, needed in parts(top, top.key, top.needed)
    ]
    return shared(one, family) | {
        "operationId": one.name,
        "parameters": [*parameters, *SHOWN],
        "responses": answers(one),
    }


def parts(slot: Slot, key: str, needed: bool) -> list[tuple[str, Slot, bool]]:
    """The places of a slot: parts of a structure apart, of many the first."""
    if slot.form != "structure":
        return [(key, slot, needed and slot.needed)]
    at = f"{key}.1" if slot.many else key
    return [place for part in slot.fields for place in parts(part, f"{at}.{part.key}", needed and part.needed)]


def parameter(key: str, slot: Slot, needed: bool, example: str, allowed: Range | None) -> Schema:
    schema: Schema = {"type": "string"} if slot.many else {"type": "string", "maxLength": LONGEST}
    if slot.form == "word" and slot.choices and not slot.many:
        schema["enum"] = list(slot.choices)
    return {
        "name": key,
        "in": "query",
        "required": needed,
        "description": told(slot, allowed) + ("; of the second one as .2" if ".1." in key else ""),
        "schema": schema,
        "example": example,
        **marks(slot),
    }


def told(slot: Slot, allowed: Range | None) -> str:
    """What goes there, its range, its choices, what is taken without it."""
    span = said.span_of(slot, allowed) if allowed else ""
    choices = f"one of: {'; '.join(slot.choices)}" if slot.choices else ""
    taken = f"{default} where nothing is sent" if (default := said.default_of(slot)) else ""
    return "; ".join(filter(None, (slot.words or said.said_name(slot.name), span, choices, taken)))


def marks(slot: Slot) -> Schema:
    return {"x-kind": slot.kind.name} | ({"x-unit": slot.kind.unit} if slot.form == "quantity" else {})


def sent(one: Formula, family: str) -> Schema:
    """The operation by JSON: numbers in SI, or texts with their unit."""
    allowed = ranges(one)
    body = whole(one.takes, {slot.name: allowed[slot.name] for slot in one.takes if slot.name in allowed})
    return shared(one, family) | {
        "operationId": f"{one.name}-json",
        "parameters": SHOWN,
        "requestBody": {"required": True, "content": in_json(body)},
        "responses": answers(one),
    }


def whole(slots: tuple[Slot, ...], allowed: dict[str, Range] | None = None) -> Schema:
    return {
        "type": "object",
        "required": [slot.key for slot in slots if slot.needed],
        "properties": {slot.key: property_of(slot, (allowed or {}).get(slot.name)) for slot in slots},
        "additionalProperties": False,
    }


def property_of(slot: Slot, allowed: Range | None) -> Schema:
    """A value in JSON: a number in SI within its range, or a text."""
    if slot.form == "structure":
        one = whole(slot.fields)
        return ({"type": "array", "minItems": 1, "items": one} if slot.many else one) | {"description": slot.words}
    text: Schema = {"type": "string"} if slot.many else {"type": "string", "maxLength": LONGEST}
    kinds: list[Schema] = [text]
    if slot.kind.name == "yes-no":
        one_of_two: Schema = {"type": "boolean"}
        kinds.insert(0, {"type": "array", "minItems": 1, "items": one_of_two} if slot.many else one_of_two)
    elif slot.form == "word" and slot.choices:
        kinds = [{"type": "string", "enum": list(slot.choices)}]
    elif slot.form in ("quantity", "whole"):
        number = {"type": "integer" if slot.kind.name == "count" else "number"} | limits(allowed)
        kinds.insert(0, {"type": "array", "minItems": 1, "items": number} if slot.many else number)
    return (kinds[0] if len(kinds) == 1 else {"anyOf": kinds}) | {"description": told(slot, allowed)} | marks(slot)


def limits(allowed: Range | None) -> Schema:
    out: Schema = {}
    if allowed and allowed.low is not None:
        out["exclusiveMinimum" if allowed.above else "minimum"] = allowed.low
    if allowed and allowed.high is not None:
        out["maximum"] = allowed.high
    return out
