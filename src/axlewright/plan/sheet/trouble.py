"""The trouble's own sheet: verdicts, the answer, what was seen at its leaders, what the next look would mean."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from axlewright.plan.choice_made import Choice
from axlewright.plan.corners import corner_now
from axlewright.plan.facts import clock_now, job_open, seen_at
from axlewright.plan.first_look import FirstLook, first_look
from axlewright.plan.judge import Words, course_stop, standing_looks
from axlewright.plan.sheet.choice_trouble import ToldOfIt, told_of
from axlewright.plan.sheet.first_look_trouble import section_of, seen_table, would_mean
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.revisions import corner_words, frame_of
from axlewright.plan.sheet.trouble_asks import BY_STEPS, Next, asks_of, find_out
from axlewright.plan.sheet.trouble_moved import Stands
from axlewright.sheets import (
    BasisEntry,
    Block,
    Caution,
    Day,
    Deciding,
    Figure,
    Go,
    Note,
    Run,
    Section,
    Sheet,
    Text,
    text,
)
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


@dataclass(frozen=True, slots=True)
class OnPage:
    """What the page of a trouble has and its sheet has not.

    Attributes:
        moved: what the last answer moved, and the basis of its numbers
        left_out: what somebody could not look at just now
        making: the choice is being made out: the rest does not wait for it
    """

    moved: tuple[Section, dict[str, BasisEntry]] | None = None
    left_out: tuple[str, ...] = ()
    making: bool = False


@dataclass(frozen=True, slots=True)
class TroubleDrawn:
    """The sheet of a trouble, how it stands, and what it asks for next, best first."""

    drawn: Drawn
    stands: Stands
    asks: tuple[Next, ...]


def trouble_sheet(
    yard: Yard, trouble: Trouble, today: date, choice: Choice | None = None, more: tuple[Section, ...] = ()
) -> Drawn:
    """What a trouble looks like today; with its choice, where there is one to make, and `more` sections after those."""
    return trouble_drawn(yard, trouble, today, choice, more).drawn


def trouble_drawn(
    yard: Yard,
    trouble: Trouble,
    today: date,
    choice: Choice | None = None,
    more: tuple[Section, ...] = (),
    page: OnPage | None = None,
) -> TroubleDrawn:
    """The sheet with what its page asks and tells besides."""
    aside = "tap a place to look there" if page else "machine left, wheel right"
    page = page or OnPage()
    look, frame = look_of(yard, trouble, today), frame_of(yard, trouble, today)
    words = Words(look.clock, basis=dict(look.basis))
    stood = standing_looks(look.everything)
    told = told_of(choice, trouble.number) if choice else None
    asks = asks_of(yard, trouble, look, choice, told.trace if told else None, page.left_out)
    number, put_by = trouble.number, yard.stage(trouble.number) == "put by"
    answer, lead, deciding = _answer(yard, trouble, look, told, put_by)
    sheet = Sheet(
        name="trouble",
        head=text(Run(voice="strong", words=(f"Trouble {number}",)), f" · {_where(yard, trouble)}"),
        verdicts=look.lines,
        answer=answer,
        lead=(*lead, *(MAKING if page.making else ())),
        deciding=deciding,
        sections=(
            *((page.moved[0],) if page.moved else ()),
            Section(
                heading="What was seen",
                aside="this corner today" if put_by else aside,
                blocks=(Figure(drawing=section_of(stood, number)), seen_table(look, stood, words, number)),
            ),
            *_asked(yard, trouble, asks, page.making),
            _condition(yard, trouble, today, told.condition if told else ()),
            *(() if put_by else _then(told, look)),
            *(() if put_by or look.verdicts.stopped else (would_mean(look),)),
            *more,
            Section(heading="What must not be missed", place="right", blocks=(STOPS,)),
        ),
        revisions=frame.revisions,
        block=frame.block(f"Trouble {number}"),
    )
    basis = {**words.basis, **(told.basis if told else {}), **(page.moved[1] if page.moved else {})}
    return TroubleDrawn(Drawn((sheet,), basis), Stands(look, choice), asks)


def _answer(
    yard: Yard, trouble: Trouble, look: FirstLook, told: ToldOfIt | None, put_by: bool
) -> tuple[Text, Text, tuple[Deciding, ...]]:
    """The heading, the lines under it with the one place to go to, and the deciding numbers.

    A stop comes before a course, a course that was taken before one that is best by now; one that is put by is told as it ended.
    """
    settled, number = _settled(yard, trouble), trouble.number
    if put_by:
        return _ended(yard, number), (*settled, *_since(yard, trouble)), ()
    if look.make_safe:
        then = (" Then: ", Go(words="what can be done", to=f"/trouble/{number}/choice"), ".") if told else ()
        safe = Go(words="The Make safe sheet", to=f"/trouble/{number}/make-safe")
        return look.answer, (*settled, *_lead(look), " ", safe, " comes first.", *then), ()
    if look.verdicts.stopped:
        card = Go(words="The step card", to=f"/trouble/{number}/step")
        return look.answer, (*settled, card, " says what comes next, and the way back."), ()
    if settled and yard.stage(number) in AHEAD:
        best: Text = (
            ("By today’s numbers best: ", *told.best, " ") if told and told.course != yard.course(number) else ()
        )
        struck = _struck_out(yard, trouble, look)
        return settled[:1], (*struck, *best, told.link) if told else (*struck, *_lead(look)), ()
    return (told.answer, (*settled, *told.lead), told.deciding) if told else (look.answer, (*settled, *_lead(look)), ())


def _ended(yard: Yard, number: int) -> Text:
    """`Put by 10 Feb 2024. New lip and sleeve.`"""
    end = yard.stages_of(number)[-1]
    note = f" {end.note.rstrip('.')}." if end.note else ""
    return ("Put by ", Day(on=end.on), f".{note}")


def _since(yard: Yard, trouble: Trouble) -> Text:
    """Where what runs at its corner by now is told."""
    running = yard.running_at(trouble.corner)
    if running is None:
        return text("The lines above are this corner as it stands today.")
    name = f"Trouble {running.number}"
    return text("The lines above are this corner today: ", Go(words=name, to=f"/trouble/{running.number}"), " runs there.")  # fmt: skip


AHEAD = ("settled", "drawn up")
"""Stages in which a course is taken and not yet begun."""


def _struck_out(yard: Yard, trouble: Trouble, look: FirstLook) -> Text:
    """That a course was taken which what was seen strikes out: before any sheet of it, why, and what would lift that."""
    course = yard.course(trouble.number)
    stop = course_stop(course, look.verdicts) if course else None
    if stop is None:
        return ()
    return (Run(voice="must", words=("Struck out, as things stand:",)), f" {stop.why} Lifted by: {stop.lifted_by} ")


MAKING = text(" What can be done, what it costs and by when is being made out: this page asks again by itself.")


def _asked(yard: Yard, trouble: Trouble, asks: tuple[Next, ...], making: bool) -> tuple[Section, ...]:
    """What to find out next; while the step card or the after-checks ask, nothing here."""
    if yard.stage(trouble.number) in BY_STEPS:
        return ()
    return (find_out(asks, trouble.number, making=making),)


def _then(told: ToldOfIt | None, look: FirstLook) -> tuple[Section, ...]:
    return (told.forecast,) if told else _call_and_date(look)


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
    """Machine and corner, the drive, and the one that sits there by now."""
    old, now = yard.drive(trouble.drive) if trouble.drive else None, yard.drive_at(trouble.corner)
    machine = yard.machine(trouble.corner.machine).name
    told = old.name.removeprefix(f"{machine}, ") if old else ""
    if old and now and now.id != old.id:
        told += f"; now {now.name.removeprefix(f'{machine}, ')}"
    return ", ".join(filter(None, (corner_words(yard, trouble.corner), told)))


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
