"""Workings: draws by name, kinds kept apart, the trace made by the call, measured before computed, what if."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Literal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.engines.limits import OutOfRange, within
from axlewright.kinds import KINDS, Force, Length, Mass, Share, Torque, YesNo
from axlewright.plan.margins import Margin
from axlewright.plan.workings import Memo, Refused, Thing, Workings, held_at
from axlewright.quantities import Basis, Exact, LogNormal, Normal, Quantity, Samples, Spread, Uniform, rank_correlation

CALLS: list[str] = []


def preload(torque: Torque, diameter: Length, nut_factor: Share) -> Force:
    """Preload that a torque gives.

    Args:
        torque: torque [N m]
        diameter: diameter [m]
        nut_factor: nut factor [-]

    Returns:
        preload [N]

    Source: T = K F d.
    Valid: nut factor 0.03 to 0.6.
    """
    CALLS.append("preload")
    within("nut_factor", nut_factor, 0.03, 0.6)
    return torque / (nut_factor * diameter)


@dataclass(frozen=True, slots=True)
class Body:
    """A body.

    Attributes:
        mass: its mass [kg]
        ahead: of the axle [m]
    """

    mass: Mass
    ahead: Length


@dataclass(frozen=True, slots=True)
class Loads:
    """Loads of two axles.

    Attributes:
        front: front [N]
        rear: rear [N]
        stands: neither lifts [-]
    """

    front: Force
    rear: Force
    stands: YesNo


def joined(bodies: tuple[Body, ...]) -> Body:
    """Several bodies as one.

    Args:
        bodies: the bodies

    Returns:
        mass: of all [kg]
        ahead: of the axle [m]

    Source: moments.
    Valid: always.
    """
    mass = sum((np.asarray(b.mass) for b in bodies), np.zeros(1))
    return Body(mass, sum((b.mass * b.ahead for b in bodies), np.zeros(1)) / mass)


def axle_loads(body: Body, wheelbase: Length) -> Loads:
    """Loads of two axles.

    Args:
        body: the machine
        wheelbase: front to rear [m]

    Returns:
        loads of both

    Source: moments.
    Valid: wheelbase above 0.
    """
    within("wheelbase", wheelbase, 0.1)
    CALLS.append("axle_loads")
    rear = 9.81 * body.mass * body.ahead / wheelbase
    return Loads(9.81 * body.mass - rear, rear, rear >= 0)


def longer(length: Length, way: Literal["left", "right"], number: int, wet: YesNo, factor: Share = 2.0) -> Length:
    """A length, longer.

    Args:
        length: length [m]
        way: to the left or right
        number: how often [1]
        wet: it rained [-]
        factor: how much longer [-]

    Returns:
        length [m]

    Source: none.
    Valid: always.
    """
    return length * factor * number * (1 if way == "left" else -1) * (1 if wet else 10)


def nothing(length: Length) -> Length:
    """A bug.

    Args:
        length: length [m]

    Returns:
        no number [m]

    Source: none.
    Valid: never.
    """
    return length * np.nan


def quantity(name: str, kind: str, spread: Spread, basis: Basis = "assumed") -> Quantity:
    return Quantity(name, KINDS[kind], spread, basis, f"source of {name}")


BOLT = (
    quantity("bolts/torque", "torque", Normal(390, 8), "measured"),
    quantity("bolts/diameter", "length", Exact(0.02), "book"),
    quantity("bolts/nut-factor", "share", LogNormal(0.14, 0.15)),
)
TAKES = {"torque": "bolts/torque", "diameter": "bolts/diameter", "nut_factor": "bolts/nut-factor"}


def workings(*quantities: Quantity, count: int = 512, **more: object) -> Workings:
    return Workings({q.name: q for q in quantities}, 7, count, **more)  # type: ignore[arg-type]


def test_the_trace_is_made_by_the_call() -> None:
    w = workings(*BOLT)
    got = w.work_out("bolts/preload", preload, **TAKES)
    drawn = [w[name].draws for name in TAKES.values()]
    np.testing.assert_array_equal(got.draws, drawn[0] / (drawn[2] * drawn[1]))
    assert (got.kind, got.basis, got.source) == (KINDS["force"], "computed", "T = K F d.")
    assert got.made_of == tuple(TAKES.values())
    assert got.ends()[0] <= got.middle() <= got.ends()[1]
    assert w["bolts/torque"].basis == "measured"
    assert w["bolts/preload"] is got


def test_a_new_quantity_moves_no_other_and_more_draws_begin_alike() -> None:
    few, many = workings(*BOLT), workings(quantity("a/new", "mass", Uniform(1, 2)), *BOLT, count=2048)
    many["a/new"]
    for name in TAKES.values():
        np.testing.assert_array_equal(few[name].draws, many[name].draws[:512])


def test_a_wrong_kind_is_a_mistake_of_the_program() -> None:
    w = workings(*BOLT)
    with pytest.raises(TypeError, match="torque wants a torque, bolts/diameter is a length"):
        w.work_out("x", preload, torque="bolts/diameter", diameter="bolts/diameter", nut_factor="bolts/nut-factor")
    with pytest.raises(TypeError, match="nut_factor, which was not given"):
        w.work_out("x", preload, torque="bolts/torque", diameter="bolts/diameter")
    with pytest.raises(TypeError, match="takes no grease"):
        w.work_out("x", preload, **TAKES, grease="bolts/nut-factor")
    with pytest.raises(KeyError, match="bolts/pitch"):
        w["bolts/pitch"]
    with pytest.raises(FloatingPointError, match="gave a number that is none"):
        w.work_out("x", nothing, length="bolts/diameter")


def test_out_of_range_names_the_input_and_all_that_hangs_on_it_is_refused_too() -> None:
    w = workings(*BOLT[:2], quantity("bolts/nut-factor", "share", Uniform(0.5, 0.7)))
    with pytest.raises(
        Refused, match=r"bolts/nut-factor is 0\.\d+ in \d+\.\d% of the draws; it must be 0.03 to 0.6"
    ) as no:
        w.work_out("bolts/preload", preload, **TAKES)
    assert (no.value.name, no.value.at) == ("bolts/preload", "bolts/nut-factor")
    assert isinstance(no.value.bad, OutOfRange)
    with pytest.raises(Refused, match="nut-factor"):
        w["bolts/preload"]
    with pytest.raises(Refused, match="nut-factor"):
        w["bolts/preload.least"]


def test_what_is_measured_wins_and_the_computed_stays_beside() -> None:
    gauge = quantity("bolts/preload", "force", Normal(120e3, 3e3), "measured")
    w = workings(*BOLT, gauge)
    got = w.work_out("bolts/preload", preload, **TAKES)
    assert got.basis == "measured"
    assert w["bolts/preload"] is got
    np.testing.assert_array_equal(got.draws, workings(gauge)["bolts/preload"].draws)
    assert got.beside is not None
    assert got.beside.basis == "computed"
    np.testing.assert_array_equal(got.beside.draws, workings(*BOLT).work_out("bolts/preload", preload, **TAKES).draws)
    # it needs no working out
    broken = quantity("bolts/nut-factor", "share", Exact(0.9))
    assert w.what_if(broken).work_out("bolts/preload", preload, **TAKES).basis == "measured"
    with pytest.raises(TypeError, match="measured as a mass"):
        workings(*BOLT, quantity("bolts/preload", "mass", Exact(1))).work_out("bolts/preload", preload, **TAKES)


MACHINE = (
    quantity("machine.mass", "mass", Normal(12_000, 300)),
    quantity("machine.ahead", "length", Normal(1.2, 0.05)),
    quantity("wheelbase", "length", Exact(3.8)),
)


def test_a_result_with_fields_is_kept_field_by_field_and_whole() -> None:
    w = workings(*MACHINE)
    whole = w.work_out("loads", axle_loads, body="machine", wheelbase="wheelbase")
    assert isinstance(whole.draws, Loads)
    assert whole.kind.name == "loads"
    np.testing.assert_allclose(w["loads.front"].draws + w["loads.rear"].draws, 9.81 * w["machine.mass"].draws)
    assert w["loads.stands"].draws.dtype == bool
    assert w["loads.rear"].kind is KINDS["force"]
    assert {f"loads.{f.name}" for f in fields(Loads)} <= set(w.got)
    assert len({g.key for g in w.got.values()}) == len(w.got)


def test_a_field_that_was_measured_stands_in_the_whole_too() -> None:
    two = workings(
        *[
            quantity(f"parts.{i}.{n}", k, s)
            for i in (1, 2)
            for n, k, s in (("mass", "mass", Exact(1000.0 * i)), ("ahead", "length", Exact(0.5 * i)))
        ],
        quantity("all.mass", "mass", Exact(3300.0), "measured"),
        MACHINE[2],
    )
    whole = two.work_out("all", joined, bodies="parts")
    assert whole.draws.ahead == pytest.approx(2500 / 3000)
    assert np.all(whole.draws.mass == 3300)
    assert two["all.mass"].beside is not None
    assert two["all.mass"].beside.middle() == 3000
    loads = two.work_out("loads", axle_loads, body="all", wheelbase="wheelbase")
    assert loads.draws.front + loads.draws.rear == pytest.approx(9.81 * 3300)


def test_things_that_are_no_numbers_count_by_their_digest() -> None:
    things = {
        t.name: t
        for t in (
            Thing("way", "left", "measured", "seen"),
            Thing("wet", False, "measured", "seen"),
            Thing("times", 3, "book", "book"),
        )
    }
    w = Workings({"l": quantity("l", "length", Uniform(1, 2))}, 7, 64, things)
    takes = {"length": "l", "way": "way", "number": "times", "wet": "wet"}
    got = w.work_out("longer", longer, **takes)
    np.testing.assert_allclose(got.draws, w["l"].draws * 60)
    other = w.what_if(Thing("way", "right", "measured", "seen"))
    np.testing.assert_allclose(other.work_out("longer", longer, **takes).draws, -got.draws)
    body = Thing("machine", Body(12_000.0, 1.2), "measured", "weighed")
    v = Workings({"wheelbase": MACHINE[2]}, 7, 64, {"machine": body})
    front = v.work_out("loads", axle_loads, body="machine", wheelbase="wheelbase").draws.front
    heavier = v.what_if(Thing("machine", Body(13_000.0, 1.2), "measured", "weighed"))
    assert heavier.work_out("loads", axle_loads, body="machine", wheelbase="wheelbase").draws.front == pytest.approx(
        front * 13 / 12
    )
    varied = w.what_if(quantity("varied", "count", Uniform(1, 9)))
    with pytest.raises(TypeError, match="wants one whole number"):
        varied.work_out("longer", longer, **{**takes, "number": "varied"})


def test_what_if_computes_again_only_what_hangs_on_the_change() -> None:
    w = workings(*BOLT, *MACHINE)

    def all_of(v: Workings) -> None:
        v.work_out("bolts/preload", preload, **TAKES)
        v.work_out("loads", axle_loads, body="machine", wheelbase="wheelbase")

    all_of(w)
    CALLS.clear()
    dry = w.what_if(quantity("bolts/nut-factor", "share", LogNormal(0.2, 0.13)))
    all_of(dry)
    assert CALLS == ["preload"]
    ranks = [np.argsort(v["bolts/nut-factor"].draws) for v in (w, dry)]
    np.testing.assert_array_equal(*ranks)  # the same draws
    CALLS.clear()
    all_of(w.what_if())
    assert CALLS == []
    assert not w.what_if().got


def test_long_samples_that_print_alike_are_not_one() -> None:
    values = np.zeros(100_000) + 0.02
    other = values.copy()
    other[50_000] = 0.03
    w = workings(*BOLT[::2], quantity("bolts/diameter", "length", Samples(values)))
    key = w.work_out("p", preload, **TAKES).key
    assert w.what_if(quantity("bolts/diameter", "length", Samples(other))).work_out("p", preload, **TAKES).key != key


def test_the_memo_is_bound() -> None:
    memo = Memo(most=100_000)
    for number in range(50):
        memo.put(f"key {number}", np.zeros(1000))
        memo.get("key 0")
    assert len(memo) <= 12
    assert memo.get("key 0") is not None  # lately used
    assert memo.get("key 20") is None
    assert memo.size <= 100_000
    w = workings(*BOLT, count=20_000)
    w.memo.most = 400_000
    kept = w.work_out("p", preload, **TAKES).draws
    for change in range(20):
        v = w.what_if(quantity("bolts/torque", "torque", Exact(300.0 + change)))
        v.work_out("p", preload, **TAKES)
    assert w.memo.size <= 400_000
    np.testing.assert_array_equal(w.what_if().work_out("p", preload, **TAKES).draws, kept)


def test_results_cannot_be_changed_by_who_reads_them() -> None:
    w = workings(*BOLT, *MACHINE)
    for draws in (
        w.work_out("p", preload, **TAKES).draws,
        w["bolts/torque"].draws,
        w.work_out("l", axle_loads, body="machine", wheelbase="wheelbase").draws.rear,
    ):
        with pytest.raises(ValueError, match="read-only"):
            draws[0] = 0


def test_draws_that_go_together() -> None:
    left, right = (quantity(n, "length", Normal(1, 0.1)) for n in ("left", "right"))
    together = workings(left, right, count=4096, goes_with={"right": ("left", 0.8)})
    assert rank_correlation(together["left"].draws, together["right"].draws) == pytest.approx(0.8, abs=0.03)
    apart = workings(left, right, count=4096)
    np.testing.assert_array_equal(apart["left"].draws, together["left"].draws)
    assert abs(rank_correlation(apart["left"].draws, apart["right"].draws)) < 0.05
    assert apart["right"].key != together["right"].key


def test_held_at_its_careful_corner() -> None:
    held = held_at(MACHINE[0], "high")
    assert held.spread == Exact(MACHINE[0].spread.ends()[1])
    assert "held at its high end" in held.source
    w = workings(*MACHINE)
    lighter = w.work_out("loads", axle_loads, body="machine", wheelbase="wheelbase").draws.front.mean()
    heavier = w.what_if(held).work_out("loads", axle_loads, body="machine", wheelbase="wheelbase").draws.front.mean()
    assert heavier > lighter


def test_a_margin_is_read_draw_by_draw() -> None:
    w = workings(
        quantity("has", "force", Normal(100, 10)),
        quantity("needs", "force", Normal(60, 10)),
        quantity("m", "mass", Exact(1)),
    )
    margin = Margin("jack", "raise", w["has"], w["needs"])
    ratio = np.sort(w["has"].draws / w["needs"].draws)
    assert margin.at(0.05) == ratio[int(0.05 * 512)]
    assert margin.at(0.5) == ratio[256]
    assert margin.at(0.05) < w["has"].at(0.5) / w["needs"].at(0.5)
    with pytest.raises(TypeError, match="m a mass"):
        Margin("jack", "raise", w["has"], w["m"])


def test_a_margin_where_nothing_is_asked() -> None:
    w = workings(
        quantity("has", "force", Exact(5)),
        quantity("none", "force", Exact(0)),
        quantity("up", "force", Exact(-2)),
        quantity("gone", "force", Exact(-1)),
    )
    assert Margin("slip", "", w["has"], w["none"]).at(0.05) == np.inf
    assert Margin("slip", "", w["has"], w["up"]).at(0.05) == np.inf
    assert Margin("slip", "", w["none"], w["none"]).at(0.05) == 0
    assert Margin("slip", "", w["gone"], w["has"]).at(0.05) < 0


@given(st.floats(0.001, 0.2), st.floats(0.0, 1.0))
def test_a_careful_end_is_never_better_than_the_middle(log_sd: float, share: float) -> None:
    w = workings(
        quantity("has", "force", LogNormal(100, log_sd)), quantity("needs", "force", LogNormal(60, log_sd)), count=128
    )
    margin = Margin("jack", "raise", w["has"], w["needs"])
    assert margin.at(min(share, 0.5)) <= margin.at(0.5)


def test_a_count_given_as_a_quantity_that_does_not_vary() -> None:
    w = Workings(
        {"l": quantity("l", "length", Exact(2)), "n": quantity("n", "count", Exact(3))},
        1,
        16,
        {"way": Thing("way", "left", "book", "b"), "wet": Thing("wet", False, "book", "b")},
    )
    assert w.work_out("x", longer, length="l", way="way", number="n", wet="wet").middle() == 2 * 2 * 3 * 10


def test_a_number_that_was_given_is_told_as_it_was_given_whatever_is_drawn() -> None:
    """The same mass under two names has draws of its own, and yet one middle and one pair of ends on every sheet."""
    spread = LogNormal(332.0, 0.21)
    w = Workings({name: Quantity(name, KINDS["mass"], spread, "assumed", "s") for name in ("hold/wheel", "lift/wheel")}, 7, 256)  # fmt: skip
    assert not np.array_equal(w["hold/wheel"].draws, w["lift/wheel"].draws)
    for name in ("hold/wheel", "lift/wheel"):
        assert w[name].middle() == pytest.approx(332.0)
        # 5 and 95 of a hundred of a normal lie 1.644854 deviations out (published tables of the normal)
        assert w[name].ends() == pytest.approx(
            (332 * np.exp(-0.21 * 1.644854), 332 * np.exp(0.21 * 1.644854)), rel=1e-6
        )
