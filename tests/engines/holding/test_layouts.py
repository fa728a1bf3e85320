"""Crib layouts: against a builder that lays every piece in place and counts what lies on what."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.layouts import CribTask, Layout, Timbers, crib_layouts, pieces_in
from axlewright.engines.limits import OutOfRange

TASK = CribTask(load=58e3, height=0.62, seat_along=0.30, seat_across=0.60, pull=600, friction=0.2, ground_allowed=250e3, min_packer=0.01, density=800)  # fmt: skip
SQUARE = Timbers(0.12, 0.12, 0.80, 14, 1.4e6, 0.9e6)
RAIL = Timbers(0.24, 0.15, 1.10, 8, 2.8e6, 1.6e6)


def by_laying(task: CribTask, timbers: tuple[Timbers, ...]) -> dict[tuple[int, ...], float]:
    """Weakest link of every layout, each piece laid as a box in space: key is timbers, pieces and tiers."""
    found = {}
    for a, b, n, m, tiers in product(range(len(timbers)), range(len(timbers)), (2, 3, 4), (2, 3, 4), range(2, 13)):
        top, low = timbers[a], timbers[b]
        over = max(top.width, low.width)
        span_x, span_y = top.length - 2 * over, low.length - 2 * over  # of the crossings, along top pieces and across
        if min(span_x, span_y) <= 0 or n * top.width > span_y + 1e-9 or m * low.width > span_x + 1e-9:
            continue
        across = [-span_y / 2 + top.width / 2 + k * (span_y - top.width) / (n - 1) for k in range(n)]
        along = [-span_x / 2 + low.width / 2 + k * (span_x - low.width) / (m - 1) for k in range(m)]
        layers = ["top" if k % 2 == 0 else "low" for k in range(tiers)]  # from the top down
        height = sum(top.depth if kind == "top" else low.depth for kind in layers)
        rest = task.height - height
        if not task.min_packer - 1e-9 <= rest <= min(top.depth, low.depth) + 1e-9:
            continue
        if task.height > 1.5 * min(top.length, low.length) + 1e-9:
            continue
        used = {a: 0, b: 0}
        for kind in layers:
            used[a if kind == "top" else b] += n if kind == "top" else m
        if any(used[k] > timbers[k].pieces for k in used):
            continue
        loaded = [y for y in across if abs(y) + top.width / 2 <= task.seat_across / 2 + 1e-9]
        if len(loaded) < 2:
            continue
        bonus_top, bonus_low = (
            (1 + 0.009525 / w) if w < 0.1524 and over >= 0.0762 else 1 for w in (low.width, top.width)
        )
        gap_top, gap_low = (span_x - m * low.width) / (m - 1), (span_y - n * top.width) / (n - 1)
        one = min(
            top.width * low.width * bonus_top * top.allowed_us,
            low.width * top.width * bonus_low * low.allowed_us,
            top.width * (low.width + min(0.03, over, low.width) + min(0.03, gap_top / 2, low.width)) * top.allowed_en,
            low.width * (top.width + min(0.03, over, top.width) + min(0.03, gap_low / 2, top.width)) * low.allowed_en,
        )
        crossings = sum(1 for _ in product(loaded, along)) * one / task.load
        seat = (
            len(loaded) * top.width * min(task.seat_along, top.length) * min(top.allowed_us, top.allowed_en) / task.load
        )
        bottom, pieces, span = (top, n, span_x) if layers[-1] == "top" else (low, m, span_y)
        wood = sum((n if kind == "top" else m) * of.width * of.depth * of.length for kind in layers for of in [top if kind == "top" else low])  # fmt: skip
        under = pieces * bottom.width * min(bottom.length, span + 2 * bottom.depth)
        ground = under * task.ground_allowed / (task.load + wood * task.density * 9.80665)
        side = task.load * min(task.friction, min(span_x, span_y) / 2 / task.height) / (0.05 * task.load + task.pull)
        found[a, b, n, m, tiers] = min(crossings, seat, ground, side / 1.5)
    return found


def key(layout: Layout) -> tuple[int, ...]:
    return layout.crossing_timber, layout.along_timber, layout.crossing_pieces, layout.along_pieces, layout.tiers


lengths = st.sampled_from([0.6, 0.75, 0.9, 1.2])
sections = st.sampled_from([0.09, 0.12, 0.15, 0.2])
pieces_of = st.builds(
    Timbers,
    sections,
    sections,
    lengths,
    st.integers(2, 16),
    st.sampled_from([1.2e6, 2.8e6]),
    st.sampled_from([0.7e6, 1.8e6]),
)


@settings(max_examples=25, deadline=None)
@given(
    timbers=st.lists(pieces_of, min_size=1, max_size=3),
    height=st.floats(0.3, 1.0),
    across=st.sampled_from([0.3, 0.6, 0.8]),
)
def test_every_layout_and_its_weakest_link_are_those_of_laid_pieces(
    timbers: list[Timbers], height: float, across: float
) -> None:
    task = replace(TASK, height=height, seat_across=across)
    got, wanted = crib_layouts(task, tuple(timbers)), by_laying(task, tuple(timbers))
    assert {key(layout) for layout in got} == set(wanted)
    for layout in got:
        assert layout.least == pytest.approx(wanted[key(layout)])
    leasts = [float(layout.least) for layout in got]
    assert leasts == sorted(leasts, reverse=True)


def test_the_top_layer_crosses_the_tube_and_the_first_follows_by_parity() -> None:
    for layout in crib_layouts(TASK, (SQUARE, RAIL)):
        assert bool(layout.first_crosses) == (layout.tiers % 2 == 1)
        assert layout.built + layout.packers == pytest.approx(TASK.height)
        assert pieces_in(layout) <= SQUARE.pieces + RAIL.pieces


def test_weaker_wood_and_more_load_never_hold_more() -> None:
    best = crib_layouts(TASK, (SQUARE, RAIL))[0].least
    assert crib_layouts(replace(TASK, load=70e3), (SQUARE, RAIL))[0].least <= best
    weak = replace(SQUARE, allowed_us=0.5e6), replace(RAIL, allowed_us=0.5e6)
    assert crib_layouts(TASK, weak)[0].least <= best
    assert crib_layouts(replace(TASK, off_centre=0.05), (SQUARE, RAIL))[0].least <= best


def test_more_timber_never_does_worse() -> None:
    alone = crib_layouts(TASK, (SQUARE,))
    assert crib_layouts(TASK, (SQUARE, RAIL))[0].least >= alone[0].least


def test_nothing_that_fits_is_an_empty_answer() -> None:
    assert crib_layouts(replace(TASK, height=2.5), (SQUARE, RAIL)) == ()
    assert crib_layouts(TASK, (replace(SQUARE, pieces=3),)) == ()
    assert crib_layouts(replace(TASK, seat_across=0.1), (SQUARE,)) == ()


def test_a_load_over_one_edge_counts_nothing() -> None:
    assert crib_layouts(replace(TASK, off_centre=0.5), (SQUARE,))[0].crossings == 0


def test_nobody_asks_for_nothing() -> None:
    with pytest.raises(OutOfRange):
        crib_layouts(replace(TASK, load=0.0), (SQUARE,))
    with pytest.raises(OutOfRange):
        crib_layouts(TASK, ())
