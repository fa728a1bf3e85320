"""The season ahead: against sums on paper, against laws that hold for any, and the sheet that says it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest

from axlewright import store
from axlewright.engines.season.weather import days_chances
from axlewright.plan.pack import pack
from axlewright.plan.season_of import COUNT, MachineAhead, NotReckoned, machine_ahead, season_of, weather
from axlewright.plan.sheet.season import FEW, season_sheet
from axlewright.render import pdf, render
from axlewright.render.show import Show
from axlewright.sheets import Figure
from axlewright.trade.seasons import climates
from axlewright.yard import Machine, Season, Title, Work, Yard

DAY = date(2026, 8, 28)
DEMO = store.at(store.DEMO).read()
PLAIN = {"area": "40 ha", "rate": "2 ha/h", "hours_a_day": "8 h", "worth": "1200 /ha"}


def yard(*works: dict[str, Any], climate: str = "dry-summer") -> Yard:
    found = [
        Work.model_validate(
            {"id": f"w{n}", "season": "2026", "machine": "lark", "crop": "wheat", "on": DAY, "starts": DAY, "ends": DAY + timedelta(days=30), **PLAIN, **one}
        )
        for n, one in enumerate(works)
    ]  # fmt: skip
    machines = [Machine(id=one, name=one.capitalize()) for one in sorted({"lark", *(work.machine for work in found)})]
    return Yard.of([Title(name="T"), Season(id="2026", climate=climate), *machines, *found])


def of(one: Yard, machine: str = "lark", today: date = DAY) -> MachineAhead:
    made = machine_ahead(one, one.machine(machine), today)
    assert isinstance(made, MachineAhead)
    return made


def test_what_it_runs_still_is_area_over_rate_and_what_is_cut_is_off_it() -> None:
    assert of(yard({})).crops[0].left == pytest.approx((20 * 3600.0,) * 3)
    assert of(yard({"done": "30 ha"})).crops[0].left == pytest.approx((5 * 3600.0,) * 3)
    assert machine_ahead(yard({"done": "40 ha"}), Machine(id="lark", name="Lark"), DAY) is None


def test_it_is_never_off_before_its_hours_are_run() -> None:
    """20 h at 8 h a day take two days and a half of fine weather; the third day is the first on which it can be off."""
    found = of(yard({}))
    assert found.finish[0] == DAY + timedelta(days=2)
    assert found.finish[1] is not None
    assert found.finish[1] >= found.finish[0]
    assert not found.late


def test_days_that_can_be_worked_are_those_of_its_climate() -> None:
    """Against the exact distribution of the chain without a spread between years: its mean is the share of the days."""
    row = climates()["changeable"]
    drawn = weather(climates()["changeable"], 64)[:, :30].sum(axis=1)
    assert drawn.mean() == pytest.approx(30 * row.share, abs=3 * drawn.std() / np.sqrt(COUNT) + 0.15)
    exact = np.asarray(days_chances(row.share, 1 - 1 / (row.spell / 86400 * (1 - row.share)), 30))
    spread = np.sqrt((exact * (np.arange(31) - 30 * row.share) ** 2).sum())
    assert drawn.std() > spread  # years differ besides


def test_a_lost_day_costs_more_of_more_and_nothing_once_it_is_off() -> None:
    small, large = of(yard({"area": "40 ha"})), of(yard({"area": "120 ha"}))
    assert large.next_day.middle > small.next_day.middle >= 0
    assert small.days[-1].middle == pytest.approx(0.0, abs=1e-9)
    dearer = of(yard({"area": "120 ha", "worth": "2400 /ha"}))
    for one, twice in zip(large.days, dearer.days, strict=True):
        assert (twice.low, twice.middle, twice.high) == pytest.approx((2 * one.low, 2 * one.middle, 2 * one.high))


def test_a_crop_that_is_long_past_its_best_loses_its_share_a_day() -> None:
    """On paper: all of it stands, past grace; a day late costs each hectare one day's share, at the mean within its spread."""
    ripe = DAY - timedelta(days=10)
    found = of(yard({"area": "200 ha", "starts": ripe, "ends": DAY + timedelta(days=90)}))
    row, days = found.crops[0].row, 10 - 3
    shares = [float(row.delay.at(u)) * 86400 * (1 + days / 15) for u in (0.1, 0.9)]
    low, high = (share * 200 * 1200 for share in shares)
    assert low < found.next_day.middle < 2.5 * high  # the last hectare waits weeks, and its day costs more


def test_two_crops_of_one_machine_are_cut_in_turn() -> None:
    late = {"crop": "grain-maize", "starts": DAY + timedelta(days=40), "ends": DAY + timedelta(days=80)}
    found = of(yard({}, late))
    assert [one.row.id for one in found.crops] == ["wheat", "grain-maize"]
    assert found.ends == DAY + timedelta(days=80)
    assert found.finish[0] is not None
    assert found.finish[0] >= DAY + timedelta(days=42)


def test_a_machine_before_its_window_waits_for_it() -> None:
    later = DAY + timedelta(days=14)
    found = of(yard({"starts": later, "ends": later + timedelta(days=20)}))
    assert found.begins == found.days[0].on == later


@pytest.mark.parametrize(
    "work", [{"area": "10 ha ± 40 ha"}, {"ends": date(2031, 1, 1)}, {"rate": "1 ha/h ± 9 ha/h"}, {"done": "39 ha", "hours_a_day": "22 to 30 h"}]
)  # fmt: skip
def test_what_cannot_be_reckoned_says_so_and_the_others_stand(work: dict[str, Any]) -> None:
    one = yard(work, {"machine": "wren"})
    found = season_of(one, DAY)
    assert [type(made) for made in found] == [NotReckoned, MachineAhead]
    assert "Cannot be reckoned" in told(one)
    assert "Wren" in told(one)


def test_the_sheet_of_the_demo_has_every_number_with_its_basis_and_fits_on_paper() -> None:
    made = pack(season_sheet(DEMO, DAY))
    assert {one.basis for one in made.basis.values()} == {"computed", "measured", "assumed"}
    assert all(one.source for one in made.basis.values())
    drawn = [block for section in made.sheets[0].sections for block in section.blocks if isinstance(block, Figure)]
    assert len(drawn) == 4
    assert all(figure.twin for figure in drawn)
    assert pdf.render(made, Show())[:4] == b"%PDF"


def test_dearest_first_and_one_that_is_asked_for_before_it() -> None:
    def heads(first: str = "") -> list[str]:
        return [section.heading for section in season_sheet(DEMO, DAY, first).sheets[0].sections]

    assert heads()[1:4] == ["Bramble", "Linnet", "Wren"]
    assert heads("wren")[1] == "Wren"


def test_many_machines_are_a_few_curves_and_a_table() -> None:
    many = yard(*({"machine": f"m{n}", "area": f"{20 + n} ha"} for n in range(20)))
    sheet = season_sheet(many, DAY).sheets[0]
    figures = [section for section in sheet.sections if isinstance(section.blocks[0], Figure)]
    assert len(figures) == FEW + 1
    (rest,) = (section for section in sheet.sections if section.heading == "The others")
    assert len(rest.blocks[0].rows) == 20 - FEW  # type: ignore[union-attr]


def told(one: Yard, today: date = DAY) -> str:
    return " ".join(render(pack(season_sheet(one, today)), Show(), "text").decode().split())


def test_an_empty_room_says_how_it_fills() -> None:
    assert "Nobody wrote down yet" in told(yard())
    assert "how much, from when to when" in told(yard())
    assert "No machine" in told(Yard.of([Title(name="T")]))
    assert "Nothing left to cut" in told(yard({}), DAY + timedelta(days=60))
