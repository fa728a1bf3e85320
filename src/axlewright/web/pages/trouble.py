"""The Trouble room: all of them by corner, and one with what was seen and a form to add to it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.corners import corner_now
from axlewright.plan.drawn_up import will_be_drawn
from axlewright.plan.once import KeptOfYard
from axlewright.plan.pack import pack
from axlewright.plan.quantities_of import Known
from axlewright.plan.sheet.trouble import OnPage, look_of, trouble_drawn
from axlewright.plan.sheet.trouble_asks import FIND_OUT, Next
from axlewright.plan.sheet.trouble_moved import Stands, moved_section, still_making, told_with, without
from axlewright.plan.work_waits import waits_of, waits_section
from axlewright.render import html
from axlewright.render.show import Show, Words
from axlewright.render.tree import Tree, tree
from axlewright.sheets.figures import empty
from axlewright.trade.findings import findings
from axlewright.trade.questions import in_group
from axlewright.web.forms import Typed, by_field, form_id, meant, typed
from axlewright.web.making import AGAIN, MOST, PATIENCE, begin, choice_soon
from axlewright.web.page import day, page, said_day, show_for, store_of
from axlewright.web.pages.ask import GROUPS
from axlewright.web.pages.in_hand import remembered
from axlewright.web.question import left_out, question, said_of
from axlewright.yard import COURSES, Fault, Faults, Trouble, Yard
from axlewright.yard.asked import WALK_ROUND, open_boxes

router = APIRouter()
FIRST = ("fluid", "where", "breather", "level", "plug", "bolts", "nuts", "rock")
ORDER = (*FIRST, *(name for name in findings() if name not in FIRST))
PLAIN = ("clock", "which", "who", "note")


@router.get("/trouble", include_in_schema=False)
def troubles(request: Request) -> Response:
    """Every trouble, those that run first."""
    yard = store_of(request).read()
    today = day(request, yard)
    words = Words(show_for(yard), {}, today)
    running, closed = [], []
    for one in reversed(yard.troubles):
        stage = yard.stage(one.number)
        row = {
            "number": one.number,
            "where": yard.named(one.corner),
            "stage": stage,
            "opened": words.day(one.opened),
        }
        if stage == "put by":
            closed.append(row)
        else:
            now = corner_now(yard, one.corner, today).verdicts
            running.append({**row, "words": f"field {now.field.word}, road {now.road.word}"})
    unseen = sum(not corner_now(yard, corner, today).standing.looked for corner in yard.corners)
    return page(
        "troubles.html",
        "Trouble",
        title="Trouble",
        yard=yard.title.name,
        answer=_answer(len(running), unseen),
        running=running,
        closed=closed,
        empty=html.picture(empty.trouble(), words, "none")["svg"],
    )


def _answer(running: int, unseen: int) -> str:
    troubles = f"{running} trouble{'' if running == 1 else 's'} running" if running else "No trouble is written down"
    corners = f", {unseen} corner{'' if unseen == 1 else 's'} not looked at" if unseen else ""
    return f"{troubles}{corners}."


@router.get("/trouble/{number:int}", include_in_schema=False)
def trouble(request: Request, number: int) -> Response:
    """One trouble."""
    yard = store_of(request).read()
    return shown(request, yard, yard.trouble(number), {})


@router.post("/trouble/{number:int}", include_in_schema=False)
async def add(request: Request, number: int) -> Response:
    """Keep what was seen at it."""
    return await run_in_threadpool(added, request, number, await typed(request))


def added(request: Request, number: int, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    one = yard.trouble(number)
    chosen = {name: given.one(name) for name in (*findings(), *PLAIN)}
    chosen["clock"] = given.one("take") or chosen["clock"]
    now = desk.Now.by(chosen["who"])
    try:
        seen = desk.typed(
            desk.Seen,
            yard,
            {
                "id": form_id(given.one("form")),
                "trouble": number,
                "corner": str(one.corner),
                "marks": [
                    {"finding": name, "grade": chosen[name], "note": chosen["note"]}
                    for name in findings()
                    if chosen[name]
                ],
                "hours": chosen["clock"] or None,
                "clock": chosen["which"] or None if chosen["clock"] else None,
                "on": request.app.state.today,
            },
        )
        desk.carry_out(store, lambda standing: desk.add_findings(standing, seen, now))
    except Faults as bad:
        faults = by_field(bad.faults, (*findings(), *PLAIN, "marks"), "clock" if chosen["clock"] else "marks", HOURS)
        return shown(request, yard, one, chosen, faults, status=400, form=given.one("form"))
    after = store.read()
    begin(after, after.trouble(number), day(request, after))
    return RedirectResponse(f"/trouble/{number}?moved={seen.id}", 303)


HOURS = {"hours": "clock"}


def shown(
    request: Request,
    yard: Yard,
    one: Trouble,
    chosen: Mapping[str, str],
    faults: Mapping[str, Fault] | None = None,
    status: int = 200,
    form: str = "",
) -> Response:
    """The page of a trouble, with what was typed if it could not be kept."""
    today, show, number = day(request, yard), show_for(yard), one.number
    view = view_of(request, yard, one, today, show)
    first, wrong = view.asks[0] if view.asks else None, dict(faults or {})
    left_out = view.left_out
    typed_in = Typed({"not": (",".join(left_out),)})
    asked = first is not None and not first.asked and not wrong and not view.making  # what is typed is not taken away
    answer = page(
        "trouble.html",
        "Trouble",
        status=status,
        title=f"Trouble {number}",
        number=number,
        tree=view.tree,
        find=FIND_OUT,
        q=question(yard, one, findings()[first.name], typed_in, today, show, remembered(request, "who"))
        if first and asked
        else None,
        left_out=[findings()[name].name for name in left_out],
        making=view.making,
        photos=photos_of(yard, one),
        stopped=len(view.up) == 1,
        put_by=yard.stage(number) == "put by",
        every=[_ask(name) for name in ORDER],
        many_open=bool(wrong),
        chosen=chosen,
        faults=wrong,
        takes=meant(wrong.get("clock")),
        clocks=yard.machine(one.corner.machine).clocks,
        form_id=form_id(form),
        settle_id=form_id(),
        groups=view.groups,
        courses=COURSES,
        course=yard.course(number) or "",
        sheets=[{"name": name, "title": title} for name, title in view.up],
        draw_id=form_id(),
        packs=[{"key": s.pack, "on": said_day(yard, s.on, today)} for s in reversed(yard.stages_of(number)) if s.pack],
    )
    if view.making and not wrong:
        answer.headers["Refresh"] = str(AGAIN)
    return answer


@dataclass(frozen=True, slots=True)
class View:
    """All of a trouble's page that hangs on the yard alone; made once for one picture of it."""

    tree: Tree
    asks: tuple[Next, ...]
    up: tuple[tuple[str, str], ...]
    groups: list[dict[str, str]]
    making: bool
    left_out: tuple[str, ...]


_VIEWS: KeptOfYard[View] = KeptOfYard(MOST)
_BEFORE: KeptOfYard[Yard] = KeptOfYard(16)


def view_of(request: Request, yard: Yard, one: Trouble, today: date, show: Show) -> View:
    """What is to be seen; what the last form moved and what somebody left out stand in the address."""
    asked, patience = request.query_params, getattr(request.app.state, "patience", PATIENCE)
    moved = form if re.fullmatch(r"[0-9a-f]{32}", form := asked.get("moved", "")) else ""
    skipped = left_out(asked.get("not", ""))
    choice, making = choice_soon(yard, one, today, patience)
    told = told_with(yard, moved) if moved else ()
    earlier, old, unmade = yard, choice, making
    if opened := bool(told) and one.id != moved:
        earlier = _BEFORE.get(yard, moved, lambda: without(yard, moved))
        old, unmade = choice_soon(earlier, one, today, patience)

    waiting = making or unmade

    def made() -> View:
        waits = waits_section(waits_of(yard, one, today), one.number, page=True)
        now = Stands(look_of(yard, one, today), choice)
        section = still_making() if opened else None
        if opened and not waiting:
            section = moved_section(yard, told, Stands(look_of(earlier, one, today), old), now)
        drawn = trouble_drawn(yard, one, today, choice, waits, OnPage(section, skipped, making))
        frozen = pack(drawn.drawn)
        grown = tree(frozen.sheets[0], frozen, show, html.numbered("trouble"))
        return View(grown, drawn.asks, will_be_drawn(yard, one, today), _groups(yard, one), waiting, skipped)

    return made() if waiting else _VIEWS.get(yard, (one.number, today, show, moved, skipped), made)


def photos_of(yard: Yard, one: Trouble) -> list[dict[str, str]]:
    """The photos of its findings, the newest first."""
    return [
        {"name": f.photo, "small": f"small/{f.photo}", "says": said_of(f)}
        for f in reversed(yard.findings_of(one.number))
        if f.photo
    ]


def _groups(yard: Yard, one: Trouble) -> list[dict[str, str]]:
    """The groups of questions, and how much of each is known."""
    rows, known = [], Known(yard, one)
    for group, name in GROUPS.items():
        if group == WALK_ROUND:
            left = len(open_boxes(yard, one))
            told = f"{left} boxes open" if left else "walked round"
        else:
            left, guessed = len(known.missing(group)), len(known.assumed(group))
            told = ", ".join(
                filter(None, (f"{left} not known" if left else "", f"{guessed} guessed" if guessed else ""))
            )
        none = not told and not any(one.id in known.answers for one in in_group(group))
        rows.append({"id": group, "name": name, "told": "nothing typed; need not be" if none else told or "all known"})
    return rows


def _ask(name: str) -> dict[str, Any]:
    finding = findings()[name]
    return {"id": name, "name": finding.name[0].upper() + finding.name[1:], "grades": finding.grades}
