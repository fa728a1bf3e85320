"""Which yard a command speaks of, which day it is taken to be, and who does it."""

from __future__ import annotations

import os
from argparse import Namespace
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from axlewright import store
from axlewright.desk import Now, photo_of
from axlewright.yard import Beside, Fault, Faults

USUAL = Path("yard")
DEMO_COPY = Path("out") / "yard"


def where(args: Namespace) -> str:
    """Where the yard is kept: as said, else from the environment, else ./yard or ./yard.db, else the copy of the demo yard."""
    said: str | None = args.yard or os.environ.get("AXLEWRIGHT_YARD")
    if said:
        return said
    for usual in (USUAL, USUAL.with_suffix(".db"), DEMO_COPY):
        if store.there(usual):
            return str(usual)
    raise Faults(
        Fault(
            "yard",
            "There is no yard here.",
            "Name its folder or database with --yard, or lay one out: axlewright lay-out yard",
        )
    )


def opened(args: Namespace) -> store.Store:
    return store.at(where(args), date.today)


def demo(to: Path) -> Path:
    """A copy of the demo yard to play with; one that is there already is left as it is."""
    folder = to / "yard"
    if not (folder / "yard.toml").exists():
        folder.parent.mkdir(parents=True, exist_ok=True)
        store.lay_out(folder, store.DEMO)
    return folder


def day(args: Namespace) -> date | None:
    """The date that --on takes as today."""
    said = getattr(args, "on", None)
    if not said:
        return None
    try:
        return date.fromisoformat(said)
    except ValueError:
        raise Faults(Fault("--on", f"{said} is no date.", "Write year-month-day: 2026-08-28")) from None


def photo(args: Namespace) -> Beside | None:
    """The photo that --photo names, as it will be kept.

    Raises:
        Faults: it cannot be read, or is no photo
    """
    if not args.photo:
        return None
    try:
        data = Path(args.photo).read_bytes()
    except OSError:
        raise Faults(Fault("--photo", f"There is no file {args.photo} to read.", "Name the photo's file.")) from None
    return photo_of(data, "--photo")


def answers(words: Sequence[str]) -> dict[str, str]:
    """Answers as NAME=VALUE pairs.

    Raises:
        Faults: one that is no pair, or a name that comes twice
    """
    found: dict[str, str] = {}
    for word in words:
        name, given, value = word.partition("=")
        name = name.strip().lower()
        if not given:
            raise Faults(Fault(word, "This is no answer.", "Write NAME=VALUE, as bolts/grease=anti-seize"))
        if name in found:
            raise Faults(Fault(name, f"It is typed twice, as {found[name]} and as {value}.", "Type it once."))
        found[name] = value
    return found


def now(args: Namespace) -> Now:
    """The time, the person, and new ids."""
    return Now.by(getattr(args, "who", ""))
