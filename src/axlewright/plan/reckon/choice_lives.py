"""From what was seen to lives: how a drive stands, how long it may last, and lives of what could be fitted in its place.

Functions in the house's form, called by name through the workings, so that each number on the sheet knows what it was
made of. What is not known of the design stands as a few designs, one as likely as the other before anything was seen.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.forecast import (
    Chances,
    Lives,
    Trajectories,
    chance_band,
    forecast,
    posterior_weights,
    rebuilt_lives,
    trajectories,
    used_lives,
)
from axlewright.kinds import LAST_AXIS, Array, Duration, Share, kind_of
from axlewright.plan.reckon.choice_evidence import Evidence

Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]
Times: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]


@dataclass(frozen=True, slots=True)
class Luck:
    """Shares of 0 to 1 that lives are drawn by, evenly spread, a row a life.

    Attributes:
        shares: as many along the last axis as the lives take [-]
    """

    shares: Shares


@dataclass(frozen=True, slots=True)
class Ages:
    """Machine hours that a drive may have, each as likely as the other; one a design.

    Attributes:
        hours: machine hours [s]
    """

    hours: Times


@dataclass(frozen=True, slots=True)
class Ahead:
    """Times from now at which chances are asked.

    Attributes:
        hours: machine hours from now [s]
    """

    hours: Times


@dataclass(frozen=True, slots=True)
class Carrying:
    """How a drive stands, and the chance that it still carries later.

    Attributes:
        now: chance of sound, wearing, failing, let go now [-]
        low: low end of the chance that it still carries, by what is not known of the design [-]
        carries: chance that it still carries, at each time asked [-]
        high: high end of it [-]
    """

    now: Chances
    low: Shares
    carries: Shares
    high: Shares


def how_it_stands(lives: Lives, ages: Ages, seen: Evidence, ahead: Ahead) -> Carrying:
    """How a drive stands now, and the chance that it still carries at each time ahead.

    Args:
        lives: laws of the class, a design a draw
        ages: machine hours of the drive, one a design
        seen: what was found
        ahead: machine hours from now

    Returns:
        chances

    Source: exact grid of the three times at which a drive changes (docs/engines/forecast.md); findings by Bayes.
    Valid: findings of this drive; band holds eight designs of ten.
    """
    found = forecast(lives, ages.hours, seen.ago, seen.likelihood, ahead.hours, fineness=COARSE)
    weights = posterior_weights(found, np.ones(len(ages.hours)))
    chances = np.tensordot(weights, np.asarray(found.chance), axes=1)
    band = chance_band(1 - np.asarray(found.chance)[:, :, 3], weights)
    middle = 1 - chances[:, 3]
    low, high = np.minimum(band.low, middle), np.maximum(band.high, middle)
    return Carrying(chances[0], np.asarray(low), middle, np.asarray(high))


COARSE = 3.6  # cells in the shortest median


def lives_ahead(lives: Lives, ages: Ages, seen: Evidence, luck: Luck) -> Trajectories:
    """Lives that the drive in trouble may have from now on, by all that was seen of it.

    Args:
        lives: laws of the class, a design a draw
        ages: machine hours of the drive, one a design
        seen: what was found
        luck: six shares a life

    Returns:
        a life a row

    Source: exact draws from the grid of the forecast (docs/engines/forecast.md).
    Valid: it still carries; findings of this drive.
    """
    return trajectories(lives, ages.hours, seen.ago, seen.likelihood, luck.shares, np.ones(1))


def lives_of_used(lives: Lives, ages: Ages, bad: Share, luck: Luck) -> Trajectories:
    """Lives of a used drive from the day it is fitted, nothing looked at.

    Args:
        lives: laws of the class
        ages: machine hours that it may have
        bad: chance that it was sold for a reason, one a life [-]
        luck: seven shares a life

    Returns:
        a life a row

    Source: mixture of drives bought bad and others (life.md, D3).
    Valid: a drive on offer that still carries.
    """
    return used_lives(lives, ages.hours, bad, luck.shares)


def lives_of_rebuilt(lives: Lives, fault: Share, fault_mean: Duration, luck: Luck) -> Trajectories:
    """Lives of a rebuilt drive from the day it is fitted.

    Args:
        lives: laws of the class
        fault: chance of a fault of assembly, one a life [-]
        fault_mean: mean life with it [s]
        luck: five shares a life

    Returns:
        a life a row

    Source: as new, but for a share with a fault of assembly (life.md, D3).
    Valid: all bearings and seals new.
    """
    return rebuilt_lives(lives, fault, fault_mean, luck.shares)
