"""Printed bands: go on, lower and ask, lower now, cut to whole marks of the gauge, so that paper and phone compare the same.

Every edge is cut to the careful side: the lower up, the upper down. A reading is then held against whole numbers of
marks and nothing is computed beside the jack.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, floor, inf, isinf
from typing import Literal, TypeAlias

from axlewright.trade.findings import heat_limits, numbers
from axlewright.trade.steps import Band, Edge

Says: TypeAlias = Literal["go on", "ask", "now"]
HAIR = 1e-9  # of a mark: binary noise of an edge that lies on one


@dataclass(frozen=True, slots=True)
class Edges:
    """Go on between `go`, ask between `ask`, beyond that now; in the unit of the tool."""

    go: Edge
    ask: Edge


@dataclass(frozen=True, slots=True)
class Printed:
    """A band in whole marks. None is an end that is not there; `go` may be empty (its low end above its high one)."""

    unit: str
    mark: float
    go: tuple[int | None, int | None]
    ask: tuple[int | None, int | None]

    def says(self, reading: float) -> Says:
        """What a reading in the tool's unit says."""
        marks = reading / self.mark
        if _inside(marks, self.go):
            return "go on"
        return "ask" if _inside(marks, self.ask) else "now"

    def value(self, marks: int) -> float:
        """A number of marks in the tool's unit, without the noise of binary."""
        return round(marks * self.mark, 9)


def _inside(marks: float, ends: tuple[int | None, int | None]) -> bool:
    low, high = ends
    return (low is None or marks >= low - 1e-6) and (high is None or marks <= high + 1e-6)


def _cut(edge: Edge, mark: float) -> tuple[int | None, int | None]:
    low, high = edge
    return (
        None if isinf(low) else ceil(low / mark - HAIR),
        None if isinf(high) else floor(high / mark + HAIR),
    )


def cut(edges: Edges, unit: str, mark: float) -> Printed:
    """The band in whole marks, each edge to the careful side."""
    return Printed(unit, mark, _cut(edges.go, mark), _cut(edges.ask, mark))


def printed(
    band: Band, figures: Mapping[str, Edge], given: Mapping[str, Edges], mark: float | None = None
) -> Printed | None:
    """The band of a reading in whole marks; None while the figure it hangs on is not known.

    Args:
        band: row of the trade
        figures: low and high end of each known figure that bands are parts of, in the band's unit
        given: edges that an engine or the verdict rules gave, by name
        mark: step of the tool really used, where it is another than the row's
    """
    if band.by:
        edges = given.get(band.by)
    elif band.go is None or band.ask is None or (band.of and band.of not in figures):
        edges = None
    elif band.of:
        low, high = figures[band.of]
        edges = Edges(_parts(band.go, low, high), _parts(band.ask, low, high))
    else:
        edges = Edges(band.go, band.ask)
    return None if edges is None else cut(edges, band.unit, mark or band.mark)


def _parts(edge: Edge, low: float, high: float) -> Edge:
    return edge[0] * low, edge[1] * high if not isinf(edge[1]) else inf


def said(band: Band, printed_band: Printed | None, reading: float | str) -> Says:
    """What a reading says. One that cannot be held against a band, or is no word of it, is asked about."""
    if band.words_go:
        word = str(reading).strip().lower()
        return "go on" if word in band.words_go else "now" if word in band.words_now else "ask"
    if printed_band is None or isinstance(reading, str):
        return "ask"
    return printed_band.says(reading)


class NoBand(ValueError):
    """No band can be printed, and so nothing is lifted by it."""


def gauge_band(
    low: float, careful: float, least: float, area: float, mark: float, friction: float = 1.0, reserve: float = 0.9
) -> tuple[int, int, int]:
    """Edges of the jack gauge's band in whole marks: go on from, go on to, lower now above.

    Between the last two, and below the first: lower and ask.

    Args:
        low: low end of the load at the jack [N]
        careful: careful end of that load [N]
        least: least capacity of jack, crib and ground, as load at the jack [N]
        area: area of the piston [m^2]
        mark: step of the gauge [Pa]
        friction: what the gauge shows while raising over what it carries; 1 for the mean of up and down [-]
        reserve: of the least capacity, up to where it goes on [-]

    Returns:
        marks of the gauge [1]

    Source: p = F / A; docs/engines/steps.md.

    Raises:
        NoBand: the careful load is over the least capacity, or no whole mark lies between the edges
    """
    if not 0 < low <= careful or not area > 0 or not mark > 0 or not friction >= 1:
        raise NoBand("The load, the piston and the gauge's step must be known before a band is printed.")
    if careful > least:
        raise NoBand("The load may be more than the weakest of jack, crib and ground holds: no band and no lift.")
    from_ = ceil(low / area / mark - HAIR)
    to = floor(min(friction * careful, reserve * least) / area / mark + HAIR)
    if from_ > to:
        raise NoBand(
            "No mark of this gauge lies between the least and the most it may read: a finer gauge, or no lift."
        )
    return from_, to, floor(least / area / mark + HAIR)


def gauge_edges(marks: tuple[int, int, int], mark: float) -> Edges:
    """The same as edges in the gauge's own unit, where its marks are `mark` of it."""
    from_, to, above = marks
    return Edges((from_ * mark, to * mark), (0.0, above * mark))


def off_by(count: float, twin: float) -> float:
    """Share by which a count differs from the twin's [-]."""
    return abs(count - twin) / twin


def by_verdicts(rock: float | None = None) -> dict[str, Edges]:
    """Edges that the verdict rules give: a hub over its twin [K], rock [mm].

    Go on is the mildest grade, ask the next; what lies beyond keeps it off the road, or out of the field.

    Args:
        rock: the book's limit for rock [m]; that of the rules when there is none
    """
    heat, limit = heat_limits(), 1000 * (numbers().rock_limit_without_book if rock is None else rock)
    just_under = heat.warmer - HAIR * 10  # the grade warmer begins at its limit
    return {"heat": Edges((-inf, just_under), (-inf, heat.hot)), "rock": Edges((0.0, limit), (0.0, 2 * limit))}
