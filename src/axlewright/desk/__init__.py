"""What a person does, one function each, and who may: (yard, what was typed, now) -> change."""

from axlewright.desk.after_checks import LookAfter, SetDown, do_after_check, set_down, steps_left
from axlewright.desk.answers import KEPT, Answers, WalkedRound, answer, walk_round
from axlewright.desk.clock import ReadClock, read_clock
from axlewright.desk.findings import Correction, Mark, Seen, add_findings, correct_finding, open_trouble
from axlewright.desk.holds import BeginCard, DoStep, begin_card, do_step, here_of, pass_hold, undo_step
from axlewright.desk.machines import DesignIn, DriveHere, MachineIn, add_machine, design_in, drive_here, machine_in
from axlewright.desk.moves import MoveDrive, move_drive, place_named
from axlewright.desk.now import ROLES, Deed, Now, Role, allowed, carry_out, may, typed
from axlewright.desk.packs import DrawUp, draw_up, key_in, pack_kept
from axlewright.desk.photos import KeepPhoto, Photographed, keep_photo, photograph, thing_named, with_photo
from axlewright.desk.pictures import photo_name, photo_of
from axlewright.desk.readings import Take, TypeBack, place_of, take_reading, type_back
from axlewright.desk.seasons import CutWork, SetSeason, cut_work, set_season
from axlewright.desk.spares import DriveIn, Turned, drive_in, turn_drive
from axlewright.desk.stages import Reached, Settle, course_of, judged, left_open, put_by, settle
from axlewright.desk.taken_back import take_back, told
from axlewright.desk.title import Likes, like_so
from axlewright.desk.warranties import GiveWarranty, give_warranty

__all__ = [
    "KEPT",
    "ROLES",
    "Answers",
    "BeginCard",
    "Correction",
    "CutWork",
    "Deed",
    "DesignIn",
    "DoStep",
    "DrawUp",
    "DriveHere",
    "DriveIn",
    "GiveWarranty",
    "KeepPhoto",
    "Likes",
    "LookAfter",
    "MachineIn",
    "Mark",
    "MoveDrive",
    "Now",
    "Photographed",
    "Reached",
    "ReadClock",
    "Role",
    "Seen",
    "SetDown",
    "SetSeason",
    "Settle",
    "Take",
    "Turned",
    "TypeBack",
    "WalkedRound",
    "add_findings",
    "add_machine",
    "allowed",
    "answer",
    "begin_card",
    "carry_out",
    "correct_finding",
    "course_of",
    "cut_work",
    "design_in",
    "do_after_check",
    "do_step",
    "draw_up",
    "drive_here",
    "drive_in",
    "give_warranty",
    "here_of",
    "judged",
    "keep_photo",
    "key_in",
    "left_open",
    "like_so",
    "machine_in",
    "may",
    "move_drive",
    "open_trouble",
    "pack_kept",
    "pass_hold",
    "photo_name",
    "photo_of",
    "photograph",
    "place_named",
    "place_of",
    "put_by",
    "read_clock",
    "set_down",
    "set_season",
    "settle",
    "steps_left",
    "take_back",
    "take_reading",
    "thing_named",
    "told",
    "turn_drive",
    "type_back",
    "typed",
    "undo_step",
    "walk_round",
    "with_photo",
]
