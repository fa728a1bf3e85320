"""A sheet as a page of its own: style inside, no script, prints; and its parts, for the rooms to wrap."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, NoReturn

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from axlewright.render.draw import draw
from axlewright.render.narrow import narrow
from axlewright.render.show import STAY, Show, Words
from axlewright.render.svg import Picture, style, whole
from axlewright.render.tree import FIELD, Pictured, Tree, tree
from axlewright.sheets import BasisEntry, Drawing, Pack, Sheet, Text

TEMPLATES = Path(__file__).parent / "templates"  # blocks.html holds the macros; a room's own loader may look here too


def unknown_block(kind: str) -> NoReturn:
    raise LookupError(f"blocks.html does not know a block of kind {kind}: add it there")


def classes(slim: Tree | None, place: int, right: bool, cell: list[Any] | None = None) -> Markup:
    """The classes of a cell: to the right; where it stands on a narrow screen; there, a cell without a word is left out."""
    empty = "e" if slim and cell is not None and not cell else ""
    stands = f"k{slim['cells'][place]}" if slim and slim["cells"][place] else ""
    names = " ".join(filter(None, ("n" if right else "", stands, empty)))
    return Markup(f' class="{names}"' if names else "")


UNIT = re.compile(
    r"(?<=\d) (?=(?:mm|cm|m|km|km/h|h|min|s|kg|t|kN|N|N·m|Nm|lbf·ft|MPa|kPa|bar|psi|°C|°F|K|L|ha|ac|%|in 100)(?![\w·]))"
)


def stay(said: str) -> str:
    """Words as they stand on a page: a number and its unit are not parted by a line's end."""
    return UNIT.sub(STAY, said)


MACROS: dict[str, Any] = {"unknown_block": unknown_block, "narrow": narrow, "classes": classes, "stay": stay}
"""What blocks.html calls; a room's own environment gives it the same."""


@cache
def environment() -> Environment:
    """Where the templates are; what stands in them is escaped."""
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.update(MACROS)
    return made


@cache
def css() -> str:
    """The style of every sheet and room, drawings included."""
    return (TEMPLATES / "sheet.css").read_text(encoding="utf-8").replace("/*drawings*/", style(page=True))


def picture(drawing: Drawing, words: Words, name: str) -> Tree:
    """A drawing as SVG, and where it asks in per cent of its field. `name` keeps ids apart on one page."""
    drawn = draw(drawing, words, page=True)
    share = min(round(100 * drawn.width / FIELD, 1), 100.0)  # of its field: a narrow figure stays at its scale
    return {"svg": Markup(whole(drawn, name, page=True)), "asks": asks(drawn), "share": share}


def asks(drawn: Picture) -> list[dict[str, Any]]:
    """The places where a drawing asks: ticks and values by their middle, picks by their room, in per cent of the field."""
    out = []
    for ask in drawn.asks:
        left, top, right, foot = ask.box
        if ask.how != "pick":
            left = right = (left + right) / 2
            top = foot = (top + foot) / 2
        x, wide = (round(100 * value / drawn.width, 2) for value in (left, right - left))
        y, high = (round(100 * value / drawn.height, 2) for value in (top, foot - top))
        out.append(
            {
                "name": ask.name,
                "value": ask.value,
                "how": ask.how,
                "says": ask.says,
                "left": x,
                "top": y,
                "wide": wide,
                "high": high,
            }
        )
    return out


def figure(
    drawing: Drawing,
    show: Show,
    basis: Mapping[str, BasisEntry] | None = None,
    *,
    name: str = "figure",
    twin: tuple[Text, ...] = (),
    caption: Text = (),
) -> Markup:
    """One drawing as a figure, with the same in words under it. `name` keeps its ids apart on a page."""
    words = Words(show, basis or {})
    told = [[[span.voice, span.words, span.to] for span in words.spans(line)] for line in (*twin, caption)]
    macros: Any = environment().get_template("blocks.html").module
    wide, beside = drawing.width > FIELD, bool(caption) and drawing.width <= FIELD / 2
    return Markup(macros.figure(picture(drawing, words, name), told[:-1], told[-1], drawing.says, wide, beside))


def body(sheet: Sheet, pack: Pack, show: Show, *, name: str = "") -> Markup:
    """Head, verdicts, answer, sections, revisions and title block of a sheet. It wants a `.sheet` around it."""
    grown = tree(sheet, pack, show, numbered(name or sheet.name))
    return Markup(environment().get_template("body.html").render(tree=grown))


def numbered(name: str) -> Pictured:
    """A picturer that gives each drawing of a sheet ids of its own."""
    count = 0

    def one(drawing: Drawing, words: Words, on_paper: float) -> Tree:
        nonlocal count
        del on_paper
        count += 1
        return picture(drawing, words, f"{name}-{count}")

    return one


def render(pack: Pack, show: Show) -> bytes:
    """The whole pack as one page."""
    bodies = [body(sheet, pack, show, name=f"s{n}") for n, sheet in enumerate(pack.sheets, 1)]
    titles = [sheet.block.title for sheet in pack.sheets]
    title = ", ".join(filter(None, [*titles, pack.sheets[0].block.corner if pack.sheets else ""]))
    page = (
        environment()
        .get_template("sheet.html")
        .render(language=show.language, paper=show.paper, title=title, css=Markup(css()), bodies=bodies)
    )
    return page.encode()
