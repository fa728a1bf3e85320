"""The Fill and looks sheet: litres on the wood, level on the ground, brakes, the first move, and the looks that follow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from axlewright.plan.sheet.band_words import BandWords
from axlewright.plan.sheet.frame import Drawn, Frame, Number, Numbers
from axlewright.plan.sheet.measure import stay
from axlewright.plan.sheet.said import led, said
from axlewright.plan.sheet.steps import APART
from axlewright.plan.sheet.steps_page import in_columns, told_caution
from axlewright.plan.steps.afterwards import due, on_second_clock
from axlewright.plan.steps.bands import Edges, printed
from axlewright.sheets import (
    Boxes,
    Caution,
    Figure,
    HoldPoint,
    Lines,
    Note,
    Numbered,
    Section,
    Sheet,
    Table,
    Text,
    Values,
)
from axlewright.sheets.blocks import Block, Box, Column, Item, Line, Row
from axlewright.sheets.figures import level
from axlewright.trade.networks import Job
from axlewright.trade.steps import AfterCheck, Edge, Steps

HOUR = 3600.0
LINE = "______"  # to write a reading on
ROWS = 3
POUR = ("fi-plugs", "fi-pour", "fi-seen", "fi-turn", "fi-weep", "fi-gearbox")
BRAKES = ("fi-bleed", "fm-pedal", "fm-brake")
MOVE = ("fm-hold", "fm-creep", "fm-ten", "fm-nuts", "fm-road-hold", "fm-road")
CAUTIONS = ("no-oil-tag", "right-oil", "breather-out", "brake-feel", "no-road-yet")


@dataclass(frozen=True, slots=True)
class Clocks:
    """Both clocks as they stood at set-down [h]; the second with the greatest engine hours in one of its own."""

    engine: float
    second: float | None = None
    rate: float = 1.5


@dataclass(frozen=True, slots=True)
class FillFacts:
    """What the sheet is drawn from.

    Attributes:
        job: the job whose filling it is
        frame: title block
        checks: the after-checks it brings
        oil: kind of oil, as the book says
        fluid: kind of the brake's fluid
        litres: the fill
        turning_plug: the level plug turns with the wheel
        clocks: at set-down; None before it
        figures: known figures that bands are parts of, in the band's unit
        given: edges that engines or verdict rules gave, by name
        leak: what may be lost and when it is looked at again: name and words
    """

    job: Job
    frame: Frame
    checks: Sequence[AfterCheck]
    oil: str = ""
    fluid: str = ""
    litres: Number | None = None
    turning_plug: bool = False
    clocks: Clocks | None = None
    figures: Mapping[str, Edge] = field(default_factory=dict)
    given: Mapping[str, Edges] = field(default_factory=dict)
    leak: tuple[tuple[Text, Text], ...] = ()


def fill_sheet(rows: Steps, facts: FillFacts) -> Drawn:
    """The sheet of one page."""
    make = _Maker(rows, facts, Numbers())
    there = {s.task.id for s in facts.job.steps}
    sections = [make.pour(there), make.level()]
    if "fi-bleed" in there:
        sections.append(make.brakes(there))
    sections.append(make.move(there))
    if facts.leak:
        sections.append(Section(heading="What may be lost", blocks=(Values(rows=facts.leak),)))
    sections.append(make.after())
    sections.append(Section(heading="What must not be missed", blocks=tuple(map(make.caution, CAUTIONS))))
    frame = facts.frame
    head = frame.head("Fill and looks")
    sheet = Sheet(
        name="fill",
        head=head,
        answer=("By litres on the wood, by level on the ground.",),
        sections=in_columns(sections),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Fill and looks"),
        paper="dense",
    )
    return Drawn((sheet,), make.numbers.entries)


@dataclass(frozen=True, slots=True)
class _Maker:
    rows: Steps
    facts: FillFacts
    numbers: Numbers

    @property
    def place(self) -> dict[str, int]:
        """The number of each step on the step card."""
        return {s.task.id: n for n, s in enumerate((s for s in self.facts.job.steps if s.part not in APART), 1)}

    def pour(self, there: set[str]) -> Section:
        facts = self.facts
        litres: Text = (self.numbers.show(facts.litres, toward="nearest"),) if facts.litres else ("________ L",)
        hold = self.rows.task["fi-seen"]
        assert hold.hold
        return Section(
            heading="1. Pour, on the wood",
            aside="the level lies while the corner is raised",
            blocks=(
                Values(rows=((("oil",), (facts.oil or "________",)), (("the fill",), litres))),
                self.steps([t for t in POUR if t in there and t != "fi-seen"], there),
                Lines(lines=(Line(label="poured", unit="L"), Line(label="by"))),
                self.band("fi-litres", "fi-pour"),
                HoldPoint(
                    lead=f"{self.place[hold.id]}  {hold.title}.",
                    words=(*said(hold.hold.must, self.numbers), "."),
                    lines=("seen by",),
                ),
            ),
        )

    def level(self) -> Section:
        turns = "Creep until the cast mark stands level. " if self.facts.turning_plug else ""
        words = f"{turns}Fifteen minutes stood, breather out, engine off before the hand goes near."
        return Section(
            heading="2. Level, on the ground",
            aside="then the tag comes off the key",
            blocks=(
                Note(words=(words,)),
                Figure(drawing=level.card()),
                Lines(lines=(Line(label="oil below the plug", unit="mm"), Line(label="by"))),
                self.band("sd-level-mm", "sd-level"),
            ),
        )

    def brakes(self, there: set[str]) -> Section:
        return Section(
            heading="3. Brakes",
            aside=self.facts.fluid or "fluid: ________",
            blocks=(
                self.steps([t for t in BRAKES if t in there], there),
                Boxes(
                    lead="Pedal still firm after one minute",
                    boxes=(Box(words=("yes",)), Box(words=("no: bleed again",))),
                ),
                Lines(lines=(Line(label="pull to one side in a stop", unit="m"), Line(label="by"))),
                self.band("fm-pull", "fm-brake"),
            ),
        )

    def move(self, there: set[str]) -> Section:
        return Section(
            heading="4. First move",
            aside="only then the road",
            blocks=(
                self.steps([t for t in MOVE if t in there], there),
                Lines(lines=(Line(label="hub minus twin", unit="K"), Line(label="nuts that moved"), Line(label="by"))),
                self.band("fm-heat", "fm-ten"),
            ),
        )

    def after(self) -> Section:
        clocks = self.facts.clocks
        if clocks is None:
            return self.to_come()
        two = clocks.second is not None
        columns = [Column(heading="look", share=1.3), Column(heading="engine clock", share=1.3)]
        if two:
            columns.append(Column(heading="second clock", share=1.3))
        rows = tuple(Row(cells=((stay(c.look),), *self.readings(c))) for c in self.facts.checks)
        return Section(heading="5. Looks to come", blocks=(Table(columns=tuple(columns), rows=rows),))

    def to_come(self) -> Section:
        """The looks before the machine is set down: a line under each hour, to write the clock's reading on."""
        hours = sorted({h for check in self.facts.checks for h in check.hours})
        columns = (Column(heading="look", share=2.2), *(Column(heading=f"+ {h:g} h", share=1.0) for h in hours))
        rows = tuple(
            Row(cells=((stay(c.look),), *((LINE if h in c.hours else "",) for h in hours))) for c in self.facts.checks
        )
        says = "Add the hours to the clock at set-down and cut to whole ones; write the sum, never the hours."
        return Section(
            heading="5. Looks to come",
            aside="engine clock at set-down: ________",
            blocks=(Table(columns=columns, rows=rows), Note(words=(says,), size="small")),
        )

    def readings(self, check: AfterCheck) -> tuple[Text, ...]:
        """The clock readings of a check, on both clocks where there are two."""
        clocks = self.facts.clocks
        assert clocks is not None
        told = self.clock(check, due(check, clocks.engine), "engine")
        if clocks.second is None:
            return (told,)
        second = on_second_clock(check, clocks.engine, clocks.second, clocks.rate)
        return told, self.clock(check, second, "second")

    def clock(self, check: AfterCheck, readings: Sequence[float], which: str) -> Text:
        told: Text = ()
        for n, at in enumerate(readings, 1):
            number = Number(f"steps/after/{check.id}/{which}-{n}", "duration", at * HOUR, "computed", check.source)
            shown = self.numbers.show(
                number, on_tool="h", digits=len(f"{at:g}".replace(".", "")), with_basis=False, with_unit=False
            )
            told += (" · ", shown) if told else (shown,)
        return told

    def steps(self, tasks: Sequence[str], there: set[str]) -> Numbered:
        """Steps by their titles, with the numbers they have on the step card."""
        place = self.place
        shown = [self.rows.task[t] for t in tasks if t in there]
        items = []
        for t in shown:
            lead, first = led(t.title + ".", self.numbers)
            items.append(Item(number=str(place[t.id]), lead=lead, words=first))
        return Numbered(items=tuple(items))

    def band(self, reading: str, task: str) -> Block:
        row = self.rows.band[reading]
        cut = printed(row, self.facts.figures, self.facts.given)
        return BandWords(self.rows, self.numbers).block(self.rows.task[task], self.rows.reading[reading], row, cut)

    def caution(self, name: str) -> Caution:
        return told_caution(self.rows.caution[name], self.numbers)
