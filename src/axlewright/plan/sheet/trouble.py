"""The trouble's own sheet: verdicts, the answer, what was seen at its leaders, what the next look would mean."""

from __future__ import annotations

from datetime import date

from axlewright.plan.choice_made import Choice
from axlewright.plan.corners import corner_now
from axlewright.plan.facts import clock_now, job_open, seen_at
from axlewright.plan.first_look import FirstLook, first_look
from axlewright.plan.judge import Words, standing_looks
from axlewright.plan.sheet.choice_trouble import told_of
from axlewright.plan.sheet.first_look_trouble import section_of, seen_table, would_mean
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.revisions import corner_words, frame_of
from axlewright.sheets import Block, Caution, Figure, Go, Note, Run, Section, Sheet, Text, text
from axlewright.sheets.figures import condition
from axlewright.yard import Trouble, Yard


def look_of(yard: Yard, trouble: Trouble, today: date) -> FirstLook:
    """The First look of a trouble as it stands today."""
    corner = trouble.corner
    return first_look(
        clock=clock_now(yard, corner, today),
        today=today,
        before=seen_at(yard, corner, today),
        job_open=job_open(yard, corner),
    )


def trouble_sheet(
    yard: Yard, trouble: Trouble, today: date, choice: Choice | None = None, more: tuple[Section, ...] = ()
) -> Drawn:
    """What a trouble looks like today; with its choice, where there is one to make, and `more` sections after those."""
    look, frame = look_of(yard, trouble, today), frame_of(yard, trouble, today)
    words = Words(look.clock, basis=dict(look.basis))
    stood = standing_looks(look.everything)
    told = told_of(choice, trouble.number) if choice else None
    sheet = Sheet(
        name="trouble",
        head=text(Run(voice="strong", words=(f"Trouble {trouble.number}",)), f" · {_where(yard, trouble)}"),
        verdicts=look.lines,
        answer=told.answer if told and not look.make_safe else look.answer,
        lead=(*_settled(yard, trouble), *(told.lead if told and not look.make_safe else _lead(look))),
        deciding=told.deciding if told and not look.make_safe else (),
        sections=(
            Section(
                heading="What was seen",
                aside="machine left, wheel right",
                blocks=(Figure(drawing=section_of(stood)), seen_table(look, stood, words)),
            ),
            _condition(yard, trouble, today, told.condition if told else ()),
            *(told.sections if told else _call_and_date(look)),
            _ahead(look, trouble.number, told is not None),
            *more,
            Section(heading="What must not be missed", place="right", blocks=(STOPS,)),
        ),
        revisions=frame.revisions,
        block=frame.block(f"Trouble {trouble.number}"),
    )
    return Drawn((sheet,), {**words.basis, **(told.basis if told else {})})


def _call_and_date(look: FirstLook) -> tuple[Section, ...]:
    """One call, one date, while there is no choice to make."""
    return (
        Section(heading="One call", place="right", blocks=(Note(words=text(look.call)),)),
        Section(heading="One date", place="right", blocks=(Note(words=look.date),)),
    )


STOPS = Caution(
    lead="A chip, a loose bolt, a clunk:",
    words=text("FIELD no, ROAD no, whatever else was seen. The machine’s own book comes first."),
)


def _where(yard: Yard, trouble: Trouble) -> str:
    drive = yard.drive(trouble.drive).name if trouble.drive else ""
    return ", ".join(filter(None, (corner_words(yard, trouble.corner), drive)))


def _settled(yard: Yard, trouble: Trouble) -> Text:
    """The course that was taken; what is best by now may be another."""
    course = yard.course(trouble.number)
    return (Run(voice="strong", words=(f"Settled: {course}.",)), " ") if course else ()


def _lead(look: FirstLook) -> Text:
    """What it means, unless the answer says it already."""
    means = look.outcome.means
    said = "".join(piece for piece in look.answer if isinstance(piece, str)).lower()
    return () if means in said else text(f"{means[0].upper()}{means[1:]}.")


def _condition(yard: Yard, trouble: Trouble, today: date, chances: Text = ()) -> Section:
    """The word for the drive, as far as findings allow one: nobody calls it sound who has not looked at all of it."""
    now = corner_now(yard, trouble.corner, today)
    stands = now.standing
    block: Block
    if stands.looked and stands.word is None and now.verdicts.field.word != "yes":
        block = Note(words=text("Looked at in part: nothing seen so far speaks against it."))
    else:
        state = stands.word or ("sound" if stands.looked else "not looked at")
        told = stands.words if stands.word or not stands.looked else "as far as looked at"
        block = Figure(drawing=condition.drive(state), caption=text(f"{told[0].upper()}{told[1:]}."))
    more = (Note(words=("By all that was seen: ", *chances), size="small", voice="soft"),) if chances else ()
    return Section(heading="Condition, by word", aside="by findings alone", place="right", blocks=(block, *more))


def _ahead(look: FirstLook, number: int, chosen: bool) -> Section:
    """What the next look would mean; while it is stopped, Make safe; while the job is in hand, its step card."""
    if not look.make_safe and not look.verdicts.stopped:
        return would_mean(look)
    if not look.make_safe:
        words = text(
            Go(words="The step card", to=f"/trouble/{number}/step"), " says what comes next, and the way back."
        )
        return Section(heading="In hand", place="right", blocks=(Note(words=words),))
    words = text(Go(words="The Make safe sheet", to=f"/trouble/{number}/make-safe"), " comes before anything else.")
    if chosen:
        words = (*words, " Then: ", Go(words="what can be done", to=f"/trouble/{number}/choice"), ".")
    return Section(heading="Make safe", place="right", voice="must", blocks=(Note(words=words),))
