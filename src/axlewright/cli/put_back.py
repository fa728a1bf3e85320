"""put-back: a snapshot in place of what the yard holds now, which is kept first."""

from __future__ import annotations

import json
from argparse import Namespace
from datetime import date
from pathlib import Path

from axlewright import store
from axlewright.cli import yards
from axlewright.store import carry


def run(args: Namespace) -> int:
    where, now = yards.where(args), yards.now(args)
    if args.file is None:
        return listed(args, carry.kept_of(where))
    before = carry.beside(where, now.at, "before-put-back")
    place = store.at(where, date.today)
    yard = carry.put_back(Path(args.file), place, before, now.who, now.at)
    place.close()
    if args.json:
        said = {"yard": yard.name, "records": len(yard.records), "replaced": str(before)}
        print(json.dumps(said, ensure_ascii=False))
    else:
        print(f"{yard.name} is put back from {args.file}: {len(yard.records):,} records.")
        print(f"What stood there is kept as {before}.")
    return 0


def listed(args: Namespace, files: list[Path]) -> int:
    """The snapshots that stand beside the yard, the newest first."""
    if args.json:
        print(json.dumps({"kept": [str(file) for file in files]}, ensure_ascii=False))
    elif files:
        print("Snapshots beside the yard, the newest first:")
        print("\n".join(f"  {file}   {file.stat().st_size / 1e6:.1f} MB" for file in files))
        print(f'Put one back: axlewright put-back "{files[0]}"')
    else:
        print("There is no snapshot beside the yard. axlewright keep makes one.")
    return 0
