"""Printed bands, the jack gauge, after-checks on the clock and the kit."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from math import inf, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.plan.steps import afterwards, bands
from axlewright.plan.steps.jobs import Here, job, plan
from axlewright.plan.steps.kit import Have, kit
from axlewright.trade.steps_read import steps

ROWS = steps()
CAREFUL = {"go on": 0, "ask": 1, "now": 2}


@given(
    st.integers(0, 400), st.integers(0, 400), st.integers(0, 400), st.integers(0, 400),
    st.sampled_from([0.05, 0.125, 0.5, 1.0, 5.0, 10.0]), st.integers(0, 5000),
)  # fmt: skip
def test_cut_to_marks_never_lets_more_through(a: int, b: int, c: int, d: int, mark: float, at: int) -> None:
    low_ask, low, high, high_ask = (x / 7 for x in sorted((a, b, c, d)))
    band = bands.cut(bands.Edges((low, high), (low_ask, high_ask)), "mm", mark)
    reading = at * mark / 4
    true = "go on" if low <= reading <= high else "ask" if low_ask <= reading <= high_ask else "now"
    if all(abs(reading - e) > 1e-6 for e in (low, high, low_ask, high_ask)):
        assert CAREFUL[band.says(reading)] >= CAREFUL[true]


@given(st.integers(-50, 50), st.sampled_from([0.05, 0.1, 0.125, 0.5]))
def test_a_whole_mark_is_not_lost_to_binary(marks: int, mark: float) -> None:
    edge = float(Fraction(str(mark)) * marks)
    band = bands.cut(bands.Edges((edge, edge), (edge, edge)), "mm", mark)
    assert band.go == (marks, marks)
    assert band.says(edge) == "go on"
    assert band.value(marks) == edge


def test_bands_of_numbers_say_what_their_rows_say() -> None:
    """Readings on either side of every edge of the rows, as the note prints them (docs/engines/steps.md)."""
    says = {
        "slope-cross": [(2, "go on"), (2.5, "ask"), (3, "ask"), (3.5, "now")],
        "jack-lean": [(1.5, "go on"), (2, "ask"), (3.5, "now")],
        "crib-settle": [(2, "go on"), (3, "ask"), (5, "ask"), (6, "now")],
        "ns-feeler": [(0, "go on"), (0.05, "ask"), (0.10, "ask"), (0.15, "now")],
        "fm-pull": [(0.1, "go on"), (0.3, "ask"), (0.6, "now")],
        "fl-loose": [(0, "go on"), (1, "now")],
        "ns-moved": [(0, "go on"), (1, "ask"), (9, "ask")],
        "bn-runout": [(0.13, "go on"), (0.14, "ask"), (0.26, "now")],
    }
    for reading, cases in says.items():
        row = ROWS.band[reading]
        band = bands.printed(row, {}, {})
        assert [(v, bands.said(row, band, v)) for v, _ in cases] == cases


def test_bands_that_are_parts_of_a_figure() -> None:
    row = ROWS.band["fi-litres"]
    band = bands.printed(row, {"fill": (8.0, 8.0)}, {})
    assert band
    assert [band.says(v) for v in (7.5, 7.6, 8.4, 8.5, 6.8, 9.2, 6.7, 9.3)] == [
        "ask",
        "go on",
        "go on",
        "ask",
        "ask",
        "ask",
        "now",
        "now",
    ]
    turns = bands.printed(ROWS.band["cl-turns"], {"engagement": (9.2, 9.2)}, {})
    assert turns
    assert turns.go == (10, None)
    assert [turns.says(v) for v in (10, 9, 7, 6)] == ["go on", "ask", "ask", "now"]
    torque = bands.printed(ROWS.band["ns-torque"], {"torque-window": (412, 447)}, {}, mark=10)
    assert torque
    assert torque.go == (42, 44)


def test_a_band_that_nobody_worked_out_never_says_go_on() -> None:
    for band in ROWS.bands:
        if band.of or band.by:
            assert bands.printed(band, {}, {}) is None
            assert bands.said(band, None, 1.0) == "ask"


def test_words_that_are_no_grade_are_asked_about() -> None:
    row = ROWS.band["rl-feel"]
    assert [bands.said(row, None, w) for w in (" Smooth", "rough", "grinds", "fine")] == ["go on", "ask", "now", "ask"]


@given(
    st.floats(1e3, 2e5),
    st.floats(1, 2),
    st.floats(0.5, 2),
    st.floats(1e-3, 1e-2),
    st.sampled_from([5e5, 1e6, 50 * 6894.757293]),
)
def test_the_gauge_never_goes_on_over_what_holds(
    low: float, spread: float, room: float, area: float, mark: float
) -> None:
    careful, least = low * spread, low * spread * room
    try:
        from_, to, above = bands.gauge_band(low, careful, least, area, mark)
    except bands.NoBand:
        assert (
            careful > least
            or int(0.9 * least / area / mark) < low / area / mark
            or int(careful / area / mark) < low / area / mark
        )
        return
    assert from_ * mark * area >= low * (1 - 1e-6)
    assert to * mark * area <= min(careful, 0.9 * least) * (1 + 1e-6)
    assert above * mark * area <= least * (1 + 1e-6)
    assert from_ <= to <= above


def test_a_rise_alone_shows_the_friction_of_the_jack_too() -> None:
    area = pi / 4 * 0.07**2
    mean = bands.gauge_band(40e3, 50e3, 80e3, area, 5e5)
    rise = bands.gauge_band(40e3, 50e3, 80e3, area, 5e5, friction=1.07)
    assert mean == (21, 25, 41)
    assert rise == (21, 27, 41)  # 53.5 kN on 3,848 mm2 are 139 bar: 27 marks of 5 bar


@pytest.mark.parametrize(
    ("low", "careful", "least"), [(40e3, 90e3, 80e3), (0.0, 50e3, 80e3), (60e3, 50e3, 80e3), (float("nan"), 5e4, 8e4)]
)
def test_no_band_where_none_is_safe(low: float, careful: float, least: float) -> None:
    with pytest.raises(bands.NoBand):
        bands.gauge_band(low, careful, least, 3.8e-3, 5e5)


def test_after_checks_of_a_job() -> None:
    def ids(course: str, **how: object) -> set[str]:
        here = Here(**how)  # type: ignore[arg-type]
        return {c.id for c in afterwards.brought(ROWS, plan(ROWS, course, here).now, ROWS.course[course].incoming)}

    braked = frozenset({"brake-at-drive"})
    swap = {"wheel-nuts", "flange-bolts", "joint-and-lip", "level", "hub-heat", "coupling"}
    assert ids("fit a spare") == swap
    assert ids("fit a spare", when=braked) == swap | {"pedal"}
    assert ids("fit a used drive") == swap | {"plug", "raised-look", "oil"}
    assert "coupling" not in ids("fit a spare", drive="planetary-apart")
    assert ids("reseal", by="machine") == {"wheel-nuts", "joint-and-lip", "level", "hub-heat"}
    assert ids("park") == {"hub-heat"}


def test_due_on_both_clocks_is_never_late() -> None:
    nuts = next(c for c in ROWS.after_checks if c.id == "wheel-nuts")
    down, second = 4102.8, 2890.6
    for h, engine, other in zip(
        nuts.hours, afterwards.due(nuts, down), afterwards.on_second_clock(nuts, down, second, 1.5), strict=True
    ):
        assert down + h - 1 < engine <= down + h
        assert second < other <= second + h / 1.3


def test_two_still() -> None:
    nuts = next(c for c in ROWS.after_checks if c.id == "wheel-nuts")
    look = afterwards.Looked

    def after(*done: tuple[float, bool]) -> afterwards.Next:
        return afterwards.two_still(ROWS.rules, nuts, 500.0, [look(*d) for d in done])

    assert after() == afterwards.Next(501)
    assert after((501, False)) == afterwards.Next(510)
    assert after((501, True)) == afterwards.Next(502)
    assert after((501.2, True)) == afterwards.Next(503)
    assert after((501, True), (502, False)) == afterwards.Next(512)
    assert after((501, True), (502, True)) == afterwards.Next(503)
    assert after((501, True), (502, False), (512, False)) == afterwards.Next(550)
    assert after((501, False), (510, True)) == afterwards.Next(511)
    assert after((501, False), (510, False), (550, True)) == afterwards.Next(None, wheel_off=True)
    assert after((501, False), (510, False), (550, False), (800, False)) == afterwards.Next(1050)


def test_kit_of_a_swap() -> None:
    here = Here(when=frozenset({"brake-at-drive"}))
    jobs = plan(ROWS, "fit a spare", here).now
    everything = {g for j in jobs for s in j.steps for g in (*s.task.gear, *s.task.parts)}
    comes = {"flange-bolts": date(2027, 5, 4), "drive-oil": date(2027, 5, 2)}
    got = kit(ROWS, jobs, Have(frozenset({"chalk", "jack"}), frozenset({"chaser"}), comes))
    assert {n.id for n in got.needs} == everything
    assert len(got.needs) == len(everything)
    assert got.hands == 2
    assert {n.id for n in got.of_state("owned")} == {"chalk", "jack"}
    assert [n.id for n in got.missing()] == ["chaser", "drive-oil", "flange-bolts"]
    assert got.complete_on is None
    assert len(got.of_state("not said")) == len(everything) - 5
    assert kit(ROWS, jobs, Have(comes=comes)).complete_on == date(2027, 5, 4)
    assert kit(ROWS, jobs, Have()).complete_on is None


def test_gear_of_a_trouble_stands_on_the_near_list_alone() -> None:
    got = kit(ROWS, [job(ROWS, "swap", Here())], Have())
    near = {n.id: n for n in got.near}
    assert "insert-kit" in near
    assert (
        near["insert-kit"].trouble == "stripped thread: insert or solid bush"
    )  # 0.1, not the 0.04 of a thread that strips later
    assert not set(near) & {n.id for n in got.needs}
    assert [n.chance for n in got.near] == sorted((n.chance for n in got.near), reverse=True)


def test_edges_without_an_end_stay_so() -> None:
    band = bands.cut(bands.Edges((3, inf), (1, inf)), "turns", 1)
    assert (band.go, band.ask) == ((3, None), (1, None))
