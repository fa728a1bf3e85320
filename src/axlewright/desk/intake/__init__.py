"""What others wrote down comes into the yard: tables of text, hours that machines send, oil samples, rain."""

from axlewright.desk.intake.csv_table import MOST_BYTES, bytes_of
from axlewright.desk.intake.found import Ask, Comes, Found, TakeIn, Wrong
from axlewright.desk.intake.look import heard_of, look_through, take_in, taken

__all__ = [
    "MOST_BYTES",
    "Ask",
    "Comes",
    "Found",
    "TakeIn",
    "Wrong",
    "bytes_of",
    "heard_of",
    "look_through",
    "take_in",
    "taken",
]
