"""Drives by name: what one look says of how a drive stands, and whether it carries on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.forecast import Lives, Sojourn, forecast
from axlewright.engines.limits import within
from axlewright.formulary.slots import Named
from axlewright.kinds import Duration, Share
from axlewright.quantities import NotRead
from axlewright.trade.choice import class_of_drives
from axlewright.trade.findings import Finding, Grade, findings, floored


@dataclass(frozen=True, slots=True)
class Sight:
    """What one look showed."""

    finding: Finding
    grade: Grade


def _sight(text: str) -> Sight:
    """A finding and its grade, as `plug flakes`.

    Raises:
        NotRead: there is no such finding, it has no such grade, or it says nothing of bearings and gears
    """
    word, _, rest = text.strip().lower().replace("=", " ").partition(" ")
    wanted = "what a look showed"
    telling = {f.id: f for f in findings().values() if f.tables()}
    if word not in telling:
        raise NotRead(
            text, wanted, tuple(f"{one} ..." for one in telling), "no such finding speaks of bearings and gears"
        )
    grades = {grade.id: grade for grade in telling[word].grades if grade.p is not None}
    named = "-".join(rest.split())
    if named not in grades:
        raise NotRead(text, wanted, tuple(f"{word} {one}" for one in grades), f"{word} has no such grade")
    return Sight(telling[word], grades[named])


OfSight: TypeAlias = Annotated[Sight, Named("look", _sight, "plug flakes")]


@dataclass(frozen=True, slots=True)
class LookSays:
    """How a drive stands by one look.

    Attributes:
        sound: chance that it is sound now [-]
        wearing: chance that it is wearing now [-]
        failing: chance that it is failing now [-]
        carries: chance that it still carries after the hours ahead [-]
        carries_unseen: the same chance, had nobody looked [-]
    """

    sound: Share
    wearing: Share
    failing: Share
    carries: Share
    carries_unseen: Share


def what_a_look_says(hours: Duration, saw: OfSight, ahead: Duration) -> LookSays:
    """How a drive that still carries stands by one look just now, and whether it carries on.

    A chance, not a promise: 5 in 100 still happens once in twenty. What may be done is said by the verdicts.

    Args:
        hours: machine hours that the drive has run [s]
        saw: what the look showed, as `plug flakes`, `rock beyond`, `turn rough`
        ahead: machine hours ahead [s]

    Returns:
        chances

    Source: change-point grid of a chain that never goes back (docs/engines/forecast.md); class and tables assumed, rows
        of trade.
    Valid: empirical (rows of the trade carry their own units); a drive on taper rollers with splash oil, whose own design
        may last half or twice as long; a plug that collected for 40 h at least.
    Try: hours="4000 h" saw="plug flakes" ahead="100 h"

    >>> got = what_a_look_says(4000 * 3600.0, _sight("plug clean"), 100 * 3600.0)
    >>> bool(got.carries > got.carries_unseen)
    True
    """
    within("hours", hours, 0.0)
    within("ahead", ahead, 0.0)
    over = np.broadcast_arrays(np.asarray(hours, float), np.asarray(ahead, float))
    found = [_both(float(age), saw, float(later)) for age, later in zip(*(one.ravel() for one in over), strict=True)]
    sound, wearing, failing, carries, unseen = np.array(found).T.reshape(5, *over[0].shape)
    return LookSays(sound[()], wearing[()], failing[()], carries[()], unseen[()])


def _both(age: float, saw: Sight, later: float) -> tuple[float, ...]:
    assert saw.grade.p is not None
    now, then = forecast(_lives_of_class(), age, [0.0], np.array([floored(saw.grade.p)]), [0.0, later]).chance
    unseen = forecast(_lives_of_class(), age, [], np.empty((0, 4)), [later]).chance[0, 3]
    return (*now[:3], 1 - then[3], 1 - unseen)


def _lives_of_class() -> Lives:
    """The laws of the class, at their middle."""
    row = class_of_drives()
    wearing, spread, short, short_median = row.wearing
    return Lives(
        Sojourn("weibull", *row.sound),
        Sojourn("lognormal", wearing, spread, short, short_median / wearing),
        Sojourn("lognormal", *row.failing),
        row.unit_spread,
    )
