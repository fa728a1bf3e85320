"""Workable days as a chain of two states: from what a farmer says, from reports, from a record (E1)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Array, Count, Share, YesNo, kind_of

Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]
Flags: TypeAlias = Annotated[NDArray[np.bool_], kind_of(YesNo), LAST_AXIS]
OneShare: TypeAlias = Annotated[float, kind_of(Share)]

EDGE = 1e-9  # a spell as short as the share allows, but for rounding
TINY = 1e-12
MANY = 1000  # shares: so many go through knots
KNOTS, FARTHEST = 241, 6.0  # normal scores, evenly spread
LONGEST_MEMORY = 0.9999  # beyond, the closed form loses its digits; no weather lasts so


@dataclass(frozen=True, slots=True)
class Chain:
    """Days that follow one another: workable or not.

    Attributes:
        after_bad: chance of a workable day after one that was not [-]
        after_good: chance of a workable day after a workable one [-]
        share: share of days that are workable [-]
        memory: by how much a workable day makes the next one likelier [-]
        good_spell: length of a workable spell, in days, on the mean [-]
        bad_spell: length of a spell without work, in days, on the mean [-]
    """

    after_bad: Share
    after_good: Share
    share: Share
    memory: Share
    good_spell: Share
    bad_spell: Share


def _chain(after_bad: Share, after_good: Share) -> Chain:
    bad, good = np.asarray(after_bad, float), np.asarray(after_good, float)
    leaves = 1 - good + bad
    share = np.where(leaves > 0, bad / np.where(leaves > 0, leaves, 1.0), np.nan)
    if np.isnan(share).any():
        raise OutOfRange("after_good", 1.0, 0.0, 1.0, why="with no way in or out of a state there is no share of days")
    good_spell = np.where(good < 1, 1 / np.where(good < 1, 1 - good, 1.0), np.inf)
    bad_spell = np.where(bad > 0, 1 / np.where(bad > 0, bad, 1.0), np.inf)
    return Chain(bad[()], good[()], share[()], (good - bad)[()], good_spell[()], bad_spell[()])


def chain_from_spell(share: Share, spell: Share) -> Chain:
    """Chain of days from what a farmer can say: how many days of ten are workable, and how long a good spell lasts.

    Args:
        share: share of days that are workable [-]
        spell: length of a good spell, in days, on the mean [-]

    Returns:
        the chain

    Source: p11 = 1 - 1/m, p01 = s/((1 - s) m).
    Valid: a spell of at least s/(1 - s) days: shorter ones cannot make up the share.
    Try: share=0.7 spell=4

    >>> round(float(chain_from_spell(0.7, 4.0).after_bad), 5)
    0.58333
    """
    within("share", share, 0.0, 1 - TINY, "where every day is workable there are no spells")
    within("spell", spell, 1.0)
    s, m = np.asarray(share, float), np.asarray(spell, float)
    if (m < s / (1 - s) * (1 - EDGE)).any():
        raise OutOfRange(
            "spell", float(np.min(m)), float(np.max(s / (1 - s))), np.inf, why="shorter spells cannot make up the share"
        )
    return _chain(np.minimum(s / ((1 - s) * m), 1.0), 1 - 1 / m)


def chain_from_memory(share: Share, memory: Share) -> Chain:
    """Chain of days from the share of workable days and the memory from day to day.

    Args:
        share: share of days that are workable [-]
        memory: by how much a workable day makes the next one likelier; 0: not at all [-]

    Returns:
        the chain

    Source: p01 = s (1 - r), p11 = s + r (1 - s).
    Valid: memory 0 or more, under 1.
    Try: share=0.7 memory=0.17

    >>> round(float(chain_from_memory(0.7, 1 / 6).after_good), 4)
    0.75
    """
    within("share", share, 0.0, 1.0)
    within("memory", memory, 0.0, 1 - TINY)
    s = np.asarray(share, float)
    return _chain(s * (1 - np.asarray(memory, float)), s + memory * (1 - s))


@dataclass(frozen=True, slots=True)
class FromRecord:
    """A chain from a record of days, and whether the record shows any memory.

    Attributes:
        chain: the chain
        chi_square: test of memory: beyond 3.84 chance alone gives as much in one record of twenty [-]
    """

    chain: Chain
    chi_square: Share


def chain_from_counts(bad_bad: Count, bad_good: Count, good_bad: Count, good_good: Count) -> FromRecord:
    """Chain of days from counts of what followed on what, within each year's season only.

    Args:
        bad_bad: not workable, then not workable [1]
        bad_good: not workable, then workable [1]
        good_bad: workable, then not workable [1]
        good_good: workable, then workable [1]

    Returns:
        the chain and the test of its memory

    Source: maximum likelihood of a two-state chain; chi-square of a 2 x 2 table.
    Valid: days of one kind of season; counts across the turn of a year or pooled seasons fake memory.
    Try: bad-bad=11 bad-good=5 good-bad=4 good-good=10

    >>> round(float(chain_from_counts(11, 5, 4, 10).chi_square), 2)
    4.82
    """
    for name, value in (("bad_bad", bad_bad), ("bad_good", bad_good), ("good_bad", good_bad), ("good_good", good_good)):
        within(name, value, 0.0)
    a, b, c, d = (np.asarray(v, float) for v in (bad_bad, bad_good, good_bad, good_good))
    above("bad_good", a + b, why="no day without work was followed by another")
    above("good_good", c + d, why="no workable day was followed by another")
    columns = (a + c) * (b + d)
    square = (a * d - b * c) ** 2 * (a + b + c + d)
    test = square / np.where(columns > 0, (a + b) * (c + d) * columns, 1.0)
    return FromRecord(_chain(b / (a + b), d / (c + d)), test[()])


@dataclass(frozen=True, slots=True)
class Followed:
    """What followed on what, day by day.

    Attributes:
        bad_bad: no, then no [1]
        bad_good: no, then yes [1]
        good_bad: yes, then no [1]
        good_good: yes, then yes [1]
    """

    bad_bad: Count
    bad_good: Count
    good_bad: Count
    good_good: Count


def days_followed(days: Flags) -> Followed:
    """Counts of what followed on what in a record of days without a gap.

    Args:
        days: whether each day was workable, in order [-]

    Returns:
        counts

    Source: counting.
    Valid: one season of one year; add up the counts of several.
    Try: days="yes; yes; no; yes; no; no; yes"

    >>> days_followed(np.array([True, True, False, True]))
    Followed(bad_bad=0.0, bad_good=1.0, good_bad=1.0, good_good=1.0)
    """
    record = np.asarray(days, bool).ravel()
    first, second = record[:-1], record[1:]
    counts = [float((first == a).astype(int) @ (second == b).astype(int)) for a in (False, True) for b in (False, True)]
    return Followed(*counts)


def workable_by_rain(rain: Shares, today: OneShare = 1.0, yesterday: OneShare = 5.0, before: OneShare = 10.0) -> Flags:
    """Which days are workable, by a rule on the rain of today and of the days before.

    Args:
        rain: rain of each day in order, in mm [-]
        today: workable only below so much today, in mm [-]
        yesterday: and below so much yesterday, in mm [-]
        before: and below so much in the two days before today together, in mm [-]

    Returns:
        whether each day is workable; days before the record count as dry [-]

    Source: rule assumed; set it by a diary of days worked.
    Valid: empirical; general fieldwork. Combining needs it drier: 0.85 to 0.95 of such days.
    Try: rain="0; 0; 4; 12; 0; 0; 0"

    >>> workable_by_rain(np.array([0.0, 6.0, 0.0, 0.0, 0.0])).tolist()
    [True, False, False, True, True]
    """
    fell = np.asarray(rain, float).ravel()
    within("rain", fell, 0.0)
    for name, value in (("today", today), ("yesterday", yesterday), ("before", before)):
        above(name, value)
    padded = np.concatenate([np.zeros(2), fell])
    one, two = padded[1:-1], padded[:-2]
    return np.asarray((fell < today) & (one < yesterday) & (one + two < before))


def days_variance(share: Share, memory: Share, days: Share, year_spread: Share = 0.0) -> Share:
    """Variance of the number of workable days in so many.

    Args:
        share: share of days that are workable [-]
        memory: by how much a workable day makes the next one likelier [-]
        days: how many days [-]
        year_spread: standard deviation of the share between years [-]

    Returns:
        variance, in days squared [-]

    Source: s (1 - s)(n (1 + r)/(1 - r) - 2 r (1 - r^n)/(1 - r)^2); years by the law of total variance.
    Valid: from any day on; memory under 1.
    Try: share=0.65 memory=0.5238 days=30

    >>> round(float(days_variance(0.65, 0.52381, 30.0)), 3)
    20.789
    """
    within("share", share, 0.0, 1.0)
    within("memory", memory, -LONGEST_MEMORY, LONGEST_MEMORY)
    within("days", days, 0.0)
    s, r, n = np.asarray(share, float), np.asarray(memory, float), np.asarray(days, float)
    within("year_spread", year_spread, 0.0)
    each = s * (1 - s) - np.asarray(year_spread, float) ** 2
    within("year_spread", np.where(each >= 0, 0.0, year_spread), 0.0, 0.0, "no share from 0 to 1 differs so much")
    power = np.abs(r) ** n * np.where(r < 0, np.cos(np.pi * n), 1.0)
    grows = n * (1 + r) / (1 - r) - 2 * r * (1 - power) / (1 - r) ** 2
    return np.asarray(each * grows + (n * year_spread) ** 2)[()]


def memory_from_reports(share: Share, days: Share, deviation: Share) -> Share:
    """Memory from day to day, from how far weekly reports of workable days scatter.

    Args:
        share: share of days that are workable [-]
        days: days in one report [-]
        deviation: standard deviation of the days reported [-]

    Returns:
        memory; an upper value, since years differ too [-]

    Source: `days_variance` turned round, by bisection.
    Valid: a scatter between that of no memory and that of whole weeks alike.
    Try: share=0.7 days=7 deviation=1.6

    >>> r = memory_from_reports(0.7, 7.0, 1.6)
    >>> round(float(days_variance(0.7, r, 7.0)) ** 0.5, 6)
    1.6
    """
    within("share", share, TINY, 1 - TINY)
    within("days", days, 2.0)
    within("deviation", deviation, 0.0)
    wanted = np.asarray(deviation, float) ** 2
    low = np.zeros(np.broadcast_shapes(np.shape(share), np.shape(days), wanted.shape))
    high = np.full(low.shape, LONGEST_MEMORY)
    least, most = np.asarray(days_variance(share, low, days)), np.asarray(days_variance(share, high, days))
    if (wanted < least * (1 - EDGE)).any() or (wanted > most).any():
        ends = float(np.max(least)) ** 0.5, float(np.min(most)) ** 0.5
        raise OutOfRange("deviation", float(np.min(deviation)), *ends, why="from no memory to weeks all alike")
    for _ in range(60):
        middle = (low + high) / 2
        less = np.asarray(days_variance(share, middle, days)) < wanted
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    return np.asarray((low + high) / 2)[()]


def spell_at_least(after_good: Share, days: Share) -> Share:
    """Chance that a good spell lasts so many days.

    Args:
        after_good: chance of a workable day after a workable one [-]
        days: how many, the first one counted [-]

    Returns:
        chance [-]

    Source: spells of a chain are geometric.
    Valid: from the first workable day on.
    Try: after-good=0.75 days=5

    >>> round(float(spell_at_least(0.75, 5.0)), 5)
    0.31641
    """
    within("after_good", after_good, 0.0, 1.0)
    within("days", days, 1.0)
    return np.asarray(np.asarray(after_good, float) ** (np.asarray(days, float) - 1))[()]


def days_chances(share: OneShare, memory: OneShare, days: int, today: OneShare = -1.0) -> Shares:
    """Chance of each number of workable days in so many.

    Args:
        share: share of days that are workable [-]
        memory: by how much a workable day makes the next one likelier [-]
        days: how many days [1]
        today: whether it is workable today, the day before the first: 1 or 0; -1: not known [-]

    Returns:
        chance of 0, 1, 2 ... workable days [-]

    Source: exact recursion over days, count and state.
    Valid: one chain; years that differ are averaged outside.
    Try: share=0.7 memory=0.17 days=10

    >>> round(float(days_chances(0.7, 0.0, 10)[7:].sum()), 5)
    0.64961
    """
    within("share", share, 0.0, 1.0)
    within("memory", memory, 0.0, 1 - TINY)
    within("days", days, 0, 4000)
    within("today", today, -1.0, 1.0)
    bad_good, good_good = share * (1 - memory), share + memory * (1 - share)
    first = share if today < 0 else today * good_good + (1 - today) * bad_good
    bad, good = np.zeros(days + 1), np.zeros(days + 1)
    if not days:
        return np.ones(1)
    bad[0], good[1] = 1 - first, first
    for _ in range(days - 1):
        next_bad = bad * (1 - bad_good) + good * (1 - good_good)
        good = np.concatenate([[0.0], (bad * bad_good + good * good_good)[:-1]])
        bad = next_bad
    return np.asarray(bad + good)


def year_shares(shares: Share, share: Share, year_spread: Share) -> Share:
    """Share of workable days of each drawn year.

    Args:
        shares: shares of 0 to 1, one a year [-]
        share: mean of the share over years [-]
        year_spread: its standard deviation between years [-]

    Returns:
        share of each year [-]

    Source: inverse of the Beta distribution of that mean and deviation.
    Valid: a deviation that a share can have.
    Try: shares=0.1 share=0.7 year-spread=0.09

    >>> round(float(year_shares(0.5, 0.5, 0.1)), 6)
    0.5
    """
    from scipy.special import betaincinv

    within("shares", shares, 0.0, 1.0)
    within("share", share, TINY, 1 - TINY)
    within("year_spread", year_spread, 0.0)
    mean, spread = np.asarray(share, float), np.asarray(year_spread, float)
    within("year_spread", np.where(spread**2 < mean * (1 - mean), 0.0, spread), 0.0, 0.0, "no share can differ so much")
    size = mean * (1 - mean) / np.maximum(spread, 1e-4) ** 2 - 1
    first, second = mean * size, (1 - mean) * size
    given = np.asarray(shares, float)
    many = given.size > MANY and first.ndim == 0 and min(first, second) > 1  # one law, with one hump
    drawn = _between_knots(float(first), float(second), given) if many else betaincinv(first, second, given)
    return np.asarray(np.where(spread > 0, np.clip(drawn, 0.0, 1.0), mean + 0 * np.asarray(shares)))[()]


def _between_knots(first: float, second: float, shares: Array) -> Array:
    """Inverse of one Beta distribution at many shares: exact at knots, and between them the cubic of values and slopes.

    Along a normal score it is so smooth that the error is under 1e-8; the exact inverse takes 1 us a share.
    """
    from scipy.special import betaincinv, betaln, ndtr, ndtri

    knots = np.linspace(-FARTHEST, FARTHEST, KNOTS)
    value = betaincinv(first, second, ndtr(knots))
    density = (first - 1) * np.log(value) + (second - 1) * np.log1p(-value) - betaln(first, second)
    slope = np.exp(-(knots**2) / 2 - density) / np.sqrt(2 * np.pi)
    step = knots[1] - knots[0]
    place = (np.clip(ndtri(shares), -FARTHEST, FARTHEST) + FARTHEST) / step
    low = np.minimum(place.astype(np.intp), KNOTS - 2)
    t = place - low
    bend = value[1:] - value[:-1]
    square = slope[:-1] * step - bend  # h = v + t (d + (1 - t) ((1 - t) p + t q)), as values and slopes ask
    other = bend - slope[1:] * step
    drawn = value[low] + t * (bend[low] + (1 - t) * ((1 - t) * square[low] + t * other[low]))
    beyond = (shares < ndtr(-FARTHEST)) | (shares > ndtr(FARTHEST))
    if beyond.any():
        drawn[beyond] = betaincinv(first, second, shares[beyond])
    return np.asarray(drawn)
