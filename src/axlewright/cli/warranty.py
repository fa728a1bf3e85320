"""warranty: what a seller or a workshop answers for on a drive, and how much of it is left."""

from __future__ import annotations

import json
from argparse import Namespace
from datetime import date
from typing import Any

from axlewright import desk
from axlewright.cli import yards
from axlewright.plan.warranty import LOST, WarrantyTold, warranties_told
from axlewright.yard import Drive, Yard
from axlewright.yard.hours import spell


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    yard = place.read()
    if args.days is not None or args.hours is not None:
        fields = {
            "drive": args.drive,
            "days": args.days,
            "hours": args.hours,
            "begins": args.begins,
            "given_by": args.given_by,
            "paper": args.paper,
            "on": yards.day(args),
        }
        deed = desk.typed(desk.GiveWarranty, yard, fields)
        photo = yards.photo(args)
        yard, _ = desk.carry_out(place, lambda y: desk.with_photo(desk.give_warranty(y, deed, now), photo))
    drive = yard.drive(args.drive)
    today = yards.day(args) or yard.today(now.at.date())
    found = warranties_told(yard, drive, today)
    if args.json:
        rows = [as_data(one) for one in found]
        print(
            json.dumps({"drive": drive.id, "on": today.isoformat(), "warranties": rows}, ensure_ascii=False, indent=1)
        )
    else:
        print("\n".join(lines(yard, drive, today) or [f"{drive.name}: no warranty is written down."]))
    return 0


def lines(yard: Yard, drive: Drive, today: date) -> list[str]:
    """What is left of a drive's warranties, in words; none where it has none."""
    found = warranties_told(yard, drive, today)
    return [f"{drive.name}:", *(line for one in found for line in _told(one)), LOST] if found else []


def _told(one: WarrantyTold) -> list[str]:
    given = one.left.warranty
    ends = [f"{given.days} days"] if given.days is not None else []
    ends += [f"{spell(given.hours)} h"] if given.hours is not None else []
    by = f" by {given.given_by}" if given.given_by else ""
    paper = f", {given.paper}" if given.paper else ""
    what = f"  warranty of {' or '.join(ends)}, given {given.on}{by}{paper}: "
    return [what + _state(one), *(f"    {line}" for line in one.missing)]


def _state(one: WarrantyTold) -> str:
    left = one.left
    if left.state == "waits":
        return "it begins when the drive is fitted."
    parts = []
    if left.until:
        parts.append(f"to {left.until}" + (f", {left.days} days with today" if left.days and left.days > 0 else ""))
    if left.hours:
        off = f" ± {spell(left.hours.about)}" if left.hours.about else ""
        parts.append(f"{spell(max(left.hours.hours, 0.0))}{off} h of running left")
    elif left.warranty.hours is not None:
        parts.append("hours left not known: no clock tells what it ran")
    if left.state == "over":
        return f"over ({'; '.join(parts)})."
    first = ""
    if left.warranty.hours is not None and left.until and one.first:
        first = f" The {one.first} run out first" + (f", by {one.by}" if one.by else "") + "."
    return f"{'; '.join(parts)}.{first}"


def as_data(one: WarrantyTold) -> dict[str, Any]:
    left = one.left
    return {
        "given": left.warranty.model_dump(mode="json", exclude_defaults=True),
        "state": left.state,
        "begun": left.begun and left.begun.isoformat(),
        "until": left.until and left.until.isoformat(),
        "days_left": left.days,
        "hours_left": left.hours and {"value": left.hours.hours, "about": left.hours.about, "unit": "h"},
        "first": one.first,
        "by": one.by and one.by.isoformat(),
        "missing": list(one.missing),
    }
