"""put-by: close a trouble."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright import desk
from axlewright.cli import yards


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    deed = desk.typed(desk.Reached, None, {"trouble": args.trouble, "on": yards.day(args)})
    before = place.read()
    open_ = desk.left_open(before, deed.trouble, yards.day(args) or before.today(now.at.date()))
    yard, _ = desk.carry_out(place, lambda standing: desk.put_by(standing, deed, now))
    on = yard.stages_of(deed.trouble)[-1].on
    if args.json:
        said = {"trouble": deed.trouble, "stage": yard.stage(deed.trouble), "on": on.isoformat(), "left": list(open_)}
        print(json.dumps(said, ensure_ascii=False, indent=1))
    else:
        print(f"Trouble {deed.trouble} is put by, {on}. What is seen at its corner from now on opens a new one.")
        print("\n".join(open_), end="\n" if open_ else "")
    return 0
