"""corners: every corner of the yard, how it stands, may it work, may it go on the road."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright.cli import tables, yards
from axlewright.desk.rows import corners_said
from axlewright.desk.tables import corners_table
from axlewright.plan.corners import corners


def run(args: Namespace) -> int:
    yard = yards.opened(args).read()
    today = yards.day(args) or yard.today(yards.now(args).at.date())
    found = corners(yard, today)
    if tables.is_asked(args):
        tables.write(args, corners_table(yard, today), yard)
    if args.json:
        print(json.dumps(corners_said(yard, today), ensure_ascii=False, indent=1))
    if args.to or args.json:
        return 0
    if not found:
        print(
            f"{yard.title.name}: no machine in it yet. The Yard room asks for one (axlewright serve), or take-in a table of them."
        )
        return 0
    if not args.quiet:
        print(f"{yard.title.name}, {today.isoformat()}\n")
    print(f"{'corner':24} {'stands':34} {'field':10} {'road':10} trouble")
    for one in found:
        trouble = str(one.trouble.number) if one.trouble else ""
        print(
            f"{one.corner!s:24} {one.standing.words:34} {one.verdicts.field.word:10} {one.verdicts.road.word:10} {trouble}".rstrip()
        )
    return 0
