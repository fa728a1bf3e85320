"""A command's table to a file for a spreadsheet."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path
from typing import Literal

from axlewright.cli import sheets
from axlewright.render import csv
from axlewright.yard import Fault, Faults, Yard

ENDING = ".csv"


def is_asked(args: Namespace) -> bool:
    """Whether --to names a table.

    Raises:
        Faults: it names a file of another ending
    """
    if not args.to:
        return False
    to = Path(args.to)
    if to.suffix.lower() != ENDING:
        raise Faults(Fault("--to", f"{to.name} does not say that it is a table.", f"End it in {ENDING}."))
    return True


def write(args: Namespace, table: csv.Table, yard: Yard | None = None, decimal: Literal[".", ","] = ".") -> None:
    """Write it whole or not at all, with the decimal mark that was asked for, else that of the yard."""
    said: Literal[".", ","] | None = getattr(args, "decimal", None)
    mark = said or (yard.title.decimal if yard else decimal)
    sheets.whole(Path(args.to), csv.written(table, mark))
    if not args.json and not args.quiet:
        print(f"Written: {args.to}")
