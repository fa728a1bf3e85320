"""Rain by the line of a month, oil samples by drive: what is written reads back, what cannot be is said."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError
from yard.test_moves import START, TODAY, base

from axlewright.yard import Change, Drive, OilSample, Rain, Record, Yard, mistakes
from axlewright.yard.samples import MONTHS, months_of, rain_of

SPARE = Drive(id="spare", name="spare", sits="shelf", since=START)


@given(st.dictionaries(st.dates(date(2023, 1, 1), date(2026, 12, 31)), st.integers(0, 2_000_000)))
def test_days_written_as_lines_of_months_read_back_the_same(days: dict[date, int]) -> None:
    wanted = {on: thousandths / 1000 for on, thousandths in days.items()}
    years = sorted({on.year for on in wanted})
    kept = [Rain(id=f"hill-{year}", station="hill", year=year, **months_of(year, wanted)) for year in years]
    assert rain_of(kept) == pytest.approx(wanted)
    assert list(rain_of(kept)) == sorted(wanted)


def test_a_month_is_as_long_as_it_is() -> None:
    whole = {date(2024, 1, 1) + timedelta(days=n): 1.0 for n in range(366)}
    lengths = [len(line.split()) for line in months_of(2024, whole).values()]
    assert lengths == [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    assert tuple(months_of(2024, whole)) == MONTHS
    with pytest.raises(ValidationError, match="February 2026 has no 29 days"):
        Rain(id="hill-2026", station="hill", year=2026, february=" ".join(["0"] * 29))


@pytest.mark.parametrize("line", ["1,5", "wet", "-1", "nan", "1e3", "2001", "1 " * 32, "1.2345"])
def test_what_is_no_rain_of_a_day_is_refused(line: str) -> None:
    with pytest.raises(ValidationError):
        Rain(id="hill-2026", station="hill", year=2026, may=line)


def test_stations_are_kept_apart_and_one_must_be_named_where_there_are_two() -> None:
    two = [Rain(id=f"{name}-2024", station=name, year=2024, may="3") for name in ("hill", "mill")]
    yard = Yard.of([*base(), *two])
    assert yard.rain("hill") == {date(2024, 5, 1): 3}
    with pytest.raises(ValueError, match="hill, mill"):
        yard.rain()
    with pytest.raises(ValueError, match="no station till"):
        yard.rain("till")
    assert Yard.of(base()).rain() == {}


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (OilSample(id="s1", drive="spire", on=START, iron=3), "no drive spire"),
        (OilSample(id="s1", drive="spare", on=TODAY + timedelta(days=1), iron=3), "has not come yet"),
        (OilSample(id="s1", drive="spare", on=START, iron=3, corrects="s1"), "no other oil sample s1"),
        (Rain(id="hill-2030", station="hill", year=TODAY.year + 1, may="3"), "today is"),
        (Rain(id="other", station="hill", year=2020, may="3"), "has the rain of hill in 2020 too"),
    ],
)
def test_one_that_cannot_be_is_said(wrong: Record, says: str) -> None:
    there = Rain(id="hill-2020", station="hill", year=2020, june="1")
    after = Yard.of([*base(), SPARE, there]).with_(Change((wrong,)))
    found = mistakes(after, TODAY)
    assert says in " ".join(f"{fault.what} {fault.right}" for fault in found)


def test_a_correction_stands_in_place_of_a_sample_and_iron_needs_the_hours_on_the_oil() -> None:
    first = OilSample(id="s1", drive="spare", on=START, iron=600, on_oil=200)
    right = OilSample(id="s2", drive="spare", on=START, iron=60, on_oil=200, corrects="s1")
    yard = Yard.of([*base(), SPARE, first, right])
    assert yard.samples_of("spare") == (right,)
    assert right.iron_rate() == 30  # 60 ppm in 200 h
    assert OilSample(id="s3", drive="spare", on=START, iron=60).iron_rate() is None
    assert OilSample(id="s3", drive="spare", on=START, iron=60, on_oil=0).iron_rate() is None
