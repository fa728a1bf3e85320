"""lookover: every mistake of a yard, all at once."""

from __future__ import annotations

import json
from argparse import Namespace
from datetime import date

from axlewright import store
from axlewright.yard import Faults, mistakes


def run(args: Namespace) -> int:
    yard = store.at(args.folder, date.today).read()
    if store.is_database(args.folder):  # a folder was looked over as it was read
        faults = mistakes(yard, date.today())
        if faults:
            raise Faults(*faults)
    counts = {
        "machines": len(yard.machines),
        "drives": len(yard.drives),
        "troubles": len(yard.troubles),
        "findings": len(yard.findings),
    }
    if args.json:
        print(json.dumps({"yard": yard.title.name, "faults": [], **counts}, ensure_ascii=False))
    else:
        print(f"{yard.title.name}: no mistake found in " + ", ".join(f"{n} {what}" for what, n in counts.items()) + ".")
    return 0
