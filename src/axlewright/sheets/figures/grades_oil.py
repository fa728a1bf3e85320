"""Oil as it is found: metal in it, blots of it, where it sits, what it is, and the breather."""

from __future__ import annotations

from axlewright.sheets.drawing import Arrow, Drawing, Group, Mark, Path, Role, Shape
from axlewright.sheets.figures import drive_section, plug
from axlewright.sheets.figures.looks import speckle
from axlewright.sheets.figures.shapes import (
    bar,
    box,
    circle,
    drawn,
    drop,
    line,
    lines,
    moved,
    polygon,
    rectangle,
    words,
)

TUB = 30.0  # mm, radius of the white circle on which the oil's metal is laid, true size
BLOTS = {"none": 0.0, "damp": 10.0, "drips": 30.0, "runs": 80.0}  # mm across, true size
PUDDLE = 100.0  # mm across, true size
_WIDTH, _HEIGHT = 26.0, 20.0
_SCALE = 0.5  # of the small section


def oil_metal(grade: str) -> Drawing:
    """What the filter kept, on a white circle of 60 mm, true size."""
    kinds: dict[str, tuple[str, tuple[Shape, ...]]] = {
        "none": ("White circle of 60 mm: no metal.", ()),
        "glitter": ("White circle of 60 mm: glitter, seen only in the sun.", _glitter()),
        "flakes": ("White circle of 60 mm: flakes of 0.5 to 2 mm.", _spread_flakes()),
        "chips": ("White circle of 60 mm: chips of 2, 4 and 8 mm.", _spread_chips()),
    }
    says, metal = kinds[grade]
    return drawn(62.0, says, moved(31.0, 31.0, circle("paper", 0, 0, TUB), *metal), width=62.0)


def _glitter() -> tuple[Shape, ...]:
    return (lines("thin", speckle(0.0, 0.0, TUB - 2.0, 120)),)


def _spread_flakes() -> tuple[Shape, ...]:
    return plug.specks(tuple((4.6 * x + 1.4, 4.6 * y, size, turned) for x, y, size, turned in plug.FLAKES))


def _spread_chips() -> tuple[Shape, ...]:
    places = ((-12.0, -9.0), (9.0, 5.0), (-8.0, 12.0), (13.0, -12.0), (0.0, -1.0))
    return tuple(moved(x, y, plug.sliver(*one)) for (x, y), one in zip(places, plug.SLIVERS, strict=True))


def leak_wheel(grade: str) -> Drawing:
    """A blot on white paper held to the wheel side, true size."""
    return _blot(grade, "the wheel side", flange=False)


def leak_input(grade: str) -> Drawing:
    """A blot on white paper held to the inner flange, true size."""
    return _blot(grade, "the inner flange", flange=True)


def _blot(grade: str, place: str, flange: bool) -> Drawing:
    size = BLOTS[grade]
    side = max(size + 6.0, 24.0)
    left = 2.5 if flange and side < 80 else 0.0
    says = f"White paper from {place}: a blot of {size:.0f} mm." if size else f"White paper from {place}: dry."
    r, at = size / 2, (left + side / 2, side / 2)
    shapes: list[Shape] = [polygon("paper", rectangle(left + 0.4, 0.4, side - 0.8, side - 0.8))]
    if left:
        shapes.append(box("solid-construction", 0.2, 0.4, 1.6, side - 0.8))  # the flange's edge
    if size:
        shapes += [circle("oil", *at, r), circle("paste", *at, 0.72 * r), circle("construction", *at, r)]
    return drawn(round(side, 1), says, *shapes, width=round(left + side, 1))


def puddle(grade: str) -> Drawing:
    """A quarter of a puddle of 100 mm, true size, with half its width as a bar."""
    r = PUDDLE / 2
    wet: tuple[Shape, ...] = {
        "no": (),
        "yes": (
            Path(d=f"M2 {r + 4}v-{r}a{r} {r} 0 0 1 {r} {r}z", role="oil"),
            Path(d=f"M2 4a{r} {r} 0 0 1 {r} {r}", role="construction"),
        ),
    }[grade]
    says = "A quarter of a puddle 100 mm across, left overnight." if wet else "The ground below stayed dry overnight."
    ring = Path(d=f"M2 4a{r} {r} 0 0 1 {r} {r}", role="hidden")
    cross = lines("centre", (((2, 2), (2, r + 6)), ((0, r + 4), (r + 6, r + 4))))
    return drawn(62.0, says, *(wet or (ring,)), cross, *bar(2.0, r + 8.6, r, "50 mm, half of it"), width=60.0)


def fluid(grade: str) -> Drawing:
    """The wiped paper, by what the oil does on it."""
    kinds: dict[str, tuple[str, tuple[Shape, ...]]] = {
        "dry": ("White paper that stays dry.", ()),
        "gear": (
            "A thick dark blot: gear oil, sulphur smell.",
            (circle("paste", 13, 10, 5.6), circle("paste", 12.4, 10.4, 3.8)),
        ),
        "brake": (
            "A thin wide blot with a sharp edge: brake oil, fishy, lifts paint.",
            (circle("oil", 13, 10, 7.2), circle("hidden", 13, 10, 7.2)),
        ),
        "hydraulic": (
            "A thin blot below a hose: hydraulic oil.",
            (circle("oil", 15, 11.6, 5.6), Path(d="M4 3.4q7 -1.4 9.4 4.2", role="subject"), drop(13.8, 8.2, 0.8)),
        ),
        "jet": ("A jet or mist of oil from a hose: hands off.", _jet()),
        "grease": (
            "Grease: it holds a peak.",
            (
                Path(d="M6.4 14.4q4 -.6 5.4 -6t1.6 -3.6q.8 4 2 6.4t5 3.2z", role="paste"),
                Path(d="M6.4 14.4h14", role="construction"),
            ),
        ),
        "ballast": (
            "Water with salt: ballast from the tyre.",
            (circle("oil", 11, 11, 4.6), circle("oil", 18, 8, 2.4), lines("thin", _salt())),
        ),
        "from-above": (
            "Oil that runs down from above.",
            (
                Arrow(points=((13, 1.6), (13, 8.4)), role="solid-construction"),
                circle("paste", 13, 12.6, 3.2),
                drop(18.4, 8, 0.9),
                drop(8.4, 7, 0.9),
            ),
        ),
        "unknown": (
            "A blot nobody can name: can't tell is an answer.",
            (circle("oil", 13, 10, 6), *words((13, 11.8), "?", anchor="middle", size="key")),
        ),
    }
    says, shapes = kinds[grade]
    paper = polygon("paper", ((3, 16.6), (6, 2.4), (22, 1.6), (24, 15.4), (13, 18.6)))
    return drawn(_HEIGHT, says, *(() if grade == "jet" else (paper,)), *shapes, width=_WIDTH)


def _jet() -> tuple[Shape, ...]:
    spray = [((8.4, 10.0), (23.0, 10.0 + rise)) for rise in (-6.4, -3.4, -0.6, 2.2, 5.2)]
    return (
        Path(d="M1 8.2h5l2.6 1.2v1.4l-2.6 1.2h-5z", role="paper"),
        lines("construction", spray),
        lines("limit", (((12.0, 2.4), (22.0, 17.6)), ((22.0, 2.4), (12.0, 17.6)))),
    )


def _salt() -> list[tuple[tuple[float, float], tuple[float, float]]]:
    return [
        end
        for x, y in ((9.6, 10.0), (12.6, 12.2), (17.4, 7.4), (11.6, 8.6), (19.0, 8.8))
        for end in (((x - 0.6, y), (x + 0.6, y)), ((x, y - 0.6), (x, y + 0.6)))
    ]


def where(grade: str) -> Drawing:
    """The small section with a ring where the first wet line starts."""
    says, places = {
        "nothing": ("Section of the drive, chalk dry everywhere.", ()),
        "input": ("Section of the drive, wet at the machine side.", ("input",)),
        "wheel-side": ("Section of the drive, wet at the wheel side.", ("wheel-side",)),
        "elsewhere": ("Section of the drive, wet at plug, cover or hose.", ("plug", "breather", "from-above")),
        "not-yet": ("Section of the drive: where it comes from is not yet seen.", ()),
    }[grade]
    rings = [
        circle("limit", _SCALE * drive_section.PLACES[place][0], _SCALE * drive_section.PLACES[place][1], 2.6)
        for place in places
    ]
    body = Group(shapes=drive_section.drawing().shapes, scale=_SCALE, context=True)
    eye: tuple[Shape, ...] = (Mark(sign="eye", at=(41.0, 24.0), size=5.0),) if grade == "not-yet" else ()
    return drawn(32.6, says, moved(0.0, 1.4, body, *rings, *eye), width=44.0)


def breather(grade: str) -> Drawing:
    """Three kinds of breather: a cap, a filter plug, the end of a hose."""
    says = {
        "free": "Breather free: cap, filter plug or end of a hose, air comes through.",
        "blocked": "Breather blocked: cap, filter plug or end of a hose, no air comes through.",
        "not-found": "Breather not found: look for a cap, a filter plug or the end of a hose.",
    }[grade]
    role: Role = "hidden" if grade == "not-found" else "paper"
    shapes: list[Shape] = [
        line("outline", (1, 17), (43, 17)),
        box(role, 5.4, 12, 3, 5),
        box(role, 3.6, 8, 6.6, 4, 1.0),
        box(role, 20.4, 12.6, 3.2, 4.4),
        Path(d="M19 12.6v-2.6a3 3 0 0 1 6 0v2.6z", role=role),
        Path(d="M34 17v-7q0 -3 3 -3t3 3v1.4h-1.8v-1.2q0 -1.6 -1.2 -1.6t-1.2 1.6v6.8z", role=role),
    ]
    for x, y in ((6.9, 6.8), (22.0, 5.8), (39.1, 15.4)):
        way = -1 if y < 10 else 1
        if grade == "free":
            tip = (x, y - 4.4) if way < 0 else (x, y + 0.4)
            start = (x, y) if way < 0 else (x, y - 2.8)
            shapes.append(Arrow(points=(start, tip), role="outline"))
        if grade == "blocked":
            cy = y - 1.8 if way < 0 else y - 1.6
            cross = (((x - 1.4, cy - 1.4), (x + 1.4, cy + 1.4)), ((x + 1.4, cy - 1.4), (x - 1.4, cy + 1.4)))
            shapes.append(lines("limit", cross))
    if grade == "not-found":
        shapes.append(Mark(sign="eye", at=(22.0, 3.4), size=5.0))
    return drawn(_HEIGHT, says, *shapes, width=44.0)


def water(grade: str) -> Drawing:
    """A tube of the oil held to the light."""
    says, inside = {
        "clear": ("A tube of clear oil.", (box("oil", 5.2, 6, 5.6, 12),)),
        "haze": ("A tube of hazy oil.", (box("oil", 5.2, 6, 5.6, 12), lines("thin", speckle(8.0, 12.0, 2.7, 22)))),
        "milky": (
            "A tube of milky oil.",
            (box("oil", 5.2, 6, 5.6, 12), box("paste", 5.2, 6, 5.6, 12), lines("thin", speckle(8.0, 12.0, 2.7, 40))),
        ),
        "runs-first": (
            "A tube with water below the oil: water runs first.",
            (box("oil", 5.2, 6, 5.6, 6), line("limit", (5.2, 12), (10.8, 12)), drop(8.0, 13.2, 0.9)),
        ),
    }[grade]
    tube = Path(d="M5 2v14a3 3 0 0 0 6 0v-14", role="outline")
    lip = line("outline", (4.2, 2), (11.8, 2))
    bottom = Path(d="M5 16a3 3 0 0 0 6 0l.6 0v3.4h-7.2v-3.4z", role="blank")
    return drawn(_HEIGHT, says, *inside, bottom, tube, lip, width=16.0)
