"""The Steps sheets: a front with what matters if it falls, the readings with their bands and the runs that may not be
broken, then the steps in order on as many sheets as they take.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

from axlewright.plan.sheet.band_words import BandWords
from axlewright.plan.sheet.frame import Drawn, Frame, Number, Numbers
from axlewright.plan.sheet.steps_page import HEADING, Page, StepBlocks, in_columns, pages, spell
from axlewright.plan.steps.bands import Edges, Printed, printed
from axlewright.plan.steps.day import Limit, Piece, first_safe_stop, limit, pieces, way_back
from axlewright.plan.steps.jobs import Here, minutes
from axlewright.sheets import Caution, Lines, Note, Numbered, Run, Section, Sheet, Table, Text, Values
from axlewright.sheets.blocks import Block, Column, Line, Row
from axlewright.trade.networks import Card, Job, Step
from axlewright.trade.steps import Edge, Steps

APART = ("walk-round",)
"""Parts that have a list of their own and do not stand on the Steps sheets."""


ROWS = 3
"""Rows of the revision table that a sheet of steps has room for: the last ones."""

FALLS = Caution(lead="Ring, say the gate address.", words=("Keep out from under, do not jack again alone.",))


@dataclass(frozen=True, slots=True)
class StepsFacts:
    """What the Steps sheets are drawn from.

    Attributes:
        job: the job and its steps
        here: people, size of the machine, practice
        frame: title block
        figures: known figures that bands are parts of, in the band's unit
        given: edges that engines or verdict rules gave, by name
        marks: step of the tool really used, by reading
        bands: bands as they were cut when the card was begun; cut anew where there is none
        work_begins: when work begins that day
        sunset: that day
        emergency: number to ring
        gate: address of the gate
        second: second adult, by name
        told: what this card is for: nuts, bolts, oil, masses, each with its words
        hours: how long such a job takes, in words
    """

    job: Job
    here: Here
    frame: Frame
    figures: Mapping[str, Edge] = field(default_factory=dict)
    given: Mapping[str, Edges] = field(default_factory=dict)
    marks: Mapping[str, float] = field(default_factory=dict)
    bands: Mapping[str, Printed] | None = None
    work_begins: datetime | None = None
    sunset: datetime | None = None
    emergency: str = ""
    gate: str = ""
    second: str = ""
    told: Sequence[tuple[str, Sequence[str | Number]]] = ()
    hours: Sequence[str | Number] = ()

    def ends(self, rows: Steps) -> Limit | None:
        """When everything must rest that day, if its hours are known."""
        return limit(rows.rules, self.work_begins, self.sunset) if self.work_begins and self.sunset else None


def steps_sheets(
    rows: Steps,
    facts: StepsFacts,
    part: str = "",
    of_pack: tuple[int, int] | None = None,
    name: str = "steps",
    before: Sequence[StepsFacts] = (),
) -> Drawn:
    """The Steps sheets of one step card of a job.

    Args:
        rows: rows of the work
        facts: what they are drawn from
        part: network whose own card it is; empty for the job's
        name: of the sheets, each page with the number of its first step behind it
        before: short jobs whose cards stand over its first step
        of_pack: number of the first sheet in the pack, and how many the pack has

    Raises:
        TooFewHands: a step takes more people than there are
    """
    card = next(c for c in facts.job.cards if c.part == part)
    shown = shown_steps(card)
    hangs = lifts(shown)
    own = Job(facts.job.id, facts.job.title, shown, facts.job.left_out)
    numbers = Numbers()
    bands = {r.id: band_of(rows, facts, r.id) for s in card.steps for r in s.task.readings}
    cut = pieces(rows, own, facts.here)
    ends = facts.ends(rows)
    make = StepBlocks(
        rows,
        BandWords(rows, numbers),
        bands,
        {s.task.id: minutes(rows, s.task, "likely", facts.here.size, facts.here.first_time) for s in shown},
        {p.name: p for p in cut if p.block},
        latest_begins(rows, cut, facts),
        {r.id: n for n, r in enumerate(card.readings, 1)} if hangs else {},
        {s.task.id: n for n, s in enumerate(shown, 1)},
    )
    first_of_all = [_before(rows, one, numbers, letter) for one, letter in zip(before, "abcdef", strict=False)]
    made = pages(shown, make, taken=sum(tall for _, tall in first_of_all))
    title = rows.network[part].title if part else facts.job.title
    first, of = of_pack or (1, len(made) + hangs)
    sheets = []
    if hangs:
        front = _front(rows, facts, card, cut, make, ends)
        sheets.append(_sheet(facts.frame, name, title, "Step card", front, first, of))
    for n, page in enumerate(made, first + hangs):
        if page is made[0]:
            page = replace(page, sections=(*(section for section, _ in first_of_all), *page.sections))
        sheets.append(_page_sheet(facts.frame, f"{name}-{page.first}", title, page, len(shown), n, of, hangs))
    return Drawn(tuple(sheets), numbers.entries)


MOST_BEFORE = 2  # steps of a job that is too short for a page of its own


def short(card: Card) -> bool:
    """Whether a card is too short for a page of its own: nothing hangs in it, and it has a step or two."""
    shown = shown_steps(card)
    return len(shown) <= MOST_BEFORE and not lifts(shown)


def _before(rows: Steps, facts: StepsFacts, numbers: Numbers, letter: str) -> tuple[Section, float]:
    """A short job over the first step of a longer one, its steps lettered; and its height [mm]."""
    (card,) = facts.job.cards
    shown = shown_steps(card)
    make = StepBlocks(
        rows,
        BandWords(rows, numbers),
        {r.id: band_of(rows, facts, r.id) for s in card.steps for r in s.task.readings},
        {s.task.id: minutes(rows, s.task, "likely", facts.here.size, facts.here.first_time) for s in shown},
        {}, {}, {},
        {s.task.id: n for n, s in enumerate(shown, 1)},
    )  # fmt: skip
    piles = [make.step(step) for step in shown]
    blocks = [_lettered(block, letter) for pile in piles for block in pile.blocks]
    return Section(heading=facts.job.title, blocks=tuple(blocks)), HEADING + sum(pile.height for pile in piles)


def _lettered(block: Block, letter: str) -> Block:
    if not isinstance(block, Numbered):
        return block
    return block.model_copy(
        update={"items": tuple(one.model_copy(update={"number": f"{letter}{one.number}"}) for one in block.items)}
    )


def lifts(steps: Sequence[Step]) -> bool:
    """Whether anything is raised or hangs in these steps: such a card has a front."""
    return any(s.task.corner in {"jack", "wood"} or s.task.load in {"hook", "forks"} for s in steps)


def band_of(rows: Steps, facts: StepsFacts, reading: str) -> Printed | None:
    """The band of a reading on this card; None while the figure it hangs on is not known."""
    if facts.bands is not None:
        return facts.bands.get(reading)
    row = rows.band.get(reading)
    return printed(row, facts.figures, facts.given, facts.marks.get(reading)) if row else None


def shown_steps(card: Card) -> tuple[Step, ...]:
    """The steps of a card that stand on its Steps sheets: what has a list of its own is left to that."""
    return tuple(s for s in card.steps if s.part not in APART) or card.steps


def latest_begins(rows: Steps, cut: Sequence[Piece], facts: StepsFacts) -> dict[str, str]:
    """The clock after which each run that may not be broken is not begun, if the day's hours are known."""
    ends = facts.ends(rows)
    return {p.name: f"{ends.at - timedelta(minutes=p.high):%H:%M}" for p in cut if p.block} if ends else {}


def _sheet(
    frame: Frame, name: str, title: str, what: str, sections: tuple[Section, ...], sheet: int, of: int, lead: Text = ()
) -> Sheet:
    head = frame.head(what)
    return Sheet(
        name=name,
        head=head,
        grade=frame.grade,
        answer=(title,),
        sections=sections,
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Steps", sheet, of),
        paper="dense",
    )


def _page_sheet(
    frame: Frame, name: str, title: str, page: Page, all_steps: int, sheet: int, of: int, hangs: bool
) -> Sheet:
    """A page of steps: what to do if it falls on top, or the job's name where nothing hangs."""
    several = page.first != page.last
    what = f"Steps {page.first} to {page.last} of {all_steps}" if several else f"Step {page.first} of {all_steps}"
    falls = (Section(heading="If it falls", blocks=(FALLS,), place="wide"),) if hangs else ()
    made = _sheet(frame, name, title, what, (*falls, *page.sections), sheet, of)
    return made.model_copy(update={"answer": ()}) if hangs else made


def _front(
    rows: Steps, facts: StepsFacts, card: Card, cut: Sequence[Piece], make: StepBlocks, ends: Limit | None
) -> tuple[Section, ...]:
    sections = [_falls(rows, facts), _people(facts, ends, make)]
    if facts.told:
        sections.append(_told(facts, make))
    if ends and facts.work_begins:
        sections.append(_days(rows, cut, make, facts.work_begins, ends))
    runs = [p for p in cut if p.block]
    if runs:
        sections.append(_runs(rows, runs, make))
    return in_columns([*sections, _rules(rows, facts), *_readings(rows, card, make)])


def _falls(rows: Steps, facts: StepsFacts) -> Section:
    return Section(
        heading="If it falls",
        aside="tried from this spot at ____",
        voice="must",
        blocks=(
            Note(words=(rows.caution["if-it-falls"].text,)),
            Lines(
                stacked=True,
                lines=(
                    Line(label="emergency number", written=(facts.emergency,) if facts.emergency else ()),
                    Line(label="gate address", written=(facts.gate,) if facts.gate else ()),
                    Line(label="second adult", written=(facts.second,) if facts.second else ()),
                ),
            ),
        ),
    )


def _people(facts: StepsFacts, ends: Limit | None, make: StepBlocks) -> Section:
    what = f"by {ends.by}" if ends else "half an hour before sunset, or twelve hours after work began"
    long = (Note(words=make.words.numbers.told(facts.hours, with_basis=False)),) if facts.hours else ()
    return Section(
        heading="Who, and until when",
        aside=_hands(facts),
        blocks=(
            Lines(
                lines=(Line(label="gives the signals"), Line(label="watches the load"), Line(label="drives the loader"))
            ),
            Lines(
                stacked=True,
                lines=(
                    Line(label="work began at", written=(f"{facts.work_begins:%H:%M}",) if facts.work_begins else ()),
                    Line(label="sunset", written=(f"{facts.sunset:%H:%M}",) if facts.sunset else ()),
                    Line(label="everything rests by", written=(f"{ends.at:%H:%M}, {what}",) if ends else ()),
                ),
            ),
            *long,
        ),
    )


def _hands(facts: StepsFacts) -> str:
    """People, size of the machine and practice: what the minutes were reckoned for."""
    here = facts.here
    practice = "first time" if here.first_time else "done before"
    return f"minutes for {here.hands} people, {here.size} machine, {practice}"


def _told(facts: StepsFacts, make: StepBlocks) -> Section:
    """What this card is for: wheel, nuts, bolts, oil, masses, each number with its basis."""
    rows = tuple(((label,), make.words.numbers.told(told)) for label, told in facts.told)
    return Section(heading="What it is worked on", aside="look whether it is so", blocks=(Values(rows=rows),))


MOST_DAYS = 3


def _days(rows: Steps, cut: Sequence[Piece], make: StepBlocks, begins: datetime, ends: Limit) -> Section:
    """Where each day ends by its likely minutes: the first safe stop, and what is not begun any more."""
    table, left, day = [], list(cut), 1
    daylight = ends.at - begins
    while left and day <= MOST_DAYS:
        end = first_safe_stop(left, begins, begins + daylight)
        if end.last is None:
            piece = left[0]
            words = f"step {make.numbers[piece.steps[0].task.id]} is not begun: {spell(piece.high)} when it is slow, and the day has {spell(daylight / timedelta(minutes=1))}. Begin earlier, or with more hands."
            table.append(Row(cells=((f"{day}",), (Run(voice="must", words=(words,)),), ())))
            break
        at = left.index(end.last)
        last = end.last.steps[-1]
        what: Text = (f"after step {make.numbers[last.task.id]}, {rows.network[last.part].title.lower()}",)
        if end.refused:
            what += (f"; step {make.numbers[end.refused.steps[0].task.id]} waits for the next day",)
        table.append(Row(cells=((f"{day}",), what, (f"{end.at:%H:%M}",))))
        left, day = left[at + 1 :], day + 1
    if left and day > MOST_DAYS:
        table.append(Row(cells=((), (f"and more days, begun at {begins:%H:%M}",), ())))
    return Section(
        heading="First safe stop of each day",
        aside=f"begun at {begins:%H:%M}, all at rest by {ends.at:%H:%M}",
        blocks=(
            Table(
                columns=(
                    Column(heading="day", share=0.4),
                    Column(heading="it ends", share=4.0),
                    Column(heading="likely at", to="right", share=0.9),
                ),
                rows=tuple(table),
            ),
        ),
    )


def _runs(rows: Steps, runs: Sequence[Piece], make: StepBlocks) -> Section:
    table = []
    for p in runs:
        first, last = make.numbers[p.steps[0].task.id], make.numbers[p.steps[-1].task.id]
        back = way_back(rows, p)
        table.append(
            Row(
                cells=(
                    (f"{first} to {last}",),
                    (rows.network[p.steps[-1].part].title,),
                    (spell(p.likely),),
                    (spell(p.high),),
                    (make.latest.get(p.name, "____"),),
                    (spell(back.minutes) if back else "",),
                )
            )
        )
    return Section(
        heading="Runs that may not be broken",
        aside="the way back stands at the step",
        blocks=(
            Table(
                columns=(
                    Column(heading="steps", share=0.9),
                    Column(heading="", share=2.1),
                    Column(heading="likely", to="right", share=0.8),
                    Column(heading="slow", to="right", share=0.8),
                    Column(heading="not after", to="right", share=0.9),
                    Column(heading="back in", to="right", share=0.9),
                ),
                rows=tuple(table),
            ),
        ),
    )


def _rules(rows: Steps, facts: StepsFacts) -> Section:
    letter = facts.frame.revision
    mine = f" by its letter, {letter}" if letter else ""
    return Section(
        heading="Between two rests the paper rules",
        blocks=(
            Note(
                words=(
                    f"The plan changes only while the load rests on wood or on its wheel. A new revision voids this paper{mine}. "
                    "A hold point is passed by a reading inside its band or a second look by a named person, never by a tick alone. "
                    f"{rows.caution['book-first'].text}",
                )
            ),
        ),
    )


def _readings(rows: Steps, card: Card, make: StepBlocks) -> list[Section]:
    """The readings on the front, each with a line to write on and its band."""
    found = []
    for step in card.steps:
        for reading in (r for r in step.task.readings if r.card):
            at = make.numbers.get(step.task.id)
            what, _, more = reading.quantity.partition(", ")
            note: Text = (f"{more[0].upper()}{more[1:]}.",) if more else ()
            band = make.words.block(step.task, reading, rows.band[reading.id], make.bands.get(reading.id), note)
            lines = Lines(
                lines=(Line(label="read", unit=make.unit(reading)), Line(label="by"), Line(label="at", share=0.7))
            )
            found.append(
                Section(
                    heading=f"{make.front[reading.id]}. {what[0].upper()}{what[1:]}",
                    aside=f"step {at}" if at else "at the walk-round",
                    blocks=(lines, band),
                )
            )
    return found
