"""The figures of the Wheel and lift sheet: the drive on the hook from two sides, or in its saddle on the forks."""

from __future__ import annotations

import math

from axlewright.plan.reckon.lifting import Lifting
from axlewright.plan.sheet.held import Told
from axlewright.sheets import Figure, Section, Shown, Text, text
from axlewright.sheets.figures import lift as figure
from axlewright.sheets.figures.drive_side import Drive

LEVEL = 0.25  # degrees, less than a phone shows

SOME_REACH = 0.7  # m, to draw it while nobody measured


def degrees(told: Told, made: Lifting, name: str, *, size: bool = False, digits: int = 2) -> Shown:
    """An angle of the hang: its middle."""
    got = f"{made.at}/{name}"
    si = made[name].middle()
    return told.input(got, si=abs(si) if size else si, digits=digits if abs(math.degrees(si)) >= 1 else 1)


def on_the_hook(told: Told, made: Lifting) -> tuple[Section, Section]:
    """As it will hang, from the side and from the wheel end."""
    hang = _hang(told, made)
    scale = hang.scale()
    aside = f"1:{scale:g}"
    chains = [leg for leg in made.task.legs if not leg.hoist]
    strap = next((leg for leg in made.task.legs if leg.hoist), made.task.legs[-1])
    side = {
        "face": text("mounting face"),
        "wheel": text("wheel end"),
        "tilt": text("axis ", degrees(told, made, "lies.end_up", size=True), _up(made, "lies.end_up", "up", "down")),
        "along": text(_length(told, made, "strap-along", strap.eye[0])),
        "height": text(_length(told, made, "hook-over-strap", hang.hook + hang.centre[2] - strap.eye[2])),
    }
    end: dict[str, Text] = {
        "roll": _roll(told, made),
    }  # fmt: skip
    if len(chains) > 1:
        apart = max(leg.eye[1] for leg in chains) - min(leg.eye[1] for leg in chains)
        if apart > 0.01:
            end["apart"] = text(_length(told, made, "eyes-apart", apart))
    return (
        Section(
            heading="From the side",
            aside=aside,
            blocks=(
                Figure(
                    drawing=figure.hook(hang, side, scale),
                    twin=figure.hang_words(hang, {**side, **end}),
                    caption=text("As it will hang: hook straight over the centre of gravity."),
                ),
            ),
        ),
        Section(
            heading="From the wheel end",
            aside=aside,
            place="right",
            blocks=(
                Figure(
                    drawing=figure.wheel_end(hang, end, scale),
                    caption=text("Level needs two angles: the axis, and the turn about it."),
                ),
            ),
        ),
    )


def _up(made: Lifting, name: str, up: str, down: str) -> str:
    return f" {up if made[name].middle() >= 0 else down}"


def _roll(told: Told, made: Lifting) -> Text:
    """How it is turned about its axis."""
    if abs(math.degrees(made["lies.side_up"].middle())) < LEVEL:
        return text("sides level")
    angle = degrees(told, made, "lies.side_up", size=True)
    return text("right side ", angle, _up(made, "lies.side_up", "high", "low"))


def _length(told: Told, made: Lifting, name: str, metres: float) -> Shown:
    return told.own(
        f"{made.at}/drawn/{name}", "length", abs(metres), "places of eyes and hook, at the middle", digits=3
    )


def _hang(told: Told, made: Lifting) -> figure.Hang:
    """How it hangs, at the middle of all draws."""
    drive = made.task.drive
    centre = (made["centre.x"].middle(), made["centre.y"].middle(), made["centre.z"].middle())
    legs = []
    for n, leg in enumerate(made.task.legs, 1):
        pull = pull_mass(told, made, n)
        angle = text(degrees(told, made, f"leg-{n}-angle")) if leg.hoist else ()
        legs.append(figure.Leg(leg.name, leg.eye, text(f"{leg.name} ", pull), "hoist" if leg.hoist else "chain", angle))
    return figure.Hang(
        centre=centre,
        hook=made["hang.drop"].middle(),
        legs=tuple(legs),
        tilt=math.degrees(made["lies.end_up"].middle()),
        roll=-math.degrees(made["lies.side_up"].middle()),  # clockwise from the wheel end, so right side low
        drive=Drive(flange=drive.flange, length=drive.length),
    )


def pull_mass(told: Told, made: Lifting, n: int) -> Shown:
    """The pull in a leg as a mass, the likely one."""
    got = f"{made.at}/leg-{n}-pull"
    told.likely.keep(got)
    mass = made[f"leg-{n}-pull"].middle() / 9.80665
    return told.own(f"{got}/mass", "mass", mass, "pull over g, hanging still", made_of=(got,), digits=2)


def in_the_saddle(told: Told, made: Lifting) -> Section:
    """The drive on pallet forks."""
    task = made.task
    drive = task.drive
    centre = (made["centre.x"].middle(), made["centre.y"].middle(), made["centre.z"].middle())
    known = task.reach is not None
    one = figure.Saddle(
        reach=made["reach"].middle() if known else SOME_REACH,
        height=task.fork_height,
        fork=task.loader.fork if task.loader else 1.2,
        centre=centre,
        drive=Drive(flange=drive.flange, length=drive.length),
    )
    scale = one.scale()
    words = {
        "load": text(told.own(f"held/{made.at}/drive", "mass", made.heaviest(), "the careful end", made_of=(told.keep_held("mass", made.held, f"{made.at}/drive-mass"),), digits=3, toward="up")),
        "height": text(_length(told, made, "fork-height", task.fork_height)),
    }  # fmt: skip
    if known:
        words["reach"] = text(told.input(f"{made.at}/reach", digits=3))
    return Section(
        heading="On pallet forks, in a saddle",
        aside=f"from the side, 1:{scale:g}" if known else "not to scale: reach not known",
        blocks=(
            Figure(
                drawing=figure.saddle(one, words, scale),
                caption=text("Timber saddle under body and flange, strapped to the forks, low, backing straight out."),
            ),
        ),
    )
