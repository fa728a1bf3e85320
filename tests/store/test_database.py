"""A yard in a database: its schema step by step, what it refuses, and what a full disk or a cut does to it."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import event, text
from sqlalchemy.exc import DBAPIError
from store.conftest import New

from axlewright.store import DEMO, at, lay_out
from axlewright.store._engine import engine_of, url_of, writing
from axlewright.store._migrate import script, upgrade
from axlewright.store._schema import ARRIVED, NEWEST, OLDER, tables
from axlewright.store.carry import renew
from axlewright.store.database import Database, add, step_of
from axlewright.yard import Beside, Change, Corner, Faults, Finding, Machine, Title, Trouble, Yard

LARK = Machine(id="lark", name="Lark")
TROUBLE = Trouble(id="1", number=1, corner=Corner("lark", "front-left"), opened=date(2026, 8, 1))


def demo() -> Yard:
    return at(DEMO).read()


def found(name: str) -> Finding:
    where = Corner("lark", "front-left")
    return Finding(id=name, finding="plug", grade="paste", corner=where, on=date(2026, 8, 2), note="x" * 900)


def of_step(where: str | Path, step: str) -> str:
    """The demo yard in a database as an earlier version left it."""
    url = url_of(str(where))
    engine = engine_of(url, create=True)
    with writing(engine).connect() as connection, connection.begin():
        upgrade(connection, step)
        add(connection, 1, demo().records, note=ARRIVED)
        add(connection, 2, (LARK,), (Beside("photos/a.jpg", b"x"),))
    engine.dispose()
    return str(where)


def opened(where: str | Path) -> Database:
    store: Any = at(where)
    assert isinstance(store, Database)
    return store


# the schema
def test_the_steps_are_those_that_the_store_knows() -> None:
    steps = [one.revision for one in script().walk_revisions()]
    assert steps == [NEWEST, *reversed(OLDER)]


@pytest.mark.parametrize("kind", ["sqlite", "postgresql"])
def test_the_steps_make_the_tables_that_the_store_speaks_of(
    kind: str, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    where = str(tmp_path / "y.db") if kind == "sqlite" else request.getfixturevalue("database")
    lay_out(where)
    store = opened(where)
    with store.looking() as connection:
        assert compare_metadata(MigrationContext.configure(connection), tables) == []
    store.close()


@pytest.mark.parametrize("step", OLDER)
@pytest.mark.parametrize("kind", ["sqlite", "postgresql"])
def test_from_every_earlier_step(step: str, kind: str, tmp_path: Path, request: pytest.FixtureRequest) -> None:
    """Not touched until its owner says so; then with a snapshot first, and nothing lost."""
    where = of_step(tmp_path / "y.db" if kind == "sqlite" else request.getfixturevalue("database"), step)
    with pytest.raises(Faults, match="keep --renew"):
        opened(where).read()
    snapshot = tmp_path / ("before.db" if kind == "sqlite" else "before.zip")
    assert renew(where, snapshot) == (step, NEWEST)
    store = opened(where)
    yard = store.read()
    assert yard == demo().with_(Change((LARK,)))
    assert store.file("photos/a.jpg") == b"x"
    store.write(Change((found("f"),)), yard.seen)
    assert renew(where, tmp_path / "again.zip") is None
    assert not (tmp_path / "again.zip").exists()
    store.close()
    if kind == "sqlite":  # the snapshot is the file as it was, and can itself be brought up to date
        assert renew(str(snapshot), tmp_path / "third.db") == (step, NEWEST)
        assert opened(snapshot).read() == yard


def test_a_newer_one_is_refused_and_left_alone(tmp_path: Path) -> None:
    lay_out(tmp_path / "y.db", demo())
    with closing(sqlite3.connect(tmp_path / "y.db")) as raw:
        raw.execute("update alembic_version set version_num = '9001'")
        raw.commit()
    before = (tmp_path / "y.db").read_bytes()
    for attempt in (opened(tmp_path / "y.db").read, lambda: renew(str(tmp_path / "y.db"), tmp_path / "s.db")):
        with pytest.raises(Faults, match=r"newer version of this program .*9001"):
            attempt()
    assert (tmp_path / "y.db").read_bytes() == before


def test_a_record_of_a_sort_that_came_later_is_refused_in_words(tmp_path: Path) -> None:
    lay_out(tmp_path / "y.db")
    with closing(sqlite3.connect(tmp_path / "y.db")) as raw:
        raw.execute("insert into record values (1, 9, 'wheel', 'w', '{}')")
        raw.execute("insert into record values (1, 10, 'machine', 'w', '{\"id\": 1}')")
        raw.commit()
    with pytest.raises(Faults, match=r"not known here: wheel|machine cannot be read"):
        opened(tmp_path / "y.db").read()


@pytest.mark.parametrize("made_by", ["create table bills (x)", "create table change (x)"])
def test_another_programs_database_is_refused(tmp_path: Path, made_by: str) -> None:
    with closing(sqlite3.connect(tmp_path / "y.db")) as raw:
        raw.execute(made_by)
    for attempt in (opened(tmp_path / "y.db").read, lambda: lay_out(tmp_path / "y.db")):
        with pytest.raises(Faults, match="another program"):
            attempt()


@pytest.mark.parametrize("data", [b"", b"hello", b"SQLite format 3\0" + bytes(200)])
def test_a_file_that_is_no_database(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "y.db").write_bytes(data)
    with pytest.raises(Faults, match=r"no yard here|no database"):
        opened(tmp_path / "y.db").read()


@pytest.mark.parametrize("new", ["sqlite", "postgresql"], indirect=True)
@pytest.mark.parametrize("deed", ["update record set body = '{}'", "delete from change", "delete from beside"])
def test_the_database_itself_refuses_to_change_what_is_kept(new: New, deed: str) -> None:
    store, again = new()
    store.write(Change((LARK,), (Beside("photos/a.jpg", b"x"),)), store.read().seen)
    assert isinstance(store, Database)
    with writing(store.engine).connect() as connection, pytest.raises(DBAPIError, match="never changed"):
        connection.execute(text(deed))
    assert again().read().machine("lark")


# what a disk and a cut do
def test_a_full_disk_changes_nothing_and_is_said(tmp_path: Path) -> None:
    lay_out(tmp_path / "y.db")
    store = opened(tmp_path / "y.db")
    store.write(Change((LARK, TROUBLE)), store.read().seen)
    store.close()
    store = opened(tmp_path / "y.db")
    pages = (tmp_path / "y.db").stat().st_size // 4096 + 6
    event.listen(store.engine, "connect", lambda raw, _: raw.execute(f"pragma max_page_count={pages}"))
    store.engine.dispose()
    kept = 0
    full = ""
    while not full and kept < 99:
        try:
            store.write(Change((found(f"f{kept}"),)), store.read().seen)
            kept += 1
        except Faults as said:
            full = str(said)
    assert "The disk is full. Nothing was changed." in full
    assert kept > 0
    assert len(store.read().findings) == kept
    store.close()
    roomy = opened(tmp_path / "y.db")
    roomy.write(Change((found("later"),)), roomy.read().seen)
    assert len(opened(tmp_path / "y.db").read().findings) == kept + 1


LIMITED = """
import resource, signal, sys
from datetime import date
from axlewright.store import at
from axlewright.yard import Change, Corner, Faults, Finding
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
store = at(sys.argv[1])
yard = store.read()
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), int(sys.argv[2])))
where = Corner("lark", "front-left")
new = [Finding(id=f"f{n}", finding="plug", grade="paste", corner=where, on=date(2026, 8, 2), note="x" * 3000)
       for n in range(80)]
try:
    store.write(Change(tuple(new)), yard.seen)
except Faults as said:
    print(said)
    sys.exit(7)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="limits of POSIX")
@pytest.mark.parametrize("kind", ["yard", "yard.db"])
def test_a_file_that_may_not_grow_changes_nothing(tmp_path: Path, kind: str) -> None:
    """The system refuses to write on, in the middle of a change."""
    lay_out(tmp_path / kind)
    store = at(tmp_path / kind)
    store.write(Change((LARK,)), store.read().seen)
    before = store.read()
    store.close()
    most = "100000" if kind == "yard" else "150000"
    ran = subprocess.run(
        [sys.executable, "-c", LIMITED, str(tmp_path / kind), most], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 7, ran.stderr
    assert "Nothing was changed." in ran.stdout
    again = at(tmp_path / kind)
    assert again.read() == before
    again.write(Change((TROUBLE,)), again.read().seen)


CUT = """
import os, sys
from pathlib import Path
from sqlalchemy import event
from axlewright.store import at
from axlewright.store._engine import url_of
from axlewright.store.database import Database
import axlewright.store._migrate
for step in range(int(sys.argv[2])):
    where = f"{sys.argv[1]}-{step}.db"
    child = os.fork()
    if child == 0:
        store = Database(url_of(where), older=True)
        said = [0]
        def count(*_):
            said[0] += 1
            if said[0] > step:
                os._exit(9)  # without a word, as by a power cut
        event.listen(store.engine, "after_cursor_execute", count)
        store.renew()
        os._exit(0)
    print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="forks")
def test_a_cut_in_a_step_of_the_schema_leaves_the_old_or_the_new(tmp_path: Path) -> None:
    """Cut after each statement of it."""
    steps = 24
    first = Path(of_step(tmp_path / "first.db", OLDER[0])).read_bytes()
    for step in range(steps):
        (tmp_path / f"y-{step}.db").write_bytes(first)
    ran = subprocess.run(
        [sys.executable, "-c", CUT, str(tmp_path / "y"), str(steps)], capture_output=True, text=True, check=False
    )
    ended = [int(code) for code in ran.stdout.split()]
    assert (len(ended), {*ended}) == (steps, {0, 9}), ran.stderr
    for step, code in enumerate(ended):
        store = Database(url_of(str(tmp_path / f"y-{step}.db")), older=True)
        with store.looking() as connection:
            at_step = step_of(connection, store.name)
        assert at_step == (NEWEST if code == 0 else OLDER[0])
        assert store.read() == demo().with_(Change((LARK,)))
        store.renew()
        assert store.read() == demo().with_(Change((LARK,)))
        store.close()


def test_a_new_yard_that_was_cut_off_is_none(tmp_path: Path) -> None:
    """A name that no yard may have fails in the middle; the file can be laid out again."""
    with pytest.raises(Exception, match="cannot be"):
        _cut_short(tmp_path / "y.db")
    lay_out(tmp_path / "y.db")
    assert opened(tmp_path / "y.db").read().name


def _cut_short(place: Path) -> None:
    class Spoilt(Title):
        def model_dump_json(self, **_: Any) -> str:
            raise RuntimeError("it cannot be")

    lay_out(place, Yard(Spoilt(name="x")))


def test_what_came_meanwhile_is_read_without_reading_all(tmp_path: Path) -> None:
    """One that has it open reads what came since, and gets what one who opens it now gets."""
    lay_out(tmp_path / "y.db", demo())
    mine, theirs = opened(tmp_path / "y.db"), opened(tmp_path / "y.db")
    first = mine.read()
    assert mine.read() is first
    seen = theirs.read().seen
    for n in range(5):
        seen = theirs.write(Change((LARK.model_copy(update={"note": f"{n}"}), found(f"f{n}"))), seen)
    asked: list[str] = []
    event.listen(mine.engine, "before_cursor_execute", lambda *given: asked.append(given[2]))
    assert mine.read() == theirs.read() == opened(tmp_path / "y.db").read()
    assert mine.read().seen == seen
    assert not any("group_concat" in one for one in asked)
