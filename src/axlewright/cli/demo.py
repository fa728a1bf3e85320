"""demo: the main job on the demo yard, as far as it goes."""

from __future__ import annotations

import json
from argparse import Namespace
from dataclasses import replace
from pathlib import Path
from typing import Any

from axlewright import desk, store
from axlewright.cli import find_out, seen, sheets, yards
from axlewright.desk.rows import look_said
from axlewright.plan.drawn_up import blank, chosen, draw_up
from axlewright.plan.first_look import findings_of
from axlewright.plan.sheet.trouble import look_of
from axlewright.plan.workings import Refused
from axlewright.render.show import Words
from axlewright.yard import Trouble, Yard

CORNER = "linnet/front-left"
SAW = ("place=wheel-side", "leak-wheel=damp")
FIVE = ("fluid=gear", "breather=free", "level=low", "plug=paste", "bolts=still", "nuts=still")
FORMS = ("demo-oil-spot", "demo-five-looks")  # the same forms each time: sent twice, they are kept once
HOURS = 2598.0


def run(args: Namespace) -> int:
    folder = yards.demo(Path(args.to))
    place, now = store.at(folder), yards.now(args)
    answers = []
    for form, ticks in zip(FORMS, (SAW, FIVE), strict=True):
        answers.append(looked(args, place, now, form, ticks))
    yard = place.read()
    trouble = yard.running_at(yard.corner(CORNER))
    assert trouble is not None
    files = written(args, Path(args.to), yard, trouble)
    address = f"http://127.0.0.1:{args.port}/"
    if args.json:
        said = {"yard": str(folder), "trouble": trouble.number, "answers": [found for found, _ in answers]}
        print(
            json.dumps(
                {**said, "sheets": [str(file) for file in files], "address": address}, ensure_ascii=False, indent=1
            )
        )
        return 0
    print(
        f"{yard.title.name}, {yard.today(now.at.date()).isoformat()}. Somebody finds oil under a wheel, at dusk:\n\n{answers[0][1]}"
    )
    print(f"\n\nHalf an hour later, the five looks done and a wrench on every bolt and nut:\n\n{answers[1][1]}")
    print("\n\nWhat can be done:\n\n" + "\n".join(choice(args, yard, trouble)))
    print("\nIts sheets:\n" + "\n".join(f"  {file}" for file in files))
    where = quoted(folder)
    print(f"\nTry next:\n  python run.py serve --yard {where}     then open {address} and tick what you saw")
    print(f"  python run.py corners --yard {where}")
    print(f"  python run.py seen bramble/front-left plug=flakes --yard {where}")
    print(f"  python run.py find-out 6 --yard {where}")
    print(f"  python run.py draw-up 6 --yard {where} --to pack.pdf     every sheet of a settled trouble, frozen")
    print(f"  python run.py due --yard {where}")
    print("  python run.py seen plug=chips     no yard needed: it says stop")
    return 0


def looked(
    args: Namespace, place: store.Store, now: desk.Now, form: str, ticks: tuple[str, ...]
) -> tuple[dict[str, Any], str]:
    """Keep what was seen, and give the answer to it as data and as text."""
    fresh = desk.Seen(
        id=form,
        corner=CORNER,
        marks=tuple(desk.Mark(finding=f, grade=g, note=n) for f, g, n in findings_of(ticks)),
        hours=HOURS,
        clock="engine",
        about=2.0,
    )
    yard = place.read()
    change = desk.add_findings(yard, fresh, now)
    if change:
        yard, _ = desk.carry_out(place, lambda standing: desk.add_findings(standing, fresh, now))
    trouble = yard.running_at(yard.corner(CORNER))
    assert trouble is not None
    kept = [f for f in yard.findings if f.id.startswith(FORMS[: FORMS.index(form) + 1])]
    then = replace(yard, findings=tuple(f for f in yard.findings if f.trouble != trouble.number or f in kept))
    look = look_of(then, trouble, yard.today(now.at.date()))
    words = Words(sheets.show(args, yard), look.basis)
    return look_said(look, words, trouble.corner, trouble.number), seen.as_text(
        look, words, yard, trouble.corner, trouble.number
    )


def choice(args: Namespace, yard: Yard, trouble: Trouble) -> list[str]:
    """What can be done, best first, and what to find out next; or why none can be made out."""
    today = yard.today(yards.now(args).at.date())
    made = chosen(yard, trouble, today)
    if made is None or isinstance(made, Refused):
        return ["There is no choice to make yet." if made is None else f"No choice can be made out: {made.because}."]
    return list(find_out.listed(made, Words(sheets.show(args, yard), {}, today), quiet=False))


def quoted(path: Path) -> str:
    return f'"{path}"' if " " in str(path) else str(path)


def written(args: Namespace, to: Path, yard: Yard, trouble: Trouble) -> list[Path]:
    """The pack of the fresh trouble, and the blank First look."""
    how = sheets.show(args, yard)
    pack = draw_up(yard, trouble, yard.today(yards.now(args).at.date()))
    files = [to / f"trouble-{trouble.number}{ending}" for ending in (".pdf", ".html", ".txt", ".json")]
    for file in files:
        sheets.save(file, pack, how)
    form = to / "first-look-blank.pdf"
    sheets.save(form, blank(), how)
    return [*files, form]
