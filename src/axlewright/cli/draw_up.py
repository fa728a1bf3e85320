"""draw-up: the sheets of a trouble, as far as its verdicts allow."""

from __future__ import annotations

import json
import re
import sys
from argparse import Namespace

from axlewright import desk
from axlewright.cli import asked, sheets, yards
from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.drawn_up import BLANKS, blank, draw_up
from axlewright.plan.pack import pack as sheet_pack
from axlewright.plan.sheet.ready_card import ready_cards
from axlewright.render import render
from axlewright.sheets import Pack
from axlewright.yard import Fault, Faults, Trouble, Yard

STOP = 1
KEY = re.compile(r"[0-9a-f]{16}")


def run(args: Namespace) -> int:
    if args.trouble is None or args.trouble in BLANKS:
        yard, pack = None, blank(args.trouble or "first-look")
    elif KEY.fullmatch(args.trouble):
        place = yards.opened(args)
        yard, pack = place.read(), desk.pack_kept(place, args.trouble)
    elif (found := machine_in(args)) is not None:
        yard, pack = found
    else:
        if not args.trouble.isdigit():
            raise Faults(
                Fault(
                    "trouble",
                    f"{args.trouble} is no trouble's number.",
                    f"Write its number alone, draw-up 14, a pack's key of 16 letters and digits, or a blank sheet: {', '.join(BLANKS)}",
                )
            )
        number = int(args.trouble)
        yard = kept(args, number) if args.values else yards.opened(args).read()
        if args.list:
            return listed(args, yard, yard.trouble(number))
        pack = previewed(args, yard, number) if args.preview else frozen(args, number)
    if args.to:
        sheets.write(args, pack, yard)
    if args.json:
        sys.stdout.write(render(pack, sheets.show(args, yard), "json").decode())
    elif not args.to:
        sys.stdout.write(render(pack, sheets.show(args, yard), "text").decode())
    return STOP if any(sheet.block.title == "Make safe" for sheet in pack.sheets) else 0


def previewed(args: Namespace, yard: Yard, number: int) -> Pack:
    """The sheets as they would be drawn up; nothing is kept."""
    return draw_up(yard, yard.trouble(number), yards.day(args) or yard.today(yards.now(args).at.date()))


def frozen(args: Namespace, number: int) -> Pack:
    """The sheets drawn up and kept under their key, as they are read back."""
    place, now = yards.opened(args), yards.now(args)
    deed = desk.DrawUp(trouble=number, on=yards.day(args))
    _, change = desk.carry_out(place, lambda standing: desk.draw_up(standing, deed, now))
    key = desk.key_in(change)
    if not args.quiet and not args.json:
        print(f"Frozen as pack {key}: draw-up {key} gives the same sheets again.", file=sys.stderr)
    return desk.pack_kept(place, key)


def machine_in(args: Namespace) -> tuple[Yard, Pack] | None:
    """The ready card of the machine that is named; None where none of this name is in the yard."""
    if args.trouble.isdigit() or args.values:
        return None
    try:
        yard = yards.opened(args).read()
        machine = yard.machine(args.trouble)
    except Faults:
        return None
    today = yards.day(args) or yard.today(yards.now(args).at.date())
    return yard, sheet_pack(ready_cards(yard, machine, today))


def listed(args: Namespace, yard: Yard, trouble: Trouble) -> int:
    """Every question that arises at a trouble, and what is known for it."""
    if args.json:
        print(json.dumps(asked.as_data(yard, trouble), ensure_ascii=False, indent=1))
        return 0
    print("\n".join(asked.listed(asked.asked_of(yard, trouble))))
    if not args.quiet:
        print(f'\nAnswer so: draw-up {trouble.number} bolts/count=10 wheel/mass="520 kg"')
    return 0


def kept(args: Namespace, number: int) -> Yard:
    """The yard with the answers kept first; a preview keeps none. What nobody can reckon with is not kept."""
    place, now = yards.opened(args), yards.now(args)
    standing = place.read()
    values = yards.answers(args.values)
    deed = desk.typed(desk.Answers, standing, {"trouble": number, "values": values, "on": yards.day(args)})
    tried = standing.with_(desk.answer(standing, deed, now))
    bolt_task(tried, tried.trouble(number))
    if args.preview:
        return tried
    return desk.carry_out(place, lambda yard: desk.answer(yard, deed, now))[0]
