"""How much findings count beside one another: the same look again, one day's looks, a plug wiped an hour ago (D2)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.forecast._condition import OneShare, Rows, Shares, Times
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Array, Count, Duration, YesNo, kind_of

Numbers: TypeAlias = Annotated[Sequence[float] | Array, kind_of(Count), LAST_AXIS]
Answers: TypeAlias = Annotated[Sequence[bool] | Array, kind_of(YesNo), LAST_AXIS]


def exposed_likelihood(likelihood: Rows, clean: Answers, exposed: Times, exposure: Duration) -> Rows:
    """Likelihoods of what a magnet or the oil shows, by how long it could collect.

    A plug wiped an hour ago is clean under any condition: only bad news counts then.

    Args:
        likelihood: for each finding, likelihood under each condition [-]
        clean: for each, whether its grade is what a plug shows that collected nothing [-]
        exposed: for each, hours since it was wiped or the oil was new [s]
        exposure: hours after which 63 in 100 of what comes has come [s]

    Returns:
        likelihoods [-]

    Source: x row + (1 - x) clean row, x = 1 - exp(-hours/exposure) (assumed).
    Valid: proof (chips, pieces) is never passed through here.

    >>> exposed_likelihood(np.array([[0.55, 0.2, 0.05, 0.025]]), [True], [0.0], 40.0).tolist()
    [[1.0, 1.0, 1.0, 1.0]]
    """
    rows = np.asarray(likelihood, float).reshape(-1, 4)
    within("likelihood", rows, 0.0, 1.0)
    within("exposed", exposed, 0.0)
    above("exposure", exposure)
    share = -np.expm1(-np.asarray(exposed, float).reshape(-1, 1) / exposure)
    # nothing collected at all leaves a row of noughts where the grade is not the clean one: what was there is older
    share = np.maximum(share, 1e-100)
    return np.asarray(share * rows + (1 - share) * np.asarray(clean, bool).reshape(-1, 1))


def weighted_likelihood(likelihood: Rows, weights: Shares) -> Rows:
    """Likelihoods shrunk towards saying nothing.

    Args:
        likelihood: for each finding, likelihood under each condition [-]
        weights: for each, from 0 (says nothing) to 1 [-]

    Returns:
        likelihoods [-]

    Source: log-likelihood times weight.
    Valid: weights 0 to 1.

    >>> weighted_likelihood(np.array([[0.25, 1.0, 1.0, 0.0]]), np.array([0.5])).tolist()
    [[0.5, 1.0, 1.0, 0.0]]
    """
    rows = np.asarray(likelihood, float).reshape(-1, 4)
    within("likelihood", rows, 0.0)
    within("weights", weights, 0.0, 1.0)
    return np.asarray(rows ** np.asarray(weights, float).reshape(-1, 1))


def finding_weights(
    likelihood: Rows,
    kinds: Numbers,
    grades: Numbers,
    groups: Numbers,
    days: Numbers,
    ago: Times,
    proof: Answers,
    forgotten: Duration,
    others: OneShare,
) -> Shares:
    """How much each finding counts beside the others: ten damp looks at one seal are not ten witnesses.

    The same kind again counts by the hours in between; of one kind at one hour the median grade counts, the worse of two
    middles. Of a group on one day the most telling counts in full. Proof always counts in full. The order in which they
    were written down does not matter.

    Args:
        likelihood: for each finding, likelihood under each condition [-]
        kinds: for each, the number of its kind [1]
        grades: for each, its grade, the mildest 0 [1]
        groups: for each, the number of its group, or -1 for none [1]
        days: for each, the day it was made [1]
        ago: for each, machine hours since it was made [s]
        proof: for each, whether it is proof [-]
        forgotten: hours after which the next of a kind counts for 63 in 100 [s]
        others: weight of a group's less telling ones on one day [-]

    Returns:
        weights of 0 to 1 [-]

    Source: 1 - exp(-hours/forgotten) for the next of a kind, one in full and the others at `others` in a group (assumed).
    Valid: weights only shrink.

    >>> damp = np.tile([0.1, 0.22, 0.22, 0.16], (2, 1))
    >>> no = [False, False]
    >>> finding_weights(damp, [0, 0], [1, 1], [-1, -1], [0, 9], [50.0, 0.0], no, 100.0, 0.5).round(3).tolist()
    [1.0, 0.393]
    """
    rows = np.asarray(likelihood, float).reshape(-1, 4)
    within("likelihood", rows, 0.0)
    above("forgotten", forgotten)
    within("others", others, 0.0, 1.0)
    within("ago", ago, 0.0)
    kind, grade, group, day = (np.asarray(n, float).ravel() for n in (kinds, grades, groups, days))
    since, sure = np.asarray(ago, float).ravel(), np.asarray(proof, bool).ravel()
    if not len(rows) == len(kind) == len(grade) == len(group) == len(day) == len(since) == len(sure):
        raise OutOfRange("kinds", float(len(kind)), float(len(rows)), float(len(rows)), why="one a finding")
    weights = np.zeros(len(rows))
    # within a kind by age, within an hour by grade, so that the order of entry cannot matter
    order = np.lexsort((*rows.T, grade, -since, kind))
    for one in np.unique(kind):
        mine = [i for i in order if kind[i] == one]
        last = np.inf
        for hour in sorted({since[i] for i in mine}, reverse=True):
            here = [i for i in mine if since[i] == hour]
            kept = _kept([i for i in here if not sure[i]]), _kept([i for i in here if sure[i]], worst=True)
            for i in filter(lambda i: i is not None, kept):
                assert i is not None
                weights[i] = 1.0 if sure[i] else -np.expm1(-(last - hour) / forgotten)
            last = hour
    _share_in_groups(weights, rows, group, day, sure, float(others))
    return weights


def _kept(sorted_by_grade: list[int], worst: bool = False) -> int | None:
    """Which of the findings of one kind at one hour counts: the median, the worse of two middles."""
    if not sorted_by_grade:
        return None
    return sorted_by_grade[-1 if worst else len(sorted_by_grade) // 2]


def _share_in_groups(weights: Array, rows: Array, group: Array, day: Array, sure: Array, others: float) -> None:
    """Of each group on each day, all but the most telling count less."""
    logs = np.log(np.maximum(rows, 1e-300))
    telling = (logs.max(axis=1, initial=-np.inf) - logs.min(axis=1, initial=np.inf)) * weights
    for one in {(g, d) for g, d in zip(group, day, strict=True) if g >= 0}:
        mine = [i for i in range(len(rows)) if (group[i], day[i]) == one and weights[i] > 0]
        if len(mine) > 1:
            first = max(mine, key=lambda i: (bool(sure[i]), telling[i], *rows[i]))
            for i in mine:
                if i != first and not sure[i]:
                    weights[i] *= others


def updated(prior: Shares, likelihood: Rows) -> Shares:
    """Chances of the conditions after findings of one instant.

    Args:
        prior: chance of each condition before [-]
        likelihood: for each finding, likelihood under each condition [-]

    Returns:
        chance of each condition after [-]

    Source: Bayes.
    Valid: findings independent but for the condition; one condition at least can give them all.

    >>> updated(np.array([0.5, 0.5]), np.array([[0.1, 0.3]])).round(3).tolist()
    [0.25, 0.75]
    """
    before, rows = np.asarray(prior, float), np.atleast_2d(np.asarray(likelihood, float))
    within("prior", before, 0.0)
    within("likelihood", rows, 0.0)
    after = before * rows.prod(axis=0)
    above("likelihood", after.sum(), why="no condition can give all of these findings")
    return np.asarray(after / after.sum())
