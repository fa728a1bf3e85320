"""The HTTP interface: what a person does at the pages, for programs; and the formulary.

    GET  /api/yard, /api/corners, /api/trouble/6 ...   what stands, as JSON (some of it as CSV too)
    GET  /api/trouble/6/sheets.pdf                     its sheets
    POST /api/deed/settle                              a deed, as JSON
    GET  /openapi.json                                 all of it described

Mistakes come as problem details (RFC 9457). Nothing here knows a rule of the yard: deeds are the desk's.
"""

from __future__ import annotations

import json
from typing import Any

from fastapi import APIRouter, FastAPI
from fastapi.responses import Response

from axlewright.web import openapi
from axlewright.web.api import deeds, formulas, problems, reads, sheets
from axlewright.web.api.formulas import si_unit
from axlewright.web.api.problems import is_asked
from axlewright.web.api.problems import of as problem_of

deeds.add_routes()
router = APIRouter()
for part in (formulas, deeds, reads, sheets):
    router.include_router(part.router)


def describe(app: FastAPI) -> None:
    """Let the app's /openapi.json tell of every operation. It is made, and written, when it is first asked for."""
    plain, written = app.openapi, bytearray()

    def whole() -> dict[str, Any]:
        if app.openapi_schema is None:
            made = plain()
            made["paths"] |= openapi.paths()
            schemas = made.setdefault("components", {}).setdefault("schemas", {})
            for more in (openapi.components(), problems.components(), deeds.components()):
                schemas.update({name: schema for name, schema in more.items() if name not in schemas})
            app.openapi_schema = made
        return app.openapi_schema

    def described() -> Response:
        if not written:
            written.extend(json.dumps(whole(), ensure_ascii=False, separators=(",", ":")).encode())
        return Response(bytes(written), media_type="application/json")

    app.openapi = whole  # type: ignore[method-assign]
    app.add_api_route("/openapi.json", described, include_in_schema=False)


__all__ = ["describe", "is_asked", "problem_of", "router", "si_unit"]
