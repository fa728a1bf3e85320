"""The bearings of a choice: what the wheel carries, how long its pair is rated to last, and the class leaned on it.

axle weights and header -> what the wheel carries -> loads of the pair -> its life -> the class's laws -> the forecast. All
of it by name in the workings; where the bearings are not known, or no life can be given, the class speaks alone.
"""

from __future__ import annotations

from typing import Literal

from axlewright.engines.gravity import weight_of
from axlewright.engines.running.life import PAST, running_time, wheel_rate
from axlewright.engines.running.loads import effective_spread
from axlewright.engines.running.rating import rating_by_caliper
from axlewright.plan.reckon import bearing_calls as calls
from axlewright.plan.reckon.choice_class import between_designs, class_lives, class_medians
from axlewright.plan.reckon.choice_task import BearingTask, ChoiceTask, exact
from axlewright.plan.reckon.holding import as_it_stands, pressing
from axlewright.plan.workings import Refused, Thing, Workings
from axlewright.trade.bearings import opinion
from axlewright.trade.choice import class_of_drives

Which = Literal["outboard", "inboard"]
BOTH: tuple[Which, ...] = ("outboard", "inboard")
AT = "at-work"  # where the machine's own numbers stand: level, header on, tank part full
LIFE = "life/bearings"
WHY_NOT = "bearings/why-not"
PRINTED = ("capacity", "static-capacity", "thrust-factor")


def lean_on_bearings(w: Workings, task: ChoiceTask) -> None:
    """Lean the class on its bearings, where they are known: `condition/class` and `condition/middle-class` anew.

    Where no life can be given the class stays as it is, and `bearings/why-not` says why.
    """
    known = task.bearings
    if known is None:
        return
    row, said = class_of_drives(), opinion()
    median, spread = between_designs()
    more = [
        exact("condition/class-median", "duration", median, "assumed", row.source),
        exact("condition/class-spread", "share", spread, "assumed", row.source),
        exact("condition/class-shape", "share", row.sound[1], "assumed", row.source),
        exact("bearings/own-spread", "share", said.spread, "assumed", said.source),
        exact("bearings/most", "share", said.most, "assumed", said.source),
        exact("bearings/beyond", "share", said.beyond, "assumed", "a choice of ours"),
    ]
    before, there = w.quantities, w.things
    w.quantities = {**known.quantities, **before, **{one.name: one for one in more}}
    things = [
        Thing("bearings/arrangement", known.arrangement, "assumed", "how the cones face"),
        Thing("condition/class-alone", class_lives(task.seed), "assumed", row.source),
        Thing("condition/class-medians", calls.Medians(class_medians(task.seed)), "assumed", row.source),
        Thing("condition/middle-class-alone", class_lives(task.seed, 1), "assumed", row.source),
        Thing("condition/middle-class-medians", calls.Medians(class_medians(task.seed, 1)), "assumed", row.source),
    ]
    w.things = {**w.things, **{one.name: one for one in things}}
    try:
        bearing_life(w, known)
        w.work_out("bearings/lean", calls.opinions_together, rated=LIFE, class_median="condition/class-median", class_spread="condition/class-spread", class_shape="condition/class-shape", own_spread="bearings/own-spread", most="bearings/most")  # fmt: skip
        for name in ("class", "middle-class"):
            w.work_out(f"condition/{name}", calls.class_leaned, lives=f"condition/{name}-alone", medians=f"condition/{name}-medians", lean="bearings/lean")  # fmt: skip
    except Refused as no:
        past = no.bad is not None and no.bad.why == PAST
        why = PAST_HALF if past else f"{no.because[0].upper()}{no.because[1:]}."
        w.quantities, w.things = before, {**there, WHY_NOT: Thing(WHY_NOT, why, "computed", "as it was refused")}


PAST_HALF = "At this load they may carry more than half of what they are rated for, and no life can be given: look at what was typed."


def bearing_life(w: Workings, known: BearingTask) -> None:
    """`life/bearings`: the pair's life at what the wheel carries, and beside it hours by load alone.

    Raises:
        Refused: a number is out of range, or the load is past what a rating holds for
    """
    _stands(w, known)
    w.work_out("bearings/wheel", calls.forces_at_work, stands="bearings/stands", shock="bearings/shock", traction="bearings/traction", side="bearings/side-share")  # fmt: skip
    for which in BOTH:
        _bearing(w, which)
    w.work_out("bearings/spread", effective_spread, cup_back_faces="bearings/cup-distance", outboard_centre="bearings/outboard-centre", inboard_centre="bearings/inboard-centre", arrangement="bearings/arrangement")  # fmt: skip
    w.work_out("bearings/overhang", calls.overhang, footprint="bearings/footprint", centre="bearings/outboard-centre", arrangement="bearings/arrangement")  # fmt: skip
    w.work_out("bearings/speed", calls.mean_speed, field="bearings/field-speed", road="bearings/road-speed", on_road="share/road")  # fmt: skip
    w.work_out("bearings/dirt", calls.dirt_left, cleanliness="bearings/cleanliness", most="bearings/dirt-most")
    w.work_out(
        LIFE,
        calls.rated_life,
        forces="bearings/wheel",
        spread="bearings/spread",
        offset="bearings/overhang",
        rolling_radius="bearings/radius",
        speed="bearings/speed",
        viscosity="bearings/viscosity",
        contamination="bearings/dirt",
        outboard="bearings/outboard",
        inboard="bearings/inboard",
        slope="bearings/slope",
        beyond="bearings/beyond",
        arrangement="bearings/arrangement",
    )
    w.work_out("bearings/rate", wheel_rate, speed="bearings/speed", rolling_radius="bearings/radius")
    w.work_out("bearings/basic-time", running_time, turns=f"{LIFE}.basic_turns", rate="bearings/rate")


def _stands(w: Workings, known: BearingTask) -> None:
    """What the wheel carries, standing level: weighed, else by the machine's masses, header on, tank part full."""
    if known.weighed:
        w.work_out("bearings/stands", weight_of, mass="bearings/wheel-carries")
        return
    w.work_out("bearings/stands", pressing, load=f"{as_it_stands(w, AT)}.corner")


def _bearing(w: Workings, which: Which) -> None:
    """One bearing and its effective centre; what is printed goes before the caliper."""
    at = f"bearings/{which}"
    limit = f"{at}-thrust-limit"
    w.work_out(f"{at}-rated", rating_by_caliper, bore=f"{at}-bore", outside=f"{at}-outside", width=f"{at}-width", thrust_limit=limit)  # fmt: skip
    printed = {name.replace("-", "_"): f"{at}-{name}" for name in PRINTED if f"{at}-{name}" in w.quantities}
    w.work_out(at, calls.bearing_known, rated=f"{at}-rated", thrust_limit=limit, rule=f"{at}-rule", static_rule=f"{at}-static-rule", old_steel=f"{at}-old-steel", **printed)  # fmt: skip
    w.work_out(f"{at}-centre", calls.effective_centre, centre=f"{at}-rated.centre", rule=f"{at}-centre-rule")
