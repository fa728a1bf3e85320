"""A crop is typed, typed anew, typed by two at once; the weather of a year."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from axlewright import desk, store
from axlewright.desk.seasons import CutWork, SetSeason, cut_work, set_season, standing, with_unit
from axlewright.yard import Change, Faults, Machine, Season, Stated, Title, Yard

NOW = desk.Now(datetime(2026, 8, 28, 19, 5, tzinfo=UTC), "owner", lambda: "abc123")
YARD = store.at(store.DEMO).read()
NEW = {"machine": "linnet", "crop": "soybean", "area": "20", "starts": "2026-09-20", "ends": "2026-10-20"}


def typed(**fields: str) -> CutWork:
    return desk.typed(CutWork, YARD, {**NEW, **fields})


def test_a_crop_is_written_down_once_however_often_the_form_is_sent() -> None:
    deed = typed(id="form", worth="1100", known="book", source="contract")
    yard = YARD.with_(cut_work(YARD, deed, NOW))
    work = standing(yard, "2026", "linnet", "soybean")
    assert work is not None
    assert (work.area, work.worth) == (Stated(value="20 ha", basis="book", source="contract"), Stated(value="1100 /ha", basis="book", source="contract"))  # fmt: skip
    assert not cut_work(yard, deed, NOW)


def test_what_reads_as_it_stood_keeps_how_it_was_known() -> None:
    before = standing(YARD, "2026", "linnet", "wheat")
    assert before is not None
    assert before.done is not None
    fields = {"machine": "linnet", "crop": "wheat", "area": before.area.value, "done": before.done.value, "starts": "2026-08-08", "ends": "2026-09-18", "stands": before.id}  # fmt: skip
    yard = YARD.with_(cut_work(YARD, typed(**fields), NOW))
    after = standing(yard, "2026", "linnet", "wheat")
    assert after is not None
    assert after.done == before.done
    assert (after.done.basis, after.ends) == ("measured", date(2026, 9, 18))
    assert len(yard.work_of("linnet", date(2026, 8, 28))) == 1


def test_two_at_one_crop_overwrite_nothing_in_silence() -> None:
    before = standing(YARD, "2026", "linnet", "wheat")
    assert before is not None
    fields = {"machine": "linnet", "crop": "wheat", "area": "96 ha", "stands": before.id}
    yard = YARD.with_(cut_work(YARD, typed(**fields, id="one"), desk.Now(NOW.at, "helper", NOW.new_id)))
    with pytest.raises(Faults) as bad:
        cut_work(yard, typed(**fields, id="two"), NOW)
    (fault,) = bad.value.faults
    assert fault.where == "stands"
    assert "helper" in fault.what
    with pytest.raises(Faults, match="stands there already"):
        cut_work(yard, typed(**{**fields, "stands": ""}), NOW)
    assert cut_work(yard, typed(**{**fields, "stands": "one"}, id="two"), NOW)


def test_a_year_begins_with_its_first_crop_and_is_kept_in_a_folder(tmp_path: Path) -> None:
    store.lay_out(tmp_path / "yard")
    folder = store.at(tmp_path / "yard")
    folder.write(Change((Machine(id="lark", name="Lark"),)), folder.read().seen)
    deed = desk.typed(CutWork, folder.read(), {**NEW, "machine": "Lark"})
    yard, _ = desk.carry_out(folder, lambda stands: cut_work(stands, deed, NOW))
    assert [one.id for one in yard.seasons] == ["2026"]
    assert yard.work_of("lark", date(2026, 9, 1))[0][0].crop == "soybean"
    again = desk.typed(SetSeason, yard, {"season": "2026", "climate": "wet-autumn"})
    yard, _ = desk.carry_out(folder, lambda stands: set_season(stands, again, NOW))
    assert (yard.seasons[0].climate, len(yard.works)) == ("wet-autumn", 1)


@pytest.mark.parametrize(
    ("fields", "where", "says"),
    [
        ({"machine": "linet"}, "machine", "linnet"),
        ({"crop": "maize"}, "crop", "grain-maize"),
        ({"area": ""}, "area", ""),
        ({"area": "20 t"}, "area", "area"),
        ({"area": "<b>'; DROP TABLE"}, "area", ""),
        ({"area": "9" * 400}, "area", ""),
        ({"area": "-5 ha"}, "area", "nothing"),
        ({"done": "30 ha"}, "done", "done of"),
        ({"starts": "soon"}, "starts", ""),
        ({"ends": "2026-09-01"}, "ends", "no day"),
        ({"ends": "2062-10-20"}, "ends", "right year"),
        ({"hours_a_day": "40 h"}, "hours_a_day", "16 h"),
        ({"second": "linnet"}, "work", "another one"),
        ({"season": "../../x"}, "season", ""),
        ({"note": "\u202ebackwards"}, "note", "U+202E"),
        ({"known": "sure"}, "known", ""),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(fields: dict[str, str], where: str, says: str) -> None:
    with pytest.raises(Faults) as bad:
        cut_work(YARD, typed(**fields), NOW)
    assert where in {one.where for one in bad.value.faults}
    assert says in " ".join(f"{one.what} {one.right}" for one in bad.value.faults)


def test_a_bare_number_is_in_the_measures_of_the_yard() -> None:
    assert with_unit("20", "area", "metric") == "20 ha"
    assert with_unit("20 to 30", "rate", "us") == "20 to 30 ac/h"
    assert with_unit("9 h", "hours_a_day", "metric") == "9 h"
    assert with_unit("90 %", "worth", "metric") == "90 %"


def test_a_climate_that_there_is_not() -> None:
    with pytest.raises(Faults) as bad:
        set_season(YARD, SetSeason(season="2026", climate="wet-autum"), NOW)
    assert "wet-autumn" in bad.value.faults[0].right


def test_a_reader_may_not() -> None:
    for deed in (cut_work, set_season):
        assert desk.allowed(deed, "helper")
        assert not desk.allowed(deed, "reader")


def test_seasons_are_things_of_a_yard() -> None:
    change = set_season(Yard.of([Title(name="T")]), SetSeason(season="2031", climate="ordinary"), NOW)
    assert [type(one) for one in change.records] == [Season]
