"""Rows of machines, timber, ground, tyres and supports: what they promise to those who size by them."""

from __future__ import annotations

import pytest

from axlewright.quantities.units import NotRead, parse
from axlewright.trade import machines, soils, supports, timber, tyres


def test_defaults_of_timber_are_the_lowest_of_what_they_may_be() -> None:
    rows = timber.species()
    stamped = {name: row for name, row in rows.items() if name not in ("unknown", "softwood", "heavy-hardwood")}
    assert rows["unknown"].across * rows["unknown"].wet <= min(row.across * row.wet for row in rows.values())
    softwoods = (
        "spruce-pine-fir",
        "douglas-fir-larch",
        "hem-fir",
        "southern-pine-timbers",
        "southern-pine",
        "western-cedars",
    )
    assert all(rows["softwood"].across * rows["softwood"].wet <= stamped[s].across * stamped[s].wet for s in softwoods)
    # the note's figures for wet wood of unknown kind: 178 and 204 psi
    assert rows["unknown"].across * rows["unknown"].wet == pytest.approx(parse("178 psi", "pressure").si, rel=0.005)
    assert rows["softwood"].across * rows["softwood"].wet == pytest.approx(parse("204 psi", "pressure").si, rel=0.005)
    classes = timber.strength_classes()
    assert classes["unstamped"].across == min(row.across for row in classes.values())


def test_machine_kinds_are_spreads_that_say_so() -> None:
    for row in machines.machine_kinds().values():
        assert row.known in ("memory", "assumed")
        assert row.mass[0] < row.mass[1] < row.mass[2]
    assert not machines.machine_kinds()["sprayer"].rear_axle_swings
    assert {"small-combine", "walker-combine", "forage-harvester"} <= set(machines.machine_kinds())


@pytest.mark.parametrize(
    ("kind", "tonnes"),
    # corner load, medians, off and empty, on and empty, on and full, as worked out beside the table of kinds
    [("small-combine", (2.4, 3.3, 4.5)), ("walker-combine", (3.3, 4.8, 6.9)), ("large-combine", (4.3, 6.7, 9.8)), ("very-large-combine", (5.4, 8.5, 12.7))],
)  # fmt: skip
def test_middles_give_the_corner_loads_of_their_class(kind: str, tonnes: tuple[float, ...]) -> None:
    row = machines.machine_kinds()[kind]
    assert row.header
    assert row.tank
    assert row.share_on_empty
    assert row.share_on_full
    header, grain = row.header[1], row.tank[1] * 772.0
    masses = (row.mass[1], row.mass[1] + header, row.mass[1] + header + grain)
    shares = (row.share_off_empty[1], row.share_on_empty[1], row.share_on_full[1])
    got = [m * s / 2 / 1000 for m, s in zip(masses, shares, strict=True)]
    assert got == pytest.approx(tonnes, rel=0.06)


def test_soft_ground_allows_nothing_by_itself() -> None:
    rows = soils.soils()
    assert rows["wet-topsoil"].allowed[0] == 0
    assert all(low <= middle <= high for low, middle, high in (row.allowed for row in rows.values()))
    assert [t.least for t in soils.thumbs().values()] == sorted(
        (t.least for t in soils.thumbs().values()), reverse=True
    )


@pytest.mark.parametrize(
    ("said", "millimetres"),
    # tyre makers' farm data books, as cited in an open table
    [("18.4-38", 68.3 * 25.4), ("20.8R38", 72.8 * 25.4), ("28L-26", 64.4 * 25.4), ("IF 800/65R32 178A8", 1852.8), ("vf 900/60R32", 1892.8)],
)  # fmt: skip
def test_designations_as_they_stand_on_side_walls(said: str, millimetres: float) -> None:
    tyre = tyres.read_tyre(said)
    assert (tyre.rim + 2 * tyre.aspect * tyre.width) * 1000 == pytest.approx(millimetres, rel=0.01)
    assert tyre.build == ("radial" if "R" in said.upper().split()[-1] or "R3" in said else "bias")


@pytest.mark.parametrize(
    "said", ["", "big", "1800/65R32", "800R32", "20.8", "800/65R320", "800/650R32", "18.4-3", "3.5-38"]
)
def test_what_is_no_drive_tyre_is_refused_with_an_example(said: str) -> None:
    with pytest.raises(NotRead) as refused:
        tyres.read_tyre(said)
    assert "800/65R32" in str(refused.value)


def test_supports_say_where_they_come_from() -> None:
    assert supports.frictions()["steel-on-planed-wood"].value < supports.frictions()["steel-on-wood"].value
    assert supports.held_figures()["planning-use"].value <= 1
    assert supports.held_angles()["jack-lean"].value == pytest.approx(0.0523599, rel=1e-5)
    assert supports.stiffnesses()["tyre"].value[0] == pytest.approx(3e5)
    assert supports.held_lengths()["bite"].value == pytest.approx(0.06)
    assert supports.held_forces()["bar-pull"].value == pytest.approx(600)
