"""What a person does, one function each, and who may: (yard, what was typed, now) -> change."""

from axlewright.desk.bolts import LookedAtBolts, look_at_bolts
from axlewright.desk.clock import ReadClock, read_clock
from axlewright.desk.findings import Correction, Mark, Seen, add_findings, correct_finding, open_trouble
from axlewright.desk.machines import add_machine
from axlewright.desk.now import ROLES, Deed, Now, Role, allowed, carry_out, may, typed

__all__ = [
    "ROLES",
    "Correction",
    "Deed",
    "LookedAtBolts",
    "Mark",
    "Now",
    "ReadClock",
    "Role",
    "Seen",
    "add_findings",
    "add_machine",
    "allowed",
    "carry_out",
    "correct_finding",
    "look_at_bolts",
    "may",
    "open_trouble",
    "read_clock",
    "typed",
]
