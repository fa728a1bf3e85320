"""The Due room: what must be looked at next, the clocks as they read now, each after-check as it is made, and a calendar."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.background import BackgroundTask
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.desk.calendar import calendar_of, decisions
from axlewright.plan.due_dates import known, made_out
from axlewright.plan.in_hand.checks import checks_of, next_check
from axlewright.plan.pack import pack
from axlewright.plan.sheet.due import due_sheet
from axlewright.plan.sheet.revisions import corner_words
from axlewright.render import html
from axlewright.trade.findings import findings
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, said_day, show_for, store_of
from axlewright.web.pages.sheets import as_file
from axlewright.yard import Clock, Fault, Faults, Machine, Trouble, Yard
from axlewright.yard.card_values import look_of
from axlewright.yard.hours import spell

router = APIRouter()
HOURS = {"hours": "clock"}
MOST_AT_ONCE = 4  # dates to decide by that are made out behind a page


@router.get("/due", include_in_schema=False)
def due(request: Request) -> Response:
    """What falls due today and after."""
    return room(request, store_of(request).read(), Typed())


@router.get("/due.ics", include_in_schema=False)
def calendar(request: Request) -> Response:
    """The same as a calendar file."""
    yard = store_of(request).read()
    today = day(request, yard)
    data = calendar_of(yard, today, decisions(yard, today))
    return Response(data, media_type="text/calendar; charset=utf-8", headers={"Cache-Control": "no-cache"})


@router.get("/due.{ending}", include_in_schema=False)
def sheet(request: Request, ending: str) -> Response:
    """The sheet as a file."""
    return as_file(request, ending, lambda yard, today: due_sheet(yard, today, decisions(yard, today)))


@router.post("/due", include_in_schema=False)
async def read(request: Request) -> Response:
    """Keep the clocks as they were typed."""
    return await run_in_threadpool(clocks_read, request, await typed(request))


def clocks_read(request: Request, given: Typed) -> Response:
    """Every clock that reads other than it stood; those that cannot be are said, the rest are kept."""
    store = store_of(request)
    yard, faults = store.read(), []
    now = desk.Now.by(given.one("who"))
    for machine in yard.machines:
        for clock in machine.clocks:
            name, text = f"{machine.id}.{clock}", given.one(f"{machine.id}.{clock}")
            if not text or text == stood(request, yard, machine, clock):
                continue
            fields = {"id": f"{form_id(given.one('form'))}-{machine.id}.{clock}", "machine": machine.id, "hours": text}
            try:
                deed = desk.typed(desk.ReadClock, yard, {**fields, "clock": clock, "on": request.app.state.today})
                yard, _ = desk.carry_out(store, _reads(deed, now))
            except Faults as bad:
                faults += [Fault(name, one.what, one.right) for one in bad.faults]
    if faults:
        return room(request, store.read(), given, tuple(faults), 400)
    return RedirectResponse("/due", 303)


def _reads(deed: desk.ReadClock, now: desk.Now) -> Any:
    return lambda standing: desk.read_clock(standing, deed, now)


def stood(request: Request, yard: Yard, machine: Machine, clock: Clock) -> str:
    """What a clock reads, as it stands in its field."""
    hours = yard.hours(machine.id, day(request, yard), clock)
    return spell(hours.hours).replace("\u00a0", " ") if hours else ""


def room(request: Request, yard: Yard, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200) -> Response:
    """The room, with a field for each clock."""
    today = day(request, yard)
    dates, missing = known(yard, today)
    made = pack(due_sheet(yard, today, dates, len(missing)))
    fields = [
        {
            "name": f"{machine.id}.{clock}",
            "label": f"{machine.name}, {clock}",
            "value": given.one(f"{machine.id}.{clock}") or stood(request, yard, machine, clock),
        }
        for machine in yard.machines
        for clock in machine.clocks
    ]
    answer = page(
        "due.html",
        "Due",
        status=status,
        title="Due",
        body=html.body(made.sheets[0], made, show_for(yard)),
        fields=fields,
        who=given.one("who"),
        form_id=form_id(),
        faults=by_field(faults, [field["name"] for field in fields], "clocks"),
    )
    if missing:  # once the page is sent: nobody waits for it
        answer.background = BackgroundTask(made_out, yard, today, MOST_AT_ONCE)
    return answer


# one after-check
@router.get("/trouble/{number:int}/after/{look}", include_in_schema=False)
def after(request: Request, number: int, look: str) -> Response:
    """An after-check to be made."""
    yard = store_of(request).read()
    return to_make(request, yard, yard.trouble(number), look, Typed())


@router.post("/trouble/{number:int}/after/{look}", include_in_schema=False)
async def made(request: Request, number: int, look: str) -> Response:
    """Keep what it showed."""
    return await run_in_threadpool(kept, request, number, look, await typed(request))


def kept(request: Request, number: int, look: str, given: Typed) -> Response:
    store, row = store_of(request), look_of(look)
    yard = store.read()
    found = {name: given.one(name) for name in (row.finds if row else ()) if given.one(name)}
    fields = {
        "id": form_id(given.one("form")),
        "trouble": number,
        "look": look,
        "found": found,
        "says": given.one("says"),
        "hours": given.one("clock"),
        "clock": given.one("which"),
        "note": given.one("note"),
        "on": request.app.state.today,
    }
    now = desk.Now.by(given.one("who"))
    try:
        deed = desk.typed(desk.LookAfter, yard, fields)
        desk.carry_out(store, lambda standing: desk.do_after_check(standing, deed, now))
    except Faults as bad:
        return to_make(request, yard, yard.trouble(number), look, given, bad.faults, 400)
    return RedirectResponse("/due", 303)


def to_make(
    request: Request,
    yard: Yard,
    one: Trouble,
    look: str,
    given: Typed,
    faults: tuple[Fault, ...] = (),
    status: int = 200,
) -> Response:
    """The page of an after-check: when it is due, what it may show, the clock."""
    row = look_of(look)
    running = next((check for check in checks_of(yard, one.number) if check.look == look), None)
    if row is None or running is None:
        raise HTTPException(404, f"no after-check {look} runs for trouble {one.number}")
    told = next_check(yard, one, running, day(request, yard))
    clocks = yard.machine(one.corner.machine).clocks
    asks = [(name, findings()[name].name, findings()[name].grades) for name in row.finds]
    return page(
        "after_check.html",
        "Due",
        status=status,
        title=f"{row.look}, trouble {one.number}",
        number=one.number,
        look=look,
        words=f"{row.look[0].upper()}{row.look[1:]}",
        where=corner_words(yard, one.corner),
        at=spell(told.at) if told.at is not None else "",
        morning=said_day(yard, told.morning, day(request, yard)) if told.morning else "",
        wheel_off=told.wheel_off,
        made=[(said_day(yard, made.on, day(request, yard)), spell(made.hours), made.moved) for made in told.made],
        note_of=row.note,
        asks=asks,
        answers=row.answers,
        clocks=clocks,
        given=given,
        form_id=form_id(given.one("form")),
        faults=by_field(faults, (*row.finds, "says", "clock", "note", "who"), "look", HOURS),
    )
