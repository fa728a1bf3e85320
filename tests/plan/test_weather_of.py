"""The weather of a season by the yard's own rain, against the record of Seattle that the check values count."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest

from axlewright.plan.season_of import weather
from axlewright.plan.weather_of import COMBINING, LEAST_YEARS, by_rain, climate_of
from axlewright.store import DEMO, at
from axlewright.trade.seasons import climates
from axlewright.yard import Change, Rain, Yard
from axlewright.yard.samples import months_of

CHECKS = Path(__file__).parents[1] / "checks"
LINES = [
    line.split() for line in (CHECKS / "seattle-rain.txt").read_text(encoding="utf-8").splitlines() if line[0] != "#"
]
DAYS = {date(2012, 1, 1) + timedelta(days=n): float(mm) for n, mm in enumerate(one for line in LINES for one in line)}
YEARS = tuple(
    Rain(id=f"seattle-{year}", station="Seattle", year=year, **months_of(year, DAYS)) for year in range(2012, 2016)
)
AUTUMN = (date(2026, 9, 1), date(2026, 10, 31))


def test_the_share_is_that_of_the_record_less_what_combining_wants_drier() -> None:
    """tests/checks/season.toml: 151 of 244 September and October days of 2012 to 2015 could be worked."""
    found = by_rain(YEARS, *AUTUMN)
    assert found
    assert found.share == pytest.approx(COMBINING * 151 / 244, abs=5e-3)
    assert "4 years" in found.label
    assert "Seattle" in found.label
    assert found.basis == "computed"
    assert {row.basis for row in climates().values()} == {"assumed"}


def test_drawn_seasons_have_the_share_the_spread_and_the_memory_of_the_record() -> None:
    """Counted again from the drawn days: a second method."""
    found = by_rain(YEARS, *AUTUMN)
    assert found
    good = weather(found, 61)
    assert good.mean() == pytest.approx(found.share, abs=0.02)
    first, second = good[:, :-1].ravel(), good[:, 1:].ravel()
    spell = 1 / (1 - second[first == 1].mean())
    assert spell * 86400 == pytest.approx(found.spell, rel=0.15)
    assert good.mean(axis=1).std() >= found.between_years * 0.9


def test_dry_years_give_many_days_and_wet_ones_few() -> None:
    def always(mm: float) -> tuple[Rain, ...]:
        every = {date(2012, 1, 1) + timedelta(days=n): mm for n in range(365 * 5 + 2)}
        return tuple(Rain(id=f"r-{y}", station="X", year=y, **months_of(y, every)) for y in range(2012, 2017))

    dry, wet = by_rain(always(0.0), *AUTUMN), by_rain(always(9.0), *AUTUMN)
    assert dry
    assert wet
    assert dry.share > 0.85
    assert wet.share <= 0.05


@pytest.mark.parametrize(
    "rains",
    [
        (),
        YEARS[: LEAST_YEARS - 1],
        (*YEARS, YEARS[0].model_copy(update={"id": "other", "station": "Portland"})),
        tuple(one.model_copy(update={"september": "0 0 0"}) for one in YEARS),
    ],
)
def test_too_little_rain_or_that_of_two_places_gives_none(rains: tuple[Rain, ...]) -> None:
    assert by_rain(rains, *AUTUMN) is None


def test_this_years_own_window_is_not_counted() -> None:
    assert by_rain(YEARS, date(2015, 9, 1), date(2015, 10, 31)) is None  # three years are before it


def test_what_the_season_names_wins_and_without_it_the_rain_counts() -> None:
    yard = at(DEMO).read()
    today = date(2026, 8, 28)
    works = yard.work_of("bramble", today)
    named = climate_of(yard, works)
    assert named in climates().values()
    unnamed = tuple((work, season.model_copy(update={"climate": None})) for work, season in works)
    assert climate_of(yard, unnamed).id == "ordinary"
    rainy = Yard.of([*yard.records, *YEARS])
    assert climate_of(rainy, unnamed).id.startswith("rain-")
    assert climate_of(rainy, works) == named
    assert climate_of(yard.with_(Change(YEARS)), ()).id == "ordinary"
    assert np.isfinite(climate_of(rainy, unnamed).spell)
