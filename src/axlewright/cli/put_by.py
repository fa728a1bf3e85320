"""put-by: close a trouble."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright import desk
from axlewright.cli import yards


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    deed = desk.typed(desk.Reached, None, {"trouble": args.trouble, "on": yards.day(args)})
    yard, _ = desk.carry_out(place, lambda standing: desk.put_by(standing, deed, now))
    on = yard.stages_of(deed.trouble)[-1].on
    if args.json:
        print(json.dumps({"trouble": deed.trouble, "stage": yard.stage(deed.trouble), "on": on.isoformat()}, indent=1))
    else:
        print(f"Trouble {deed.trouble} is put by, {on}. What is seen at its corner from now on opens a new one.")
    return 0
