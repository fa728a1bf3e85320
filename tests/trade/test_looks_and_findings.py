"""Looks and findings against what judge.md and its sources say of them."""

from __future__ import annotations

import itertools
from fractions import Fraction

import pytest

from axlewright.trade import findings as trade
from axlewright.trade.findings import CONDITIONS, by_eye, findings, floored, groups, order_breaks, sum_error
from axlewright.trade.looks import looks

# judge.md section 2, in order: minutes by people, fresh hours, fresh days
LOOKS = {
    "park": (3, None, 1), "wipe": (5, 25, 14), "chalk": (10, 25, 14), "breather": (5, 100, None), "level": (6, 25, 14),
    "plug": (8, 25, 60), "bolts": (10, 25, 60), "nuts": (10, 25, 30), "cracks": (15, 100, 180), "lean": (5, 10, None),
    "to-and-fro": (0, 10, None), "heat": (5, 10, None), "listen": (0, 25, None), "drips": (5, 10, None),
    "drain": (20, None, None), "lab": (10, 250, None), "rock": (60, 25, 90), "float": (15, 25, 90),
    "turn": (10, 25, None), "wobble": (5, 25, None), "backlash": (10, 100, None), "lip": (10, None, None),
    "road-run": (0, 10, None), "brakes": (0, None, None),
}  # fmt: skip
# judge.md section 3: the grades in bold
STOPS = {
    ("plug", "chips"), ("plug", "pieces"), ("oil-metal", "chips"), ("rock", "far"), ("rock", "clunk"), ("seats", "slack"),
    ("turn", "grinds"), ("wobble", "plain"), ("lean", "leans"), ("backlash", "jumps"), ("heat", "very-hot"),
    ("noise", "knock"), ("smoke", "smoke"), ("level", "not-reached"), ("fluid", "jet"), ("bolts", "loose"),
    ("bolts", "gone"), ("nuts", "moved"), ("nuts", "gone"), ("cracks", "suspect"), ("cracks", "crack"),
    ("water", "runs-first"), ("brakes", "sinks"),
}  # fmt: skip
LEAST = {
    "wearing": {"flakes", "beyond", "clunk", "rough"},
    "failing": {
        "chips", "pieces", "far", "slack", "grinds", "plain", "leans", "jumps", "very-hot", "smoke", "knock",
    },
}  # fmt: skip
GRADES = [(name, grade) for name, finding in findings().items() for grade in finding.grades]


def test_the_looks_are_those_of_the_note() -> None:
    found = {name: (look.minutes, look.fresh_hours, look.fresh_days) for name, look in looks().items()}
    assert found == LOOKS
    assert list(found) == list(LOOKS), "they are done in this order"


def test_what_a_look_names_is_there() -> None:
    for look in looks().values():
        assert set(look.gives) <= set(findings()), look.id
        assert set(look.after) <= set(looks()), look.id
        for sooner in look.sooner:
            for finding, grades in sooner.grades.items():
                assert set(grades) <= {grade.id for grade in findings()[finding].grades}, look.id


@pytest.mark.parametrize("name", findings())
def test_some_look_gives_each_finding(name: str) -> None:
    assert name in looks()[findings()[name].look].gives


def test_nothing_works_before_plug_bolts_and_nuts_but_what_creeps() -> None:
    """No W look before plug, bolts and nuts are clean; no road-run before rock is clean too."""
    for look in looks().values():
        if "W" in look.stages and look.id != "brakes":  # after a job, when nuts are torqued
            assert {"plug", "bolts", "nuts"} <= set(look.after), look.id
    assert "rock" in looks()["road-run"].after


def test_hard_stops_are_those_in_bold() -> None:
    assert {(name, grade.id) for name, grade in GRADES if grade.stop} == STOPS


def test_least_words() -> None:
    found = {word: {grade.id for _, grade in GRADES if grade.least == word} for word in ("wearing", "failing")}
    assert found == LEAST


def test_the_best_grade_alone_is_good_or_its_finding_has_an_order_of_its_own() -> None:
    for name, finding in findings().items():
        assert finding.grades[0].good, name
        if finding.ordered and name != "plug":  # paste is what a sound plug shows
            for by in {grade.by for grade in finding.grades}:
                good = [grade.id for grade in finding.grades if grade.by == by and grade.good]
                assert len(good) == 1, name


def test_lasting_grades_stop_and_proof_lasts() -> None:
    for name, grade in GRADES:
        assert grade.stop or not grade.lasting, (name, grade.id)
        assert grade.lasting or not grade.proof, (name, grade.id)
        assert grade.proof == (grade.p is not None and grade.p[0] == grade.p[1] == 0), (
            "proof is two zeros, and nothing else"
        )


@pytest.mark.parametrize("name", [name for name, finding in findings().items() if finding.tables()])
def test_tables_sum_to_one_and_keep_the_order(name: str) -> None:
    """By exact fractions, and by hand: a worse grade never speaks for a sounder condition."""
    for table in findings()[name].tables().values():
        exact = [[Fraction(repr(p)) for p in row] for row in table]
        assert [sum(column) for column in zip(*exact, strict=True)] == [1, 1, 1, 1]
        assert sum_error(table) == 0
        assert order_breaks(table) == 0
        for mild, worse in itertools.pairwise(exact):  # neighbours are enough where no zero stands between
            ratios = [w / m if m else None for m, w in zip(mild, worse, strict=True)]
            known = [ratio for ratio in ratios if ratio is not None]
            assert known == sorted(known), name


def test_a_table_out_of_order_is_counted() -> None:
    assert order_breaks([(0.5, 0.5, 0.6, 0.5), (0.5, 0.5, 0.4, 0.5)]) == 2  # sound and wearing against failing


def test_a_table_that_misses_one_is_refused() -> None:
    with pytest.raises(ValueError, match="does not sum to 1"):
        trade.Finding.model_validate(
            {
                "id": "plug", "name": "plug", "look": "plug", "source": "a test",
                "grade": [{"id": "clean", "words": "bare", "seen": "bare", "p": [0.5, 0.5, 0.5, 0.5]}],
            }
        )  # fmt: skip


def test_rock_by_eye_follows_from_the_dial() -> None:
    """The eye errs by 0.5 mm: it calls none still, and what is far never."""
    dial, eye = findings()["rock"].tables()["dial"], findings()["rock"].tables()["eye"]
    still = by_eye(
        {condition: [row[n] for row in dial] for n, condition in enumerate(CONDITIONS)}, trade.numbers().eye_sees_still
    )
    for n, condition in enumerate(CONDITIONS):
        assert still[condition] == pytest.approx(eye[0][n], abs=1e-12)
        assert 1 - still[condition] == pytest.approx(eye[1][n], abs=1e-12)


def test_a_floor_lifts_only_what_is_worse_and_never_proof() -> None:
    for name, grade in GRADES:
        if grade.p is None:
            continue
        lifted = floored(grade.p)
        most = grade.p.index(max(grade.p))
        assert lifted[: most + 1] == grade.p[: most + 1], (name, grade.id)
        mean = sum(grade.p) / 4
        for before, after in zip(grade.p, lifted, strict=True):  # a little of the way to the mean, never past it
            assert min(before, mean) - 1e-15 <= after <= max(before, mean) + 1e-15, (name, grade.id)
            assert abs(after - before) <= 0.02 + 1e-15
        if grade.proof:
            assert lifted == grade.p


def test_groups_hold_what_the_note_says() -> None:
    held = {name: {f.id for f in findings().values() if f.group == name} for name in groups()}
    assert held == {
        "debris": {"plug", "oil-metal", "iron"},
        "play": {"rock", "seats", "wobble", "turn", "lean", "backlash"},
        "oil": {"leak-wheel", "puddle"},
        "heat": {"heat", "smoke"},
    }
    assert {group.others for group in groups().values()} == {0.5}


def test_exposure_holds_for_plug_grades_that_wiping_would_hide() -> None:
    exposed = {(name, grade.id) for name, grade in GRADES if grade.exposure}
    assert exposed == {("plug", g) for g in ("clean", "paste", "thick", "flakes")} | {("oil-metal", "glitter")}
