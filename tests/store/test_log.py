"""The log of a folder: text that a person reads, honest about what was edited past it, and never in anybody's way."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from axlewright.store import Folder, lay_out
from axlewright.yard import Beside, Change, Corner, Faults, Finding, Machine

LARK = Machine(id="lark", name="Lark")
AT = datetime(2026, 8, 28, 19, 30, tzinfo=UTC)


def found(name: str, at: datetime | None = AT) -> Finding:
    where = Corner("lark", "front-left")
    return Finding(id=name, finding="plug", grade="paste", corner=where, on=date(2026, 8, 2), who="owner", at=at)


def write(store: Folder, *records: Machine | Finding, beside: tuple[Beside, ...] = ()) -> None:
    store.write(Change(records, beside), store.read().seen)


@pytest.fixture
def store(tmp_path: Path) -> Folder:
    lay_out(tmp_path / "yard")
    return Folder(tmp_path / "yard")


def test_it_reads_like_a_diary(store: Folder) -> None:
    write(store, LARK)
    write(store, LARK.model_copy(update={"note": "Bought used", "who": "owner", "at": AT}))
    write(store, found("9c41"), beside=(Beside("photos/plug.jpg", b"x"),))
    told = (store.path / "log" / "2026-08.txt").read_text(encoding="utf-8").split("\n")
    mark = store.read().seen
    assert told[1] == '- machine {"id":"lark","name":"Lark"}'
    assert told[2].startswith('+ machine {"id":"lark","who":"owner","at":"2026-08-28T19:30:00Z","name":"Lark"')
    assert told[4] == f"change 3, mark {mark}, 2026-08-28T19:30:00Z, owner"
    assert told[6] == "= photos/plug.jpg"


def test_an_edit_by_hand_is_seen_and_hinders_nothing(store: Folder) -> None:
    write(store, LARK)
    made = store.last()
    assert made is not None
    assert not made.edited
    file = store.path / "machines" / "lark.toml"
    file.write_text(file.read_text(encoding="utf-8").replace("Lark", "Lark the second"), encoding="utf-8")
    made = store.last()
    assert made is not None
    assert made.edited
    write(store, found("a"))
    made = store.last()
    assert made is not None
    assert (made.number, made.edited) == (2, False)


def test_a_month_has_its_file_and_the_last_change_stays_last(store: Folder) -> None:
    write(store, LARK)
    write(store, found("a"))
    write(store, found("b", datetime(2026, 9, 1, tzinfo=UTC)))
    write(store, found("c", datetime(2026, 7, 1, tzinfo=UTC)))  # a clock that was put back
    assert sorted(one.name for one in (store.path / "log").iterdir()) == ["0000-00.txt", "2026-08.txt", "2026-09.txt"]
    made = store.last()
    assert made is not None
    assert (made.number, made.added) == (4, (found("c", datetime(2026, 7, 1, tzinfo=UTC)),))


def test_a_log_taken_away_loses_nothing(store: Folder) -> None:
    write(store, LARK)
    (store.path / "log" / "0000-00.txt").unlink()
    assert store.last() is None
    write(store, found("a"))
    made = store.last()
    assert made is not None
    assert (made.number, made.added) == (1, (found("a"),))


@pytest.mark.parametrize(
    "spoilt", ["scribble", "+ machine {}", "+ nothing {}", '+ machine {"id":"UPPER","name":"x"}', "+ machine {"]
)
def test_a_spoilt_line_is_named(store: Folder, spoilt: str) -> None:
    write(store, LARK)
    file = store.path / "log" / "0000-00.txt"
    file.write_text(file.read_text(encoding="utf-8") + spoilt + "\n", encoding="utf-8")
    with pytest.raises(Faults, match=r"log/0000-00.txt, line 3: This is no line of the log"):
        store.last()
    assert store.read().machine("lark")


def test_a_word_that_looks_like_a_head_is_none(store: Folder) -> None:
    write(store, LARK.model_copy(update={"note": "change 77, mark 1, -, nobody"}))
    write(store, found("a"))
    made = store.last()
    assert made is not None
    assert made.number == 2
