"""The questions: every row stands, slips of unit are asked again with what was likely meant, words are read by any name."""

from __future__ import annotations

import math
import subprocess
import sys

import pytest

from axlewright.quantities import Exact, NotRead, Spread, parse
from axlewright.trade import verdicts
from axlewright.trade.machines import machine_kinds
from axlewright.trade.questions import WHOSE, Question, in_group, question, questions, reach, whose
from axlewright.yard import Design, Machine

ROWS = list(questions().values())


@pytest.mark.parametrize("asked", ROWS, ids=lambda one: one.id)
def test_a_question_is_one_short_sentence_with_help_and_an_answer_that_fits(asked: Question) -> None:
    assert asked.asks.endswith("?")
    assert asked.help.endswith(".")
    assert asked.of in WHOSE
    assert asked.read(asked.example)
    assert asked.belongs(asked.group)
    if asked.id not in verdicts.questions():
        assert "/" in asked.id


@pytest.mark.parametrize("asked", [one for one in ROWS if one.number], ids=lambda one: one.id)
def test_what_is_taken_is_believed_and_rises(asked: Question) -> None:
    for kind in (None, *machine_kinds()):
        taken = asked.taken(kind)
        if taken is None:
            continue
        low, high = taken.spread.ends()
        assert low <= taken.spread.middle() <= high
        assert taken.source
        assert asked.between is not None
        least, most = (parse(end, asked.kind).si for end in asked.between)
        assert least <= low <= high <= most


def test_what_a_field_of_a_file_says_is_asked_of_that_thing_in_that_kind() -> None:
    models = {"machine": Machine, "design": Design}
    fields = [one for one in ROWS if one.field]
    assert {"machine/mass", "bolts/book-torque", "oil/kind"} <= {one.id for one in fields}
    for asked in fields:
        info = models[asked.of].model_fields[asked.field]
        kinds = [mark.name for mark in info.metadata if hasattr(mark, "powers")]
        assert kinds == ([asked.kind] if asked.number else [])


def test_words_that_the_verdicts_are_judged_by_are_theirs() -> None:
    """A person answers in the very words that the rules know, and each such question is asked."""
    made_by_the_sheet = {
        "read-again", "held-by", "held-from-rolling", "brakes-off", "rear-blocks-each-bite", "rear-blocks-at-height",
        "on-the-jack", "gauge", "under-it", "taken-off-wheel", "hang",
    }  # fmt: skip
    for name, row in verdicts.questions().items():
        if row.line in ("HOLDING", "LIFTING") and name not in made_by_the_sheet:
            assert question(name).choices == row.answers


SLIPS = [
    ("machine/front-axle-mass", "7.2 kg", "7.2 t"),
    ("machine/mass", "11300 t", "11300 kg"),
    ("machine/track", "2900 m", "2900 mm"),
    ("machine/track", "2.9 mm", "2.9 m"),
    ("bolts/book-torque", "400 kN·m", "400 N·m"),
    ("walk-round/timber-side", "150 m", "150 mm"),
    ("walk-round/slope-along", "12°", "12 %"),
    ("jack/gauge-mark", "200 bar", "200 psi"),
]


@pytest.mark.parametrize(("name", "typed", "meant"), SLIPS)
def test_a_slip_of_unit_is_asked_again_with_what_was_meant(name: str, typed: str, meant: str) -> None:
    with pytest.raises(NotRead) as bad:
        question(name).read(typed)
    assert meant in bad.value.choices
    for choice in bad.value.choices:
        assert question(name).read(choice)


@pytest.mark.parametrize("asked", [one for one in ROWS if one.number and one.between], ids=lambda one: one.id)
def test_what_nobody_believes_is_refused_and_every_guess_offered_is_believed(asked: Question) -> None:
    assert asked.between is not None
    ends = [parse(end, asked.kind) for end in asked.between]
    for typed in ends:
        assert asked.read(typed.text)
    beyond = f"{ends[1].unit.from_si(ends[1].si) * (7 if asked.kind != 'angle' else 2):.0f} {ends[1].unit.symbol}"
    with pytest.raises(NotRead, match="not believed") as bad:
        asked.read(beyond)
    for choice in bad.value.choices:
        assert asked.read(choice)


def test_a_spread_is_believed_by_its_ends() -> None:
    asked = question("machine/wheelbase")
    assert asked.read("3.6 m ± 0.2 m")
    with pytest.raises(NotRead, match="not believed"):
        asked.read("3.6 m ± 3 m")


@pytest.mark.parametrize(
    ("name", "typed", "kept"),
    [
        ("bolts/grease", "Copper Paste", "anti-seize"),
        ("bolts/grease", "moly", "moly-paste"),
        ("bolts/iron", "EN-GJL-250", "grey-250"),
        ("bolts/thread", "m18x1,5", "M18 × 1.5"),
        ("bolts/fitted", "9; 2", "9, 2"),
        ("bolts/fitted", "None", "none"),
        ("wheel/tyre", "18.4-38", "18.4-38"),
        ("walk-round/timber-wood", "SPF", "spruce-pine-fir"),
        ("walk-round/timber-stamp", "c24", "C24"),
        ("walk-round/floor", "wet grass", "wet-grass"),
        ("header", "on blocks", "on-blocks"),
        ("walk-round/ground", "slab", "slab"),
    ],
)
def test_a_word_is_read_by_any_name_and_spelled_as_the_trade_does(name: str, typed: str, kept: str) -> None:
    assert question(name).read(typed) == kept


@pytest.mark.parametrize(
    ("name", "typed", "says"),
    [
        ("header", "of", "off"),
        ("bolts/grease", "butter", "anti-seize"),
        ("bolts/thread", "3/4", "thread"),
        ("bolts/fitted", "2 and 9", "parted by commas"),
        ("wheel/tyre", "big", "side wall"),
        ("walk-round/jack-plate", "10 ton", "short ton"),
        ("machine/track", "2.9", "unit is missing"),
        ("bolts/count", "9.5", "whole"),
        ("bolts/again-after", "10, soon", "duration"),
        ("bolts/head-mark", "  ", "word"),
    ],
)
def test_nonsense_says_what_to_type(name: str, typed: str, says: str) -> None:
    with pytest.raises(NotRead, match=says):
        question(name).read(typed)


def test_how_far_off_a_tool_is() -> None:
    assert question("machine/mass").doubt(9000.0) == pytest.approx(90.0)  # a hundredth
    assert question("machine/track").doubt(2.8) == pytest.approx(0.02)  # whatever the length
    assert question("walk-round/slope-along").doubt(0.0) == pytest.approx(0.3 * 3.141592653589793 / 180)
    assert question("walk-round/jack-plate").doubt(12_000.0) == pytest.approx(0.0)  # a plate is read, not measured


def test_the_trade_s_guess_of_a_kind_of_machine_is_that_of_its_row() -> None:
    taken = question("machine/track").taken("small-combine")
    assert taken is not None
    assert [float(taken.spread.at(u)) for u in (0.1, 0.5, 0.9)] == pytest.approx(machine_kinds()["small-combine"].track)
    assert question("machine/track").taken(None) is None
    assert question("machine/lift-height").taken("small-combine") is None


def test_groups_and_whose() -> None:
    boxes = [one.id for one in in_group("walk-round") if one.box]
    assert {"walk-round/slope-along", "walk-round/jack-plate", "walk-round/timber-count", "header", "tank"} <= set(
        boxes
    )
    assert "walk-round" not in boxes
    assert whose("bolts/circle") == "design"
    assert whose("machine/track") == "machine"
    assert whose("hoist/plate") == "yard"
    assert whose("walk-round/ground") == "trouble"
    assert len([one for one in ROWS if one.id.startswith("leg-") and one.id.endswith("/length")]) == 4


@pytest.mark.parametrize(
    "row",
    [
        {"kind": "mass", "choices": ["a"]},
        {"kind": "weight"},
        {"choices": ["a"], "between": ["1", "2"]},
        {"kind": "mass", "give": "1 %"},
        {"kind": "mass", "between": ["1 t", "2 t"], "example": "5 t"},
        {"kind": "mass", "default": "heavy"},
        {"rows": "biscuits"},
        {"reads": "tea leaves"},
    ],
)
def test_a_row_that_cannot_stand_is_refused(row: dict[str, object]) -> None:
    whole = {"id": "a/b", "asks": "What?", "help": "So.", "example": "1 t", "of": "yard", "source": "test"}
    assert isinstance(Question.model_validate({**whole, "kind": "mass"}).read("1 t"), Exact)
    with pytest.raises((ValueError, NotRead)):
        Question.model_validate({**whole, **row})


def test_reading_gives_a_spread_for_numbers_and_text_for_words() -> None:
    for asked in ROWS:
        read = asked.read(asked.example)
        assert isinstance(read, str) != asked.number
        if not isinstance(read, str):
            found: Spread = read
            assert found.middle() == found.middle()


@pytest.mark.parametrize(
    "typed",
    [
        "9 t",
        "9 t ± 1 t",
        "about 9 t",
        "9 t ×/÷ 1.2",
        "8 to 10 t",
        "8 to 10 t, most often 9 t",
        "8 t (30 %) or 9 t (70 %)",
    ],
)
def test_how_far_a_spread_goes_holds_its_ends(typed: str) -> None:
    spread = question("machine/mass").read(typed)
    assert not isinstance(spread, str)
    low, high = reach(spread)
    ends = spread.ends()
    assert low <= ends[0] + 1e-6
    assert high >= ends[1] - 1e-6


def test_a_yard_is_read_without_a_heavy_library() -> None:
    """Whoever only looks at a corner need not wait for it."""
    code = "import sys; from axlewright.store import DEMO, at; at(DEMO).read(); print('scipy' in sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "False"


def test_a_slope_without_its_unit_is_asked_for_per_cent_or_degrees() -> None:
    with pytest.raises(NotRead) as no:
        question("walk-round/slope-along").read("3")
    assert no.value.choices == ("3 %", "3 °")
    per_cent, degrees = (question("walk-round/slope-along").read(text) for text in no.value.choices)
    assert per_cent.middle() == pytest.approx(math.atan(0.03))  # type: ignore[union-attr]
    assert degrees.middle() == pytest.approx(math.radians(3))  # type: ignore[union-attr]
