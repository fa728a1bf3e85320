"""take-back: the last change to the yard counts no longer; what it replaced stands as before."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright import desk
from axlewright.cli import yards
from axlewright.yard import Fault, Faults


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    yard, made = place.read(), place.last()
    change = desk.take_back(yard, made, now)
    if made is None:
        raise Faults(Fault("change", "There is no change to take back.", "Nothing was written to this yard yet."))
    if not args.preview:
        place.write(change, yard.seen)  # on what was read, and nothing newer: another's change is not taken back unseen
    who, when = made.who or "nobody named", f"{made.at:%Y-%m-%d %H:%M} UTC" if made.at else "on a day that nobody wrote"
    if args.json:
        said = {"number": made.number, "who": made.who, "at": made.at and made.at.isoformat(), "was": desk.told(made)}
        print(json.dumps({**said, "taken_back": not args.preview}, ensure_ascii=False, indent=1))
    else:
        print(f"{'Would be taken back' if args.preview else 'Taken back'}: {desk.told(made)}; {who}, {when}.")
        if not args.preview:
            print("It is kept, and counts no longer. take-back once more, and it counts again.")
    return 0
