"""The Trouble room: all of them by corner, and one with what was seen and a form to add to it."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.choice_made import Choice
from axlewright.plan.corners import corner_now
from axlewright.plan.drawn_up import chosen as chosen_of
from axlewright.plan.drawn_up import will_be_drawn
from axlewright.plan.pack import pack
from axlewright.plan.quantities_of import Known
from axlewright.plan.sheet.revisions import corner_words
from axlewright.plan.sheet.trouble import trouble_sheet
from axlewright.plan.work_waits import waits_of, waits_section
from axlewright.render import html
from axlewright.render.show import Words
from axlewright.sheets.figures import empty
from axlewright.trade.findings import findings
from axlewright.web.forms import Typed, by_field, form_id, meant, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages.ask import GROUPS
from axlewright.yard import COURSES, Fault, Faults, Trouble, Yard
from axlewright.yard.asked import WALK_ROUND, open_boxes

router = APIRouter()
FIRST = ("fluid", "where", "breather", "level", "plug", "bolts", "nuts", "rock")
PLAIN = ("clock", "which", "who", "note")


@router.get("/trouble", include_in_schema=False)
def troubles(request: Request) -> Response:
    """Every trouble, those that run first."""
    yard = store_of(request).read()
    today = day(request, yard)
    running, closed = [], []
    for one in reversed(yard.troubles):
        stage = yard.stage(one.number)
        row = {
            "number": one.number,
            "where": corner_words(yard, one.corner),
            "stage": stage,
            "opened": one.opened.isoformat(),
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
        empty=html.picture(empty.trouble(), Words(show_for(yard), {}), "none")["svg"],
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
    now = desk.Now(datetime.now().astimezone(), chosen["who"] or "owner", lambda: uuid.uuid4().hex[:12])
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
    return RedirectResponse(f"/trouble/{number}", 303)


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
    today = day(request, yard)
    choice = choice_of_page(yard, one, today)
    waits = waits_section(waits_of(yard, one, today), one.number)
    made, up = pack(trouble_sheet(yard, one, today, choice, waits)), will_be_drawn(yard, one, today)
    rest = [name for name in findings() if name not in FIRST]
    wrong = dict(faults or {})
    return page(
        "trouble.html",
        "Trouble",
        status=status,
        title=f"Trouble {one.number}",
        number=one.number,
        body=html.body(made.sheets[0], made, show_for(yard)),
        stopped=len(up) == 1,
        asks=[_ask(name) for name in FIRST],
        more=[_ask(name) for name in rest],
        more_open=any(chosen.get(name) for name in rest),
        chosen=chosen,
        faults=wrong,
        takes=meant(wrong.get("clock")),
        clocks=yard.machine(one.corner.machine).clocks,
        form_id=form_id(form),
        settle_id=form_id(),
        groups=_groups(yard, one),
        courses=COURSES,
        course=yard.course(one.number) or "",
        sheets=[{"name": name, "title": title} for name, title in up],
        draw_id=form_id(),
        packs=[{"key": s.pack, "on": s.on.isoformat()} for s in reversed(yard.stages_of(one.number)) if s.pack],
    )


def choice_of_page(yard: Yard, one: Trouble, today: date) -> Choice | None:
    """The choice of a trouble, where one can be made out; the Choice sheet says why not."""
    found = chosen_of(yard, one, today)
    return found if isinstance(found, Choice) else None


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
        rows.append({"id": group, "name": name, "told": told or "all known"})
    return rows


def _ask(name: str) -> dict[str, Any]:
    finding = findings()[name]
    return {"id": name, "name": finding.name[0].upper() + finding.name[1:], "grades": finding.grades}
