"""The figures of the Support sheet: the machine from above on its three points, and the crib from the front."""

from __future__ import annotations

import math

from axlewright.engines.holding.layouts import Layout
from axlewright.plan.sheet.support_words import Say
from axlewright.sheets import Figure, Note, Section, Shown, Text, text
from axlewright.sheets.figures import crib as crib_figure
from axlewright.sheets.figures import support as figure
from axlewright.sheets.figures.machine import KINDS

DRAWN_AS = {"large-combine": "walker-combine", "very-large-combine": "walker-combine"}

LONGEST_PLAN = 60.5  # mm on paper, front axle to pivot
TALLEST_CRIB = 50.5  # mm on paper


def on_three_points(say: Say) -> Section:
    """The machine from above at the stage where the crib carries most, the centre of gravity at its heaviest."""
    stance = stance_of(say)
    scale = _plan_scale(stance)
    foot = figure.nearest_edge(stance)
    told = {
        "track": _mm(say, "track", stance.track),
        "wheelbase": _mm(say, "wheelbase", stance.wheelbase),
        "to-support": _mm(say, "to-support", abs(stance.supports[0].at[1] - stance.supports[1].at[1])),
        "to-wheel": _mm(say, "to-wheel", stance.track / 2 - abs(stance.supports[1].at[1])),
        "centre": _mm(say, "centre", abs(stance.centre[0])),
        "least": _mm(say, "least", math.dist(stance.centre, foot), toward="down"),
    }
    drawing = figure.plan(stance, told, scale)
    return Section(
        heading="Standing on three points",
        aside=f"from above, 1:{scale:g}",
        blocks=(
            Figure(
                drawing=drawing,
                twin=(*figure.plan_words(stance), text("Least distance of the centre of gravity to an edge: ", *told["least"])),
            ),
        ),
    )  # fmt: skip


def _plan_scale(stance: figure.Stance) -> float:
    """The largest of the usual scales at which the machine is neither wider than its field nor longer than the page allows."""
    wide = figure.scale_for(stance)
    return next((s for s in figure.SCALES if s >= wide and stance.wheelbase * 1e3 / s <= LONGEST_PLAN), 100.0)


def _mm(say: Say, name: str, metres: float, toward: str = "nearest") -> Text:
    return text(say.length(f"held/{say.at}/drawn/{name}", metres, toward=toward, digits=_digits(metres)))


def _digits(metres: float) -> int:
    """Digits that leave whole millimetres, or whole centimetres from a metre up."""
    return 2 if metres < 0.1 else 3


def stance_of(say: Say) -> figure.Stance:
    """What stands where, in the held workings of the heaviest corner."""
    made, at = say.made, say.at
    holding = made.holding
    held = holding.held["corner"]
    stage = made.governing
    side = 1.0 if made.inputs.corner.endswith("left") else -1.0

    def middle(name: str) -> float:
        return held[f"{at}/{name}"].middle()

    track, wheelbase = middle("track"), middle("wheelbase")

    def at_corner(place: str) -> tuple[float, float]:
        return (middle(f"{place}-ahead"), side * (track / 2 - middle(f"{place}-inboard")))

    kind = "stand" if made.inputs.rests_on == "stand" else "crib"
    jack = max((s for s in ("jack-takes-it", "raised")), key=lambda name: holding.load(name)[1])
    built = made.cribbed.layouts[0] if made.cribbed.layouts else None
    return figure.Stance(
        machine=drawn_as(made.inputs.kind),
        corner=made.inputs.corner,
        track=track,
        wheelbase=wheelbase,
        supports=(
            figure.Stands("wheel", (0.0, -side * track / 2), text(say.mass(stage.name, "other_wheel"))),
            figure.Stands(kind, at_corner("crib"), text(say.mass(stage.name))),  # type: ignore[arg-type]
            figure.Stands("pivot", (-wheelbase, 0.0), text(say.mass(stage.name, "rear_pivot"))),
        ),
        centre=(middle("bare.x"), side * middle("bare.y")),
        jack=figure.Stands("jack", at_corner("jack"), text(say.mass(jack))),
        plate=(made.inputs.plate.across, made.inputs.plate.along),
        **_crib(say, built),  # type: ignore[arg-type]
    )


def drawn_as(kind: str) -> str:
    """The outline that a kind of machine is drawn with."""
    found = DRAWN_AS.get(kind, kind)
    return found if found in KINDS else "walker-combine"


def _crib(say: Say, built: Layout | None) -> dict[str, object]:
    if built is None:
        return {}
    timber = say.made.inputs.timber[built.crossing_timber]
    return {"crib": (timber.length, timber.width), "pieces": (built.crossing_pieces, built.along_pieces)}


def crib(say: Say) -> Section:
    """The crib from the front, or why there is none."""
    made = say.made
    if made.inputs.rests_on == "stand":
        return _stand(say)
    if not made.cribbed.layouts:
        return Section(heading="Crib", place="right", blocks=(Note(words=text(no_crib(say))),))
    built, plate = made.cribbed.layouts[0], made.inputs.plate
    timber = made.inputs.timber[built.crossing_timber]
    one = crib_figure.Crib(
        layers=built.tiers,
        length=timber.length,
        width=timber.width,
        height=timber.depth,
        inner=timber.length - 2 * float(built.overhang),
        plate=(plate.across, plate.thick),
        packer=float(built.packers),
        on_end=built.crossing_pieces,
        across=built.along_pieces,
        first_on_end=bool(built.first_crosses),
    )
    basis = made.inputs.timber_basis

    def mm(name: str, metres: float, source: str = "from the timber’s own measures") -> Shown:
        return say.told.own(f"{say.at}/crib/{name}", "length", metres, source, basis=basis if name in {"length", "width", "depth"} else "computed", digits=_digits(metres))  # fmt: skip

    load = say.force(f"held/{say.at}/crib/load", made.cribbed.load, "up")
    told: dict[str, Text] = {
        "load": text(load, " = ", say.mass(made.governing.name)),
        "plate": text("plate ", mm("plate", plate.thick)),
        "packer": text("packer ", mm("packer", float(built.packers))),
        "length": text(mm("length", timber.length, "as told or taped")),
        "inner": text(mm("inner", one.inner)),
        "width": text(mm("width", timber.width, "as told or taped")),
        "stack": text(
            f"{built.tiers} × ", mm("depth", timber.depth, "as told or taped"), " = ", mm("stack", one.stack)
        ),
        "built": text(mm("built", one.built), " built"),
    }
    if built.packers < 0.001:
        told["plate"] = text("plate ", mm("plate", plate.thick))
        told.pop("packer")
    scale = next((s for s in crib_figure.SCALES if s >= crib_figure.scale_for(one) and one.built * 1e3 / s <= TALLEST_CRIB), 40.0)  # fmt: skip
    lie = crib_figure.elevation_words(one, {})[0]
    sizes = text(mm("plate-across", plate.across), " × ", mm("plate-along", plate.along))
    caption = text(*lie, ". The top one crosses the beam. Plate ", *sizes, " on it. Let down once, re-pack.")
    return Section(
        heading="Crib",
        aside=f"from the front, 1:{scale:g}",
        place="right",
        blocks=(
            Figure(drawing=crib_figure.elevation(one, told, scale=scale), twin=crib_figure.elevation_words(one, told), caption=caption),
        ),
    )  # fmt: skip


def _stand(say: Say) -> Section:
    made = say.made
    rating = say.told.input(f"{say.at}/stand-rating") if f"{say.at}/stand-rating" in made.holding.likely else None
    plate: Text = text("Its plate is not read.")
    if rating is not None:
        mass = say.told.own(f"{say.at}/stand-plate", "mass", rating.si / 9.80665, "load over g", made_of=(rating.name,))
        plate = text("One stand holds ", mass, " by its plate; asked ", say.mass(made.governing.name), ".")
    words = text(*plate, " Saddle shaped to the beam, lock home, base flat on slab or plate, nothing stacked on it or under it.")  # fmt: skip
    return Section(heading="Rated stand", place="right", blocks=(Note(words=words),))


def no_crib(say: Say) -> str:
    """Why no crib is drawn, and what would help."""
    if not say.made.inputs.timber:
        return "Timber not counted yet: width, depth, length and how many sound pieces of each."
    return (
        "No crib of this timber reaches the height on its own length, or there are too few pieces: "
        "longer timber, more of it, or a lower rise."
    )
