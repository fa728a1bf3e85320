"""demo: the main job on the demo yard, as far as it goes."""

from __future__ import annotations

import json
from argparse import Namespace
from pathlib import Path

from axlewright import desk, store
from axlewright.cli import seen, sheets, yards
from axlewright.plan.drawn_up import blank, draw_up
from axlewright.plan.first_look import findings_of
from axlewright.plan.sheet.trouble import look_of
from axlewright.render.show import Words

CORNER = "linnet/front-left"
SAW = ("place=wheel-side", "leak-wheel=damp", "breather=free")
FORM = "demo-first-look"  # the same form each time: sent twice, it is kept once


def run(args: Namespace) -> int:
    folder = yards.demo(Path(args.to))
    place = store.at(folder)
    now = yards.now(args)
    fresh = desk.Seen(
        id=FORM,
        corner=CORNER,
        marks=tuple(desk.Mark(finding=f, grade=g) for f, g in findings_of(SAW)),
        hours=HOURS,
        clock="engine",
        about=5.0,
    )
    yard, _ = desk.carry_out(place, lambda standing: desk.add_findings(standing, fresh, now))
    corner = yard.corner(CORNER)
    today = yard.today(now.at.date())
    trouble = yard.running_at(corner)
    assert trouble is not None
    look = look_of(yard, trouble, today)
    files = written(args, Path(args.to), yard, trouble.number)
    words = Words(sheets.show(args, yard), look.basis)
    address = f"http://127.0.0.1:{args.port}/"
    if args.json:
        found = seen.as_json(look, words, corner, trouble.number)
        print(
            json.dumps(
                {**found, "yard": str(folder), "sheets": [str(file) for file in files], "address": address},
                ensure_ascii=False,
                indent=1,
            )
        )
        return 0
    print(f"{yard.title.name}, {today.isoformat()}. Somebody finds oil under a wheel:\n")
    print(seen.as_text(look, words, yard, corner, trouble.number))
    print("\nIts sheets:")
    print("\n".join(f"  {file}" for file in files))
    print(f"\nTry next:\n  python run.py serve --yard {quoted(folder)}     then open {address} and tick what you saw")
    print(f"  python run.py corners --yard {quoted(folder)}")
    print(f"  python run.py seen linnet/front-left plug=flakes level=at-mark --yard {quoted(folder)}")
    print("  python run.py seen plug=chips     no yard needed: it says stop")
    return 0


HOURS = 2598.0


def quoted(path: Path) -> str:
    return f'"{path}"' if " " in str(path) else str(path)


def written(args: Namespace, to: Path, yard: object, number: int) -> list[Path]:
    """The pack of the fresh trouble, and the blank First look."""
    from axlewright.yard import Yard

    assert isinstance(yard, Yard)
    how = sheets.show(args, yard)
    pack = draw_up(yard, yard.trouble(number), yard.today(yards.now(args).at.date()))
    files = [to / f"trouble-{number}{ending}" for ending in (".pdf", ".html", ".txt", ".json")]
    for file in files:
        sheets.save(file, pack, how)
    form = to / "first-look-blank.pdf"
    sheets.save(form, blank(), how)
    return [*files, form]
