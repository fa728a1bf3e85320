"""What all faces of the formulary share: examples, ranges, families, words, data, the page of the docs."""

from __future__ import annotations

import json
import math
import shlex
import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.limits import OutOfRange
from axlewright.formulary import docs, formula, functions, names, said
from axlewright.formulary.ask import ask, headline
from axlewright.formulary.call import call, given_by
from axlewright.formulary.examples import TRIED, flat, texts_to_try
from axlewright.formulary.families import beside, families, groups, in_order
from axlewright.formulary.ranges import ranges
from axlewright.quantities import parse
from axlewright.yard import Faults

ROOT = Path(__file__).parents[2]
BOLT = {
    "thread": "M20",
    "head": "10.9",
    "grease": "anti-seize",
    "engaged": "27 mm",
    "clamp": "92 kN",
    "housing": "iron 250",
}


@pytest.mark.parametrize("name", names())
def test_every_function_has_an_example_that_works(name: str) -> None:
    texts = texts_to_try(formula(name))
    assert texts, f"{name} has no example: write `Try:` in its docstring"
    answer = ask(name, texts)
    assert headline(answer).strip()
    json.dumps(said.answer_data(answer), allow_nan=False)


def test_no_example_is_left_of_a_function_that_is_gone() -> None:
    assert set(tomllib.loads(TRIED.read_text(encoding="utf-8"))) <= set(names())


@pytest.mark.parametrize("name", names())
def test_an_example_says_the_same_in_metric_and_us(name: str) -> None:
    """Shown in other units the SI values stay; what is typed in other units is the same to its three digits."""
    found = formula(name)
    texts = texts_to_try(found)
    marks = {"mark": "5 N·m"} if any(s.name == "mark" and not s.needed for s in found.takes) else {}
    metric, us = (ask(name, {**marks, **texts}, measures) for measures in ("metric", "us"))
    assert [v.si for v in metric.values] == [v.si for v in us.values]
    for key, slot in said.leaves(found.takes, texts):
        if slot.form == "quantity" and not slot.many and slot.kind.name != "yes-no" and key in texts:
            other = said.as_typed(found, texts, "us")[key]
            assert parse(other, slot.kind).si == pytest.approx(parse(texts[key], slot.kind).si, rel=6e-3)


@pytest.mark.parametrize("name", names())
def test_an_example_can_be_typed_with_a_decimal_comma(name: str) -> None:
    found = formula(name)
    texts = texts_to_try(found)
    comma = ask(name, said.as_typed(found, texts, decimal=","), decimal=",")
    assert [v.si for v in comma.values] == [v.si for v in ask(name, texts).values]


@pytest.mark.parametrize("name", names())
def test_a_command_is_read_back_by_a_shell(name: str) -> None:
    texts = texts_to_try(formula(name))
    program, told, *pairs = shlex.split(said.command(name, texts))
    assert (program, told) == ("formula", name)
    assert dict(pair.split("=", 1) for pair in pairs) == texts


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=30))
@settings(max_examples=60)
def test_any_text_is_quoted_for_a_shell(text: str) -> None:
    assert shlex.split(said.typed("key", text)) == [f"key={text}"]


def test_ranges_are_those_that_the_functions_hold_to() -> None:
    """A value just outside a range is refused by name, with the same limits; all others stay as in the example."""
    tried = 0
    for found in functions().values():
        for name, allowed in ranges(found).items():
            kept = given_by(found, texts_to_try(found))
            for end, side in ((allowed.low, -1.0), (allowed.high, 1.0)):
                if end is None:
                    continue
                outside = end if allowed.above and side < 0 else end + side * max(abs(end) * 1e-6, 1e-9)
                with pytest.raises(OutOfRange) as bad, np.errstate(all="ignore"):
                    found.function(**{**kept, name: outside})
                assert bad.value.what == name
                tried += 1
    assert tried > 500


def test_known_ranges_are_found() -> None:
    allowed = ranges(formula("preload-from-nut-factor"))["nut_factor"]
    assert (allowed.low, allowed.high, allowed.above) == (0.03, 0.6, False)
    assert ranges(formula("preload-from-nut-factor"))["diameter"].above
    assert "pitch" not in ranges(formula("torque-split")) or ranges(formula("torque-split"))["pitch"].high is None, (
        "a limit that hangs on another argument is none of this one alone"
    )


def test_the_bolt_window_is_first_and_every_function_stands_in_one_family() -> None:
    listed = [one.name for one in in_order()]
    assert listed[0] == "bolt-window"
    assert len(listed) >= 12
    assert sorted(listed) == sorted(functions())
    assert families()[0].name == "by name"
    assert beside("bolt-window")[0] == "bolt-window"
    assert "torque-split" in beside("preload-from-torque")
    assert [g.name for f in families() for g in f.groups if f.name != "by name"] == list(groups())
    assert not any(".py" in group.words for family in families() for group in family.groups)


@pytest.mark.parametrize(
    ("number", "shows"),
    [
        (0.0, "0"),
        (390.0, "390"),
        (0.10290001, "0.1029"),
        (12345.6, "12\u202f350"),
        (-2.5, "\u22122.5"),
        (999.96, "1\u202f000"),
        (1.2e-9, "1.2 × 10⁻⁹"),
        (3e-14, "0"),
        (2.5e9, "2.5 × 10⁹"),
        (math.inf, "no limit"),
    ],
)
def test_numbers_are_written_as_on_a_sheet(number: float, shows: str) -> None:
    assert said.figure(number) == shows


@given(st.floats(1e-5, 1e6, allow_nan=False))
@settings(max_examples=100)
def test_a_written_number_is_read_back(number: float) -> None:
    """Four digits are kept: the number that a person reads is within half of the last one."""
    for decimal in (".", ","):
        read = parse(said.figure(number, decimal=decimal), "share", decimal).si  # type: ignore[arg-type]
        assert read == pytest.approx(number, rel=5.1e-4)


def test_what_may_not_be_set_has_no_number() -> None:
    """A clamp that no torque keeps below yield: nothing is safe to set, on no face."""
    for more, because in (
        ({"clamp": "150 kN"}, "wants"),
        ({"mark": "300 N·m"}, "no mark"),
        ({"grease": "rust"}, "clean it first"),
    ):
        answer = ask("bolt-window", {**BOLT, **more})
        assert "nothing is safe to set" in headline(answer)
        assert because in headline(answer)
        for name in ("set_to", "preload", "preload_low", "preload_high"):
            assert answer[name].si == "nothing is safe to set"
    doubtful = ask("bolt-window", {**BOLT, "clamp": "92 kN to 170 kN"})
    assert "nothing is safe to set" in headline(doubtful)


def test_the_window_rounds_to_the_safe_side() -> None:
    """The lower edge goes up, the upper one down; what is set stands on a mark of the wrench."""
    answer = ask("bolt-window", BOLT)
    low, high = answer["low"].si, answer["high"].si
    set_to = round(answer["set_to"].si)
    assert set_to % 5 == 0
    assert low <= set_to <= high
    assert headline(answer) == f"With anti-seize set {set_to}\u00a0N·m: {math.ceil(low)} to {math.floor(high)} holds."
    us = ask("bolt-window", BOLT, "us")
    foot_pound = 0.3048 * 4.4482216152605
    assert us["set_to"].number % 5 == pytest.approx(0, abs=1e-9) or us["set_to"].number % 5 == pytest.approx(
        5, abs=1e-9
    )
    assert f"{math.ceil(low / foot_pound)} to {math.floor(high / foot_pound)} holds" in headline(us)


def test_nested_values_are_typed_flat() -> None:
    nested = {
        "weight": "4 kN",
        "hook": {"x": "0 m"},
        "legs": [{"length": "1 m"}, {"eye": {"x": 2}}],
        "readings": [1, 2],
    }
    assert dict(flat(nested)) == {
        "weight": "4 kN",
        "hook.x": "0 m",
        "legs.1.length": "1 m",
        "legs.2.eye.x": 2,
        "readings": [1, 2],
    }


def test_a_missing_value_is_asked_for_with_one_that_would_do() -> None:
    with pytest.raises(Faults) as bad:
        ask("tyre-give", {"share": "0.2", "rim": "34 in"})
    assert (
        str(bad.value)
        == 'outside-diameter: This is missing: of the tyre, not loaded. Type outside-diameter="1.8 m", say.'
    )


def test_an_answer_over_a_range_has_ends_on_every_face() -> None:
    answer = ask("preload-from-nut-factor", {"torque": "340 Nm ± 20 Nm", "diameter": "20 mm", "nut-factor": "0.14"})
    data = said.answer_data(answer)["values"]["result"]
    assert data["low"] < data["value"] < data["high"]
    assert " to\u00a0" in data["says"]
    assert call("preload-from-nut-factor", answer.texts).values[0].si == answer.values[0].si


def test_the_page_of_the_docs_is_what_the_program_makes() -> None:
    stands = (ROOT / "docs" / "formulary.md").read_text(encoding="utf-8")
    made = docs.page()
    assert stands == made, "run: python -m axlewright.formulary.docs > docs/formulary.md"


def test_the_docs_tell_all_of_every_function() -> None:
    made = docs.page()
    for found in functions().values():
        entry = made.split(f"\n### {found.name}\n")[1].split("\n### ")[0]
        assert found.title in entry
        assert docs.clean(found.source) in entry
        assert docs.clean(found.valid) in entry
        assert f"formula {found.name}" in entry
        for slot in found.takes:
            assert f"| {slot.key}" in entry
            if slot.form == "quantity" and slot.kind.unit not in ("-", "1"):
                assert f"| {slot.kind.unit} |" in entry
