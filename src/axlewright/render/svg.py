"""SVG: a small builder, and the ink of each role for a page (variables) and for paper (plain colours).

typst honours classes but drops a line whose stroke is `var(...)`, without a word: so there are two style blocks, one body.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from html import escape
from typing import Literal

from axlewright.render.face import FAMILY
from axlewright.render.geometry import short
from axlewright.render.show import Span, Spans

PAPER_INK = {
    "paper": "#fff",
    "ink": "#000",
    "soft": "#3a3833",
    "con": "#33505f",
    "grid": "#b4bfc5",
    "must": "#6d2115",
    "wash": "#eee",
}

# class: stroke, width, dash
STROKES: dict[str, tuple[str, float, str]] = {
    "o": ("ink", 0.5, ""),
    "o1": ("ink", 0.65, ""),
    "t": ("ink", 0.25, ""),
    "h": ("ink", 0.25, "1.6 .8"),
    "x": ("con", 0.2, "5 .9 .9 .9"),
    "d": ("ink", 0.2, ""),
    "g": ("grid", 0.2, ""),
    "z": ("con", 0.25, ""),
    "u": ("must", 0.7, ""),
    "v": ("must", 0.5, ""),
    "uh": ("must", 0.7, "2.4 1.4"),
    "ly": ("ink", 0.3, ""),  # lines of the hatches
    "lf": ("ink", 0.34, ""),
    "lc": ("ink", 0.18, ""),
    "lg": ("con", 0.25, ""),
    "lk": ("must", 0.2, ""),
    "es": ("ink", 0.32, ""),
}
# class: fill, stroke, width, opacity of the fill
FILLS: dict[str, tuple[str, str, float, float]] = {
    "f": ("paper", "ink", 0.5, 1),
    "ft": ("paper", "ink", 0.25, 1),
    "fb": ("paper", "ink", 0.4, 1),
    "fr": ("paper", "ink", 1.1, 1),
    "pp": ("paper", "", 0, 1),
    "w": ("wash", "", 0, 1),
    "i": ("ink", "", 0, 1),
    "iu": ("must", "", 0, 1),
    "ik": ("con", "", 0, 1),
    "oil": ("con", "", 0, 0.2),
    "ps": ("con", "", 0, 0.5),
}
LINES = set(STROKES)  # no fill: paths that follow each other may be joined
MARGIN = 1.0  # mm round a drawing on paper, for what stands on the edge of its field
# what recedes: construction ink, finer lines
CONTEXT = {"o": 0.32, "f": 0.32, "o1": 0.4, "ft": 0.2, "t": 0.2, "h": 0.2}
# words: size in mm, weight, ink
WORDS = {"b": "font-weight:600", "k": "fill:{con}", "mu": "fill:{must}", "qt": "fill:{soft}"}

SPANS = {"strong": "b", "must": "b mu", "soft": "qt", "struck": "st", "basis": "bs"}


class El:
    """An element: what it is, what stands in it, its attributes. Text is escaped, numbers are cut to two decimals."""

    __slots__ = ("attrs", "children", "tag")

    def __init__(self, tag: str, *children: El | str, **attrs: str | float | None) -> None:
        self.tag, self.children, self.attrs = tag, children, attrs

    def __str__(self) -> str:
        said = "".join(
            f' {name.strip("_").replace("_", "-")}="{escape(value if isinstance(value, str) else short(value))}"'
            for name, value in self.attrs.items()
            if value is not None
        )
        inner = "".join(escape(c, quote=False) if isinstance(c, str) else str(c) for c in self.children)
        return f"<{self.tag}{said}>{inner}</{self.tag}>" if inner else f"<{self.tag}{said}/>"


def spanned(line: Spans) -> tuple[El | str, ...]:
    """A line's spans: plain ones as they are, others in a span of their class."""

    def one(span: Span) -> El | str:
        return span.words if span.voice == "plain" else El("tspan", span.words, class_=SPANS[span.voice])

    return tuple(one(span) for span in line)


@dataclass(frozen=True, slots=True)
class Ask:
    """A place of a drawing where the page asks: its field and value, its room in mm, what it says."""

    name: str
    value: str
    how: Literal["tick", "pick", "value"]
    box: tuple[float, float, float, float]  # left, top, right, bottom
    says: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as it will be shown: its body in SVG, and where it asks."""

    width: float
    height: float
    says: str
    body: str
    asks: tuple[Ask, ...] = ()


def whole(picture: Picture, name: str = "", *, page: bool) -> str:
    """A picture as one SVG element: for a page with its sentence, for paper with its style and a margin for thick lines."""
    wide, high = picture.width, picture.height
    if not page:
        room = f"{short(-MARGIN)} {short(-MARGIN)} {short(wide + 2 * MARGIN)} {short(high + 2 * MARGIN)}"
        attrs = f'xmlns="http://www.w3.org/2000/svg" viewBox="{room}"'
        return f"<svg {attrs}><style>{style(page=False)}</style>{picture.body}</svg>"
    says, _, more = picture.says.partition(". ")
    told = str(El("title", says + ("." if more else ""), id=f"{name}-t"))
    told += str(El("desc", more, id=f"{name}-d")) if more else ""
    role = "group" if "<a " in picture.body else "img"  # links inside an image could not be reached
    named = f'aria-labelledby="{name}-t"' + (f' aria-describedby="{name}-d"' if more else "")
    return (
        f'<svg class="fig" viewBox="0 0 {short(wide)} {short(high)}" role="{role}" {named}>{told}{picture.body}</svg>'
    )


def joined(marks: list[tuple[bool, str, str]]) -> str:
    """All marks in their order: lines of one class as one path, context in groups."""
    out: list[str] = []
    inside = False
    n = 0
    while n < len(marks):
        context, name, said = marks[n]
        n += 1
        if name:
            while n < len(marks) and marks[n][:2] == (context, name):
                said += marks[n][2]
                n += 1
            said = str(El("path", class_=name, d=said))
        if context != inside:
            out.append('<g class="cx">' if context else "</g>")
            inside = context
        out.append(said)
    return "".join(out) + ("</g>" if inside else "")


@cache
def style(*, page: bool) -> str:
    """The rules for classed drawings: for a page under `svg` with its variables, for paper with plain colours."""
    ink = {name: f"var(--{name})" if page else colour for name, colour in PAPER_INK.items()}
    under = "svg " if page else ""
    face = "var(--face)" if page else f"'{FAMILY}'"
    rules = [
        f"{under}text{{font-family:{face};font-size:{3.5 if page else 3.2}px;fill:{ink['ink']};font-variant-numeric:tabular-nums}}",
        f"{under}.l{{font-size:{5 if page else 4.6}px;font-weight:600}}",
        # on a telephone a drawing's words are as small as they may be: there the basis is told apart by its ink alone
        f"{under}.bs{{fill:{ink['con']};font-size:{'1em' if page else '.86em'};font-weight:400}}",
        f"{under}.m{{text-anchor:middle}}{under}.e{{text-anchor:end}}{under}.n{{fill:{ink['paper']}}}",
        f"{under}.st{{text-decoration:line-through}}",
        f"{under}.halo{{stroke:{ink['paper']};stroke-width:1.4px;stroke-linejoin:round;paint-order:stroke}}",
        *(f"{under}.{name}{{{rule.format(**ink)}}}" for name, rule in WORDS.items()),
    ]
    for name, (stroke, wide, dash) in STROKES.items():
        dashed = f";stroke-dasharray:{dash}" if dash else ""
        rules.append(
            f"{under}.{name}{{fill:none;stroke:{ink[stroke]};stroke-width:{wide};stroke-linejoin:round{dashed}}}"
        )
    for name, (fill, stroke, wide, opacity) in FILLS.items():
        line = f"stroke:{ink[stroke]};stroke-width:{wide};stroke-linejoin:round" if stroke else "stroke:none"
        thinned = f";fill-opacity:{opacity}" if opacity < 1 else ""
        rules.append(f"{under}.{name}{{fill:{ink[fill]};{line}{thinned}}}")
    rules += [f"{under}.cx .{name}{{stroke:{ink['con']};stroke-width:{wide}}}" for name, wide in CONTEXT.items()]
    return "".join(rules)
