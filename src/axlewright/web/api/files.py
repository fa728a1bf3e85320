"""Deeds that take a file: the file is the body, what is said of it stands in the address, as its deed's model has it."""

from __future__ import annotations

import re
from collections import defaultdict
from typing import Any, TypeVar

from pydantic import BaseModel
from starlette.requests import Request

from axlewright import desk
from axlewright.yard import Fault, Faults, Yard

D = TypeVar("D", bound=desk.Deed)
PART = re.compile(r"(\w+)\[([^\]]{1,60})\]")  # columns[machine]=Unit: deepObject of OpenAPI
OURS = frozenset({"preview"})
TRUE = {"true": True, "false": False}


def described(model: type[BaseModel], sent: str) -> dict[str, Any]:
    """The file and the parameters of an operation, for its description."""
    made = model.model_json_schema(ref_template=f"#/components/schemas/{sent}{{model}}")
    needed = made.get("required", [])
    parameters = [
        {"name": name, "in": "query", "required": name in needed, "schema": _plain(schema), **_style(_plain(schema))}
        for name, schema in made["properties"].items()
    ]
    file = {"schema": {"type": "string", "format": "binary"}}
    return {
        "parameters": parameters,
        "requestBody": {"required": True, "content": {"application/octet-stream": file}},
    }


def _plain(schema: dict[str, Any]) -> dict[str, Any]:
    """Without null: what is not said is left out of an address."""
    kinds = [one for one in schema.get("anyOf", ()) if one.get("type") != "null"]
    own = {key: value for key, value in schema.items() if key not in ("anyOf", "default", "title")}
    return {**own, **(kinds[0] if len(kinds) == 1 else {"anyOf": kinds} if kinds else {})}


def _style(schema: dict[str, Any]) -> dict[str, Any]:
    return {"style": "deepObject", "explode": True} if schema.get("type") == "object" else {}


def read(model: type[BaseModel], request: Request, yard: Yard) -> BaseModel:
    """What is said of the file in the address.

    Raises:
        Faults: every value that cannot be; one that comes twice
    """
    assert issubclass(model, desk.Deed)
    fields: dict[str, Any] = {}
    parts: dict[str, dict[str, str]] = defaultdict(dict)
    lists = {name for name, one in model.model_fields.items() if str(one.annotation).startswith("tuple")}
    for key, text in request.query_params.multi_items():
        if key in OURS:
            continue
        part = PART.fullmatch(key)
        if part:
            parts[part[1]][part[2]] = text
        elif key in lists:
            fields.setdefault(key, []).append(text)
        elif key in fields:
            raise Faults(Fault(key, f"It comes twice, as {fields[key]} and as {text}.", "Send it once."))
        else:
            fields[key] = TRUE.get(text, text)
    return desk.typed(model, yard, {**fields, **parts})
