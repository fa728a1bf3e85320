"""How the drive in trouble stands and how long it may last, named in the workings of its choice."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from axlewright.kinds import Array
from axlewright.plan.reckon import choice_lives as lives_of
from axlewright.plan.reckon.choice_bearings import lean_on_bearings
from axlewright.plan.reckon.choice_class import DESIGNS, class_lives
from axlewright.plan.reckon.choice_evidence import Evidence, evidence_of
from axlewright.plan.reckon.choice_task import HOUR, ChoiceTask, age_of
from axlewright.plan.workings import Thing, Workings
from axlewright.quantities.draws import sobol
from axlewright.trade.choice import class_of_drives

STEPS = 8  # times at which the curve is asked, on the way to its end
LEAST_AHEAD = 60.0  # machine hours that the curve shows at least


def workings_of(task: ChoiceTask) -> Workings:
    """The workings of a choice: quantities, what was seen, and the shares that lives are drawn by."""
    source = class_of_drives().source
    ages = np.asarray(task.quantities["drive/hours"].spread.at(sobol(task.seed, "condition/designs", DESIGNS, 4)[:, 3]))
    seen = evidence_of(task.seen)
    least = float(ages.min())
    spare = _spare(task)
    things = [
        *spare,
        Thing("condition/class", class_lives(task.seed), "assumed", source),
        Thing("condition/middle-class", class_lives(task.seed, 1), "assumed", source),
        Thing("condition/ages", lives_of.Ages(ages), task.quantities["drive/hours"].basis, task.quantities["drive/hours"].source),
        Thing("condition/used-ages", lives_of.Ages(_used_ages(task)), "assumed", source),
        Thing("condition/seen", replace(seen, ago=np.minimum(seen.ago, least)), "measured", "what was found at this drive"),
        Thing("luck/fitted", lives_of.Luck(sobol(task.seed, "luck/fitted", task.count, 6)), "assumed", "drawn"),
    ]  # fmt: skip
    for name, width in (("used", 7), ("rebuilt", 5)):
        for which in ("", "-next"):
            shares = sobol(task.seed, f"luck/{name}{which}", task.count, width)
            things.append(Thing(f"luck/{name}{which}", lives_of.Luck(shares), "assumed", "drawn"))
    w = Workings(task.quantities, task.seed, task.count, {thing.name: thing for thing in things})
    lean_on_bearings(w, task)
    return w


def _spare(task: ChoiceTask) -> list[Thing]:
    """Hours of the spare, and what was found at it."""
    if task.spare is None:
        return []
    hours, seen = task.spare
    u = sobol(task.seed, "condition/designs", DESIGNS, 4)[:, 3]
    ages = np.asarray(age_of(hours, "spare/hours").spread.at(u))
    found = evidence_of(seen)
    capped = replace(found, ago=np.minimum(found.ago, float(ages.min())))
    return [
        Thing("spare/ages", lives_of.Ages(ages), "measured", "the spare’s own hours"),
        Thing("spare/seen", capped, "measured", "what was found at the spare"),
        Thing("luck/spare", lives_of.Luck(sobol(task.seed, "luck/spare", task.count, 6)), "assumed", "drawn"),
    ]


def _used_ages(task: ChoiceTask) -> Array:
    from axlewright.quantities import Tenths

    return np.asarray(Tenths(*class_of_drives().used_hours).at((np.arange(8) + 0.5) / 8))


def forecast(w: Workings, hours_ahead: float) -> None:
    """`condition` and `life/fitted`: how it stands, whether it carries by each time, and the lives it may have.

    Args:
        w: workings of the choice
        hours_ahead: machine hours that the curve goes to [h]
    """
    most = max(LEAST_AHEAD, 10 * math.ceil(hours_ahead / 10))
    ahead = np.linspace(0.0, most, STEPS + 1) * HOUR
    asked = Thing("condition/ahead", lives_of.Ahead(ahead), "assumed", "times asked")
    w.things = {**w.things, asked.name: asked}
    w.work_out("condition", lives_of.how_it_stands, lives="condition/class", ages="condition/ages", seen="condition/seen", ahead="condition/ahead")  # fmt: skip
    lives_ahead(w)


def lives_ahead(w: Workings) -> None:
    """The lives that the drive in trouble may have."""
    w.work_out("life/fitted", lives_of.lives_ahead, lives="condition/class", ages="condition/ages", seen="condition/seen", luck="luck/fitted")  # fmt: skip


def other_lives(w: Workings) -> None:
    """Lives of what could be fitted in its place: used, and rebuilt."""
    for which in ("", "-next"):
        w.work_out(f"life/used{which}", lives_of.lives_of_used, lives="condition/middle-class", ages="condition/used-ages", bad="chance/bought-bad", luck=f"luck/used{which}")  # fmt: skip
        w.work_out(f"life/rebuilt{which}", lives_of.lives_of_rebuilt, lives="condition/middle-class", fault="chance/fault-of-rebuild", fault_mean="life/fault-mean", luck=f"luck/rebuilt{which}")  # fmt: skip


def spare_lives(w: Workings) -> None:
    """Lives of the spare: by its hours and what was found at it; where nobody knows those, as of a used drive."""
    if "spare/ages" in w.things:
        w.work_out("life/spare", lives_of.lives_ahead, lives="condition/class", ages="spare/ages", seen="spare/seen", luck="luck/spare")  # fmt: skip
    else:
        w.work_out("life/spare", lives_of.lives_of_used, lives="condition/middle-class", ages="condition/used-ages", bad="chance/bought-bad", luck="luck/used")  # fmt: skip


def again(seen: Evidence, row: Array) -> Evidence:
    """What would be known after one more look, now."""
    return Evidence(np.append(seen.ago, 0.0), np.vstack([np.reshape(seen.likelihood, (-1, 4)), row]))
