"""lay-out: a new yard as a folder of text files, or in a database."""

from __future__ import annotations

import json
from argparse import Namespace
from pathlib import Path

from axlewright import store


def run(args: Namespace) -> int:
    if store.is_database(args.folder):
        return database(args)
    folder = Path(args.folder)
    store.lay_out(folder)
    files = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.toml"))
    if args.json:
        print(json.dumps({"folder": str(folder), "files": files}, ensure_ascii=False))
        return 0
    print(f"{folder} is laid out: {len(files)} files to fill in, each says how.")
    if not args.quiet:
        print("\n".join(f"  {name}" for name in files))
        print(f"Then: axlewright lookover {folder}")
    return 0


def database(args: Namespace) -> int:
    """A yard in a database: nothing to fill in by hand."""
    store.lay_out(args.folder)
    name = store.name_of(args.folder)
    if args.json:
        print(json.dumps({"database": name}, ensure_ascii=False))
        return 0
    print(f"{name} is laid out.")
    if not args.quiet:
        print(f"Then: axlewright serve --yard {name}")
    return 0
