"""What is to be cut, and in which weather: a crop of a machine as it was typed, a harvest year."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, checked, may, record
from axlewright.trade.seasons import climates
from axlewright.yard import Change, Fault, Faults, Record, Season, Stated, Work, Yard, closest
from axlewright.yard.records import Basis, Line, Prose

STATED = ("area", "done", "rate", "hours_a_day", "worth", "hire")
KEPT_ON = ("starts", "ends", "second", "note")
LONGEST = 200  # days of a window
UNITS = {"metric": ("ha", "ha/h", "h", "/ha"), "us": ("ac", "ac/h", "h", "/ac")}

OptionalLine = Annotated[Line | None, Blank]


class CutWork(Deed):
    """What one machine has to cut of one crop.

    `stands` is the record that the form was filled from: another in its place means that somebody else typed meanwhile.
    `known` and `source` are how the values are known that differ from those that stood there.
    """

    season: OptionalLine = Field(None, examples=["2026"])
    machine: Line = Field(examples=["bramble"])
    crop: Line = Field(examples=["whole-crop-maize"])
    area: Annotated[Line, Field(min_length=1)] = Field(examples=["110 ha"])
    done: OptionalLine = Field(None, examples=["30 ha"])
    starts: date = Field(examples=["2026-09-12"])
    ends: date = Field(examples=["2026-10-02"])
    rate: OptionalLine = Field(None, examples=["1.6 ha/h"])
    hours_a_day: OptionalLine = Field(None, examples=["9 h"])
    worth: OptionalLine = Field(None, examples=["1300 /ha"])
    hire: OptionalLine = Field(None, examples=["100 /ha"])
    second: OptionalLine = Field(None, examples=["linnet"])
    known: Basis = "assumed"
    source: Line = Field("", examples=["field maps"])
    stands: Line = ""
    note: Line = Field("", examples=["Far fields first"])


class SetSeason(Deed):
    """The weather that a harvest year has as a rule."""

    season: Line = Field(examples=["2026"])
    climate: OptionalLine = Field(None, examples=["changeable"])
    note: Prose = Field("", examples=["Beet follows the maize"])


def standing(yard: Yard, season: str, machine: str, crop: str) -> Work | None:
    """What was typed last of this season, machine and crop."""
    return next((one for one in reversed(yard.works) if one.about == (season, machine, crop)), None)


@may("owner", "helper")
def cut_work(yard: Yard, deed: CutWork, now: Now) -> Change:
    """Write down what a machine has to cut; a newer one of the same crop stands in its place. Its year is begun with it.

    Raises:
        Faults: no such machine or crop, values that cannot be read, a window that is none, somebody typed it meanwhile
    """
    given = deed.id or now.new_id()
    if any(one.id == given for one in yard.works):
        return Change()  # the same form, sent twice
    machine = yard.machine(deed.machine)
    year = deed.season or str(deed.starts.year)
    before = standing(yard, year, machine.id, deed.crop)
    _not_moved(before, deed)
    faults = list(_window(deed))
    stated: dict[str, Stated | None] = {}
    for key in STATED:
        stated[key] = _stated(yard, getattr(deed, key), getattr(before, key) if before else None, key, deed)
    if faults:
        raise Faults(*faults)
    second = yard.machine(deed.second).id if deed.second else None
    made = record(
        Work,
        id=given,
        season=year,
        machine=machine.id,
        crop=deed.crop,
        on=max(deed.day(yard, now), before.on or date.min) if before else deed.day(yard, now),
        starts=deed.starts,
        ends=deed.ends,
        second=second,
        note=deed.note,
        who=now.who,
        at=now.after(one.at for one in yard.works if one.about == (year, machine.id, deed.crop)),
        **stated,
    )
    new: list[Record] = [made]
    if year not in {one.id for one in yard.seasons}:
        new.insert(0, record(Season, id=year, who=now.who, at=now.at))
    return checked(yard, new, now)


def _not_moved(before: Work | None, deed: CutWork) -> None:
    """Raise `Faults` where another record stands than the one that was on the page."""
    if before is None or before.id == deed.stands:
        return
    if deed.stands:
        who = before.who or "somebody"
        what = f"While this page was open {who} typed it anew: {_said(before)}."
        raise Faults(Fault("stands", what, "Nothing was written. Send it again if yours is to stand, or leave theirs."))
    what = f"It stands there already: {_said(before)}."
    raise Faults(Fault("stands", what, "Nothing was written. Send it again if yours is to stand in its place."))


def _said(work: Work) -> str:
    done = f", {work.done.value} done" if work.done else ""
    return f"{work.area.value}{done}, {work.starts} to {work.ends}"


def _window(deed: CutWork) -> list[Fault]:
    days = (deed.ends - deed.starts).days
    if days <= 0:
        what = f"It is ripe on {deed.starts} and over on {deed.ends}: that leaves no day to cut it."
        return [Fault("ends", what, "Write a later day.")]
    if days > LONGEST:
        return [Fault("ends", f"From {deed.starts} to {deed.ends} are {days} days.", f"Write up to {LONGEST}: is it the right year?")]  # fmt: skip
    return []


def _stated(yard: Yard, typed: str | None, before: Stated | None, key: str, deed: CutWork) -> Stated | None:
    """A value as typed; one that reads as it stood keeps how it was known."""
    if not typed:
        return None
    said = with_unit(typed, key, "us" if yard.title.measures == "us" else "metric")
    if before and said == before.value:
        return before
    return Stated(value=said, basis=deed.known, source=deed.source)


def with_unit(typed: str, key: str, measures: Literal["metric", "us"]) -> str:
    """A value with its unit, where only a number was typed."""
    bare = typed.strip()
    area, rate, hours, price = UNITS[measures]
    unit = {"rate": rate, "hours_a_day": hours, "worth": price, "hire": price}.get(key, area)
    return f"{bare} {unit}" if bare and bare[-1].isdigit() and len(bare) < 60 else bare


@may("owner", "helper")
def set_season(yard: Yard, deed: SetSeason, now: Now) -> Change:
    """Write down the weather of a harvest year.

    Raises:
        Faults: no such climate; an id that cannot be typed
    """
    if deed.climate and deed.climate not in climates():
        raise Faults(Fault("climate", f"There is no climate {deed.climate}.", closest(deed.climate, climates())))
    made = record(Season, id=deed.season, climate=deed.climate, note=deed.note, who=now.who, at=now.at)
    return checked(yard, (made,), now)
