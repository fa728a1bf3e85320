"""A pack for a terminal: no colours, 78 columns, drawings in words."""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from axlewright.render.show import STAY, THIN, Show, Words
from axlewright.render.tree import Tree, tree
from axlewright.sheets import Drawing, Pack

WIDE = 78
LABELS = 18  # columns for the label of a verdict
HELD, HELD_THIN = "\ue000", "\ue001"  # spaces that may not break, while lines are wrapped
# Spaces as a terminal has them; what would steer a terminal is shown and does nothing.
SAFE = dict.fromkeys([*range(10), *range(11, 32), *range(127, 160)], "\ufffd") | {
    ord(c): " " for c in (HELD, HELD_THIN, STAY, THIN)
}
Spans = Sequence[Sequence[str]]


def plain(spans: Spans) -> str:
    """Words without their voices; what is struck through says so."""
    return "".join(f"[struck: {said}]" if voice == "struck" else said for voice, said, _ in spans)


def columns(said: str) -> int:
    """How many columns words take in a terminal."""
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in {"W", "F"} else 1 for c in said
    )


def wrapped(said: str, first: str = "", rest: str | None = None, wide: int = WIDE) -> list[str]:
    """Words over lines; no number is parted from its unit."""
    held = said.replace(STAY, HELD).replace(THIN, HELD_THIN)
    rest = " " * columns(first) if rest is None else rest
    return textwrap.wrap(
        held, wide, initial_indent=first, subsequent_indent=rest, break_long_words=False, break_on_hyphens=False
    ) or [first.rstrip()]


def ended(left: str, right: str) -> str:
    """Words at the left and at the right end of a line."""
    room = WIDE - columns(left) - columns(right)
    return f"{left}{' ' * max(room, 2)}{right}" if right else left


def heading(said: str, aside: str) -> list[str]:
    return [ended(said, aside), "-" * WIDE] if said else []


def note(b: Tree) -> Iterator[str]:
    yield from wrapped(plain(b["words"]))


def values(b: Tree) -> Iterator[str]:
    for name, value in b["rows"]:
        left, right = plain(name), plain(value)
        if columns(left) + columns(right) + 2 <= WIDE:
            yield ended(left, right)
        else:
            yield from wrapped(f"{left}: {right}", rest="  ")


def table(b: Tree) -> Iterator[str]:
    """Columns as wide as their words, shrunk by need; cells wrap."""
    heads = [c["heading"] for c in b["columns"]]
    rows = [[plain(cell) for cell in row["cells"]] for row in b["rows"]]
    for row, given in zip(rows, b["rows"], strict=True):
        if given["voice"] == "struck" and row:
            row[0] = f"[struck: {row[0]}]"
    wants = [max([columns(h), *(columns(r[n]) for r in rows if n < len(r))], default=1) for n, h in enumerate(heads)]
    room = WIDE - 2 * (len(heads) - 1)
    while sum(wants) > room and max(wants) > 8:
        wants[wants.index(max(wants))] -= 1
    if b["headed"]:
        yield from cells(heads, wants, b["columns"])
        yield "-" * min(sum(wants) + 2 * (len(wants) - 1), WIDE)
    for row in rows:
        yield from cells(row, wants, b["columns"])


def cells(row: Sequence[str], wants: Sequence[int], heads: Sequence[Tree]) -> Iterator[str]:
    parts = [wrapped(said, wide=wide) for said, wide in zip(row, wants, strict=False)]
    for n in range(max(map(len, parts), default=0)):
        line = []
        for part, wide, head in zip(parts, wants, heads, strict=False):
            said = part[n] if n < len(part) else ""
            gap = " " * max(wide - columns(said), 0)
            line.append(gap + said if head["right"] else said + gap)
        yield "  ".join(line).rstrip()


def figure(b: Tree) -> Iterator[str]:
    """What is seen, then the same in words as on a page."""
    yield from wrapped(f"[drawing] {b['says']}", rest="  ")
    for line in b["twin"]:
        yield from wrapped(plain(line), "  ")
    if b["caption"]:
        yield from wrapped(plain(b["caption"]), "  ")


def caution(b: Tree) -> Iterator[str]:
    yield from wrapped(f"{b['lead']} {plain(b['words'])}", "! ", "! ")


def hold(b: Tree) -> Iterator[str]:
    yield from wrapped(f"{b['lead']} {plain(b['words'])}", "## ", "## ")
    for line in b["lines"]:
        yield f"## {line} ________"


def numbered(b: Tree) -> Iterator[str]:
    for item in b["items"]:
        mark = (
            f"{item['number']}{'.' if item['balloon'] else ' '}{' x' if item['done'] else ''}"
            if item["number"]
            else "-"
        )
        said = " ".join(filter(None, (item["lead"], plain(item["words"]))))
        aside = plain(item["aside"])
        yield from wrapped(said + (f" ({aside})" if aside else ""), f"{mark:<3} ")
        if item["says"]:
            yield from wrapped(f"[drawing] {item['says']}", "    ")
        if item["boxes"]:
            yield from wrapped("  ".join(f"[{STAY}]{STAY}{box.replace(' ', STAY)}" for box in item["boxes"]), "    ")


def boxes(b: Tree) -> Iterator[str]:
    told = [(f"[{'x' if x['ticked'] else STAY}]{STAY}", plain(x["words"])) for x in b["boxes"]]
    line = "________" if b["line"] else ""
    if b["stacked"]:
        yield from wrapped(b["lead"]) if b["lead"] else ()
        for mark, said in told:
            yield from wrapped(said, mark)
        yield from wrapped(f"{b['after']} {line}".strip()) if b["after"] or line else ()
    else:
        run = "  ".join(mark + said.replace(" ", STAY) for mark, said in told)
        yield from wrapped("  ".join(filter(None, (b["lead"], run, b["after"], line))), rest="  ")


def lines(b: Tree) -> Iterator[str]:
    parts = []
    for one in b["lines"]:
        written = plain(one["written"]) or "________"
        unit = STAY + one["unit"] if one["unit"] else ""
        ticked = f"[{STAY}]{STAY}" if b["ticked"] else ""
        asked = "  ".join(f"[{STAY}]{STAY}{box}" for box in one["boxes"])
        parts.append(asked or f"{ticked}{one['label']}{STAY}{written}{unit}")
    if b["stacked"]:
        for part in parts:
            yield from wrapped(part, rest="    ")
    else:
        yield from wrapped("  ".join(parts))


def bands(b: Tree) -> Iterator[str]:
    for band in b["bands"]:
        yield from wrapped(plain(band["means"]), f"{plain(band['reads']):<18} ")
    yield from wrapped(plain(b["note"])) if b["note"] else ()


def strips(b: Tree) -> Iterator[str]:
    """Courses, best first, each with its numbers; then what is stopped and what would lift it."""
    if b["note"]:
        yield from wrapped(plain(b["note"]))
    for row in b["rows"]:
        mark = f"{row['letter']}  " if row["letter"] else ""
        yield from wrapped(plain(row["label"]), mark, " " * len(mark))
        if row["note"]:
            yield from wrapped(plain(row["note"]), "   ", "   ")
        if row["values"]:
            said = "; ".join(f"{label} {plain(value)}" for label, value in row["values"])
            yield from wrapped(said, "   ", "   ")
        yield from wrapped(plain(row["twin"]), "   ", "   ")
    for row in b["stopped"]:
        yield from wrapped(f"[struck: {plain(row['label'])}] stopped: {plain(row['why'])}", f"{row['letter']}  ", "   ")
        yield from wrapped(f"Lifted by: {plain(row['lifted_by'])}", "   ", "   ")


LAID: dict[str, Callable[[Tree], Iterator[str]]] = {
    "note": note,
    "values": values,
    "table": table,
    "figure": figure,
    "dots": strips,
    "caution": caution,
    "hold": hold,
    "numbered": numbered,
    "boxes": boxes,
    "lines": lines,
    "bands": bands,
}


def sheet_lines(t: Tree) -> Iterator[str]:
    """One sheet from its head to its title block."""
    yield from wrapped(plain(t["head"]))
    if t["grade"]:
        said = plain(t["grade"]["words"])
        yield from wrapped(f"[{said}]" if t["grade"]["shop"] else f"[NOT FOR LIFTING: {said}]", rest=" ")
    yield "=" * WIDE
    for v in t["verdicts"]:
        words = f"{v['word']}: {plain(v['words'])}" if v["words"] else v["word"]
        yield from wrapped(words, f"{v['line']:<{LABELS}}")
    for part in ("answer", "lead"):
        if t[part]:
            yield ""
            yield from wrapped(plain(t[part]))
    for d in t["deciding"]:
        yield from wrapped(f"{plain(d['number'])}  {plain(d['words'])}", "  ")
    for band in t["bands"]:
        for section in band["sections"]:
            yield ""
            yield from heading(section["heading"], section["aside"])
            for block in section["blocks"]:
                yield from LAID[block["kind"]](block)
    yield from foot(t)


def foot(t: Tree) -> Iterator[str]:
    yield ""
    yield "=" * WIDE
    for r in t["revisions"]:
        yield from wrapped(", ".join(filter(None, (r["on"], r["who"], plain(r["changed"])))), f"{r['letter']}  ")
    if t["revisions"]:
        yield "-" * WIDE
    fields = [f"{f['label'].replace(' ', STAY)}: {f['words'] or '________'}" for f in t["block"]]
    yield from wrapped(" | ".join(fields))


def nothing(drawing: Drawing, words: Words, size: float) -> Any:
    """A terminal draws nothing."""
    del drawing, words, size


def render(pack: Pack, show: Show) -> bytes:
    """The whole pack, sheet after sheet."""
    sheets = [
        "\n".join(line.rstrip() for line in sheet_lines(tree(sheet, pack, show, nothing))) for sheet in pack.sheets
    ]
    said = "\n\n\n".join(sheets) + "\n"
    return said.translate(SAFE).encode()
