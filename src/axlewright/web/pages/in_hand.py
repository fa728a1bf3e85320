"""What the pages of a step card share: a deed carried out or its form shown again, who writes, and how a step is addressed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from urllib.parse import quote, unquote

from fastapi.responses import RedirectResponse, Response
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.in_hand.worked import Worked
from axlewright.trade.networks import Step
from axlewright.web.forms import Typed
from axlewright.web.page import store_of
from axlewright.yard import Change, Faults, Yard

YEAR = 31_536_000  # s that a name is remembered on this telephone
UNIT = {"count": "", "class": "", "grade": "", "yes or no": "", "deg": "°"}

Deed = Callable[[Yard, Any, desk.Now], Change]
Shown = Callable[..., Response]


def tried(
    request: Request,
    number: int,
    given: Typed,
    read: Callable[[Yard], Any],
    deed: Deed,
    again: Shown,
    to: str = "",
) -> Response:
    """Carry a deed out and go on to the card; or show the same page with all that was typed and what is wrong."""
    store = store_of(request)
    try:
        made = read(store.read())
        desk.carry_out(store, lambda yard: deed(yard, made, now_of(request, given)))
    except Faults as bad:
        yard = store.read()
        return again(request, yard, yard.trouble(number), given, bad.faults, 400)
    return known(RedirectResponse(to or f"/trouble/{number}/step", 303), given)


def now_of(request: Request, given: Typed) -> desk.Now:
    who = given.one("who") or remembered(request, "who") or "owner"
    return desk.Now.by(who)


def remembered(request: Request, name: str) -> str:
    return unquote(request.cookies.get(name, ""))[:120]


def known(answer: Response, given: Typed) -> Response:
    """Remember on this telephone who writes and who looks second."""
    for name in ("who", "seen_by"):
        if given.one(name):
            answer.set_cookie(name, quote(given.one(name)), max_age=YEAR, httponly=True, samesite="lax")
    return answer


def key_of(part: str, number: int) -> str:
    return f"{part}-{number}" if part else str(number)


def place_key(stands: Worked, step: Step | None) -> str:
    return key_of(*stands.place(step.task.id)) if step else ""


def title_of(step: Step | None) -> str:
    return step.task.title if step else ""
