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


def as_large(before: str, after: str) -> str:
    """With a capital where there was one."""
    return after[:1].upper() + after[1:] if before[:1].isupper() else after
