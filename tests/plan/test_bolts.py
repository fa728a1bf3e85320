"""Bolts reckoned: windows against the closed form, the book against physics, what stops and what is not known."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from axlewright.engines.joints import threads
from axlewright.engines.joints.window import torque_window
from axlewright.kinds import KINDS
from axlewright.plan.judge import judge_line
from axlewright.plan.reckon.bolt_table import bolt_table
from axlewright.plan.reckon.bolt_task import BoltTask, WrenchHeld
from axlewright.plan.reckon.book_torque import doubt, readings
from axlewright.plan.reckon.joints import Joint, joint
from axlewright.quantities import Basis, Exact, Normal, NotRead, Quantity, Spread, parse
from axlewright.trade import lubricants, steels, surfaces, tightening
from axlewright.trade.threads import parse_designation

AT = "tern/bolts"
LBF_FT = 1.3558179483314004


def q(kind: str, value: float | Spread, basis: Basis = "measured", typed: str = "") -> Quantity:
    spread = Exact(value) if isinstance(value, float) else value
    return Quantity(kind, KINDS[kind], spread, basis, "told for a trial", typed)


TASK = BoltTask(
    thread=parse_designation("M18"),
    bolts=10,
    head_mark="10.9",
    on_threads="anti-seize",
    turns=q("count", 12.0),
    housing="grey iron 250",
    circle=q("length", 0.335),
    fitted=(3, 8),
    book_torque=q("torque", 415.0, "book", "415 N·m"),
    clamp_needed=q("force", 65e3, "computed"),
    wrench=WrenchHeld(80.0, 400.0),
    reached=tuple(range(1, 11)),
)


def reckoned(count: int = 2048, seed: int = 11, **also: Any) -> Joint:
    return joint(replace(TASK, **also), AT, seed, count)


def word(made: Joint) -> str:
    return judge_line("JOINT", made.answers, made.margins).word


def test_windows_on_draws_are_those_of_the_closed_form() -> None:
    made = reckoned(count=60_000)
    t, grade, head = TASK.thread, steels.grade_at("10.9", TASK.thread.diameter), surfaces.head_of(TASK.thread.diameter)
    for one in made.windows:
        found = torque_window(
            65e3, grade.yields, grade.tensile, one.threads.nut_factor, one.threads.log_sd,
            tightening.wrenches()["checked"].error, 0.05, t.diameter, t.pitch, threads.pitch_diameter(t.diameter, t.pitch),
            threads.circle_area(t.stress_diameter), t.stress_diameter, (head.face + head.hole) / 2,
        )  # fmt: skip
        assert one.low == pytest.approx(float(found.low), rel=0.01)
        assert one.may_break == pytest.approx(float(found.may_break), rel=0.01)
        if not one.strips_first:
            assert one.high == pytest.approx(float(found.high), rel=0.01)


def test_the_setting_keeps_its_promise_on_other_draws() -> None:
    made = reckoned()
    again = joint(replace(TASK, book_torque=None), AT, 99, 60_000)
    assert made.setting is not None
    bolt = made.setting * again["wrench-factor"].draws
    per_newton = again["on/anti-seize/keeps-at-bolt"].draws / 65e3
    preload = bolt / per_newton
    assert np.mean(preload < 65e3) < 0.05
    assert np.mean(preload > again["yields"].draws) < 0.05
    assert np.mean(preload > again["strips"].draws) < 0.05


def test_greased_bolts_get_less_than_the_book() -> None:
    made = reckoned()
    assert made.setting is not None
    assert made.setting < 415
    assert not made.by_book
    assert made.setting % TASK.mark == 0
    lows = [one.low for one in made.windows]
    assert lows == sorted(lows)  # the more slippery, the less torque for the same clamp
    assert [one.threads.id for one in made.windows] == [s.id for s in lubricants.conditions().values() if s.usual]


def test_the_book_wins_where_it_holds() -> None:
    made = reckoned(on_threads="as-received")
    assert made.by_book
    assert made.setting == pytest.approx(415)
    assert [round(float(p.torque)) for p in made.passes] == [120, 245, 415, 415]


def test_the_book_is_asked_where_it_means_this_grease_and_hurts() -> None:
    made = reckoned(on_threads="as-received", book_torque=q("torque", 560.0, "book", "560 N·m"))
    assert made.asks_book
    assert made.setting is None
    assert not made.passes
    assert word(made) == "not known"


def test_a_book_below_the_window_still_wins_and_the_slip_is_judged() -> None:
    made = reckoned(on_threads="as-received", book_torque=q("torque", 250.0, "book", "250 N·m"))
    assert made.by_book
    slip = next(m for m in made.margins if m.what == "slip")
    assert slip.at(0.05) < 1


def test_without_a_clamp_the_books_own_slackest_bolt_is_the_aim() -> None:
    made = reckoned(clamp_needed=None)
    own = next(one for one in made.windows if one.threads.id == "as-received")
    assert own.low == pytest.approx(415, rel=1e-9)  # at the book's torque, as the book means it, its slackest keeps it
    assert made.setting is not None
    verdict = judge_line("JOINT", made.answers, made.margins)
    assert (verdict.word, verdict.unworked) == ("not known", ("slip",))


def test_neither_clamp_nor_book_is_nothing_to_aim_at() -> None:
    made = reckoned(clamp_needed=None, book_torque=None)
    assert made.setting is None
    assert made.answers["torque-from"] == "unknown"
    assert all(one.low is None for one in made.windows)


@pytest.mark.parametrize(
    ("also", "verdict"),
    [
        ({}, "only if"),
        ({"clamp_needed": q("force", 30e3)}, "yes"),
        ({"clamp_needed": q("force", 140e3)}, "no"),  # no window
        ({"head_mark": ""}, "not known"),
        ({"on_threads": ""}, "not known"),
        ({"on_threads": "rust"}, "no"),
        ({"turns": q("count", 7.0)}, "no"),  # the housing thread goes before the bolt
        ({"turns": None}, "not known"),
        ({"housing": "unknown"}, "not known"),
        ({"wrench": WrenchHeld(20.0, 100.0)}, "no"),
        ({"wrench": WrenchHeld(80.0, 400.0, checked=False)}, "no"),
        ({"wrench": None}, "not known"),
        ({"reached": tuple(range(1, 9)), "clamp_needed": q("force", 30e3)}, "only if"),
        ({"reached": None}, "not known"),
        ({"hole": parse_designation("M18")}, "only if"),
        ({"hole": parse_designation("3/4-10")}, "no"),
        ({"hole": parse_designation("M18x1.5")}, "no"),
        ({"answers": {"set": "set-not-replaced"}}, "no"),
        ({"answers": {"feeler": "enters"}}, "no"),
        ({"fitted": (), "located_by": ""}, "not known"),
        ({"fitted": (), "located_by": "neither"}, "only if"),
    ],
    ids=lambda x: ",".join(x) if isinstance(x, dict) else x,
)
def test_the_word_for_the_joint(also: dict[str, Any], verdict: str) -> None:
    assert word(reckoned(**also)) == verdict


def test_an_inch_bolt_in_a_metric_hole_stops() -> None:
    made = reckoned(
        thread=parse_designation("3/4-10"), head_mark="6 lines", hole=parse_designation("M20"), turns=q("count", 14.0)
    )
    assert made.answers["bolt-in-hole"] == "inch-in-metric"
    assert word(made) == "no"


def test_an_empty_window_has_no_setting_no_passes_no_slip() -> None:
    made = reckoned(clamp_needed=q("force", 140e3))
    assert made.used is not None
    assert made.used.empty
    assert made.setting is None
    assert not made.passes
    assert "slip" not in {m.what for m in made.margins}
    assert "preload" not in made


def test_a_window_between_two_marks_is_none_for_that_wrench() -> None:
    made = reckoned()
    assert made.used is not None
    assert made.used.low is not None
    coarse = reckoned(wrench=WrenchHeld(80.0, 400.0, mark=400.0))
    assert coarse.setting is None
    assert coarse.answers["torque-window"] == "none"


def test_what_nobody_looked_at_is_never_a_stop_by_itself() -> None:
    made = reckoned(turns=None, housing="unknown", clamp_needed=q("force", 95e3))
    assert made.used is not None
    assert made.used.strips_first
    assert made.setting is None
    assert "torque-window" not in made.answers  # asked, not denied


def test_grease_on_the_threads_alone_lies_between() -> None:
    both, none = reckoned(on_threads="anti-seize"), reckoned(on_threads="used-dry")
    split = reckoned(on_threads="anti-seize", on_heads="used-dry")
    assert both.used
    assert none.used
    assert split.used
    assert both.used.low < split.used.low < none.used.low  # type: ignore[operator]
    assert split.used not in split.windows


def test_more_clamp_never_lowers_a_low_edge_and_more_turns_never_lowers_a_high_one() -> None:
    less, more = (
        reckoned(clamp_needed=q("force", Normal(50e3, 2e3))),
        reckoned(clamp_needed=q("force", Normal(70e3, 2e3))),
    )
    for one, other in zip(less.windows, more.windows, strict=True):
        assert one.low < other.low  # type: ignore[operator]
        assert one.high == other.high
    few, many = reckoned(turns=q("count", 6.0)), reckoned(turns=q("count", 12.0))
    for one, other in zip(few.windows, many.windows, strict=True):
        assert one.high <= other.high
    assert any(one.strips_first for one in few.windows)


def test_a_wrench_in_pounds_and_feet_is_set_on_its_own_marks() -> None:
    made = reckoned(wrench=WrenchHeld(60 * LBF_FT, 300 * LBF_FT, 5 * LBF_FT, "lbf·ft"))
    assert made.setting is not None
    marks = made.setting / (5 * LBF_FT)
    assert marks == pytest.approx(round(marks))


def test_the_same_seed_gives_the_same_numbers_and_more_draws_nearly_so() -> None:
    assert [one.high for one in reckoned().windows] == [one.high for one in reckoned().windows]
    for one, other in zip(reckoned().windows, reckoned(count=20_000, seed=5).windows, strict=True):
        assert one.high == pytest.approx(other.high, rel=0.03)


def test_a_typed_number_is_held_against_every_unit_it_is_mistaken_for() -> None:
    task = replace(TASK, book_torque=q("torque", 415 * LBF_FT, "book", "415 lbf·ft"))
    by_unit = {one.unit: one for one in readings(task)}
    assert by_unit["lbf·ft"].typed
    assert not by_unit["lbf·ft"].sensible
    assert by_unit["N·m"].sensible
    assert by_unit["N·m"].torque == pytest.approx(415)
    assert "is it N·m" in doubt(task)
    assert doubt(TASK) == ""
    # K 0.20 of bolts as received: preload over proof of M18 10.9, by hand
    assert by_unit["N·m"].of_proof == pytest.approx(415 / (0.20 * 0.018) / (830e6 * 192.5e-6), rel=2e-3)


def test_a_torque_past_the_tensile_load_is_not_taken() -> None:
    made = reckoned(book_torque=q("torque", parse("750 lbf·ft", "torque").si, "book", "750 lbf·ft"))
    assert made.asks_book
    assert made.setting is None
    assert "more than the bolt bears" in doubt(made.task)


@pytest.mark.parametrize("also", [{"head_mark": "seven dots"}, {"on_threads": "jam"}, {"housing": "cheese"}], ids=str)
def test_what_nobody_knows_is_said_with_what_to_type(also: dict[str, str]) -> None:
    with pytest.raises(NotRead, match="cannot be read as what"):
        reckoned(**also)


@pytest.mark.parametrize(
    ("also", "says"),
    [
        ({"bolts": 0}, "from 1 to 200"),
        ({"fitted": (3, 11)}, "from 1 to 10"),
        ({"fitted": (3, 3)}, "each once"),
        ({"book_torque": q("torque", 0.0, "book")}, "more than nothing"),
        ({"clamp_needed": q("force", -5.0)}, "more than nothing"),
    ],
)
def test_what_cannot_be_is_refused_with_what_is_right(also: dict[str, Any], says: str) -> None:
    with pytest.raises(NotRead, match=says):
        reckoned(**also)


@pytest.mark.parametrize("turns", [0.0, 0.5, 300.0])
def test_few_or_many_turns_are_reckoned_through(turns: float) -> None:
    made = reckoned(turns=q("count", turns))
    assert (made.setting is None) == (turns < 1)
    if turns < 1:
        assert word(made) == "no"


def test_every_number_has_a_source_down_to_what_was_told() -> None:
    made = reckoned()
    for name, got in made.w.got.items():
        assert got.source, name
        assert got.basis != "computed" or got.made_of or name in made.w.quantities, name
        for part in got.made_of:
            assert part in made.w, (name, part)


def test_the_printed_table_is_the_closed_form_and_rises_with_size_and_mark() -> None:
    table = bolt_table()
    highest = {
        (line.thread.designation, line.grade.id): [table.w[n].middle() for n in line.highest] for line in table.lines
    }
    for row in highest.values():
        assert row == sorted(row)
    assert highest["M20 × 2.5", "10.9"][0] > highest["M20 × 2.5", "8.8"][0]
    assert highest["M24 × 3", "8.8"][0] > highest["M22 × 2.5", "8.8"][0]
    made = joint(replace(TASK, turns=q("count", 40.0)), AT, 3, 60_000)
    for state, high in zip(table.states, highest["M18 × 2.5", "10.9"], strict=True):
        on_draws = next(one for one in made.windows if one.threads == state)
        assert on_draws.high == pytest.approx(high, rel=0.01)
    factors = [table.w[name].middle() for name in table.factors]
    assert 1.0 in factors
    assert factors[0] == pytest.approx(0.11 / 0.20)
