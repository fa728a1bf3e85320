"""Support, and wheel and lift, of a trouble whose course wants the corner raised."""

from __future__ import annotations

from axlewright.plan.judge.held import LiftInputs
from axlewright.plan.judge.held import walked_of as walked_of
from axlewright.plan.lift_of import lift_task
from axlewright.plan.quantities_of import judged_words, words_of
from axlewright.plan.reckon.choice_task import RAISES
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.support import support_sheet
from axlewright.plan.sheet.wheel_and_lift import wheel_and_lift_sheet
from axlewright.plan.support_of import support_inputs
from axlewright.trade.machines import machine_kinds
from axlewright.yard import Trouble, Yard

LOOKS = ("run with checks",)
"""Courses that raise the corner for a look alone: nothing comes off."""


def is_raised(yard: Yard, trouble: Trouble) -> bool:
    """Whether the course that was taken wants this corner raised, and the machine's kind is known."""
    known = machine_kinds().get(yard.machine(trouble.corner.machine).kind or "") is not None
    wanted = takes_off(yard, trouble) or (
        yard.course(trouble.number) in LOOKS and yard.stage(trouble.number) != "put by"
    )
    return wanted and known and trouble.corner.place.startswith("front")


def takes_off(yard: Yard, trouble: Trouble) -> bool:
    """Whether the course that was taken takes wheel or drive off."""
    return yard.course(trouble.number) in RAISES


def raised_sheets(yard: Yard, trouble: Trouble, frame: Frame, seed: int, count: int) -> tuple[Drawn, ...]:
    """The sheets to raise a corner by: table sheets, and shop sheets once somebody has walked round the machine."""
    inputs = support_inputs(yard, trouble, seed, count) if is_raised(yard, trouble) else None
    if inputs is None:
        return ()
    walked = walked_of(yard, trouble)
    support = support_sheet(inputs, frame, walked)
    if not takes_off(yard, trouble):
        return (support,)
    corner = f"{trouble.corner.machine}.{trouble.corner.place}"
    words = judged_words(words_of(yard, trouble), "LIFTING")
    lifted = LiftInputs(lift_task(yard, trouble), words, f"{corner}/lift", seed, count)
    return (support, wheel_and_lift_sheet(lifted, frame, walked))
