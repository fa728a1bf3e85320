"""The Basis sheet: every number of the pack with where it comes from, and the guesses that move the answer most."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.measure import lines
from axlewright.sheets import BasisEntry, Note, Piece, Run, Section, Sheet, Shown, Table, Text, text
from axlewright.sheets.blocks import Column, Row

ORDER = ("assumed", "measured", "book", "computed")
HEADINGS = {
    "assumed": ("Assumed", "type your own before you decide"),
    "measured": ("Measured, or typed as seen", ""),
    "book": ("From the book, a plate or a drawing", ""),
    "computed": ("Computed", "by the formula that is named, from what it was made of"),
}
MOST_NAMED = 2  # of what a number was made of; the rest is counted
ROWS = 3  # of the revision table
SIZE, LINE, AROUND = 7.5, 2.95, 0.95  # points; mm: a line of a row, and what is over and under it
PAGE, HEAD, GUESS = 218.0, 11.0, 30.0  # mm: room for rows on the lower paper, a heading's height, the guesses' section
SHARES = (1.0, 2.35)
ROOM = tuple(180.0 * share / sum(SHARES) - 1.8 for share in SHARES)  # mm, of either column
HELD = re.compile(r"held[^/]*/")  # a number at its careful corner
OWN = re.compile(r"\b[a-z0-9-]+\.(?:front|rear)-(?:left|right)/|\btrouble-\d+/")
HOUR = 3600.0
SHOWN = re.compile(r'"part":"shown","name":"([^"]+)"')
NUMBER = " 00,000"  # as wide as most
MOST_IN_ROW = 8  # numbers of one source in one row


@dataclass(frozen=True, slots=True)
class FromOne:
    """Numbers of one source, in one row."""

    basis: str
    source: str
    entries: tuple[BasisEntry, ...]

    @property
    def height(self) -> float:
        """How tall the row is at most [mm]."""
        told: list[Piece] = []
        for one in self.entries:
            ends = Run(voice="strong", words=(NUMBER if one.low is None else f"{NUMBER} ({NUMBER} to {NUMBER})",))
            told += [f"{short(one.name)}; ".replace("/", "/ "), ends, made_of(one).replace("/", "/ ")]
        return AROUND + LINE * max(lines(tuple(told), ROOM[1], SIZE), lines((self.source,), ROOM[0], SIZE))


def basis_sheets(
    basis: Mapping[str, BasisEntry],
    frame: Frame,
    moves: Sequence[tuple[str, float]] = (),
    between: str = "",
    sheets_drawn: Sequence[Sheet] = (),
) -> Drawn:
    """The sheets, a page each: every number that went in, and every computed one that stands on a sheet.

    What lies between those is kept in the pack, and is counted here.

    Args:
        basis: every number of the pack
        frame: what the title blocks say
        moves: the numbers that move the answer most, each with its share of the variance
        between: what answer that is
        sheets_drawn: the sheets that these numbers stand on; none: all of them are printed
    """
    seen = names_on(sheets_drawn)
    printed = {
        name: one for name, one in own_numbers(basis).items() if one.basis != "computed" or not seen or name in seen
    }
    rows = [row for kind in ORDER for row in _rows(printed, kind)]
    pages = list(_pages(rows, bool(moves)))
    sheets = []
    for number, page in enumerate(pages, 1):
        sections = [_guesses(basis, moves, between)] if number == 1 and moves else []
        sections += [_section(kind, mine) for kind in ORDER if (mine := [row for row in page if row.basis == kind])]
        title = "Basis" if len(pages) == 1 else f"Basis, page {number} of {len(pages)}"
        name = "basis" if number == 1 else f"basis-{number}"
        sheets.append(_sheet(name, title, sections, frame, _answer(len(printed), len(basis)) if number == 1 else ""))
    return Drawn(tuple(sheets), {})


def _sheet(name: str, title: str, sections: Sequence[Section], frame: Frame, answer: str) -> Sheet:
    head = frame.head(title)
    return Sheet(
        name=name,
        head=head,
        answer=text(answer) if answer else (),
        sections=tuple(sections),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Basis"),
        paper="dense",
    )


def _answer(printed: int, all_: int) -> str:
    between = f" {all_ - printed} more lie between: the pack as JSON has them all." if all_ > printed else ""
    return f"{printed} numbers stand behind these sheets.{between} A guess counts until somebody looks."


def names_on(sheets: Sequence[Sheet]) -> frozenset[str]:
    """The numbers that stand on sheets."""
    return frozenset(name for sheet in sheets for name in SHOWN.findall(sheet.model_dump_json()))


def own_numbers(basis: Mapping[str, BasisEntry]) -> dict[str, BasisEntry]:
    """Of numbers that are held at several careful corners and come out alike each once, under its own name first."""
    found: dict[tuple[str, str, str], BasisEntry] = {}
    for name in sorted(basis, key=lambda name: (bool(HELD.match(name)), name)):
        entry = basis[name]
        found.setdefault((HELD.sub("", name, count=1), f"{entry.value:.6g}", entry.basis), entry)
    return {entry.name: entry for entry in found.values()}


def _rows(basis: Mapping[str, BasisEntry], kind: str) -> Iterator[FromOne]:
    """Numbers of one basis by their source, in the order of their names."""
    by: dict[str, list[BasisEntry]] = {}
    for name in sorted(basis):
        if basis[name].basis == kind:
            by.setdefault(basis[name].source, []).append(basis[name])
    for source, entries in by.items():
        for first in range(0, len(entries), MOST_IN_ROW):
            yield FromOne(kind, source, tuple(entries[first : first + MOST_IN_ROW]))


def _pages(rows: Sequence[FromOne], guesses: bool) -> Iterator[list[FromOne]]:
    """Rows by pages, as many as surely find room."""
    page: list[FromOne] = []
    left, last = PAGE - (GUESS if guesses else 0.0), ""
    for row in rows:
        need = row.height + (HEAD if row.basis != last or not page else 0.0)
        if page and need > left:
            yield page
            page, left, need = [], PAGE, row.height + HEAD
        page.append(row)
        left, last = left - need, row.basis
    if page or not rows:
        yield page


def short(name: str) -> str:
    """A name without the corner and the trouble that the head names: `hold/jack-takes-it.corner`."""
    return OWN.sub("", name)


def made_of(entry: BasisEntry) -> str:
    """The first few numbers that it was made of, and how many more."""
    more = len(entry.made_of) - MOST_NAMED
    named = ", ".join(map(short, entry.made_of[:MOST_NAMED]))
    return f" from {named} and {more} more" if more > 0 else f" from {named}" if named else ""


def _section(kind: str, rows: Sequence[FromOne]) -> Section:
    heading, aside = HEADINGS[kind]
    columns = (
        Column(heading="where it comes from", share=SHARES[0]),
        Column(heading="numbers, named without corner and trouble", share=SHARES[1]),
    )
    table = Table(
        columns=columns, rows=tuple(Row(cells=((row.source.removesuffix("."),), _numbers(row))) for row in rows)
    )
    return Section(heading=heading, aside=aside, place="wide", blocks=(table,))


def _numbers(row: FromOne) -> Text:
    """Each number by its name, with its ends, and what it was made of."""
    told: list[Piece] = []
    for one in row.entries:
        told += [("; " if told else "") + f"{short(one.name)} ", Run(voice="strong", words=(shown(one),))]
        if made := made_of(one):
            told.append(Run(voice="soft", words=(made,)))
    return tuple(told)


def shown(entry: BasisEntry) -> Shown:
    """A number with its ends; hours of a clock, which have none, whole as the other sheets have them."""
    clock = entry.kind == "duration" and entry.low is None and entry.high is None
    whole = len(f"{abs(entry.value) / HOUR:.0f}") if clock else 0
    return Shown(name=entry.name, si=entry.value, low=entry.low, high=entry.high, digits=max(3, whole))


def _guesses(basis: Mapping[str, BasisEntry], moves: Sequence[tuple[str, float]], between: str) -> Section:
    """What moves the answer most: know one of these better, and the answer is surer."""
    rows = tuple(
        Row(
            cells=(
                (name,),
                (shown(basis[name]),),
                (f"{100 * share:.0f} in 100 of what is not sure",),
            )
        )
        for name, share in moves
        if name in basis
    )
    columns = (
        Column(heading="number", share=1.4),
        Column(heading="value", share=1.2),
        Column(heading="of the difference it makes", share=1.4),
    )
    told = Note(words=text(between), size="small", voice="soft")
    return Section(heading="What moves the answer most", place="wide", blocks=(Table(columns=columns, rows=rows), *((told,) if between else ())))  # fmt: skip
