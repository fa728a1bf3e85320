"""Small things that stages are put together from: the body on its pivot, places, chocks of three wheels."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.corner import beside_middle
from axlewright.engines.holding.supports import on_wheels, slope_share
from axlewright.engines.holding.upsets import chock_hold, three_chocked_wheels
from axlewright.engines.holding.weighing import body_on_pivot
from axlewright.engines.limits import OutOfRange


@settings(max_examples=40, deadline=None)
@given(share=st.floats(0.4, 0.85), axle=st.floats(0, 1200), mass=st.floats(6e3, 2e4))
def test_scales_under_all_wheels_show_the_machine_again(share: float, axle: float, mass: float) -> None:
    """Front wheels carry their share; pivot and rear axle together the rest."""
    body = body_on_pivot(mass, share, 0.04, 1.6, 3.5, axle, 0.7)
    held = on_wheels(body.weight, body.x, body.y, body.z, 2.8, 3.5, 0.7)
    assert (held.front_left + held.front_right) / 9.80665 == pytest.approx(share * mass)
    assert held.rear_pivot / 9.80665 + axle == pytest.approx((1 - share) * mass)
    assert (held.front_left - held.front_right) * 1.4 / 9.80665 == pytest.approx(0.04 * mass, rel=1e-6)


def test_three_wheels_hold_what_each_of_them_holds() -> None:
    one, rear = chock_hold(4e4, 0.85, 0.2, 0.35), chock_hold(1.5e4, 0.6, 0.2, 0.35)
    assert three_chocked_wheels(4e4, 1.5e4, 0.85, 0.6, 0.2, 0.35) == pytest.approx(float(one + 2 * rear))


def test_places_and_slopes() -> None:
    assert beside_middle(2.7, 0.35) == pytest.approx(1.0)
    assert slope_share(np.arctan(0.03)) == pytest.approx(0.03)
    for bad in (
        lambda: beside_middle(2.7, 1.4),
        lambda: slope_share(3.0),
        lambda: body_on_pivot(1e4, 0.6, 0, 1.6, 3.5, 2e4, 0.7),
    ):
        with pytest.raises(OutOfRange):
            bad()
