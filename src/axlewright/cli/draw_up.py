"""draw-up: the sheets of a trouble, as far as its verdicts allow."""

from __future__ import annotations

import sys
from argparse import Namespace

from axlewright.cli import sheets, yards
from axlewright.plan.drawn_up import BLANKS, blank, draw_up
from axlewright.render import render
from axlewright.yard import Fault, Faults

STOP = 1


def run(args: Namespace) -> int:
    if args.trouble is None or args.trouble in BLANKS:
        yard, pack = None, blank(args.trouble or "first-look")
    else:
        if not args.trouble.isdigit():
            raise Faults(
                Fault(
                    "trouble",
                    f"{args.trouble} is no trouble's number.",
                    f"Write its number alone, draw-up 14, or a blank sheet: {', '.join(BLANKS)}",
                )
            )
        yard = yards.opened(args).read()
        today = yards.day(args) or yard.today(yards.now(args).at.date())
        pack = draw_up(yard, yard.trouble(int(args.trouble)), today)
    if args.to:
        sheets.write(args, pack, yard)
    if args.json:
        sys.stdout.write(render(pack, sheets.show(args, yard), "json").decode())
    elif not args.to:
        sys.stdout.write(render(pack, sheets.show(args, yard), "text").decode())
    return STOP if pack.sheets[0].name == "make-safe" else 0
