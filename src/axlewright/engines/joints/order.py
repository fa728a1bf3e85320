"""Which bolt when: cross patterns for any number, fitted bolts first, passes.

Bolts are numbered round the circle, clockwise seen from outside, 1 at the top, or as cast or typed. An order is a
tuple of those numbers; these functions take and give whole numbers and torques, never draws of orders.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, Literal, TypeAlias

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Share, Torque, kind_of

OneTorque: TypeAlias = Annotated[float, kind_of(Torque)]  # one setting of one wrench, never draws
OneShare: TypeAlias = Annotated[float, kind_of(Share)]
Pattern = Literal["cross", "circle"]  # across the flange; round it until none turns
BOLTS_MOST = 200
ROUNDING = 1e-9  # of a mark: a torque that stands on a mark stays on it


def _whole(what: str, value: int, low: int, high: int, why: str = "") -> None:
    if isinstance(value, bool) or not math.isfinite(value) or int(value) != value:
        raise OutOfRange(what, float(value), low, high, why="a whole number")
    within(what, value, low, high, why)


def _starts(quads: int) -> list[int]:
    """Starts of the groups of four, spread over a quarter of the circle."""
    if quads % 2 == 0:
        return [start for i in range(quads // 2) for start in (i, i + quads // 2)]
    step = quads // 2 or 1
    return [(i * step) % quads for i in range(quads)]


def _pairs(axes: int) -> list[int]:
    """Axes of opposite pairs, each next one the farthest from the last."""
    left, order = list(range(1, axes)), [0]
    while left:
        last = order[-1]
        nearest = {axis: min((axis - last) % axes, (last - axis) % axes) for axis in left}
        order.append(max(left, key=lambda axis: (nearest[axis], -axis)))
        left.remove(order[-1])
    return order


def cross_order(bolts: int, first: int = 1) -> tuple[int, ...]:
    """Cross pattern of any number of bolts, beginning at one of them.

    Args:
        bolts: number of bolts on the circle [1]
        first: number of the first bolt [1]

    Returns:
        bolt numbers in the order of tightening [1]

    Source: groups of four at right angles where 4 divides the number (the common orders of ASME PCC-1); opposite pairs,
        the next one the farthest, where only 2 does; a star of the largest step for odd numbers.
    Valid: 1 to 200 bolts. The sum of radii of the tightened bolts never exceeds one radius.

    >>> cross_order(12)
    (1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12)
    """
    _whole("bolts", bolts, 1, BOLTS_MOST)
    _whole("first", first, 1, bolts, "one of the bolts")
    half, quarter = bolts // 2, bolts // 4
    if bolts % 4 == 0:
        at = [i + turn for i in _starts(quarter) for turn in (0, half, quarter, half + quarter)]
    elif bolts % 2 == 0:
        at = [i + turn for i in _pairs(half) for turn in (0, half)]
    else:
        step = max(half, 1)
        at = [i * step for i in range(bolts)]
    return tuple((i + first - 1) % bolts + 1 for i in at)


def circle_order(bolts: int, first: int = 1) -> tuple[int, ...]:
    """Once round the circle, clockwise.

    Args:
        bolts: number of bolts on the circle [1]
        first: number of the first bolt [1]

    Returns:
        bolt numbers in the order of tightening [1]

    Source: last pass of ASME PCC-1 and public flange guides, until none turns.
    Valid: 1 to 200 bolts.

    >>> circle_order(4, 2)
    (2, 3, 4, 1)
    """
    _whole("bolts", bolts, 1, BOLTS_MOST)
    _whole("first", first, 1, bolts, "one of the bolts")
    return tuple((i + first - 1) % bolts + 1 for i in range(bolts))


def fitted_first(order: Sequence[int], fitted: Sequence[int]) -> tuple[int, ...]:
    """The same order with the bolts in guide bushes before all others: they locate the drive.

    Args:
        order: bolt numbers in an order of tightening [1]
        fitted: numbers of the fitted bolts, first to go first [1]

    Returns:
        bolt numbers in the order of the snug pass [1]

    Source: requirement of the joint, fitted holes locate it.
    Valid: each fitted bolt is one of the order, named once.

    >>> fitted_first((1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12), (3, 9))
    (3, 9, 1, 7, 4, 10, 2, 8, 5, 11, 6, 12)
    """
    for number in order:
        _whole("order", number, 1, BOLTS_MOST)
    for number in fitted:
        if number not in order:
            raise OutOfRange("fitted", float(number), min(order), max(order), why="one of the bolts")
    if len(set(fitted)) != len(fitted):
        raise OutOfRange("fitted", float(len(fitted)), 0, len(set(fitted)), why="each bolt named once")
    return (*fitted, *(number for number in order if number not in set(fitted)))


def lopsidedness(order: Sequence[int], bolts: int) -> OneShare:
    """How lopsided a joint gets while it is tightened: the longest sum of radii of tightened bolts.

    Args:
        order: bolt numbers in the order of tightening [1]
        bolts: number of bolts on the circle [1]

    Returns:
        longest sum, in radii of the circle [-]

    Source: vector sum; a good order stays at one radius.
    Valid: even circle.

    >>> round(lopsidedness((1, 4, 2, 5, 3, 6), 6), 6)
    1.0
    """
    _whole("bolts", bolts, 1, BOLTS_MOST)
    across = up = longest = 0.0
    for number in order:
        _whole("order", number, 1, bolts, "one of the bolts")
        angle = 2 * math.pi * (number - 1) / bolts
        across, up = across + math.sin(angle), up + math.cos(angle)
        longest = max(longest, math.hypot(across, up))
    return longest


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass.

    Attributes:
        share: share of the final torque [-]
        torque: what the wrench is set to [N m]
        pattern: in which order of going
    """

    share: OneShare
    torque: OneTorque
    pattern: Pattern


def passes(torque: OneTorque, shares: Sequence[OneShare], mark: OneTorque) -> tuple[Pass, ...]:
    """The passes with a wrench: cross to the full torque, then round the circle at the same until none turns.

    Args:
        torque: final torque [N m]
        shares: shares of it, rising; the last one repeated goes round the circle [-]
        mark: step of the wrench's scale, zero for none [N m]

    Returns:
        passes in order; torque of each rounded down to a mark, never up [N m]

    Source: cross at 30, 60 and 100 in 100, then round at 100 until nothing turns; ASME PCC-1 has 20-30, 50-70, 100, 100.
    Valid: shares above 0 to 1, never falling, the last 1.

    >>> [(round(p.torque), p.pattern) for p in passes(393.0, (0.3, 0.6, 1.0, 1.0), 10.0)]
    [(110, 'cross'), (230, 'cross'), (390, 'cross'), (390, 'circle')]
    """
    above("torque", torque)
    within("mark", mark, 0.0)
    if not shares or any(b < a for a, b in pairwise(shares)):
        raise OutOfRange("shares", float(len(shares)), 1, math.inf, why="shares that rise to 1")
    within("shares", list(shares), 1e-3, 1.0)
    within("shares", shares[-1], 1.0, 1.0, "the last pass is the whole torque")
    made = []
    for number, share in enumerate(shares):
        again = number > 0 and share == shares[number - 1]
        made.append(Pass(share, floor_to_mark(share * torque, mark), "circle" if again else "cross"))
    return tuple(made)


def floor_to_mark(value: OneTorque, mark: OneTorque) -> OneTorque:
    """A setting rounded down to a mark of the tool's scale.

    Args:
        value: setting wanted [N m]
        mark: step of the scale, zero for none [N m]

    Returns:
        greatest mark that is not above it [N m]

    Source: a torque is never rounded up.
    Valid: value and mark at least zero.

    >>> floor_to_mark(393.0, 5.0)
    390.0
    """
    within("value", value, 0.0)
    within("mark", mark, 0.0)
    return math.floor(value / mark + ROUNDING) * mark if mark else value
