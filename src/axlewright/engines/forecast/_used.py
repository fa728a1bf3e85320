"""A used or rebuilt drive: bought bad, faults of assembly, how they fade (D3, first version)."""

from __future__ import annotations

import numpy as np

from axlewright.engines.forecast._condition import Shares
from axlewright.engines.forecast._laws import Lives, check_lives, stay
from axlewright.engines.forecast._trajectories import Trajectories, fresh_lives, trajectories
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Array, Duration, Share


def rebuilt_lives(lives: Lives, fault: Share, fault_mean: Duration, shares: Shares) -> Trajectories:
    """Lives of rebuilt drives: as new, but for a share with a fault of assembly, which fail from the first hour.

    Args:
        lives: laws of the class
        fault: share with a fault of assembly [-]
        fault_mean: mean life with it [s]
        shares: five shares of 0 to 1 along the last axis, a row a life: own factor, sound, wearing, failing, fault [-]

    Returns:
        a life a row

    Source: mixture of new lives and an exponential (assumed).
    Valid: rebuilt with all bearings and seals.
    """
    given = np.atleast_2d(np.asarray(shares, float))
    if given.shape[-1] != 5:
        raise OutOfRange("shares", float(given.shape[-1]), 5, 5, why="that many a life")
    within("fault", fault, 0.0, 1.0)
    above("fault_mean", fault_mean)
    new = fresh_lives(lives, given[:, :4])
    bad = given[:, 4] < fault
    # the share that picked the bad ones is spread over them anew
    again = np.where(bad, given[:, 4] / np.where(np.asarray(fault) > 0, fault, 1.0), 0.0)
    early = -fault_mean * np.log1p(-np.minimum(again, 1 - 1e-16))
    nothing = np.zeros(len(given))
    return Trajectories(
        np.where(bad, 0.0, new.wears), np.where(bad, 0.0, new.fails), np.where(bad, early, new.lets_go),
        np.where(bad, 2.0, 0.0), new.factor, nothing,
    )  # fmt: skip


def used_lives(lives: Lives, hours: Duration, bad: Share, shares: Shares, offered: bool = True) -> Trajectories:
    """Lives of used drives from the day they are fitted, with nothing looked at.

    A share was sold for a reason: half of those are wearing and half failing from the first hour.

    Args:
        lives: laws of the class, one number each
        hours: machine hours it may have, each as likely as any other [s]
        bad: share sold for a reason [-]
        shares: seven shares of 0 to 1 along the last axis, a row a life: state, entry, next, after, before, own factor,
            bought bad [-]
        offered: the hours stand for drives on offer; else for drives made, of which fewer come so far [-]

    Returns:
        a life a row

    Source: mixture (assumed): bad ones start wearing or failing, the others by their hours and that they still carry.
    Valid: a look at the plug moves hours and condition together: then draw with the finding.
    """
    from scipy.special import ndtri

    check_lives(lives)
    given = np.atleast_2d(np.asarray(shares, float))
    if given.shape[-1] != 7:
        raise OutOfRange("shares", float(given.shape[-1]), 7, 7, why="that many a life")
    within("shares", given, 0.0, 1.0)
    within("bad", bad, 0.0, 1.0)
    cause: Array = np.zeros((len(given), 1))
    good = trajectories(
        lives, hours, [], np.empty((0, 4)), np.hstack([given[:, :5], cause]), np.ones(1), offered=offered
    )
    sold_failing, sold = given[:, 6] < np.asarray(bad) / 2, given[:, 6] < bad
    factor = np.exp(float(lives.unit_spread) * ndtri(np.clip(given[:, 5], 1e-16, 1 - 1e-16)))
    fails = np.where(sold_failing, 0.0, factor * stay(lives.wearing, given[:, 2]))
    lets_go = fails + factor * stay(lives.failing, given[:, 3])
    return Trajectories(
        np.where(sold, 0.0, good.wears), np.where(sold, fails, good.fails), np.where(sold, lets_go, good.lets_go),
        np.where(sold_failing, 2.0, np.where(sold, 1.0, good.condition)), np.where(sold, factor, good.factor), good.cause,
    )  # fmt: skip
