"""The ready card of a machine: what its corners need to be known before trouble comes, with a line for all that is not.

Made in winter, hung in the cab. It takes what was measured, read off a plate or out of the book; a guess of the trade is
no answer here and leaves its line blank.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from axlewright.plan.quantities_of import source_of
from axlewright.plan.sheet.frame import Basis, Drawn, Number, Numbers
from axlewright.plan.sheet.steps_page import in_columns
from axlewright.quantities import NotRead, read_spread
from axlewright.quantities.units import unit_for
from axlewright.sheets import Boxes, Day, Lines, Note, Run, Section, Sheet, Text, TitleBlock, text
from axlewright.sheets.blocks import Box, Line
from axlewright.sheets.figures.machine import CORNERS
from axlewright.trade.questions import Question, question
from axlewright.yard import Answer, Design, Machine, Stated, Yard
from axlewright.yard.hours import spell

LETTERS: dict[str, str] = {"book": "bk", "measured": "ms", "computed": "cp", "assumed": "as"}
MADE = "Winter, half an hour for two, axle slip apart: fill what stands blank, hang it in the cab."

WEIGHED = (("front axle, header off, tank empty", "machine/front-axle-mass"), ("rear axle", "machine/rear-axle-mass"))
SEAT = (
    ("lift point over the floor", "machine/lift-height"),
    ("jack point inboard of the wheel", "machine/jack-inboard"),
    ("jack point ahead of the axle", "machine/jack-ahead"),
    ("crib seat inboard of the wheel", "machine/crib-inboard"),
)
WHEEL = (
    ("tyre, off its wall", "wheel/tyre"),
    ("rim: one piece or split", "wheel/rim"),
    ("wheel nuts: how many", "nuts/count"),
    ("their thread, and key", "nuts/thread"),
    ("their torque, by the book", "nuts/torque"),
    ("dry or oiled, by the book", "nuts/state"),
    ("water in the tyre, low down", "wheel/ballast"),
)
FLANGE = (
    ("bolts: how many", "bolts/count"),
    ("thread", "bolts/thread"),
    ("head mark", "bolts/head-mark"),
    ("lock", "bolts/lock"),
    ("guide bushes in holes", "bolts/fitted"),
    ("a wrench reaches, wheel on", "bolts/wrench-reach"),
    ("book torque", "bolts/book-torque"),
    ("for threads that are", "bolts/book-grease"),
)
DRIVE = (
    ("how it is built", "drive/built"),
    ("mass, drained", "drive/mass"),
    ("input turns, five of the wheel", "drive/turns"),
    ("oil, kind", "oil/kind"),
    ("oil, amount", "oil/volume"),
    ("level plug: turns or stands", "drive/level-plug"),
    ("rock the book allows", "drive/rock-limit"),
    ("brake fluid", "brake/fluid"),
)
GEAR = (
    ("jack plate", "walk-round/jack-plate"),
    ("hoist plate", "hoist/plate"),
    ("loader plate", "loader/plate"),
    ("timber of one set: pieces", "walk-round/timber-count"),
    ("side", "walk-round/timber-side"),
    ("length", "walk-round/timber-length"),
    ("torque wrench, greatest", "wrench/greatest"),
)
TOW = (
    ("undone before a tow", "tow/undone"),
    ("how it steers then", "tow/steers"),
    ("greatest speed", "tow/speed"),
    ("ring, to fetch it", "help/ring"),
    ("emergency number", "help/emergency"),
    ("gate address", "help/gate"),
)


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of one question: as typed, how, and from where."""

    value: str
    basis: Basis
    source: str


def ready_cards(yard: Yard, machine: Machine, today: date) -> Drawn:
    """The ready card of a machine: a sheet for each design of drive at its corners."""
    designs: dict[str, list[str]] = {}
    for corner in machine.at_corners():
        drive = yard.drive_at(corner)
        designs.setdefault((drive.design or "") if drive else "", []).append(CORNERS[corner.place])
    numbers, sheets = Numbers(), []
    for name, places in designs.items():
        design = next((one for one in yard.designs if one.id == name), None)
        make = _Maker(yard, machine, design, places, today, numbers)
        sheets.append(make.sheet(len(designs) > 1))
    return Drawn(tuple(sheets), numbers.entries)


class _Maker:
    def __init__(
        self, yard: Yard, machine: Machine, design: Design | None, places: Sequence[str], today: date, numbers: Numbers
    ) -> None:
        self.yard, self.machine, self.design, self.places = yard, machine, design, places
        self.today, self.numbers, self.blank = today, numbers, 0

    def sheet(self, many: bool) -> Sheet:
        """The card of one design: it stands on one page of either paper."""
        sections = in_columns(
            (
                self._part("Weighed", "the slip kept", WEIGHED),
                self._part("Jack point and seat", "tape in the picture", SEAT, "photographed"),
                self._part("Wheel", "", WHEEL, "left-hand thread on this side"),
                self._part("Flange", "every bolt tried with a wrench", FLANGE, "photographed"),
                self._grease(),
                self._part("Drive", self.design.name if self.design else "", DRIVE),
                self._plugs(),
                self._part("Gear of the yard", "plates read", GEAR, "timber tied and painted"),
                self._part("Tow, and whom to ring", "the book’s page on towing", TOW),
                self._clocks(),
            )
        )
        where = " and ".join(self.places)
        kind = (self.machine.kind or "").replace("-", " ")
        corner = ", ".join(filter(None, (self.machine.name, kind, where)))
        name = "-".join(filter(None, ("ready-card", self.design.id if many and self.design else "")))
        return Sheet(
            name=name,
            head=text(Run(voice="strong", words=("Ready card",)), f" · {corner}"),
            answer=(self._answer(),),
            lead=(MADE,),
            sections=sections,
            block=TitleBlock(title="Ready card", corner=corner, on=self.today, yard=self.yard.title.name),
            paper="dense",
        )

    def _answer(self) -> str:
        if not self.blank:
            return "Every line is filled: hang it in the cab."
        return f"{self.blank} line{'s' if self.blank != 1 else ''} blank, to be filled in winter."

    def _part(self, heading: str, aside: str, asked: Sequence[tuple[str, str]], box: str = "") -> Section:
        lines = Lines(lines=tuple(self._line(label, name) for label, name in asked), stacked=True)
        boxes = (Boxes(boxes=(Box(words=(box,)),)),) if box else ()
        return Section(heading=heading, aside=aside, blocks=(lines, *boxes))

    def _line(self, label: str, name: str) -> Line:
        asked, known = question(name), self.known(question(name))
        if known is None:
            self.blank += 1
            return Line(label=label, unit=self._unit(asked))
        return Line(label=label, written=self._told(asked, known))

    def _unit(self, asked: Question) -> str:
        """The unit to write a blank in; nothing for a word or a bare number."""
        if not asked.kind or asked.kind in ("count", "share"):
            return ""
        return unit_for(asked.kind, self.yard.title.measures).symbol

    def known(self, asked: Question) -> Known | None:
        """What is known, but by a guess: the newest answer, else what the file of machine or design says."""
        if asked.of == "trouble" or (asked.of == "design" and self.design is None):
            return None
        thing = self.machine if asked.of == "machine" else self.design if asked.of == "design" else None
        machine = self.machine.id if asked.of == "machine" else None
        design = self.design.id if asked.of == "design" and self.design else None
        said: Answer | Stated | str | None = self.yard.answered(machine=machine, design=design).get(asked.id)
        if said is None and asked.field and thing is not None:
            said = getattr(thing, asked.field, None) or None
        if isinstance(said, str):
            said = Stated(value=said, basis="assumed")
        if said is None or (said.basis == "assumed" and asked.number):
            return None
        return Known(said.value, said.basis, source_of(said, thing))

    def _told(self, asked: Question, known: Known) -> Text:
        """The value, with how it is known: a number in the yard's own measures, a word as it was said."""
        if asked.kind and asked.kind not in ("count", "share"):
            try:
                spread = read_spread(known.value, asked.kind, self.yard.title.decimal)
            except NotRead:
                return (known.value,)
            name = f"{self.design.id if asked.of == 'design' and self.design else self.machine.id}/{asked.id}"
            number = Number(name, asked.kind, spread.middle(), known.basis, known.source)
            return (self.numbers.show(number, digits=4),)
        said = known.value.replace("-", " ") if asked.words() else known.value
        said = said.replace(" x ", " × ")  # of a thread
        return (said, Run(voice="soft", words=(f"\u00a0{LETTERS[known.basis]}",)))

    def _grease(self) -> Section:
        """The pair that is torqued to: grease and torque, filled from the Bolts sheet."""
        self.blank += 2
        lines = (
            Line(label="grease owned"),
            Line(label="torque with it", unit=self._unit(question("bolts/book-torque"))),
        )
        note = Note(
            words=("Never the book’s torque on a greased thread: the Bolts sheet gives the pair.",), size="small"
        )
        return Section(heading="Greased", aside="grease and torque, as a pair", blocks=(Lines(lines=lines), note))

    def _plugs(self) -> Section:
        """Plugs and breather, cracked loose in winter and nipped again."""
        self.blank += 3
        lines = (Line(label="level, key"), Line(label="drain, key"), Line(label="fill, key"))
        boxes = ("cracked loose, nipped", "magnet", "no magnet", "drain", "breather free")
        made = Boxes(boxes=tuple(Box(words=(one,)) for one in boxes))
        return Section(heading="Plugs and breather", blocks=(Lines(lines=lines), made))

    def _clocks(self) -> Section:
        lines = []
        for clock in self.machine.clocks:
            read = self.yard.clock_log(self.machine.id).readings(clock)
            told: Text = (f"{spell(read[-1][1].hours)} h, ", Day(on=read[-1][0])) if read else ()
            self.blank += not read
            lines.append(Line(label=f"{clock} clock", written=told, unit="" if read else "h"))
        self.blank += 1
        lines.append(Line(label="made by, on"))
        return Section(
            heading="Clocks", aside="as they were last read", blocks=(Lines(lines=tuple(lines), stacked=True),)
        )
