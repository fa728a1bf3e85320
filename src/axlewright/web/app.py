"""The app: which page answers where, and what a mistake looks like."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from fastapi import FastAPI
from fastapi.exception_handlers import request_validation_exception_handler
from fastapi.exceptions import RequestValidationError
from fastapi.responses import PlainTextResponse, Response
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request

from axlewright import VERSION, store
from axlewright.web import api, page
from axlewright.web.guard import guard
from axlewright.web.pages import (
    ask,
    ask_design,
    comes_in,
    due,
    first,
    formulary,
    kept,
    likes,
    look,
    machines,
    packs,
    photos,
    search,
    season,
    sheets,
    step_card,
    take_in,
    trouble,
    yard,
)
from axlewright.yard import Fault, Faults, Moved

FOR_EVER = "public, max-age=31536000, immutable"


def make(where: str | Path, today: date | None = None) -> FastAPI:
    """The app over a yard.

    Args:
        where: the yard's folder or database
        today: the date taken as today; without it the yard's own, else the clock's
    """
    app = FastAPI(title="Axlewright", version=VERSION, docs_url=None, redoc_url=None, openapi_url=None)
    app.state.store = store.at(where, date.today)
    app.state.today = today
    app.add_middleware(GZipMiddleware, minimum_size=600, compresslevel=4)
    app.middleware("http")(guard)
    app.add_api_route("/style/{digest}/{name}", style, include_in_schema=False)
    for room in (
        ask,
        first,
        yard,
        packs,
        step_card,
        due,
        season,
        machines,
        look,
        photos,
        trouble,
        formulary,
        sheets,
        api,
        take_in,
        kept,
        comes_in,
        ask_design,
        likes,
        search,
    ):
        app.include_router(room.router)
    api.describe(app)
    app.add_exception_handler(Faults, unusable)
    app.add_exception_handler(Moved, moved)
    app.add_exception_handler(HTTPException, not_there)
    app.add_exception_handler(RequestValidationError, unreadable)
    return app


def style(digest: str, name: str) -> Response:
    """A style sheet; its address changes with its text, so it may be kept for ever."""
    if name not in ("sheet.css", "rooms.css"):
        raise HTTPException(404)
    return Response(page.style(name), media_type="text/css", headers={"Cache-Control": FOR_EVER})


def unusable(request: Request, bad: Exception) -> Response:
    """The yard's files cannot be read, or what was asked for is not in it."""
    assert isinstance(bad, Faults)
    if api.is_asked(request):
        return api.problem_of(bad)
    lost = len(bad.faults) == 1 and bad.faults[0].where in ("trouble", "corner", "machine", "drive", "pack")
    return page.page("faults.html", "Yard", status=404 if lost else 400, faults=bad.faults, lost=lost)


def moved(request: Request, bad: Exception) -> Response:
    if api.is_asked(request):
        return api.problem_of(bad)
    fault = Fault(
        "yard", "Somebody else changed the yard in the meantime.", "Nothing was written: go back and send it again."
    )
    return page.page("faults.html", "Yard", status=409, faults=(fault,), lost=False)


def not_there(request: Request, bad: Exception) -> Response:
    assert isinstance(bad, HTTPException)
    if api.is_asked(request):
        return api.problem_of(bad)
    if bad.status_code != 404:
        return PlainTextResponse(f"{bad.detail}\n", bad.status_code, headers=bad.headers)
    fault = Fault("page", f"There is no page {request.url.path} here.", "")
    return page.page("faults.html", "Yard", status=404, faults=(fault,), lost=True)


async def unreadable(request: Request, bad: Exception) -> Response:
    """A value in the address is none of those that go there."""
    assert isinstance(bad, RequestValidationError)
    return api.problem_of(bad) if api.is_asked(request) else await request_validation_exception_handler(request, bad)
