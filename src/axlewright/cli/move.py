"""move: a drive goes onto a corner, the shelf, the bench, or away; or the moves of a drive are told."""

from __future__ import annotations

import json
from argparse import Namespace
from datetime import date
from typing import Any

from axlewright import desk
from axlewright.cli import yards
from axlewright.cli.warranty import lines as warranty_lines
from axlewright.plan.change_over import ToSee, to_see
from axlewright.plan.sheet.life import seen_of
from axlewright.trade.findings import findings
from axlewright.trade.questions import question
from axlewright.yard import Change, Corner, Drive, Hours, Move, Stay, Yard


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    yard = place.read()
    change = Change()
    sees: tuple[ToSee, ...] = ()
    if args.to:
        fields = {
            "drive": args.drive,
            "to": args.to,
            "out_to": args.out_to,
            "read": args.read,
            "clock": args.clock,
            "hours": args.hours,
            "about": args.about,
            "trouble": args.trouble,
            "over": args.over,
            "on": yards.day(args),
        }
        deed = desk.typed(desk.MoveDrive, yard, fields)
        sees = seen_to(yard, args.drive, args.to)
        photo = yards.photo(args)
        if args.preview:
            change = desk.with_photo(desk.move_drive(yard, deed, now), photo)
            yard = yard.with_(change)
        else:
            yard, change = desk.carry_out(place, lambda y: desk.with_photo(desk.move_drive(y, deed, now), photo))
    drive = yard.drive(args.drive)
    today = yards.day(args) or yard.today(now.at.date())
    if args.json:
        print(json.dumps(as_data(yard, drive, change, today, sees), ensure_ascii=False, indent=1))
    else:
        print("\n".join(told(yard, drive, change, today, sees, preview=args.preview)))
    return 0


def seen_to(yard: Yard, said: str, to: str) -> tuple[ToSee, ...]:
    """What must be changed over or looked at for a move to a corner."""
    place = desk.place_named(yard, to)
    return to_see(yard, yard.drive(said), place) if isinstance(place, Corner) else ()


def told(
    yard: Yard, drive: Drive, change: Change, today: date, sees: tuple[ToSee, ...] = (), *, preview: bool
) -> list[str]:
    """What moved, and the drive's stays, the first first."""
    lines = [_moved(yard, move) for move in change.of(Move)]
    if lines and preview:
        lines.append("Nothing is written: this is a preview.")
    if lines and sees:
        bad = [f"  {words}: is it put right?" for words in against(yard, drive)]
        lines += ["", "Before it sits right there:", *bad, *(f"  {_to_see(one)}" for one in sees)]
    lines += ["", f"{drive.name}, by its stays:"] if lines else [f"{drive.name}, by its stays:"]
    lines += [_stayed(stay) for stay in yard.lives[drive.id]]
    own = yard.drive_hours(drive, today)
    warranty = warranty_lines(yard, drive, today)
    return [*lines, f"  its own hours today: {_hours(own)}", *(["", *warranty] if warranty else [])]


def against(yard: Yard, drive: Drive) -> list[str]:
    """What the newest looks at a drive, wherever it sat, say against it."""
    newest = {one.finding: one for one in seen_of(yard, drive)}
    rows = [(one, findings()[one.finding].grade(one.grade)) for one in newest.values()]
    return [f"{grade.seen}, seen {one.on}" for one, grade in rows if not grade.good]


def _to_see(one: ToSee) -> str:
    return f"{one.words}. Nobody answered: {question(one.asks).asks}" if one.asks else one.words


def _moved(yard: Yard, move: Move) -> str:
    return f"{yard.drive(move.drive).name} goes to {move.to}, {move.on}."


def _stayed(stay: Stay) -> str:
    since = f"{stay.since}" if stay.since else "from the beginning"
    return f"  {stay.sits}: {since} to {stay.until or 'now'}; came with {_hours(stay.hours)}"


def _hours(hours: Hours | None) -> str:
    if hours is None:
        return "hours that nobody knows"
    about = f" ± {hours.about:g}" if hours.about else ""
    return f"{hours.hours:g}{about} h"


def as_data(yard: Yard, drive: Drive, change: Change, today: date, sees: tuple[ToSee, ...] = ()) -> dict[str, Any]:
    own = yard.drive_hours(drive, today)
    return {
        "drive": drive.id,
        "sits": str(drive.sits),
        "hours": own and {"value": own.hours, "about": own.about, "unit": "h"},
        "moves": [move.model_dump(mode="json", exclude_defaults=True) for move in change.of(Move)],
        "see_to": [{"words": one.words, "asks": one.asks or None, "source": one.source} for one in sees],
        "stays": [
            {
                "sits": str(stay.sits),
                "since": stay.since and stay.since.isoformat(),
                "until": stay.until and stay.until.isoformat(),
                "came_with": stay.hours and {"value": stay.hours.hours, "about": stay.hours.about, "unit": "h"},
            }
            for stay in yard.lives[drive.id]
        ],
    }
