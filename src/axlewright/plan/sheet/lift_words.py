"""What the Wheel and lift sheet says: parts and their margins, how it hangs, the scale's bands, legs, the wheel on forks."""

from __future__ import annotations

import math

from axlewright.plan.reckon.lift_trials import SHORTER, Shortened, scale_marks, shortened
from axlewright.plan.reckon.lifting import Lifting, PartHeld, most_mass, weakest
from axlewright.plan.sheet.held import Told, refusal, times
from axlewright.plan.sheet.lift_figures import degrees
from axlewright.plan.steps.bands import NoBand
from axlewright.sheets import Bands, HoldPoint, Note, Run, Section, Shown, Table, Text, Values, text
from axlewright.sheets.blocks import Band, Column, Row

CALLS = {
    "drive-mass": "the drive’s mass", "wheel-mass": "the wheel’s mass", "besides": "the mass of slings and oil left in",
    "rated": "the loader’s rating", "rated-centre": "the rated load centre", "tipping-line": "front axle to fork face",
    "reach": "fork face to drive", "wheel-width": "the tyre’s width", "wheel-diameter": "the tyre’s diameter",
    "standoff": "fork face to wheel", "centre": "the drive’s centre of gravity", "legs": "the legs’ lengths and places",
    "hoist-mass": "the hoist’s mass", "hoist-centre": "the hoist’s own centre", "castors": "castor to castor", "hook": "castors to hook",
    "hang": "the legs’ lengths and places", "hung": "the drive’s mass", "forks": "the load on the forks",
}  # fmt: skip
TRIAL = (
    "Lift 20 to 50 mm off the stand. Every leg tight? Phone on the mounting face: both angles. "
    "Over 2° from this sheet: put it down, type it in."
)
LEVEL = 2.0  # degrees, for a plain spigot


def heaviest(told: Told, made: Lifting, name: str = "drive-mass") -> Shown:
    """Careful end of a mass, rounded up."""
    own = told.keep_held("mass", made.held, f"{made.at}/{name}")
    return told.own(f"held/{made.at}/{name}/end", "mass", made.heaviest(name), "the careful end", made_of=(own,), digits=3, toward="up")  # fmt: skip


def what_holds(told: Told, made: Lifting) -> Section:
    """Every part between drive and beam, weakest first; then what could break it."""
    if "hook" in made.refused:
        return Section(heading="What holds, and what could break it", blocks=(refusal(made.refused["hook"], CALLS),))
    rows = sorted(made.parts, key=lambda one: one.margin.at(0.05) if one.margin else -1.0)
    columns = (
        Column(heading="link", share=3.7),
        Column(heading="tag", to="right", share=2.9),
        Column(heading="holds", to="right", share=1.4),
        Column(heading="likely", to="right", share=1.4),
    )
    wheel = (_wheel_row(told, made),) if made.task.wheel and "wheel" not in made.refused else ()
    table = Table(columns=columns, rows=(*(_part(told, one) for one in rows), *wheel))
    return Section(
        heading="What holds, and what could break it",
        aside="heaviest",
        blocks=(table, Note(words=_breaks(told, made), size="small")),
    )


def _part(told: Told, one: PartHeld) -> Row:
    name = f"{one.where}: {one.part.name}" if one.where else one.part.name
    strong = Run(voice="strong", words=(name,))
    if one.margin is None or one.part.limit is None:
        return Row(cells=(text(strong), text(Run(voice="must", words=("not read",))), text("–"), ()))
    tag = _tag(told, one)
    return Row(
        cells=(
            text(strong),
            tag,
            text(Run(voice="strong", words=(times(one.margin.at(0.05)),))),
            text(Run(voice="soft", words=(times(one.margin.at(0.5)),))),
        )
    )


def _wheel_row(told: Told, made: Lifting) -> Row:
    """The wheel on the loader's forks, at its load centre."""
    mass = heaviest(told, made, "wheel-mass")
    name = text(Run(voice="strong", words=("forks, the wheel",)), " ", mass)
    if made.wheel is None:
        return Row(cells=(name, text(Run(voice="must", words=("not read",))), text("–"), ()))
    rated = told.input(f"{made.at}/rated", with_basis=True, digits=3)
    told.likely.keep(f"{made.at}/wheel-centre")
    return Row(
        cells=(
            name,
            text(rated),
            text(Run(voice="strong", words=(times(made.wheel.at(0.05)),))),
            text(Run(voice="soft", words=(times(made.wheel.at(0.5)),))),
        )
    )


def _tag(told: Told, one: PartHeld) -> Text:
    limit = told.input(one.limit, with_basis=True, digits=3)
    return text(limit) if not one.part.said else text(limit, f" × {one.part.factor:g}")


def _breaks(told: Told, made: Lifting) -> Text:
    """What is asked, and the one unknown that could break it."""
    task = made.task
    asked = told.own(f"held/{made.at}/asked", "mass", made.heaviest() + made.heaviest("besides"), "drive, and what hangs with it, at the careful end", made_of=(told.keep_held("mass", made.held, f"{made.at}/lifted"),), digits=3, toward="up")  # fmt: skip
    factor = made["handling"].middle()
    first = text("Asked: ", asked, f" and {factor:g} for how it is lifted. ")
    weak, limit = weakest(made.parts), most_mass(made)
    breaks: Text = text("No tag is read yet.")
    if weak is not None and limit is not None:
        shown = told.own(f"held/{made.at}/most", "mass", limit, "mass at which the weakest part meets its limit", digits=3, toward="down")  # fmt: skip
        if task.drive.mass.basis == "assumed":
            side = "over" if limit > made.heaviest() else "it passes only to"
            tail = f" the {weak.part.name} is too weak." if limit > made.heaviest() else "."
            breaks = text(f"its mass. Weigh it: {side} ", shown, tail)
        elif limit < made.heaviest():
            breaks = text(f"nothing more is wanted: the {weak.part.name} holds only to ", shown, ".")
        elif task.drive.oil is not None:
            oil = told.input(f"{made.at}/oil", digits=2)
            full = made.heaviest() + made["oil"].ends()[1]
            lead = "a full drive." if full > limit else "none of the guesses alone, nor a full drive."
            breaks = text(f"{lead} Oil is ", oil, " more: drained, seen?")
        else:
            breaks = text("none of the guesses alone.")
    return (*first, Run(voice="strong", words=("What could break it:",)), " ", *breaks)


def it_hangs(told: Told, made: Lifting) -> Section:
    """Both angles with their careful ends, and what a shorter leg does."""
    rows = (
        (text("axis, wheel end ", _way(made, "lies.end_up", "up", "down")), _angle(told, made, "lies.end_up")),
        (text("turned, right side ", _way(made, "lies.side_up", "high", "low")), _angle(told, made, "lies.side_up")),
    )
    blocks: list[Values | Note] = [Values(rows=rows)]
    change = shortened(made)
    if change:
        end = told.own(f"{made.at}/shorter/end", "angle", abs(change.end_up), "the hang reckoned again, all at the middle", digits=2)  # fmt: skip
        way = "lifts" if change.end_up >= 0 else "lowers"
        ten = told.own(f"{made.at}/shorter/by", "length", 0.010, "a choice", basis="assumed", digits=2)
        level = _level(told, made, change)
        blocks.append(Note(words=text(ten, f" shorter on leg {change.leg} {way} the wheel end by ", end, ". ", *level, "To slide onto studs the axis wants half a degree or better."), size="small"))  # fmt: skip
    return Section(heading="It hangs", aside="5 to 95 of a hundred draws", place="right", blocks=tuple(blocks))


def _level(told: Told, made: Lifting, change: Shortened) -> Text:
    """How much longer or shorter that leg must be to hang level, as far as it goes straight."""
    slope = made["lies.end_up"].middle()
    if abs(change.end_up) < 1e-4 or abs(math.degrees(slope)) < 0.5:
        return ()
    shorter = -slope / change.end_up * SHORTER
    if abs(shorter) > 0.15:
        return ()
    by = told.own(f"{made.at}/shorter/level", "length", abs(shorter), "as the last 10 mm, straight on", digits=1 if abs(shorter) < 0.1 else 2)  # fmt: skip
    return text("About ", by, f" {'shorter' if shorter > 0 else 'longer'} hangs the axis level. ")


def _way(made: Lifting, name: str, up: str, down: str) -> str:
    return up if made[name].middle() >= 0 else down


def _angle(told: Told, made: Lifting, name: str) -> Text:
    """Its size, then from how far one way to how far the other."""
    low, high = made[name].ends()
    up, down = ("up", "down") if name.endswith("end_up") else ("high", "low")
    ends = [
        told.own(f"{made.at}/{name}/{n}", "angle", abs(end), "careful end of the hang", made_of=(f"{made.at}/{name}",), digits=2 if abs(math.degrees(end)) >= 1 else 1, toward="up")
        for n, end in (("low", low), ("high", high))
    ]  # fmt: skip
    words = [up if end >= 0 else down for end in (low, high)]
    tenths = round(abs(math.degrees(made[name].middle())), 1)
    middle = degrees(told, made, name, size=True) if tenths else told.input(f"{made.at}/{name}", si=0.0, digits=1)
    strong = Run(voice="strong", words=(middle,))
    return text(strong, " (", ends[0], f" {words[0]} to ", ends[1], f" {words[1]})")


def scale(told: Told, made: Lifting) -> Section:
    """What the scale on the hook may show, in whole marks."""
    unit, step = made.task.scale
    try:
        marks = scale_marks(made)
    except NoBand as no:
        words = text(Run(voice="must", words=("No band.",)), f" {str(no).replace('jack, crib and ground', 'hoist and slings').replace('gauge', 'scale')}")  # fmt: skip
        return Section(heading="Scale on the hook", place="right", blocks=(Note(words=words),))
    kilos = 0.45359237 if unit == "lb" else 1.0

    def mark(name: str, count: int) -> Shown:
        whole = count * step
        return told.own(f"held/{made.at}/scale/{name}", "mass", whole * kilos, "bands of the scale, in whole marks", on_tool=unit, digits=max(len(str(int(whole))), 1), with_unit=False)  # fmt: skip

    from_, to, above = (mark(name, count) for name, count in zip(("from", "to", "above"), marks, strict=True))
    bands = (
        Band(reads=text(from_, " to ", to), means=text(Run(voice="strong", words=("go on",)))),
        Band(reads=text("to ", above), means=text(Run(voice="strong", words=("lower and ask",)), ": oil in it? still bolted?")),
        Band(reads=text("over ", above), means=text("lower now"), voice="must"),
    )  # fmt: skip
    note = text("Under the first figure ask too: is it free, is all of it on the hook?")
    return Section(heading="Scale on the hook", aside=unit, place="right", blocks=(Bands(bands=bands, note=note),))


def trial_lift() -> Section:
    """The hold point before it is carried anywhere."""
    hold = HoldPoint(lead="Trial lift.", words=text(TRIAL), lines=("axis, °", "turn, °", "scale"))
    return Section(heading="Trial lift", aside="hold point", blocks=(hold,))


def legs(told: Told, made: Lifting) -> Section:
    """Each leg: length, pull, angle from plumb."""
    rows = []
    for n, leg in enumerate(made.task.legs, 1):
        length = told.input(f"{made.at}/legs.{n}.length", with_basis=True, digits=3)
        pull = told.input(f"{made.at}/leg-{n}-pull", with_basis=True, digits=2)
        rows.append(Row(cells=(text(f"{leg.name} {leg.told}"), text(length), text(pull), text(degrees(told, made, f"leg-{n}-angle")))))  # fmt: skip
    mass = told.input(f"{made.at}/drive-mass", with_basis=True, digits=3)
    rows.append(Row(cells=(text("Drive, drained"), text(mass), (), ())))
    columns = (
        Column(heading="", share=3.4),
        Column(heading="length", to="right", share=2.2),
        Column(heading="pull", to="right", share=2.0),
        Column(heading="from plumb", to="right", share=1.4),
    )
    return Section(
        heading="Legs",
        aside="bearing point to bearing point",
        place="right",
        blocks=(Table(columns=columns, rows=tuple(rows)), Note(words=_forks_first(made), size="small", voice="soft")),
    )


def _forks_first(made: Lifting) -> Text:
    """Forks are the first choice where they reach."""
    head = "First choice where the forks reach: the drive in a timber saddle on pallet forks, strapped, under 0.3 m."
    if made.forks is None:
        return text(head)
    return text(f"{head} There they hold it {times(made.forks.at(0.05))}.")
