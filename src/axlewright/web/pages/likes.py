"""How this yard prints: measures, dates, decimal mark, money and paper, seen at once on a few lines."""

from __future__ import annotations

from datetime import date
from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.render.show import Show, Words
from axlewright.sheets import BasisEntry, Day, Shown, text
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.yard import Fault, Faults, Yard

router = APIRouter()
FIELDS = ("name", "measures", "dates", "decimal", "currency", "paper")
CHOICES = {
    "measures": (("metric", "metric: t, N·m, bar, tyre"), ("us", "US: lb, lbf·ft, psi, tire")),
    "dates": (
        ("", "as the measures have it"),
        ("day month", "28 Aug 2026"),
        ("month day", "Aug 28, 2026"),
        ("ISO", "2026-08-28"),
    ),
    "decimal": ((".", "point: 12.5"), (",", "comma: 12,5")),
    "paper": (("A4", "A4"), ("Letter", "Letter")),
}
TRY = {"mass": 11_240.0, "torque": 386.5, "money": 1_850.0}


@router.get("/likes", include_in_schema=False)
def likes(request: Request) -> Response:
    """As it stands."""
    yard = store_of(request).read()
    return shown(request, yard, Typed({name: (getattr(yard.title, name) or "",) for name in FIELDS}))


@router.post("/likes", include_in_schema=False)
async def sent(request: Request) -> Response:
    """Keep it."""
    return await run_in_threadpool(kept, request, await typed(request))


def kept(request: Request, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    now = desk.Now.by(given.one("who"))
    try:
        deed = desk.typed(desk.Likes, yard, {name: given.one(name) for name in FIELDS})
        desk.carry_out(store, lambda standing: desk.like_so(standing, deed, now))
    except Faults as bad:
        return shown(request, yard, given, bad.faults, 400)
    return RedirectResponse("/likes", 303)


def shown(request: Request, yard: Yard, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200) -> Response:
    return page(
        "likes.html",
        "",
        status=status,
        title="How this yard prints",
        yard=yard.title.name,
        given=given,
        choices=CHOICES,
        example=example(show_for(yard), day(request, yard)),
        form_id=form_id(),
        faults=by_field(faults, FIELDS, "name"),
    )


def example(show: Show, today: date) -> list[tuple[str, str]]:
    """A few values as sheets have them now; they stand for nothing."""
    entries = {
        kind: BasisEntry(name=kind, kind=kind, value=si, basis="assumed", source="to show how it looks")
        for kind, si in TRY.items()
    }
    words = Words(show, entries)

    def said(kind: str, digits: int) -> Any:
        return words.plain(text(Shown(name=kind, si=TRY[kind], digits=digits, with_basis=False)))

    return [
        ("a mass", said("mass", 4)),
        ("a torque", said("torque", 4)),
        ("a price", said("money", 4)),
        ("a day", words.plain(text(Day(on=today)))),
        ("a word", words.said("tyre")),
        ("paper", show.paper),
    ]
