"""The numbers of the Season room as they stand on its sheet: each with unit, ends, basis and source."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlewright.engines.season import DAY
from axlewright.plan.season_of import CropAhead, DayLost, MachineAhead, Three
from axlewright.plan.sheet.frame import Number, Numbers
from axlewright.quantities import Exact, Quantity
from axlewright.sheets import Day, Note, Run, Shown, Text, Values, text
from axlewright.sheets.blocks import Block
from axlewright.trade.seasons import Climate
from axlewright.yard import Yard

LOST = "every drawn season gone through with that day taken out: what waits longer past its best, and what is never cut (ASABE D497; docs/engines/season.md)"  # fmt: skip
DRAWN = "2,048 seasons drawn with one weather for all machines; docs/engines/season.md"
RUNS = "area over rate; docs/engines/season.md"
HIRED = "hire above own running, times a good day’s area"
TWIN_DAYS = 6  # dates of a curve that its words say


class Told:
    """Numbers of one sheet."""

    def __init__(self, yard: Yard, today: date, numbers: Numbers) -> None:
        self.yard, self.today, self.numbers = yard, today, numbers

    def typed(self, one: Quantity, *, digits: int = 3, basis: bool = True) -> Shown:
        """A number as typed or taken, with its ends where it has any."""
        low, high = (None, None) if isinstance(one.spread, Exact) else (float(one.spread.at(0.1)), float(one.spread.at(0.9)))  # fmt: skip
        number = Number(one.name, one.kind.name, one.spread.middle(), one.basis, one.source, low, high)
        return self.numbers.show(number, digits=digits, ends=basis and low is not None, with_basis=basis)

    def area(self, crop: CropAhead) -> Shown:
        return self.typed(crop.numbers["area"], basis=False)

    def three(self, name: str, kind: str, of: Three, source: str, *, digits: int = 2, ends: bool = True) -> Shown:
        number = Number(name, kind, of[1], "computed", source, of[0], of[2])
        return self.numbers.show(number, digits=digits, ends=ends, with_basis=ends)

    def lost(self, one: MachineAhead, day: DayLost | None = None, *, ends: bool = True) -> Shown:
        """What a lost day costs: the next one, or that of a day."""
        at = day or one.next_day
        name = f"season/{one.machine.id}/lost/{at.on.isoformat()}"
        return self.three(name, "money", (at.low, at.middle, at.high), LOST, ends=ends)

    def hired(self, one: MachineAhead, *, ends: bool = False) -> Shown:
        assert one.hired is not None
        return self.three(f"season/{one.machine.id}/hired", "money", one.hired, HIRED, ends=ends)

    def hours(self, crops: Sequence[CropAhead]) -> Text:
        """Machine hours still to run in these crops."""
        name = f"season/{crops[0].work.machine}/runs"
        low, middle, high = (sum(one.left[n] for one in crops) for n in range(3))
        return (self.three(name, "duration", (low, middle, high), RUNS, ends=False),)

    def finish(self, one: MachineAhead) -> Text:
        """When the last crop is off, with its ends."""
        low, middle, high = one.finish
        if middle is None:
            return text(Run(voice="must", words=("not by ", Day(on=one.ends))))
        return text(Day(on=middle), " (", *((Day(on=low),) if low else ()), " to ", *((Day(on=high),) if high else ("not by its end",)), ")")  # fmt: skip

    def days(self, one: MachineAhead) -> tuple[Text, ...]:
        """The curve in words, a date each so often."""
        step = max(len(one.days) // TWIN_DAYS, 1)
        return tuple(text(Day(on=day.on), ": ", self.lost(one, day), " for a lost day.") for day in one.days[::step])

    def values(self, one: MachineAhead) -> tuple[Block, ...]:
        """What is known of a machine's season, line by line."""
        blocks: list[Block] = []
        for crop in one.crops:
            if len(one.crops) > 1:
                blocks.append(Note(words=text(Run(voice="strong", words=(crop.row.label,)))))
            blocks.append(Values(rows=tuple(self._crop(crop))))
        rows: list[tuple[Text, Text]] = [
            (text("a lost day, ", Day(on=one.begins)), text(self.lost(one))),
            (text("days that can be worked"), text(self._workable(one), f" of {(one.ends - one.begins).days + 1}")),
            (text("all off"), self.finish(one)),
            (text("not through at its end"), _in_hundred(one.late)),
        ]
        if one.hired:
            rows.append((text("a hired machine, a day"), text(self.hired(one, ends=True))))
        return (*blocks, Values(rows=tuple(rows)))

    def _crop(self, crop: CropAhead) -> list[tuple[Text, Text]]:
        work, numbers = crop.work, crop.numbers
        whole = f" of {work.area.value}" if work.done else ""
        name = f"{crop.name}/runs"
        return [
            (text("still to cut"), text(self.typed(numbers["area"]), whole)),
            (text("ripe, lost after"), text(Day(on=work.starts), ", ", Day(on=work.ends))),
            (text("cuts"), text(self.typed(numbers["rate"]))),
            (text("on a good day"), text(self.typed(numbers["hours"], digits=2))),
            (text("runs in it"), text(self.three(name, "duration", crop.left, RUNS))),
            (text(f"brings, {self.yard.title.currency}"), text(self.typed(numbers["worth"]))),
            (text("loses once it waits"), self._loss(crop)),
            *(
                [(text(f"hired, above own, {self.yard.title.currency}"), text(self.typed(crop.hire)))]
                if crop.hire
                else []
            ),
            *([(text("another of ours that can"), text(self.yard.machine(work.second).name))] if work.second else []),
        ]

    def _loss(self, crop: CropAhead) -> Text:
        """The share of it that a day of waiting takes, at first."""
        one = crop.numbers["loss"]
        low, middle, high = (float(one.spread.at(at)) * DAY for at in (0.1, 0.5, 0.9))
        number = Number(f"{crop.name}.loss-a-day", "share", middle, one.basis, one.source, low, high)
        return self.numbers.show(number, on_tool="%", digits=2, ends=True), " a day"

    def _workable(self, one: MachineAhead) -> Shown:
        name = f"season/{one.machine.id}/workable"
        return self.three(name, "count", one.workable, DRAWN, ends=True)

    def climate(self, row: Climate) -> tuple[Block, ...]:
        """The weather of a window, in words and numbers."""
        at = f"season/climate/{row.id}"
        share = Number(f"{at}/workable", "count", 10 * row.share, row.basis, row.source)
        spell = Number(f"{at}/spell", "duration", row.spell, row.basis, row.source)
        years = Number(f"{at}/years", "count", 10 * row.between_years, row.basis, row.source)
        label = row.label[0].upper() + row.label[1:]
        rows: tuple[tuple[Text, Text], ...] = (
            (text("days that can be worked, of ten"), text(self.numbers.show(share, digits=2))),
            (text("in a row, as a rule"), text(self.numbers.show(spell, on_tool="d", digits=2))),
            (text("from year to year, give or take"), text(self.numbers.show(years, digits=2))),
        )
        return Note(words=text(Run(voice="strong", words=(f"{label}.",)))), Values(rows=rows)


def _in_hundred(share: float) -> Text:
    """A chance in words: seasons of a hundred."""
    many = round(100 * share)
    if not many:
        return text("under 1 in 100")
    voice: Run | str = Run(voice="must", words=(f"{many} in 100",)) if many >= 10 else f"{many} in 100"
    return text(voice)
