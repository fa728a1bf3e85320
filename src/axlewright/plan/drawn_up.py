"""The sheets of a trouble, as far as its verdicts allow: a stop prints Make safe and nothing else."""

from __future__ import annotations

from datetime import date

from axlewright.plan.first_look import FirstLook
from axlewright.plan.pack import pack
from axlewright.plan.sheet.bolt_blanks import blank_grease_and_torque, blank_retighten_log
from axlewright.plan.sheet.first_look import blank_first_look
from axlewright.plan.sheet.first_look_trouble import first_look_sheet
from axlewright.plan.sheet.frame import Frame
from axlewright.plan.sheet.make_safe import make_safe
from axlewright.plan.sheet.revisions import frame_of
from axlewright.plan.sheet.trouble import look_of, trouble_sheet
from axlewright.sheets import Pack
from axlewright.yard import Trouble, Yard


def draw_up(yard: Yard, trouble: Trouble, today: date) -> Pack:
    """The pack of a trouble as it stands today."""
    look, frame = look_of(yard, trouble, today), frame_of(yard, trouble, today)
    if look.make_safe:
        return pack(make_safe(look, frame))
    return pack(first_look_sheet(look, frame), trouble_sheet(yard, trouble, today))


BLANKS = {
    "first-look": blank_first_look,
    "grease-and-torque": blank_grease_and_torque,
    "re-tighten-log": blank_retighten_log,
}


def blank(name: str = "first-look") -> Pack:
    """A blank sheet to print and fill in by hand: the First look, or another of `BLANKS`."""
    return pack(BLANKS[name]())


def before_a_machine(look: FirstLook, today: date | None) -> Pack:
    """The sheet of what was seen while no machine is named: the First look, or Make safe."""
    frame = Frame(on=today)
    return pack(make_safe(look, frame) if look.make_safe else first_look_sheet(look, frame))
