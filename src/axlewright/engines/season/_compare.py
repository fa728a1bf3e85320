"""Courses side by side on common draws: what each costs, how sure that is, and which differ."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, TypeAlias

import numpy as np

from axlewright.engines.season._ledger import PRICED, Ledger, Prices, is_nought
from axlewright.engines.season.courses import Outcome
from axlewright.kinds import LAST_AXIS, Array, Duration, Money, Share, YesNo, kind_of

Moneys: TypeAlias = Annotated[Array, kind_of(Money), LAST_AXIS]
Durations: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]

DOTS = 100
CLOSE = 0.03  # of the smaller cost: a lesser difference says nothing on guessed prices (assumed)
SURE = 2.0  # standard errors of the paired difference


@dataclass(frozen=True, slots=True)
class CourseResult:
    """What is told of one course. Costs stand above those of the same seasons without trouble.

    Attributes:
        name: of the course
        recovery: number of the recovery taken if a drive lets go: of those offered, the one of least mean cost [1]
        mean: mean cost [money]
        error: standard error of the mean, by trajectories [money]
        low: cost that one season in ten stays under [money]
        middle: cost that every second stays under [money]
        high: cost that nine in ten stay under [money]
        dots: a hundred seasons in order of cost, each as likely as any other [money]
        cash: mean of what is paid before work begins [money]
        days_lost: mean of the time lost against the same weather without trouble [s]
        finish: when the last crop is off in one season in ten, in every second, in nine of ten; infinite: never [s]
        unfinished: share of seasons in which some crop is never taken off [-]
        fails: chance that a drive lets go at work this season [-]
        unsafe: chance that it is unsafe when it does [-]
        regret: mean of what it costs more than the cheapest of that season, known afterwards [money]
        cheapest: share of seasons in which it would have been the cheapest; hindsight, no confidence [-]
        behind: mean of what it costs more than the best [money]
        behind_error: standard error of that, paired [money]
        too_close: the difference to the best is too small to call
        dominated: another is no worse in cash, cost, days, chance of letting go or of harm, and better in one
    """

    name: str
    recovery: int
    mean: Money
    error: Money
    low: Money
    middle: Money
    high: Money
    dots: Moneys
    cash: Money
    days_lost: Duration
    finish: Durations
    unfinished: Share
    fails: Share
    unsafe: Share
    regret: Money
    cheapest: Share
    behind: Money
    behind_error: Money
    too_close: YesNo
    dominated: YesNo


@dataclass(frozen=True, slots=True)
class Choice:
    """Courses on common draws.

    Attributes:
        results: one a course, in the order given
        outcomes: what each course came to, with the recovery taken; later years in `season` too where they were asked
        costs: cost above the same season without trouble, a draw a row, a course a column [money]
        best: number of the admitted course of least mean cost [1]
        perfect: the most that knowing everything beforehand could save [money]
    """

    results: tuple[CourseResult, ...]
    outcomes: tuple[Outcome, ...]
    costs: Money
    best: int
    perfect: Money


def cost_of(ledger: Ledger, prices: Prices) -> Money:
    """Cost of what a course uses up.

    Args:
        ledger: the counts
        prices: what one of each costs

    Returns:
        cost [money]

    Source: counts times prices.
    Valid: always; straight in every price, so a price can be moved without another run.

    >>> nothing = dict.fromkeys(
    ...     ("exchange", "deposit", "seal_kit", "rebuild", "extra_parts", "hire_call", "check"), 0.0
    ... )
    >>> prices = Prices(
    ...     tow=600,
    ...     labour=0.01,
    ...     winter_labour=0.0,
    ...     used=4000,
    ...     damage=0,
    ...     hire=0,
    ...     hold=0,
    ...     crop=np.array([0.1]),
    ...     **nothing,
    ... )
    >>> float(cost_of(Ledger(tows=1.0, used=1.0, labour=3600.0, delayed=np.array([500.0])), prices))
    4686.0
    """
    total: Any = 0.0
    for count, price, sign in PRICED:
        many = getattr(ledger, count)
        if not is_nought(many):
            total = total + sign * many * np.asarray(getattr(prices, price), float)
    for areas in (ledger.delayed, ledger.standing):
        if not is_nought(areas):
            total = total + (np.asarray(areas) * np.asarray(prices.crop)).sum(axis=-1)
    return np.asarray(total, float)[()]


def compare(
    outcomes: tuple[tuple[Outcome, ...], ...],
    prices: Prices,
    free: Outcome,
    admitted: tuple[bool, ...] = (),
    weights: Share = 1.0,
    replicates: int = 1,
) -> Choice:
    """Courses side by side, each with the recovery that is cheapest on the mean.

    Args:
        outcomes: for each course, its outcome under each recovery
        prices: what one of each count costs
        free: the same seasons without trouble
        admitted: whether a verdict lets the course be taken at all; none given: all may
        weights: how much each trajectory counts; need not add up to 1 [-]
        replicates: seasons drawn of each trajectory, one after another [1]

    Returns:
        the choice

    Source: counts times prices on common draws; standard error of paired differences (docs/engines/season.md).
    Valid: all outcomes on the same draws. Best and too close speak of admitted courses only.
    """
    raise NotImplementedError
