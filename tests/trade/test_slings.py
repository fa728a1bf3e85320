"""Rows of slings: steps hold on their edges, never a factor that grows with the angle, farm chain refused."""

from __future__ import annotations

import numpy as np
import pytest

from axlewright.quantities.units import NotRead
from axlewright.trade import slings

STEPS = ("leg", "shackle", "eyebolt", "eyebolt-printed")


@pytest.mark.parametrize("table", STEPS)
def test_a_pull_farther_off_never_counts_more(table: slings.Table) -> None:
    factors = [slings.step(table, angle).factor for angle in np.linspace(0, 180, 1801)]
    assert (np.diff(factors) <= 0).all()


@pytest.mark.parametrize("kind", ["rope-or-web", "roundsling", "unknown"])
def test_a_choke_beaten_down_never_counts_more(kind: slings.Choker) -> None:
    factors = [slings.choke_factor(kind, angle) for angle in np.linspace(0, 180, 1801)]
    assert (np.diff(factors) >= 0).all()
    assert factors[0] <= 0.5
    assert factors[-1] == 1


def test_an_unknown_choker_takes_the_lower_of_both() -> None:
    for angle in range(0, 181, 5):
        both = [slings.choke_factor(kind, angle) for kind in ("rope-or-web", "roundsling")]  # type: ignore[arg-type]
        assert slings.choke_factor("unknown", angle) == min(both)


def test_without_the_makers_table_an_eyebolt_is_never_rated_higher() -> None:
    for angle in range(0, 91):
        assert slings.step("eyebolt", angle).factor <= slings.step("eyebolt-printed", angle).factor


def test_four_legs_are_rated_as_three() -> None:
    """OSHA Guidance on Safe Sling Use, tables 1 and 2: 3 x single x sin of the angle to level, within 1 %."""
    for grade, size in (("80", 0.375 * 0.0254), ("100", 9 / 32 * 0.0254)):
        single, *rest = slings.chain(grade, size).limits
        wanted = [n * single * np.sin(np.radians(a)) for n in (2, 3) for a in (60, 45, 30)]
        assert rest == pytest.approx(wanted, rel=0.01)


def test_multi_leg_limits_of_grade_8_are_near_the_product() -> None:
    for row in slings.chains():
        if row.grade == "8":
            products = [row.limits[0] * k for k in (1.4, 1.0, 2.1, 1.5, 1.6)]
            assert list(row.limits[1:]) == pytest.approx(products, rel=0.06)


def test_farm_chain_and_unknown_sizes_are_refused() -> None:
    for grade, size in (("70", 0.010), ("30", 0.010), ("8", 0.0105), ("9", 0.010)):
        with pytest.raises(NotRead):
            slings.chain(grade, size)


@pytest.mark.parametrize("angle", [-1.0, 181.0, float("nan")])
def test_angles_that_are_none_are_refused(angle: float) -> None:
    with pytest.raises(NotRead):
        slings.choke_factor("roundsling", angle)
    with pytest.raises(NotRead):
        slings.step("shackle", angle)


def test_rows_that_a_rig_is_sized_by() -> None:
    assert slings.code_limit(0.375 * 0.0254) < slings.chain("80", 0.375 * 0.0254).limits[0]  # type: ignore[operator]
    assert slings.code_limit(0.01) is None
    assert slings.webs()["green"].limit == pytest.approx(2000)
    assert slings.eyebolts()["M16"].limits == pytest.approx((700, 500, 350))
    assert [row.limit for row in slings.shackles()] == sorted(row.limit for row in slings.shackles())
    assert slings.handlings()["moving"].factor > slings.handlings()["hand"].factor
    assert slings.stretches()["nylon-web"].value > slings.stretches()["roundsling"].value
    assert slings.sling_figures()["hook-without-cradle"].value == pytest.approx(0.75)
