"""The whole chain of a hub: by simulated pairs, by what must not matter, by what must."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import weibull_min

from axlewright.engines.limits import OutOfRange
from axlewright.engines.running.hub import Bearing, HubLife, hub_life

OUT, IN = Bearing(310e3, 430e3, 1.4, 0.42, 0.138), Bearing(240e3, 330e3, 1.4, 0.42, 0.124)  # invented
PLAIN = {
    "wheel_load": 55e3, "traction": 6e3, "side_force": 2e3, "spread": 0.21, "offset": 0.08, "rolling_radius": 0.8,
    "speed": 1.4, "viscosity": 95e-6, "contamination": 0.03, "outboard": OUT, "inboard": IN,
}  # fmt: skip


def life(**changed: object) -> HubLife:
    return hub_life(**{**PLAIN, **changed})  # type: ignore[arg-type]


def test_half_of_simulated_pairs_last_the_median() -> None:
    """One Weibull for the pair, of which nine in ten reach its life."""
    got = life(slope=1.5)
    scale = float(got.time) / (-np.log(0.9)) ** (1 / 1.5)
    drawn = weibull_min(1.5, scale=scale).rvs(200_000, random_state=4)
    assert float(got.median) == pytest.approx(float(np.median(drawn)), rel=0.01)
    assert (drawn > float(got.time)).mean() == pytest.approx(0.9, abs=3e-3)


def test_the_film_at_a_wheel_takes_most_of_the_basic_life() -> None:
    """In the field a thin film leaves a tenth or little more, in clean oil too."""
    for dirt in (0.0, 0.03, 0.1):
        got = life(contamination=dirt)
        assert 0.1 <= float(got.turns) / float(got.basic_turns) < 0.2
    crawling = life(speed=0.2)
    assert float(crawling.film) < 0.1
    assert float(crawling.turns) == pytest.approx(0.1 * float(crawling.basic_turns))


def test_what_is_heavier_or_farther_out_lasts_shorter() -> None:
    first = float(life().turns)
    for changed in ({"wheel_load": 65e3}, {"offset": 0.12}, {"side_force": 8e3}, {"contamination": 0.0}):
        assert float(life(**changed).turns) < first
    assert float(life(spread=0.26).turns) > first
    assert float(life(outboard=replace(OUT, capacity=340e3)).turns) > first


def test_ten_in_a_hundred_more_load_leave_three_quarters() -> None:
    """1.1^(-10/3) = 0.728, all forces alike; the film has no say at kappa under 0.1."""
    more = {name: 1.1 * PLAIN[name] for name in ("wheel_load", "traction", "side_force")}  # type: ignore[operator]
    assert float(life(**more).basic_turns) / float(life().basic_turns) == pytest.approx(1.1 ** (-10 / 3))


def test_a_wheel_over_its_outboard_bearing_leaves_the_other_its_thrust_alone() -> None:
    got = life(offset=0.0, traction=0.0, side_force=0.0)
    assert float(got.inboard_load) == pytest.approx(1.4 * 0.5 * 55e3 / 1.4)
    assert float(got.outboard_load) == pytest.approx(55e3)


def test_draws_and_refusals() -> None:
    together = life(wheel_load=np.array([40e3, 55e3]))
    np.testing.assert_allclose(together.time[1], life().time)  # type: ignore[index]
    with pytest.raises(OutOfRange, match="past what a rating life holds for"):
        life(wheel_load=150e3)
    with pytest.raises(OutOfRange, match="speed"):
        life(speed=0.0)
