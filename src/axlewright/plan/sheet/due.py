"""The Due room as a sheet: what must be looked at next, by clock and by day, what runs out first on top."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlewright.plan.corners import corners
from axlewright.plan.in_hand.due import Decides, Due, due_of
from axlewright.plan.sheet.due_figures import curves, rising
from axlewright.plan.sheet.frame import Drawn, Number, Numbers
from axlewright.plan.sheet.revisions import corner_words
from axlewright.sheets import Block, Day, Figure, Go, Note, Run, Section, Sheet, Table, Text, TitleBlock, text
from axlewright.sheets.blocks import Column, Row
from axlewright.sheets.figures import due as figures
from axlewright.yard import Corner, Machine, Yard

HOUR = 3600.0
MOST_ON_RULE = 9
MOST_RULES = 6  # machines with a rule of their own
SOURCE = "clock at set-down and the hours of the after-check, cut to whole hours; docs/engines/steps.md"


def unseen(yard: Yard, today: date) -> dict[Corner, str]:
    """Corners that nobody has looked at, or whose looks are all too old, each with how long."""
    return {now.corner: now.standing.words for now in corners(yard, today) if not now.standing.looked}


def falls_due(yard: Yard, today: date, decide: Decides | None = None) -> tuple[Due, ...]:
    """All that falls due in a yard, what runs out first on top."""
    return due_of(yard, today, decide, unseen(yard, today))


def due_sheet(yard: Yard, today: date, decide: Decides | None = None, waiting: int = 0) -> Drawn:
    """The Due room today; `waiting`: how many dates to decide by are not made out yet."""
    found, say = falls_due(yard, today, decide), _Say(yard, today, Numbers())
    watched, drawn = curves(yard, today, say.numbers)
    rules = [made for one in yard.machines if (made := say.rule(one, found))][:MOST_RULES]
    sections = [*drawn[:1], *rules, *drawn[1:], say.table(found, waiting)]
    sheet = Sheet(
        name="due",
        head=text(Run(voice="strong", words=("Due",)), f" · {yard.title.name}, by clock and date, ", Day(on=today)),
        answer=say.answer(found),
        lead=rising(yard, watched) or ("A look that grows old turns the corner back into not looked at by itself.",),
        sections=tuple(sections),
        block=TitleBlock(title="Due", corner="all machines", on=today, yard=yard.title.name),
    )
    return Drawn((sheet,), say.numbers.entries)


class _Say:
    def __init__(self, yard: Yard, today: date, numbers: Numbers) -> None:
        self.yard, self.today, self.numbers = yard, today, numbers

    def clock(self, name: str, hours: float) -> Text:
        """A clock reading, as it stands on the clock."""
        number = Number(name, "duration", hours * HOUR, "computed", SOURCE)
        digits = len(f"{hours:g}".replace(".", ""))
        return (self.numbers.show(number, on_tool="h", digits=digits, with_basis=False, with_unit=False),)

    def at(self, due: Due) -> Text:
        """When it falls due: by the clock, by the day, or at once."""
        if due.stops:
            return (Run(voice="must", words=("now",)),)
        told: Text = self.clock(f"due/{due.id}", due.at) if due.at is not None else ()
        if due.second is not None:
            told = (*told, " (", *self.clock(f"due/{due.id}/second", due.second), ")")
        if due.on is not None:
            day: Text = ("today",) if due.on == self.today else (Day(on=due.on),)
            return (*told, ", ", *day) if told else day
        return told or ("today",)

    def answer(self, found: Sequence[Due]) -> Text:
        if not self.yard.machines:
            return ("No machine in this yard yet.",)
        if not found:
            return ("Nothing falls due. That calls nothing sound: looks grow old by hours and days.",)
        first = found[0]
        late = {"overdue": "overdue since", "today": "due now, at", "ahead": "due at"}[first.state(self.today)]
        when = ("now",) if first.stops or (first.at is None and first.on is None) else self.at(first)
        words = "" if first.stops else "by " if first.what == "decide" else f"{late} "
        return text(f"{self.yard.named(first.corner)}: {first.words}, {words}", *when, ".")

    def rule(self, machine: Machine, found: Sequence[Due]) -> Section | None:
        """What falls due by the clock of a machine, on one rule."""
        mine = [one for one in found if one.corner.machine == machine.id and one.at is not None][:MOST_ON_RULE]
        clock = mine[0].clock if mine else "engine"
        stood = self.yard.hours(machine.id, self.today, clock)
        if not mine or stood is None:
            return None
        falls = [
            figures.Fall(
                one.at or 0.0, (Run(voice="strong", words=self.flat(one)), f" {short(one.words)}"), must=self.late(one)
            )
            for one in mine
        ]
        name = f"due/{machine.id}/{clock}-clock"
        number = Number(name, "duration", stood.hours * HOUR, "measured", f"the {clock} clock as it was last read")
        digits = len(f"{stood.hours:g}".replace(".", ""))
        now = self.numbers.show(number, on_tool="h", digits=digits, with_basis=False, with_unit=False)
        drawing = figures.rule(stood.hours, (now, " now"), falls)
        return Section(
            heading=f"Falls due, {machine.name}", aside=f"{clock} clock, h", blocks=(Figure(drawing=drawing),)
        )

    def flat(self, due: Due) -> tuple[object, ...]:
        return self.clock(f"due/{due.id}", due.at or 0.0)

    def late(self, due: Due) -> bool:
        return due.state(self.today) == "overdue"

    def table(self, found: Sequence[Due], waiting: int = 0) -> Section:
        """All of it, what runs out first on top."""
        late: list[Block] = [Note(words=(waits(waiting),), size="small")] if waiting else []
        if not found:
            note: Block = Note(words=("A clock reading or a look would stand here, with the corner it is due at.",))
            return Section(heading="All of it", blocks=(note, *late), place="wide")
        rows = tuple(
            Row(
                cells=(
                    self.at(one),
                    (Go(words=self.yard.named(one.corner), to=address(one)),),
                    (one.words,),
                    self.state(one),
                ),
                voice="strong" if one.state(self.today) == "overdue" else "plain",
            )
            for one in found
        )
        columns = (
            Column(heading="at", share=1.1),
            Column(heading="corner", share=1.5),
            Column(heading="look", share=2.4),
            Column(heading="to run", to="right", share=1.0),
        )
        return Section(
            heading="All of it",
            aside="by what runs out first",
            blocks=(Table(columns=columns, rows=rows), *late),
            place="wide",
        )

    def state(self, due: Due) -> Text:
        if due.left is None or due.stops:
            return ("",) if not due.stops else ("overdue",)
        if due.left < 0:
            number = Number(f"due/{due.id}/over", "duration", -due.left * HOUR, "computed", SOURCE)
            return (self.numbers.show(number, on_tool="h", digits=whole(-due.left), with_basis=False), " over")
        number = Number(f"due/{due.id}/left", "duration", due.left * HOUR, "computed", SOURCE)
        return (self.numbers.show(number, on_tool="h", digits=whole(due.left), with_basis=False),)


def address(due: Due) -> str:
    """The page on which it is done."""
    if due.what == "look":
        return f"/?corner={due.corner}"
    if due.what == "after-check":
        return f"/trouble/{due.trouble}/after/{due.look}"
    return f"/trouble/{due.trouble}"


def waits(many: int) -> str:
    """That some dates are not made out yet."""
    if many == 1:
        return "One date to decide by is being made out: it stands here when this page is opened again."
    return f"{many} dates to decide by are being made out: they stand here when this page is opened again."


def whole(hours: float) -> int:
    """Digits that show these hours whole, under ten with a tenth."""
    return 2 if hours < 10 else len(f"{hours:.0f}")


def short(words: str) -> str:
    """The first words of a look, as short as they stand beside a leader."""
    return words.partition(",")[0]


def told(yard: Yard, due: Due) -> str:
    """Where it is, as a calendar says it."""
    return corner_words(yard, due.corner)
