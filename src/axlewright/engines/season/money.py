"""Decisions in money: break-even, hire, warranty, risk, what a spare is worth (E2)."""

from __future__ import annotations

from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Area, AreaPrice, Array, Duration, Money, MoneyRate, Rate, Share, kind_of

Moneys: TypeAlias = Annotated[Array, kind_of(Money), LAST_AXIS]
Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]
OneMoney: TypeAlias = Annotated[float, kind_of(Money)]


def cost_with_failure(cash: Money, chance: Share, failure: Money) -> Money:
    """Cost on the mean of a course that may fail.

    Args:
        cash: what it costs in any case [money]
        chance: chance that it fails [-]
        failure: what a failure costs besides [money]

    Returns:
        cost [money]

    Source: expectation of two branches.
    Valid: one failure at most.
    Try: cash=150 chance=0.22 failure=14500

    >>> round(float(cost_with_failure(150.0, 0.22, 14500.0)), 2)
    3340.0
    """
    within("cash", cash)
    within("chance", chance, 0.0, 1.0)
    within("failure", failure)
    return cash + chance * np.asarray(failure, float)


def break_even_chance(run: Money, fix: Money, failure: Money, fixed_fails: Share = 0.0) -> Share:
    """Chance of failing above which it pays to fix it.

    Args:
        run: what running costs in any case [money]
        fix: what fixing costs in any case [money]
        failure: what a failure costs besides [money]
        fixed_fails: chance that it fails all the same, once fixed [-]

    Returns:
        chance; beyond 1 it never pays, below 0 always [-]

    Source: the two expectations set equal.
    Valid: a failure costs the same either way. Money decides nothing where a verdict says stop.
    Try: run=150 fix=2400 failure=14500 fixed-fails=0.03

    >>> round(float(break_even_chance(150.0, 2400.0, 14500.0, 0.03)), 5)
    0.18517
    """
    within("run", run)
    within("fix", fix)
    above("failure", failure)
    within("fixed_fails", fixed_fails, 0.0, 1.0)
    return (np.asarray(fix, float) - run) / failure + fixed_fails


def hire_cost(area: Area, price: AreaPrice, move_in: Money, own: AreaPrice, waiting: Money = 0.0) -> Money:
    """What it costs to have work done by a hired machine, above doing it with one's own.

    Args:
        area: what is to be worked [m^2]
        price: what the contractor asks [money/m^2]
        move_in: what he asks for coming [money]
        own: own fuel, wear and labour that are saved [money/m^2]
        waiting: crop lost until he comes (`loss_by_delay`) [money]

    Returns:
        cost [money]

    Source: bill, less what is saved, and the loss while waiting.
    Valid: he comes; ask for the day.
    Try: area="120 ha" price="104 /ha" move-in=400 own="28 /ha" waiting=3870.72

    >>> round(float(hire_cost(1_200_000.0, 0.0104, 400.0, 0.0028, 3870.72)), 2)
    13390.72
    """
    within("area", area, 0.0)
    within("price", price, 0.0)
    within("move_in", move_in, 0.0)
    within("own", own, 0.0)
    within("waiting", waiting, 0.0)
    return area * (np.asarray(price, float) - own) + move_in + waiting


def labour_cost(people: Share, time: Duration, wage: MoneyRate) -> Money:
    """What people's time on a job is worth.

    Args:
        people: how many [-]
        time: time of each [s]
        wage: worth of an hour of one [money/s]

    Returns:
        cost [money]

    Source: people times hours times worth.
    Valid: always.
    Try: people=2 time="8 h" wage="25 /h"

    >>> round(float(labour_cost(2, 8 * 3600.0, 25 / 3600)), 6)
    400.0
    """
    within("people", people, 0.0)
    within("time", time, 0.0)
    within("wage", wage, 0.0)
    return people * time * wage


def repairs_share(hours: Duration, factor: Share, power: Share, scale: Duration = 3_600_000.0) -> Share:
    """Repairs up to an age, as a share of the machine's new price.

    Args:
        hours: machine hours so far [s]
        factor: repair factor RF1 [-]
        power: repair factor RF2 [-]
        scale: hours that the factors are for: 1000 h [s]

    Returns:
        share of the new price [-]

    Source: ASABE EP496.3, RF1 (h/1000)^RF2; combine 0.04 and 2.1, forage harvester 0.03 and 2.0, sprayer 0.41 and 1.3
        (D497.7, from memory).
    Valid: to the life the factors are for; a mean over many machines.
    Try: hours="3000 h" factor=0.04 power=2.1

    >>> round(float(repairs_share(3000 * 3600.0, 0.04, 2.1)), 3)
    0.402
    """
    within("hours", hours, 0.0)
    within("factor", factor, 0.0)
    above("power", power)
    above("scale", scale)
    return factor * (np.asarray(hours, float) / scale) ** power


def yearly_growth(before: Money, after: Money, years: Share) -> Share:
    """Growth of a price in a year, from two prices some years apart.

    Args:
        before: the earlier price [money]
        after: the later price [money]
        years: years between them [-]

    Returns:
        growth, 0.08 is 8 per cent [-]

    Source: compound growth.
    Valid: the same thing priced twice.
    Try: before=35.1 after=48.15 years=4

    >>> round(float(yearly_growth(35.10, 48.15, 4.0)), 4)
    0.0822
    """
    above("before", before)
    above("after", after)
    above("years", years)
    return (np.asarray(after, float) / before) ** (1 / np.asarray(years, float)) - 1


def flip_price(one_other: Money, one_count: Share, two_other: Money, two_count: Share) -> Money:
    """Price at which two courses cost the same.

    Args:
        one_other: what the first costs besides [money]
        one_count: how much of the priced thing the first takes [-]
        two_other: what the second costs besides [money]
        two_count: how much of it the second takes [-]

    Returns:
        price; below nothing they never cost the same [money]

    Source: two straight lines that cross.
    Valid: they take different amounts.
    Try: one-other=3900 one-count=31.2 two-other=7100 two-count=4.5

    >>> round(float(flip_price(3900.0, 31.2, 7100.0, 4.5)), 2)
    119.85
    """
    for name, value in (("one_other", one_other), ("two_other", two_other)):
        within(name, value)
    for name, value in (("one_count", one_count), ("two_count", two_count)):
        within(name, value)
    more = np.asarray(one_count, float) - two_count
    if not more.all():
        raise OutOfRange(
            "one_count", float(np.min(one_count)), -np.inf, np.inf, why="both take as much: no price flips it"
        )
    return (np.asarray(two_other, float) - one_other) / more


def expected_refund(rate: Rate, window: Duration) -> Share:
    """Share of the price that comes back under a warranty in full, on the mean.

    Args:
        rate: drives that let go in an hour [1/s]
        window: hours that the warranty holds [s]

    Returns:
        share [-]

    Source: 1 - e^(-rate W); policies in Blischke and Murthy, Warranty Cost Analysis (contents read).
    Valid: an even rate; the seller pays.
    Try: rate="0.0008 /h" window="500 h"

    >>> round(float(expected_refund(0.0008, 500.0)), 6)
    0.32968
    """
    within("rate", rate, 0.0)
    within("window", window, 0.0)
    return np.asarray(-np.expm1(-np.asarray(rate, float) * window))[()]


def expected_refund_pro_rata(rate: Rate, window: Duration) -> Share:
    """Share of the price that comes back under a warranty that pays for what was not had, on the mean.

    Args:
        rate: drives that let go in an hour [1/s]
        window: hours that the warranty holds [s]

    Returns:
        share [-]

    Source: integral of (1 - t/W) f(t) to W: 1 - (1 - e^-x)/x with x = rate W (ours).
    Valid: an even rate; the seller pays.
    Try: rate="0.0008 /h" window="500 h"

    >>> round(float(expected_refund_pro_rata(0.0008, 500.0)), 6)
    0.1758
    """
    within("rate", rate, 0.0)
    within("window", window, 0.0)
    x = np.asarray(rate, float) * window
    small = x < 1e-4
    whole = 1 + np.expm1(-x) / np.where(small, 1.0, x)
    return np.asarray(np.where(small, x / 2 - x * x / 6, whole))[()]


def spare_protection(rate: Rate, discount: Rate, years: Duration, saving: Money) -> Money:
    """What a spare on the shelf saves at the first let go that it covers.

    Args:
        rate: chance of letting go in a time [1/s]
        discount: what is paid later counts less, as a rate [1/s]
        years: how long it is looked ahead [s]
        saving: what it saves when it is wanted [money]

    Returns:
        saving, counted today [money]

    Source: D lam/(lam + r) (1 - e^(-(lam + r) T)) (docs/engines/season.md).
    Valid: an even rate; the first let go only.
    Try: rate="3.8e-9 /s" discount="1.9e-9 /s" years="1826 d" saving=9000

    >>> round(float(spare_protection(0.12, 0.06, 5.0, 9000.0)), 2)
    3560.58
    """
    above("rate", rate)
    within("discount", discount, 0.0)
    within("years", years, 0.0)
    within("saving", saving)
    both = np.asarray(rate, float) + discount
    return np.asarray(saving * rate / both * -np.expm1(-both * years))[()]


def spare_resale(rate: Rate, discount: Rate, years: Duration, resale: Money) -> Money:
    """What a spare that was never wanted is worth at the end.

    Args:
        rate: chance of letting go in a time [1/s]
        discount: what is paid later counts less, as a rate [1/s]
        years: how long it is looked ahead [s]
        resale: what it brings then [money]

    Returns:
        worth, counted today [money]

    Source: S e^(-(lam + r) T) (docs/engines/season.md).
    Valid: an even rate; kept dry and turned.
    Try: rate="3.8e-9 /s" discount="1.9e-9 /s" years="1826 d" resale=3000

    >>> round(float(spare_resale(0.12, 0.06, 5.0, 3000.0)), 2)
    1219.71
    """
    within("rate", rate, 0.0)
    within("discount", discount, 0.0)
    within("years", years, 0.0)
    within("resale", resale)
    return np.asarray(resale * np.exp(-(np.asarray(rate, float) + discount) * years))[()]


def certainty_equivalent(costs: Moneys, weights: Shares, tolerance: OneMoney) -> Money:
    """Sure cost that is as bad as an uncertain one, to somebody of this risk tolerance.

    Args:
        costs: cost of each draw [money]
        weights: weight of each; need not add up to 1 [-]
        tolerance: risk tolerance (`risk_tolerance`) [money]

    Returns:
        cost [money]

    Source: exponential utility, R ln E e^(C/R); Kirkwood, notes on attitude toward risk taking (abstract read).
    Valid: whole costs of one decision; never to price harm to people.
    Try: costs="5000; 11000" weights="0.5; 0.5" tolerance=15000

    >>> round(float(certainty_equivalent(np.array([5000.0, 11000.0]), np.array([1.0, 1.0]), 15000.0)), 1)
    8298.0
    """
    values, weight = np.asarray(costs, float).ravel(), np.asarray(weights, float).ravel()
    within("costs", values)
    within("weights", weight, 0.0)
    if values.shape != weight.shape or not weight.any():
        raise OutOfRange("weights", float(weight.size), values.size, values.size, why="one a cost, not all of them 0")
    above("tolerance", tolerance)
    most = values[weight > 0].max()  # the greatest first, or the exponential runs over
    rest = np.exp((values[weight > 0] - most) / tolerance)
    return float(most + tolerance * np.log(weight[weight > 0] @ rest / weight.sum()))


def risk_tolerance(loss: Money, chance: Share) -> Money:
    """Risk tolerance from one question: the greatest loss that one would still stand at such a chance.

    Args:
        loss: the greatest loss still borne, whatever there is to win [money]
        chance: its chance [-]

    Returns:
        risk tolerance [money]

    Source: Delquie 2008, Decision Analysis 5(1): p e^(L/R) = 1, R = L/ln(1/p).
    Valid: chance above 0 and below 1.
    Try: loss=30000 chance=0.05

    >>> round(float(risk_tolerance(30000.0, 0.05)), 2)
    10014.25
    """
    above("loss", loss)
    above("chance", chance)
    within("chance", chance, 0.0, float(np.nextafter(1.0, 0.0)), "a loss that is sure is none of chance")
    return np.asarray(loss / -np.log(np.asarray(chance, float)))[()]


def common_draws_gain(one: Money, two: Money, correlation: Share) -> Share:
    """By how much common draws cut the variance of a difference of two courses.

    Args:
        one: standard deviation of the one's cost [money]
        two: standard deviation of the other's [money]
        correlation: of the two on common draws [-]

    Returns:
        variance apart over variance in common [-]

    Source: variance of a difference; Law, Simulation Modeling and Analysis.
    Valid: correlation under 1.
    Try: one=134 two=126 correlation=0.94

    >>> round(float(common_draws_gain(134.0, 126.0, 0.94)), 3)
    16.187
    """
    above("one", one)
    above("two", two)
    within("correlation", correlation, -1.0, 1 - 1e-9)
    apart = np.asarray(one, float) ** 2 + np.asarray(two, float) ** 2
    return np.asarray(apart / (apart - 2 * correlation * one * np.asarray(two, float)))[()]
