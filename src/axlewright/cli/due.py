"""due: what must be looked at next, by clock or day; as a table, JSON, a sheet or a calendar file."""

from __future__ import annotations

import json
from argparse import Namespace
from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path

from axlewright.cli import sheets, tables, yards
from axlewright.desk.calendar import calendar_of, decisions
from axlewright.desk.rows import due_said
from axlewright.desk.tables import due_table
from axlewright.plan.in_hand.due import Due
from axlewright.plan.pack import pack
from axlewright.plan.sheet.due import due_sheet, falls_due
from axlewright.render import csv
from axlewright.yard import Fault, Faults, Yard
from axlewright.yard.hours import spell

ICS = ".ics"


def run(args: Namespace) -> int:
    yard = yards.opened(args).read()
    now = yards.now(args)
    today = yards.day(args) or yard.today(now.at.date())
    decide = decisions(yard, today)
    found = within(falls_due(yard, today, decide), args.within, today)
    ending = Path(args.to).suffix.lower() if args.to else ""
    if ending == ICS:
        sheets.whole(Path(args.to), calendar_of(yard, today, decide))
    elif ending == tables.ENDING:
        sheets.whole(Path(args.to), csv.written(due_table(yard, today, found), sheets.show(args, yard).decimal))
    elif args.to:
        sheets.save(Path(args.to), pack(due_sheet(yard, today, decide)), sheets.show(args, yard))
    if args.json:
        print(json.dumps(due_said(yard, found, today), ensure_ascii=False, indent=1))
        return 0
    if args.to and not args.quiet:
        print(f"Written: {args.to}")
    elif not args.to:
        print("\n".join(lines(yard, found, today, quiet=args.quiet)))
    return 0


def within(found: Sequence[Due], said: str | None, today: date) -> tuple[Due, ...]:
    """What falls due within so many hours of the clock, or days.

    Raises:
        Faults: neither hours nor days
    """
    if not said:
        return tuple(found)
    number, _, unit = said.strip().partition(" ") if " " in said.strip() else (said.strip("hd "), "", said.strip()[-1:])
    if not number.isdigit() or unit.strip() not in ("h", "d", "day", "days"):
        raise Faults(Fault("--within", f"{said} is neither hours nor days.", "Write 50h or 14d."))
    if unit.strip() == "h":
        return tuple(one for one in found if one.stops or (one.left is not None and one.left <= int(number)))
    last = today + timedelta(days=int(number))
    return tuple(one for one in found if one.stops or (one.day is not None and one.day <= last))


def lines(yard: Yard, found: Sequence[Due], today: date, *, quiet: bool) -> list[str]:
    """A line each, what runs out first on top."""
    head = [] if quiet else [f"{yard.title.name}, {today.isoformat()}", ""]
    if not found:
        return [*head, "Nothing falls due. That calls nothing sound: looks grow old by hours and days."]
    rows = [f"{'at':>14}  {'to run':>8}  {'corner':22} look"]
    for one in found:
        late = "  OVERDUE" if one.state(today) == "overdue" else ""
        rows.append(f"{at(one, today):>14}  {left(one):>8}  {one.corner!s:22} {one.words}{late}")
    return [*head, *rows]


def at(due: Due, today: date) -> str:
    if due.stops:
        return "now"
    told = [f"{spell(due.at)} h"] if due.at is not None else []
    if due.on:
        told.append(
            "today" if due.on == today else f"{due.on:%d %b}" if due.on.year == today.year else f"{due.on:%d %b %Y}"
        )
    return ", ".join(told) or "today"


def left(due: Due) -> str:
    return f"{spell(due.left)} h" if due.left is not None else ""
