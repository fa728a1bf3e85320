"""A machine and a drive, each by its life; and what is printed for a machine: its ready card."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.desk.moves import ASIDE
from axlewright.plan.pack import pack
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.life import drive_life, machine_life
from axlewright.plan.sheet.ready_card import ready_cards
from axlewright.render import html
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages.sheets import KINDS, file_of, files_of, given
from axlewright.yard import CLOCKS, Drive, Fault, Faults, Yard

router = APIRouter()
FIELDS = ("to", "out_to", "read", "clock", "hours", "over", "note", "who")


@router.get("/drive/{drive}", include_in_schema=False)
def drive(request: Request, drive: str) -> Response:
    """The life of a drive; with an ending it comes as a file. It is found by any number written on it."""
    yard = store_of(request).read()
    name, ending = parted(drive)
    one = yard.drive(name)
    if ending:
        return shown(request, yard, drive_life(yard, one, day(request, yard)), "Shelf", ending)
    return moving(request, yard, one, Typed())


@router.post("/drive/{drive}", include_in_schema=False)
async def move(request: Request, drive: str) -> Response:
    """Write a move of a drive."""
    return await run_in_threadpool(moved, request, drive, await typed(request))


def moved(request: Request, drive: str, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    one = yard.drive(drive)
    now = desk.Now.by(given.one("who"))
    said = {name: given.one(name) for name in FIELDS if name != "who"}
    said |= {"id": form_id(given.one("form")), "drive": one.id, "on": request.app.state.today}
    try:
        deed = desk.typed(desk.MoveDrive, yard, said)
        desk.carry_out(store, lambda standing: desk.move_drive(standing, deed, now))
    except Faults as bad:
        return moving(request, yard, one, given, bad.faults, 400)
    return RedirectResponse(f"/drive/{one.id}", 303)


def moving(
    request: Request, yard: Yard, one: Drive, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200
) -> Response:
    """The life of a drive, and the form that moves it."""
    made = pack(drive_life(yard, one, day(request, yard)))
    return page(
        "drive.html",
        {"shelf": "Shelf", "bench": "Bench"}.get(str(one.sits), "Yard"),
        status=status,
        title=one.name,
        address=f"/drive/{one.id}",
        body=html.body(made.sheets[0], made, show_for(yard)),
        places=places_for(yard, one),
        asides=[(aside, aside) for aside in ASIDE],
        clocks=[(clock, clock) for clock in CLOCKS],
        typed={name: given.one(name) for name in FIELDS},
        form_id=form_id(given.one("form") if faults else ""),
        faults=by_field(faults, FIELDS, "to"),
        files=files_of(f"/drive/{one.id}"),
    )


def places_for(yard: Yard, one: Drive) -> list[tuple[str, str]]:
    """Where a drive may go: first the corners that its kind fits, or all of them where nobody said; never where it sits."""
    design = next((kind for kind in yard.designs if kind.id == one.design), None)
    corners = design.fits if design and design.fits else yard.corners
    words = [(str(corner), yard.named(corner)) for corner in corners]
    return [(place, said) for place, said in (*words, *((aside, aside) for aside in ASIDE)) if place != str(one.sits)]


@router.get("/machine/{machine}", include_in_schema=False)
def machine(request: Request, machine: str) -> Response:
    """The life of a machine; with an ending it comes as a file."""
    yard = store_of(request).read()
    name, ending = parted(machine)
    return shown(request, yard, machine_life(yard, yard.machine(name), day(request, yard)), "Yard", ending)


@router.get("/machine/{machine}/{name}", include_in_schema=False)
def ready_card(request: Request, machine: str, name: str) -> Response:
    """The ready card of a machine; with an ending it comes as a file."""
    yard = store_of(request).read()
    made = pack(ready_cards(yard, yard.machine(machine), day(request, yard)))
    return given(made, name, show_for(yard), request)


def parted(name: str) -> tuple[str, str]:
    """A name and the ending of a file, if it has one of ours."""
    stem, dot, ending = name.rpartition(".")
    return (stem, ending) if dot and ending in KINDS else (name, "")


def shown(request: Request, yard: Yard, drawn: Drawn, room: str, ending: str) -> Response:
    made, show = pack(drawn), show_for(yard)
    if ending:
        return file_of(made, ending, show)
    sheet = made.sheets[0]
    return page(
        "sheet_page.html",
        room,
        title=sheet.block.corner,
        body=html.body(sheet, made, show),
        files=files_of(request.url.path),
    )
