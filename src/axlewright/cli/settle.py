"""settle: take a course for a trouble."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright import desk
from axlewright.cli import yards


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    fields = {"trouble": args.trouble, "course": " ".join(args.course), "on": yards.day(args)}
    deed = desk.typed(desk.Settle, None, fields)
    yard, change = desk.carry_out(place, lambda standing: desk.settle(standing, deed, now))
    said = {"trouble": deed.trouble, "course": yard.course(deed.trouble), "stage": yard.stage(deed.trouble)}
    if args.json:
        print(json.dumps({**said, "new": bool(change)}, ensure_ascii=False, indent=1))
    elif change:
        print(f"Trouble {deed.trouble} is settled: {said['course']}.")
    else:
        print(f"Trouble {deed.trouble} was settled so already: {said['course']}.")
    return 0
