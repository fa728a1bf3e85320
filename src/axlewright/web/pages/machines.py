"""A machine and a drive, each by its life; and what is printed for a machine: its ready card."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import Response
from starlette.requests import Request

from axlewright.plan.pack import pack
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.life import drive_life, machine_life
from axlewright.plan.sheet.ready_card import ready_cards
from axlewright.render import ENDINGS, html, render
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages.sheets import KINDS, given
from axlewright.yard import Yard

router = APIRouter()


@router.get("/drive/{drive}", include_in_schema=False)
def drive(request: Request, drive: str) -> Response:
    """The life of a drive; with an ending it comes as a file. It is found by any number written on it."""
    yard = store_of(request).read()
    name, ending = parted(drive)
    return shown(request, yard, drive_life(yard, yard.drive(name), day(request, yard)), "Shelf", ending)


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
        return Response(render(made, show, ENDINGS[f".{ending}"]), media_type=KINDS[ending])
    sheet = made.sheets[0]
    files = [(word, f"{request.url.path}.{end}") for word, end in (("PDF", "pdf"), ("text", "txt"), ("JSON", "json"))]
    return page("sheet_page.html", room, title=sheet.block.corner, body=html.body(sheet, made, show), files=files)
