"""A step card is begun, its steps are done, its holds are passed: never before what they guard is there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Annotated

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, checked, may, record
from axlewright.desk.readings import clock_time, in_hand, sent_before
from axlewright.plan.drawn_up import stopped
from axlewright.plan.draws_of import COUNT, seed_of
from axlewright.plan.in_hand.card import TAKEN_WHEN, bands_for, jobs_of, raises
from axlewright.plan.in_hand.worked import Worked, worked
from axlewright.plan.raised import walked_of
from axlewright.plan.sheet.revisions import frame_of
from axlewright.plan.sheet.support import support_sheet
from axlewright.plan.sheet.trouble import look_of
from axlewright.plan.steps.jobs import Here
from axlewright.plan.support_of import support_inputs
from axlewright.plan.work_of import WHEN, Work, work_of
from axlewright.trade.networks import Job
from axlewright.trade.steps_read import steps
from axlewright.yard import Change, Fault, Faults, Reading, Record, Stage, StepCard, Trouble, Yard, closest
from axlewright.yard.asked import open_boxes
from axlewright.yard.card_values import DONE, UNDONE
from axlewright.yard.cards import Taken, TimeOfDay
from axlewright.yard.records import Line, Prose, Word


class BeginCard(Deed):
    """A step card to be begun: its job, where it is not the course's main one, and what holds here."""

    trouble: int = Field(ge=1, examples=[3])
    job: Annotated[Line | None, Blank] = Field(None, examples=["swap-saddle"])
    when: tuple[Word, ...] | None = Field(None, examples=[["brake-at-drive"]])
    hands: Annotated[int | None, Blank] = Field(None, ge=1, le=9, examples=[2])
    first_time: bool = False
    note: Prose = ""


@may("owner", "helper")
def begin_card(yard: Yard, deed: BeginCard, now: Now) -> Change:
    """Begin the step card of a trouble; its bands are cut now. A newer one makes an older void, and only at a rest.

    Raises:
        Faults: no course, or none with a card; a stop; the walk-round is not made; the work hangs; no hands
    """
    trouble = yard.trouble(deed.trouble)
    known, here, work = _work(yard, trouble, deed, now)
    _may_begin(yard, trouble, work, deed, now)
    before = worked(yard, trouble)
    if before and not before.at_rest:
        what = f"The work does not rest: {before.name(before.now.task.id) if before.now else 'it hangs'} comes next."
        raise Faults(Fault("trouble", what, "Between two rests the paper rules. Go on by it, or take the way back."))
    number, day = trouble.number, deed.day(yard, now)
    given = deed.id or now.new_id()
    if any(card.id == f"{given}-card" for card in yard.step_cards):
        return Change()
    stages = yard.stages_of(number)
    at = now.after([*(s.at for s in stages), *(c.at for c in yard.step_cards if c.trouble == number)])
    kept = {"trouble": number, "on": day, "who": now.who, "at": at}
    new: list[Record] = []
    if yard.stage(number) not in ("in hand", "set down", "looked after"):
        new.append(record(Stage, id=f"{given}-in-hand", stage="in hand", note="step card begun", **kept))
    frame = frame_of(yard.with_(Change(tuple(new))), trouble, day)
    card = record(
        StepCard,
        id=f"{given}-card",
        revision=frame.revision,
        course=yard.course(number),
        job=work.id,
        drive=here.drive,
        by=here.by,
        when=tuple(sorted(here.when)),
        size=here.size,
        hands=deed.hands or here.hands or 2,
        first_time=deed.first_time or here.first_time,
        bands=bands_for(yard, trouble, work, known.figures, _rock(known), known.wrench_marks),
        note=deed.note,
        **kept,
    )
    return checked(yard, (*new, card), now)


def here_of(known: Work, when: Iterable[str] | None = None) -> Here:
    """What a job depends on: as was answered; a condition that nobody answered is taken as the one with more steps."""
    if when is not None:
        return replace(known.here, when=frozenset(when))
    unsaid = {name for name in TAKEN_WHEN if WHEN[name][0] not in known.words}
    return replace(known.here, when=known.here.when | unsaid)


def _rock(known: Work) -> float | None:
    """The book's limit for rock [m], where somebody typed it."""
    limit = known.numbers.get("drive/rock-limit")
    return limit.spread.middle() if limit and limit.basis != "assumed" else None


def _work(yard: Yard, trouble: Trouble, deed: BeginCard, now: Now) -> tuple[Work, Here, Job]:
    """What is known of the work, what the job depends on, and the job.

    Raises:
        Faults: no course was taken; it has no such job
    """
    known = work_of(yard, trouble, deed.day(yard, now))
    if known is None:
        right = f"Settle it first: axlewright settle {trouble.number} fit-spare"
        raise Faults(Fault("trouble", f"No course was taken for trouble {trouble.number}.", right))
    rows = steps()
    if deed.when is not None:
        strange = [word for word in deed.when if word not in rows.words.when]
        if strange:
            raise Faults(*(Fault("when", f"There is no {w} here.", closest(w, rows.words.when)) for w in strange))
    here = here_of(known, deed.when)
    found = jobs_of(rows, known.taken, here)
    if not found:
        what = f"No way is known to {known.taken} on such a drive, {here.by} under it."
        raise Faults(Fault("job", what, "Say how it is built and lifted: drive/built, lift-by."))
    work = found[0] if deed.job is None else next((one for one in found if one.id == deed.job), None)
    if work is None:
        names = [one.id for one in found]
        raise Faults(Fault("job", f"{known.taken} has no job {deed.job}.", closest(deed.job, names)))
    return known, here, work


def _may_begin(yard: Yard, trouble: Trouble, work: Job, deed: BeginCard, now: Now) -> None:
    """Raises:
    Faults: a stop withholds the steps; the walk-round is not made; it was put by; too few hands
    """
    number = trouble.number
    if yard.stage(number) == "put by":
        raise Faults(Fault("trouble", f"Trouble {number} is put by.", "What is seen now opens a new one."))
    if stopped(yard, trouble, look_of(yard, trouble, deed.day(yard, now))):
        right = f"Draw up Make safe: axlewright draw-up {number}. It says what would lift the stop."
        raise Faults(Fault("trouble", f"Trouble {number} is stopped: its steps are withheld.", right))
    most = max(step.task.hands for step in work.steps)
    if deed.hands is not None and deed.hands < most:
        step = next(step for step in work.steps if step.task.hands > deed.hands)
        what = f"{step.task.title}: it takes {step.task.hands} people, {deed.hands} is here."
        raise Faults(Fault("hands", what, "Name a second adult, or leave it."))
    if raises(work) and walked_of(yard, trouble) is None:
        left = len(open_boxes(yard, trouble))
        what = f"{left} boxes of the walk-round are open: its sheets are NOT FOR LIFTING."
        raise Faults(Fault("trouble", what, f"Walk round first: axlewright walk-round {number}"))
    if raises(work):
        _may_hold(yard, trouble, deed.day(yard, now))


def _may_hold(yard: Yard, trouble: Trouble, day: date) -> None:
    """Raises:
    Faults: nothing says that the corner can be held, or it is said that it cannot
    """
    inputs = support_inputs(yard, trouble, seed_of(trouble), COUNT)
    if inputs is None:
        right = "Say what kind of machine it is; only a front corner is held by these sheets."
        raise Faults(Fault("trouble", "No Support sheet is drawn for such a machine or corner.", right))
    sheet = support_sheet(inputs, frame_of(yard, trouble, day), walked_of(yard, trouble)).sheets[0]
    if any(line.stops for line in sheet.verdicts):
        right = "The Support sheet says what would lift the stop."
        raise Faults(Fault("trouble", "HOLD is a stop: its steps are withheld.", right))


class DoStep(Deed):
    """A step that was done, or a hold that is passed; `seen_by` looked second."""

    trouble: int = Field(ge=1, examples=[3])
    step: Line = Field(examples=["ra-settle"])
    seen_by: Line = Field("", examples=["helper"])
    time: TimeOfDay = Field("", examples=["14:20"])
    taken: Taken = "page"
    note: Prose = ""


@may("owner", "helper")
def do_step(yard: Yard, deed: DoStep, now: Now) -> Change:
    """Write that a step was done. A hold is passed the same way: by readings inside their bands, or a second look.

    Raises:
        Faults: no such step; a step or hold before it is open; a reading is missing or outside its band; nobody looked
            second; says which
    """
    _, stands = in_hand(yard, deed.trouble)
    step = stands.steps.get(deed.step)
    if step is None:
        raise Faults(Fault("step", f"There is no step {deed.step} on this card.", closest(deed.step, stands.steps)))
    made = _mark(stands, yard, deed, now, DONE)
    if sent_before(yard, made) or (deed.step in stands.done and not deed.seen_by):
        return Change()
    after = worked(yard.with_(Change((made,))), yard.trouble(deed.trouble))
    assert after
    if deed.step not in after.done:
        name = stands.name(deed.step)
        wants = after.wants(deed.step)
        raise Faults(*(Fault(want.reading or "step", f"{name}: not yet.", want.words) for want in wants))
    return checked(yard, (made,), now)


@may("owner", "helper")
def pass_hold(yard: Yard, deed: DoStep, now: Now) -> Change:
    """As `do_step`, of a step that is a hold.

    Raises:
        Faults: as `do_step`; the step is no hold
    """
    task = steps().task.get(deed.step)
    if task is not None and task.hold is None:
        raise Faults(Fault("step", f"{deed.step} is no hold.", "Write that it was done."))
    return do_step(yard, deed, now)


@may("owner", "helper")
def undo_step(yard: Yard, deed: DoStep, now: Now) -> Change:
    """Write that a step was not done after all; what comes after it counts no longer.

    Raises:
        Faults: no such step
    """
    _, stands = in_hand(yard, deed.trouble)
    if deed.step not in stands.steps:
        raise Faults(Fault("step", f"There is no step {deed.step} on this card.", closest(deed.step, stands.steps)))
    made = _mark(stands, yard, deed, now, UNDONE)
    return Change() if sent_before(yard, made) else checked(yard, (made,), now)


def _mark(stands: Worked, yard: Yard, deed: DoStep, now: Now, value: str) -> Reading:
    return record(
        Reading,
        id=f"{deed.id or now.new_id()}-{deed.step}.{value.replace(' ', '-')}",
        trouble=deed.trouble,
        step=deed.step,
        value=value,
        taken=deed.taken,
        revision=stands.card.revision,
        seen_by=deed.seen_by,
        on=deed.day(yard, now),
        time=deed.time or clock_time(deed.taken, now),
        note=deed.note,
        who=now.who,
        at=now.after(one.at for one in yard.readings if one.trouble == deed.trouble),
    )
