"""One step of a card that is in hand: as printed, with what was read already, every band it is held against, the way back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from axlewright.plan.in_hand.worked import Worked
from axlewright.plan.quantities_of import quantities_of, walked_round
from axlewright.plan.sheet.band_words import BandWords
from axlewright.plan.sheet.frame import Drawn, Numbers
from axlewright.plan.sheet.revisions import frame_of
from axlewright.plan.sheet.step_card import step_sheet
from axlewright.plan.sheet.steps import FALLS, StepsFacts
from axlewright.plan.sheet.steps_page import spell
from axlewright.plan.sheet.walk_round import Walked, graded
from axlewright.plan.steps.day import Piece, pieces, way_back
from axlewright.plan.steps.jobs import Here
from axlewright.sheets import HoldPoint, Lines, Note, Run, Section
from axlewright.trade.machines import machine_kinds
from axlewright.trade.networks import Job, Step
from axlewright.yard import Trouble, Yard

LYING = (Lines, HoldPoint)
"""What a page asks for in fields of its own, and a sheet leaves lines for."""


def facts_of(yard: Yard, trouble: Trouble, stands: Worked) -> StepsFacts:
    """What the Steps sheets of a card in hand are drawn from: its own bands, as they were cut."""
    card = stands.card
    frame = frame_of(yard, trouble, card.on)
    walked = walked_round(yard, trouble)
    made = (
        Walked(walked.who or "nobody named", walked.on, f"{walked.at:%H:%M}" if walked.at else "") if walked else None
    )
    here = Here(
        drive=card.drive,
        by=card.by,
        when=frozenset(card.when),
        kept=frozenset(card.kept),
        scope=card.scope or "",
        size=card.size,
        hands=card.hands,
        first_time=card.first_time,
    )
    lifts = any(one.part == "walk-round" for one in stands.job.steps)
    frame = replace(frame, revision=card.revision, on=card.on, grade=graded(made, card.revision) if lifts else None)
    return StepsFacts(job=stands.job, here=here, frame=frame, bands=stands.bands)


def step_now(yard: Yard, trouble: Trouble, stands: Worked, step: Step) -> Drawn:
    """The sheet of a step as it stands: what to do, its cautions, its bands, what is round it, if it falls, the way back."""
    part, number = stands.place(step.task.id)
    facts = facts_of(yard, trouble, stands)
    done = {
        n: f"{record.time}".strip() or "done"
        for n, one in enumerate(stands.cards[part], 1)
        if one.task.id in stands.done and (record := stands.done[one.task.id])
    }
    read = {name: taken.value for name, taken in stands.taken.items() if isinstance(taken.value, float)}
    made = step_sheet(stands.rows, facts, number, part, done, read, jack_of(yard, trouble))
    sheet = made.sheets[0]
    numbers = Numbers(dict(made.basis))
    first, *rest = sheet.sections
    told = first.model_copy(update={"blocks": tuple(b for b in first.blocks if not isinstance(b, LYING))})
    sections = [told, *_asked(stands, step, numbers), *rest, *_back(stands, facts, step)]
    if not any(section.heading == "If it falls" for section in sections):
        sections.append(Section(heading="If it falls", voice="must", blocks=(FALLS,), place="right"))
    return Drawn((sheet.model_copy(update={"sections": tuple(sections)}),), numbers.entries)


def _asked(stands: Worked, step: Step, numbers: Numbers) -> list[Section]:
    """The bands that a hold is held against, beyond those of its own readings."""
    own, rows = {r.id for r in step.task.readings}, stands.rows
    words = BandWords(rows, numbers)
    found = []
    for name in stands.readings_at(step.task):
        if name in own or name not in rows.band:
            continue
        reading = stands.reading(name)
        block = words.block(step.task, reading, rows.band[name], stands.bands.get(name))
        heading = f"{reading.quantity[0].upper()}{reading.quantity[1:]}"
        found.append(Section(heading=heading, aside=words.unit(reading.unit), blocks=(block,)))
    return found


def _back(stands: Worked, facts: StepsFacts, step: Step) -> list[Section]:
    """The way back to rest from this step, and the run that it stands in."""
    piece = piece_of(stands, facts.here, step)
    back = way_back(stands.rows, piece) if piece else None
    if piece is None or back is None:
        words = "The work rests here: it may stop after this step." if step.task.end_day else "On to the next rest."
        return [Section(heading="Way back", blocks=(Note(words=(words,)),), place="right")]
    _, last = stands.place(piece.steps[-1].task.id)
    rests = Note(
        words=(f"The day may not end before step {last}; a slow run takes {spell(piece.high)}.",),
        size="small",
        voice="soft",
    )
    return [
        Section(
            heading="Way back",
            aside=f"back in {spell(back.minutes)}",
            blocks=(Note(words=(Run(voice="strong", words=(back.how,)),)), rests),
            place="right",
        )
    ]


def piece_of(stands: Worked, here: Here, step: Step) -> Piece | None:
    """The run that may not be broken in which a step stands, if it stands in one."""
    part, _ = stands.place(step.task.id)
    shown: Sequence[Step] = stands.cards.get(part, ())
    own = Job(stands.job.id, stands.job.title, tuple(shown), stands.job.left_out)
    cut = pieces(stands.rows, own, here)
    return next((one for one in cut if one.block and step.task.id in {s.task.id for s in one.steps}), None)


def jack_of(yard: Yard, trouble: Trouble) -> tuple[str, str, tuple[float, float]] | None:
    """Kind of machine, corner, and where the jack stands, forward and left of the axle's middle [m]; None where nobody knows."""
    kind = yard.machine(trouble.corner.machine).kind or ""
    numbers = quantities_of(yard, trouble)
    names = ("machine/track", "machine/jack-inboard", "machine/jack-ahead")
    if kind not in machine_kinds() or any(name not in numbers for name in names):
        return None
    track, inboard, ahead = (numbers[name].spread.middle() for name in names)
    side = 1.0 if trouble.corner.place.endswith("left") else -1.0
    return kind, trouble.corner.place, (ahead, side * (track / 2 - inboard))
