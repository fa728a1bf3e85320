"""One course through all drawn seasons at once."""

from __future__ import annotations

from axlewright.engines.season._clock import FieldClock
from axlewright.engines.season._ledger import Ledger
from axlewright.engines.season.courses import Common, Course, Outcome, Recovery, Winter, Years

USED, PLAIN = Recovery(), Winter()


def untroubled(clock: FieldClock) -> Outcome:
    """How the seasons go without trouble: what every course is held against.

    Args:
        clock: the drawn seasons

    Returns:
        the outcome of a machine that never stops

    Source: the field clock.
    Valid: as the clock.
    """
    raise NotImplementedError


def run_course(
    clock: FieldClock,
    common: Common,
    course: Course,
    recoveries: tuple[Recovery, ...] = (USED,),
    winter: Winter = PLAIN,
) -> tuple[Outcome, ...]:
    """How a course goes in every drawn season, under each recovery.

    Args:
        clock: the drawn seasons
        common: what is drawn once for all courses
        course: the course
        recoveries: what may be done once the machine stands; the first stretch is gone through once for all of them
        winter: what a rebuild takes, and what winter's bills count today

    Returns:
        an outcome for each recovery

    Source: events of a season in docs/engines/season.md.
    Valid: two drives let go at most; the third holds.
    """
    raise NotImplementedError


def years_after(common: Common, outcome: Outcome, years: Years) -> Ledger:
    """What the years after use up, each count discounted to today.

    Args:
        common: what is drawn once for all courses
        outcome: how the course left the drives
        years: the years after

    Returns:
        the counts

    Source: one fixed policy a year and corner (docs/engines/season.md).
    Valid: a drive lets go once a year and corner at most.
    """
    raise NotImplementedError
