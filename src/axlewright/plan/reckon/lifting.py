"""Taking off wheel and drive: forks, hook, legs, hoist, each as margins. How it hangs is worked out once, for one weight.

Tensions of stiff legs go with the weight: they are worked out for the likely mass, and what a leg is asked is that
share of the mass at its careful end. An unweighed mass stands at its careful corner, places are drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.wheel import load_at_centre, wheel_load_centre
from axlewright.engines.lifting.hang import hang
from axlewright.engines.lifting.hoist import hoist_loads
from axlewright.engines.lifting.indeterminate import tension_range
from axlewright.engines.lifting.saddle import saddle_on_forks
from axlewright.engines.lifting.slings import leg_stiffness, lift_load, part_holds
from axlewright.kinds import KINDS, Angle, Force, Mass, Share
from axlewright.plan.margins import Margin
from axlewright.plan.once import once
from axlewright.plan.reckon.corner_task import HELD_SHARE
from axlewright.plan.reckon.holding import HeldMargin
from axlewright.plan.reckon.lift_task import CHAIN_STRETCH, LiftTask, Part
from axlewright.plan.workings import Got, Refused, Thing, Workings, held_at
from axlewright.quantities import Exact, Quantity
from axlewright.trade.slings import Factor, handlings, stretches

FLATTEST = math.radians(60.0)  # of a leg from plumb
NEAR_TURNING = math.radians(10.0)  # angle of a side pull that slackens a leg
NEAR_SHARE = 0.1  # of the distance of two eyes: least depth of the centre of gravity under them
ROLLS = 0.05  # of the draws: more that turn over, and it turns over
NO_TAG = 20_000.0  # N, for the stretch alone of a leg whose tag nobody read


@dataclass(frozen=True, slots=True)
class Lies:
    """How a drive lies as it hangs.

    Attributes:
        end_up: slope of its axis, positive where the wheel end is up [rad]
        side_up: turn about it, positive where the right side is up, seen from the wheel end [rad]
    """

    end_up: Angle
    side_up: Angle


def as_it_lies(up_x: Share, up_y: Share) -> Lies:
    """Slope of the axis and turn about it, from where up is in the drive.

    Args:
        up_x: real up, part along the axis [-]
        up_y: real up, part to the right [-]

    Returns:
        both slopes

    Source: geometry.
    Valid: a direction.
    """
    return Lies(np.arcsin(np.clip(up_x, -1.0, 1.0)), np.arcsin(np.clip(up_y, -1.0, 1.0)))


def leg_load(pull: Force, weight: Force, mass: Mass, handling: Share) -> Mass:
    """What a leg's parts must be good for.

    Args:
        pull: in the leg, as the drive hangs still [N]
        weight: at which that pull was found [N]
        mass: of the drive with what hangs with it [kg]
        handling: factor for how it is lifted [-]

    Returns:
        load [kg]

    Source: pulls of stiff legs go with the weight; handling factors of trade/slings.toml.
    Valid: legs that hardly stretch.
    """
    return pull / weight * mass * handling


@dataclass(frozen=True, slots=True)
class PartHeld:
    """A part, what is asked of it, and its margin; none while its tag is not read."""

    part: Part
    where: str  # `A, B`, or empty for what carries everything
    margin: HeldMargin | None
    limit: str  # name of its tag among the inputs


@dataclass(frozen=True, slots=True)
class Lifting:
    """Wheel and drive reckoned through. What could not be worked out stands in `refused`, by section."""

    at: str
    task: LiftTask
    likely: Workings
    held: Workings
    margins: tuple[HeldMargin, ...]
    parts: tuple[PartHeld, ...]
    wheel: HeldMargin | None
    forks: HeldMargin | None
    refused: dict[str, Refused]

    def __getitem__(self, name: str) -> Got:
        return self.likely[f"{self.at}/{name}"]

    @property
    def hangs(self) -> bool:
        return f"{self.at}/lies.end_up" in self.likely

    @property
    def turns_over(self) -> bool:
        """Whether it turns over on the hook, or nothing fixes how it hangs."""
        stays = self["hang.wanted_holds"].draws & self["hang.determined"].draws
        return bool(1.0 - np.mean(stays) > ROLLS)

    def heaviest(self, name: str = "drive-mass") -> float:
        """Careful end of a mass [kg]."""
        return self.held[f"{self.at}/{name}"].ends()[1]


@once
def lift(task: LiftTask, at: str, seed: int, count: int) -> Lifting:
    """Wheel and drive reckoned through, each section by itself."""
    given = {**task.quantities(at), **_settled(task, at)}
    at_likely = replace(given[f"{at}/drive-mass"], name=f"{at}/hung-mass")
    likely = Workings({**given, at_likely.name: at_likely}, seed, count, things=_things(task, at))
    unweighed = [given[name] for mass in ("drive-mass", "wheel-mass", "besides") if (name := f"{at}/{mass}") in given]
    held = likely.what_if(*(held_at(one, "high", HELD_SHARE) for one in unweighed if one.basis == "assumed"))
    margins: list[HeldMargin] = []
    parts: list[PartHeld] = []
    refused: dict[str, Refused] = {}
    found: dict[str, HeldMargin | None] = {"wheel": None, "forks": None}
    for section, how in (("wheel", wheel_on_forks), ("forks", drive_on_forks)):
        try:
            found[section] = _both(how, likely, held, at, task)
        except Refused as no:
            refused[section] = no
    margins += [one for one in (found["forks"],) if one]
    if task.how == "hook" and task.legs:  # how it hangs is not known while no leg was taped
        try:
            hung_margins, parts = _on_the_hook(likely, held, at, task)
            margins += hung_margins
        except Refused as no:
            refused["hook"] = no
    return Lifting(at, task, likely, held, tuple(margins), tuple(parts), found["wheel"], found["forks"], refused)


def _settled(task: LiftTask, at: str) -> dict[str, Quantity]:
    """Choices and factors of the trade that count among the inputs."""
    hand: Factor = handlings()[task.hoist.handling if task.hoist else "hand"]
    loader = handlings()["loader"]

    def one(name: str, kind: str, value: float, source: str) -> Quantity:
        return Quantity(f"{at}/{name}", KINDS[kind], Exact(value), "assumed", source)

    all_of_it = [
        one("nothing", "mass", 0.0, "nothing, by definition"),
        one("no-length", "length", 0.0, "nothing, by definition"),
        one("no-share", "share", 0.0, "nothing, by definition"),
        one("once", "share", 1.0, "one, by definition"),
        one("handling", "share", hand.factor, hand.source),
        one("loader-handling", "share", loader.factor, loader.source),
        one("flattest", "angle", FLATTEST, "60 degrees from plumb; sling leaflets"),
        one("near-turning", "angle", NEAR_TURNING, "a choice: 10 degrees"),
    ]
    for n, leg in enumerate(task.legs, 1):
        stretch = CHAIN_STRETCH if leg.stretch == "chain" else stretches()[leg.stretch].value
        all_of_it.append(one(f"leg-{n}-stretch", "share", stretch, "stretch at the working load limit, within a factor of 2"))  # fmt: skip
        tags = [part.limit.spread.middle() * 9.80665 for part in leg.parts if part.limit is not None]
        all_of_it.append(one(f"leg-{n}-pull", "force", min(tags, default=NO_TAG), "least tag of the leg, for its stretch"))  # fmt: skip
        all_of_it += [one(f"leg-{n}-factor-{m}", "share", part.factor, part.said or "straight pull") for m, part in enumerate(leg.parts, 1)]  # fmt: skip
    return {q.name: q for q in all_of_it}


def _things(task: LiftTask, at: str) -> dict[str, Thing]:
    crosswise = bool(task.wheel and task.wheel.crosswise)
    return {f"{at}/crosswise": Thing(f"{at}/crosswise", crosswise, "assumed", "how the wheel stands on the forks")}


def _both(how: object, likely: Workings, held: Workings, at: str, task: LiftTask) -> HeldMargin | None:
    pair = [how(w, at, task) for w in (likely, held)]  # type: ignore[operator]
    return None if pair[0] is None else HeldMargin(*pair)


def wheel_on_forks(w: Workings, at: str, task: LiftTask) -> Margin | None:
    """The wheel on pallet forks."""
    if task.wheel is None or task.loader is None or task.loader.rated is None:
        return None
    centre = w.work_out(
        f"{at}/wheel-centre", wheel_load_centre, standoff=f"{at}/standoff", width=f"{at}/wheel-width",
        diameter=f"{at}/wheel-diameter", crosswise=f"{at}/crosswise",
    )  # fmt: skip
    allowed = w.work_out(
        f"{at}/wheel-allowed", load_at_centre, rated=f"{at}/rated", rated_centre=f"{at}/rated-centre",
        centre=centre.name, tipping_line=f"{at}/tipping-line",
    )  # fmt: skip
    asked = w.work_out(f"{at}/wheel-asked", lift_load, mass=f"{at}/wheel-mass", handling=f"{at}/loader-handling")
    return Margin("forks", "wheel", allowed, asked)


def drive_on_forks(w: Workings, at: str, task: LiftTask) -> Margin | None:
    """The drive on pallet forks in its saddle; worked out beside the hook too, where a reach is known."""
    if task.loader is None or task.loader.rated is None or task.reach is None:
        return None
    w.work_out(
        f"{at}/forks", saddle_on_forks, rated=f"{at}/rated", rated_centre=f"{at}/rated-centre", centre=f"{at}/reach",
        drive=f"{at}/drive-mass", saddle=f"{at}/besides", handling=f"{at}/loader-handling",
        tipping_line=f"{at}/tipping-line",
    )  # fmt: skip
    return Margin("forks", "drive", w[f"{at}/forks.allowed"], w[f"{at}/forks.load"])


def _on_the_hook(likely: Workings, held: Workings, at: str, task: LiftTask) -> tuple[list[HeldMargin], list[PartHeld]]:
    """How it hangs, then every leg's angle and parts, then the hoist."""
    for w in (likely, held):
        hung(w, at, task)
        w.work_out(f"{at}/lifted", lift_load, mass=f"{at}/drive-mass", handling=f"{at}/once", gear=f"{at}/besides")
        w.work_out(f"{at}/asked", lift_load, mass=f"{at}/drive-mass", handling=f"{at}/handling", gear=f"{at}/besides")
    margins = [_leg_angle(likely, held, at, n, leg.name) for n, leg in enumerate(task.legs, 1)]
    margins.append(_near_turning(likely, at, task))
    parts = [*_carries_all(likely, held, at, task), *_of_legs(likely, held, at, task)]
    margins += [one.margin for one in parts if one.margin]
    if tips := _tips(likely, held, at, task):
        margins.append(tips)
    return margins, parts


def _leg_angle(likely: Workings, held: Workings, at: str, n: int, name: str) -> HeldMargin:
    pair = [Margin("leg-angle", f"leg {name}", w[f"{at}/flattest"], w[f"{at}/leg-{n}-angle"]) for w in (likely, held)]
    return HeldMargin(*pair)


def hung(w: Workings, at: str, task: LiftTask) -> None:
    """Work out pulls, angles and attitude.

    Raises:
        Refused: an input is out of range; says which
    """
    w.work_out(f"{at}/hung", weight_of, mass=f"{at}/hung-mass")
    for n, _ in enumerate(task.legs, 1):
        w.work_out(
            f"{at}/legs.{n}.stiffness", leg_stiffness, limit=f"{at}/leg-{n}-pull", stretch=f"{at}/leg-{n}-stretch",
            length=f"{at}/legs.{n}.length",
        )  # fmt: skip
    whole = w.work_out(f"{at}/hang", hang, weight=f"{at}/hung", centre=f"{at}/centre", lines=f"{at}/legs")
    w.work_out(f"{at}/lies", as_it_lies, up_x=f"{at}/hang.up_x", up_y=f"{at}/hang.up_y")
    pulls = whole.draws.tensions
    if len(task.legs) > 3:  # two of them may carry all
        pulls = _greatest(w, at, task)
    for n, _ in enumerate(task.legs):
        for name, kind, draws in (
            ("pull", "force", whole.draws.tensions[n]), ("most", "force", pulls[n]), ("angle", "angle", whole.draws.leg_angles[n]),
        ):  # fmt: skip
            part = f"{at}/leg-{n + 1}-{name}"
            w.got[part] = Got(part, KINDS[kind], draws, "computed", whole.source, f"{whole.key}.{name}.{n}", whole.made_of)  # fmt: skip


def _greatest(w: Workings, at: str, task: LiftTask) -> tuple[Force, ...]:
    """The greatest pull that statics lets each leg have, whatever its length is out by.

    Raises:
        Refused: they cannot hold it so
    """
    for axis in "xyz":
        w.got[f"{at}/hook-at.{axis}"] = replace(w[f"{at}/hang.hook_{axis}"], name=f"{at}/hook-at.{axis}")
        for n, _ in enumerate(task.legs, 1):
            w.got[f"{at}/eyes.{n}.{axis}"] = replace(w[f"{at}/legs.{n}.eyes.1.{axis}"], name=f"{at}/eyes.{n}.{axis}")
    found = w.work_out(
        f"{at}/range",
        tension_range,
        weight=f"{at}/hung",
        hook=f"{at}/hook-at",
        centre=f"{at}/centre",
        eyes=f"{at}/eyes",
    )
    greatest: tuple[Force, ...] = found.draws.greatest
    return greatest


def _near_turning(w: Workings, at: str, task: LiftTask) -> HeldMargin:
    """How near it is to turning over: a side pull that slackens a leg, or the depth under one or two eyes."""
    if len(task.legs) > 2:
        name = "hang.slackening_angle"
        margin = Margin("hang-angle", "", w[f"{at}/{name}"], w[f"{at}/near-turning"])
        return HeldMargin(margin, margin)
    low, high = task.drive.up.spread.ends()
    apart = math.dist(task.legs[0].eye, task.legs[-1].eye)
    wanted = max(high - low, NEAR_SHARE * apart, 1e-3)  # nearly two standard deviations either way
    centre = w[f"{at}/centre.z"]
    depth = min(leg.eye[2] for leg in task.legs) - centre.draws
    key = f"{centre.key}.depth"
    deep = Got(
        f"{at}/depth", KINDS["length"], depth, "computed", "eyes over the centre of gravity", key, (centre.name,)
    )
    need = Got(f"{at}/depth-wanted", KINDS["length"], np.full(w.count, wanted), "computed", "twice its spread, or a tenth of the eyes' distance", f"{key}.wanted", (centre.name,))  # fmt: skip
    w.got[deep.name], w.got[need.name] = deep, need
    margin = Margin("hang-angle", "", deep, need)
    return HeldMargin(margin, margin)


def _carries_all(likely: Workings, held: Workings, at: str, task: LiftTask) -> list[PartHeld]:
    """Hoist, hook, ring."""
    made = []
    for n, part in enumerate(task.hoist.parts if task.hoist else (), 1):
        if part.limit is None:
            made.append(PartHeld(part, "", None, f"{at}/part-{n}"))
            continue
        pair = [Margin("rig", part.name, w[f"{at}/part-{n}"], w[f"{at}/asked"]) for w in (likely, held)]
        made.append(PartHeld(part, "", HeldMargin(*pair), f"{at}/part-{n}"))
    return made


def _of_legs(likely: Workings, held: Workings, at: str, task: LiftTask) -> list[PartHeld]:
    """Parts of the legs; the same part in several legs stands once, where it is asked most."""
    made: dict[tuple[object, ...], PartHeld] = {}
    for n, leg in enumerate(task.legs, 1):
        for m, part in enumerate(leg.parts, 1):
            key = (part.name, part.limit.spread if part.limit else None, part.factor)
            margin = None
            if part.limit is not None:
                margin = HeldMargin(*(_leg_part(w, at, leg.name, n, m, part) for w in (likely, held)))
            here = PartHeld(part, leg.name, margin, f"{at}/leg-{n}-part-{m}")
            before = made.get(key)
            made[key] = here if before is None else replace(_weaker(before, here), where=f"{before.where}, {leg.name}")
    return list(made.values())


def _weaker(one: PartHeld, other: PartHeld) -> PartHeld:
    """The one with the lesser margin."""
    if one.margin is None or other.margin is None:
        return one if one.margin is None else other
    return one if one.margin.at(0.05) <= other.margin.at(0.05) else other


def _leg_part(w: Workings, at: str, leg: str, n: int, m: int, part: Part) -> Margin:
    asked = w.work_out(
        f"{at}/leg-{n}-asked", leg_load, pull=f"{at}/leg-{n}-most", weight=f"{at}/hung", mass=f"{at}/lifted",
        handling=f"{at}/handling",
    )  # fmt: skip
    holds = w.work_out(
        f"{at}/leg-{n}-holds-{m}", part_holds, straight=f"{at}/leg-{n}-part-{m}", hitch=f"{at}/leg-{n}-factor-{m}"
    )
    return Margin("rig", f"{leg}: {part.name}", holds, asked)


def _tips(likely: Workings, held: Workings, at: str, task: LiftTask) -> HeldMargin | None:
    """A shop hoist on castors; one that hangs from a beam or a loader does not tip by itself."""
    hoist = task.hoist
    if hoist is not None and not hoist.rolls:
        still = Margin("hoist-tip", "", likely[f"{at}/once"], likely[f"{at}/no-share"])
        return HeldMargin(still, still)
    if hoist is None or None in (hoist.mass, hoist.centre, hoist.wheelbase, hoist.hook):
        return None
    pair = []
    for w in (likely, held):
        w.work_out(
            f"{at}/hoist", hoist_loads, hoist=f"{at}/hoist-mass", hoist_centre=f"{at}/hoist-centre",
            wheelbase=f"{at}/castors", load=f"{at}/asked", hook=f"{at}/hook",
        )  # fmt: skip
        pair.append(Margin("hoist-tip", "", w[f"{at}/hoist.margin"], w[f"{at}/once"]))
    return HeldMargin(*pair)


def weakest(parts: Iterable[PartHeld]) -> PartHeld | None:
    """The part with the least margin at its careful end."""
    read = [one for one in parts if one.margin is not None]
    return min(read, key=lambda one: one.margin.at(0.05) if one.margin else math.inf, default=None)


def most_mass(made: Lifting) -> float | None:
    """Mass of the drive at which the weakest of hoist and slings meets its limit; None without a tag read [kg]."""
    limits = []
    besides = made.heaviest("besides")
    for one in made.parts:
        if one.margin is None:
            continue
        times, whole = one.margin.at(0.05), made.heaviest() + besides
        limits.append(times * whole - besides)  # loads go with drive and slings together
    return min(limits, default=None)
