"""Tables for a spreadsheet by command: the same rows as --json has, with the yard's decimal mark."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from axlewright import store

if TYPE_CHECKING:
    from cli.conftest import Run


def read(path: Path, delimiter: str = ",") -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8-sig")), delimiter=delimiter))


@pytest.mark.parametrize(
    ("words", "key", "name", "column"),
    [
        (("corners",), "corners", "corner", "corner"),
        (("due",), "due", "at", "due at [h]"),
        (("reading", "9"), "readings", "value", "value"),
    ],
)
def test_the_same_rows_as_for_programs(
    words: tuple[str, ...], key: str, name: str, column: str, run: Run, yard: Path, tmp_path: Path
) -> None:
    to = tmp_path / "out" / "table.csv"
    ran = run(*words, "--to", str(to), "--json", "--yard", str(yard))
    assert ran.code == 0
    rows, said = read(to), json.loads(ran.out)[key]
    if key == "readings":  # the table has every line that was written; the command counts the walk-round's too
        written = {row["reading"]: row["value"] for row in rows if row["reading"]}
        assert written
        assert written.items() <= {one["reading"]: one["value"] for one in said}.items()
        return
    assert len(rows) == len(said)
    for row, one in zip(rows, said, strict=True):
        assert row[column] == ("" if one[name] is None else f"{one[name]:g}" if isinstance(one[name], float) else str(one[name]))  # fmt: skip


def test_a_yard_with_a_decimal_comma_parts_by_semicolons(run: Run, yard: Path, tmp_path: Path) -> None:
    to = tmp_path / "table.csv"
    assert run("due", "--to", str(to), "--decimal", ",", "--yard", str(yard)).out == f"Written: {to}\n"
    rows = read(to, ";")
    assert len(rows) > 3
    assert run("due", "--to", str(to), "--yard", str(yard)).code == 0
    assert len(read(to)) == len(rows)
    own = tmp_path / "own"
    store.lay_out(own, store.BLANK)
    title = own / "yard.toml"
    text = title.read_text(encoding="utf-8")
    title.write_text(text.replace('decimal = "."', 'decimal = ","'), encoding="utf-8")
    assert run("corners", "--to", str(to), "--yard", str(own)).code == 0
    assert to.read_text(encoding="utf-8-sig").startswith("corner;drive;stands;")


def test_a_formula_as_one_row(run: Run, tmp_path: Path) -> None:
    to = tmp_path / "preload.csv"
    given = ("torque=340 N·m", "diameter=20 mm", "nut-factor=0.14")
    assert run("formula", "preload-from-nut-factor", *given, "--to", str(to)).code == 0
    (row,) = read(to)
    assert row["torque [N·m]"] == "340"
    assert row["diameter [mm]"] == "20"
    assert float(row["result [kN]"]) == pytest.approx(340 / (0.14 * 0.02) / 1000)  # F = T/(K d), by hand
    comma = ("torque=340 N·m", "diameter=20 mm", "nut-factor=0,14")
    assert run("formula", "preload-from-nut-factor", *comma, "--decimal", ",", "--to", str(to)).code == 0
    assert read(to, ";")[0]["nut-factor"] == "0,14"


def test_many_values_are_many_rows(run: Run, tmp_path: Path) -> None:
    to = tmp_path / "order.csv"
    assert run("formula", "cross-order", "bolts=10", "--to", str(to)).code == 0
    rows = read(to)
    assert rows[0]["bolts"] == "10"
    assert sorted(int(row["result"]) for row in rows) == list(range(1, 11)), "each bolt once"


@pytest.mark.parametrize("name", ["corners.xlsx", "corners", "corners.pdf"])
def test_another_ending_is_said(name: str, run: Run, yard: Path) -> None:
    ran = run("corners", "--to", name, "--yard", str(yard))
    assert ran.code == 2
    assert ".csv" in ran.err
    assert not Path(name).exists()
