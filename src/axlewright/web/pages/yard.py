"""The Yard: machines from above, every corner one tap away, each clock kept up where it stands."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.once import KeptOfYard
from axlewright.plan.sheet.yard import MOST_DRAWN, Room, yard_room, yard_sheet
from axlewright.render import html
from axlewright.render.show import Words
from axlewright.render.tree import Grower, in_words
from axlewright.sheets import Section
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages.sheets import as_file, files_of
from axlewright.yard import Clock, Fault, Faults, Machine, Made, Yard
from axlewright.yard.hours import spell

router = APIRouter()
MORE = (1, 5, 10)  # h that one tap adds
MOVED_ON = Fault(
    "hours", "This clock was read since this page was made.", "Look at what it reads now, then add to that."
)
_LAST: KeptOfYard[Made | None] = KeptOfYard()
STALE = Fault("undo", "Somebody wrote to this yard since this page was made.", "Look at what it says now.")


@router.get("/yard", include_in_schema=False)
def yard(request: Request) -> Response:
    """The whole yard today; `from` says which machine of a long one is drawn first."""
    said = request.query_params.get("from", "1")
    return shown(request, store_of(request).read(), Typed(), first=int(said) - 1 if said.isdecimal() else 0)


@router.get("/yard.{ending}", include_in_schema=False)
def sheet(request: Request, ending: str) -> Response:
    """The sheet as a file."""
    return as_file(request, ending, yard_sheet)


@router.post("/yard", include_in_schema=False)
async def read_clock(request: Request) -> Response:
    """Keep what a clock reads."""
    return await run_in_threadpool(clock_read, request, await typed(request))


def clock_read(request: Request, given: Typed) -> Response:
    """A clock as it was typed, or so many hours on from what stood on the page."""
    store = store_of(request)
    yard = store.read()
    machine, clock, form = given.one("machine"), given.one("clock"), form_id(given.one("form"))
    first = _drawn_on(request, yard, machine)
    to = f"/yard{f'?from={first + 1}' if first else ''}#m-{machine}"
    if any(one.id == form for one in yard.clock_readings):  # sent twice
        return RedirectResponse(to, 303)
    if given.one("more") and given.one("stood") != stood_on(yard, machine, clock):
        return shown(request, yard, given, (MOVED_ON,), 409, first)
    try:
        fields = {
            "id": form,
            "machine": machine,
            "clock": clock,
            "hours": _hours(given, yard),
            "new_clock": bool(given.one("new_clock")),
            "on": request.app.state.today,
        }
        deed = desk.typed(desk.ReadClock, yard, fields)
        if deed.hours is None:
            raise Faults(Fault("hours", "No reading stands here.", "Type what the clock shows."))
        now = _now(given)
        desk.carry_out(store, lambda standing: desk.read_clock(standing, deed, now))
    except Faults as bad:
        return shown(request, yard, given, bad.faults, 400, first)
    return RedirectResponse(to, 303)


def stood_on(yard: Yard, machine: str, clock: str) -> str:
    """What a clock read last, as it stands in its form."""
    read = yard.clock_log(machine).readings("threshing" if clock == "threshing" else "engine")
    return spell(read[-1][1].hours).replace("\u00a0", " ") if read else ""


def _hours(given: Typed, yard: Yard) -> Any:
    """The reading: taken as it was meant, added by a tap to what stood there, or as typed."""
    if given.one("take"):
        return given.one("take")
    if not given.one("more"):
        return given.one("hours")
    stood = desk.typed(desk.ReadClock, yard, {"machine": "-", "hours": given.one("stood") or "0"}).hours or 0.0
    more = desk.typed(desk.ReadClock, yard, {"machine": "-", "hours": given.one("more")}).hours or 0.0
    return stood + more


def _now(given: Typed) -> desk.Now:
    return desk.Now.by(given.one("who"))


def _drawn_on(request: Request, yard: Yard, machine: str) -> int:
    """Number of the first machine of the sheet that draws this one."""
    for first in range(0, len(yard.machines), MOST_DRAWN):
        if any(one.id == machine for one, _ in yard_room(yard, day(request, yard), first).plans):
            return first
    return 0


@router.post("/yard/take-back", include_in_schema=False)
async def undo(request: Request) -> Response:
    """Take the last change back."""
    return await run_in_threadpool(taken_back, request, await typed(request))


def taken_back(request: Request, given: Typed) -> Response:
    """Only the change that stood on the page is taken back: another's is not, unseen."""
    store = store_of(request)
    yard, last = store.read(), store.last()
    if last is None or str(last.number) != given.one("number"):
        return shown(request, yard, given, (STALE,), 409)
    try:
        store.write(desk.take_back(yard, last, _now(given)), yard.seen)
    except Faults as bad:
        return shown(request, yard, given, tuple(Fault("undo", one.what, one.right) for one in bad.faults), 409)
    return RedirectResponse("/yard", 303)


def shown(
    request: Request, yard: Yard, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200, first: int = 0
) -> Response:
    """The room, with a form at each clock."""
    today, show = day(request, yard), show_for(yard)
    room = yard_room(yard, today, first)
    grower = Grower(Words(show, room.words.basis, today), html.numbered("yard"))
    at = (given.one("machine"), given.one("clock")) if faults else ("", "")
    wrong = by_field(faults, ("undo", "clock"), "clock", {"hours": "clock"})

    def grown(section: Section | None) -> Any:
        made = grower.section(section) if section else None
        return in_words(made, grower.words) if show.measures == "us" else made

    return page(
        "yard.html",
        "Yard",
        status=status,
        title="Yard",
        tree=grower.sheet(room.sheet),
        needs=grown(room.needs),
        plans=[
            {
                "id": one.id,
                "section": grown(plan),
                "clocks": [
                    _clock(yard, one, clock, grower.words, given, at == (one.id, clock)) for clock in one.clocks
                ],
            }
            for one, plan in room.plans
        ],
        every=grown(room.every),
        machines=grown(room.machines),
        empty=[grown(one) for one in room.empty],
        turn=_turn(room, len(yard.machines)),
        more=MORE,
        faults=wrong,
        elsewhere=bool(faults) and not any(at == (one.id, clock) for one, _ in room.plans for clock in one.clocks),
        last=_last(request, yard),
        files=files_of("/yard"),
    )


def _clock(yard: Yard, one: Machine, clock: Clock, words: Words, given: Typed, wrong: bool) -> dict[str, Any]:
    """A clock as it was last read, and what is typed in its form."""
    read = yard.clock_log(one.id).readings(clock)
    stood = stood_on(yard, one.id, clock)
    return {
        "clock": clock,
        "says": "threshing or cutting" if clock == "threshing" else clock,
        "machine": one.name,
        "stood": stood,
        "read": words.day(read[-1][0]) if read else "",
        "typed": (given.one("hours") if wrong else "") or stood,
        "form": form_id(given.one("form") if wrong else ""),
        "wrong": wrong,
    }


def _turn(room: Room, count: int) -> list[tuple[str, str]]:
    """The sheets before and after this one."""
    found = []
    if room.first:
        found.append(("the machines before", f"/yard?from={max(room.first - MOST_DRAWN, 0) + 1}"))
    if room.first + MOST_DRAWN < count:
        found.append(("the next machines", f"/yard?from={room.first + MOST_DRAWN + 1}"))
    return found


def _last(request: Request, yard: Yard) -> dict[str, str] | None:
    """The last change: who, when, what, and the number by which it is taken back. It is asked once for a picture."""
    made = _LAST.get(yard, "last", store_of(request).last)
    if made is None or made.edited:
        return None
    told = desk.told(made)
    when = f"{made.at.astimezone():%Y-%m-%d %H:%M}" if made.at else ""
    return {"number": str(made.number), "who": made.who, "when": when, "what": told} if told else None
