"""One step of the step card on a page of its own: what to do, what it can do to you, what to write, and what stands round it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from axlewright.plan.sheet.band_words import BandWords, verbs
from axlewright.plan.sheet.frame import Drawn, Numbers
from axlewright.plan.sheet.measure import stay
from axlewright.plan.sheet.said import said
from axlewright.plan.sheet.steps import FALLS, ROWS, StepsFacts, band_of, latest_begins, shown_steps
from axlewright.plan.sheet.steps_page import StepBlocks
from axlewright.plan.steps.bands import Printed
from axlewright.plan.steps.day import pieces
from axlewright.plan.steps.jobs import minutes
from axlewright.sheets import Figure, Lines, Note, Numbered, Run, Section, Sheet, Text
from axlewright.sheets.blocks import Block, Item, Line
from axlewright.sheets.figures import card as figures
from axlewright.sheets.text import text
from axlewright.trade.networks import Card, Job, Step
from axlewright.trade.steps import Reading, Steps

BEFORE, AFTER = 3, 4  # steps that stand round the one at hand
JACKED = ("ra-first", "ra-clear", "ra-up")
"""Steps at which the jack under the beam is drawn."""


def step_sheet(
    rows: Steps,
    facts: StepsFacts,
    number: int,
    part: str = "",
    done: Mapping[int, str] | None = None,
    read: Mapping[str, float] | None = None,
    drawn_on: tuple[str, str, tuple[float, float]] | None = None,
) -> Drawn:
    """The page of one step.

    Args:
        rows: rows of the work
        facts: what the card is drawn from
        number: of the step on its card, from 1
        part: network whose own card it is; empty for the job's
        done: clock at which steps were done, by number
        read: readings written already, in the tool's unit
        drawn_on: kind of machine, raised corner, and where the jack stands, x forward and y left [m]

    Raises:
        IndexError: the card has no such step
    """
    card = next(c for c in facts.job.cards if c.part == part)
    steps = shown_steps(card)
    if not 1 <= number <= len(steps):
        raise IndexError(f"this card has steps 1 to {len(steps)}, not {number}")
    step = steps[number - 1]
    numbers = Numbers()
    make = _blocks(rows, facts, card, steps, numbers)
    holds = {n for n, s in enumerate(steps, 1) if s.task.hold}
    mine: list[Block] = [Figure(drawing=figures.strip(len(steps), number, holds))]
    if step.task.id in JACKED:
        mine.append(Figure(drawing=figures.jack()))
    mine += _told(make, step, read or {})
    sections = [
        Section(heading=f"{number} of {len(steps)}", aside=f"{make.minutes[step.task.id]:.0f} min", blocks=tuple(mine))
    ]
    for r in step.task.readings:
        if r.id in rows.band:
            sections.append(
                Section(heading=_what(r), aside=make.unit(r), blocks=_gauge(rows, make, step, r, read or {}))
            )
    sections.append(_around(steps, number, done or {}, holds))
    if step.task.corner in {"jack", "wood"} or step.task.load in {"hook", "forks"}:
        sections.append(Section(heading="If it falls", voice="must", blocks=(FALLS,), place="right"))
        if drawn_on:
            sections.append(_people(*drawn_on))
    frame = facts.frame
    head: Text = (f"Step card {frame.revision}".strip(), f" · {frame.corner}" if frame.corner else "")
    sheet = Sheet(
        name=f"step-{number}",
        head=tuple(p for p in head if p),
        grade=frame.grade,
        answer=said(step.task.title + ".", numbers),
        sections=tuple(sections),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Step card"),
    )
    return Drawn((sheet,), numbers.entries)


def _blocks(rows: Steps, facts: StepsFacts, card: Card, steps: Sequence[Step], numbers: Numbers) -> StepBlocks:
    own = Job(facts.job.id, facts.job.title, tuple(steps), facts.job.left_out)
    cut = pieces(rows, own, facts.here)
    bands: dict[str, Printed | None] = {}
    for step in card.steps:
        for r in step.task.readings:
            bands[r.id] = band_of(rows, facts, r.id)
    return StepBlocks(
        rows,
        BandWords(rows, numbers),
        bands,
        {s.task.id: minutes(rows, s.task, "likely", facts.here.size, facts.here.first_time) for s in steps},
        {p.name: p for p in cut if p.block},
        latest_begins(rows, cut, facts),
        {},
        {s.task.id: n for n, s in enumerate(steps, 1)},
    )


def _told(make: StepBlocks, step: Step, read: Mapping[str, float]) -> list[Block]:
    """What stands under the step's heading: its run, its cautions in full, how, and lines for its readings."""
    task = step.task
    blocks: list[Block] = [make.run(make.runs[task.id])] if task.id in make.runs else []
    blocks += make.cautions(task.cautions)
    if task.hold:
        blocks.append(make.hold(str(make.numbers[task.id]), task, task.hold))
    else:
        blocks.append(Note(words=make.told(task.how)))
        blocks += [
            Lines(
                lines=(
                    Line(label=r.quantity, unit=make.unit(r), written=(f"{read[r.id]:g}",) if r.id in read else ()),
                ),
                stacked=True,
            )
            for r in task.readings
        ]
    return blocks


def _what(reading: Reading) -> str:
    what = reading.quantity.partition(",")[0]
    return f"What the {what} tells" if "gauge" in what else f"{what[0].upper()}{what[1:]}"


def _gauge(rows: Steps, make: StepBlocks, step: Step, reading: Reading, read: Mapping[str, float]) -> tuple[Block, ...]:
    """The band of a reading; of the jack's gauge its scale too."""
    band, cut = rows.band[reading.id], make.bands.get(reading.id)
    blocks: tuple[Block, ...] = (make.words.block(step.task, reading, band, cut),)
    if reading.id != "jack-gauge" or cut is None or cut.go[1] is None or cut.ask[1] is None:
        return blocks
    go, now = cut.value(cut.go[1]), cut.value(cut.ask[1])
    _, word = verbs(step.task)
    low = f"{cut.value(cut.go[0]):g} " if cut.go[0] else ""
    top = _round_up(now * 1.15)
    ticks = [(at, text(f"{at:g}")) for at in (0.0, top / 4, top / 2, 3 * top / 4)]
    scale = figures.gauge(
        go,
        now,
        top,
        (text(f"go on {low}to {go:g}"), text(f"{now:g} {word}")),
        ticks,
        text(band.unit),
        read.get(reading.id),
    )
    return (Figure(drawing=scale), *blocks)


def _round_up(value: float) -> float:
    """The next end of a scale: a multiple of 40, so that its quarters are whole."""
    return 40.0 * -(-value // 40.0)


def _around(steps: Sequence[Step], number: int, done: Mapping[int, str], holds: Collection[int]) -> Section:
    first, last = max(1, number - BEFORE), min(len(steps), number + AFTER)
    items = []
    for n in range(first, last + 1):
        title = stay(steps[n - 1].task.title)
        aside: Text = (done[n],) if n in done else ("hold",) if n in holds else ()
        items.append(
            Item(
                number=str(n),
                lead=title if n == number else "",
                words=() if n == number else (title,),
                aside=aside,
                done=n in done,
            )
        )
    note = Note(
        words=(Run(voice="soft", words=("The plan changes only while the load rests on wood or on its wheel.",)),),
        size="small",
    )
    return Section(heading="Around this step", blocks=(Numbered(items=tuple(items)), note), place="right")


def _people(machine: str, corner: str, jack_at: tuple[float, float]) -> Section:
    drawing = figures.people(machine, corner, jack_at)
    caption: Text = ("Crossed: nobody, from the first stroke until the load is on wood. Black bars: chocks.",)
    return Section(
        heading="Who stands where",
        aside="from above, 1:100",
        blocks=(Figure(drawing=drawing, caption=caption),),
        place="right",
    )
