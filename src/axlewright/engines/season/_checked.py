"""What a course is given, held against what can be, before any season is run."""

from __future__ import annotations

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.engines.season._clock import FieldClock
from axlewright.engines.season.courses import Common, Course, Job, Life, Recovery
from axlewright.kinds import Number


def check(clock: FieldClock, common: Common, course: Course, recoveries: tuple[Recovery, ...]) -> None:
    """Raise `OutOfRange` for the first thing that cannot be, by its path."""
    if not recoveries:
        raise OutOfRange("recoveries", 0.0, 1.0, np.inf, why="one at least: what is done once the machine stands")
    size = clock.seasons
    for name, job in (
        ("swap", common.jobs.swap),
        ("field_swap", common.jobs.field_swap),
        ("rebuild", common.jobs.rebuild),
    ):
        _job(f"common.jobs.{name}", job, size)
    for name in ("spare", "used", "exchange", "rebuilt"):
        replacement = getattr(common, name)
        _least(f"common.{name}.lead", replacement.lead, size)
        _life(f"common.{name}.life", replacement.life, size, new=True)
        _life(f"common.{name}.next_life", replacement.next_life, size, new=True)
    if not np.isfinite(common.rebuilt.lead).all():
        raise OutOfRange(
            "common.rebuilt.lead", np.inf, 0.0, np.inf, why="a rebuild is what is left where nothing else is"
        )
    _life("common.fitted", common.fitted, size)
    for name in ("hire_lead", "road", "damage"):
        _least(f"common.{name}", getattr(common, name), size)
    for name in ("unsafe_field", "unsafe_road", "seen", "honoured"):
        _least(f"common.{name}", getattr(common, name), size, 1.0)
    above("common.hire_rate", common.hire_rate)
    _life("course.life", course.life, size)
    _least("course.ready", course.ready, size)
    above("course.rate", course.rate)
    above("course.checks.interval", 1.0 if course.checks.interval == np.inf else course.checks.interval)
    within("course.checks.power", course.checks.power, 0.0, 1.0)
    within("course.checks.never_seen", course.checks.never_seen, 0.0, 1.0)
    within("course.warranty.hours", course.warranty.hours, 0.0)
    for recovery in recoveries:
        no_less("recovery.wait", recovery.wait)


def _fits(what: str, value: Number, size: int) -> None:
    """One number, or one a season."""
    shape = np.shape(value)
    if shape not in ((), (size,)):
        raise OutOfRange(what, float(shape[0]), size, size, why="one number, or one a season")


def no_less(what: str, value: Number, low: float = 0.0, most: float = np.inf, why: str = "") -> None:
    """Raise `OutOfRange` unless every draw is a number in low..most; infinite where `most` is."""
    draws = np.asarray(value, float)
    fits = (draws >= low) & (draws <= most)
    if not fits.all():
        raise OutOfRange(what, float(draws[~fits].flat[0]), low, most, float(1 - fits.mean()), why)


def _least(what: str, value: Number, size: int, most: float = np.inf) -> None:
    _fits(what, value, size)
    no_less(what, value, 0.0, most)


def _job(what: str, job: Job, size: int) -> None:
    _least(f"{what}.takes", job.takes, size)
    _least(f"{what}.labour", job.labour, size)


def _life(what: str, life: Life, size: int, new: bool = False) -> None:
    _fits(f"{what}.fails", life.fails, size)
    _fits(f"{what}.lets_go", life.lets_go, size)
    no_less(f"{what}.fails", life.fails, -np.inf)
    no_less(f"{what}.lets_go", life.lets_go, why="a drive that has let go already runs no course")
    if new and not (np.asarray(life.fails) <= life.lets_go).all():
        raise OutOfRange(f"{what}.fails", float(np.max(life.fails)), -np.inf, float(np.min(life.lets_go)))
