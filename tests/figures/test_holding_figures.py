"""Support, crib, lift and step card: places where their metres put them."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from figures import measure
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.sheets.drawing import Area, Arrow, Balloon, Circle, Dimension, Hatch, Mark, Path
from axlewright.sheets.figures import card, crib, forks, key_tag, lift, machine, support
from axlewright.sheets.figures.drive_side import Drive
from axlewright.sheets.text import text

STANCE = support.Stance(
    machine="walker-combine",
    corner="front-right",
    track=2.46,
    wheelbase=3.2,
    supports=(
        support.Stands("wheel", (0.0, 1.23), text("2.9 t")),
        support.Stands("crib", (0.0, -0.55), text("4.1 t")),
        support.Stands("pivot", (-3.2, 0.0), text("2.2 t")),
    ),
    centre=(-0.7, 0.1),
    jack=support.Stands("jack", (-0.45, -0.5), text("4.6 t")),
)
TOLD = {name: text(name) for name in ("track", "wheelbase", "to-support", "to-wheel", "centre", "least")}
MIRROR = replace(
    STANCE,
    corner="front-left",
    supports=tuple(replace(one, at=(one.at[0], -one.at[1])) for one in STANCE.supports),
    centre=(-0.7, -0.1),
    jack=replace(STANCE.jack, at=(-0.45, 0.5)),
)


def dots(stance: support.Stance, **how) -> list[measure.Point]:
    return [one.at for one in measure.of(support.plan(stance, TOLD, **how), Circle, role="solid")]


@pytest.mark.parametrize("scale", [40.0, 50.0, 75.0])
def test_points_stand_to_scale(scale: float) -> None:
    wheel, crib_at, pivot = dots(STANCE, scale=scale)
    assert math.dist(wheel, crib_at) * scale / 1000 == pytest.approx(1.78, abs=0.002)
    assert math.dist(wheel, pivot) * scale / 1000 == pytest.approx(math.hypot(1.23, 3.2), abs=0.002)
    (heart,) = measure.of(support.plan(STANCE, TOLD, scale), Mark)
    assert (heart.at[1] - wheel[1]) * scale / 1000 == pytest.approx(0.7, abs=0.002)  # behind the axle is down


def test_dimensions_measure_what_they_name() -> None:
    drawn = support.plan(STANCE, TOLD)
    scale = support.scale_for(STANCE)
    long = {}
    for one in measure.of(drawn, Dimension):
        a, b = measure.dimension_line(one)
        long[one.words[0]] = math.dist(a, b) * scale / 1000
    assert long == pytest.approx(
        {"track": 2.46, "wheelbase": 3.2, "to-support": 1.78, "to-wheel": 1.23 - 0.55, "centre": 0.7}, abs=0.002
    )
    assert f"1:{scale:g}" in drawn.says


def test_least_distance_is_the_least_of_all_edges() -> None:
    foot = support.nearest_edge(STANCE)
    corners = [one.at for one in STANCE.supports]
    brute = min(
        math.dist(STANCE.centre, (a[0] + (b[0] - a[0]) * k / 2000, a[1] + (b[1] - a[1]) * k / 2000))
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
        for k in range(2001)
    )
    assert math.dist(foot, STANCE.centre) == pytest.approx(brute, abs=1e-5)
    (arrow,) = measure.of(support.plan(STANCE, TOLD), Arrow, role="limit")
    scale = support.scale_for(STANCE)
    assert math.dist(*arrow.points) * scale / 1000 == pytest.approx(brute, abs=0.002)


def test_the_other_corner_is_the_mirror_image() -> None:
    for (ax, ay), (bx, by) in zip(dots(STANCE), dots(MIRROR), strict=True):
        assert (88.0 - ax, ay) == pytest.approx((bx, by), abs=0.02)


@settings(max_examples=20, deadline=None)
@given(st.sampled_from(machine.KINDS), st.floats(1.9, 3.2), st.floats(2.2, 4.2), st.booleans(), st.floats(0.2, 0.6))
def test_support_stays_on_its_field(kind: str, track: float, wheelbase: float, left: bool, in_from: float) -> None:
    side = -1.0 if left else 1.0
    stance = replace(
        STANCE,
        machine=kind,
        corner="front-left" if left else "front-right",
        track=track,
        wheelbase=wheelbase,
        supports=(
            support.Stands("wheel", (0.0, side * track / 2), text("2.9 t")),
            support.Stands("crib", (0.0, -side * (track / 2 - in_from)), text("4.1 t")),
            support.Stands("pivot", (-wheelbase, 0.0), text("2.2 t")),
        ),
        jack=support.Stands("jack", (-0.4, -side * (track / 2 - in_from)), text("4.6 t")),
    )
    drawn = support.plan(stance, TOLD)
    assert not measure.off(drawn, slack=0.6)
    assert not measure.words_off(drawn)


def test_support_in_words_tells_each_load() -> None:
    told = ["".join(str(p) for p in line if isinstance(p, str)) for line in support.plan_words(STANCE)]
    assert told == [": 2.9 t", ": 4.1 t", ": 2.2 t", ": 4.6 t"]
    drawn = support.plan(STANCE, TOLD)
    for load in ("2.9 t", "4.1 t", "2.2 t", "4.6 t"):
        assert load in measure.said(drawn)
    bare = support.plan(replace(STANCE, jack=None), {})
    assert not measure.of(bare, Dimension)
    assert not measure.of(bare, Arrow)


CRIB = crib.Crib(5, length=0.9, width=0.14, height=0.14, inner=0.62, plate=(0.5, 0.02), packer=0.01)
LINES = {name: text(name) for name in ("load", "plate", "packer", "length", "inner", "width", "stack", "built")}


@pytest.mark.parametrize("layers", [1, 2, 3, 5, 8])
@pytest.mark.parametrize("scale", [None, 30.0])
def test_crib_is_to_scale(layers: int, scale: float | None) -> None:
    one = replace(CRIB, layers=layers)
    drawn = crib.elevation(one, LINES, scale=scale)
    scale = scale or crib.scale_for(one)
    ground = next(s for s, _ in measure.walk(drawn) if s.shape == "ground").y
    timbers = [measure.edges(measure.path_points(p.d)) for p in measure.of(drawn, Path, role="paper")]
    top = min(a[1] for a, _ in timbers)
    assert (ground - top) * scale / 1000 == pytest.approx(one.stack, abs=0.0005 * scale / 10)
    assert len(timbers) == sum(1 if layer % 2 == 0 else 2 for layer in range(layers))
    long = {
        d.words[0] if d.words else "built": math.dist(*measure.dimension_line(d)) * scale / 1000
        for d in measure.of(drawn, Dimension)
    }
    expected = {"length": 0.9, "inner": 0.62, "width": 0.14, "stack": one.stack, "built": one.built}
    assert {name: expected[name] for name in long} == pytest.approx(long, abs=0.001)
    assert {"length", "inner", "built"} <= set(long)
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)


def test_layers_are_numbered_from_below_and_full_when_laid() -> None:
    drawn = crib.elevation(CRIB, laid=2)
    balloons = sorted(measure.of(drawn, Balloon), key=lambda one: -one.at[1])
    assert [one.number for one in balloons] == ["1", "2", "3", "4", "5"]
    assert [one.full for one in balloons] == [True, True, False, False, False]
    (lie, *_) = crib.elevation_words(CRIB, {})
    assert lie == ("5 layers of two timbers: 1, 3, 5 side to side, 2, 4 fore and aft",)


LEGS = (
    lift.Leg("A", (-0.02, 0.14, 0.15), text("A 70 kg")),
    lift.Leg("B", (-0.02, -0.14, 0.15), text("B 66 kg")),
    lift.Leg("C", (0.46, 0.0, 0.14), text("C 170 kg"), "hoist", text("19°")),
)
HANG = lift.Hang((0.28, 0.01, -0.01), 0.7, LEGS, tilt=1.5, roll=-2.0)
ENDS = {name: text(name) for name in ("face", "wheel", "tilt", "along", "height", "left", "right", "roll", "apart")}


def heart(drawn) -> measure.Point:
    (mark,) = measure.of(drawn, Mark, sign="centre of gravity")
    return mark.at


@pytest.mark.parametrize("draw", [lift.hook, lift.wheel_end])
def test_hook_hangs_straight_above_the_centre_of_gravity(draw) -> None:
    drawn = draw(HANG, ENDS)
    x, y = heart(drawn)
    (plumb,) = measure.of(drawn, Arrow)
    assert plumb.points[0][0] == plumb.points[1][0] == x
    assert (y - plumb.points[0][1]) * HANG.scale() / 1000 == pytest.approx(0.7, abs=1e-6)
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)


@settings(max_examples=20, deadline=None)
@given(st.floats(-20.0, 20.0), st.floats(-20.0, 20.0))
def test_drive_turns_rigidly_about_its_centre(tilt: float, roll: float) -> None:
    hang = replace(HANG, tilt=tilt, roll=roll)
    k = 1000.0 / hang.scale()
    side, end = lift.hook(hang, ENDS), lift.wheel_end(hang, ENDS)
    eye = [one.at for one in measure.of(side, Circle, r=1.6)][0]  # ruff: ignore[unnecessary-iterable-allocation-for-first-element]
    lever = math.hypot(LEGS[0].at[0] - hang.centre[0], LEGS[0].at[2] - hang.centre[2])
    assert math.dist(eye, heart(side)) == pytest.approx(lever * k, abs=0.01)
    was = math.degrees(math.atan2(LEGS[0].at[2] - hang.centre[2], LEGS[0].at[0] - hang.centre[0]))
    now = math.degrees(math.atan2(heart(side)[1] - eye[1], eye[0] - heart(side)[0]))
    assert (now - was - tilt + 180) % 360 - 180 == pytest.approx(0.0, abs=0.05)  # the wheel end goes up
    eyes = [one.at for one in measure.of(end, Circle, r=1.9)]
    assert math.dist(*eyes) == pytest.approx(0.28 * k, abs=0.01)
    assert math.degrees(math.atan2(eyes[0][1] - eyes[1][1], eyes[0][0] - eyes[1][0])) == pytest.approx(roll, abs=0.05)


def test_leg_shows_its_angle_from_plumb() -> None:
    drawn = lift.hook(HANG, ENDS)
    arc = next(p for p in measure.of(drawn, Path, role="dimension") if "A" in p.d)
    start, end = measure.path_points(arc.d)
    (plumb,) = measure.of(drawn, Arrow)
    hook = plumb.points[0]
    assert math.dist(hook, start) == pytest.approx(20.0, abs=0.01)
    assert math.dist(hook, end) == pytest.approx(20.0, abs=0.01)
    assert start[0] == hook[0]
    (strap, *_) = [one for one in measure.of(drawn, Path, role="solid")]  # ruff: ignore[unnecessary-comprehension]
    assert strap


def test_both_views_stand_side_by_side() -> None:
    assert lift.hook(HANG, ENDS).height == lift.wheel_end(HANG, ENDS).height


@pytest.mark.parametrize("size", [Drive(), Drive(0.62, 0.7), Drive(0.36, 0.4)])
def test_saddle_lies_to_scale(size: Drive) -> None:
    one = lift.Saddle(reach=0.55, height=0.25, fork=1.1, centre=(0.27, 0.0, 0.0), drive=size)
    drawn = lift.saddle(one, {name: text(name) for name in ("load", "reach", "height")})
    long = {
        d.words[0]: math.dist(*measure.dimension_line(d)) * one.scale() / 1000 for d in measure.of(drawn, Dimension)
    }
    assert long == pytest.approx({"reach": 0.55, "height": 0.25}, abs=1e-3)
    flange = measure.span(measure.path_points(measure.of(drawn, Path, role="paper")[-3].d))
    assert flange[1] * one.scale() / 1000 == pytest.approx(size.flange, abs=0.002)
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)


def test_strip_shows_where_in_the_steps_one_is() -> None:
    drawn = card.strip(34, 9, (3, 9, 17))
    assert drawn.says == "Step 9 of 34. Hold points: 3, 9, 17."
    assert len(measure.of(drawn, Path, role="paper-thin")) == 2  # hold points to come
    assert len(measure.of(drawn, Path, role="solid")) == 8  # done
    (mark,) = measure.of(drawn, Path, role="solid-must")
    assert measure.path_points(mark.d)[0][0] == pytest.approx(1.0 + 86.0 * 8 / 33, abs=0.01)
    for one in (card.strip(1, 1), card.strip(70, 70, (1, 70))):
        assert not measure.off(one)


def test_bands_of_the_gauge_stand_at_their_readings() -> None:
    ticks = [(v, text(f"{v:g}")) for v in (0.0, 100.0, 200.0, 300.0)]
    drawn = card.gauge(210.0, 260.0, 350.0, (text("go on to 210"), text("260 lower now")), ticks, text("bar"), 150.0)
    (ask,) = measure.of(drawn, Hatch)
    (left, _), (right, _) = measure.edges(ask.rings[0])
    assert (left / 88 * 350, right / 88 * 350) == pytest.approx((210, 260), abs=0.02)
    (now,) = measure.of(drawn, Path, role="solid-must")
    assert measure.edges(measure.path_points(now.d))[0][0] / 88 * 350 == pytest.approx(260, abs=0.05)
    (reading,) = measure.of(drawn, Path, role="solid")
    (left, _), (right, _) = measure.edges(measure.path_points(reading.d))
    assert (left + right) / 2 / 88 * 350 == pytest.approx(150, abs=0.05)
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)


@pytest.mark.parametrize("kind", machine.KINDS)
@pytest.mark.parametrize("corner", machine.DRIVEN)
def test_nobody_stands_beside_the_raised_corner(kind: str, corner: str) -> None:
    side = 1.0 if corner.endswith("left") else -1.0
    drawn = card.people(kind, corner, (-0.5, 0.6 * side))
    (zone,) = measure.of(drawn, Hatch, fill="keep out")
    (left, top), (right, bottom) = measure.edges(zone.rings[0])
    people = [one.at for one in measure.of(drawn, Circle, r=1.2, role="solid")]
    assert len(people) == 2
    assert not any(left <= x <= right and top <= y <= bottom for x, y in people)
    assert (people[0][0] < 44) == corner.endswith("left")
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)
    with pytest.raises(ValueError, match="nobody may"):
        card.people(kind, corner, (-0.5, 0.6 * side), [card.Person("pump", "here", (0.0, 2.0 * side))])


@pytest.mark.parametrize("plug", [-20.0, 0.0, 20.0, 60.0])
def test_oil_stands_at_the_level_plug(plug: float) -> None:
    drawn = key_tag.hub(plug)
    (oil,) = measure.of(drawn, Path, role="oil")
    (at,) = [one.at for one in measure.of(drawn, Circle, role="solid")]
    ends = measure.path_points(oil.d)
    assert ends[0][1] == pytest.approx(at[1], abs=0.01)
    assert math.dist(ends[0], (26, 17)) == pytest.approx(13.9, abs=0.01)
    assert not measure.off(drawn)


def test_pictures_of_the_card_stay_in_their_field() -> None:
    for drawn in (card.jack(), key_tag.hole(), key_tag.hub()):
        assert not measure.off(drawn)
        assert not measure.words_off(drawn)
        assert not measure.of(drawn, Area)


def test_what_the_forks_carry_is_named_beside_its_own_post() -> None:
    """A name that stands left of its post would stand across the post of what lies nearer."""
    line = forks.Carries(((0.0, 1600.0), (0.6, 1600.0), (1.2, 1300.0)), text("plate 1 600 kg"), text("at 600 mm"), 0.6)
    loads = (forks.Load(0.41, 690.0, text("wheel 690 kg")), forks.Load(0.66, 450.0, text("drive 450 kg")))
    drawn = forks.carries(line, loads)
    posts = [measure.edges(measure.path_points(one.d)) for one in measure.of(drawn, Path, role="outline")]
    for load in loads:
        (label,) = [
            one for one in measure.of(drawn, measure.Label) if measure.plain(one.words) == measure.plain(load.told)
        ]
        assert not any(measure.cross(measure.word_box(label), post) for post in posts)


@pytest.mark.parametrize(("layers", "beside"), [(4, True), (6, True), (2, False)])
def test_the_built_height_stands_on_its_dimension_where_it_has_room(layers: int, beside: bool) -> None:
    one = crib.Crib(layers=layers, length=0.917, width=0.147, height=0.147, inner=0.623, packer=0.067)
    drawn = crib.elevation(one, {"built": text("677 mm built"), "length": text("917 mm")}, scale=20)
    on_line = [d for d in measure.of(drawn, Dimension) if measure.plain(d.words) == "677 mm built"]
    assert bool(on_line) == beside
    assert "677 mm built" in measure.said(drawn)


@pytest.mark.parametrize("stance", [STANCE, MIRROR])
def test_words_without_room_stand_outward_of_the_raised_wheel(stance: support.Stance) -> None:
    """Crib to raised wheel is short on paper: its words run past the wheel, not into the dimension beside it."""
    drawn = support.plan(stance, TOLD, scale=75)
    (short,) = [one for one in measure.of(drawn, Dimension) if measure.plain(one.words) == "to-wheel"]
    (long,) = [one for one in measure.of(drawn, Dimension) if measure.plain(one.words) == "to-support"]
    middle = (long.a[0] + long.b[0]) / 2
    assert abs(short.b[0] - middle) > abs(short.a[0] - middle)  # b, beyond which words stand, is the outer end
    for one in (short, long):
        assert measure.dimension_line(one)[0][1] == pytest.approx(13.8)
