"""Rows of bolts: designations, head marks, friction, metals; each with a source, in order, and forgiving to type."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from axlewright.engines.joints import threads as geometry
from axlewright.quantities.units import NotRead
from axlewright.trade import irons, lubricants, steels, surfaces, tightening
from axlewright.trade.threads import look_alikes, parse_designation, runs_into, series

MM, INCH = 1e-3, 0.0254


@pytest.mark.parametrize(
    ("typed", "size", "pitch", "name"),
    [
        ("M20 × 1,5-6g", 20 * MM, 1.5 * MM, "M20 × 1.5"),
        ("M 12", 12 * MM, 1.75 * MM, "M12 × 1.75"),
        ("M22*1.5", 22 * MM, 1.5 * MM, "M22 × 1.5"),
        ("M16 6g LH", 16 * MM, 2 * MM, "M16 × 2"),
        ('7/8"-9', 0.875 * INCH, INCH / 9, "7/8-9 UNC"),
        ("1-1/8-7", 1.125 * INCH, INCH / 7, "1 1/8-7 UNC"),
        ("1 - 12 UNF", INCH, INCH / 12, "1-12 UNF"),
        ("1-14", INCH, INCH / 14, "1-14 UNS"),
        ("5/8-11 NC", 0.625 * INCH, INCH / 11, "5/8-11 UNC"),
    ],
)
def test_what_people_type(typed: str, size: float, pitch: float, name: str) -> None:
    found = parse_designation(typed)
    assert (found.diameter, found.pitch) == pytest.approx((size, pitch))
    assert found.designation == name
    assert not found.doubt


def test_an_inch_size_alone_is_asked_with_its_threads() -> None:
    with pytest.raises(NotRead, match="count the threads") as bad:
        parse_designation("3/4")
    assert {"3/4-10", "3/4-16"} <= set(bad.value.choices)
    with pytest.raises(NotRead, match="metric or inch"):
        parse_designation("20")


written = st.text(alphabet='M0123456789/-.,x× UNCF"', max_size=14)


@settings(max_examples=200)
@given(st.one_of(written, st.text(max_size=20)))
@example("0/0")
@example("M1,2,3")
@example("3/4-1/0")
@example("M٣")
def test_any_text_is_read_or_refused_never_more(typed: str) -> None:
    try:
        found = parse_designation(typed)
    except NotRead:
        return
    assert 0 < found.pitch <= found.diameter / 3


def test_a_doubt_is_said_where_a_pair_is_in_no_table() -> None:
    assert "count the threads" in parse_designation("3/4-11").doubt
    assert "UNC, not UNF" in parse_designation("3/4-10 UNF").doubt
    assert "measure the pitch" in parse_designation("M20x1.25").doubt


def test_every_standard_thread_reads_back() -> None:
    for row in series():
        for (size, count), (diameter, pitch) in zip(row.pairs, row.sizes(), strict=True):
            typed = f"{size}-{count:g} {row.id}" if row.system == "inch" else f"M{size}x{count:g}"
            found = parse_designation(typed)
            assert (found.diameter, found.pitch) == pytest.approx((diameter, pitch))
            assert not found.doubt, typed
            limits = found.limits()
            assert limits.nut_minor_greatest < limits.bolt_pitch_least < limits.nut_pitch_greatest < found.diameter


def test_the_inch_bolt_that_starts_in_the_metric_hole() -> None:
    bolt, hole = parse_designation("3/4-10"), parse_designation("M20")
    assert runs_into(bolt, hole)
    assert runs_into(hole, bolt)
    assert not runs_into(parse_designation("M20x1.5"), hole)
    assert not runs_into(parse_designation("3/4-16"), hole)
    # it catches half to two thirds of the flanks' depth (computed from the basic sizes)
    depth = (bolt.diameter - geometry.nut_minor_diameter(hole.diameter, hole.pitch)) / 2
    full = (hole.diameter - geometry.nut_minor_diameter(hole.diameter, hole.pitch)) / 2
    assert 0.5 < depth / full < 0.68
    assert "M20 × 1.5" in {t.designation for t in look_alikes(hole)}


@pytest.mark.parametrize(
    ("mark", "thread", "grade"),
    [
        ("6 lines", "3/4-10", "8"), ("three lines", "3/4-10", "5"), ("No mark", "3/4-10", "2"), ("grade 8", "3/4-10", "8"),
        ("10.9", "M20", "10.9"), ("class 8.8", "M20", "8.8"), ("plain", "M20", "4.6"), ("a325", "1-8", "A325"), ("5", "1-8", "5"),
    ],
)  # fmt: skip
def test_head_marks(mark: str, thread: str, grade: str) -> None:
    found, says = steels.read_head_mark(mark, parse_designation(thread))
    assert found.id == grade
    assert bool(says) == (grade in {"2", "4.6"})  # a grade that had to be taken is said


@pytest.mark.parametrize(
    ("mark", "thread", "says"),
    [
        ("9.8", "M18", "no 9.8 above 16 mm"),
        ("8", "M20", "mark of inch bolts"),
        ("10.9", "3/4-10", "mark of metric bolts"),
        ("7 stars", "3/4-10", "no grade of that name"),
        ("5.2", "1 1/8-7", "above 1 in"),
    ],
)
def test_head_marks_that_cannot_be(mark: str, thread: str, says: str) -> None:
    with pytest.raises(NotRead, match=says):
        steels.read_head_mark(mark, parse_designation(thread))


def test_strength_by_size() -> None:
    # SAE J429 and ISO 898-1: both class 8.8 and grade 5 change strength with size
    assert steels.grade_at("8.8", 0.016).yields == pytest.approx(640e6)
    assert steels.grade_at("8.8", 0.0161).yields == pytest.approx(660e6)
    assert steels.grade_at("5", INCH).tensile > steels.grade_at("5", 1.125 * INCH).tensile
    for row in steels.grades():
        assert row.proof < row.yields < row.tensile
        assert 0.55 <= row.shear <= 0.7


def test_friction_rows_stand_from_slippery_to_rough_and_span_what_was_published() -> None:
    rows = list(lubricants.conditions().values())
    middles = [row.nut_factor for row in rows]
    assert middles == sorted(middles)
    # 5 to 95 in a hundred as printed in docs/engines/joints.md
    ends = {"as-received": (0.16, 0.25), "anti-seize": (0.11, 0.18), "moly-paste": (0.083, 0.146), "rust": (0.15, 0.48)}
    for name, printed in ends.items():
        row = lubricants.conditions()[name]
        found = tuple(row.nut_factor * math.exp(sign * 1.6449 * row.log_sd) for sign in (-1, 1))
        assert found == pytest.approx(printed, abs=0.006)
    assert [row.id for row in rows if row.clean_first] == ["rust"]
    assert lubricants.condition("Copper grease").id == "anti-seize"
    with pytest.raises(NotRead, match="no such state"):
        lubricants.condition("olive oil")
    split = lubricants.scatter()
    assert math.hypot(split.job, split.bolt) == pytest.approx(1.0)


def test_metals() -> None:
    assert irons.iron("EN-GJL-250").id == "grey-250"
    assert irons.iron("unknown").tensile_low == pytest.approx(170e6)
    with pytest.raises(NotRead):
        irons.iron("cheese")
    for row in irons.irons().values():
        assert row.source
        assert row.pressure >= 200e6


def test_heads_without_a_row_follow_the_rule_of_those_with_one() -> None:
    rule = surfaces.head_rule()
    for row in surfaces.heads():
        mean = (row.face + row.hole) / 2 / row.size
        assert mean == pytest.approx((rule.face + rule.hole) / 2, abs=0.02)
    assert surfaces.head_of(0.022).known == "assumed"
    assert surfaces.head_of(0.020).known == "read"


def test_rows_of_tightening_hang_together() -> None:
    shares = [row.share for row in tightening.pass_shares()]
    assert shares == sorted(shares)
    assert shares[-2:] == [1.0, 1.0]
    factors = [(row.low, row.high) for row in tightening.methods().values()]
    assert all(low < high for low, high in factors)
    assert factors == sorted(factors)
    assert set(tightening.locks()) == {"plain", "compound", "tab", "cotter", "prevailing"}
    assert tightening.wrenches()["checked"].error < tightening.wrench_use().doubt_limit
    assert [seconds / 3600 for seconds in tightening.again().hours] == [1, 10, 50]
