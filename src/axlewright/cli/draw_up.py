"""draw-up: the sheets of a trouble, as far as its verdicts allow."""

from __future__ import annotations

import sys
from argparse import Namespace

from axlewright import desk
from axlewright.cli import sheets, yards
from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.drawn_up import BLANKS, blank, draw_up
from axlewright.render import render
from axlewright.yard import Fault, Faults, Yard

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
        number = int(args.trouble)
        yard = kept(args, number) if args.values else yards.opened(args).read()
        today = yards.day(args) or yard.today(yards.now(args).at.date())
        pack = draw_up(yard, yard.trouble(number), today)
    if args.to:
        sheets.write(args, pack, yard)
    if args.json:
        sys.stdout.write(render(pack, sheets.show(args, yard), "json").decode())
    elif not args.to:
        sys.stdout.write(render(pack, sheets.show(args, yard), "text").decode())
    return STOP if pack.sheets[0].name == "make-safe" else 0


def kept(args: Namespace, number: int) -> Yard:
    """The yard with what was looked at of the bolts kept first."""
    values = {}
    for word in args.values:
        name, given, value = word.partition("=")
        if not given or not name.startswith("bolts."):
            raise Faults(Fault(word, "This is no value.", "Write bolts.NAME=VALUE, as bolts.grease=anti-seize"))
        values[name.removeprefix("bolts.")] = value
    place, now = yards.opened(args), yards.now(args)
    deed = desk.typed(desk.LookedAtBolts, place.read(), {"trouble": number, "values": values})
    tried = place.read().with_(desk.look_at_bolts(place.read(), deed, now))
    bolt_task(tried.trouble(number))  # what nobody can reckon with is not kept
    return desk.carry_out(place, lambda yard: desk.look_at_bolts(yard, deed, now))[0]
