"""The rules of what others measured: a sample is of a drive that is there, rain fell on a day that has come."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlewright.yard.faults import closest
from axlewright.yard.picture import Yard
from axlewright.yard.records import Record

Found = Iterator[tuple[Record, str, str, str]]


def bad_samples(yard: Yard, today: date | None) -> Found:
    """The record that breaks a rule, its key, what is wrong, what would be right."""
    drives, ids = {one.id for one in yard.drives_written}, {one.id for one in yard.oil_samples}
    for sample in yard.oil_samples:
        if sample.drive not in drives:
            yield sample, "drive", f"There is no drive {sample.drive}.", closest(sample.drive, drives)
        if sample.corrects is not None and (sample.corrects not in ids or sample.corrects == sample.id):
            what = f"There is no other oil sample {sample.corrects} to correct."
            yield sample, "corrects", what, closest(sample.corrects, ids)
    for rain in yard.rains:
        last = max((day for day, _ in rain.days()), default=None) if today and rain.year >= today.year else None
        if today and last and last > today:
            yield rain, "year", f"Rain on {last}, and today is {today}.", "Take out the days that have not come yet."
    seen: dict[tuple[str, int], str] = {}
    for rain in yard.rains:
        other = seen.setdefault((rain.station, rain.year), rain.id)
        if other != rain.id:
            yield rain, "year", f"{other} has the rain of {rain.station} in {rain.year} too.", "Make the two one."
