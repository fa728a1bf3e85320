"""What a trouble's sheets wait for, as a section of its own sheet: which question, and the command or page that answers it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlewright.plan.work_of import Wait, answered_by, page_of, work_of
from axlewright.sheets import Go, Note, Run, Section, Table, Text, text
from axlewright.sheets.blocks import Block, Column, Row
from axlewright.yard import Trouble, Yard

UNSETTLED = Wait("Steps", "a course to be settled: courses may be compared, steps are drawn for the one that is taken.")
MOST = 4  # rows: the trouble's sheet is one page
NAMED = 2  # questions of one sheet


def waits_of(yard: Yard, trouble: Trouble, today: date) -> tuple[Wait, ...]:
    """What the sheets of a trouble wait for, as far as its records tell; nothing once it is put by."""
    if yard.stage(trouble.number) == "put by":
        return ()
    work = work_of(yard, trouble, today)
    return work.waits() if work else (UNSETTLED,)


def waits_section(waits: Sequence[Wait], trouble: int, *, page: bool = False) -> tuple[Section, ...]:
    """The section; none where nothing is waited for. On a page the answer is one tap away, and no command is told."""
    if not waits:
        return ()
    rows = [_row(wait, trouble, page) for wait in waits[:MOST]]
    more = len(waits) - MOST
    note: tuple[Block, ...] = (Note(words=text(f"And {more} more."), size="small"),) if more > 0 else ()
    columns = (
        Column(heading="sheet", share=1.1),
        Column(heading="waits for", share=3.4),
        Column(heading="answer", share=2.2),
    )
    table = Table(columns=columns, rows=tuple(rows))
    return (Section(heading="Sheets that wait", aside="none is drawn by half", place="right", blocks=(table, *note)),)


def _row(wait: Wait, trouble: int, page: bool) -> Row:
    return Row(cells=(text(wait.sheet), _wanted(wait), _how(wait, trouble, page)))


def _wanted(wait: Wait) -> Text:
    if wait.words:
        return text(f"{wait.words[0].upper()}{wait.words[1:]}")
    asked = " ".join(one.asks for one in wait.questions[:NAMED])
    more = len(wait.questions) - NAMED
    return text(asked + (f" And {more} more." if more > 0 else ""))


def _how(wait: Wait, trouble: int, page: bool) -> Text:
    """The page that asks; on paper the command that answers the first of them too."""
    if wait == UNSETTLED:
        if page:
            return text(Go(words="take one", to=f"/trouble/{trouble}#asked"))
        return text(Run(voice="soft", words=(f"settle {trouble} fit-spare",)))
    if not wait.questions:
        return ()
    group = page_of(wait.questions[0])
    asked = Go(words=f"asked under {group}", to=f"/trouble/{trouble}/ask/{group}")
    return text(asked) if page else text(asked, Run(voice="soft", words=(f"; {answered_by(wait, trouble)}",)))
