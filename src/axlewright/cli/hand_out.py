"""hand-out: the whole yard as one zip, a folder of text files, or a database."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright import store
from axlewright.cli import yards
from axlewright.store import carry


def run(args: Namespace) -> int:
    place = store.at(yards.where(args))
    carry.hand_out(place, args.to)
    yard, beside = place.read(), place.beside()
    place.close()
    to = store.name_of(args.to)
    if args.json:
        print(json.dumps({"to": to, "records": len(yard.records), "beside": len(beside)}, ensure_ascii=False))
    else:
        print(f"{yard.name} is handed out as {to}: {len(yard.records):,} records, {len(beside)} packs and photos.")
    return 0
