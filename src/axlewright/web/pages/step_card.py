"""The step card as plain pages: one step a page, its readings against their bands; the card as a whole; a paper typed back."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from datetime import date, datetime
from typing import Any
from urllib.parse import quote, unquote

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.in_hand.card import conditions, jobs_of
from axlewright.plan.in_hand.worked import Want, Worked, two_people, worked
from axlewright.plan.pack import pack
from axlewright.plan.sheet.band_words import BandWords, verbs
from axlewright.plan.sheet.frame import Numbers
from axlewright.plan.sheet.revisions import corner_words
from axlewright.plan.sheet.step_now import step_now
from axlewright.plan.work_of import work_of
from axlewright.render import html
from axlewright.render.show import Words
from axlewright.render.tree import tree
from axlewright.sheets import Pack
from axlewright.trade.networks import Step
from axlewright.trade.steps_read import steps
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.yard import Change, Fault, Faults, Trouble, Yard
from axlewright.yard.asked import open_boxes
from axlewright.yard.card_values import spelled, words_of

router = APIRouter()
YEAR = 31_536_000  # s that a name is remembered on this telephone
UNIT = {"count": "", "class": "", "grade": "", "yes or no": "", "deg": "°"}


@router.get("/trouble/{number:int}/step", include_in_schema=False)
def card(request: Request, number: int) -> Response:
    """The card as a whole: where it stands, or what must be there before it is begun."""
    yard = store_of(request).read()
    return whole(request, yard, yard.trouble(number), Typed())


@router.post("/trouble/{number:int}/step", include_in_schema=False)
async def begin(request: Request, number: int) -> Response:
    """Begin the card."""
    given = await typed(request)
    fields = {
        "id": form_id(given.one("form")),
        "trouble": number,
        "job": given.one("job"),
        "when": tuple(given.all("when")),
        "hands": given.one("hands") or None,
        "first_time": bool(given.one("first_time")),
        "on": request.app.state.today,
    }
    return await run_in_threadpool(
        tried, request, number, given, lambda yard: desk.typed(desk.BeginCard, yard, fields), desk.begin_card, whole
    )


@router.post("/trouble/{number:int}/set-down", include_in_schema=False)
async def down(request: Request, number: int) -> Response:
    """The machine stands on its wheels: both clocks, and the looks that follow."""
    given = await typed(request)
    fields = {
        "id": form_id(given.one("form")),
        "trouble": number,
        "engine": given.one("engine"),
        "threshing": given.one("threshing"),
        "on": request.app.state.today,
    }
    return await run_in_threadpool(
        tried,
        request,
        number,
        given,
        lambda yard: desk.typed(desk.SetDown, yard, fields),
        desk.set_down,
        whole,
        f"/trouble/{number}/step#after",
    )


@router.get("/trouble/{number:int}/type-back", include_in_schema=False)
def paper(request: Request, number: int) -> Response:
    """A paper card to be typed back."""
    yard = store_of(request).read()
    return typing(request, yard, yard.trouble(number), Typed())


@router.post("/trouble/{number:int}/type-back", include_in_schema=False)
async def type_back(request: Request, number: int) -> Response:
    """Keep what stands on the paper."""
    given = await typed(request)
    names = [key.removeprefix("r-") for key in given.fields if key.startswith("r-")]
    fields = {
        "id": form_id(given.one("form")),
        "trouble": number,
        "part": given.one("part"),
        "revision": given.one("revision"),
        "values": {name: given.one(f"r-{name}") for name in names if given.one(f"r-{name}")},
        "up_to": given.one("up_to"),
        "seen_by": given.one("seen_by"),
        "time": given.one("time"),
        "note": given.one("note"),
        "on": given.one("on") or request.app.state.today,
    }
    return await run_in_threadpool(
        tried, request, number, given, lambda yard: desk.typed(desk.TypeBack, yard, fields), desk.type_back, typing
    )


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
    return desk.Now(datetime.now().astimezone(), who, lambda: uuid.uuid4().hex[:12])


def remembered(request: Request, name: str) -> str:
    return unquote(request.cookies.get(name, ""))[:120]


def known(answer: Response, given: Typed) -> Response:
    """Remember on this telephone who writes and who looks second."""
    for name in ("who", "seen_by"):
        if given.one(name):
            answer.set_cookie(name, quote(given.one(name)), max_age=YEAR, httponly=True, samesite="lax")
    return answer


# the card as a whole
def whole(
    request: Request,
    yard: Yard,
    one: Trouble,
    given: Typed,
    faults: tuple[Fault, ...] = (),
    status: int = 200,
) -> Response:
    """The page of the card."""
    stands = worked(yard, one)
    found: dict[str, Any] = {
        "number": one.number,
        "where": corner_words(yard, one.corner),
        "faults": by_field(faults, ("job", "when", "hands", "engine", "threshing"), "trouble"),
        "form_id": form_id(given.one("form")),
        "who": given.one("who") or remembered(request, "who"),
        "given": given,
        "title": f"Step card, trouble {one.number}",
    }
    if stands is None:
        return page(
            "card_begin.html", "Trouble", status=status, **found, **_before(yard, one, given, day(request, yard))
        )
    left = desk.steps_left(stands)
    clocks = yard.machine(one.corner.machine).clocks
    return page(
        "card.html",
        "Trouble",
        status=status,
        **found,
        card=stands.card,
        job=stands.job.title,
        parts=[_part(stands, part) for part in stands.cards],
        at=_place(stands, stands.now),
        now=_title(stands.now),
        down=yard.stage(one.number) in ("set down", "looked after", "put by"),
        left=stands.name(left[0]) if left else "",
        clocks=clocks,
        photos=[r.photo for r in stands.records if r.photo],
    )


def _before(yard: Yard, one: Trouble, given: Typed, today: date) -> dict[str, Any]:
    """What a card would be begun with."""
    rows, work = steps(), work_of(yard, one, today)
    here = desk.here_of(work) if work else None
    found = jobs_of(rows, work.taken, here) if work and here else ()
    job = given.one("job") or (found[0].id if found else "")
    asked = conditions(rows, job, here) if here and job in {one.id for one in found} else ()
    ticked = set(given.all("when")) if given.fields else here.when if here else set()
    return {
        "course": work.taken if work else "",
        "jobs": [(one.id, one.title) for one in found],
        "job": job,
        "conditions": [(name, rows.words.when[name], name in ticked) for name in asked],
        "open_still": len(open_boxes(yard, one)),
        "hands": given.one("hands") or str((here and here.hands) or 2),
    }


def _part(stands: Worked, part: str) -> dict[str, Any]:
    rows = []
    for number, step in enumerate(stands.cards[part], 1):
        record = stands.done.get(step.task.id)
        rows.append(
            {
                "number": number,
                "title": step.task.title,
                "hold": bool(step.task.hold),
                "done": step.task.id in stands.done,
                "time": record.time if record else "",
                "href": _key(part, number),
            }
        )
    title = stands.rows.network[part].title if part else stands.job.title
    return {"part": part, "title": title, "rows": rows, "done": sum(row["done"] for row in rows)}


def _key(part: str, number: int) -> str:
    return f"{part}-{number}" if part else str(number)


def _place(stands: Worked, step: Step | None) -> str:
    return _key(*stands.place(step.task.id)) if step else ""


def _title(step: Step | None) -> str:
    return step.task.title if step else ""


# one step
@router.get("/trouble/{number:int}/step/{key}", include_in_schema=False)
def step(request: Request, number: int, key: str) -> Response:
    """One step."""
    yard = store_of(request).read()
    stands = begun(yard, number)
    if stands is None:
        return RedirectResponse(f"/trouble/{number}/step", 303)
    return at_step(request, yard, yard.trouble(number), stands, at_key(stands, key), Typed())


@router.post("/trouble/{number:int}/step/{key}", include_in_schema=False)
async def write(request: Request, number: int, key: str) -> Response:
    """Keep what was read; pass on where everything is there."""
    return await run_in_threadpool(written, request, number, key, await typed(request))


def begun(yard: Yard, number: int) -> Worked | None:
    return worked(yard, yard.trouble(number))


def at_key(stands: Worked, key: str) -> Step:
    """The step of a key of the address: 9, or bench-3.

    Raises:
        HTTPException: the card has none
    """
    part, _, number = key.rpartition("-")
    found = stands.at(part, int(number)) if number.isdecimal() and len(number) < 5 else None
    if found is None:
        raise HTTPException(404, f"this card has no step {key}")
    return found


def written(request: Request, number: int, key: str, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    one, stands = yard.trouble(number), begun(yard, number)
    if stands is None:
        return RedirectResponse(f"/trouble/{number}/step", 303)
    here = at_key(stands, key)
    now, form, faults = now_of(request, given), form_id(given.one("form")), []
    shared = {"trouble": number, "step": here.task.id, "seen_by": given.one("seen_by"), "on": request.app.state.today}
    values = _new_values(stands, here, given)
    go = given.one("go", "keep")
    try:
        if values:
            fields = {"id": form, "values": values, "note": given.one("note"), **shared}
            taken = desk.typed(desk.Take, yard, fields)
            desk.carry_out(store, lambda standing: desk.take_reading(standing, taken, now))
        if go in ("next", "undo"):
            said = desk.typed(desk.DoStep, yard, {"id": form, **shared})
            deed = desk.do_step if go == "next" else desk.undo_step
            desk.carry_out(store, lambda standing: deed(standing, said, now))
    except Faults as bad:
        faults = list(bad.faults)
    if faults:
        yard = store.read()
        fresh = begun(yard, number)
        assert fresh
        return at_step(request, yard, one, fresh, here, given, tuple(faults), 400)
    to = key
    if go == "next":
        after = begun(store.read(), number)
        part, at = stands.place(here.task.id)
        to = _key(part, at + 1) if after and after.at(part, at + 1) else ""
    return known(RedirectResponse(f"/trouble/{number}/step{f'/{to}' if to else ''}", 303), given)


def _new_values(stands: Worked, here: Step, given: Typed) -> dict[str, str]:
    """What was typed and is not what stands there already."""
    found = {}
    for key in given.fields:
        name, value = key.removeprefix("r-"), given.one(key)
        taken = stands.taken.get(name)
        reading = stands.rows.reading.get(name)
        same = taken and taken.record and reading and taken.typed == spelled(value, reading.unit)
        if key.startswith("r-") and value and not same:
            found[name] = value
    return found


def at_step(
    request: Request,
    yard: Yard,
    one: Trouble,
    stands: Worked,
    here: Step,
    given: Typed,
    faults: tuple[Fault, ...] = (),
    status: int = 200,
) -> Response:
    """The page of a step."""
    made = pack(step_now(yard, one, stands, here))
    grown = tree(made.sheets[0], made, show_for(yard), html.numbered("step"))
    sections = [section for band in grown["bands"] for section in band["sections"]]
    part, number = stands.place(here.task.id)
    fields = _fields(yard, stands, here, given, made)
    record = stands.done.get(here.task.id)
    closed = stands.holds_before(here.task.id)
    hold = here.task.hold
    wants = [want for want in stands.wants(here.task.id) if want.reading != "seen_by"]
    return page(
        "step.html",
        "Trouble",
        status=status,
        title=f"Step {number}, trouble {one.number}",
        number=one.number,
        at=number,
        of=len(stands.cards[part]),
        key=_key(part, number),
        back=_key(part, number - 1) if number > 1 else "",
        on=_key(part, number + 1) if number < len(stands.cards[part]) else "",
        tree=grown,
        told=sections[0],
        sections=sections[1:],
        hold=hold,
        must=hold.must if hold else "",
        second=bool(hold and two_people(hold)),
        fields=fields,
        closed=[(stands.name(s.task.id), _place(stands, s)) for s in closed[:1]],
        wants=_short(stands, wants),
        done=here.task.id in stands.done,
        by=record.who if record else "",
        seen_by=given.one("seen_by") or (record.seen_by if record else "") or remembered(request, "seen_by"),
        when=record.time if record else "",
        who=given.one("who") or remembered(request, "who"),
        faults=by_field(faults, (*(f["name"] for f in fields), "seen_by", "who", "note"), "step"),
        form_id=form_id(given.one("form") if status == 400 and not _kept(stands, given) else ""),
        kept=bool(faults) and _kept(stands, given),
    )


def _short(stands: Worked, wants: list[Want]) -> str:
    """What is missing, as short as it stands on a button."""
    readings = len({want.reading for want in wants if want.reading})
    first = next((want.step for want in wants if not want.reading), "")
    if first:
        return f"step {_key(*stands.place(first))} first"
    return f"{readings} reading{'s' if readings != 1 else ''} to come" if readings else ""


def _kept(stands: Worked, given: Typed) -> bool:
    """Whether readings of this form are kept, though the step is not passed."""
    form = given.one("form")
    return bool(form) and any(one.id.startswith(f"{form}-") for one in stands.records)


def _fields(yard: Yard, stands: Worked, here: Step, given: Typed, made: Pack) -> list[dict[str, Any]]:
    """The fields of a step: the figure a band waits for, then each reading with what its band says."""
    del made
    rows = stands.rows
    found: list[dict[str, Any]] = []
    ask, low = verbs(here.task)
    says = {"go on": "go on", "ask": ask, "now": low}
    for name in stands.readings_at(here.task):
        reading = rows.reading[name]
        figure = stands.figure_of(name)
        if figure and figure not in {field["name"] for field in found}:
            words = (rows.figures or {}).get(figure, figure)
            band = rows.band[name]
            found.append(_field(figure, f"{words[0].upper()}{words[1:]}", band.unit, given, "", (), "", False))
        taken = stands.taken.get(name)
        typed_before = taken.typed if taken and taken.record else ""
        field = _field(
            name, f"{reading.quantity[0].upper()}{reading.quantity[1:]}", reading.unit, given, typed_before,
            words_of(reading), says[taken.says] if taken and taken.says else "", bool(taken and taken.says == "now"),
        )  # fmt: skip
        if taken and taken.record is None:
            field["walked"] = f"walk-round: {taken.typed}"
        field["before"] = [
            f"{one.value}, {one.who}{f', {one.time}' if one.time else ''}"
            for one in stands.records
            if one.reading == name and not (taken and taken.record is one)
        ]
        found.append(field)
    return found


def _field(
    name: str, label: str, unit: str, given: Typed, typed_before: str, words: tuple[str, ...], says: str, must: bool
) -> dict[str, Any]:
    return {
        "name": name,
        "label": label,
        "unit": UNIT.get(unit, unit),
        "value": given.one(f"r-{name}") or typed_before.removesuffix(f" {unit}"),
        "words": words,
        "says": says,
        "must": must,
        "walked": "",
        "before": [],
    }


# a paper card
def typing(
    request: Request,
    yard: Yard,
    one: Trouble,
    given: Typed,
    faults: tuple[Fault, ...] = (),
    status: int = 200,
) -> Response:
    """The page on which a paper card is typed back: the readings of its front first, those of its back below."""
    stands = worked(yard, one)
    if stands is None:
        return RedirectResponse(f"/trouble/{one.number}/step", 303)
    part = given.one("part") or request.query_params.get("card", "")
    part = part if part in stands.cards else ""
    front = stands.front(part)
    back = [
        r.id
        for step in stands.cards[part]
        for r in step.task.readings
        if r.id not in front and r.id in stands.rows.reading
    ]
    numbers = Numbers()
    words, shown = BandWords(stands.rows, numbers), Words(show_for(yard), numbers.entries)
    fields = {name: _paper(stands, name, given, words, shown) for name in (*front, *back)}
    names = [*fields, *{field["figure"] for field in fields.values() if field["figure"]}]
    return page(
        "type_back.html",
        "Trouble",
        status=status,
        title=f"Type a paper card back, trouble {one.number}",
        number=one.number,
        where=corner_words(yard, one.corner),
        card=stands.card,
        part=part,
        steps=len(stands.cards[part]),
        front=[fields[name] for name in front],
        back=[fields[name] for name in back],
        given=given,
        who=given.one("who") or remembered(request, "who"),
        seen_by=given.one("seen_by") or remembered(request, "seen_by"),
        faults=by_field(faults, (*names, "revision", "up_to", "seen_by", "time", "on", "note"), "values"),
        form_id=form_id(given.one("form")),
    )


def _paper(stands: Worked, name: str, given: Typed, words: BandWords, shown: Words) -> dict[str, Any]:
    """A reading as a field of the paper, with its band in a line."""
    reading, row = stands.rows.reading[name], stands.rows.band.get(name)
    at = desk.place_of(stands, name)
    told = words.short(at.task, reading, row, stands.bands.get(name)) if row else ()
    _, number = stands.place(at.task.id)
    return {
        "name": name,
        "step": number,
        "label": f"{reading.quantity[0].upper()}{reading.quantity[1:]}",
        "unit": UNIT.get(reading.unit, reading.unit),
        "words": words_of(reading),
        "value": given.one(f"r-{name}"),
        "band": "".join(span.words for span in shown.spans(told)),
        "known": stands.taken[name].typed if name in stands.taken else "",
        "figure": (figure := stands.figure_of(name)),
        "hangs_on": (stands.rows.figures or {}).get(figure, figure),
        "figure_value": given.one(f"r-{figure}") if figure else "",
    }
