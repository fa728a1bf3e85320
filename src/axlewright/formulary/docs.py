"""The formulary as a page of the docs: `python -m axlewright.formulary.docs > docs/formulary.md`."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator

from axlewright.formulary.ask import ask, headline
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.families import families
from axlewright.formulary.ranges import Range, ranges
from axlewright.formulary.read import Formula
from axlewright.formulary.said import command, default_of, name_of, span_of
from axlewright.formulary.slots import Slot

INTRO = """# Formulary
Every formula of the house by its name, {count} of them: by command, page, HTTP and here. This page is made by the program
(`python -m axlewright.formulary.docs`); a test holds it to what the program makes.

- **Command**: `python run.py formula NAME key=value ...`; without values it says what it takes. `--why` says what a number
  rests on, `--json` is for programs, `--measures us` shows inches and pounds.
- **Page**: `/formulary/NAME`. What is typed stands in the address, so an answer can be sent as a link.
- **HTTP**: `GET /api/formula/NAME?key=value`, or `POST` JSON; `/openapi.json` describes each one. 400 is for what cannot be
  read, 422 for what is out of range, 404 for a name that is not there.

Values are typed with their unit: `27 mm`, `3 1/4 in`, `340 lbf·ft`, `12,5 bar`. A doubtful one may be a range: `18 t ± 2 t`;
then the answer has ends as well, 5 in a hundred beyond each. In JSON a bare number is in the SI unit of the list below.
Parts of a structure are typed as `centre.x`, those of several as `legs.2.length`.

An answer is no better than what was typed, and no engineer has checked it for your machine.
"""


def page() -> str:
    """The whole page."""
    lines = [INTRO.format(count=sum(family.count for family in families()))]
    for family in families():
        lines.append(f"\n## {family.name[0].upper()}{family.name[1:]}\n")
        for group in family.groups:
            lines.append(f"**{group.name}**: {group.words}  ")
            lines.append(", ".join(f"[{one.name}](#{one.name})" for one in group.formulas) + "\n")
        for group in family.groups:
            for one in group.formulas:
                lines += entry(one)
    return "\n".join(lines).rstrip() + "\n"


def entry(one: Formula) -> Iterator[str]:
    """One function: what it finds, takes, gives, where it is from, where it holds, an example."""
    yield f"\n### {one.name}\n{one.title}.{f' {one.words}' if one.words else ''}\n"
    allowed = ranges(one)
    yield "| takes | kind | unit | |\n|---|---|---|---|"
    for slot in one.takes:
        yield from taken(slot, slot.key, allowed.get(slot.name))
    yield "\n| gives | kind | unit | |\n|---|---|---|---|"
    for slot in one.gives:
        yield from given(slot, name_of(slot.name))
    yield f"\nSource: {clean(one.source)}  \nValid: {clean(one.valid)}\n"
    texts = texts_to_try(one)
    if texts:
        yield f"```\nformula {command(one.name, texts).removeprefix('formula ')}\n```\n{clean(headline(ask(one.name, texts)))}"


def taken(slot: Slot, key: str, allowed: Range | None) -> Iterator[str]:
    if slot.form == "structure":
        many = " (.1, .2 ...)" if slot.many else ""
        yield f"| {key}{many} | {slot.kind.name} | | {clean(slot.words)} |"
        for part in slot.fields:
            yield from taken(part, f"{key}.1.{part.key}" if slot.many else f"{key}.{part.key}", None)
        return
    notes = [slot.words, span_of(slot, allowed) if allowed else ""]
    notes.append(f"one of: {'; '.join(slot.choices)}" if slot.choices else "")
    notes.append(f"{default} where nothing is typed" if (default := default_of(slot)) else "")
    notes.append("" if slot.needed or default else "may be left out")
    many = ", several" if slot.many else ""
    yield f"| {key} | {slot.kind.name}{many} | {unit(slot)} | {clean('; '.join(filter(None, notes)))} |"


def given(slot: Slot, key: str) -> Iterator[str]:
    if slot.form == "structure":
        yield f"| {key}{' (.1, .2 ...)' if slot.many else ''} | {slot.kind.name} | | {clean(slot.words)} |"
        for part in slot.fields:
            yield from given(
                part,
                f"{'1.' if slot.many else ''}{name_of(part.name)}"
                if key == "result"
                else f"{key}.{name_of(part.name)}",
            )
        return
    yield f"| {key} | {slot.kind.name}{', several' if slot.many else ''} | {unit(slot)} | {clean(slot.words)} |"


def unit(slot: Slot) -> str:
    return "" if slot.kind.unit in ("-", "1") else slot.kind.unit


def clean(words: str) -> str:
    """Words as Markdown shows them: nothing of a formula is taken for a mark."""
    return re.sub(r"([|*_<\[\]])", r"\\\1", words)


if __name__ == "__main__":
    sys.stdout.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    sys.stdout.write(page())
