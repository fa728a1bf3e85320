"""Each side's trade words: sheets are written once and read in the words of their measures. A pack stays the same."""

from __future__ import annotations

import re
from functools import lru_cache

US = {"tyre": "tire", "spigot": "pilot", "low-loader": "lowboy", "colour": "color", "grey": "gray"}
"""What stands on a sheet, and what the US side of the trade says. Common practice, no source."""
FOUND = re.compile(rf"\b({'|'.join(US)})(?=s?\b)", re.IGNORECASE)


@lru_cache(maxsize=4096)
def in_us_words(words: str) -> str:
    """Words of a sheet as the US side of the trade says them.

    >>> in_us_words("Tyres cold: tape the tyre’s width")
    'Tires cold: tape the tire’s width'
    """
    return FOUND.sub(lambda found: as_large(found[0], US[found[0].lower()]), words)


UNITS = {"t": "lb", "kg": "lb", "mm": "in", "m": "ft", "kPa": "psi"}
"""Units of lines that are filled in at the machine, and what a US tape, plate or scale reads."""
INCH = 25.4  # mm, exactly: international yard and pound agreement of 1959
ROUGH = re.compile(r"(\d+) to (\d+)")


@lru_cache(maxsize=256)
def in_us_units(said: str) -> str:
    """The units a line is filled in with, as US tools read them; a range in mm to a digit.

    >>> in_us_units("kg, mm")
    'lb, in'
    >>> in_us_units("mm, 10 to 20"), in_us_units("%, stop over 3"), in_us_units("seen by")
    ('in, 0.4 to 0.8', '%, stop over 3', 'seen by')
    """
    if ROUGH.search(said) and "mm" in said:
        said = ROUGH.sub(lambda found: f"{int(found[1]) / INCH:.1g} to {int(found[2]) / INCH:.1g}", said)
    return ", ".join(" ".join(UNITS.get(word, word) for word in part.split(" ")) for part in said.split(", "))


def as_large(before: str, after: str) -> str:
    """With a capital where there was one."""
    return after[:1].upper() + after[1:] if before[:1].isupper() else after
