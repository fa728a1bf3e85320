"""The two clocks against hand arithmetic, against each other there and back, and against clocks simulated hour by hour."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.yard import ClockReading, Hours, Machine, Pair, Title, Yard, convert, meant, spell
from axlewright.yard.hours import ENGINE_PER_THRESHING, between, follows, rate

hours = st.floats(0, 20_000).map(lambda h: round(h, 1))


def pair(engine: float, threshing: float, about: float = 0.0) -> Pair:
    return Pair(Hours(engine, "engine", about), Hours(threshing, "threshing", about))


def test_without_a_pair_practice_alone_converts() -> None:
    # engine runs 1.3-1.5 times the threshing clock (common practice, no source): 100 h are 130 to 150 h
    there = convert(Hours(100, "threshing"), "engine")
    assert (there.hours - there.about, there.hours + there.about) == (130, 150)


def test_from_a_known_pair_only_the_hours_since_are_in_doubt() -> None:
    there = convert(Hours(1010, "threshing", 1), "engine", [pair(1500, 1000)])
    assert there.hours == 1514  # 1500 + 1.4 * 10
    assert there.about == pytest.approx(0.1 * 10 + 1.4 * 1)


def test_the_rate_is_measured_over_long_stretches_and_kept_to_practice() -> None:
    assert rate([pair(0, 0), pair(40, 30)]) == ENGINE_PER_THRESHING  # too short a stretch to say anything
    low, high = rate([pair(0, 0), pair(1400, 1000)])
    assert 1.3 < low < 1.4 < high < 1.5
    low, high = rate([pair(0, 0), pair(2000, 1000)])  # beyond practice altogether: what was measured holds
    assert low > 1.5
    assert low < 2.0 < high


@given(hours, hours, st.floats(1.3, 1.5), st.floats(0, 900))
def test_the_truth_lies_within_what_is_said(engine: float, threshing: float, per: float, ran: float) -> None:
    read = convert(Hours(threshing + ran, "threshing"), "engine", [pair(engine, threshing)])
    assert abs(read.hours - (engine + per * ran)) <= read.about + 0.11  # both are rounded to tenths


@given(hours, hours, hours)
def test_there_and_back_is_in_doubt_but_true(engine: float, threshing: float, at: float) -> None:
    pairs = [pair(engine, threshing)]
    back = convert(convert(Hours(at, "engine"), "threshing", pairs), "engine", pairs)
    assert abs(back.hours - at) <= back.about + 0.3


@given(hours)
def test_the_same_clock_needs_no_conversion(at: float) -> None:
    assert convert(Hours(at, "engine", 3), "engine", [pair(1, 1)]) == Hours(at, "engine", 3)


def test_a_clock_runs_forwards_and_at_most_a_day_a_day() -> None:
    assert follows(Hours(100), Hours(100), 0)
    assert follows(Hours(100), Hours(124), 0)
    assert not follows(Hours(100), Hours(124.1), 0)
    assert follows(Hours(100), Hours(340), 10)
    assert not follows(Hours(100), Hours(341), 10)
    assert not follows(Hours(100), Hours(99), 10)
    assert follows(Hours(100, about=5), Hours(96), 10)  # within 'about'


@pytest.mark.parametrize(
    ("typed", "low", "high", "was"),
    [
        (47300, 4713, 5049, 4730),  # a nought too many
        (473, 4713, 5049, 4730),  # one too few
        (26504, 2640, 2660, 2650.4),  # the point left out
        (1326, 1230, 1240, 1236),  # two neighbours changed
        (26650, 2640, 2660, 2650),  # a digit twice
        (265, 2640, 2660, 2650),  # a digit left out
        (1, 500, 510, None),
    ],
)
def test_slips_of_the_finger(typed: float, low: float, high: float, was: float | None) -> None:
    assert meant(typed, low, high) == was


@given(st.integers(100, 99_999), st.data())
def test_any_two_neighbours_changed_are_found(was: int, data: st.DataObject) -> None:
    digits = str(was)
    at = data.draw(st.integers(0, len(digits) - 2))
    typed = int(digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :])
    guess = meant(typed, was, was)  # nothing else fits
    assert guess == was


def test_spelling() -> None:
    assert spell(4730) == "4\u00a0730"
    assert spell(930.25) == "930.2"
    assert str(Hours(1234.5, "threshing", 2)) == "1\u00a0234.5 ± 2 h (threshing clock)"


@given(st.lists(st.tuples(st.integers(1, 60), st.floats(0, 20)), min_size=2, max_size=6), st.data())
def test_between_readings_the_truth_is_within_about(steps: list[tuple[int, float]], data: st.DataObject) -> None:
    """A clock is simulated day by day; its readings are taken at the steps, and every day between is asked for."""
    day, at, truth, read = date(2024, 1, 1), 500.0, {}, []
    for length, a_day in steps:
        read.append((day, Hours(at)))
        for _ in range(length):
            truth[day] = at
            day, at = day + timedelta(days=1), at + a_day
    asked = data.draw(st.sampled_from(sorted(d for d in truth if d <= read[-1][0])))
    found = between(read, asked)
    assert found is not None
    assert abs(found.hours - truth[asked]) <= found.about + 0.11


def test_before_the_first_reading_nothing_is_known() -> None:
    assert between([(date(2024, 5, 1), Hours(5))], date(2024, 4, 30)) is None


def log(*reads: tuple[str, str, float, bool]) -> Yard:
    made = [
        ClockReading(id=str(n), machine="lark", on=date.fromisoformat(on), clock=clock, hours=at, new_clock=new)  # type: ignore[arg-type]
        for n, (on, clock, at, new) in enumerate(reads)
    ]
    return Yard.of([Title(name="T"), Machine(id="lark", name="Lark", clocks=("engine", "threshing")), *made])


def test_a_changed_clock_goes_on_counting() -> None:
    yard = log(
        ("2024-01-01", "engine", 4000, False),
        ("2024-06-01", "engine", 4100, False),
        ("2024-06-01", "engine", 0, True),
        ("2024-08-01", "engine", 50, False),
    )
    clocks = yard.clock_log("lark")
    assert yard.hours("lark", date(2024, 8, 1)) == Hours(50)
    assert yard.hours("lark", date(2024, 3, 17)).hours == pytest.approx(4050, abs=1)  # type: ignore[union-attr]
    assert clocks.ran(date(2024, 1, 1), date(2024, 8, 1)) == Hours(150)
    # a reading of the old clock, taken before the change
    assert clocks.ran(date(2024, 1, 1), date(2024, 8, 1), Hours(4000)) == Hours(150)
    assert clocks.ran(date(2024, 8, 1), date(2024, 8, 1), Hours(50)) == Hours(0)
    assert clocks.readings("engine") == ((date(2024, 6, 1), Hours(0)), (date(2024, 8, 1), Hours(50)))


def test_a_later_reading_of_the_other_clock_counts() -> None:
    """Else a look would pass for fresh because nobody read the engine clock again."""
    yard = log(
        ("2026-07-01", "engine", 1400, False),
        ("2026-07-01", "threshing", 1000, False),
        ("2026-08-01", "threshing", 1100, False),
    )
    ran = yard.clock_log("lark").ran(date(2026, 7, 1), date(2026, 8, 2))
    assert ran is not None
    assert (ran.hours, ran.about) == (140, 10)
    assert yard.hours("lark", date(2026, 8, 2)) == Hours(1540, "engine", 10)


def test_a_machine_never_read_tells_nothing() -> None:
    yard = log()
    assert yard.hours("lark", date(2026, 8, 1)) is None
    assert yard.clock_log("lark").ran(date(2026, 7, 1), date(2026, 8, 1)) is None
