"""What a person does, one function each, and who may: (yard, what was typed, now) -> change."""

from axlewright.desk.answers import KEPT, Answers, WalkedRound, answer, walk_round
from axlewright.desk.clock import ReadClock, read_clock
from axlewright.desk.findings import Correction, Mark, Seen, add_findings, correct_finding, open_trouble
from axlewright.desk.machines import add_machine
from axlewright.desk.now import ROLES, Deed, Now, Role, allowed, carry_out, may, typed
from axlewright.desk.stages import Reached, Settle, course_of, judged, put_by, settle

__all__ = [
    "KEPT",
    "ROLES",
    "Answers",
    "Correction",
    "Deed",
    "Mark",
    "Now",
    "Reached",
    "ReadClock",
    "Role",
    "Seen",
    "Settle",
    "WalkedRound",
    "add_findings",
    "add_machine",
    "allowed",
    "answer",
    "carry_out",
    "correct_finding",
    "course_of",
    "judged",
    "may",
    "open_trouble",
    "put_by",
    "read_clock",
    "settle",
    "typed",
    "walk_round",
]
