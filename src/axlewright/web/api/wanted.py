"""In which form an answer is wanted: by the ending of the address, else by Accept."""

from __future__ import annotations

from starlette.requests import Request

FORMS = ("text/csv", "application/json")


def wants_csv(request: Request) -> bool:
    """Whether the answer is wanted as CSV: the ending says so, or Accept names it before JSON."""
    asked = (part.partition(";")[0].strip().lower() for part in request.headers.get("accept", "").split(","))
    named = [one for one in asked if one in FORMS]
    return request.url.path.endswith(".csv") or named[:1] == ["text/csv"]
