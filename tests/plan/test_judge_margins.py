"""Margins at the careful end: each line by answers and margins, and the one unknown that could break it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy import optimize

from axlewright.plan.judge import Fixed, breaking_unknown, by_margin, judge_line, least
from axlewright.trade.verdicts import HELD, WORDS, HeldRule, held_rules, questions


@dataclass(frozen=True)
class Drawn:
    """A margin by its draws, as the workings give it."""

    what: str
    stage: str
    draws: NDArray[np.float64]

    def at(self, share: float) -> float:
        return float(np.quantile(self.draws, share))


def good(line: str) -> dict[str, str]:
    return {q.id: q.answers[0] for q in questions().values() if q.line == line}


def plenty(line: str) -> list[Fixed]:
    return [Fixed(rule.margin, 99.0, 99.0) for rule in held_rules() if rule.line == line and rule.margin]


def jack() -> HeldRule:
    return next(rule for rule in held_rules() if rule.margin == "jack")


@pytest.mark.parametrize("line", HELD)
def test_a_line_is_yes_only_when_all_is_answered_and_worked_out(line: str) -> None:
    assert judge_line(line, {}).word == "not known"
    assert judge_line(line, good(line)).word == ("yes" if not plenty(line) else "not known")
    assert judge_line(line, {}, plenty(line)).word == "not known"
    whole = judge_line(line, good(line), plenty(line))
    assert whole.word == "yes"
    assert whole.rows == ({"HOLDING": "H16", "LIFTING": "L8", "JOINT": "J9", "OIL": "O6", "BENCH RELEASE": "B7"}[line],)


@pytest.mark.parametrize("asked", [q.id for q in questions().values()])
def test_each_answer_alone_can_only_take_away(asked: str) -> None:
    question = questions()[asked]
    base = good(question.line) | {name: answers[0] for name, answers in question.given.items()}
    for answer in question.answers[1:]:
        got = judge_line(question.line, base | {asked: answer}, plenty(question.line))
        assert WORDS.index(got.word) <= WORDS.index("yes")
        if any((asked, answer) in rule.named() for rule in held_rules()):
            assert got.word != "yes", (asked, answer)
            assert got.why
    left_out = judge_line(question.line, {k: v for k, v in base.items() if k != asked}, plenty(question.line))
    assert left_out.word == "not known"


@pytest.mark.parametrize("margin", sorted({rule.margin for rule in held_rules() if rule.margin}))
def test_each_margin_alone_can_stop_its_line(margin: str) -> None:
    rule = next(rule for rule in held_rules() if rule.margin == margin)
    answers = good(rule.line) | {name: wanted[0] for name, wanted in rule.given.items()}
    others = [m for m in plenty(rule.line) if m.what != margin]
    assert judge_line(rule.line, answers, others).word == "not known", "a margin nobody worked out"
    weak = judge_line(rule.line, answers, [*others, Fixed(margin, 0.01, 0.01)])
    assert weak.word == ("no" if rule.no_below is not None else "not known" if rule.not_known_below else "only if")
    assert rule.id in weak.rows
    assert judge_line(rule.line, answers, [*others, Fixed(margin, math.nan, math.nan)]).word != "yes"


def test_the_weakest_stage_counts() -> None:
    stages = [Fixed("jack", 2.0, 1.5, "wheel clear"), Fixed("jack", 1.4, 1.1, "wheel off"), Fixed("jack", 1.6, 1.3)]
    weakest = least(stages, "jack")
    assert weakest is not None
    assert weakest.stage == "wheel off"
    assert by_margin(jack(), stages) == "only if"


def test_a_margin_by_draws() -> None:
    """Normal about 1.4 with sd 0.2: its 5 % end lies at 1.4 - 1.645 x 0.2 = 1.071."""
    draws = 1.4 + 0.2 * np.array([float(x) for x in np.sort(np.random.default_rng(3).standard_normal(200_000))])
    margin = Drawn("jack", "raise", draws)
    assert margin.at(0.05) == pytest.approx(1.071, abs=0.01)
    assert by_margin(jack(), [margin]) == "only if"


@given(st.floats(0.1, 3), st.floats(0.1, 3), st.floats(0.01, 1))
def test_a_smaller_margin_never_gives_a_better_word(middle: float, careful: float, less: float) -> None:
    careful = min(middle, careful)
    for rule in held_rules():
        if rule.margin:
            before = by_margin(rule, [Fixed(rule.margin, middle, careful)])
            after = by_margin(rule, [Fixed(rule.margin, middle - less, careful - less)])
            assert WORDS.index(after) <= WORDS.index(before)


def test_answers_that_do_not_exist_are_refused() -> None:
    with pytest.raises(ValueError, match="no question saddle"):
        judge_line("HOLDING", {"saddle": "yes"})
    with pytest.raises(ValueError, match="lock-home: no answer maybe; there is yes, no"):
        judge_line("HOLDING", {"lock-home": "maybe"})


def test_conditions_are_told() -> None:
    got = judge_line(
        "HOLDING", good("HOLDING"), [*(m for m in plenty("HOLDING") if m.what != "jack"), Fixed("jack", 1.4, 1.2)]
    )
    assert (got.word, got.rows, got.conditions) == ("only if", ("H5",), ("its gauge is read in the first 50 mm",))


def test_a_stand_is_asked_about_only_where_one_holds() -> None:
    crib = judge_line("HOLDING", good("HOLDING") | {"lock-home": "no"}, plenty("HOLDING"))
    assert crib.word == "yes"
    stand = judge_line("HOLDING", good("HOLDING") | {"rests-on": "stand", "lock-home": "no"}, plenty("HOLDING"))
    assert (stand.word, stand.rows) == ("no", ("H6",))


# the one unknown that could break it
def test_the_unknown_that_breaks_against_a_root_finder() -> None:
    """Capacity over (mass x share / cos slope): scipy's root of each input alone."""

    def margin(v: dict[str, float]) -> float:
        return 70e3 / (v["mass"] * 9.80665 * v["share"] / math.cos(v["slope"]))

    middle = {"mass": 9000.0, "share": 0.52, "slope": 0.01}
    careful = {"mass": 10500.0, "share": 0.60, "slope": 0.03}
    found = breaking_unknown(margin, middle, careful)
    assert found is not None
    assert found.margin_middle == margin(middle)
    alone = {name: margin(middle | {name: end}) for name, end in careful.items()}
    assert found.name == min(alone, key=alone.__getitem__) == "mass"
    root = optimize.brentq(lambda mass: margin(middle | {"mass": mass}) - 1.0, 9000.0, 90000.0)
    assert found.at == pytest.approx(root, rel=1e-9)


def test_an_unknown_that_falls_towards_danger() -> None:
    """A smaller stand plate: the value lies below the middle."""
    found = breaking_unknown(lambda v: v["plate"] / 9.0, {"plate": 12.0}, {"plate": 11.0})
    assert found is not None
    assert found.at == pytest.approx(9.0)


def test_no_unknown_alone_can_break_it() -> None:
    assert breaking_unknown(lambda v: 2.0 + v["a"], {"a": 0.0}, {"a": 1.0}) is None
    level_off = breaking_unknown(lambda v: 2.0 + math.exp(-v["a"]), {"a": 0.0}, {"a": 1.0})
    assert level_off is not None
    assert level_off.at is None


def test_one_that_is_broken_already_meets_its_limit_at_the_middle() -> None:
    found = breaking_unknown(lambda v: 1.0 - v["a"], {"a": 0.1}, {"a": 0.2})
    assert found is not None
    assert found.at == pytest.approx(0.1)
