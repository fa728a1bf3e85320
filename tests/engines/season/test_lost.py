"""A day lost, against each season gone through day by day with that day left out; and what must hold of any."""

from __future__ import annotations

import math

import numpy as np
import pytest

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import DAY, Crop, DaysLost, days_lost, field_clock
from axlewright.kinds import Array

HOUR = 3600.0
SEASONS, SPAN = 14, 26


def share(crop: Crop, morning: float) -> float:
    """The share lost of what is cut on a day, by the integral of its daily loss, on paper."""
    past = max(morning - float(crop.ready) - float(crop.grace), 0.0)
    return min(float(crop.loss) * (past + past * past / (2 * float(crop.doubling))), float(crop.most))


def by_paper(crops: list[Crop], ends: list[float], hours: list[float]) -> tuple[list[float], float]:
    """One season, crop after crop, day by day, hour by hour: what is lost of each crop, and when the last is off."""
    lost, at, finish = [], 0.0, 0.0  # at: days and parts of a day from now
    for crop, end in zip(crops, ends, strict=True):
        left, waited, time = float(crop.area), 0.0, max(at, float(crop.ready) / DAY)
        close = min(end / DAY, len(hours))
        begun_late = time >= close
        while left > 1e-6 and time < close - 1e-12:
            day = int(time + 1e-12)
            part = min(day + 1, close) - time  # of this day
            can = hours[day] * part * float(crop.rate)
            cut = min(can, left)
            waited += cut * share(crop, day * DAY)
            left -= cut
            time = time + part * (cut / can) if cut < can else time + part
        off = left <= 1e-6
        lost.append(waited + (0.0 if off else left))
        if float(crop.area) > 0 and not begun_late:
            at = time if off else close
        finish = max(finish, time if off and crop.area else 0.0 if off else math.inf)
    return lost, finish * DAY


def drawn(seed: int) -> tuple[list[list[Crop]], tuple[float, float], Array]:
    """Two crops of each season, and the hours of its days."""
    rng = np.random.default_rng(seed)
    one = [
        [
            Crop(rng.uniform(8e4, 9e5), rng.uniform(2.0, 6.0), ready, rng.uniform(0.001, 0.02) / DAY, 2.5 * DAY, 9 * DAY, 0.5)
            for ready in (rng.uniform(-3, 2) * DAY, 8.0 * DAY)
        ]
        for _ in range(SEASONS)
    ]  # fmt: skip
    days = (rng.random((SEASONS, SPAN)) < 0.6) * rng.uniform(5, 11, (SEASONS, 1)) * HOUR
    return one, (15.0 * DAY, 25.0 * DAY), days


def together(each: list[list[Crop]]) -> tuple[Crop, ...]:
    """The crops of all seasons as draws; both begin with the ready day of the first season."""
    return tuple(
        Crop(
            np.array([season[n].area for season in each]),
            np.array([season[n].rate for season in each]),
            np.array([season[n].ready for season in each]),
            np.array([season[n].loss for season in each]),
            each[0][n].grace,
            each[0][n].doubling,
            each[0][n].most,
        )
        for n in range(2)
    )


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_each_season_by_paper_with_the_day_left_out(seed: int) -> None:
    each, ends, days = drawn(seed)
    asked = np.arange(SPAN)
    found = days_lost(together(each), ends, days, asked)
    assert isinstance(found, DaysLost)
    bites = 0
    for n, crops in enumerate(each):
        plain, finish = by_paper(crops, list(ends), list(days[n]))
        assert np.asarray(found.lost)[n] == pytest.approx(plain, rel=1e-9, abs=1e-3)
        assert float(np.asarray(found.finish)[n]) == pytest.approx(finish, abs=1e-3)
        for day in asked:
            without, _ = by_paper(crops, list(ends), [0.0 if d == day else h for d, h in enumerate(days[n])])
            more = [b - a for a, b in zip(plain, without, strict=True)]
            assert np.asarray(found.more)[n, day] == pytest.approx(more, rel=1e-7, abs=2e-2)
            bites += sum(more) > 1.0
    assert bites > SEASONS  # it is no test of zeros


def test_without_a_day_lost_it_is_the_field_clock() -> None:
    each, _, days = drawn(5)
    crops = together(each)
    clock = field_clock(crops, days)
    found = days_lost(crops, (SPAN * DAY, SPAN * DAY), days, np.arange(0))
    assert np.asarray(found.finish) == pytest.approx(np.asarray(clock.finish))
    assert np.asarray(found.lost) == pytest.approx(np.asarray(clock.delayed) + np.asarray(clock.standing), abs=1e-6)


def test_a_day_that_could_not_be_worked_costs_nothing_and_no_day_gains() -> None:
    each, ends, days = drawn(7)
    found = days_lost(together(each), ends, days, np.arange(SPAN))
    more = np.asarray(found.more)
    assert (more >= 0).all()
    assert more.sum(axis=2)[days == 0].max() < 1e-3
    finish = np.asarray(found.finish)
    after = np.arange(SPAN)[None, :] * DAY >= np.where(np.isfinite(finish), finish, np.inf)[:, None]
    assert more.sum(axis=2)[after].max(initial=0.0) < 1e-3


def test_what_still_stands_waits_in_proportion_early_in_the_season() -> None:
    """K Y V A d (ASABE EP496.3): with a loss that does not grow, no grace, fine days only, a day at the start costs K A."""
    area, loss = 40e4, 0.006 / DAY
    crop = Crop(area, 40e4 / (20 * 8 * HOUR), 0.0, loss, 0.0, np.inf, 0.6)
    found = days_lost((crop,), (60 * DAY,), np.full((1, 60), 8 * HOUR), np.array([0, 10, 30]))
    more = np.asarray(found.more)[0, :, 0]
    assert more[0] == pytest.approx(loss * DAY * area)
    assert more[1] == pytest.approx(loss * DAY * area / 2)
    assert not more[2]


def test_what_it_is_not_given() -> None:
    crop = Crop(1e4, 1.0)
    with pytest.raises(OutOfRange, match="days"):
        days_lost((crop,), (DAY,), np.zeros((1, 3)), np.array([3]))
    with pytest.raises(OutOfRange, match="crops"):
        days_lost((crop,), (), np.zeros((1, 3)), np.array([0]))
