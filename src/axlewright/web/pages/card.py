"""The step card as a whole: begun, where it stands, typed back from paper, and the machine set down."""

from __future__ import annotations

from datetime import date
from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.in_hand.card import conditions, jobs_of
from axlewright.plan.in_hand.worked import Worked, worked
from axlewright.plan.sheet.band_words import BandWords
from axlewright.plan.sheet.frame import Numbers
from axlewright.plan.sheet.revisions import corner_words
from axlewright.plan.work_of import work_of
from axlewright.render.show import Words
from axlewright.trade.steps_read import steps
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, said_day, show_for, store_of
from axlewright.web.pages.in_hand import UNIT, key_of, place_key, remembered, title_of, tried
from axlewright.yard import Fault, Trouble, Yard
from axlewright.yard.asked import open_boxes
from axlewright.yard.card_values import words_of

router = APIRouter()


@router.get("/trouble/{number:int}/step", include_in_schema=False)
def whole_card(request: Request, number: int) -> Response:
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


@router.post("/trouble/{number:int}/photo", include_in_schema=False)
async def photo(request: Request, number: int) -> Response:
    """Keep a photo of the paper."""
    async with request.form(max_files=1, max_fields=8) as form:
        sent = form.get("photo")
        data = b"" if sent is None or isinstance(sent, str) else await sent.read()
        given = Typed({name: (value,) for name, value in form.multi_items() if isinstance(value, str)})
    fields = {"id": form_id(given.one("form")), "trouble": number, "on": request.app.state.today}
    return await run_in_threadpool(
        tried,
        request,
        number,
        given,
        lambda yard: desk.typed(desk.KeepPhoto, yard, fields),
        lambda yard, deed, now: desk.keep_photo(yard, deed, now, data),
        whole,
        f"/trouble/{number}/step#photos",
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
        "faults": by_field(faults, ("job", "when", "hands", "engine", "threshing", "photo"), "trouble"),
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
        began=said_day(yard, stands.card.on, day(request, yard)),
        job=stands.job.title,
        parts=[_part(stands, part) for part in stands.cards],
        at=place_key(stands, stands.now),
        now=title_of(stands.now),
        down=yard.stage(one.number) in ("set down", "looked after", "put by"),
        left=stands.name(left[0]) if left else "",
        clocks=clocks,
        photos=list(dict.fromkeys(r.photo for r in stands.records if r.photo)),
        photo_id=form_id(),
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
                "href": key_of(part, number),
            }
        )
    title = stands.rows.network[part].title if part else stands.job.title
    return {"part": part, "title": title, "rows": rows, "done": sum(row["done"] for row in rows)}


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
    reading, row = stands.reading(name), stands.rows.band.get(name)
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
