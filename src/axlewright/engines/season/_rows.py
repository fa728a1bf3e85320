"""The courses of the words, as rows: what each is ready by, lives on and uses up before work begins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from axlewright.engines.season._ledger import Ledger
from axlewright.engines.season.courses import (
    NEVER,
    Checks,
    Common,
    Course,
    CourseName,
    Life,
    Replacement,
    Source,
    Warranty,
    Winter,
)
from axlewright.kinds import Array, Duration, Share

PLAIN = Winter()


def standard_courses(
    common: Common,
    names: tuple[CourseName, ...],
    checks: Checks = Checks(),  # ruff: ignore[function-call-in-default-argument]
    warranty: Warranty = Warranty(),  # ruff: ignore[function-call-in-default-argument]
    winter: Winter = PLAIN,
    second_rate: Share = 0.0,
    second: Life = Life(),  # ruff: ignore[function-call-in-default-argument]
    move: Duration = 0.0,
    meanwhile: bool = False,
) -> tuple[Course, ...]:
    """The rows of courses by their names.

    Args:
        common: what is drawn once for all courses
        names: of the courses
        checks: looks of the course with checks
        warranty: on a used drive
        winter: what a rebuild takes
        second_rate: rate of the second machine, by that of the own one; 0: there is none [-]
        second: what the second machine has before it
        move: until the second machine is there [s]
        meanwhile: the machine goes on with the drive in trouble until the other one, or the parts, are there; only where a
            verdict lets it

    Returns:
        a row a name

    Source: table of courses in docs/engines/season.md.
    Valid: a course that is missing here is made as a row of its own.
    """
    rows: dict[str, Callable[[], Course]] = {
        "run": lambda: Course("run", life=common.fitted),
        "run with checks": lambda: Course("run with checks", life=common.fitted, checks=checks),
        "reseal": lambda: _reseal(common),
        "fit a spare": lambda: _fit(common, winter, "fit a spare"),
        "fit a used drive": lambda: _fit(common, winter, "fit a used drive", warranty),
        "fit a rebuilt exchange": lambda: _fit(common, winter, "fit a rebuilt exchange"),
        "rebuild now": lambda: _rebuild(common, winter),
        "hire out": lambda: Course(
            "hire out", ready=common.hire_lead, works="hired", rate=common.hire_rate, now=Ledger(hire_calls=1.0),
            winter="back",
        ),
        "park": lambda: Course("park", works="none", winter="back")
        if np.max(second_rate) <= 0
        else Course("park", ready=move, works="second", rate=second_rate, life=second, winter="back"),
    }  # fmt: skip
    made = (rows[name]() for name in names)
    return tuple(replace(row, meanwhile=True) if meanwhile and row.source != "none" else row for row in made)


def _reseal(common: Common) -> Course:
    job = common.jobs.reseal
    return Course(
        "reseal",
        ready=np.asarray(common.kit_lead) + job.takes,
        life=common.resealed,
        now=Ledger(labour=job.labour, seal_kits=1.0),
    )


def _parts(common: Common, winter: Winter) -> Array:
    return np.where(np.asarray(common.fitted.fails) <= 0, winter.failing, 1.0)


def _rebuild(common: Common, winter: Winter) -> Course:
    jobs = common.jobs
    return Course(
        "rebuild now",
        source="rebuilt",
        ready=np.asarray(common.rebuilt.lead) + jobs.rebuild.takes + jobs.swap.takes,
        arrives=common.rebuilt.lead,
        life=common.rebuilt.life,
        now=Ledger(labour=np.asarray(jobs.rebuild.labour) + jobs.swap.labour, rebuilds=_parts(common, winter)),
    )


def _fit(common: Common, winter: Winter, name: CourseName, warranty: Warranty = Warranty()) -> Course:  # ruff: ignore[function-call-in-default-argument]
    """A drive put in before the season goes on; where there is none to be had, the old one is rebuilt."""
    sources: dict[str, tuple[Source, Replacement]] = {
        "fit a spare": ("spare", common.spare),
        "fit a used drive": ("used", common.used),
        "fit a rebuilt exchange": ("exchange", common.exchange),
    }
    source, drive = sources[name]
    jobs, rebuilt = common.jobs, common.rebuilt
    there = np.asarray(drive.lead) < NEVER
    bench = np.asarray(rebuilt.lead) + jobs.rebuild.takes
    parts = np.where(there, 0.0, _parts(common, winter))
    labour = jobs.swap.labour + np.where(there, 0.0, jobs.rebuild.labour)
    bought = np.where(there, 1.0, 0.0)
    now = {
        "spare": Ledger(labour=labour, rebuilds=parts),
        "used": Ledger(labour=labour, rebuilds=parts, used=bought),
        "exchange": Ledger(labour=labour, rebuilds=parts, exchanges=bought),
    }[source]
    life = Life(
        np.where(there, drive.life.fails, rebuilt.life.fails), np.where(there, drive.life.lets_go, rebuilt.life.lets_go)
    )
    return Course(
        name, source=source, ready=np.where(there, drive.lead, bench) + jobs.swap.takes, life=life, now=now,
        warranty=warranty, winter="nothing" if source == "exchange" else "shelf", swaps=there & (source != "exchange"),
        arrives=np.where(there, drive.lead, rebuilt.lead),
    )  # fmt: skip
