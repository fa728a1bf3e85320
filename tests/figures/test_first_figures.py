"""The drive in section, plug card, level, looks, machines from above, make safe."""

from __future__ import annotations

import math

import pytest
from figures import measure

from axlewright.sheets.drawing import Area, Circle, Hatch, Leader, Mark, Path
from axlewright.sheets.figures import condition, drive_section, level, looks, machine, make_safe, outlines, plug
from axlewright.sheets.text import text

STOPPED = {
    "front-left": machine.CornerLook("drive out", words=(text("drive out,"), text("crib")), on_crib=True),
    "front-right": machine.CornerLook("failing", words=(text("failing until"),), goes_to="trouble/16"),
}


def test_section_asks_for_its_six_places() -> None:
    drawn = drive_section.drawing(drive_section.questions())
    asked = [one.asks for one in measure.of(drawn, Leader)]
    assert asked == [f"where={place}" for place in ("from-above", "breather", "valve", "input", "plug", "wheel-side")]
    boxes = [one.to[-1] for one in measure.of(drawn, Leader)]
    for one in boxes:  # a finger's breadth apart, each box whole on the field
        assert 3.5 < one[0] < 84.5
        assert 3.5 < one[1] < drawn.height - 3.5
        assert all(math.dist(one, other) > 12 for other in boxes if other != one)


def test_section_grows_with_the_words_above_and_below_it() -> None:
    bare = drive_section.drawing()
    told = drive_section.drawing((drive_section.leader("breather", "breather free"),))
    both = drive_section.drawing((drive_section.leader("breather", "breather free", "27 Aug"),))
    assert bare.height < told.height < both.height
    assert both.height - told.height == pytest.approx(4.2)  # one line more of words


def test_section_moves_oil_and_drops() -> None:
    def surface(oil: drive_section.OilLevel) -> float:
        (area,) = measure.of(drive_section.drawing(oil=oil), Path, role="oil")
        return min(y for _, y in measure.path_points(area.d))

    assert surface("over") < surface("at-mark") < surface("low") < surface("not-reached")
    wet = measure.of(drive_section.drawing(drips="input", puddle=True, oil=None), Path, role="solid-construction")
    assert max(x for one in wet for x, _ in measure.path_points(one.d)) < 30  # on the machine's side
    assert not measure.of(drive_section.drawing(oil=None), Path, role="oil")


def test_section_says_what_nobody_looked_at() -> None:
    said = drive_section.drawing((drive_section.leader("rock", "rock: not looked at", unseen=True),)).says
    assert "Nobody looked: rock: not looked at." in said


def test_card_discs_and_bar_are_true_size() -> None:
    card = plug.card()
    discs = measure.of(card, Circle, r=plug.DISC)
    assert len(discs) == 6
    assert measure.span(measure.own_points(discs[0])) == (20.0, 20.0)
    bars = [
        abs(b[0] - a[0]) for one in measure.of(card, Path, role="dimension") for a, b in [measure.path_points(one.d)]
    ]
    assert bars == [20.0]


def test_metal_on_the_magnet_is_as_big_as_the_words_say() -> None:
    flakes = [math.dist(*longest(one)) for one in plug.metal("flakes") if isinstance(one, Path)]
    flakes = [size for size in flakes if size < 3]
    assert len(flakes) == 10
    assert min(flakes) == pytest.approx(0.5, abs=0.03)
    assert max(flakes) == pytest.approx(2.0, abs=0.03)
    chips = sorted(math.dist(a, b) for a, b, _ in plug.SLIVERS)
    assert chips == pytest.approx([2, 2, 4, 4, 8], abs=0.02)
    (lump,) = plug.metal("pieces")
    assert measure.span(measure.path_points(lump.d))[0] == pytest.approx(12.0)
    assert max(math.hypot(*point) for point in plug.beard()) == pytest.approx(8.0)
    assert {one.r for one in plug.metal("paste") if isinstance(one, Circle)} == {2.0, 5.0}


def longest(one: Path) -> tuple[measure.Point, measure.Point]:
    points = measure.path_points(one.d)
    return max(((a, b) for a in points for b in points), key=lambda pair: math.dist(*pair))


def test_metal_stays_on_the_disc() -> None:
    for grade in plug.GRADES:
        drawn = plug.disc(grade)
        assert all(math.dist(p, (11, 11)) <= 10.001 for one in drawn.shapes for p in inside(one)), grade
    with pytest.raises(ValueError, match="no such grade"):
        plug.metal("grit")


def inside(group: object) -> list[measure.Point]:
    """Points of a disc's paths, moved; a circle's box reaches past the disc it fills."""
    return [
        (x + group.move[0], y + group.move[1])
        for one in group.shapes
        if isinstance(one, Path)
        for x, y in measure.path_points(one.d)
    ]


def test_finger_tells_the_four_levels_apart() -> None:
    tops = level.SURFACE
    assert tops["over"] < level.LIP == tops["at-mark"] < tops["low"]
    assert tops["low"] < 15.9  # the finger's tip reaches into it
    assert "not-reached" not in tops


@pytest.mark.parametrize("kind", machine.KINDS)
@pytest.mark.parametrize("scale", [50.0, 100.0, 139.0])
def test_machine_is_drawn_to_scale(kind: str, scale: float) -> None:
    drawn = machine.plan(kind, {name: machine.CornerLook("sound") for name in machine.CORNERS}, scale, labels=False)
    drives = {tuple(h.rings[0]) for h in measure.of(drawn, Hatch)}
    assert len(drives) == 4
    one = outlines.outline(kind)
    middles = sorted((sum(y for _, y in ring) / len(ring), sum(x for x, _ in ring) / len(ring)) for ring in drives)
    wheelbase = (middles[2][0] - middles[0][0]) * scale / 1000
    assert wheelbase == pytest.approx(one.wheelbase, abs=0.001)
    flange = max(measure.span(list(ring))[1] for ring in drives) * scale / 1000
    assert flange == pytest.approx(0.62 * one.drive, abs=0.001)


@pytest.mark.parametrize("kind", machine.KINDS)
def test_machine_is_the_same_on_both_sides(kind: str) -> None:
    one = outlines.outline(kind)
    right = one.drive_at("front-right")
    for (lx, ly), (rx, ry) in zip(one.drive_at("front-left"), right, strict=True):
        assert (-lx, ly) == pytest.approx((rx, ry))


def test_corner_nobody_looked_at_is_dashed_with_a_shut_eye() -> None:
    drawn = machine.plan("forage-harvester", {"front-right": machine.CornerLook("wearing")})
    eyes = measure.of(drawn, Mark, sign="eye")
    assert len(eyes) == 1
    assert eyes[0].at[0] < 44  # left
    assert [h.fill for h in measure.of(drawn, Hatch)] == ["wearing"]
    assert "not looked at" in measure.said(drawn)


def test_corner_without_its_drive_stands_on_a_crib() -> None:
    drawn = machine.plan("small-combine", STOPPED)
    assert [h.fill for h in measure.of(drawn, Hatch)] == ["failing"]
    assert not measure.of(drawn, Mark, sign="eye")
    assert "drive out, crib" in drawn.says
    without = machine.plan("small-combine", {**STOPPED, "front-left": machine.CornerLook("drive out")})
    assert len(without.shapes) < len(drawn.shapes)


@pytest.mark.parametrize("labels", [True, False])
def test_corners_are_areas_that_do_not_overlap(labels: bool) -> None:
    looks = {name: machine.CornerLook(goes_to=f"corner/{name}") for name in machine.CORNERS}
    drawn = machine.plan("walker-combine", looks, labels=labels)
    areas = measure.of(drawn, Area)
    assert [one.goes_to for one in areas] == [f"corner/{name}" for name in machine.CORNERS]
    for i, one in enumerate(areas):
        for other in areas[i + 1 :]:
            assert not measure.cross(measure.edges(one.outline), measure.edges(other.outline))


def test_machines_side_by_side_stand_on_one_axle_line() -> None:
    row = [("forage-harvester", False), ("walker-combine", True), ("small-combine", False)]
    stands = machine.room(row)
    drawn = [machine.plan(kind, header=header, stands=stands) for kind, header in row]
    assert len({one.height for one in drawn}) == 1
    for one in drawn:
        assert not measure.off(one)
        axle = next(p.d for p in measure.of(one, Path, role="centre"))
        assert measure.path_points(axle)[0][1] == stands[0]


def test_words_of_the_corners_are_the_twin_of_the_drawing() -> None:
    drawn = machine.plan("small-combine", STOPPED)
    twin = machine.corner_words(STOPPED)
    assert len(twin) == 2
    for look in STOPPED.values():
        assert all(str(line[0]) in measure.said(drawn) for line in look.words)


def test_crib_for_a_raised_corner_is_to_scale() -> None:
    drawn = make_safe.already_raised()
    timbers = [measure.span(measure.path_points(p.d)) for p in measure.of(drawn, Path, role="paper")]
    long = [size for size in timbers if size[0] == pytest.approx(800 / 15, abs=0.02)]
    assert len(long) == 2
    assert all(high == pytest.approx(8.0, abs=0.02) for _, high in long)


FIGURES = {
    "section": drive_section.drawing(),
    "asked": drive_section.drawing(drive_section.questions()),
    "named": drive_section.drawing(drive_section.named()),
    "seen": drive_section.drawing(
        tuple(
            drive_section.leader(place, "level low,", "filled to mark")
            for place in ("breather", "heat", "rock", "level", "plug", "wheel-side")
        ),
        drips="wheel-side",
        puddle=True,
    ),
    "plug": plug.card(),
    "level": level.card(),
    **{f"plug {grade}": plug.disc(grade) for grade in plug.GRADES},
    **{f"level {grade}": level.picture(grade) for grade in level.GRADES},
    **{f"look {name}": looks.picture(name) for name in looks.NAMES},
    **{f"machine {kind}": machine.plan(kind, header=True) for kind in machine.KINDS},
    **{
        f"small {kind}": machine.plan(kind, {"front-left": machine.CornerLook(circled=True)}, 139, False)
        for kind in machine.KINDS
    },
    "stopped": machine.plan("small-combine", STOPPED),
    "on its wheel": make_safe.on_its_wheel(),
    "already raised": make_safe.already_raised(),
}


@pytest.mark.parametrize("name", FIGURES)
def test_figures_stay_in_their_field(name: str) -> None:
    drawn = FIGURES[name]
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)
    assert len(drawn.says) > 10
    assert drawn.says.endswith(".")


@pytest.mark.parametrize("state", ["sound", "wearing", "failing", "let go"])
def test_condition_is_told_by_hatch_and_word(state: machine.State) -> None:
    for drawn in (condition.drive(state, (text("56 in 100"),)), condition.sign(state)):
        assert [one.fill for one in measure.of(drawn, Hatch)] == [state]
        assert not measure.of(drawn, Mark)
        assert not measure.off(drawn)
        assert state in drawn.says
    assert state in measure.said(condition.drive(state))


def test_condition_nobody_looked_at_is_dashed_with_a_shut_eye() -> None:
    for drawn in (condition.drive("not looked at"), condition.sign("not looked at")):
        assert measure.of(drawn, Mark, sign="eye")
        assert measure.of(drawn, Path, role="hidden")
        assert not measure.of(drawn, Hatch)
    assert not measure.of(condition.drive("drive out"), Mark)
