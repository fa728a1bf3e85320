"""The sheets of a trouble, and the blank ones: as a page, PDF, text or data."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from typing import Literal

from fastapi import APIRouter
from fastapi.responses import Response
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright.plan.drawn_up import BLANKS, blank, choice_pack, draw_up
from axlewright.plan.first_look import first_look
from axlewright.plan.pack import pack
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.make_safe import make_safe
from axlewright.render import ENDINGS, html, render
from axlewright.render.show import Show
from axlewright.sheets import Pack, Sheet, VerdictLine
from axlewright.sheets.figures.shapes import plain
from axlewright.web.page import day, page, show_for, store_of
from axlewright.yard import Yard

router = APIRouter()
KINDS = {
    "pdf": "application/pdf",
    "txt": "text/plain; charset=utf-8",
    "json": "application/json",
    "html": "text/html; charset=utf-8",
}


@router.get("/trouble/{number:int}/{name}", include_in_schema=False)
def sheet(request: Request, number: int, name: str) -> Response:
    """One sheet of a trouble; with an ending it comes as a file."""
    yard = store_of(request).read()
    one, today = yard.trouble(number), day(request, yard)
    made = choice_pack(yard, one, today) if name.partition(".")[0] == "choice" else None
    return given(made or draw_up(yard, one, today), name, show_for(yard), request)


@router.get("/make-safe", include_in_schema=False)
@router.get("/make-safe.{ending}", include_in_schema=False)
def stop(request: Request, ending: str = "") -> Response:
    """Make safe, before a machine is named: for what was ticked, or, where nothing was sent, for whatever it is."""
    yard = store_of(request).read()
    look = first_look(request.query_params.getlist("tick") or ("park=leans",))
    if not look.make_safe:
        raise HTTPException(404, "nothing of this stops it")
    if not request.query_params.getlist("tick"):
        look = replace(look, parked=(), lines=(replaced(look.lines[0], "park it where it stands."), look.lines[1]))
    made = pack(make_safe(look, Frame(yard=yard.title.name)))
    return given(made, f"make-safe.{ending}" if ending else "make-safe", show_for(yard), request)


def as_file(request: Request, ending: str, draw: Callable[[Yard, date], Drawn]) -> Response:
    """A room's sheet as a file."""
    if ending not in KINDS:
        raise HTTPException(404, f"there is no sheet {request.url.path}")
    yard = store_of(request).read()
    return file_of(pack(draw(yard, day(request, yard))), ending, show_for(yard))


def file_of(made: Pack, ending: str, show: Show) -> Response:
    """A pack as a file of one of our kinds."""
    return Response(render(made, show, ENDINGS[f".{ending}"]), media_type=KINDS[ending])


def files_of(path: str, asked: str = "") -> list[tuple[str, str]]:
    """Word and address of each kind of file that a page may be taken along as."""
    return [(word, f"{path}.{end}{asked}") for word, end in (("PDF", "pdf"), ("text", "txt"), ("JSON", "json"))]


def replaced(line: VerdictLine, words: str) -> VerdictLine:
    return line.model_copy(update={"words": (words,)})


@router.get("/blank/{name}", include_in_schema=False)
def blanks(request: Request, name: str, paper: Literal["A4", "Letter"] | None = None) -> Response:
    """A blank sheet to print and fill in by hand."""
    stem = name.partition(".")[0]
    of = next((one for one in BLANKS if stem == one or re.fullmatch(rf"{one}-\d", stem)), None)
    if of is None:
        raise HTTPException(404, f"there is no blank sheet {stem}")
    show = show_for(store_of(request).read())
    if paper:
        show = replace(show, paper=paper)
    return given(blank(of), name, show, request)


def _goes_on(pages: Sequence[Sheet], request: Request) -> list[tuple[str, str]]:
    """Name and address of each page that goes on with a sheet."""
    beside = request.url.path.rpartition("/")[0]
    return [(_page_name(plain(one.head).partition(" · ")[0]), f"{beside}/{one.name}") for one in pages]


def _page_name(head: str) -> str:
    """`2 of 7` where a page is told from the others by that alone."""
    page = re.search(r"\d+ of \d+$", head)
    return page[0] if page else head


def given(made: Pack, name: str, show: Show, request: Request) -> Response:
    """A sheet of a pack by its name, with all pages that go on with it, as a page or by its ending as a file."""
    stem, dot, ending = name.partition(".")
    found = tuple(one for one in made.sheets if one.name == stem or one.name.startswith(f"{stem}-"))
    if not found or (dot and ending not in KINDS):
        raise HTTPException(404, f"there is no sheet {name}")
    alone = made.model_copy(update={"sheets": found})
    first = next((one for one in found if one.name == stem), found[0])
    if not dot:
        asked = f"?{request.url.query}" if request.url.query else ""
        files = files_of(request.url.path, asked)
        return page(
            "sheet_page.html",
            "Trouble",
            title=first.block.title,
            body=html.body(first, made, show),
            goes_on=_goes_on([one for one in found if one is not first], request),
            files=files,
        )
    return file_of(alone, ending, show)
