"""A page: a template of ours around what the rooms found, with the edge, the rooms and the style."""

from __future__ import annotations

import hashlib
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from fastapi.responses import HTMLResponse
from jinja2 import ChoiceLoader, Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request

from axlewright.render import html
from axlewright.render.show import Show, Words, show_of
from axlewright.store import Store
from axlewright.web.forms import meant
from axlewright.yard import Yard

HERE = Path(__file__).parent
ROOMS = (
    ("Yard", "/yard"),
    ("Trouble", "/trouble"),
    ("Shelf", "/shelf"),
    ("Bench", "/bench"),
    ("Due", "/due"),
    ("Season", "/season"),
    ("Formulary", "/formulary"),
)


@cache
def environment() -> Environment:
    made = Environment(
        loader=ChoiceLoader([FileSystemLoader(HERE / "templates"), FileSystemLoader(html.TEMPLATES)]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.update(
        rooms=ROOMS,
        sheet_css=styled("sheet.css"),
        room_css=styled("rooms.css"),
        takes=meant,
        **html.MACROS,
    )
    return made


@cache
def style(name: str) -> str:
    """A style sheet's text."""
    return html.css() if name == "sheet.css" else (HERE / "static" / name).read_text(encoding="utf-8")


@cache
def styled(name: str) -> str:
    """The address of a style sheet, with its digest: it may be kept for ever."""
    return f"/style/{hashlib.sha256(style(name).encode()).hexdigest()[:10]}/{name}"


def page(template: str, room: str, *, status: int = 200, **found: Any) -> HTMLResponse:
    """A page of a room."""
    written = environment().get_template(template).render(room=room, **found)
    return HTMLResponse(written, status, headers={"Cache-Control": "no-cache"})


def store_of(request: Request) -> Store:
    found: Store = request.app.state.store
    return found


def show_for(yard: Yard) -> Show:
    """Units, decimal mark, dates, currency and paper that the yard likes."""
    return show_of(yard.title)


def said_day(yard: Yard, on: date, today: date | None = None) -> str:
    """A date as the yard likes it; the year only where it is not today's."""
    return Words(show_for(yard), {}, today).day(on)


def day(request: Request, yard: Yard) -> date:
    """The date taken as today."""
    today: date | None = request.app.state.today
    return today or yard.today(date.today())
