"""One step of the step card as a plain page: what to do, its readings against their bands, and a hold that no form passes."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.in_hand.worked import Want, Worked, two_people, worked
from axlewright.plan.pack import pack
from axlewright.plan.sheet.band_words import verbs
from axlewright.plan.sheet.step_now import step_now
from axlewright.render import html
from axlewright.render.tree import tree
from axlewright.sheets import Pack
from axlewright.trade.networks import Step
from axlewright.web.forms import Typed, by_field, form_id, typed, with_photo
from axlewright.web.page import page, show_for, store_of
from axlewright.web.pages import card
from axlewright.web.pages.in_hand import UNIT, key_of, known, now_of, place_key, remembered, tried
from axlewright.yard import Fault, Faults, Trouble, Yard
from axlewright.yard.card_values import spelled, words_of

router = APIRouter()
router.include_router(card.router)


@router.get("/trouble/{number:int}/step/{key}", include_in_schema=False)
def step(request: Request, number: int, key: str) -> Response:
    """One step."""
    yard = store_of(request).read()
    stands = begun(yard, number)
    if stands is None:
        return RedirectResponse(f"/trouble/{number}/step", 303)
    return at_step(request, yard, yard.trouble(number), stands, atkey_of(stands, key), Typed())


@router.post("/trouble/{number:int}/step/{key}", include_in_schema=False)
async def write(request: Request, number: int, key: str) -> Response:
    """Keep what was read; pass on where everything is there."""
    return await run_in_threadpool(written, request, number, key, await typed(request))


@router.post("/trouble/{number:int}/step/{key}/photo", include_in_schema=False)
async def photo(request: Request, number: int, key: str) -> Response:
    """Keep a photo of what is seen at a step."""
    given, data = await with_photo(request)
    return await run_in_threadpool(shown_at, request, number, key, given, data)


def shown_at(request: Request, number: int, key: str, given: Typed, data: bytes) -> Response:
    """Keep it with its step; or show the step again with what is wrong."""
    yard = store_of(request).read()
    stands = begun(yard, number)
    if stands is None:
        return RedirectResponse(f"/trouble/{number}/step", 303)
    here = atkey_of(stands, key)
    fields = {"id": form_id(given.one("form")), "trouble": number, "step": here.task.id, "on": request.app.state.today}

    def again(asked: Request, fresh: Yard, one: Trouble, sent: Typed, bad: tuple[Fault, ...], status: int) -> Response:
        return at_step(asked, fresh, one, begun(fresh, number) or stands, here, Typed(), bad, status)

    return tried(
        request,
        number,
        given,
        lambda standing: desk.typed(desk.KeepPhoto, standing, fields),
        lambda standing, deed, now: desk.keep_photo(standing, deed, now, data),
        again,
        f"/trouble/{number}/step/{key}#photos",
    )


def begun(yard: Yard, number: int) -> Worked | None:
    return worked(yard, yard.trouble(number))


def atkey_of(stands: Worked, key: str) -> Step:
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
    here = atkey_of(stands, key)
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
        to = key_of(part, at + 1) if after and after.at(part, at + 1) else ""
    return known(RedirectResponse(f"/trouble/{number}/step{f'/{to}' if to else ''}", 303), given)


def _new_values(stands: Worked, here: Step, given: Typed) -> dict[str, str]:
    """What was typed and is not what stands there already."""
    found = {}
    for key in given.fields:
        name, value = key.removeprefix("r-"), given.one(key)
        taken = stands.taken.get(name)
        reading = stands.reading(name) if name in stands.rows.reading else None
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
        key=key_of(part, number),
        back=key_of(part, number - 1) if number > 1 else "",
        on=key_of(part, number + 1) if number < len(stands.cards[part]) else "",
        tree=grown,
        told=sections[0],
        sections=sections[1:],
        hold=hold,
        must=hold.must if hold else "",
        second=bool(hold and two_people(hold)),
        fields=fields,
        closed=[(stands.name(s.task.id), place_key(stands, s)) for s in closed[:1]],
        wants=_short(stands, wants),
        done=here.task.id in stands.done,
        by=record.who if record else "",
        seen_by=given.one("seen_by") or (record.seen_by if record else "") or remembered(request, "seen_by"),
        when=record.time if record else "",
        who=given.one("who") or remembered(request, "who"),
        faults=by_field(faults, (*(f["name"] for f in fields), "seen_by", "who", "note", "photo"), "step"),
        photos=list(dict.fromkeys(r.photo for r in stands.records if r.photo and r.step == here.task.id)),
        photo_id=form_id(),
        form_id=form_id(given.one("form") if status == 400 and not _kept(stands, given) else ""),
        kept=bool(faults) and _kept(stands, given),
    )


def _short(stands: Worked, wants: list[Want]) -> str:
    """What is missing, as short as it stands on a button."""
    readings = len({want.reading for want in wants if want.reading})
    first = next((want.step for want in wants if not want.reading), "")
    if first:
        return f"step {key_of(*stands.place(first))} first"
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
        reading = stands.reading(name)
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
