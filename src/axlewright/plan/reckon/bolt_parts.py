"""One bolt in its hole: thread, strip area, friction of each grease, engagement by both rules in print."""

from __future__ import annotations

from axlewright.engines.joints import stripping, threads
from axlewright.engines.joints.limits_of_size import limits_metric, limits_unified
from axlewright.engines.joints.nut_factor import friction_from_nut_factor
from axlewright.plan.margins import Margin
from axlewright.plan.reckon.bolt_task import BoltTask
from axlewright.plan.workings import Workings
from axlewright.trade.lubricants import Condition


def bolt(w: Workings, at: str, task: BoltTask) -> None:
    """Geometry of the thread, and what its housing carries."""
    size = {"diameter": f"{at}/diameter", "pitch": f"{at}/pitch"}
    inch = task.thread.system == "inch"
    w.work_out(f"{at}/pitch-diameter", threads.pitch_diameter, **size)
    w.work_out(
        f"{at}/stress-diameter", threads.stress_diameter_inch if inch else threads.stress_diameter_metric, **size
    )
    w.work_out(f"{at}/stress-area", threads.circle_area, diameter=f"{at}/stress-diameter")
    if inch:
        w.work_out(f"{at}/limits", limits_unified, **size, tolerance_length=f"{at}/tolerance-length")
    else:
        w.work_out(f"{at}/limits", limits_metric, **size)
    w.work_out(
        f"{at}/strip-width",
        threads.strip_width_internal,
        pitch=f"{at}/pitch",
        bolt_major_least=f"{at}/limits.bolt_major_least",
        nut_pitch_greatest=f"{at}/limits.nut_pitch_greatest",
    )
    if task.by_turns:
        w.work_out(f"{at}/engagement", stripping.engagement_from_turns, turns=f"{at}/turns", pitch=f"{at}/pitch")
    else:
        w.work_out(f"{at}/engagement", stripping.effective_engagement, engaged=f"{at}/engaged", pitch=f"{at}/pitch")
    w.work_out(
        f"{at}/strip-area",
        threads.strip_area_internal,
        engagement=f"{at}/engagement",
        pitch=f"{at}/pitch",
        bolt_major_least=f"{at}/limits.bolt_major_least",
        nut_pitch_greatest=f"{at}/limits.nut_pitch_greatest",
    )
    w.work_out(
        f"{at}/housing-shear",
        stripping.shear_strength_of,
        tensile_strength=f"{at}/housing-tensile",
        shear_ratio=f"{at}/shear-ratio",
    )
    w.work_out(
        f"{at}/strips", stripping.strip_load, strip_area=f"{at}/strip-area", shear_strength=f"{at}/housing-shear"
    )


def friction(w: Workings, at: str, state: Condition) -> str:
    """Friction of a state on this thread, the same in thread and under the head."""
    name = f"{at}/friction/{state.id}"
    if name not in w.got:
        w.work_out(
            name,
            friction_from_nut_factor,
            nut_factor=f"{at}/nut-factor/{state.id}",
            diameter=f"{at}/diameter",
            pitch=f"{at}/pitch",
            pitch_diameter=f"{at}/pitch-diameter",
            bearing_diameter=f"{at}/bearing-diameter",
        )
    return name


def frictions(w: Workings, at: str, on_threads: Condition, on_heads: Condition) -> dict[str, str]:
    """What every torque of one grease takes."""
    return {
        "pitch": f"{at}/pitch",
        "pitch_diameter": f"{at}/pitch-diameter",
        "friction_thread": friction(w, at, on_threads),
        "friction_head": friction(w, at, on_heads),
        "bearing_diameter": f"{at}/bearing-diameter",
    }


def section(at: str) -> dict[str, str]:
    return {"stress_area": f"{at}/stress-area", "stress_diameter": f"{at}/stress-diameter"}


def engagement(w: Workings, at: str) -> tuple[Margin, ...]:
    """Engagement against what it takes for the bolt to break before the housing strips, by both rules in print."""
    w.work_out(
        f"{at}/engagement-by-shear",
        stripping.engagement_by_shear,
        stress_area=f"{at}/stress-area",
        bolt_tensile=f"{at}/tensile-strength",
        internal_per_length=f"{at}/strip-width",
        shear_strength=f"{at}/housing-shear",
    )
    w.work_out(
        f"{at}/bolt-strip-width",
        threads.strip_width_external,
        pitch=f"{at}/pitch",
        nut_minor_greatest=f"{at}/limits.nut_minor_greatest",
        bolt_pitch_least=f"{at}/limits.bolt_pitch_least",
    )
    w.work_out(
        f"{at}/strength-ratio",
        stripping.strength_ratio,
        external_per_length=f"{at}/bolt-strip-width",
        bolt_tensile=f"{at}/tensile-strength",
        internal_per_length=f"{at}/strip-width",
        housing_tensile=f"{at}/housing-tensile",
    )
    w.work_out(
        f"{at}/engagement-by-areas",
        stripping.engagement_by_area_weaker,
        stress_area=f"{at}/stress-area",
        external_per_length=f"{at}/bolt-strip-width",
        ratio=f"{at}/strength-ratio",
    )
    return (Margin("engagement", "standing", w[f"{at}/engagement"], w[f"{at}/engagement-by-shear"]),)
