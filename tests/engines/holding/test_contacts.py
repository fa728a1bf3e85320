"""Sprung contacts: against a direct minimum of energy, and the three-support answer as limit."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.contacts import Contact, sprung_contacts
from axlewright.engines.holding.supports import Point, on_wheels, three_supports
from axlewright.engines.limits import OutOfRange

PLACES = ((0.0, 1.35), (0.0, -1.35), (-3.3, 1.1), (-3.3, -1.1))


def four(k: tuple[float, ...] = (5e5, 5e5, 3e5, 3e5), raised: tuple[float, ...] = (0, 0, 0, 0)) -> tuple[Contact, ...]:
    return tuple(Contact(x, y, 0.0, s, r) for (x, y), s, r in zip(PLACES, k, raised, strict=True))


def by_energy(weight: float, cx: float, cy: float, contacts: tuple[Contact, ...]) -> np.ndarray:
    """Loads from the least energy of one-sided springs under a plane, by a general minimiser."""
    from scipy.optimize import minimize

    rows = np.array([[1.0, c.x, c.y] for c in contacts])
    k, up = np.array([c.stiffness for c in contacts]), np.array([c.raised for c in contacts])

    def give(plane: np.ndarray) -> np.ndarray:
        return np.maximum(up - rows @ (plane / 100), 0.0)

    def energy(plane: np.ndarray) -> float:
        return float(0.5 * k @ give(plane) ** 2 + weight * np.array([1, cx, cy]) @ (plane / 100)) / 1e3

    found = minimize(energy, np.zeros(3), method="Nelder-Mead", options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 20_000, "maxfev": 20_000})  # fmt: skip
    return k * give(found.x)


@settings(max_examples=12, deadline=None)
@given(cx=st.floats(-2.2, -0.5), cy=st.floats(-0.3, 0.3), raise_fl=st.floats(0, 0.25), soft=st.floats(2e5, 7e5))
def test_loads_are_those_of_least_energy(cx: float, cy: float, raise_fl: float, soft: float) -> None:
    contacts = four((5e5, 5e5, soft, soft), (raise_fl, 0, 0, 0))
    got = sprung_contacts(95e3, cx, cy, 1.5, contacts)
    assert bool(got.stands)
    assert np.allclose(got.loads, by_energy(95e3, cx, cy, contacts), atol=60)


@settings(max_examples=40, deadline=None)
@given(cx=st.floats(-3.2, -0.1), cy=st.floats(-0.3, 0.3), raise_fl=st.floats(0, 0.3))
def test_loads_balance_and_none_pulls(cx: float, cy: float, raise_fl: float) -> None:
    contacts = four(raised=(raise_fl, 0, 0, 0))
    got = sprung_contacts(95e3, cx, cy, 1.5, contacts)
    loads = np.array(got.loads)
    if got.stands:
        assert loads.min() >= 0
        assert loads.sum() == pytest.approx(95e3)
        assert loads @ [x for x, _ in PLACES] == pytest.approx(95e3 * cx, abs=1e-3)
        assert loads @ [y for _, y in PLACES] == pytest.approx(95e3 * cy, abs=1e-3)


def test_raising_a_wedged_corner_loads_it_and_its_diagonal() -> None:
    flat, raised = sprung_contacts(95e3, -1.2, 0.0, 1.5, four()), sprung_contacts(95e3, -1.2, 0.0, 1.5, four(raised=(0.05, 0, 0, 0)))  # fmt: skip
    change = np.array(raised.loads) - np.array(flat.loads)
    assert change[0] > 0
    assert change[3] > 0
    assert change[1] < 0
    assert change[2] < 0


def test_three_contacts_are_the_three_supports_whatever_their_stiffness() -> None:
    three = (Contact(0, 1.35, 0, 1e5), Contact(0, -1.35, 0, 9e6), Contact(-3.3, 0, 0, 4e5))
    got = sprung_contacts(95e3, -1.2, 0.05, 1.6, three, 0.03, -0.02)
    wanted = on_wheels(95e3, -1.2, 0.05, 1.6, 2.7, 3.3, nose_down=0.03, left_down=-0.02)
    assert np.allclose(got.loads, [wanted.front_left, wanted.front_right, wanted.rear_pivot])


def test_a_contact_that_lifts_leaves_the_three_point_answer() -> None:
    got = sprung_contacts(95e3, -1.2, 0.0, 1.5, four(raised=(0.3, 0, 0, 0)))
    wanted = three_supports(95e3, Point(-1.2, 0, 1.5), *(Point(x, y, 0) for n, (x, y) in enumerate(PLACES) if n != 2))
    if got.loads[2] == 0:
        assert np.allclose([got.loads[0], got.loads[1], got.loads[3]], [wanted.first, wanted.second, wanted.third])
    assert got.loads[2] == 0 or got.loads[1] == 0


def test_off_its_contacts_it_does_not_stand_and_carries_no_number() -> None:
    got = sprung_contacts(95e3, np.array([-1.2, 0.5]), 0.0, 1.5, four())
    assert list(got.stands) == [True, False]
    assert [float(load[1]) for load in got.loads] == [0, 0, 0, 0]


def test_draws_are_each_their_own() -> None:
    stiffness = np.array([3e5, 5e5, 7e5])
    many = sprung_contacts(95e3, -1.2, 0.05, 1.5, four((5e5, 5e5, stiffness, 3e5)))  # type: ignore[arg-type]
    for n, k in enumerate(stiffness):
        one = sprung_contacts(95e3, -1.2, 0.05, 1.5, four((5e5, 5e5, float(k), 3e5)))
        assert np.allclose([load[n] for load in many.loads], one.loads)


def test_silly_inputs_are_refused() -> None:
    for bad in (four()[:2], four((0.0, 5e5, 3e5, 3e5))):
        with pytest.raises(OutOfRange):
            sprung_contacts(95e3, -1.2, 0.0, 1.5, bad)
