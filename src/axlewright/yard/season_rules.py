"""The rules of a season's records: what they name is there, and what they say can be read."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cache

from axlewright.kinds import Kind
from axlewright.quantities import NotRead, parse, read_spread
from axlewright.trade.questions import reach
from axlewright.trade.seasons import climates, crops
from axlewright.yard.faults import closest
from axlewright.yard.picture import Yard
from axlewright.yard.records import Record, Stated
from axlewright.yard.seasons import Season, Work

Bad = Iterator[tuple[Record, str, str, str]]
LONGEST_DAY = "16 h"


def bad_seasons(yard: Yard, today: date | None) -> Bad:
    """Every mistake of the yard's seasons: the record, its key, what is wrong, what would be right."""
    seasons = {one.id for one in yard.seasons}
    for season in yard.seasons:
        if season.climate and season.climate not in climates():
            right = closest(season.climate, climates())
            yield season, "climate", f"There is no climate {season.climate}.", right
    for work in yard.works:
        yield from _names(yard, work, seasons)
        yield from _values(yard, work)
        if today and work.on and work.on > today:
            right = f"Write on = {today}, or the day it was."
            yield work, "on", f"{work.on} has not come yet: today is {today}.", right


def _names(yard: Yard, work: Work, seasons: set[str]) -> Bad:
    machines = [one.id for one in yard.machines]
    if work.season not in seasons:
        yield work, "season", f"There is no season {work.season}.", closest(work.season, seasons)
    for key in ("machine", "second"):
        named = getattr(work, key)
        if named and named not in machines:
            yield work, key, f"There is no machine {named}.", closest(named, machines)
    if work.crop not in crops():
        meant = [row.id for row in crops().values() if work.crop.replace("-", " ") in (row.label, *row.also)]
        right = f"Did you mean {meant[0]}?" if meant else closest(work.crop, crops())
        yield work, "crop", f"There is no crop {work.crop}.", right


@cache
def stated_in(model: type[Season] | type[Work]) -> tuple[tuple[str, Kind], ...]:
    """The keys of a record that hold a typed value, each with its kind."""
    return tuple(
        (key, mark) for key, info in model.model_fields.items() for mark in info.metadata if isinstance(mark, Kind)
    )


def _values(yard: Yard, work: Work) -> Bad:
    middles: dict[str, float] = {}
    for key, kind in stated_in(Work):
        said: Stated | None = getattr(work, key)
        if said is None:
            continue
        try:
            spread = read_spread(said.value, kind, yard.title.decimal)
        except NotRead as bad:
            yield work, key, str(bad), ""
            continue
        middles[key] = sum(reach(spread)) / 2  # without a library: every yard is read by this
        if middles[key] < 0 or (middles[key] == 0 and key not in ("done", "hire")):
            yield work, key, f"{said.value} is nothing to cut by.", "Write what there is of it, or leave the line out."
    if work.done and middles.get("done", 0.0) > middles.get("area", float("inf")):
        yield work, "done", f"{work.done.value} done of {work.area.value}.", "Write what of it is cut."
    if middles.get("hours_a_day", 0.0) > parse(LONGEST_DAY, "duration").si:
        yield work, "hours_a_day", "So long no machine cuts in a day.", f"Write up to {LONGEST_DAY}."
