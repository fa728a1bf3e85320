"""By which draws a trouble is reckoned: the same on every sheet, on the step card and on the screen."""

from __future__ import annotations

import hashlib

from axlewright.yard import Trouble

COUNT = 2048  # draws


def seed_of(trouble: Trouble) -> int:
    """The same trouble draws the same numbers."""
    return int(hashlib.sha256(trouble.id.encode()).hexdigest()[:8], 16)
