"""Evidence: floors, exposure and company, each by hand; what worse findings do to the forecast."""

from __future__ import annotations

import numpy as np
import pytest
from plan.choice_cases import task, with_seen

from axlewright.plan.reckon.choice_evidence import Witness, evidence_of
from axlewright.plan.reckon.choice_forecast import class_lives, forecast, workings_of
from axlewright.trade.findings import findings, floored


def row(finding: str, grade: str) -> np.ndarray:
    p = findings()[finding].grade(grade).p
    assert p is not None
    return np.array(floored(p))


def test_nothing_seen_is_no_evidence() -> None:
    assert evidence_of(()).likelihood.shape == (0, 4)
    assert evidence_of([Witness("level", "low", 0.0, 1)]).likelihood.shape == (0, 4)  # a gate, no table


def test_one_finding_counts_as_its_row() -> None:
    found = evidence_of([Witness("turn", "rough", 12.0, 1)])
    assert np.allclose(found.likelihood, [row("turn", "rough")])
    assert found.ago.tolist() == [12 * 3600.0]


def test_a_plug_wiped_just_now_is_clean_under_any_condition() -> None:
    assert np.allclose(evidence_of([Witness("plug", "clean", 0.0, 1, since_wiped=0.0)]).likelihood, 1.0)


def test_a_plug_wiped_forty_hours_ago_has_collected_63_of_100() -> None:
    x = 1 - np.exp(-1)
    wanted = x * row("plug", "clean") + (1 - x)
    assert np.allclose(evidence_of([Witness("plug", "clean", 0.0, 1, since_wiped=40.0)]).likelihood, [wanted])


def test_proof_takes_no_floor_and_no_exposure() -> None:
    found = evidence_of([Witness("plug", "chips", 0.0, 1, since_wiped=1.0)])
    assert found.likelihood[0, :2].tolist() == [0.0, 0.0]


def test_a_leak_counts_half_while_the_breather_is_not_known_to_be_free() -> None:
    leak = Witness("leak-wheel", "drips", 0.0, 1)
    assert np.allclose(evidence_of([leak]).likelihood, [row("leak-wheel", "drips") ** 0.5])
    free = Witness("breather", "free", 5.0, 0)
    assert np.allclose(evidence_of([free, leak]).likelihood, [row("leak-wheel", "drips")])


def test_oil_that_is_not_the_drives_says_nothing_of_it() -> None:
    brake = [Witness("fluid", "brake", 0.0, 1), Witness("leak-wheel", "runs", 0.0, 1)]
    assert evidence_of(brake).likelihood.shape == (0, 4)


def test_the_second_of_a_group_on_one_day_counts_half() -> None:
    both = evidence_of([Witness("turn", "rough", 0.0, 1), Witness("wobble", "slight", 0.0, 1)])
    assert np.allclose(both.likelihood, [row("turn", "rough"), row("wobble", "slight") ** 0.5])


@pytest.mark.parametrize("finding", ["plug", "turn", "rock", "heat", "leak-wheel"])
def test_a_worse_grade_never_makes_it_carry_longer(finding: str) -> None:
    """Chance that it still carries after 60 h, grade by grade."""
    grades = [g.id for g in findings()[finding].grades if g.p is not None and g.by in ("", "dial")]
    carries = []
    for grade in grades:
        w = workings_of(with_seen(task(count=16), (finding, grade)))
        forecast(w, 60.0)
        carries.append(float(w["condition"].draws.carries[-1]))
    assert carries == sorted(carries, reverse=True)


def test_the_band_holds_the_middle_and_begins_at_one() -> None:
    w = workings_of(with_seen(task(count=16), ("plug", "thick")))
    forecast(w, 80.0)
    found = w["condition"].draws
    assert found.carries[0] == pytest.approx(1.0)
    assert (found.low <= found.carries + 1e-12).all()
    assert (found.carries <= found.high + 1e-12).all()


def test_drawn_lives_agree_with_the_grid() -> None:
    """Exact draws against the forecast's own chances: within three standard errors."""
    w = workings_of(with_seen(task(count=4096), ("plug", "flakes")))
    forecast(w, 100.0)
    chances, lives = w["condition"].draws, w["life/fitted"].draws
    for n, hours in enumerate(w["condition/ahead"].draws.hours):
        drawn = float(np.mean(lives.lets_go > hours))
        error = np.sqrt(max(drawn * (1 - drawn), 1e-4) / 4096)
        assert abs(drawn - chances.carries[n]) < 3 * error + 0.01


def test_one_design_is_the_middle_of_the_class() -> None:
    lives = class_lives(1, 1)
    assert float(lives.sound.median) == pytest.approx(5500 * 3600.0)
    many = class_lives(1, 64)
    assert float(np.median(many.sound.median)) == pytest.approx(5500 * 3600.0, rel=0.1)
