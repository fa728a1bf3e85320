"""corners: every corner of the yard, how it stands, may it work, may it go on the road."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright.cli import yards
from axlewright.desk.rows import corners_said
from axlewright.plan.corners import corners


def run(args: Namespace) -> int:
    yard = yards.opened(args).read()
    today = yards.day(args) or yard.today(yards.now(args).at.date())
    found = corners(yard, today)
    if args.json:
        print(json.dumps(corners_said(yard, today), ensure_ascii=False, indent=1))
        return 0
    if not found:
        print(f"{yard.title.name}: no machine in it yet. A machine is a file in machines/.")
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
