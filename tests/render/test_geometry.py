"""Moved paths against the points that they pass through, hatches against their area."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.render.geometry import Move, Point, absolute, hatched, short

MOVES = st.builds(
    Move,
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.floats(-360, 360),
    st.floats(0.2, 5),
    st.booleans(),
)
POINTS = st.tuples(st.floats(-100, 100), st.floats(-100, 100))


def numbers(said: str) -> list[float]:
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", said)]


def on_arc(d: str, share: float) -> Point:
    """A point on `M x y A r r 0 large sweep x y`, found by trying both centres: a second way to read the arc flags."""
    x1, y1, r, _, _, large, sweep, x2, y2 = numbers(d)
    mx, my, half = (x1 + x2) / 2, (y1 + y2) / 2, math.dist((x1, y1), (x2, y2)) / 2
    off = math.sqrt(max(r * r - half * half, 0.0))
    for side in (1, -1):
        cx, cy = mx - side * off * (y2 - y1) / (2 * half), my + side * off * (x2 - x1) / (2 * half)
        a1, a2 = math.atan2(y1 - cy, x1 - cx), math.atan2(y2 - cy, x2 - cx)
        turn = (a2 - a1) % (2 * math.pi) if sweep else -((a1 - a2) % (2 * math.pi))
        if (abs(turn) > math.pi) == bool(large):
            return (cx + r * math.cos(a1 + share * turn), cy + r * math.sin(a1 + share * turn))
    raise AssertionError(d)


@pytest.mark.parametrize(
    ("number", "said"), [(1.0, "1"), (-0.001, "0"), (2.505, "2.5"), (-3.1, "-3.1"), (1e6, "1000000")]
)
def test_short_numbers(number: float, said: str) -> None:
    assert short(number) == said


def test_relative_and_shorthand_segments_become_absolute() -> None:
    got = list(absolute("M1 1h2v3l-1-1c1 1 2 2 3 0s2-1 3 0q1 1 2 0t2 0a2 2 0 0 1 4 0zm1 1 2 2"))
    assert [letter for letter, _ in got] == list("MLLLCCQQAZML")
    assert got[1][1] == (3, 1)
    assert got[2][1] == (3, 4)
    assert got[5][1][:2] == (6, 1)  # the mirror of (4, 5) about (5, 3): SVG 2, 9.3.6
    assert got[7][1][:2] == (11, 2)  # the mirror of (9, 4) about (10, 3): SVG 2, 9.3.7
    assert got[10][1] == (2, 2)  # after Z the next begins at the start of the path


@given(MOVES, st.lists(POINTS, min_size=2, max_size=6))
def test_a_moved_line_passes_through_the_moved_points(move: Move, points: list[Point]) -> None:
    d = move.path("M" + "L".join(f"{x:.4f} {y:.4f}" for x, y in points))
    wanted = [part for p in points for part in move.point(p)]
    assert numbers(d) == pytest.approx(wanted, abs=0.006)


@given(MOVES, st.booleans(), st.booleans(), st.floats(0.1, 0.9))
def test_a_moved_arc_is_the_same_arc(move: Move, large: bool, sweep: bool, share: float) -> None:
    d = f"M0 0A20 20 0 {int(large)} {int(sweep)} 15 5"
    exact = " ".join(f"{v:.9f}" for v in move.point((0, 0))), " ".join(f"{v:.9f}" for v in move.point((15, 5)))
    moved = re.sub(r"^M[^A]+", f"M{exact[0]}", move.path(d))
    moved = " ".join(
        [*moved.replace("A", " A ").split()[:-2], exact[1]]
    )  # ends uncut, so that only the flags are tried
    r = 20 * move.scale
    moved = re.sub(r"A \S+ \S+", f"A {r:.9f} {r:.9f}", moved).replace("M ", "M")
    want = move.point(on_arc(d, share))
    assert on_arc(moved, share) == pytest.approx(want, abs=1e-4 * r + 1e-3)


@given(MOVES, MOVES, POINTS)
def test_a_group_in_a_group(inner: Move, outer: Move, p: Point) -> None:
    assert inner.then(outer).point(p) == pytest.approx(outer.point(inner.point(p)), abs=1e-6)


def inside(ring: list[Point], p: Point) -> bool:
    """By the turning angle round the point: a second way than crossings."""
    turn = 0.0
    for (x1, y1), (x2, y2) in zip(ring, [*ring[1:], ring[0]], strict=True):
        a = math.atan2(y2 - p[1], x2 - p[0]) - math.atan2(y1 - p[1], x1 - p[0])
        turn += (a + math.pi) % (2 * math.pi) - math.pi
    return abs(turn) > math.pi


@given(
    st.lists(st.floats(3, 20), min_size=3, max_size=9),
    st.sampled_from([45.0, -45.0, 0.0, 30.0]),
    st.floats(0.8, 3),
)
def test_hatch_lines_lie_in_their_area_and_fill_it(reach: list[float], angle: float, spacing: float) -> None:
    ring = [
        (r * math.cos(math.tau * k / len(reach)), r * math.sin(math.tau * k / len(reach))) for k, r in enumerate(reach)
    ]
    d = hatched([ring], spacing, angle)
    n = numbers(d)
    total = 0.0
    for x1, y1, x2, y2 in zip(n[::4], n[1::4], n[2::4], n[3::4], strict=True):
        long = math.dist((x1, y1), (x2, y2))
        total += long
        if long > 0.5:
            slope = math.degrees(math.atan2(y1 - y2, x2 - x1))  # on paper, y down
            assert abs((slope - angle + 90) % 180 - 90) < 3
            for share in (0.1, 0.5, 0.9):
                assert inside(ring, (x1 + share * (x2 - x1), y1 + share * (y2 - y1)))
    area = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))) / 2
    around = sum(math.dist(a, b) for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))
    assert total * spacing == pytest.approx(area, abs=spacing * around)


def test_a_hole_is_left_open() -> None:
    outer, hole = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)], [(3.0, 3.0), (7.0, 3.0), (7.0, 7.0), (3.0, 7.0)]
    n = numbers(hatched([outer, hole], 1.0, 0.0))
    length = sum(abs(x2 - x1) for x1, x2 in zip(n[::4], n[2::4], strict=True))
    assert length == pytest.approx(100 - 16)
