"""take-in as a person types it: a preview, a file whole or not at all, taken back, an address with a token."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from desk.intake.portal import ok, portal
from desk.intake.test_telematics import fleet, machine

from axlewright import store
from axlewright.store import carry
from cli.conftest import Run

TABLES = Path(__file__).parents[2] / "docs" / "how-to" / "tables"


def texts(yard: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in yard.rglob("*.toml")}


def test_a_preview_writes_nothing_and_what_comes_then_is_what_it_said(run: Run, yard: Path) -> None:
    before = texts(yard)
    table = str(TABLES / "hours.csv")
    ran = run("take-in", table, "--preview", "--yard", str(yard), "--json")
    said = json.loads(ran.out)
    assert ran.code == 0
    assert (len(said["new"]), said["wrong"], said["kept"]) == (3, [], False)
    assert texts(yard) == before
    ran = run("take-in", table, "--yard", str(yard), "--as", "owner")
    assert ran.code == 0, ran.err
    assert "3 new. take-back takes it back." in ran.out
    kept = store.at(yard).read()
    assert sum(one.note.startswith("from hours.csv") or "photo" in one.note for one in kept.clock_readings) >= 3
    again = run("take-in", table, "--yard", str(yard))
    assert "0 new, 3 kept already. Nothing was written." in again.out


def test_every_table_of_the_docs_comes_in_and_is_taken_back_in_one_go(run: Run, yard: Path) -> None:
    before = store.at(yard).read()
    for name in ("hours", "oil", "machines", "rain"):
        more = ("--unit", "rain=mm", "--station", "Low Meadow") if name == "rain" else ()
        ran = run("take-in", str(TABLES / f"{name}.csv"), *more, "--yard", str(yard))
        assert ran.code == 0, ran.err
        after = store.at(yard).read()
        assert after != before
        assert run("take-back", "--yard", str(yard)).code == 0
        undone = store.at(yard).read()
        for what in ("machines", "clock_readings", "oil_samples", "rains", "drives"):
            assert getattr(undone, what) == getattr(before, what), name
        assert run("take-in", str(TABLES / f"{name}.csv"), *more, "--yard", str(yard)).code == 0
        assert store.at(yard).read() != undone, "taken back, it can come again"
        before = store.at(yard).read()


def test_one_wrong_line_keeps_the_whole_file_out(run: Run, yard: Path, tmp_path: Path) -> None:
    table = tmp_path / "mixed.csv"
    table.write_text((TABLES / "hours.csv").read_text(encoding="utf-8") + "Lark;26.08.2026;12;\n", encoding="utf-8")
    before = texts(yard)
    ran = run("take-in", str(table), "--yard", str(yard))
    assert ran.code == 2
    assert "mixed.csv, line 5, Machine: No machine “Lark”" in ran.err
    assert texts(yard) == before
    preview = run("take-in", str(table), "--yard", str(yard), "--preview")
    assert preview.code == 2
    assert "--leave-out-bad-lines" in preview.out
    ran = run("take-in", str(table), "--yard", str(yard), "--leave-out-bad-lines")
    assert ran.code == 0
    assert "3 new, 1 left out" in ran.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("rain.csv",), "Say --unit rain=UNIT (mm, cm or in)"),
        (("rain.csv", "--unit", "rain"), "is no pair"),
        (("rain.csv", "--unit", "rain=furlong"), "no unit of rain"),
        (("rain.csv", "--column", "colour=x"), "no column colour"),
        (("nowhere.csv",), "cannot be read"),
        ((".",), "is a folder"),
        ((), "Name a file"),
        (("hours.csv", "--token-from", "X"), "needs no token"),
        (("http://portal.example/Fleet",), "plain http"),
        (("https://portal.example/", "--token-from", "NO_SUCH"), "no environment variable"),
        (("yard.zip",), "no such file"),
        (("yard.zip", "--preview"), "whole yard"),
    ],
)
def test_what_cannot_be_is_said_in_a_line(
    words: tuple[str, ...], says: str, run: Run, yard: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = texts(yard)
    monkeypatch.chdir(TABLES)
    ran = run("take-in", *words, "--yard", str(yard))
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err
    assert texts(yard) == before


def test_hours_by_address_and_the_token_stands_nowhere(run: Run, yard: Path, tmp_path: Path) -> None:
    secret = "t0k-SECRET-en"
    (tmp_path / "token").write_text(secret, encoding="utf-8")
    with (yard / "machines" / "wren.toml").open("r+", encoding="utf-8") as file:
        text = file.read()
        file.seek(0)
        file.write('numbers = ["W-9"]\n' + text)
    page = ok(fleet(machine("W-9", "186.5")))
    with portal(lambda line, path: line.sendall(page)) as (address, asked):
        ran = run("take-in", f"{address}/Fleet", "--token-from", "token", "--yard", str(yard))
    assert ran.code == 0, ran.err
    assert secret in asked[0]
    assert any(
        one.hours == pytest.approx(186.5) for one in store.at(yard).read().clock_readings if one.machine == "wren"
    )
    everything = b"".join(path.read_bytes() for path in yard.rglob("*") if path.is_file())
    assert secret.encode() not in everything
    assert secret not in ran.out + ran.err


def test_a_whole_yard_comes_into_a_blank_one(run: Run, yard: Path, tmp_path: Path) -> None:
    carry.hand_out(store.at(yard), tmp_path / "all.zip")
    run("lay-out", "new")
    ran = run("take-in", "all.zip", "--yard", "new")
    assert ran.code == 0, ran.err
    assert store.at(tmp_path / "new").read() == store.at(yard).read()
    assert run("take-in", "all.zip", "--yard", "new").code == 2


def test_the_list_names_every_table_and_column(run: Run) -> None:
    ran = run("take-in", "--list")
    assert all(word in ran.out for word in ("machines", "hours", "oil", "rain", "mm or cm or in", "precipitation"))
    assert set(json.loads(run("take-in", "--list", "--json").out)["tables"]) == {"machines", "hours", "oil", "rain"}
