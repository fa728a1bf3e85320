"""The Shelf and the Bench: drives that sit at no machine, one that came in, ten turns done."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.kept import kept
from axlewright.plan.pack import pack
from axlewright.plan.sheet.bench import bench_sheet
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.shelf import shelf_sheet
from axlewright.render import html
from axlewright.trade.findings import findings
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages.sheets import as_file, files_of
from axlewright.yard import Fault, Faults, Yard

router = APIRouter()
ROOMS: dict[str, Callable[[Yard, date], Drawn]] = {"shelf": shelf_sheet, "bench": bench_sheet}
FIELDS = ("name", "numbers", "design", "hours", "about", "note", "who")


@router.get("/shelf", include_in_schema=False)
def shelf(request: Request) -> Response:
    """The spare drives."""
    return shown(request, store_of(request).read(), "shelf", Typed())


@router.get("/bench", include_in_schema=False)
def bench(request: Request) -> Response:
    """The drives being rebuilt."""
    return shown(request, store_of(request).read(), "bench", Typed())


@router.get("/shelf.{ending}", include_in_schema=False)
def shelf_file(request: Request, ending: str) -> Response:
    """The shelf's sheet as a file."""
    return as_file(request, ending, shelf_sheet)


@router.get("/bench.{ending}", include_in_schema=False)
def bench_file(request: Request, ending: str) -> Response:
    """The bench's sheet as a file."""
    return as_file(request, ending, bench_sheet)


@router.post("/shelf", include_in_schema=False)
async def to_shelf(request: Request) -> Response:
    """Write down a spare that came in, or ten turns."""
    return await run_in_threadpool(written, request, "shelf", await typed(request))


@router.post("/bench", include_in_schema=False)
async def to_bench(request: Request) -> Response:
    """Write down a drive that came in to be rebuilt."""
    return await run_in_threadpool(written, request, "bench", await typed(request))


def written(request: Request, place: str, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    now = desk.Now.by(given.one("who"))
    fields = {"id": form_id(given.one("form")), "on": request.app.state.today}
    try:
        if given.one("turned"):
            said = {**fields, "drive": given.one("turned"), "grade": given.one("grade")}
            turned = desk.typed(desk.Turned, yard, said)
            desk.carry_out(store, lambda standing: desk.turn_drive(standing, turned, now))
        else:
            said = {**fields, "sits": place, **{name: given.one(name) for name in FIELDS if name != "who"}}
            came_in = desk.typed(desk.DriveIn, yard, said)
            desk.carry_out(store, lambda standing: desk.drive_in(standing, came_in, now))
    except Faults as bad:
        return shown(request, yard, place, given, bad.faults, 400)
    return RedirectResponse(f"/{place}", 303)


def shown(
    request: Request, yard: Yard, place: str, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200
) -> Response:
    """The room, with what may be written in it."""
    today = day(request, yard)
    made = pack(ROOMS[place](yard, today))
    return page(
        "kept.html",
        place.capitalize(),
        status=status,
        title=place.capitalize(),
        place=place,
        body=html.body(made.sheets[0], made, show_for(yard)),
        drives=[(one.drive.id, one.drive.name) for one in kept(yard, place, today)] if place == "shelf" else [],
        grades=[(grade.id, grade.words) for grade in findings()["turn"].grades],
        designs=[(one.id, one.name) for one in yard.designs],
        typed={name: given.one(name) for name in (*FIELDS, "turned", "grade")},
        form_id=form_id(given.one("form") if faults else ""),
        turn_id=form_id(),
        faults=by_field(
            faults, (*FIELDS, "turned", "grade"), "turned" if given.one("turned") else "name", {"drive": "turned"}
        ),
        files=files_of(f"/{place}"),
    )
