"""The elastic pair: by a general minimiser, by balance, by size, by the integrals of many thin rollers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import minimize

from axlewright.engines.limits import OutOfRange
from axlewright.engines.running.elastic import ElasticBearing, elastic_pair, zone_means

OUT = ElasticBearing(18, 0.019, 0.030, 0.40, 0.136, 300e3)  # invented
IN = ElasticBearing(17, 0.017, 0.026, 0.44, 0.122, 235e3)


@pytest.mark.parametrize("zone", [0.15, 0.5, 0.9, 1.0, 3.0])
def test_means_of_a_zone_by_integration(zone: float) -> None:
    def load(angle: float) -> float:
        return float(max(1 - (1 - np.cos(angle)) / (2 * zone), 0.0) ** (10 / 9))

    got = zone_means(zone)
    edge = float(np.arccos(max(1 - 2 * zone, -1)))
    for mine, of in (
        (got.radial, lambda a: load(a) * np.cos(a)),
        (got.axial, load),
        (float(got.turning) ** 4, lambda a: load(a) ** 4),
        (float(got.standing) ** 4.5, lambda a: load(a) ** 4.5),
    ):
        assert float(mine) == pytest.approx(quad(of, 0, edge, epsabs=1e-12)[0] / np.pi, abs=2e-6)


def by_minimiser(out_radial: float, in_radial: float, outward: float, play: float) -> tuple[float, float]:
    """Thrusts where a general minimiser of the energy ends; mm and N, written out roller by roller."""
    rows = []
    for bearing, sign in ((OUT, -1.0), (IN, 1.0)):
        angle = np.arctan(float(bearing.thrust_limit) / 1.5)
        at = 2 * np.pi * np.arange(int(bearing.rollers)) / int(bearing.rollers)
        rows.append((angle, at, sign, 35948 * (float(bearing.roller_length) * 1e3) ** (8 / 9)))

    def press(x: np.ndarray, n: int) -> np.ndarray:
        angle, at, sign, _ = rows[n]
        radial = x[2 * n] * np.cos(at) + x[2 * n + 1] * np.sin(at)
        return np.maximum(np.cos(angle) * radial + np.sin(angle) * (sign * x[4] - play * 1e3 / 2), 0)

    def energy(x: np.ndarray) -> float:
        stored = sum(rows[n][3] * (press(x, n) ** (19 / 9)).sum() * 9 / 19 for n in (0, 1))
        return float(stored - out_radial * x[1] + in_radial * x[3] - outward * x[4]) / 1e4

    best = minimize(energy, np.array([0, 0.08, 0, -0.08, 0.0]), method="BFGS", options={"gtol": 1e-7, "maxiter": 5000})
    best = minimize(energy, best.x, method="Nelder-Mead", options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 20000})
    thrusts = [float(np.sin(rows[n][0]) * rows[n][3] * (press(best.x, n) ** (10 / 9)).sum()) for n in (0, 1)]
    return thrusts[0], thrusts[1]


@pytest.mark.parametrize(
    ("radial", "outward", "play"),
    [((50e3, 18e3), 0.0, 0.0), ((50e3, 18e3), 6e3, 3e-4), ((30e3, 30e3), -8e3, -5e-5)],
)
def test_thrusts_by_a_general_minimiser(radial: tuple[float, float], outward: float, play: float) -> None:
    got = elastic_pair(OUT, IN, *radial, outward, play)
    out, inner = by_minimiser(*radial, outward, play)
    assert float(got.outboard_thrust) == pytest.approx(out, rel=5e-3)
    assert float(got.inboard_thrust) == pytest.approx(inner, rel=5e-3)


@pytest.mark.parametrize("play", [-1e-4, 0.0, 2e-4, 1e-3])
@pytest.mark.parametrize("outward", [-10e3, 0.0, 10e3])
def test_thrust_balances_back_to_back_and_face_to_face(play: float, outward: float) -> None:
    wide = elastic_pair(OUT, IN, 50e3, 18e3, outward, play)
    assert float(wide.inboard_thrust) - float(wide.outboard_thrust) == pytest.approx(outward, abs=1e-3)
    narrow = elastic_pair(OUT, IN, 50e3, 18e3, -outward, play, "face to face")
    assert float(narrow.turns) == pytest.approx(float(wide.turns), rel=1e-6)


def test_a_turned_pair_is_the_mirror_image() -> None:
    one, other = elastic_pair(OUT, IN, 50e3, 18e3, 4e3, 1e-4), elastic_pair(IN, OUT, 18e3, 50e3, -4e3, 1e-4)
    assert float(one.turns) == pytest.approx(float(other.turns), rel=1e-3)
    assert float(one.outboard_thrust) == pytest.approx(float(other.inboard_thrust), rel=1e-3)


def test_all_loads_doubled_with_their_approach() -> None:
    """Load grows as approach to the 10/9: loads by q and end play by q^0.9 give all loads by q."""
    one = elastic_pair(OUT, IN, 40e3, 15e3, 5e3, 2e-4)
    two = elastic_pair(OUT, IN, 80e3, 30e3, 10e3, 2e-4 * 2**0.9)
    assert float(two.outboard_reference) == pytest.approx(2 * float(one.outboard_reference), rel=1e-6)
    assert float(two.inboard_thrust) == pytest.approx(2 * float(one.inboard_thrust), rel=1e-6)
    assert float(one.turns) / float(two.turns) == pytest.approx(2 ** (10 / 3), rel=1e-6)


def test_many_thin_rollers_are_the_integrals() -> None:
    """Equal loads and no end play: half a load zone each, reference load the radial load, thrust Ja/Jr of it."""
    thin = replace(OUT, rollers=400, roller_diameter=0.0009)
    got = elastic_pair(thin, thin, 25e3, 25e3, 0.0, 0.0)
    half = zone_means(0.5)
    tangent = float(OUT.thrust_limit) / 1.5
    assert float(got.outboard_thrust) / 25e3 / tangent == pytest.approx(
        float(half.axial) / float(half.radial), rel=2e-3
    )
    assert float(got.outboard_reference) == pytest.approx(25e3, rel=2e-3)
    assert float(got.inboard_loaded) / 400 == pytest.approx(0.5, abs=0.01)


def test_a_little_preload_is_best_and_much_end_play_costs_most() -> None:
    plays = np.array([-3e-4, -4e-5, 0.0, 1e-4, 3e-4, 1e-3])
    got = elastic_pair(OUT, IN, 50e3, 18e3, 0.0, plays)
    turns = np.asarray(got.turns)
    assert int(np.argmax(turns)) == 1
    assert (np.diff(turns[1:]) < 0).all()
    assert turns[0] < turns[2]
    assert (np.diff(np.asarray(got.outboard_loaded)) <= 0).all()


def test_what_cannot_be_is_refused() -> None:
    for changed, says in (
        ({"rollers": 2}, "rollers"),
        ({"capacity": 0.0}, "capacity"),
        ({"thrust_limit": 2.0}, "thrust_limit"),
    ):
        with pytest.raises(OutOfRange, match=says):
            elastic_pair(replace(OUT, **changed), IN, 1e3, 1e3, 0.0, 0.0)
    with pytest.raises(OutOfRange, match="end_play"):
        elastic_pair(OUT, IN, 1e3, 1e3, 0.0, 0.05)
