"""The rules as rows: every id and word of judge.md, and nothing named that is not there."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from axlewright.plan.judge.road import HOLDS
from axlewright.trade.findings import findings
from axlewright.trade.verdicts import HELD, HeldRule, Rule, held_rules, lines, questions, rules

# judge.md section 4, FIELD and ROAD: the words of each row ("-" says nothing)
WORDS = """
R1 nk nk | R2 if nk | R3 if nk | R4 no no | R5 no no | R6 if no | R7 no no | R8 if if | R9 no no | R10 if no | R11 yes if
R12 no no | R13 if no | R14 if if | R15 no no | R16 no no | R17 if no | R18 if if | R19 if if | R20 if if | R21 if no
R22 if no | R23 if if | R24 if no | R25 if if | R26 if if | R27 yes if | R28 if if | R29 if no | R30 no no | R31 - no
R32 yes yes
"""
SAID = {"nk": "not known", "if": "only if", "no": "no", "yes": "yes", "-": ""}
EXPECTED = {
    row.split()[0]: tuple(SAID[word] for word in row.split()[1:])
    for line in WORDS.split("\n")
    for row in line.split("|")
    if row.strip()
}
# and what the rows of margins say: limit of no, limit of only if
MARGINS = {
    ("H3", "tip-slope"): (0.2, 0.3), ("H4", "ground-slope"): (1.0, 1.5), ("H5", "jack"): (1.0, 1.25),
    ("H6", "stand"): (1.0, 1.25), ("H7", "crossing"): (1.0, None), ("H7", "seat"): (1.0, None),
    ("H7", "ground"): (1.0, None), ("H7", "lower-code"): (1.0, None), ("H7", "crib-height"): (1.0, 1.5),
    ("H8", "side-hold"): (1.5, 2.0), ("H9", "chocks"): (1.5, None), ("H12", "wind"): (1.0, 1.5),
    ("L2", "forks"): (1.0, 1.25), ("L3", "leg-angle"): (1.0, None), ("L3", "hang-angle"): (None, 1.0),
    ("L4", "rig"): (1.0, 1.25), ("L5", "hoist-tip"): (1.5, None), ("J3", "stripping"): (1.0, None),
    ("J3", "engagement"): (1.0, None), ("J4", "slip"): (1.0, 1.5), ("O4", "day-loss"): (1.0, None),
    ("O5", "tray"): (1.0, None), ("B1", "tool"): (None, None), ("B3", "lip"): (1.0, pytest.approx(1 / 0.7)),
}  # fmt: skip


def test_every_row_of_field_and_road_is_there_in_order_with_its_words() -> None:
    assert list(dict.fromkeys(rule.id for rule in rules())) == list(EXPECTED) == [f"R{n}" for n in range(1, 33)]
    for rule in rules():
        assert (rule.field, rule.road) == EXPECTED[rule.id], rule.id


def test_every_row_of_the_other_lines_is_there() -> None:
    found = {rule.id for rule in held_rules()}
    wanted = {
        f"{letter}{n}"
        for letter, last in (("H", 16), ("L", 8), ("J", 9), ("O", 6), ("B", 7))
        for n in range(1, last + 1)
    }
    assert found == wanted
    assert {rule.line for rule in held_rules()} == set(HELD)


def test_limits_of_margins() -> None:
    found: dict[tuple[str, str], list[tuple[float | None, float | None]]] = {}
    for rule in held_rules():
        if rule.margin:
            found.setdefault((rule.id, rule.margin), []).append((rule.no_below, rule.only_if_below))
    assert {name: limits[0] for name, limits in found.items()} == MARGINS
    assert found["J4", "slip"] == [(1.0, 1.5), (None, 1.5)], "with a spigot or bushes friction is not alone"


def test_rows_name_findings_and_functions_that_are_there() -> None:
    for rule in rules():
        for finding, grade in rule.named():
            assert grade in {g.id for g in findings()[finding].grades}
        assert not rule.holds or rule.holds in HOLDS
        assert rule.any or rule.all or rule.stale or rule.holds, f"{rule.id} would hold always"
        assert "{" not in rule.why + rule.lifted_by, "these are printed as they stand"


def test_rows_of_the_other_lines_name_questions_that_are_there() -> None:
    for rule in held_rules():
        for asked, answer in (*rule.named(), *((k, v) for k, vs in rule.given.items() for v in vs)):
            assert questions()[asked].line == rule.line, rule.id
            assert answer in questions()[asked].answers, rule.id
    for question in questions().values():
        for asked, answers in question.given.items():
            assert set(answers) <= set(questions()[asked].answers), question.id


def test_a_question_that_no_row_asks_is_idle() -> None:
    asked = {name for rule in held_rules() for name, _ in rule.named()} | {
        name for rule in held_rules() for name in rule.given
    }
    given = {name for question in questions().values() for name in question.given}
    assert set(questions()) <= asked | given


def test_no_row_stops_by_the_good_answer() -> None:
    for rule in held_rules():
        for asked, answer in rule.named():
            assert answer != questions()[asked].answers[0], rule.id


def test_every_bad_grade_is_in_some_row_or_says_nothing_of_what_may_be_done() -> None:
    named = {pair for rule in rules() for pair in rule.named()}
    silent = {
        (name, grade.id)
        for name, finding in findings().items()
        for grade in finding.grades
        if not grade.good and (name, grade.id) not in named
    }
    assert silent == {
        ("oil-metal", "glitter"), ("leak-wheel", "damp"), ("leak-input", "damp"), ("puddle", "yes"), ("where", "input"),
        ("where", "wheel-side"), ("where", "elsewhere"), ("where", "not-yet"), ("water", "haze"), ("iron", "watch"),
        ("iron", "act"),
    }  # fmt: skip


def test_every_hard_stop_stops_both() -> None:
    stopped = {pair for rule in rules() if rule.field == rule.road == "no" for pair in rule.named()}
    for name, finding in findings().items():
        for grade in finding.grades:
            if grade.stop:
                assert (name, grade.id) in stopped


def test_both_lines_need_the_five_looks() -> None:
    for line in lines().values():
        assert line.needs == ("level", "plug", "bolts", "nuts", "rock")


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ({"any": {"plug": ["chip"]}, "field": "no"}, "no finding plug with grade chip"),
        ({"stale": ["plugs"], "field": "no"}, "no finding plugs"),
        ({"any": {"plug": ["thick"]}, "field": "only if"}, "go together"),
        ({"any": {"plug": ["thick"]}, "feild": "no"}, "Extra inputs"),
    ],
)
def test_a_slip_in_a_row_is_refused(row: dict[str, object], says: str) -> None:
    with pytest.raises(ValidationError, match=says):
        Rule.model_validate({"id": "R99", "why": "w", "lifted_by": "l", "source": "a test", **row})


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ({"margin": "jack"}, "names a margin and its limits"),
        ({"word": "no", "margin": "jack", "no_below": 1.0}, "names a margin and its limits"),
        ({"margin": "jack", "only_if_below": 1.0}, "without a condition"),
    ],
)
def test_a_slip_in_a_row_of_margins_is_refused(row: dict[str, object], says: str) -> None:
    with pytest.raises(ValidationError, match=says):
        HeldRule.model_validate(
            {"id": "H99", "line": "HOLDING", "why": "w", "lifted_by": "l", "source": "a test", **row}
        )
