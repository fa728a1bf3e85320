"""What went wrong, for programs: problem details after RFC 9457, with every mistake by its place."""

from __future__ import annotations

from http import HTTPStatus
from typing import Any, Literal

from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright.yard import Fault, Faults, Moved

HOME = "/api/"
MEDIA = "application/problem+json"
NOT_THERE = frozenset({"trouble", "corner", "machine", "drive", "pack", "sheet", "look"})
"""What an address names: a mistake in it alone means that there is no such thing."""

MEANS: dict[int, str] = {
    400: "It cannot be read: no JSON, or a value that is missing, unknown or in no unit.",
    403: "Whoever asks may not do this.",
    404: "There is no such thing; the nearest is named.",
    406: "It comes in no such form.",
    409: "Somebody else changed the yard in between. Nothing was written.",
    412: "The yard is no longer the one that If-Match names. Nothing was written.",
    413: "That is more than one operation takes. Nothing was changed.",
    422: "All was read, and it does not hold. Nothing was written.",
}
TITLES = {413: "Content Too Large", 422: "Unprocessable Content"}  # RFC 9110; Pythons differ in them


class Mistake(BaseModel):
    """One mistake."""

    where: str = Field(description="the value or the thing it is about")
    what: str = Field(description="what is wrong, a sentence")
    right: str = Field(description="what would be right, a sentence; may be empty")


class Problem(BaseModel):
    """What went wrong (RFC 9457). `faults` has all mistakes at once."""

    type: Literal["about:blank"] = Field(description="the status says what kind it is")
    title: str
    status: int = Field(ge=400, le=599)
    detail: str
    faults: list[Mistake]


def is_asked(request: Request) -> bool:
    """Whether a program asks, not a person at a page."""
    return request.url.path.startswith(HOME)


def problem(status: int, *faults: Fault, headers: dict[str, str] | None = None) -> JSONResponse:
    """The answer that says what went wrong."""
    rows = [{"where": one.where, "what": one.what, "right": one.right} for one in faults]
    detail = " ".join(filter(None, (faults[0].what, faults[0].right))) if faults else MEANS.get(status, "")
    said = {
        "type": "about:blank",
        "title": TITLES.get(status) or HTTPStatus(status).phrase,
        "status": status,
        "detail": detail,
        "faults": rows,
    }
    return JSONResponse(said, status, headers=headers, media_type=MEDIA)


def of(bad: Exception, *, deed: bool = False) -> JSONResponse:
    """The problem that an error stands for.

    Args:
        bad: the error
        deed: something was to be done: what is not there was named in it, not asked for
    """
    if isinstance(bad, Faults):
        lost = not deed and len(bad.faults) == 1 and bad.faults[0].where in NOT_THERE
        return problem(404 if lost else 422, *bad.faults)
    if isinstance(bad, Moved):
        right = "Read the yard again, look whether it still holds, then send it again."
        return problem(409, Fault("yard", "Somebody else changed the yard in the meantime.", right))
    if isinstance(bad, RequestValidationError):
        return problem(400, *(_parameter(error) for error in bad.errors()))
    assert isinstance(bad, HTTPException)
    plain = bad.detail == HTTPStatus(bad.status_code).phrase  # nobody said more
    what = MEANS.get(bad.status_code, bad.detail) if plain else bad.detail
    what = f"{what[:1].upper()}{what[1:].rstrip('.')}."
    return problem(bad.status_code, Fault("address", what), headers=dict(bad.headers or {}))


def _parameter(error: dict[str, Any]) -> Fault:
    """A mistake in the address or a header."""
    right = f"It must be {error['ctx']['expected']}." if "expected" in error.get("ctx", {}) else ""
    said = "It is missing." if error["type"] == "missing" else f"It cannot be read: {str(error['input'])[:40]}."
    return Fault(str(error["loc"][-1]), said, right)


def told(*codes: int) -> dict[int | str, dict[str, Any]]:
    """The mistakes of an operation, for its description."""
    schema = {"$ref": "#/components/schemas/Problem"}
    return {code: {"description": MEANS[code], "content": {MEDIA: {"schema": schema}}} for code in sorted(codes)}


def components() -> dict[str, Any]:
    """The schemas of what went wrong."""
    made = Problem.model_json_schema(ref_template="#/components/schemas/{model}")
    return {**made.pop("$defs"), "Problem": made}
