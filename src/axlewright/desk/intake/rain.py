"""Daily rain out of a table, into one record a station and year."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import PurePath

from axlewright.desk.intake.cells import NotRead
from axlewright.desk.intake.found import TakeIn
from axlewright.desk.intake.hours import datetime_of
from axlewright.desk.intake.machines import word_of
from axlewright.desk.intake.sheet import BadCell, Line, Sheet
from axlewright.desk.now import Now
from axlewright.yard import Yard
from axlewright.yard.samples import MOST_RAIN, Rain, months_of

Day = tuple[str, date, float]
"""Station, day, millimetres."""


def station_of(deed: TakeIn) -> str:
    """The station of a file that names none: as said, else the file's own name."""
    return deed.station or PurePath(deed.name).stem[:60] or "rain"


def rain_rows(sheet: Sheet, deed: TakeIn) -> Iterator[tuple[Line, list[Day] | NotRead]]:
    """Line by line the rain of a day; nothing where none was measured."""
    once: dict[tuple[str, date], tuple[int, float]] = {}
    for line in sheet.lines():
        try:
            on, measured = line.day("on"), line.measured("rain")
            if measured is None:
                yield line, []
                continue
            mm = round(measured[0], 3)
            if mm > MOST_RAIN:
                what = f"{mm:g} mm is more than ever fell in a day."
                raise BadCell(line.header("rain"), NotRead(what, "In which unit does it stand?"))
            station = line.text("station") or station_of(deed)
            if not word_of(station):
                raise BadCell(
                    line.header("station"), NotRead("This station has no name in a to z.", "Say --station NAME.")
                )
            number, before = once.setdefault((station, on), (line.number, mm))
            if before != mm:
                what = f"{on} had {before:g} mm on line {number} and has {mm:g} here."
                raise BadCell(line.header("rain"), NotRead(what, "Keep one of the two."))
            yield line, [(station, on, mm)] if number == line.number else []
        except NotRead as bad:
            yield line, bad


def years_of(yard: Yard, days: list[Day], now: Now) -> tuple[Rain, ...]:
    """The years that these days change, as they would stand."""
    wanted: dict[tuple[str, int], dict[date, float]] = defaultdict(dict)
    for station, on, mm in days:
        wanted[station, on.year][on] = mm
    made = []
    for (station, year), new in sorted(wanted.items()):
        there = of_year(yard, station, year)
        whole = {**(dict(there.days()) if there else {}), **new}
        said = {
            "id": there.id if there else f"{word_of(station)[:55]}-{year}",
            "station": there.station if there else station,
            "year": year,
        }
        made.append(Rain(**said, **months_of(year, whole), who=now.who, at=datetime_of(now)))
    return tuple(made)


def of_year(yard: Yard, station: str, year: int) -> Rain | None:
    """The year of a station, by its name as an id."""
    wanted = word_of(station)
    return next((one for one in yard.rains if one.year == year and word_of(one.station) == wanted), None)


def known_days(yard: Yard) -> Mapping[tuple[str, date], float]:
    """By station, as an id, and day what is kept already."""
    return {(word_of(one.station), on): mm for one in yard.rains for on, mm in one.days()}
