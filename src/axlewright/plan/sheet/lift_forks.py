"""What the Wheel and lift sheet says and draws of forks: the wheel on them, the drive, what they carry farther out."""

from __future__ import annotations

from typing import Literal

from axlewright.plan.reckon.lift_trials import Forked, carried, forks_break
from axlewright.plan.reckon.lifting import Lifting
from axlewright.plan.sheet.held import Told, refusal, times
from axlewright.plan.sheet.lift_words import CALLS, heaviest
from axlewright.sheets import Figure, Note, Run, Section, Text, Values, text
from axlewright.sheets.figures import forks as figure

APART = (
    0.6,
    1.0,
)  # of the wheel's radius: from how far apart to how far the forks lie under it; docs/engines/holding.md
LOW = 0.25  # m, forks over the ground while they carry
FIND = {
    "wheel-mass": "Weigh the wheel",
    "drive-mass": "Weigh the drive",
    "besides": "Weigh saddle and straps",
    "reach": "Tape fork face to drive",
    "standoff": "Tape fork face to wheel",
    "wheel-width": "Tape the tyre’s width",
    "wheel-diameter": "Tape the tyre’s height",
    "tipping-line": "Tape front axle to fork face",
    "rated-centre": "Read the plate’s load centre",
}


def the_wheel(told: Told, made: Lifting) -> Section | None:
    """The wheel on the forks, to scale."""
    task, at = made.task, made.at
    if task.wheel is None:
        return None
    width, diameter, standoff = (made[name].middle() for name in ("wheel-width", "wheel-diameter", "standoff"))
    apart = figure.gap_for(diameter, sum(APART) / 2)
    one = figure.WheelOnForks(
        standoff=standoff,
        width=width,
        diameter=diameter,
        sunk=0.0 if task.wheel.crosswise else figure.sunk_in(diameter, apart),
        crosswise=task.wheel.crosswise,
        fork=task.loader.fork if task.loader else 1.2,
        height=LOW,
    )
    scale = one.scale()
    words = {
        "load": text(heaviest(told, made, "wheel-mass")),
        "diameter": text(told.input(f"{at}/wheel-diameter", digits=3)),
    }
    if f"{at}/wheel-centre" in made.likely:
        words["centre"] = text(told.input(f"{at}/wheel-centre", digits=3))
    least, most = (
        told.own(f"{at}/forks-apart/{n}", "length", figure.gap_for(diameter, share), "0.6 to 1.0 of the wheel’s radius, common practice, no source", made_of=(f"{at}/wheel-diameter",), digits=2)
        for n, share in (("least", APART[0]), ("most", APART[1]))
    )  # fmt: skip
    lies: Text = ("Lying along the forks it is chocked both sides",) if task.wheel.crosswise else ("It lies between the forks, ", least, " to ", most, " apart")  # fmt: skip
    return Section(
        heading="The wheel on the forks",
        aside=f"from the side, 1:{scale:g}",
        blocks=(
            Figure(
                drawing=figure.wheel_on(one, words, scale),
                caption=text(*lies, ", chained to the carriage above its middle. Backing straight out."),
            ),
        ),
    )


def by_load_centre(told: Told, made: Lifting) -> Section | None:
    """What the forks carry by how far out the load lies, and wheel and drive under that line."""
    line, at = carried(made), made.at
    if not line or made.task.loader is None:
        return None
    plate = told.input(f"{at}/rated", digits=3)
    centre = told.input(f"{at}/rated-centre", digits=3)
    loads = []
    for name, where, mass, margin in (("wheel", "wheel-centre", "wheel-asked", made.wheel), ("drive", "reach", "forks.load", made.forks)):  # fmt: skip
        if margin is None:
            continue
        asked = made.held[f"{at}/{mass}"].ends()[1]
        of = told.keep_held("mass", made.held, f"{at}/{mass}")
        shown = told.own(f"held/{at}/{name}/asked", "mass", asked, "at the careful end, with the loader’s 1.3", made_of=(of,), digits=3, toward="up")  # fmt: skip
        told.likely.keep(f"{at}/{where}")
        loads.append(figure.Load(made[where].middle(), asked, text(f"{name} ", shown)))
    if not loads:
        return None
    drawing = figure.carries(figure.Carries(line, text("the plate: ", plate), text("at ", centre), made["rated-centre"].middle()), loads)  # fmt: skip
    return Section(
        heading="What the forks carry, farther out",
        aside="asked with the loader’s 1.3",
        place="right",
        blocks=(Figure(drawing=drawing, caption=text("Left to right: fork face to the load’s middle. Under the line it holds.")),),
    )  # fmt: skip


def _broken_by(told: Told, made: Lifting, what: Forked) -> Text:
    """The one unknown that could break the hold of the forks, and from which value on."""
    found = forks_break(made, what)
    if found is None:
        return text("None of the guesses alone breaks it.")
    name = f"held/{made.at}/{what}/breaks-at"
    kind = made.likely.quantities[f"{made.at}/{found.name}"].kind.name
    toward = "down" if found.more else "up"
    value = told.own(name, kind, found.at, "where the forks meet their limit, all else at its careful end", digits=3, toward=toward)  # fmt: skip
    if found.settles:
        return text(f"{FIND[found.name]}: it passes with {'at most' if found.more else 'at least'} ", value, ".")
    return text(f"{FIND[found.name]}: {'over' if found.more else 'under'} ", value, " the loader is too small.")


def wheel_on_forks(told: Told, made: Lifting, place: Literal["left", "right"] = "left") -> Section | None:
    """The wheel on the loader's forks, in a line or two."""
    if made.task.wheel is None:
        return None
    heading, aside = "Wheel on forks", "heaviest"
    if "wheel" in made.refused:
        return Section(heading=heading, place=place, blocks=(refusal(made.refused["wheel"], CALLS),))
    at = made.at
    mass = told.input(f"{at}/wheel-mass", with_basis=True, digits=3)
    rows: list[tuple[Text, Text]] = [
        (text("wheel"), text(mass)),
        (text("heaviest"), text(heaviest(told, made, "wheel-mass"))),
    ]
    if made.wheel is None:
        rows.append((text("loader holds"), text(Run(voice="must", words=("its plate is not read",)))))
    else:
        centre = told.input(f"{at}/wheel-centre", digits=3, with_basis=True)
        allowed = told.own(f"held/{at}/wheel-allowed", "mass", made.held[f"{at}/wheel-allowed"].ends()[0], "at the careful end", made_of=(told.keep_held("mass", made.held, f"{at}/wheel-allowed"),), digits=3, toward="down")  # fmt: skip
        rows += [
            (text("load centre"), text(centre)),
            (text("loader carries there"), text(allowed)),
            (text("holds"), text(Run(voice="strong", words=(times(made.wheel.at(0.05)),)), Run(voice="soft", words=(f" likely {times(made.wheel.at(0.5))}",)))),
        ]  # fmt: skip
    note = (Note(words=_broken_by(told, made, "wheel"), size="small"),) if made.wheel is not None else ()
    return Section(heading=heading, aside=aside, place=place, blocks=(Values(rows=tuple(rows)), *note))


def drive_on_forks(told: Told, made: Lifting) -> Section:
    """The drive on the loader's forks."""
    heading = "What holds, and what could break it"
    if "forks" in made.refused:
        return Section(heading=heading, place="right", blocks=(refusal(made.refused["forks"], CALLS),))
    at = made.at
    rows: list[tuple[Text, Text]] = [
        (text("drive, drained"), text(told.input(f"{at}/drive-mass", with_basis=True, digits=3))),
        (text("heaviest"), text(heaviest(told, made))),
    ]
    words: Text = ()
    if made.forks is None:
        rows.append((text("forks hold"), text(Run(voice="must", words=("plate or reach is not known",)))))
    else:
        allowed = made.held[f"{at}/forks.allowed"].ends()[0]
        keep = told.keep_held("mass", made.held, f"{at}/forks.allowed")
        asked = told.keep_held("mass", made.held, f"{at}/forks.load")
        rows += [
            (text("forks carry there"), text(told.own(f"held/{at}/forks-allowed", "mass", allowed, "at the careful end", made_of=(keep,), digits=3, toward="down"))),
            (text("asked, with saddle and 1.3"), text(told.own(f"held/{at}/forks-asked", "mass", made.held[f"{at}/forks.load"].ends()[1], "at the careful end", made_of=(asked,), digits=3, toward="up"))),
            (text("holds"), text(Run(voice="strong", words=(times(made.forks.at(0.05)),)), Run(voice="soft", words=(f" likely {times(made.forks.at(0.5))}",)))),
        ]  # fmt: skip
        words = _broken_by(told, made, "drive")
    blocks: tuple[Values | Note, ...] = (
        Values(rows=tuple(rows)),
        *((Note(words=words, size="small"),) if words else ()),
    )
    return Section(heading=heading, aside="heaviest", place="right", blocks=blocks)
