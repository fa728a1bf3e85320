"""Seasons: the newest work counts, what is over is left out, and every mistake in a file is named with its line."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from axlewright.store import DEMO, Folder, lay_out
from axlewright.trade.seasons import ANY, climates, crops, pace, paces
from axlewright.yard import Change, Faults, Season, Stated, Work, Yard

TODAY = date(2026, 8, 28)
GOOD = """climate = "ordinary"

[[work]]
machine = "lark"
crop = "barley"
area = "40 ha"
starts = 2026-07-10
ends = 2026-08-01
"""


@pytest.fixture
def place(tmp_path: Path) -> Path:
    lay_out(tmp_path / "y")
    (tmp_path / "y/machines/lark.toml").write_text('name = "Lark"\n', encoding="utf-8")
    return tmp_path / "y"


def read(place: Path, season: str = GOOD) -> Yard:
    (place / "seasons/2026.toml").write_text(season, encoding="utf-8")
    return Folder(place, TODAY).read()


def faults(place: Path, season: str) -> list[str]:
    with pytest.raises(Faults) as bad:
        read(place, season)
    return [str(one) for one in bad.value.faults]


def test_a_season_is_read_with_its_work(place: Path) -> None:
    yard = read(place)
    assert [one.id for one in yard.seasons] == ["2026"]
    ((work, season),) = yard.work_of("lark", date(2026, 7, 1))
    assert (work.crop, work.area.value, season.climate) == ("barley", "40 ha", "ordinary")
    assert yard.work_of("lark", date(2026, 8, 2)) == ()


def test_a_newer_row_of_the_same_work_stands_in_place_of_the_older_one(place: Path) -> None:
    newer = GOOD + '\n[[work]]\non = 2026-07-20\nmachine = "lark"\ncrop = "barley"\narea = "40 ha"\ndone = "25 ha"\nstarts = 2026-07-10\nends = 2026-08-01\n'  # fmt: skip
    ((work, _),) = read(place, newer).work_of("lark", date(2026, 7, 21))
    assert work.done == Stated(value="25 ha")


def test_crops_come_in_the_order_in_which_they_ripen() -> None:
    rows = [
        Work(id=str(n), season="2026", machine="a", crop=c, area=Stated(value="1 ha"), starts=s, ends=date(2026, 12, 1))
        for n, (c, s) in enumerate([("soybean", date(2026, 9, 20)), ("wheat", date(2026, 8, 1))])
    ]
    yard = Yard.of([*Folder(DEMO).read().records, *rows])
    assert [one.crop for one, _ in yard.work_of("a", date(2026, 7, 1))] == ["wheat", "soybean"]


def test_work_written_by_the_program_stands_at_the_end_of_its_season(place: Path) -> None:
    yard = read(place)
    work = Work(id="w2", season="2026", machine="lark", crop="oats", area=Stated(value="9 ha"), starts=date(2026, 8, 1), ends=date(2026, 8, 20), who="owner")  # fmt: skip
    store = Folder(place, TODAY)
    store.write(Change((Season(id="2027"), work)), yard.seen)
    again = store.read()
    assert work in again.works
    assert [one.id for one in again.seasons] == ["2026", "2027"]
    assert (place / "seasons/2026.toml").read_text(encoding="utf-8").startswith(GOOD)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('"lark"', '"lork"', "seasons/2026.toml, line 4: There is no machine lork. Did you mean lark?"),
        ('"barley"', '"corn"', "seasons/2026.toml, line 5: There is no crop corn. Did you mean grain-maize?"),
        ('"ordinary"', '"ordinry"', "seasons/2026.toml, line 1: There is no climate ordinry. Did you mean ordinary?"),
        ('"40 ha"', '"40 t"', "seasons/2026.toml, line 6: "),
        ('"40 ha"', '"0 ha"', "seasons/2026.toml, line 6: 0 ha is nothing to cut by."),
        ("2026-08-01", "2026-07-01", "It is ripe on 2026-07-10 and over on 2026-07-01"),
        ('"40 ha"', '"40 ha"\ndone = "50 ha"', "seasons/2026.toml, line 7: 50 ha done of 40 ha."),
        ('"40 ha"', '"40 ha"\non = 2026-09-01', "seasons/2026.toml, line 7: 2026-09-01 has not come yet"),
        ('"40 ha"', '"40 ha"\nsecond = "finch"', "seasons/2026.toml, line 7: There is no machine finch."),
        ('"40 ha"', '"40 ha"\nhours_a_day = "30 h"', "seasons/2026.toml, line 7: So long no machine cuts in a day."),
        ('"40 ha"', '"40 ha"\nprice = "3"', "There is no price here."),
    ],
)
def test_a_mistake_is_named_with_its_line(place: Path, old: str, new: str, says: str) -> None:
    assert any(says in one for one in faults(place, GOOD.replace(old, new))), faults(place, GOOD.replace(old, new))


def test_mistakes_of_a_season_all_come_at_once(place: Path) -> None:
    assert len(faults(place, GOOD.replace("lark", "x").replace("40 ha", "4 t").replace("barley", "hops"))) == 3


def test_the_rows_of_the_trade_hold_together() -> None:
    for crop in crops().values():
        assert crop.delay.low < crop.delay.likely < crop.delay.high < 0.05 / 86400
        assert 0 < crop.most < 1
    for climate in climates().values():  # a chain of days: neither chance leaves 0 to 1
        spell = climate.spell / 86400
        assert 0 <= climate.share / ((1 - climate.share) * spell) <= 1
    assert pace("no such machine") is paces()[ANY]
