"""Whole yards on their way: folder, database and zip into each other and back, without loss; snapshots, and what is refused."""

from __future__ import annotations

import io
import itertools
import shutil
import stat
import zipfile
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store.conftest import New
from yard.made import whole, yards

from axlewright.store import DEMO, Store, at, lay_out
from axlewright.store.carry import hand_out, keep, put_back, take_in
from axlewright.yard import Beside, Change, Corner, Faults, Finding, Machine, Yard

AT = datetime(2026, 8, 28, 19, 30, tzinfo=UTC)
LARK = Machine(id="lark", name="Lark", note="A")
PHOTO, PACK = Beside("photos/plug.jpg", bytes(range(256)) * 9), Beside("packs/0123456789abcdef.json", b'{"a": 1}\n')
numbers = itertools.count()


def found(name: str) -> Finding:
    where = Corner("lark", "front-left")
    return Finding(id=name, finding="plug", grade="paste", corner=where, on=date(2026, 8, 2), who="owner", at=AT)


def everything(store: Store) -> dict[str, bytes]:
    """All files that a yard is made of."""
    with store.whole() as whole:
        return dict(whole.files())


def in_three_changes(store: Store) -> None:
    mark = store.write(Change((LARK,)), store.read().seen)
    mark = store.write(Change((LARK.model_copy(update={"note": "B", "who": "helper", "at": AT}),)), mark)
    store.write(Change((found("a"), found("b")), (PHOTO, PACK)), mark)


@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(yards(), st.permutations(["folder", ".db", ".zip"]))
def test_round_and_round_without_loss(tmp_path: Path, yard: Yard, way: list[str]) -> None:
    """A yard from one kind of place to the next, in any order, and back into the first."""
    place = tmp_path / f"yard-{next(numbers)}"
    lay_out(place)
    start = at(place)
    start.write(whole(yard), start.read().seen)
    start.write(Change(beside=(PHOTO, PACK)), start.read().seen)
    files = everything(start)
    for kind in [*way, "folder"]:
        to = tmp_path / f"yard-{next(numbers)}{'' if kind == 'folder' else kind}"
        if kind == ".zip":
            hand_out(start, to)
            blank = tmp_path / f"yard-{next(numbers)}"
            lay_out(blank)
            assert take_in(to, at(blank)) == yard
            start = at(blank)
        else:
            hand_out(start, to)
            start.close()
            start = at(to)
        assert everything(start) == files
        assert start.read() == yard
        assert start.file(PHOTO.name) == PHOTO.data
        assert start.beside() == (PACK.name, PHOTO.name)
    start.close()


def test_every_kind_hands_out_what_it_holds(new: New, tmp_path: Path) -> None:
    store, _ = new()
    in_three_changes(store)
    made = store.last()
    hand_out(store, tmp_path / "yard.zip")
    other, again = new()
    take_in(tmp_path / "yard.zip", other, "owner", AT)
    assert again().read() == other.read()
    assert again().last() == made
    assert other.read().machine("lark").note == "B"
    log = everything(other)["log/2026-08.txt"].decode()
    assert "helper" in log
    assert '- machine {"id":"lark","name":"Lark","note":"A"}' in log
    other.write(Change((found("c"),)), other.read().seen)
    last = other.last()
    assert last is not None
    assert made is not None
    assert last.number > made.number


def test_what_people_wrote_in_a_folder_comes_back_from_a_database(tmp_path: Path) -> None:
    """Comments, order, spelling; also after the database was written to."""
    place = tmp_path / "yard"
    shutil.copytree(DEMO, place)
    before = everything(at(place))
    hand_out(at(place), tmp_path / "yard.db")
    database = at(tmp_path / "yard.db")
    assert everything(database) == before
    linnet = database.read().machine("linnet")
    database.write(Change((linnet.model_copy(update={"note": "Sold"}),)), database.read().seen)
    after = everything(database)
    changed = {name for name in after if after[name] != before.get(name)}
    assert changed == {"machines/linnet.toml", "log/0000-00.txt"}
    assert after["machines/linnet.toml"].startswith(b"# Combine with straw walkers.")
    assert b'note = "Sold"' in after["machines/linnet.toml"]
    hand_out(database, tmp_path / "back")
    assert at(tmp_path / "back").read() == database.read()
    database.close()


def test_a_zip_has_the_same_bytes_for_the_same_yard(new: New, tmp_path: Path) -> None:
    store, again = new()
    in_three_changes(store)
    keep(store, tmp_path / "one.zip")
    keep(again(), tmp_path / "two.zip")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()


def test_a_snapshot_is_put_back_and_what_it_replaced_is_kept(new: New, tmp_path: Path) -> None:
    store, again = new()
    in_three_changes(store)
    then, files = store.read(), everything(store)
    keep(store, tmp_path / "then.zip")
    seen = store.read().seen
    mark = store.write(Change((found("later"),), (Beside("photos/late.jpg", b"x"),)), seen)
    now = everything(store)
    assert put_back(tmp_path / "then.zip", store, tmp_path / "before.zip", "owner", AT) == then
    assert again().read() == then
    assert everything(again()) == files
    assert again().file("photos/late.jpg") is None
    with pytest.raises(Faults, match=r"photos|stands here already"):  # a snapshot is never written over
        put_back(tmp_path / "then.zip", store, tmp_path / "before.zip")
    put_back(tmp_path / "before.zip", again(), tmp_path / "third.zip")
    assert everything(store) == now
    assert {f.id for f in store.read().findings} == {"a", "b", "later"}
    assert mark


def test_a_program_that_had_it_open_sees_what_was_put_back(new: New, tmp_path: Path) -> None:
    store, again = new()
    in_three_changes(store)
    keep(store, tmp_path / "then.zip")
    open_still = again()
    seen = store.write(Change((found("later"),)), store.read().seen)
    assert len(open_still.read().findings) == 3
    put_back(tmp_path / "then.zip", store, tmp_path / "before.zip")
    assert len(open_still.read().findings) == 2
    assert store.read().seen != seen


def test_sqlite_is_kept_as_a_database_too(tmp_path: Path) -> None:
    lay_out(tmp_path / "yard.db")
    store = at(tmp_path / "yard.db")
    in_three_changes(store)
    keep(store, tmp_path / "kept.db")
    copy = at(tmp_path / "kept.db")
    assert copy.read() == store.read()
    assert copy.last() == store.last()
    copy.close()
    assert sorted(one.name for one in tmp_path.glob("kept*")) == ["kept.db"]
    put_back(tmp_path / "kept.db", store, tmp_path / "before.db")
    assert everything(store) == everything(at(tmp_path / "before.db"))


def test_into_a_yard_that_holds_something_nothing_is_taken(new: New, tmp_path: Path) -> None:
    store, _ = new()
    in_three_changes(store)
    keep(store, tmp_path / "yard.zip")
    other, _ = new()
    other.write(Change((Machine(id="wren", name="Wren"),)), other.read().seen)
    before = everything(other)
    with pytest.raises(Faults, match="holds records already"):
        take_in(tmp_path / "yard.zip", other)
    assert everything(other) == before


def zipped(tmp_path: Path, files: dict[str, bytes], change: Callable[[zipfile.ZipInfo], Any] = lambda _: None) -> Path:
    to = tmp_path / "made.zip"
    with zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED) as out:
        for name, data in files.items():
            entry = zipfile.ZipInfo(name)
            entry.compress_type = zipfile.ZIP_DEFLATED
            change(entry)
            out.writestr(entry, data)
    return to


GOOD = {"yard.toml": b'name = "T"\n'}


@pytest.mark.parametrize(
    ("files", "says"),
    [
        ({**GOOD, "../evil.toml": b"x = 1\n"}, "leads out of the yard"),
        ({**GOOD, "machines/../../evil.toml": b""}, "leads out of the yard"),
        ({**GOOD, "/etc/evil.toml": b""}, "leads out of the yard"),
        ({**GOOD, "c:evil.toml": b""}, "leads out of the yard"),
        ({**GOOD, "machines\\evil.toml": b""}, "leads out of the yard"),
        ({**GOOD, "program.exe": b"MZ"}, "no place in a yard"),
        ({**GOOD, "photos/deep/a.jpg": b""}, "no place in a yard"),
        ({**GOOD, ".axlewright/written/yard.toml": b""}, "no place in a yard"),
        ({**GOOD, "photos/bomb.jpg": bytes(60_000_000)}, "longer than it can be"),
        ({**GOOD, "machines/long.toml": b"#" * 2_000_000}, "MB long"),
        ({"my-yard/yard.toml": b'name = "T"\n'}, "Zip what is inside my-yard"),
        ({"letter.txt": b"Dear"}, "this is no yard"),
        ({**GOOD, "machines/lark.toml": b'name = "Lark"\nclocks = "none"\n'}, r"machines/lark\.toml, line 2"),
        ({**GOOD, "Yard.toml": b'name = "U"\n'}, "in there twice"),
    ],
)
def test_a_zip_that_is_no_yard_is_refused_whole(tmp_path: Path, files: dict[str, bytes], says: str) -> None:
    lay_out(tmp_path / "y")
    store = at(tmp_path / "y")
    before = everything(store)
    with pytest.raises(Faults, match=says):
        take_in(zipped(tmp_path, files), store)
    assert everything(store) == before
    assert not list(tmp_path.rglob("evil.toml"))


def test_a_link_in_a_zip_is_refused(tmp_path: Path) -> None:
    lay_out(tmp_path / "y")

    def link(entry: zipfile.ZipInfo) -> None:
        entry.create_system = 3
        entry.external_attr = (stat.S_IFLNK | 0o777) << 16

    with pytest.raises(Faults, match="a link, not a file"):
        take_in(zipped(tmp_path, GOOD, link), at(tmp_path / "y"))


def test_a_zip_that_lies_or_is_torn_is_refused(tmp_path: Path) -> None:
    """Cut short anywhere, or with a byte changed: in words, and nothing half taken."""
    lay_out(tmp_path / "y")
    store = at(tmp_path / "y")
    in_three_changes(store)
    keep(store, tmp_path / "whole.zip")
    data = (tmp_path / "whole.zip").read_bytes()
    lay_out(tmp_path / "blank")
    blank = at(tmp_path / "blank")
    before = everything(blank)
    torn = tmp_path / "torn.zip"
    spoilt = [data[:cut] for cut in range(0, len(data), len(data) // 12)]
    spoilt += [data[:n] + bytes([data[n] ^ 255]) + data[n + 1 :] for n in range(40, len(data) // 2, len(data) // 12)]
    for one in spoilt:
        torn.write_bytes(one)
        with pytest.raises(Faults):
            take_in(torn, blank)
        assert everything(blank) == before


def test_a_snapshot_that_cannot_be_written_leaves_nothing(tmp_path: Path) -> None:
    lay_out(tmp_path / "y")
    with pytest.raises(Faults, match=r"a \.zip or a \.db"):
        keep(at(tmp_path / "y"), tmp_path / "y.tar")
    with pytest.raises(Faults):
        keep(at(tmp_path / "y"), tmp_path / "nowhere" / "y.zip")
    (tmp_path / "there.zip").write_bytes(b"mine")
    with pytest.raises(Faults, match="stands here already"):
        keep(at(tmp_path / "y"), tmp_path / "there.zip")
    assert (tmp_path / "there.zip").read_bytes() == b"mine"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["there.zip", "y"]


def test_a_zip_reads_by_any_program(tmp_path: Path) -> None:
    lay_out(tmp_path / "y", DEMO)
    keep(at(tmp_path / "y"), tmp_path / "y.zip")
    with zipfile.ZipFile(io.BytesIO((tmp_path / "y.zip").read_bytes())) as opened:
        assert opened.testzip() is None
        opened.extractall(tmp_path / "out")
    assert at(tmp_path / "out").read() == at(DEMO).read()
