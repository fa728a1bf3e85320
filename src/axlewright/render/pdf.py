"""A pack on paper: typst lays each sheet out on one page, at true scale, in the sheet face.

typst's wheel is imported only here. The template runs alone in a folder as its root, with its own fonts and no others;
what the user typed comes in as data and is never read as markup.
"""

from __future__ import annotations

import json
import re
import shutil
import tempfile
import threading
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from axlewright.render.draw import draw
from axlewright.render.face import FONTS, drawable
from axlewright.render.show import Show, Words
from axlewright.render.svg import whole
from axlewright.render.tree import Tree, tree
from axlewright.sheets import Drawing, Pack, Sheet

if TYPE_CHECKING:
    import typst

TEMPLATE = Path(__file__).parent / "sheet.typ"
BUSY = threading.Lock()
CURLED = re.compile(r"(?<=\w)'(?=\w)|(?<=s)'(?=[ ,.;:])")  # an apostrophe as it was typed


class TooTall(ValueError):
    """A sheet that does not fit its one page: which, and by how much."""

    def __init__(self, sheet: str, paper: str, over: int) -> None:
        self.sheet, self.paper, self.over = sheet, paper, over
        super().__init__(
            f"sheet {sheet} is {over} mm too tall for one page of {paper}: shorten its words or move a section"
        )


@cache
def face() -> typst.Fonts:
    """The sheet face and no other."""
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)])


@cache
def alone() -> tempfile.TemporaryDirectory[str]:
    """A folder that holds the template and nothing else, and lasts as long as the program."""
    folder = tempfile.TemporaryDirectory(prefix="axlewright-")
    shutil.copyfile(TEMPLATE, Path(folder.name) / TEMPLATE.name)
    return folder


@cache
def compiler() -> typst.Compiler:
    """One for all sheets: it keeps the template as it was read. One thread at a time (`BUSY`)."""
    import typst

    return typst.Compiler(
        Path(alone().name) / TEMPLATE.name, root=alone().name, font_paths=face(), ignore_system_fonts=True
    )


def picture(drawing: Drawing, words: Words, size: float = 1.0) -> Tree:
    """A drawing as SVG for paper, with its size in mm."""
    drawn = draw(drawing, words, page=False, size=size)
    return {"svg": whole(drawn, page=False), "width": drawn.width, "height": drawn.height}


def printable(part: Any) -> Any:
    """The tree with apostrophes as printers set them, and a box for each character that the sheet face does not have."""
    match part:
        case str():
            curled = CURLED.sub("’", part) if "'" in part else part
            return curled if curled.isascii() else drawable(curled)
        case dict():
            return {name: printable(value) for name, value in part.items()}
        case list() | tuple():
            return [printable(value) for value in part]
        case _:
            return part


def laid(sheets: tuple[Sheet, ...], pack: Pack, show: Show) -> dict[str, str]:
    """What the template takes in."""
    grown = [printable(tree(sheet, pack, show, picture)) for sheet in sheets]
    titles = dict.fromkeys(part for sheet in sheets for part in (sheet.block.title, sheet.block.corner) if part)
    return {"sheets": json.dumps(grown, ensure_ascii=False), "paper": show.paper, "title": ", ".join(titles)}


def compiled(
    sheets: tuple[Sheet, ...],
    pack: Pack,
    show: Show,
    kind: Literal["pdf", "png"],
    ppi: float | None = None,
    runs_on: bool = False,
) -> bytes:
    """Sheets as PDF, or one as PNG; with `runs_on` a sheet goes over to the next page where it must.

    Raises:
        TooTall: a sheet does not fit its page
    """
    import typst

    given = {**laid(sheets, pack, show), "runs-on": "yes" if runs_on else "no"}
    try:
        with BUSY:
            made = compiler().compile(format=kind, ppi=ppi, sys_inputs=given)
    except typst.TypstError as bad:
        over = re.search(r"([\w-]+) is too tall by (\d+) mm", str(bad))
        if over:
            raise TooTall(over[1], show.paper, int(over[2])) from None
        raise
    assert isinstance(made, bytes), "one page to a sheet"
    return made


def png(sheet: Sheet, pack: Pack, show: Show, ppi: float = 110) -> bytes:
    """A picture of one sheet."""
    return compiled((sheet,), pack, show, "png", ppi)


def one(sheet: Sheet, pack: Pack, show: Show) -> bytes:
    """One sheet as PDF."""
    return compiled((sheet,), pack, show, "pdf")


def render(pack: Pack, show: Show) -> bytes:
    """The whole pack as PDF, each sheet on its page."""
    return compiled(pack.sheets, pack, show, "pdf")


def printed(pack: Pack, show: Show) -> bytes:
    """The whole pack as PDF for whoever waits at the printer: two pages of a sheet are better than none."""
    try:
        return render(pack, show)
    except TooTall:
        return compiled(pack.sheets, pack, show, "pdf", runs_on=True)
