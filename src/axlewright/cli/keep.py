"""keep: a snapshot of the yard, while others write to it."""

from __future__ import annotations

import json
from argparse import Namespace
from pathlib import Path

from axlewright import store
from axlewright.cli import yards
from axlewright.store import carry


def run(args: Namespace) -> int:
    where = yards.where(args)
    to = Path(args.to) if args.to else carry.beside(where, yards.now(args).at)
    if args.renew:
        renewed = carry.renew(where, to)
        said = f"brought up to date from schema {renewed[0]} to {renewed[1]}" if renewed else "up to date already"
    else:
        place = store.at(where)
        carry.keep(place, to)
        place.close()
        said = ""
    kept = to if to.exists() else None
    if args.json:
        print(json.dumps({"kept": kept and str(kept), "renewed": said or None}, ensure_ascii=False))
        return 0
    if kept:
        print(f"{store.name_of(where)} is kept as {kept}, {kept.stat().st_size / 1e6:.1f} MB.")
    if said:
        print(f"{store.name_of(where)} is {said}.")
    if kept and not args.quiet:
        print(f'Back again: axlewright put-back "{kept}"')
    return 0
