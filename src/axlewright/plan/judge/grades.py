"""A hub's heat against its twin as a grade, and the least word for a condition."""

from __future__ import annotations

from collections.abc import Iterable

from axlewright.plan.judge.seen import Pair
from axlewright.trade.findings import CONDITIONS, Condition, findings, heat_limits

PROVED = "failing until the cover is off"
_HAIR = 1e-6  # K: binary noise of a difference of two readings


def heat_grade(hub: float, twin: float | None) -> str | None:
    """Grade of a hub's heat against its twin after the same run.

    Args:
        hub: temperature of the hub [K]
        twin: temperature of the twin [K]; None where nobody measured it

    Returns:
        same, warmer, hot or very-hot; None: not looked at (no twin, and not hot by itself)
    """
    limits = heat_limits()
    if hub > limits.very_hot_at:
        return "very-hot"
    if twin is None:
        return "hot" if hub > limits.hot_at else None
    over = hub - twin + _HAIR
    if over >= limits.very_hot:
        return "very-hot"
    if over >= limits.hot or hub > limits.hot_at:
        return "hot"
    return "warmer" if over >= limits.warmer else "same"


def least_word(pairs: Iterable[Pair], likeliest: Condition = "sound") -> Condition:
    """The word for the condition: the worse of the likeliest one and of the least that the findings allow."""
    least = [findings()[finding].grade(grade).least for finding, grade in pairs]
    return max((likeliest, *least), key=CONDITIONS.index)


def is_proved(pairs: Iterable[Pair]) -> bool:
    """Whether a finding rules out sound and wearing by the meaning of *failing*."""
    return any(findings()[finding].grade(grade).proof for finding, grade in pairs)


def condition_words(pairs: Iterable[Pair], likeliest: Condition = "sound") -> str:
    """The condition as a sheet says it."""
    pairs = tuple(pairs)
    return PROVED if is_proved(pairs) else least_word(pairs, likeliest)
