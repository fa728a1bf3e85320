"""seen: what was seen in, verdicts out; with a corner the findings are kept and a trouble is opened."""

from __future__ import annotations

import json
from argparse import Namespace
from datetime import date

from axlewright import desk
from axlewright.cli import sheets, yards
from axlewright.desk.rows import look_said
from axlewright.plan.facts import job_open, seen_at
from axlewright.plan.first_look import FirstLook, findings_of, first_look
from axlewright.quantities.units import NotRead, parse
from axlewright.render.show import Words
from axlewright.trade.findings import findings
from axlewright.yard import Corner, Fault, Faults, Hours, Yard

STOP = 1


def run(args: Namespace) -> int:
    if args.list:
        return listed(args)
    corner, ticked = split(args.words)
    clock = hours(args)
    if corner is None:
        today = yards.day(args) or date.today()
        return said(args, first_look(ticked, clock=clock, today=today, photo=bool(args.photo)), today=today)
    place = yards.opened(args)
    yard = place.read()
    at = yard.corner(corner)
    if not ticked:
        raise Faults(Fault(corner, "What was seen there?", "Write FINDING=GRADE, as plug=paste. --list shows all."))
    fields = {
        "corner": str(at),
        "marks": tuple(desk.Mark(finding=f, grade=g, note=n) for f, g, n in findings_of(ticked)),
        "hours": clock.hours if clock else None,
        "clock": clock.clock if clock else None,
        "about": clock.about if clock else None,
        "on": yards.day(args),
    }
    seen = desk.typed(desk.Seen, yard, fields)
    now = yards.now(args)
    photo = yards.photo(args)
    if args.preview:
        yard = yard.with_(desk.with_photo(desk.add_findings(yard, seen, now), photo))
    else:
        yard, _ = desk.carry_out(place, lambda y: desk.with_photo(desk.add_findings(y, seen, now), photo))
    today = yards.day(args) or yard.today(now.at.date())
    look = first_look(
        clock=clock or yard.hours(at.machine, today),
        today=today,
        before=seen_at(yard, at, today),
        job_open=job_open(yard, at),
    )
    running = yard.running_at(at)
    return said(args, look, yard, at, running.number if running else None, today)


def split(words: list[str]) -> tuple[str | None, list[str]]:
    """The corner, if one is named, and the ticks."""
    corners = [word for word in words if "=" not in word and "/" in word]
    if len(corners) > 1:
        raise Faults(Fault(corners[1], "One corner at a time.", "A finding is written FINDING=GRADE, as plug=paste."))
    return (corners[0] if corners else None), [word for word in words if word not in corners]


def hours(args: Namespace) -> Hours | None:
    """What --clock says: 4730, about 4730, 4730 ± 10.

    Raises:
        Faults: it is no clock reading
    """
    if args.clock is None:
        return None
    figure, _, off = args.clock.lower().replace("about", "").replace("+-", "±").partition("±")
    about = "about" in args.clock.lower()
    try:
        read, doubt = (_hours(figure), _hours(off) if off.strip() else ABOUT if about else 0.0)
    except NotRead:
        right = "Write --clock 4730, or --clock 'about 4730'."
        raise Faults(Fault("--clock", f"{args.clock} is no clock reading.", right)) from None
    for wrong, says in ((read < 0, "less than nothing"), (max(read, doubt) > MOST_HOURS, "more than a clock shows")):
        if wrong:
            right = "Write what the clock reads: --clock 4730"
            raise Faults(Fault("--clock", f"{args.clock} is {says}.", right))
    return Hours(read, "threshing" if args.threshing else "engine", doubt)


ABOUT = 10.0  # h, what "about" may be off by: common practice, no source
MOST_HOURS = 100_000  # as a record takes them


def _hours(text: str) -> float:
    bare = text.strip().removesuffix("h").strip()
    return round(parse(f"{bare} h", "duration").si / 3600.0, 3)


def listed(args: Namespace) -> int:
    """Every finding with its grades."""
    if args.json:
        print(json.dumps({f.id: {g.id: g.words for g in f.grades} for f in findings().values()}, ensure_ascii=False))
        return 0
    for finding in findings().values():
        print(f"{finding.id}: {finding.name}")
        for grade in finding.grades:
            print(f"  {finding.id}={grade.id:14} {grade.words}{'  (stop)' if grade.stop else ''}")
    return 0


def said(
    args: Namespace,
    look: FirstLook,
    yard: Yard | None = None,
    corner: Corner | None = None,
    trouble: int | None = None,
    today: date | None = None,
) -> int:
    """Print the answer; write its sheet where --to says so."""
    words = Words(sheets.show(args, yard), look.basis)
    if args.json:
        print(json.dumps(look_said(look, words, corner, trouble), ensure_ascii=False, indent=1))
    else:
        print(as_text(look, words, yard, corner, trouble))
    if args.to:
        sheets.write(args, sheets.of_look(look, yard, trouble, today), yard)
    return STOP if look.make_safe else 0


def as_text(look: FirstLook, words: Words, yard: Yard | None, corner: Corner | None, trouble: int | None) -> str:
    lines = []
    if yard and corner:
        kept = f"Trouble {trouble}: " if trouble else ""
        lines += [f"{kept}{yard.named(corner)}", ""]
    lines += [
        f"{line.line:15}{line.word.upper() if line.stops else line.word}: {words.plain(line.words)}"
        for line in look.lines
    ]
    lines += ["", words.plain(look.answer), f"One call: {look.call}", f"One date: {words.plain(look.date)}"]
    if not look.make_safe and look.next is not None:
        ahead = look.next
        lines += [
            "",
            f"Look first: {ahead.look.name.lower()}, {ahead.look.minutes:g} min. {ahead.look.short}",
            "What it will mean:",
        ]
        lines += [f"  {w.words:18} field {w.field:10} road {w.road:10} {w.row.means}" for w in ahead.would]
    return "\n".join(lines)
