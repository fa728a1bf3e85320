"""What is known of a trouble's choice, from the yard's records, as the task that it is reckoned from."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from axlewright.kinds import KINDS
from axlewright.plan.bearings_of import bearings_of
from axlewright.plan.facts import hours_ago
from axlewright.plan.quantities_of import quantities_of, words_of
from axlewright.plan.reckon.choice_evidence import OIL, Witness
from axlewright.plan.reckon.choice_task import ChoiceTask, WorkAhead, age_of, taken
from axlewright.plan.steps.jobs import BY, WHEN, Here, size_of
from axlewright.plan.weather_of import climate_of
from axlewright.quantities import Quantity, Spread, read_spread
from axlewright.trade.findings import findings
from axlewright.trade.machines import machine_kinds
from axlewright.trade.seasons import Crop, crops, pace
from axlewright.trade.steps_read import steps
from axlewright.yard import COURSES, Course, Finding, Hours, Season, Stated, Trouble, Work, Yard

LAST_STAGES = ("in hand", "set down", "looked after", "put by")  # the course is being gone already
IDLE = 3.0  # engine hours a day that a machine runs, where no clock tells
SAID = {"book": "the machine’s own book", "measured": "measured", "computed": "reckoned by hand", "assumed": "typed, not said how known"}  # fmt: skip


def is_chosen(yard: Yard, trouble: Trouble, today: date) -> bool:
    """Whether there is a choice to make: it is not being worked on yet, and something is still to be cut."""
    return yard.stage(trouble.number) not in LAST_STAGES and bool(yard.work_of(trouble.corner.machine, today))


def choice_task(yard: Yard, trouble: Trouble, today: date, seed: int, count: int) -> ChoiceTask:
    """The task of a trouble's choice. What nobody gave is taken from the trade, and says so."""
    machine = yard.machine(trouble.corner.machine)
    works = yard.work_of(machine.id, today)
    drive = yard.drive_at(trouble.corner)
    numbers = quantities_of(yard, trouble)
    quantities, none = taken(numbers)
    if works and works[0][0].hire:
        own = typed_of(yard, works[0][0], "hire", "price/hire")
        quantities |= {own.name: own} if own else {}
    for place, (work, _) in enumerate(works, 1):
        quantities |= crop_numbers(yard, work, f"season/crops.{place}", machine.kind)
    age = age_of(yard.drive_hours(drive, today) if drive else None)
    quantities |= {age.name: age}
    seen = witnesses(yard, trouble, today)
    bearings, no_bearings = bearings_of(yard, trouble, numbers, words_of(yard, trouble), seen)
    return ChoiceTask(
        today=today,
        seen=seen,
        quantities=quantities,
        none=none,
        works=tuple(_ahead(work, today) for work, _ in works),
        climate=climate_of(yard, works),
        courses=_courses(yard, trouble, works, today),
        here=_here(yard, trouble, numbers),
        age=yard.drive_hours(drive, today) if drive else None,
        spare=_spare(yard, trouble, today),
        clock=yard.hours(machine.id, today),
        bearings=bearings,
        no_bearings=no_bearings,
        seed=seed,
        count=count,
    )


def crop_numbers(yard: Yard, work: Work, at: str, kind: str | None) -> dict[str, Quantity]:
    """The numbers of one crop, under this name: its own, else the trade's."""
    row = crops()[work.crop]
    area = typed_of(yard, work, "area", f"{at}.area")
    done = typed_of(yard, work, "done", f"{at}.done")
    assert area is not None
    found = {f"{at}.area": _left(area, done)}
    given = {
        "rate": (pace(kind).rate, "field-rate", pace(kind).source),
        "hours_a_day": (row.hours, "duration", row.source),
        "worth": (row.worth, "area-price", row.source),
    }
    for key, (spread, of, source) in given.items():
        name = f"{at}.{key.removesuffix('_a_day')}"
        found[name] = typed_of(yard, work, key, name) or Quantity(name, KINDS[of], spread, "assumed", source)
    found[f"{at}.loss"] = Quantity(f"{at}.loss", KINDS["rate"], row.delay, "assumed", row.source)
    return found


def _left(area: Quantity, done: Quantity | None) -> Quantity:
    """What still stands: both are typed, and known as well as the worse of the two."""
    if done is None:
        return area
    spread = read_spread(f"{max(area.spread.middle() - done.spread.middle(), 0.0):.6g} m²", "area")
    worse = max(area.basis, done.basis, key=("book", "measured", "computed", "assumed").index)
    return Quantity(area.name, area.kind, spread, worse, f"{area.typed} less {done.typed} done", f"{area.typed} less {done.typed}")  # fmt: skip


def typed_of(yard: Yard, work: Work, key: str, name: str) -> Quantity | None:
    said: Stated | None = getattr(work, key)
    if said is None:
        return None
    kind = next(mark for mark in Work.model_fields[key].metadata if hasattr(mark, "powers"))
    spread: Spread = read_spread(said.value, kind, yard.title.decimal)
    source = said.source or f"{SAID[said.basis]}; season {work.season}"
    return Quantity(name, kind, spread, said.basis, source, said.value)


def _ahead(work: Work, today: date) -> WorkAhead:
    row: Crop = crops()[work.crop]
    return WorkAhead(row.label, (work.starts - today).days, (work.ends - today).days, row.grace, row.doubles, row.most)


def _courses(yard: Yard, trouble: Trouble, works: tuple[tuple[Work, Season], ...], today: date) -> tuple[Course, ...]:
    """The courses that there are: no spare, no course with one; nothing leaks, nothing is resealed."""
    drive = yard.drive_at(trouble.corner)
    spare = any(one.design and drive and one.design == drive.design for one in yard.spares)
    second = any(work.second for work, _ in works)
    wet = any(findings()[one.finding].group == OIL and one.grade not in ("none", "no") for one in yard.findings_at(trouble.corner) if one.on <= today)  # fmt: skip
    out = {"fit a spare": not spare, "park": not second, "reseal": not wet}
    return tuple(course for course in COURSES if not out.get(course))


def _spare(yard: Yard, trouble: Trouble, today: date) -> tuple[Hours, tuple[Witness, ...]] | None:
    """The spare of its design that is known best: its hours, and what was found at it."""
    drive = yard.drive_at(trouble.corner)
    fits = [one for one in yard.spares if drive and one.design and one.design == drive.design]
    known = [(hours, one) for one in fits if (hours := yard.drive_hours(one, today))]
    if not known:
        return None
    hours, one = min(known, key=lambda pair: pair[0].hours)
    found = [f for f in yard.standing if f.drive == one.id and f.on <= today]
    return hours, tuple(Witness(f.finding, f.grade, 0.0, f.on.toordinal()) for f in found)


def _here(yard: Yard, trouble: Trouble, numbers: Mapping[str, Quantity]) -> Here:
    """What the jobs of all courses hang on, as far as it was answered; two people, since nobody does them alone."""
    words, row = words_of(yard, trouble), machine_kinds().get(yard.machine(trouble.corner.machine).kind or "")
    mass, hands = numbers.get("machine/mass"), numbers.get("work/hands")
    heavy = mass.spread.middle() if mass else row.mass[1] if row else None
    return Here(
        drive=words.get("drive/built", Here().drive),
        by=BY.get(words.get("lift-by", ""), Here().by),
        when=frozenset(when for when, (asked, said) in WHEN.items() if words.get(asked) == said),
        size=size_of(steps(), heavy) if heavy else Here().size,
        hands=max(Here().hands, round(hands.spread.middle())) if hands else Here().hands,
        first_time=words.get("work/done-before") == "no",
    )


def witnesses(yard: Yard, trouble: Trouble, today: date) -> tuple[Witness, ...]:
    """What was found at this drive, each with its likely age; a leak from before its reseal says nothing any more."""
    found = [one for one in yard.findings_at(trouble.corner) if one.on <= today]
    resealed = [
        yard.stages_of(other.number)[-1].on
        for other in yard.troubles_at(trouble.corner)
        if yard.course(other.number) == "reseal" and yard.stage(other.number) == "put by"
    ]
    cut = max(resealed, default=date.min)
    kept = [one for one in found if one.on > cut or findings()[one.finding].group != OIL]
    return tuple(
        Witness(
            one.finding, one.grade, _ago(yard, trouble, one, today), one.on.toordinal(), _wiped(yard, one, kept[:n])
        )
        for n, one in enumerate(kept)
    )


def _ago(yard: Yard, trouble: Trouble, one: Finding, today: date) -> float:
    """Likely engine hours since a finding, never more than the most that may have run."""
    ran = yard.run_since(one, today)
    likely = ran.hours if ran else IDLE * (today - one.on).days
    return float(min(likely, hours_ago(yard, trouble.corner, one, today)))


def _wiped(yard: Yard, one: Finding, before: list[Finding]) -> float | None:
    """Engine hours from the plug's last look, which wiped it, to this one."""
    if one.finding != "plug" or one.corner is None:
        return None
    last = next((f for f in reversed(before) if f.finding == "plug" and f.on < one.on), None)
    if last is None:
        return None
    ran = yard.clock_log(one.corner.machine).ran(last.on, one.on, last.read())
    return ran.hours if ran else None
