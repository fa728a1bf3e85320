"""Step cards, readings and after-checks written by hand: every mistake at once, with its file, line and what would be right."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from axlewright import store
from axlewright.yard import Faults

DAY = date(2026, 8, 28)

PLANTED = {
    'step = "ra-cleer"\nvalue = "done"': ("ra-cleer", "Did you mean ra-clear?"),
    'step = "ra-clear"\nreading = "jack-guage"\nvalue = "110 bar"': ("asks for no jack-guage", "jack-gauge"),
    'step = "ra-clear"\nreading = "jack-gauge"\nvalue = "110 mm"': ("mm is a length", "pressure"),
    'step = "ra-clear"\nreading = "jack-gauge"\nvalue = "-4 bar"': ("less than nothing", ""),
    'step = "ra-clear"\nvalue = "yes"': ("neither that it was done", 'value = "done"'),
    'step = "ra-settle"\nreading = "crib-settle"\nvalue = "1 mm"\ncorrects = "nothing"': (
        "no reading nothing to correct",
        "",
    ),
    'step = "ra-settle"\nreading = "crib-settle"\nvalue = "1 mm"\ntime = "25:10"': ("hours:minutes", "14:20"),
    'step = "wheel-nuts"\nreading = "nuts"\nvalue = "still"': ("is an after-check", ""),
    'step = "ra-settle"\nreading = "crib-settle"\nvalue = ""': ("Nothing stands here", "1 mm"),
    'step = "ra-settle"\nreading = "crib-settle"\nvalue = "1 mm"\ntaken = "heard"': ("taken", "paper"),
}


def planted(folder: Path, *rows: str) -> Faults:
    """What is said of the demo yard with these rows in a trouble of it."""
    store.lay_out(folder, store.DEMO)
    file = folder / "troubles" / "9.toml"
    file.write_text(file.read_text(encoding="utf-8") + "".join(f"\n{row}\n" for row in rows), encoding="utf-8")
    with pytest.raises(Faults) as bad:
        store.at(folder, DAY).read()
    return bad.value


def reading(row: str) -> str:
    return f"[[reading]]\n{row}\non = 2026-08-28"


@pytest.mark.parametrize("row", PLANTED)
def test_each_is_said_with_its_line_and_what_would_be_right(row: str, tmp_path: Path) -> None:
    bad = planted(tmp_path / "yard", reading(row))
    assert len(bad.faults) == 1
    (fault,) = bad.faults
    assert fault.where.startswith("troubles/9.toml, line ")
    number = int(fault.where.rpartition(" ")[2])
    written = (tmp_path / "yard" / "troubles" / "9.toml").read_text(encoding="utf-8").splitlines()
    assert number > len(written) - 10
    for words in PLANTED[row]:
        assert words in str(fault)


def test_all_of_them_are_said_at_once(tmp_path: Path) -> None:
    bad = planted(tmp_path / "yard", *(reading(row) for row in PLANTED))
    assert len(bad.faults) == len(PLANTED)
    assert len({fault.where for fault in bad.faults}) == len(PLANTED)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ('[[step_card]]\ncourse = "reseal"\njob = "swap-sadle"\non = 2026-08-28', "swap-saddle"),
        ('[[step_card]]\ncourse = "reseal"\njob = "swap-saddle"\nwhen = ["brakes"]\non = 2026-08-28', "no brakes"),
        ('[[step_card]]\ncourse = "hope"\njob = "swap-saddle"\non = 2026-08-28', "hire out"),
        ('[[step_card]]\ncourse = "reseal"\njob = "swap-saddle"\non = 2026-08-28\nbands = [{ reading = "x", unit = "mm" }]', "No reading x"),
        ('[[after_check]]\nlook = "wheel-nut"\nset_down = 10\ndue = [11]\non = 2026-08-28', "wheel-nuts"),
        ('[[after_check]]\nlook = "wheel-nuts"\nset_down = 10\ndue = [11, 9]\non = 2026-08-28', "each later than the one before"),
        ('[[after_check]]\nlook = "wheel-nuts"\nset_down = 10\non = 2026-08-28', "due = [2651, 2660]"),
        ('[[after_check]]\nlook = "wheel-nuts"\nset_down = 10\ndue = [11]\non = 2026-09-28', "has not come yet"),
    ],
)  # fmt: skip
def test_cards_and_after_checks_too(row: str, says: str, tmp_path: Path) -> None:
    bad = planted(tmp_path / "yard", row)
    assert len(bad.faults) == 1
    assert says in str(bad.faults[0])
    assert "troubles/9.toml" in bad.faults[0].where


def test_a_hold_ticked_in_the_file_is_not_passed_by_it(tmp_path: Path) -> None:
    from axlewright.plan.in_hand.worked import worked

    store.lay_out(tmp_path / "yard", store.DEMO)
    file = tmp_path / "yard" / "troubles" / "9.toml"
    ticks = [
        reading(f'step = "{step}"\nvalue = "done"')
        for step in ("ra-band", "ra-up", "ra-pack", "ra-seat-hold", "ra-down")
    ]
    file.write_text(file.read_text(encoding="utf-8") + "".join(f"\n{row}\n" for row in ticks), encoding="utf-8")
    yard = store.at(tmp_path / "yard").read()
    stands = worked(yard, yard.trouble(9))
    assert stands
    assert not {"ra-band", "ra-up", "ra-down"} & stands.done.keys()
    assert stands.now
    assert stands.now.task.id == "ra-band"
