"""The sheets of a trouble, as far as its verdicts allow.

A stop of FIELD prints Make safe and nothing else, until a course is taken that takes the drive off: the stop is what that
work is for. Then Make safe comes first, and only a stop of HOLD, LIFT or JOINT withholds the steps.
"""

from __future__ import annotations

from datetime import date

from axlewright.plan.bolts_of import bolt_task, bolts_known
from axlewright.plan.choice_made import Choice, choice_of
from axlewright.plan.choice_of import is_chosen
from axlewright.plan.draws_of import COUNT, seed_of
from axlewright.plan.first_look import FirstLook
from axlewright.plan.judge import course_stop, judge_corner
from axlewright.plan.pack import pack
from axlewright.plan.raised import is_raised, raised_sheets, takes_off
from axlewright.plan.reckon.joints import Joint, joint
from axlewright.plan.sheet.basis import basis_sheets
from axlewright.plan.sheet.bolt_blanks import blank_grease_and_torque, blank_retighten_log
from axlewright.plan.sheet.bolts import bolts_sheet
from axlewright.plan.sheet.choice import choice_sheet, no_choice_sheet
from axlewright.plan.sheet.choice_words import moved_by
from axlewright.plan.sheet.first_look import blank_first_look
from axlewright.plan.sheet.first_look_trouble import first_look_sheet
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.grades import grades_sheets
from axlewright.plan.sheet.make_safe import make_safe
from axlewright.plan.sheet.raised_corner import blank_raised_corner
from axlewright.plan.sheet.revisions import frame_of
from axlewright.plan.sheet.sellers_yard import blank_buyers_list
from axlewright.plan.sheet.trouble import look_of, trouble_sheet
from axlewright.plan.work_of import work_of
from axlewright.plan.work_sheets import WorkDrawn, work_named, work_sheets
from axlewright.plan.work_told import engine_at_set_down
from axlewright.plan.work_waits import UNSETTLED, waits_section
from axlewright.plan.workings import Refused
from axlewright.sheets import Pack, Run, Text, text
from axlewright.trade.steps_read import steps
from axlewright.yard import Hours, Trouble, Yard


def draw_up(yard: Yard, trouble: Trouble, today: date) -> Pack:
    """The pack of a trouble as it stands today."""
    look, frame = look_of(yard, trouble, today), frame_of(yard, trouble, today)
    if stopped(yard, trouble, look):
        return pack(make_safe(look, frame, _runs_now(yard, trouble)), seed=seed_of(trouble), count=COUNT)
    choice = chosen(yard, trouble, today)
    made_out = _choice(choice, look, frame)
    task = bolt_task(yard, trouble)
    reckoned = joint(task, f"trouble-{trouble.number}/bolts", seed_of(trouble), COUNT) if task else None
    bolts = bolts_sheet(reckoned, frame, *_looked_at_again(yard, trouble)) if reckoned else None
    raised = raised_sheets(yard, trouble, frame, seed_of(trouble), COUNT)
    work = worked_sheets(yard, trouble, today, frame, raised, bolts, reckoned)
    first = make_safe(look, frame, _follows(yard, trouble)) if look.make_safe else first_look_sheet(look, frame)
    sheets = (
        first,
        trouble_sheet(
            yard,
            trouble,
            today,
            choice if isinstance(choice, Choice) else None,
            waits_section(work.waits, trouble.number),
        ),
        *made_out,
        *work.early,
        *raised,
        *((bolts,) if bolts else ()),
        *work.late,
    )
    return pack(*sheets, *_basis(sheets, frame, choice), seed=seed_of(trouble), count=COUNT)


def _looked_at_again(yard: Yard, trouble: Trouble) -> tuple[Hours | None, tuple[float, ...]]:
    """When the flange bolts are looked at again: the clock at set-down, and the hours of that after-check."""
    engine = engine_at_set_down(yard, trouble)
    row = next(one for one in steps().after_checks if one.id == "flange-bolts")
    return None if engine is None else Hours(engine), row.hours


def stopped(yard: Yard, trouble: Trouble, look: FirstLook) -> bool:
    """Whether Make safe stands alone: it is unsafe, and no course was taken that takes the drive off and is not struck out."""
    if not look.make_safe:
        return False
    course = yard.course(trouble.number)
    if course is None or not takes_off(yard, trouble) or yard.stage(trouble.number) == "put by":
        return True
    return course_stop(course, judge_corner(look.everything)) is not None


def _follows(yard: Yard, trouble: Trouble) -> Text:
    """What Make safe says of the sheets behind it."""
    return text(
        Run(voice="strong", words=(f"Settled: {yard.course(trouble.number)}.",)),
        " Its sheets follow; until the corner stands on wood by them, this one rules.",
    )


def _runs_now(yard: Yard, trouble: Trouble) -> Text:
    """Of a trouble that was put by: which one at its corner is what stops it now."""
    now = yard.running_at(trouble.corner)
    if now is None or now.number == trouble.number:
        return ()
    return text(
        Run(voice="strong", words=(f"Trouble {trouble.number} was put by.",)),
        f" What stops this corner now is trouble {now.number}.",
    )


def worked_sheets(
    yard: Yard,
    trouble: Trouble,
    today: date,
    frame: Frame,
    raised: tuple[Drawn, ...],
    bolts: Drawn | None,
    reckoned: Joint | None,
) -> WorkDrawn:
    """The sheets of the work; none once the trouble is put by."""
    if yard.stage(trouble.number) == "put by":
        return WorkDrawn()
    work = work_of(yard, trouble, today)
    return work_sheets(work, frame, raised, bolts, reckoned) if work else WorkDrawn(waits=(UNSETTLED,))


def chosen(yard: Yard, trouble: Trouble, today: date) -> Choice | Refused | None:
    """The choice of a trouble, if there is one to make; or why none can be made out."""
    try:
        return choice_of(yard, trouble, today, seed_of(trouble), COUNT)
    except Refused as no:
        return no


def _choice(choice: Choice | Refused | None, look: FirstLook, frame: Frame) -> tuple[Drawn, ...]:
    """The Choice sheet; in its place why there is none."""
    if choice is None:
        return ()
    if isinstance(choice, Refused):
        return (no_choice_sheet(choice.because, look.lines, frame, dict(look.basis)),)
    return (choice_sheet(choice, look.lines, frame, dict(look.basis)),)


def choice_pack(yard: Yard, trouble: Trouble, today: date) -> Pack | None:
    """The choice and its basis alone: what can be done once a stopped trouble is made safe. None: there is none to make."""
    choice = chosen(yard, trouble, today)
    if choice is None:
        return None
    look, frame = look_of(yard, trouble, today), frame_of(yard, trouble, today)
    sheets = _choice(choice, look, frame)
    return pack(*sheets, *_basis(sheets, frame, choice), seed=seed_of(trouble), count=COUNT)


def _basis(sheets: tuple[Drawn, ...], frame: Frame, choice: Choice | Refused | None) -> tuple[Drawn, ...]:
    """The Basis sheets of all that stands on the others."""
    numbers = {name: entry for one in sheets for name, entry in one.basis.items()}
    moves, between = moved_by(choice) if isinstance(choice, Choice) else ((), "")
    return (
        (basis_sheets(numbers, frame, moves, between, [page for one in sheets for page in one.sheets]),)
        if numbers
        else ()
    )


def will_be_drawn(yard: Yard, trouble: Trouble, today: date) -> tuple[tuple[str, str], ...]:
    """Name and title of the sheets that `draw_up` would give, without drawing them."""
    look = look_of(yard, trouble, today)
    first = ("make-safe", "Make safe") if look.make_safe else ("first-look", "First look")
    if stopped(yard, trouble, look):
        return (first,)
    put_by = yard.stage(trouble.number) == "put by"
    early, late = ((), ()) if put_by else work_named(work_of(yard, trouble, today))
    made_out = (("choice", "Choice"),) if is_chosen(yard, trouble, today) else ()
    bolts = (("bolts", "Bolts"),) if bolts_known(yard, trouble) else ()
    lift = (("wheel-and-lift", "Wheel and lift"),) if takes_off(yard, trouble) else ()
    raised = (("support", "Support"), *lift) if is_raised(yard, trouble) else ()
    return (
        first,
        ("trouble", f"Trouble {trouble.number}"),
        *made_out,
        *early,
        *raised,
        *bolts,
        *late,
        ("basis", "Basis"),
    )


BLANKS = {
    "first-look": blank_first_look,
    "raised-corner": blank_raised_corner,
    "grease-and-torque": blank_grease_and_torque,
    "re-tighten-log": blank_retighten_log,
    "buyers-list": blank_buyers_list,
    "grades": grades_sheets,
}


def blank(name: str = "first-look") -> Pack:
    """A blank sheet to print and fill in by hand: the First look, or another of `BLANKS`."""
    return pack(BLANKS[name]())


def before_a_machine(look: FirstLook, today: date | None) -> Pack:
    """The sheet of what was seen while no machine is named: the First look, or Make safe."""
    frame = Frame(on=today)
    return pack(make_safe(look, frame) if look.make_safe else first_look_sheet(look, frame))
