"""One question of a trouble as a page asks it: how to look, a picture of each grade, what is known already."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from functools import lru_cache
from typing import Any

from markupsafe import Markup

from axlewright.plan.facts import clock_now
from axlewright.plan.sheet.grades import proof, true_size, word_and_line
from axlewright.render import html
from axlewright.render.show import Show, Words
from axlewright.sheets.drawing import Drawing
from axlewright.sheets.figures import grades
from axlewright.trade.findings import Finding as Row
from axlewright.trade.findings import findings
from axlewright.trade.looks import Look, looks
from axlewright.web.forms import Typed, form_id, meant
from axlewright.yard import Fault, Finding, Stage, Trouble, Yard

CANT_TELL = "cant-tell"
UNSEEN = ("", CANT_TELL)
STAGES = {
    "G": "On its wheels on firm level ground: header down, engine off, key out, chocked.",
    "W": "Working or creeping: people 3 m clear.",
    "R": "Raised: by its own support sheet, the load on wood or a rated stand.",
    "O": "Wheel off: by its own support sheet.",
}
BESIDE_WORDS = 34.0  # mm: a wider picture stands above its words


def question(
    yard: Yard, one: Trouble, row: Row, given: Typed, today: date, show: Show, who: str = ""
) -> dict[str, Any]:
    """What a template needs to ask it: of a form that was sent, all that was typed stands in it again."""
    look, clock = looks()[row.look], clock_now(yard, one.corner, today)
    so_far = [found for found in yard.findings_of(one.number) if found.finding == row.id]
    chosen = given.all("grade")
    return {
        "id": row.id,
        "name": row.name,
        "look": look.name,
        "how": look.how,
        "in_short": look.short,
        "before": before(look),
        "counts": look.counts_when,
        "several": not row.ordered,
        "grades": [_choice(row, grade.id, chosen, show) for grade in row.grades],
        "unseen": CANT_TELL if CANT_TELL in chosen else "" if not set(chosen) - set(UNSEEN) else None,
        "proof": proved(show) if true_size(row.id) else "",
        "so_far": [said_of(found) for found in so_far],
        "ids": [(found.id, said_of(found)) for found in so_far],
        "stops": any(row.grade(found.grade).stop for found in so_far),
        "corrects": given.one("corrects"),
        "clock": given.one("clock"),
        "clocks": yard.machine(one.corner.machine).clocks,
        "which": given.one("which"),
        "stood": f"{clock.hours:.0f}" if clock else "",
        "who": given.one("who") or who,
        "note": given.one("note"),
        "form": form_id(given.one("form")),
        "seen": mark(yard, one.number),
        "not_now": ",".join(left_out(given.one("not"))),
    }


def _choice(row: Row, grade: str, chosen: Sequence[str], show: Show) -> dict[str, Any]:
    drawing = grades.picture(row.id, grade)
    word, line = word_and_line(row.id, grade)
    return {
        "id": grade,
        "word": word,
        "line": line,
        "stop": row.grade(grade).stop,
        "picture": graded(row.id, grade, show),
        "wide": bool(drawing and drawing.width > BESIDE_WORDS),
        "chosen": grade in chosen,
    }


@lru_cache(maxsize=256)
def graded(finding: str, grade: str, show: Show) -> Markup:
    """The picture of a grade; nothing where it has none."""
    drawing = grades.picture(finding, grade)
    return picture(drawing, show, f"g-{finding}-{grade}") if drawing else Markup("")


@lru_cache(maxsize=16)
def proved(show: Show) -> Markup:
    """The bar that proves the size."""
    return picture(proof(), show, "proof")


def picture(drawing: Drawing, show: Show, name: str) -> Markup:
    """A drawing at its true size beside words that say the same: hidden from a reader of the page."""
    made = str(html.picture(drawing, Words(show, {}), name)["svg"])
    box = re.search(r'viewBox="[^"]*"', made)
    bare = re.sub(r"<title[^>]*>.*?</title>", "", made, count=1)
    size = f'style="width:{drawing.width:g}mm" {box[0] if box else ""}'
    return Markup(re.sub(r"<svg [^>]*>", f'<svg class="gp" {size} aria-hidden="true">', bare, count=1))


def before(look: Look) -> tuple[str, ...]:
    """What must be so before this look: where the machine stands, which looks are clean, what ends it."""
    told = [STAGES[stage] for stage in look.stages]
    if look.after:
        told.append(f"First, and clean: {_listed([looks()[name].name.lower() for name in look.after])}.")
    if look.not_before:
        told.append(f"Not before: {look.not_before}.")
    if look.stop_if:
        told.append(f"Stop: {look.stop_if}.")
    return tuple(told)


def _listed(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def said_of(found: Finding) -> str:
    """A finding in words: what, when, by whom."""
    said = findings()[found.finding].grade(found.grade).words
    return ", ".join(filter(None, (said, f"{found.on.day} {found.on:%b}", found.who)))


def left_out(said: str) -> tuple[str, ...]:
    """What somebody could not look at just now, as it stands in an address."""
    return tuple(dict.fromkeys(name for name in said.split(",") if name in findings()))


def mark(yard: Yard, number: int) -> str:
    """How much is written of a trouble: a page that was opened before the last of it is an old page."""
    return f"{len(_found(yard, number))}.{len(yard.stages_of(number))}"


def written_since(yard: Yard, number: int, seen: str, form: str) -> tuple[str, ...]:
    """What was written of a trouble since a page was opened; nothing where the page's own form was kept already."""
    opened = re.fullmatch(r"(\d{1,6})\.(\d{1,6})", seen)
    found, stages = _found(yard, number), yard.stages_of(number)
    if opened is None or any(one.id == form or one.id.startswith(f"{form}-") for one in found):
        return ()
    new: list[Finding | Stage] = [*found[int(opened[1]) :], *stages[int(opened[2]) :]]
    return tuple(_told(one) for one in new)


def _found(yard: Yard, number: int) -> list[Finding]:
    """The findings of a trouble in the order in which they were kept."""
    mine = [one for one in yard.findings if one.trouble == number]
    return sorted(mine, key=lambda one: (one.at is not None, one.at.timestamp() if one.at else 0.0))


def _told(one: Finding | Stage) -> str:
    if isinstance(one, Finding):
        return (
            f"{one.who or 'somebody'}: {findings()[one.finding].name}, {findings()[one.finding].grade(one.grade).words}"
        )
    return f"{one.who or 'somebody'}: {one.stage}" + (f", {one.course}" if one.course else "")


def faulty(faults: Mapping[str, Fault]) -> dict[str, Any]:
    """The mistakes of a form, and the clock readings that a slip may have meant."""
    return {"faults": dict(faults), "takes": meant(faults.get("clock"))}
