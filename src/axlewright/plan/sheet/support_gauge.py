"""What the jack's gauge may show while raising: bands in whole marks of it, or why there is none."""

from __future__ import annotations

import math

from axlewright.plan.sheet.support_words import Say
from axlewright.sheets import Bands, Note, Run, Section, Shown, text
from axlewright.sheets.blocks import Band


def gauge(say: Say) -> Section:
    """What the jack's gauge may show while raising, in whole marks."""
    made = say.made
    if made.marks is None or made.inputs.gauge is None:
        words = text(Run(voice="must", words=("No band.",)), f" {made.no_band}")
        return Section(heading="Gauge while raising", blocks=(Note(words=words),))
    tool = made.inputs.gauge
    from_, to, above = (_mark(say, name, marks) for name, marks in zip(("from", "to", "above"), made.marks, strict=True))  # fmt: skip
    bands = (
        Band(reads=text(from_, " to ", to), means=text(Run(voice="strong", words=("go on",)))),
        Band(
            reads=text("to ", above),
            means=text(Run(voice="strong", words=("lower and ask",)), ": header, tank, ballast?"),
        ),
        Band(reads=text("over ", above), means=text("lower now"), voice="must"),
    )
    likely = _likely(say)
    how = " Mean of up and down." if tool.both_ways else ""
    note = text("Likely ", likely, f".{how} Under the first figure ask too. A plan changes only while the load rests on wood.")  # fmt: skip
    return Section(
        heading="Gauge while raising", aside=f"{tool.unit}, whole marks", blocks=(Bands(bands=bands, note=note),)
    )


def _mark(say: Say, name: str, marks: int) -> Shown:
    tool = say.made.inputs.gauge
    assert tool is not None
    source = "gauge bands: load over the piston’s area, cut to whole marks"
    mark = tool.mark or 1.0
    digits = 1 if mark == int(mark) else 6  # never finer than its marks
    return say.told.own(f"held/{say.at}/gauge/{name}", "pressure", marks * tool.step, source, on_tool=tool.unit, digits=max(digits, len(str(int(marks * mark)))), with_unit=False)  # fmt: skip


def _likely(say: Say) -> Shown:
    """What the gauge will likely show when the tyre is just clear."""
    tool = say.made.inputs.gauge
    assert tool is not None
    area = math.pi / 4 * tool.bore.spread.middle() ** 2
    load = say.made.holding.load("jack-takes-it")[0]
    name = f"{say.at}/jack-takes-it.corner"
    say.told.likely.keep(name)
    return say.told.own(f"{say.at}/gauge/likely", "pressure", load / area, "load over the piston’s area", made_of=(name,), on_tool=tool.unit, digits=2, with_unit=False)  # fmt: skip
