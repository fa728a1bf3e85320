"""Sheets to files: which look, which format, and never half written."""

from __future__ import annotations

import os
from argparse import Namespace
from dataclasses import replace
from datetime import date
from pathlib import Path

from axlewright.plan.drawn_up import before_a_machine, draw_up
from axlewright.plan.first_look import FirstLook
from axlewright.render import ENDINGS, render
from axlewright.render.show import Show, show_of
from axlewright.sheets import Pack
from axlewright.yard import Fault, Faults, Yard


def show(args: Namespace, yard: Yard | None) -> Show:
    """Units, decimal mark and paper: as asked for, else as the yard likes them."""
    likes = show_of(yard.title) if yard else Show()
    return replace(
        likes,
        measures=args.measures or likes.measures,
        decimal=args.decimal or likes.decimal,
        paper=args.paper or likes.paper,
    )


def of_look(look: FirstLook, yard: Yard | None, trouble: int | None, today: date | None) -> Pack:
    """The sheet of what was just seen: its trouble's pack, or the First look before a machine is named."""
    if yard and trouble and today:
        return draw_up(yard, yard.trouble(trouble), today)
    return before_a_machine(look, today)


def write(args: Namespace, pack: Pack, yard: Yard | None) -> None:
    """Write the pack to the file of --to; its ending says the format."""
    save(Path(args.to), pack, show(args, yard))
    if not args.json and not args.quiet:
        print(f"Written: {args.to}")


def save(to: Path, pack: Pack, how: Show) -> None:
    """Write a file whole or not at all.

    Raises:
        Faults: its ending says no format
    """
    if to.suffix.lower() not in ENDINGS:
        raise Faults(
            Fault("--to", f"{to.name} has no ending that says a format.", "End it in .pdf, .html, .txt or .json.")
        )
    whole(to, render(pack, how, ENDINGS[to.suffix.lower()]))


def whole(to: Path, data: bytes) -> None:
    """Write a file whole or not at all."""
    to.parent.mkdir(parents=True, exist_ok=True)
    beside = to.with_name(f".{to.name}.{os.getpid()}")
    try:
        beside.write_bytes(data)
        os.replace(beside, to)
    finally:
        beside.unlink(missing_ok=True)
