"""Rated steel stands: as what holds the corner, and as the second that catches it (A1)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Force, Length, Mass, Share, YesNo


@dataclass(frozen=True, slots=True)
class Caught:
    """A second stand that carries nothing until the first support fails.

    Attributes:
        before: its load while the first support stands: nothing [N]
        factor: how many times the still load arrives [-]
        load: load that arrives [N]
    """

    before: Force
    factor: Share
    load: Force


def stand_rating(plate: Mass, per_pair: YesNo) -> Mass:
    """What one stand is rated for, from its plate.

    Args:
        plate: mass on the plate [kg]
        per_pair: the plate rates two stands together [-]

    Returns:
        rating of one stand [kg]

    Source: stands rated per pair, read in buyers' guides.
    Valid: stand whole, its lock home, base flat.

    >>> float(stand_rating(6000, True))
    3000.0
    """
    above("plate", plate, 0, "a mass")
    return np.where(per_pair, 0.5, 1.0) * plate


def stand_topple(load: Force, half_base: Length, height: Length) -> Force:
    """Side force that topples a loaded stand.

    Args:
        load: load on the stand [N]
        half_base: load's line to the nearest edge of the base [m]
        height: where the side force acts, above the base [m]

    Returns:
        side force [N]

    Source: P b/H; statics.
    Valid: rigid stand on a flat, firm base.
    """
    within("load", load, 0)
    within("half_base", half_base, 0)
    above("height", height, 0, "a height")
    return load * half_base / height


def caught_by_second(still_load: Force, gap: Length, settlement: Length) -> Caught:
    """Load that a second stand must take when the first support fails and the corner drops on it.

    Args:
        still_load: load it would carry at rest [N]
        gap: gap above the second stand [m]
        settlement: how far the second stand gives under that load at rest [m]

    Returns:
        factor and load; a gap of nothing is already twice

    Source: energy of a load that falls on a spring, W (gap + n d) = W n^2 d/2, so n = 1 + sqrt(1 + 2 gap/d).
    Valid: elastic stand and ground; nothing lost in the fall.

    >>> float(caught_by_second(1.0, 0.0, 0.004).factor)
    2.0
    """
    within("still_load", still_load, 0)
    within("gap", gap, 0)
    above("settlement", settlement, 0, "everything gives a little")
    factor = 1 + np.sqrt(1 + 2 * gap / settlement)
    return Caught(0.0 * still_load, factor, factor * still_load)
