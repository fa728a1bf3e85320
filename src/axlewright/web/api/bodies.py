"""What a program sends: read to an end that is kept, as JSON and nothing else, with the yard's decimal mark."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright.yard import Fault, Faults, Yard, faults_of

M = TypeVar("M", bound=BaseModel)


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
    """A body as what it must be. A number is a number here and a text a text; text with a number in it is as the yard types.

    Raises:
        Unread: it is no JSON object
        Faults: every field that cannot be; `where` is its name
    """
    context: dict[str, Any] = {"decimal": yard.title.decimal, "json": True}
    try:
        return model.model_validate_json(body, strict=True, context=context)
    except ValidationError as bad:
        broken = next((error for error in bad.errors() if error["type"] in ("json_invalid", "model_type") and not error["loc"]), None)  # fmt: skip
        if broken:
            right = "Send one JSON object, such as the description of this operation shows."
            raise Unread(Fault("body", "This is no JSON object.", right)) from None
        faults = faults_of(bad, model, lambda key: key or "body")
        raise Faults(*(replace(fault, right=in_json(fault.right)) for fault in faults)) from None


def in_json(right: str) -> str:
    """What would be right, as it stands in JSON and not in a file of the yard."""
    told = re.fullmatch(r"Write (\w+) = (.+)\.", right)
    if not told:
        return right
    value = f'"{told[2]}"' if re.fullmatch(r"\d{4}-\d\d-\d\d", told[2]) else told[2]
    return f'Write "{told[1]}": {value}.'
