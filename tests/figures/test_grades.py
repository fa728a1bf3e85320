"""A picture for each grade: true size where the words say so, and one for every grade that names a picture."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path as File

import pytest
from figures import measure

import axlewright
from axlewright.sheets.drawing import Circle, Group, Path
from axlewright.sheets.figures import clock, empty, grades
from axlewright.sheets.text import text

FINDINGS = tomllib.loads((File(axlewright.__file__).parent / "trade/findings.toml").read_text("utf-8"))["finding"]
PICTURED = [(one["id"], grade["id"]) for one in FINDINGS if "picture" in one for grade in one["grade"]]


@pytest.mark.parametrize(("finding", "grade"), PICTURED)
def test_every_pictured_grade_is_drawn(finding: str, grade: str) -> None:
    drawn = grades.picture(finding, grade)
    assert drawn is not None
    assert drawn.says.endswith(".")
    assert drawn.width <= 88.0
    assert not measure.off(drawn, slack=0.6)
    assert not measure.words_off(drawn)


def test_grades_of_one_finding_look_different() -> None:
    for finding in grades.FINDINGS:
        made = [grades.picture(finding, grade) for name, grade in PICTURED if name == finding]
        assert len({one.model_dump_json() for one in made if one}) == len(made) > 1, finding


def test_findings_that_are_heard_have_no_picture() -> None:
    for one in FINDINGS:
        if "picture" not in one:
            assert grades.picture(one["id"], one["grade"][0]["id"]) is None


@pytest.mark.parametrize(("grade", "size"), [("damp", 10.0), ("drips", 30.0), ("runs", 80.0)])
@pytest.mark.parametrize("finding", ["leak-wheel", "leak-input"])
def test_blots_are_true_size(finding: str, grade: str, size: float) -> None:
    drawn = grades.picture(finding, grade)
    assert max(2 * one.r for one in measure.of(drawn, Circle)) == size


def test_gap_bars_are_as_thick_as_they_say() -> None:
    drawn = grades.picture("rock", "far")
    thick = [measure.span(measure.path_points(one.d))[1] for one in measure.of(drawn, Path, role="solid")]
    assert thick == pytest.approx([0.25, 0.5, 1.0], abs=0.011)
    said = measure.said(drawn)
    assert "0.25 mm" in said
    assert "1.0 mm" in said
    reached = [
        len(measure.of(grades.picture("rock", g), Path, role="solid")) for g in ("none", "some", "beyond", "far")
    ]
    assert reached == [0, 1, 2, 3]


def test_slack_of_a_seat_is_one_millimetre() -> None:
    (gap,) = measure.of(grades.picture("seats", "slack"), Path, role="solid-must")
    assert measure.span(measure.path_points(gap.d))[1] == pytest.approx(1.0)


@pytest.mark.parametrize(("grade", "angle"), [("same", 0.0), ("slight", 1.5), ("leans", 3.0)])
def test_leaning_wheel_leans_as_far_as_it_says(grade: str, angle: float) -> None:
    (wheel,) = measure.of(grades.picture("lean", grade), Group)
    assert wheel.turn == angle
    assert f"{angle:g}°" in measure.said(grades.picture("lean", grade))


@pytest.mark.parametrize(("grade", "gap"), [("none", 0.5), ("slight", 2.0), ("plain", 4.0)])
def test_pointer_stands_off_by_the_wobble(grade: str, gap: float) -> None:
    drawn = grades.picture("wobble", grade)
    (far,) = measure.of(drawn, Path, role="hidden")
    flange = max(x for one in measure.of(drawn, Path, role="outline") for x, _ in measure.path_points(one.d))
    assert measure.path_points(far.d)[0][0] - flange == pytest.approx(gap)


def test_puddle_is_a_quarter_of_its_ring() -> None:
    (wet,) = measure.of(grades.picture("puddle", "yes"), Path, role="oil")
    assert measure.span(measure.path_points(wet.d)) == (50.0, 50.0)


KEPT = [
    clock.Reading(date(2026, 5, 10), 1204.0),
    clock.Reading(date(2026, 6, 20), 1260.0),
    clock.Reading(date(2026, 8, 14), 1333.0),
]


@pytest.mark.parametrize("hours", [13330.0, 133.0, 1334.0])
def test_typed_reading_stands_where_its_hours_put_it(hours: float) -> None:
    drawn = clock.jump(KEPT, clock.Reading(date(2026, 8, 28), hours), text("1 333"), text("typed"))
    heights = [one.at[1] for one in measure.of(drawn, Circle)]
    every = [*(one.hours for one in KEPT), hours]
    share = [(one - min(every)) / (max(every) - min(every)) for one in every]
    drawn_share = [(max(heights) - y) / (max(heights) - min(heights)) for y in heights]
    assert drawn_share == pytest.approx(share)
    days = [one.at[0] for one in measure.of(drawn, Circle)]
    assert days == sorted(days)
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)


def test_a_single_reading_can_be_compared() -> None:
    drawn = clock.jump(KEPT[-1:], clock.Reading(date(2026, 8, 14), 13330.0), text("1 333"), text("typed"))
    assert not measure.off(drawn)


@pytest.mark.parametrize("draw", [empty.shelf, empty.trouble, empty.yard, empty.bench])
def test_empty_rooms_are_drawn_dashed(draw) -> None:
    drawn = draw()
    assert measure.of(drawn, Path, role="hidden")
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)
    assert "sound" not in drawn.says or "not the same as sound" in drawn.says
