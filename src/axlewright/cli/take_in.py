"""take-in: what others wrote down comes into the yard, whole or not at all; a preview says first what would change."""

from __future__ import annotations

import json
from argparse import Namespace
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

from axlewright import desk
from axlewright.cli import yards
from axlewright.desk import intake
from axlewright.store import Store
from axlewright.yard import Fault, Faults, Yard

MOST_SHOWN = 12  # lines of a preview that anyone reads
UNUSABLE = 2
WHOLE = (".zip", ".db", ".sqlite", ".sqlite3")
"""Endings of a whole yard."""


def run(args: Namespace) -> int:
    if args.list:
        print(json.dumps({"tables": list_of()}, ensure_ascii=False, indent=1) if args.json else "\n".join(listed()))
        return 0
    if not args.file:
        raise Faults(Fault("take-in", "Name a file or an address.", "take-in --list shows what may stand in a table."))
    place, now = yards.opened(args), yards.now(args)
    if args.file.lower().endswith(WHOLE):
        return _whole(args, place, now)
    look = looker(args, now)
    if args.preview:
        found = look(place.read())
        said(args, found, kept=False)
        return UNUSABLE if found.refused() else 0
    looked: list[intake.Found] = []

    def deed(standing: Yard) -> Any:
        looked.append(look(standing))
        return intake.taken(looked[-1])

    desk.carry_out(place, deed)
    said(args, looked[-1], kept=True)
    return 0


def looker(args: Namespace, now: desk.Now) -> Callable[[Yard], intake.Found]:
    """What looks through the file or the address, over whatever yard stands there."""
    pairs = {"columns": _pairs("--column", args.column), "units": _pairs("--unit", args.unit)}
    if "://" in args.file:
        from axlewright.desk.intake import fetch

        parts = fetch.checked(args.file)
        answer = fetch.fetched(args.file, fetch.token_from(args.token_from) if args.token_from else "")
        return lambda yard: intake.heard_of(yard, _deed(args, yard, parts.hostname or "", pairs), now, answer)
    if args.token_from:
        raise Faults(Fault("--token-from", "A file needs no token.", "It goes with an address: https://..."))
    path = Path(args.file)
    data = intake.bytes_of(path)
    return lambda yard: intake.look_through(yard, _deed(args, yard, path.name, pairs), now, data)


def _deed(args: Namespace, yard: Yard, name: str, pairs: dict[str, dict[str, str]]) -> intake.TakeIn:
    fields = {key: getattr(args, key) for key in ("table", "decimal", "dates", "machine", "drive", "station", "clock")}
    given = {key: value for key, value in fields.items() if value}
    more = {"new_clock": tuple(args.new_clock or ()), "leave_out": args.leave_out_bad_lines}
    return desk.typed(intake.TakeIn, yard, {"name": name[:120], **given, **pairs, **more})


def _pairs(option: str, words: Sequence[str] | None) -> dict[str, str]:
    found: dict[str, str] = {}
    for word in words or ():
        name, given, value = word.partition("=")
        if not given:
            raise Faults(Fault(option, f"{word} is no pair.", f"Write {option} NAME=VALUE, as {option} rain=mm."))
        found[name.strip().lower().replace("-", "_").replace(" ", "_")] = value.strip()
    return found


def _whole(args: Namespace, place: Store, now: desk.Now) -> int:
    """A whole yard comes into one that is blank."""
    if args.preview:
        right = "Take it into a new yard: lay-out one, and look at it."
        raise Faults(Fault("--preview", "A whole yard comes in at once, and only where nothing is kept yet.", right))
    from axlewright.store import carry

    yard = carry.take_in(Path(args.file), place, now.who, now.at)
    told = (
        f"{yard.name}: {len(yard.machines)} machines, {len(yard.drives_written)} drives, {len(yard.troubles)} troubles."
    )
    print(json.dumps({"yard": yard.name, "records": len(yard.records)}) if args.json else told)
    return 0


def said(args: Namespace, found: intake.Found, *, kept: bool) -> None:
    """What was found, as lines or as JSON."""
    if args.json:
        print(json.dumps(as_data(found, kept=kept), ensure_ascii=False, indent=1))
        return
    lines = list(told(found, kept=kept))
    print("\n".join(lines[-1:] if args.quiet else lines))


def told(found: intake.Found, *, kept: bool) -> Iterator[str]:
    """What was found, for a person."""
    yield f"{found.name}: {found.table}."
    yield from (f"  {line}" for line in found.told)
    if found.asks:
        yield "This must be said first:"
        yield from (f"  {ask.says} Say {ask.option()}." for ask in found.asks)
    if found.wrong:
        yield f"{len(found.wrong)} wrong:"
        yield from (f"  {one.fault()}" for one in found.wrong[:MOST_SHOWN])
        yield from _more(len(found.wrong))
    if found.comes:
        yield "What came:" if kept else "What would come:"
        yield from (f"  line {one.line}: {one.says}" for one in found.comes[:MOST_SHOWN])
        yield from _more(len(found.comes))
    yield summary(found, kept=kept)


def summary(found: intake.Found, *, kept: bool) -> str:
    """One sentence: how much is new, how much was there, and whether anything was kept."""
    parts = [f"{len(found.comes)} new"]
    parts += [f"{found.already} kept already"] * bool(found.already)
    parts += [f"{found.left_out} left out"] * bool(found.left_out)
    parts += [f"{len(found.wrong)} wrong"] * bool(found.wrong and not found.left_out)
    if kept:
        end = "take-back takes it back." if found.change else "Nothing was written."
    elif found.refused() is None:
        end = "Nothing is written: this is a preview."
    elif found.asks:
        end = "Nothing is written."
    else:
        end = "Nothing is written. --leave-out-bad-lines takes in the others."
    return f"{', '.join(parts)}. {end}"


def _more(count: int) -> Iterator[str]:
    if count > MOST_SHOWN:
        yield f"  and {count - MOST_SHOWN} more"


def as_data(found: intake.Found, *, kept: bool) -> dict[str, Any]:
    return {
        "file": found.name,
        "table": found.table,
        "read_as": list(found.told),
        "kept": kept,
        "asks": [{"name": ask.name, "says": ask.says, "choices": list(ask.choices)} for ask in found.asks],
        "wrong": [{"line": one.line, "column": one.at, "what": one.what, "right": one.right} for one in found.wrong],
        "new": [{"line": one.line, "says": one.says} for one in found.comes],
        "already": found.already,
        "left_out": found.left_out,
    }


def list_of() -> dict[str, list[dict[str, Any]]]:
    """Every table with its columns, as data."""
    from axlewright.trade.take_in import TABLES, columns, measures

    return {
        table: [
            {
                "column": one.id,
                "headers": list(one.words),
                "needed": one.needed,
                "units": [unit.is_ for unit in measures()[one.measure].units] if one.measure else [],
            }
            for one in columns(table).values()
        ]
        for table in TABLES
    }


def listed() -> Iterator[str]:
    """Every table with its columns, for a person."""
    for table, rows in list_of().items():
        yield f"{table}"
        for row in rows:
            units = f" ({' or '.join(row['units'])})" if row["units"] else ""
            needed = ", needed" if row["needed"] else ""
            yield f"  {row['column'] + units + needed:40} {', '.join(row['headers'][:6])}"
