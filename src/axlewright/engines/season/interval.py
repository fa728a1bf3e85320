"""Hours between checks (E4): what slips through, and the interval of least cost."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Duration, Money, MoneyRate, Rate, Share

HALVINGS = 100  # of a bracket of forty e-foldings


def share_unseen(interval: Duration, failing: Duration, power: Share, never_seen: Share = 0.0) -> Share:
    """Share of drives that let go before a check finds that they fail.

    Args:
        interval: machine hours between checks [s]
        failing: machine hours from failing to letting go, on the mean [s]
        power: chance that a check finds a drive that fails [-]
        never_seen: share of them that this check can never find [-]

    Returns:
        share [-]

    Source: basic delay-time model, Christer and Waller 1984 (from memory), with checks that miss, summed in
        docs/engines/season.md.
    Valid: failing lasts exponentially long; each check misses apart from the others.
    Try: interval="25 h" failing="90 h" power=0.7

    >>> round(float(share_unseen(25.0, 90.0, 0.7)), 4)
    0.2091
    """
    above("interval", interval)
    above("failing", failing)
    within("power", power, 0.0, 1.0)
    within("never_seen", never_seen, 0.0, 1.0)
    x = np.asarray(interval, float) / failing
    some = -np.expm1(-x)  # 1 - e^-x
    missed = 1 - np.asarray(power, float)
    seen = power * some / (x * (1 - missed * np.exp(-x)))
    unseen = np.clip(1 - seen, 0.0, 1.0)
    return np.asarray(never_seen + (1 - np.asarray(never_seen, float)) * unseen)[()]


def check_cost(
    interval: Duration, rate: Rate, failing: Duration, power: Share, let_go: Money, found: Money, check: Money
) -> MoneyRate:
    """What checks and what they let through cost in an hour.

    Args:
        interval: machine hours between checks [s]
        rate: drives that begin to fail in an hour [1/s]
        failing: machine hours from failing to letting go, on the mean [s]
        power: chance that a check finds a drive that fails [-]
        let_go: what it costs when a drive lets go [money]
        found: what it costs when a check finds it [money]
        check: what a check costs [money]

    Returns:
        cost in a time [money/s]

    Source: (rate h (c_let b + c_found (1 - b)) + c_check)/h (docs/engines/season.md).
    Valid: the long run.
    Try: interval="25 h" rate="0.0017 /h" failing="90 h" power=0.7 let-go=9000 found=4500 check=35

    >>> round(float(check_cost(26.56, 1 / 600, 90.0, 0.7, 9000.0, 4500.0, 35.0)), 4)
    10.4642
    """
    within("rate", rate, 0.0)
    within("let_go", let_go, 0.0)
    within("found", found, 0.0)
    within("check", check, 0.0)
    unseen = share_unseen(interval, failing, power)
    return rate * (let_go * unseen + found * (1 - unseen)) + check / np.asarray(interval, float)


@dataclass(frozen=True, slots=True)
class BestInterval:
    """The hours between checks that cost least.

    Attributes:
        interval: machine hours between checks; infinite where no check pays [s]
        cost: cost in a time [money/s]
        estimate: the interval by the square root, for a glance [s]
    """

    interval: Duration
    cost: MoneyRate
    estimate: Duration


def best_interval(
    rate: Rate, failing: Duration, power: Share, let_go: Money, found: Money, check: Money
) -> BestInterval:
    """The hours between checks that cost least in the long run. Cost is nearly flat there: round to a habit.

    Args:
        rate: drives that begin to fail in an hour [1/s]
        failing: machine hours from failing to letting go, on the mean [s]
        power: chance that a check finds a drive that fails [-]
        let_go: what it costs when a drive lets go [money]
        found: what it costs when a check finds it [money]
        check: what a check costs [money]

    Returns:
        interval, its cost, and the estimate sqrt(2 c_check/(rate beta (c_let - c_found)(2/p - 1)))

    Source: least of `check_cost`, by its slope and bisection.
    Valid: a let go costs more than a find; checks that safety asks for are made whatever they cost.
    Try: rate="0.0017 /h" failing="90 h" power=0.7 let-go=9000 found=4500 check=35

    >>> round(float(best_interval(1 / 600, 90.0, 0.7, 9000.0, 4500.0, 35.0).interval), 1)
    26.6
    """
    above("rate", rate)
    above("failing", failing)
    above("power", power)
    within("power", power, 0.0, 1.0)
    above("check", check)
    within("found", found, 0.0)
    within("let_go", let_go, 0.0)
    if (np.asarray(let_go, float) <= found).any():
        raise OutOfRange("let_go", float(np.min(let_go)), float(np.max(found)), np.inf, why="a find saves nothing else")
    saves = rate * (np.asarray(let_go, float) - found) * power * failing
    # least where the saving of a little shorter interval is what it costs more in checks; x = interval/failing
    price = np.asarray(check / saves, float)
    low, high = np.full(price.shape, np.log(1e-9)), np.full(price.shape, np.log(1e9))
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        less = _steepness(np.exp(middle), power) < price
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    pays = price < 1
    at = np.exp((low + high) / 2) * failing
    never = rate * np.asarray(let_go, float)
    cost = np.where(pays, check_cost(at, rate, failing, power, let_go, found, check), never)
    estimate = np.sqrt(2 * price * power / (2 / np.asarray(power, float) - 1)) * failing
    return BestInterval(np.where(pays, at, np.inf)[()], cost[()], np.asarray(estimate)[()])


def _steepness(x: Share, power: Share) -> Share:
    """-x^2 times the slope of the share seen over power: rises from 0 to 1."""
    gone, some = np.exp(-np.asarray(x, float)), -np.expm1(-np.asarray(x, float))
    left = 1 - (1 - np.asarray(power, float)) * gone
    return np.asarray((some * (left + x * (1 - left)) - gone * x * left) / left**2)


def chance_to_last(interval: Duration, sound: Duration, failing: Duration, checks: Share) -> Share:
    """Chance that nothing lets go over even stretches with a perfect check between them.

    Args:
        interval: machine hours of each stretch [s]
        sound: machine hours until it begins to fail, on the mean [s]
        failing: machine hours from failing to letting go, on the mean [s]
        checks: checks between the stretches, one less than there are of them [-]

    Returns:
        chance [-]

    Source: Cerone 1990 (abstract read): even checks are best where both times are exponential; one stretch
        (a e^(-t/a) - b e^(-t/b))/(a - b).
    Valid: what a check finds is put right at once, to be sound.
    Try: interval="75 h" sound="500 h" failing="90 h" checks=3

    >>> round(float(chance_to_last(75.0, 500.0, 90.0, 3.0)), 5)
    0.82916
    """
    above("interval", interval)
    above("sound", sound)
    above("failing", failing)
    within("checks", checks, 0.0)
    a, b, t = np.asarray(sound, float), np.asarray(failing, float), np.asarray(interval, float)
    x, gap = t / b, t / a - t / b
    # e^-x + (t/a) e^-x (e^-gap - 1)/(-gap): good where both means are the same too
    grown = np.where(np.abs(gap) > 1e-12, -np.expm1(-gap) / np.where(np.abs(gap) > 1e-12, gap, 1.0), 1.0)
    one = np.exp(-t / a) + t / a * np.exp(-x) * grown
    return np.asarray(one ** (checks + 1))[()]
