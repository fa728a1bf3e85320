"""The first screen: tick what you saw, read the answer. With a corner tapped it is kept, and opens a trouble."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any
from urllib.parse import urlencode

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.plan.facts import clock_now, job_open, seen_at
from axlewright.plan.first_look import FirstLook, findings_of, first_look
from axlewright.plan.judge.says import because
from axlewright.render import html
from axlewright.render.show import Show, Words
from axlewright.sheets.figures import drive_section, looks, machine, plug
from axlewright.sheets.figures.outlines import drawn_as
from axlewright.trade.findings import findings
from axlewright.trade.first_look import numbers, outcomes, short_rows, then, ticks
from axlewright.web.forms import Typed, by_field, form_id, meant, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.yard import Corner, Fault, Faults, Hours, Machine, Yard

router = APIRouter()
FIELDS = ("park", "where", "plug", "wheel", "corner", "clock")


@dataclass(frozen=True)
class Ticked:
    """What stands in the form."""

    park: tuple[str, ...] = ()
    where: tuple[str, ...] = ()
    plug: str = ""
    wheel: tuple[str, ...] = ()
    corner: str = ""
    clock: str = ""
    which: str = "engine"
    form: str = field(default_factory=form_id)

    def ticks(self) -> tuple[str, ...]:
        """All ticks as the first look takes them."""
        return (
            *(f"park={one}" for one in self.park),
            *(f"place={one}" for one in self.where),
            *((f"plug={self.plug}",) if self.plug else ()),
            *(f"wheel={one}" for one in self.wheel),
        )


@router.get("/", include_in_schema=False)
def ask(request: Request, corner: str = "") -> Response:
    """The first screen, with nothing ticked; a corner may be named already, and what is on record there counts."""
    yard = store_of(request).read()
    ticked = Ticked(corner=str(yard.corner(corner)) if corner else "")
    return shown(request, yard, ticked, look_at(request, yard, ticked, None))


@router.post("/", include_in_schema=False)
async def tell(request: Request) -> Response:
    """The answer to what was ticked."""
    return await run_in_threadpool(answer, request, await typed(request))


def answer(request: Request, given: Typed) -> Response:
    ticked = Ticked(
        park=given.all("park"),
        where=given.all("where"),
        plug=given.one("plug"),
        wheel=given.all("wheel"),
        corner=given.one("corner"),
        clock=given.one("take") or given.one("clock"),
        which=given.one("which", "engine"),
        form=form_id(given.one("form")),
    )
    store, now = store_of(request), desk.Now.by()
    yard = store.read()
    try:
        clock = hours(ticked, yard)
        if ticked.corner and ticked.ticks():
            seen = desk.Seen(
                id=ticked.form,
                corner=ticked.corner,
                marks=tuple(desk.Mark(finding=f, grade=g, note=n) for f, g, n in findings_of(ticked.ticks())),
                hours=clock.hours if clock else None,
                clock=clock.clock if clock else None,
                on=request.app.state.today,
            )
            yard, _ = desk.carry_out(store, lambda standing: desk.add_findings(standing, seen, now))
            running = yard.running_at(yard.corner(ticked.corner))
            return RedirectResponse(f"/trouble/{running.number}?moved={ticked.form}" if running else "/yard", 303)
        return shown(request, yard, ticked, look_at(request, yard, ticked, clock))
    except Faults as bad:
        faults = by_field(bad.faults, FIELDS, "clock" if ticked.clock else "park", {"hours": "clock"})
        return shown(request, yard, ticked, as_far_as_read(request, yard, ticked), faults, status=400)


def look_at(request: Request, yard: Yard, ticked: Ticked, clock: Hours | None) -> FirstLook:
    """The answer, with what is on record at the corner if one was tapped."""
    today = day(request, yard)
    if not ticked.corner:
        return first_look(ticked.ticks(), clock=clock, today=today)
    corner = yard.corner(ticked.corner)
    return first_look(
        ticked.ticks(),
        clock=clock or clock_now(yard, corner, today),
        today=today,
        before=seen_at(yard, corner, today),
        job_open=job_open(yard, corner),
    )


def as_far_as_read(request: Request, yard: Yard, ticked: Ticked) -> FirstLook:
    """The answer to what could be read of a form with mistakes in it: a stop that was ticked stays a stop."""
    kept = Ticked(
        park=tuple(one for one in ticked.park if one in ticks("park")),
        where=tuple(one for one in ticked.where if one in ticks("place")),
        plug=ticked.plug if ticked.plug in {grade.id for grade in findings()["plug"].grades} else "",
        wheel=tuple(one for one in ticked.wheel if one in ticks("wheel")),
    )
    try:
        return look_at(request, yard, replace(kept, corner=ticked.corner), None)
    except Faults:  # no such corner
        return look_at(request, yard, kept, None)


def hours(ticked: Ticked, yard: Yard) -> Hours | None:
    """The clock as typed."""
    if not ticked.clock:
        return None
    clock = "threshing" if ticked.which == "threshing" else "engine"
    read = desk.typed(desk.ReadClock, yard, {"machine": "-", "hours": ticked.clock})
    if read.hours is None:
        raise Faults(Fault("clock", "This is no clock reading.", "Write the hours alone: 4730."))
    return Hours(read.hours, clock)  # type: ignore[arg-type]


def shown(
    request: Request,
    yard: Yard,
    ticked: Ticked,
    look: FirstLook,
    faults: dict[str, Fault] | None = None,
    status: int = 200,
) -> Response:
    """The page with the answer on it."""
    show = show_for(yard)
    words = Words(show, look.basis)
    return page(
        "first_screen.html",
        "Trouble",
        status=status,
        title="First look",
        form_id=ticked.form,
        ticked=ticked,
        faults=faults or {},
        takes=meant((faults or {}).get("clock")),
        park=ticks("park").values(),
        then=words_of_then(show),
        verdicts=[
            {"line": v.line, "word": v.word, "words": words.plain(v.words), "stops": v.stops, "unseen": v.unseen}
            for v in look.lines
        ],
        stopped=stopped(),
        answer_for=answer_for(yard, ticked),
        means=words.plain(look.answer) if ticked.ticks() or look.before else "",
        make_safe=stop_address(look),
        call=look.call,
        date=words.plain(look.date),
        looks=[
            {
                "id": one.look.id,
                "short": one.look.short,
                "minutes": f"{one.look.minutes:g}",
                "picture": small(one.look.id, show),
            }
            for one in look.looks
        ],
        outcomes=short(),
        machines=[machine_of(one, show) for one in yard.machines],
        **questions(show),
    )


def questions(show: Show) -> dict[str, Any]:
    """The drawings that ask."""
    section = html.picture(drive_section.drawing(drive_section.questions()), Words(show, {}), "section")
    places = ticks("place")
    spots = [{**ask, "says": places[ask["value"]].words} for ask in section["asks"]]
    grades = [
        {"value": g.grade, "words": g.words, "picture": svg(plug.disc(g.grade), show, f"plug-{g.grade}", "tsz")}
        for g in ticks("plug").values()
    ]
    wheel = [{"value": one.id, "words": one.words, "picture": small(one.id, show)} for one in ticks("wheel").values()]
    return {"drive_section": section["svg"], "spots": spots, "plug": grades, "wheel": wheel}


def svg(drawing: Any, show: Show, name: str, css: str) -> Markup:
    """A small drawing beside words that say the same: hidden from a reader of the page."""
    made = str(html.picture(drawing, Words(show, {}), name)["svg"])
    box = re.search(r'viewBox="[^"]*"', made)
    bare = re.sub(r"<title[^>]*>.*?</title>", "", made, count=1)
    return Markup(
        re.sub(r"<svg [^>]*>", f'<svg class="{css}" {box[0] if box else ""} aria-hidden="true">', bare, count=1)
    )


def small(name: str, show: Show) -> Markup:
    return svg(looks.picture(name), show, f"look-{name}", "pc")


@lru_cache(maxsize=64)
def from_above(kind: str, show: Show) -> dict[str, Any]:
    """A kind of machine from above: a yard of fifty has a few kinds. With the shape of one half, and where its drives sit."""
    drawing = machine.plan(kind, scale=200.0, labels=False)
    above, _ = machine.room([(kind, False)], 200.0, labels=False)
    return {
        "plan": svg(drawing, show, f"plan-{kind}", "pl"),
        "half": f"{drawing.width / 2:g}/{drawing.height:g}",
        "axle": round(100 * above / drawing.height, 1),
    }


def machine_of(one: Machine, show: Show) -> dict[str, Any]:
    """A machine from above, with the corners that can be tapped."""
    return {
        "id": one.id,
        "name": one.name,
        **from_above(drawn_as(one.kind), show),
        "corners": [
            {"id": str(c), "words": c.place.replace("-", " "), "side": "L" if c.place.endswith("left") else "R"}
            for c in one.at_corners()
            if c.place in machine.DRIVEN
        ],
        "others": [
            {"id": str(c), "words": f"{one.name}, {machine.CORNERS[c.place]}"}
            for c in one.at_corners()
            if c.place not in machine.DRIVEN
        ],
    }


def stop_address(look: FirstLook) -> str:
    """The Make safe sheet for what stops it."""
    if not look.make_safe:
        return ""
    pairs = dict.fromkeys(pair for rule in look.field.saying for pair in because(rule, look.verdicts.state))
    stops = [*(f"park={one.id}" for one in look.parked), *(f"{finding}={grade}" for finding, grade in pairs)]
    return "/make-safe" + (f"?{urlencode([('tick', one) for one in stops])}" if stops else "")


def answer_for(yard: Yard, ticked: Ticked) -> str:
    """What the answer speaks of."""
    parts = []
    if ticked.corner:
        try:
            corner = Corner.read(ticked.corner)
            parts += [yard.machine(corner.machine).name, corner.place.replace("-", " ")]
        except (ValueError, Faults):
            pass
    if ticked.clock:
        parts.append(f"{ticked.clock} h")
    return ", ".join(parts)


def words_of_then(show: Show) -> str:
    from axlewright.plan.judge import Words as Made

    made = Made()
    return Words(show, made.basis).plain(made.filled(then(), numbers()))


def short() -> list[dict[str, str]]:
    """What each outcome will mean, in short."""
    by_number = {row.n: row for row in outcomes()}
    return [
        {"see": one.see, "field": by_number[one.rows[0]].field, "road": by_number[one.rows[0]].road, "means": one.means}
        for one in short_rows()
    ]


def stopped() -> list[dict[str, Any]]:
    """What one tick of the park-it-now list says, before anything is sent."""
    return [
        {"line": "WORK IN FIELD", "word": "no", "words": "park it where it stands.", "stops": True, "unseen": False},
        {"line": "GO ON ROAD", "word": "no", "words": "not even home.", "stops": True, "unseen": False},
    ]
