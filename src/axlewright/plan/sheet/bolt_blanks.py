"""Two blank forms: Grease and torque, which says what to set or that nothing is safe; and the Re-tighten log."""

from __future__ import annotations

from axlewright.plan.reckon.bolt_table import bolt_table, orders
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.trace import Trace
from axlewright.quantities import find
from axlewright.sheets import Boxes, Caution, HoldPoint, Lines, Note, Run, Section, Sheet, Table, Text, TitleBlock, text
from axlewright.sheets.blocks import Box, Column, Line, Row
from axlewright.trade import lubricants, tightening

FORM = "A"
MARK = 5.0  # of the wrench, in its own unit: what the table is rounded down to
HOUR = 3600.0
CHECKS = 9  # rows of the log
BOLTS = 20  # its columns
BOOK: Text = (
    Run(voice="must", words=("Never the book’s dry torque on a greased thread.",)),
    " The machine’s own book comes first.",
)


def blank_grease_and_torque() -> Drawn:
    """The form to print and fill in by hand: which bolt, what is on it, the factor, the torque never to go above."""
    table = bolt_table()
    trace = Trace(table.w)
    sheet = Sheet(
        name="grease-and-torque",
        head=text(Run(voice="strong", words=("Grease and torque",)), ", one side, to print"),
        answer=text("Greased bolts want less than the book: multiply, then look that you stay under the table."),
        sections=(
            Section(heading="", place="wide", blocks=(_who(),)),
            Section(heading="A. Which bolt", aside="brush a head and look", blocks=_which_bolt()),
            _what_is_on_it(),
            _factor(trace),
            _steps(),
            _never_above(trace),
            _orders(),
            Section(
                heading="What must not be missed", place="wide", blocks=(*_cautions(), Note(words=BOOK, size="lead"))
            ),
        ),
        block=TitleBlock(title="Grease and torque", form=FORM, measures="N·m, lbf·ft"),
        paper="dense",
    )
    return Drawn((sheet,), trace.entries)


def _who() -> Lines:
    return Lines(
        lines=(
            Line(label="machine", share=2),
            Line(label="corner"),
            Line(label="date"),
            Line(label="who", share=2),
        )
    )


def _boxes(lead: str, *said: str, line: bool = False) -> Boxes:
    return Boxes(lead=lead, boxes=tuple(Box(words=text(one)) for one in said), line=line)


def _which_bolt() -> tuple[Boxes | Lines, ...]:
    return (
        _boxes("Inch head", "no mark", "3 lines (5)", "6 lines (8)"),
        _boxes("Metric head", "no mark", "8.8", "10.9", "12.9"),
        Lines(
            lines=(
                Line(label="thread: diameter, pitch"),
                Line(label="how many bolts"),
                Line(label="full turns in by hand"),
                Line(label="book torque"),
            ),
            stacked=True,
        ),
        _boxes("In", "N·m", "lbf·ft"),
        _boxes("The book means", "as received", "greased: set as it says"),
    )


def _what_is_on_it() -> Section:
    states = [state.label for state in lubricants.conditions().values() if state.usual]
    return Section(
        heading="B. What is on it",
        aside="draw one, look, rub",
        place="right",
        blocks=(
            _boxes("Threads", *states),
            _boxes("Under heads", *states),
            Note(
                words=text(
                    Run(voice="must", words=("Rust, paint or dirt: clean first.",)), " No torque says anything on it."
                )
            ),
        ),
    )


def _factor(trace: Trace) -> Section:
    table = bolt_table()
    rows = tuple(
        Row(cells=(text(state.label), text(trace.show(name, digits=2))))
        for state, name in zip(table.states, table.factors, strict=True)
    )
    return Section(
        heading="C. Book’s torque times",
        aside="same pull",
        place="right",
        blocks=(
            Table(
                columns=(Column(heading="on threads and heads", share=3), Column(heading="times", to="right")),
                rows=rows,
            ),
            Note(words=text("Grease on threads or heads alone: ask, or wipe and grease both alike."), size="small"),
        ),
    )


def _steps() -> Section:
    """Passes as factors, to be worked out by hand."""
    shares = tightening.pass_shares()
    rows = [Row(cells=(text("1"), text("snug by hand, bolts in bushes first"), (), ()))]
    for number, row in enumerate(shares, 2):
        share = "" if row.share == 1 else f", times {row.share:g}"
        how = "round, until none turns" if row.name == "again" else "across"
        rows.append(Row(cells=(text(str(number)), text(f"{row.name}{share}, {how}"), (), ())))
    gap = tightening.feeler().gap
    return Section(
        heading="E. Set it, in passes",
        aside="round down, mark each head",
        blocks=(
            Lines(lines=(Line(label="book torque, A, times C"),), stacked=True),
            _boxes("Not above D?", "yes", "no: stop, ask"),
            Table(
                columns=(
                    Column(heading="", share=0.5),
                    Column(heading="pass", share=4),
                    Column(heading="torque", share=1.5),
                    Column(heading="done", share=1),
                ),
                rows=tuple(rows),
            ),
            HoldPoint(
                lead="Hold point, after snug.",
                words=text(f"A {gap * 1000:g} mm feeler must not enter anywhere round the face."),
                lines=("taken by",),
            ),
        ),
    )


def _never_above(trace: Trace) -> Section:
    table = bolt_table()
    rows = []
    for line in table.lines:
        unit = find("torque", line.unit)
        assert unit is not None
        step = unit.to_si(MARK)
        shown = (
            trace.show(
                name,
                si=trace.w[name].middle() // step * step,
                on_tool=line.unit,
                digits=2,
                toward="down",
                with_unit=False,
            )
            for name in line.highest
        )
        rows.append(
            Row(
                cells=(
                    text(line.thread.designation),
                    text(line.grade.id),
                    text(line.unit),
                    *(text(one) for one in shown),
                )
            )
        )
    heads = [
        Column(heading=state.label if state.greased else state.word, to="right", share=1.6) for state in table.states
    ]
    columns = (Column(heading="thread", share=1.8), Column(heading="mark"), Column(heading="in"), *heads)
    note = (
        "The tightest of a greased set stays below yield at these: least strength, careful end of friction and wrench. "
        "The thread in the housing is not counted: under 1.5 diameters of full turns in iron, ask."
    )
    return Section(
        heading="D. Never above",
        aside="threads and heads alike",
        place="wide",
        blocks=(Table(columns=columns, rows=tuple(rows)), Note(words=text(note), size="small")),
    )


def _orders() -> Section:
    rows = tuple(Row(cells=(text(f"{bolts}"), text(", ".join(map(str, order))))) for bolts, order in orders().items())
    return Section(
        heading="F. In this order",
        aside="numbered round the circle, clockwise from the top; bolts in bushes first",
        place="wide",
        blocks=(Table(columns=(Column(heading="bolts", share=1), Column(heading="", share=14)), rows=rows),),
    )


def _cautions() -> tuple[Caution, ...]:
    return tuple(Caution(lead=row.lead, words=text(row.words)) for row in tightening.cautions().values())


def blank_retighten_log() -> Drawn:
    """The log to print and hang in the cab: when each bolt is looked at again, and what it did."""
    again = tightening.again()
    sheet = Sheet(
        name="re-tighten-log",
        head=text(Run(voice="strong", words=("Re-tighten log",)), ", one side, to print. It stays in the cab"),
        answer=text("Tightening way, never slackened first: note for each bolt whether it moved or stood still."),
        sections=(
            Section(heading="", place="wide", blocks=(_who(),)),
            Section(
                heading="The joint",
                blocks=(
                    _boxes("Of", "flange bolts", "wheel nuts"),
                    Lines(
                        lines=(
                            Line(label="how many, thread, head mark"),
                            Line(label="what is on them"),
                            Line(label="torque, in N·m or lbf·ft"),
                            Line(label="wrench, when it was checked"),
                            Line(label="clock when it was fitted"),
                        ),
                        stacked=True,
                    ),
                ),
            ),
            _locks(),
            *_log(),
            _rules(again),
        ),
        block=TitleBlock(title="Re-tighten log", form=FORM, measures="hours"),
    )
    return Drawn((sheet,), {})


def _locks() -> Section:
    rows = tuple(Row(cells=(text(row.label), text(row.does))) for row in tightening.locks().values())
    return Section(
        heading="By the lock",
        aside="tick yours",
        place="right",
        blocks=(Table(columns=(Column(heading="", share=1.3), Column(heading="", share=3)), rows=rows),),
    )


def due_hours(checks: int = CHECKS) -> tuple[float, ...]:
    """Machine hours after fitting at which a joint is looked at again: ours where the book is silent, then counted on."""
    again = tightening.again()
    hours = [seconds / HOUR for seconds in again.hours]
    every = again.then_every / HOUR
    while len(hours) < checks:
        hours.append(hours[-1] + every)
    return tuple(hours[:checks])


def _log() -> tuple[Section, Section]:
    """When each look is due and was done; and each bolt at each look."""
    after = [f"{hours:,.0f} h".replace(",", "\u202f") for hours in due_hours()]
    when = (
        Column(heading="after", share=1),
        Column(heading="due at clock", share=1.5),
        Column(heading="done at clock", share=1.5),
        Column(heading="date", share=1.4),
        Column(heading="torque shown", share=1.5),
        Column(heading="what was seen: rust streak, paint cracked, gap", share=4),
        Column(heading="who", share=1.4),
    )
    bolts = (Column(heading="after", share=2), *(Column(heading=str(n)) for n in range(1, BOLTS + 1)))
    return (
        Section(
            heading="Looked at again",
            aside="the book’s hours win",
            place="wide",
            blocks=(Table(columns=when, rows=tuple(Row(cells=(text(one), *(((),) * 6))) for one in after)),),
        ),
        Section(
            heading="Each bolt",
            aside="M moved, S still; numbers as chalked",
            place="wide",
            blocks=(Table(columns=bolts, rows=tuple(Row(cells=(text(one), *(((),) * BOLTS))) for one in after)),),
        ),
    )


def _rules(again: tightening.Again) -> Section:
    still = "two" if again.still_in_a_row == 2 else f"{again.still_in_a_row}"
    return Section(
        heading="What must not be missed",
        place="wide",
        blocks=(
            Caution(
                lead="Not on the road before the first look again.", words=text("Wheel nuts settle in the first hours.")
            ),
            Caution(
                lead=f"Settled when {still} looks in a row find all still.",
                words=text("One that moved: all of them again, and begin to count anew."),
            ),
            Caution(
                lead=f"Moved at look {again.found_at} still: stop.",
                words=text(
                    "Paint or dirt in the joint, a worn seat, a crack, the wrong nut. Find it before it works again."
                ),
            ),
            Caution(
                lead="Broken, missing, turning and turning: park it.",
                words=text("The whole set new; the rest is tired."),
            ),
        ),
    )
