"""A rebuilt drive: how faults of assembly fade with the hours it has run (D3)."""

from __future__ import annotations

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Duration, Share


def early_fault_left(share: Share, mean: Duration, after: Duration) -> Share:
    """Share of rebuilt drives, of those that still run, that have a fault of assembly.

    Args:
        share: share of rebuilt drives with such a fault [-]
        mean: mean life with it [s]
        after: hours of service [s]

    Returns:
        share [-]

    Source: Bayes on a mixture of an exponential life and one that cannot fail early.
    Valid: hours short against the life of a sound rebuild.

    >>> round(float(early_fault_left(0.1, 150.0, 100.0)), 4)
    0.054
    """
    within("share", share, 0.0, 1.0)
    above("mean", mean)
    within("after", after, 0.0)
    still = share * np.exp(-np.asarray(after, float) / mean)
    left = still + 1 - np.asarray(share, float)
    return np.asarray(np.where(left > 0, still / np.where(left > 0, left, 1.0), 1.0))[()]
