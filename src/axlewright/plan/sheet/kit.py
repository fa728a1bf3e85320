"""The Kit sheet: what is missing and when it comes, parts to lay out, gear by where it is first wanted, what to have near."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.measure import stay
from axlewright.plan.sheet.steps_page import GOES_ON, in_columns
from axlewright.plan.steps.kit import Kit, Near, Need, State
from axlewright.sheets import Boxes, Day, Lines, Note, Section, Sheet, Table, Text
from axlewright.sheets.blocks import Box, Column, Line, Row
from axlewright.trade.networks import Job

ROWS = 3
LONG = 16  # rows of the table of what is missing that one column takes
MOST_BOXES = 24  # boxes of one section, so that they can go into either column
MOST_NEAR = 10  # rows of the list of what only a trouble asks for


def kit_sheet(
    jobs: Sequence[Job], kit: Kit, frame: Frame, people: int, day: date | None = None, ready_by: date | None = None
) -> Drawn:
    """The kit of a course's jobs on one page.

    Args:
        jobs: the jobs it is for
        kit: what they need, and what of it is here
        frame: title block
        people: how many will be there; 0 while nobody said
        day: on which the work is done
        ready_by: day by which the machine must work again
    """
    sections = [
        *_missing(kit.missing()),
        _people(kit, people),
        *_dates(kit, day, ready_by),
        *_lay_out(kit),
        _near(kit.near),
    ]
    head = frame.head("Kit")
    sheet = Sheet(
        name="kit",
        head=head,
        answer=answer(kit),
        lead=tuple(
            (
                ", then ".join(j.title[0].lower() + j.title[1:] if n else j.title for n, j in enumerate(jobs)) + "."
            ).splitlines()
        ),
        sections=in_columns(sections),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Kit"),
        paper="dense",
    )
    return Drawn((sheet,), {})


def answer(kit: Kit) -> Text:
    """What is missing, in one sentence with its day; and of how much nobody has said anything."""
    missing, unsaid = kit.missing(), len(kit.of_state("not said"))
    are = "whether it is" if unsaid == 1 else "whether they are"
    ask = (f" Of {unsaid} nobody has said {are} here.",) if unsaid else ()
    if not missing:
        return ("Nothing is known to be missing.", *ask) if unsaid else ("All of it is here.",)
    no_day = sum(n.comes is None for n in missing)
    things = "One thing is missing" if len(missing) == 1 else f"{len(missing)} things are missing"
    if kit.complete_on:
        return (f"{things}; the last comes ", Day(on=kit.complete_on), ".", *ask)
    return (f"{things}, {no_day} without a day." if len(missing) > 1 else f"{things}, without a day.", *ask)


def _missing(missing: Sequence[Need]) -> list[Section]:
    """The table of what is missing, in two halves where it is long."""
    if not missing:
        return []
    halves = (
        [missing] if len(missing) <= LONG else [missing[: (len(missing) + 1) // 2], missing[(len(missing) + 1) // 2 :]]
    )
    return [
        Section(
            heading="Missing",
            aside="goes on" if n else "those without a day first",
            blocks=(
                Table(
                    columns=(Column(heading="what", share=2.6), Column(heading="comes", share=0.8)),
                    rows=tuple(
                        Row(
                            cells=((stay(need.words),), (Day(on=need.comes),) if need.comes else ("________",)),
                            voice="plain" if need.comes else "strong",
                        )
                        for need in half
                    ),
                ),
            ),
        )
        for n, half in enumerate(halves)
    ]


def _dates(kit: Kit, day: date | None, ready_by: date | None) -> list[Section]:
    """What comes too late for the day of the work, or for the day on which it must work again."""
    if day is None and ready_by is None:
        return []
    rows: list[Row] = []
    for name, on in (("work is done", day), ("it must work again", ready_by)):
        if on is None:
            continue
        late = [need for need in kit.missing() if need.comes is None or need.comes > on]
        words = f"{len(late)} not here by then" if late else "all that is said comes before"
        rows.append(Row(cells=((name,), (Day(on=on),), (words,)), voice="strong" if late else "plain"))
    columns = (Column(heading="", share=1.4), Column(heading="on"), Column(heading="", share=1.8))
    return [Section(heading="By which day", blocks=(Table(columns=columns, rows=tuple(rows)),))]


def _people(kit: Kit, people: int) -> Section:
    short = people < kit.hands
    named = f"{people} named" if people else "nobody named yet"
    words = (
        f"{kit.hands} people; {named}." if short else f"{kit.hands} people at a time, and one of them watches the load."
    )
    return Section(
        heading="Hands",
        voice="must" if short else "plain",
        blocks=(
            Note(words=(words,), voice="must" if short else "plain"),
            Lines(lines=tuple(Line(label=who) for who in ("first", "second", "third, to watch"))),
        ),
    )


def _lay_out(kit: Kit) -> list[Section]:
    """Boxes to tick as each piece lies ready: what is owned, and what nobody has said anything of."""
    found = []
    states: tuple[tuple[State, str], ...] = (("owned", "to lay ready"), ("not said", "nobody spoke of: is it here?"))
    for state, what in states:
        for sort, name in (("parts", "Parts"), ("gear", "Gear")):
            boxes = tuple(Box(words=(stay(n.words),)) for n in kit.of_state(state) if n.sort == sort)
            for n in range(0, len(boxes), MOST_BOXES):
                some = Boxes(boxes=boxes[n : n + MOST_BOXES])
                aside = GOES_ON if n else "in the order in which it is wanted"
                found.append(Section(heading=f"{name} {what}", aside=aside, blocks=(some,)))
    return found


def _near(near: Sequence[Near]) -> Section:
    if not near:
        return Section(heading="Have it near", blocks=(Note(words=("Nothing more.",)),))
    return Section(
        heading="Have it near",
        aside="only if this comes, likeliest first",
        blocks=(
            Table(
                columns=(Column(heading="what"), Column(heading="for", share=1.6)),
                rows=tuple(Row(cells=((stay(n.words),), (stay(n.trouble.split(":")[0]),))) for n in near[:MOST_NEAR]),
            ),
        ),
    )
