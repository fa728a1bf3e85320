"""Which courses a verdict strikes out: why, and what would lift it. Never what that would cost."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.plan.judge.road import Verdict, Verdicts
from axlewright.trade.choice import courses, numbers

MOST_LIFTS = 3  # of many things that would lift a word, the first few are said


@dataclass(frozen=True, slots=True)
class Stop:
    """Why a course is struck out, and what would lift that."""

    why: str
    lifted_by: str


def course_stop(course: str, verdicts: Verdicts) -> Stop | None:
    """What strikes a course out before anything is reckoned: the word of FIELD, or a look that it needs.

    ROAD strikes no course by itself: its line stands above all of them.
    """
    row = courses()[course]
    word = verdicts.field.word
    if row.field and word not in row.field:
        return Stop(_because(verdicts.field), _lifts(verdicts.field))
    shows = {finding: {g for f, g in verdicts.state.pairs if f == finding} for finding in row.fresh}
    if any(f not in verdicts.state.fresh or not shows[f] <= set(grades) for f, grades in row.fresh.items()):
        return Stop(row.why, row.lifted_by + ".")
    return None


def unsafe_stop(unsafe: float) -> Stop | None:
    """What strikes a course out by the chance that it goes wrong unsafely. A chance below the limit admits nothing."""
    if unsafe <= numbers().unsafe_limit:
        return None
    why = "It is too likely to let go in a way that hurts somebody, as far as can be guessed."
    return Stop(why, "looks that show the drive to be sounder than it is now known to be, or another drive.")


def _because(field: Verdict) -> str:
    if field.word == "only if":
        return "FIELD is only if: its conditions go with the course that has checks."
    looks = ", ".join(field.unlooked)
    if field.word == "not known" and looks:
        return f"FIELD is not known: {looks} not looked at, or too long ago."
    return f"FIELD is {field.word}: {field.why}."


def _lifts(field: Verdict) -> str:
    """What would lift the word: of each row that says it, in their order."""
    told = list(
        dict.fromkeys(
            " ".join((*rule.stale, rule.lifted_by)) if rule.lifted_by.startswith("looked") else rule.lifted_by
            for rule in field.saying
        )
    )
    if not told:
        return "the looks that are missing."
    return "; ".join(told[:MOST_LIFTS]) + ("; and what else is said above." if len(told) > MOST_LIFTS else ".")
