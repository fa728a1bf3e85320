"""Files kept beside the records: what they may be called, and that what is kept is never written over."""

from __future__ import annotations

import re

from axlewright.yard import Fault, Faults

BESIDE = re.compile(r"packs/[0-9a-f]{16}\.json|photos/\w[\w .()+-]*\.\w{1,5}")


def must_be_beside(name: str, refuse: bool = True) -> bool:
    """Whether a file of this name can be kept beside the records.

    Raises:
        ValueError: it cannot, and is to be refused
    """
    fits = BESIDE.fullmatch(name) is not None
    if refuse and not fits:
        raise ValueError(f"{name} is no name of a file beside the records")
    return fits


def kept_already(name: str) -> Faults:
    """What is said to another file of a name that is taken."""
    return Faults(Fault(name, "Another file of this name is kept already.", "Rename it, then try again."))
