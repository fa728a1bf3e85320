"""What was seen of a drive, as likelihoods of its condition: floors, exposure, and what counts beside what (judge.md, 3)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.engines.forecast import Rows, Times, exposed_likelihood, finding_weights, weighted_likelihood
from axlewright.trade.choice import class_of_drives
from axlewright.trade.findings import findings, floored, groups, numbers

HOUR = 3600.0
OIL = "oil"  # the group of findings that speak of a leak
NOT_OURS = ("brake", "hydraulic", "grease", "ballast", "from-above")  # oil that is not the drive's says nothing of it


@dataclass(frozen=True, slots=True)
class Witness:
    """One finding of a drive: what it showed, engine hours ago [h], the day, and hours since the plug was wiped [h]."""

    finding: str
    grade: str
    hours_ago: float
    day: int
    since_wiped: float | None = None


@dataclass(frozen=True, slots=True)
class Evidence:
    """Findings as the forecast takes them.

    Attributes:
        ago: machine hours since each [s]
        likelihood: likelihood of each under sound, wearing, failing, let go, as it counts beside the others [-]
    """

    ago: Times
    likelihood: Rows


def evidence_of(seen: Sequence[Witness]) -> Evidence:
    """All that speaks of the condition, each finding weighted by what was seen beside it."""
    telling = [one for one in _of_this_drive(seen) if findings()[one.finding].grade(one.grade).p is not None]
    if not telling:
        return Evidence(np.zeros(0), np.empty((0, 4)))
    row = class_of_drives()
    grades = [findings()[one.finding].grade(one.grade) for one in telling]
    rows = np.array([floored(grade.p) for grade in grades if grade.p is not None])
    ago = np.array([one.hours_ago * HOUR for one in telling])
    proof = np.array([grade.proof for grade in grades])
    wiped = np.array([np.inf if one.since_wiped is None else one.since_wiped * HOUR for one in telling])
    counts = np.array([grade.exposure for grade in grades]) & np.isfinite(wiped) & ~proof
    if counts.any():
        clean = np.array([grade.good for grade in grades])
        mixed = exposed_likelihood(rows[counts], clean[counts], wiped[counts], row.exposure)
        rows[counts] = mixed
    names, families = list(findings()), list(groups())
    weights = finding_weights(
        rows,
        np.array([names.index(one.finding) for one in telling], float),
        np.array([_place(one) for one in telling], float),
        np.array([_family(one.finding, families) for one in telling], float),
        np.array([one.day for one in telling], float),
        ago,
        proof,
        row.forgotten,
        next(iter(groups().values())).others,
    )
    return Evidence(ago, weighted_likelihood(rows, weights * _leak_weight(telling, seen)))


def _of_this_drive(seen: Sequence[Witness]) -> list[Witness]:
    """Without the leaks of a day on which the oil proved not to be the drive's."""
    strange = {one.day for one in seen if one.finding == "fluid" and one.grade in NOT_OURS}
    return [one for one in seen if not (one.day in strange and findings()[one.finding].group == OIL)]


def _place(one: Witness) -> int:
    return [grade.id for grade in findings()[one.finding].grades].index(one.grade)


def _family(finding: str, families: Sequence[str]) -> int:
    group = findings()[finding].group
    return families.index(group) if group in families else -1


def _leak_weight(telling: Sequence[Witness], seen: Sequence[Witness]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """A leak seen while the breather was not known to be free counts less."""
    free = [one.hours_ago for one in seen if one.finding == "breather" and one.grade == "free"]
    less = numbers().leak_before_breather_weight
    return np.array(
        [
            less if findings()[one.finding].group == OIL and not any(h >= one.hours_ago for h in free) else 1.0
            for one in telling
        ]
    )
