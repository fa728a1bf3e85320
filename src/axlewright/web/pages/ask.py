"""What is asked of a trouble, group by group, with what is known already; the walk-round box by box; the course taken."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.bearings_of import is_printed
from axlewright.plan.quantities_of import walked_round
from axlewright.plan.sheet.revisions import corner_words
from axlewright.store import Store
from axlewright.trade.questions import Question, in_group
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import page, store_of
from axlewright.yard import Change, Fault, Faults, Trouble, Yard
from axlewright.yard.asked import WALK_ROUND, answers_of, design_of, is_asked, open_boxes, ticks, words_answered

router = APIRouter()
GROUPS = {
    "choice": "Prices and waits",
    "bolts": "Flange bolts",
    "machine": "Machine",
    "wheel": "Wheel",
    "drive": "Drive",
    "bearings": "Bearings",
    "jack": "Jack",
    "loader": "Loader",
    "hoist": "Hoist",
    "lift": "On forks or hook",
    "work": "The work",
    "gear": "Gear of the shed",
    "parts": "Parts",
    WALK_ROUND: "Walk-round",
}
OF_A_KIND = ("bearings", "bolts", "drive")  # what all drives of a kind share, asked of the kind itself too


@router.get("/trouble/{number:int}/ask/{group}", include_in_schema=False)
def ask(request: Request, number: int, group: str) -> Response:
    """The questions of a group, each with what is known."""
    yard = store_of(request).read()
    return shown(yard, yard.trouble(number), known_group(group), {})


@router.post("/trouble/{number:int}/ask/{group}", include_in_schema=False)
async def tell(request: Request, number: int, group: str) -> Response:
    """Keep what was answered."""
    return await run_in_threadpool(told, request, number, known_group(group), await typed(request))


@router.post("/trouble/{number:int}/settle", include_in_schema=False)
async def settle(request: Request, number: int) -> Response:
    """Keep the course that was taken."""
    return await run_in_threadpool(settled, request, number, await typed(request))


def known_group(group: str) -> str:
    if group not in GROUPS:
        raise HTTPException(404, f"nothing is asked under {group}")
    return group


def now_of(given: Typed) -> desk.Now:
    return desk.Now.by(given.one("who"))


def told(request: Request, number: int, group: str, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    one = yard.trouble(number)
    typed_in = {asked.id: given.one(asked.id) for asked in in_group(group)}
    kept = {name: answer.value for name, answer in answers_of(yard, one).items()}
    boxes = group == WALK_ROUND
    values = {n: v for n, v in typed_in.items() if v and (boxes or v != kept.get(n))}
    fields: dict[str, Any] = {
        "id": form_id(given.one("form")),
        "trouble": number,
        "values": values,
        "on": request.app.state.today,
    }
    now = now_of(given)

    def deed(standing: Yard) -> Change:
        if boxes:
            return desk.walk_round(standing, desk.typed(desk.WalkedRound, standing, fields), now)
        basis = {"basis": given.one("basis"), "source": given.one("source")}
        return desk.answer(standing, desk.typed(desk.Answers, standing, {**fields, **basis}), now)

    if faults := kept_or(store, deed, values, typed_in):
        return shown(yard, one, group, typed_in, faults, given=given, status=400)
    return RedirectResponse(
        f"/trouble/{number}/ask/{group}" if boxes else f"/trouble/{number}?moved={fields['id']}", 303
    )


def kept_or(
    store: Store, deed: Callable[[Yard], Change], values: Mapping[str, str], names: Iterable[str]
) -> dict[str, Fault]:
    """What was answered is kept; or what is wrong with it, by the field where it stands."""
    try:
        if not values:
            raise Faults(Fault("values", "Nothing was answered.", "Type at least one value, or go back."))
        desk.carry_out(store, deed)
    except Faults as bad:
        return by_field(bad.faults, [*names, "who", "source"], "values")
    return {}


def settled(request: Request, number: int, given: Typed) -> Response:
    now, store = now_of(given), store_of(request)
    fields = {
        "id": form_id(given.one("form")),
        "trouble": number,
        "course": given.one("course"),
        "on": request.app.state.today,
    }
    desk.carry_out(store, lambda yard: desk.settle(yard, desk.typed(desk.Settle, yard, fields), now))
    return RedirectResponse(f"/trouble/{number}#asked", 303)


def shown(
    yard: Yard,
    one: Trouble,
    group: str,
    typed_in: Mapping[str, str],
    faults: Mapping[str, Fault] | None = None,
    given: Typed | None = None,
    status: int = 200,
) -> Response:
    """The page of a group."""
    given = given or Typed()
    answers, own = answers_of(yard, one), yard.answered(trouble=one.number)
    boxes = group == WALK_ROUND
    words = words_answered(yard, one)
    design = design_of(yard, one) if group in OF_A_KIND else None
    rows = [
        row_of(
            asked, typed_in.get(asked.id, ""), answers.get(asked.id), boxes and asked.id in own and ticks(own[asked.id])
        )
        for asked in in_group(group)
        if (asked.box or not boxes) and is_asked(asked, words)
    ]
    walked = walked_round(yard, one)
    return asked_page(
        "Trouble",
        group,
        given,
        faults,
        status,
        title=f"{GROUPS[group]}, trouble {one.number}",
        number=one.number,
        action=f"/trouble/{one.number}/ask/{group}",
        design=design.id if design else "",
        where=corner_words(yard, one.corner),
        boxes=boxes,
        rows=rows,
        open_still=len(open_boxes(yard, one)) if boxes else 0,
        walked=walked,
    )


def asked_page(
    room: str, group: str, given: Typed, faults: Mapping[str, Fault] | None, status: int, **more: Any
) -> Response:
    """The page of a group, of a trouble's or of a kind's, with what was typed beside its fields."""
    return page(
        "ask.html",
        room,
        status=status,
        group=group,
        name=GROUPS[group],
        faults=dict(faults or {}),
        form_id=form_id(given.one("form")),
        who=given.one("who"),
        basis=given.one("basis"),
        source=given.one("source"),
        **more,
    )


def row_of(asked: Question, typed_in: str, answer: Any, ticked: bool) -> dict[str, Any]:
    """A question as a field: what was typed just now, else what is known."""
    return {
        "id": asked.id,
        "asks": asked.asks,
        "help": asked.help,
        "example": asked.example,
        "words": asked.words(),
        "value": typed_in or (answer.value if answer else ""),
        "known": f"{answer.basis}, {answer.source}".rstrip(", ") if answer else "",
        "ticked": ticked,
        "printed": is_printed(asked.id),
        "between": f"{asked.between[0]} to {asked.between[1]}" if asked.between else "",
    }
