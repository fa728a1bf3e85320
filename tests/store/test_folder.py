"""A yard as text: what a person wrote stays as it was written, whatever is added beside it."""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from yard.made import whole, yards

from axlewright.store import DEMO, Folder, _safe, at, lay_out
from axlewright.yard import Answer, Change, ClockReading, Corner, Faults, Finding, Machine, Stage, Trouble, Yard

TODAY = date(2026, 8, 28)
LARK = Machine(id="lark", name="Lark")
LEFT = Corner("lark", "front-left")


def found(name: str, **more: object) -> Finding:
    fields = {"id": name, "finding": "plug", "grade": "paste", "corner": LEFT, "on": date(2026, 8, 2)}
    return Finding.model_validate({**fields, **more})


@pytest.fixture
def place(tmp_path: Path) -> Path:
    lay_out(tmp_path / "yard")
    return tmp_path / "yard"


def add(place: Path, *records: object) -> None:
    store = Folder(place, TODAY)
    store.write(Change(records), store.read().seen)  # type: ignore[arg-type]


MACHINE = """\
# hers, not mine
name   =   'Lark'        # the small one
clocks = [ "engine" ]    # one is enough

readings = [
    {hours=100, clock="engine", on=2026-05-01},   # spring
  # the summer reading is lost

  { on = 2026-07-01, clock = "engine", hours = 150 },
]
# weighed it once, ticket in the drawer
mass = "9 t"
"""
TROUBLE = """\
# wet again
corner = "lark/front-left"
opened = 2026-08-01

[[stage]]  # dusk
stage = "seen"
on = 2026-08-01

# what she saw
[[finding]]
finding = "plug"   # drew it
grade = "thick"
on = 2026-08-01
note = '''
[[finding]]
grade = "none" '''
# the end
"""


def by_hand(place: Path) -> None:
    (place / "machines/lark.toml").write_text(MACHINE, encoding="utf-8")
    (place / "troubles/3.toml").write_text(TROUBLE, encoding="utf-8")


def test_what_a_person_wrote_is_read(place: Path) -> None:
    by_hand(place)
    yard = Folder(place, TODAY).read()
    assert [r.hours for r in yard.clock_readings] == [100, 150]
    assert yard.trouble(3).id == "3"
    (only,) = yard.findings
    assert (only.corner, only.trouble, only.grade) == (LEFT, 3, "thick")
    assert only.note.startswith("[[finding]]")


def test_what_is_added_leaves_every_line_as_it_was(place: Path) -> None:
    by_hand(place)
    reading = ClockReading(id="r", machine="lark", on=date(2026, 8, 2), hours=170.5, clock="engine", about=2)
    judged = Stage(id="s", trouble=3, stage="judged", on=date(2026, 8, 2), note="two\nlines")
    add(place, reading, judged, found("f", trouble=3))
    machine = (place / "machines/lark.toml").read_text(encoding="utf-8")
    new = '  { on = 2026-08-02, hours = 170.5, clock = "engine", about = 2, id = "r" },\n'
    assert machine == MACHINE.replace("hours = 150 },\n", "hours = 150 },\n" + new)
    assert (place / "troubles/3.toml").read_text(encoding="utf-8") == TROUBLE + (
        '\n[[stage]]\nstage = "judged"\non = 2026-08-02\nnote = """two\nlines"""\nid = "s"\n'
        '\n[[finding]]\nfinding = "plug"\ngrade = "paste"\non = 2026-08-02\nid = "f"\n'
    )


def test_a_changed_machine_changes_its_own_keys_alone(place: Path) -> None:
    by_hand(place)
    old = Folder(place, TODAY).read().machine("lark")
    add(place, old.model_copy(update={"name": "Lark II", "mass": None, "note": "sold the cab"}))
    wanted = MACHINE.replace("'Lark'", '"Lark II"').replace('mass = "9 t"\n', "")
    machine = (place / "machines/lark.toml").read_text(encoding="utf-8")
    assert [line for line in machine.splitlines() if "note" not in line] == wanted.splitlines()
    assert 'note = "sold the cab"' in machine.splitlines()


def test_line_ends_of_windows_stay(place: Path) -> None:
    by_hand(place)
    file = place / "troubles/3.toml"
    file.write_bytes(TROUBLE.replace("\n", "\r\n").encode())
    add(place, found("f", trouble=3, note="one\ntwo"))
    data = file.read_bytes()
    assert data.count(b"\n") == data.count(b"\r\n") > TROUBLE.count("\n")
    assert {f.note for f in Folder(place).read().findings} == {'[[finding]]\ngrade = "none"', "one\ntwo"}


def test_a_byte_order_mark_does_no_harm(place: Path) -> None:
    (place / "machines/lark.toml").write_bytes(b"\xef\xbb\xbf" + MACHINE.encode())
    add(place, LARK.model_copy(update={"name": "Lark II"}))
    assert Folder(place).read().machine("lark").name == "Lark II"


def test_a_file_may_be_called_as_one_likes_when_it_says_its_id(place: Path) -> None:
    (place / "machines/The small one.toml").write_text('id = "lark"\nname = "Lark"\n', encoding="utf-8")
    add(place, LARK.model_copy(update={"note": "found"}))
    assert not (place / "machines/lark.toml").exists()
    assert Folder(place).read().machine("lark").note == "found"


def test_a_finding_without_an_id_keeps_the_one_made_from_its_words(place: Path) -> None:
    by_hand(place)
    (first,) = Folder(place).read().findings
    add(place, found("f", trouble=3))
    file = place / "troubles/3.toml"
    file.write_text(file.read_text(encoding="utf-8") + "\n# more\n", encoding="utf-8")
    assert first in Folder(place).read().findings


def test_the_same_line_twice_is_one_finding(place: Path) -> None:
    by_hand(place)
    file = place / "troubles/3.toml"
    row = '\n[[finding]]\nfinding = "level"\ngrade = "low"\non = 2026-08-01\n'
    file.write_text(TROUBLE + row + row, encoding="utf-8")
    assert len(Folder(place).read().findings) == 2


def test_examples_of_a_new_yard_are_no_records_and_hold_together_when_uncommented(tmp_path: Path) -> None:
    """Whoever takes all the # away gets a yard without a mistake: an example that does not fit teaches mistakes."""
    lay_out(tmp_path / "new")
    assert len(Folder(tmp_path / "new").read().records) == 1
    names = {
        "machines": "bramble",
        "designs": "two-stage",
        "drives": "bramble-left",
        "troubles": "1",
        "looks": "bramble",
    }
    for folder, name in names.items():
        text = (tmp_path / "new" / folder / "example.toml").read_text(encoding="utf-8")
        lines = [line.removeprefix("# ").removeprefix("#") for line in text.splitlines()]
        toml = [line for line in lines if line.startswith(("[", "]", " ")) or " = " in line.split("#")[0]]
        (tmp_path / "new" / folder / f"{name}.toml").write_text("\n".join(toml), encoding="utf-8")
    yard = Folder(tmp_path / "new", TODAY).read()
    assert len(yard.clock_readings) == 3
    assert {f.grade for f in yard.standing} == {"at-mark", "thick"}
    assert yard.drive_at(Corner("bramble", "front-left"))


def test_an_answer_goes_to_the_end_of_its_thing_s_file_and_all_else_stays(tmp_path: Path) -> None:
    lay_out(tmp_path / "y", DEMO)
    store = Folder(tmp_path / "y", TODAY)
    homes = {
        "machines/bramble.toml": {"machine": "bramble", "name": "machine/lift-height", "value": "518 mm"},
        "designs/drop-box.toml": {"design": "drop-box", "name": "drive/mass", "value": "191 kg"},
        "troubles/8.toml": {"trouble": 8, "name": "bolts/turns-by-hand", "value": "12"},
        "yard.toml": {"name": "hoist/plate", "value": "0.9 t"},
    }
    before = {path: path.read_text(encoding="utf-8") for path in (tmp_path / "y").rglob("*.toml")}
    answers = [Answer.model_validate({"id": f"a{n}", "on": TODAY, **fields}) for n, fields in enumerate(homes.values())]
    store.write(Change(tuple(answers)), store.read().seen)
    assert set(answers) <= set(store.read().answers)
    for path, text in before.items():
        after = path.read_text(encoding="utf-8")
        name = path.relative_to(tmp_path / "y").as_posix()
        if name in homes:
            value = homes[name]["value"]
            assert after.startswith(text)
            assert (
                after.removeprefix(text)
                .strip()
                .startswith(f'[[answer]]\nname = "{homes[name]["name"]}"\nvalue = "{value}"')
            )
        else:
            assert after == text


def test_laying_out_never_writes_over_anything(tmp_path: Path) -> None:
    (tmp_path / "notes").mkdir()
    (tmp_path / "notes" / "mine.txt").write_text("keep", encoding="utf-8")
    (tmp_path / "file").write_text("keep", encoding="utf-8")
    for taken in ("notes", "file"):
        with pytest.raises(Faults, match="Something stands here already"):
            lay_out(tmp_path / taken)
    assert sorted(p.name for p in tmp_path.rglob("*")) == ["file", "mine.txt", "notes"]
    (tmp_path / "empty").mkdir()
    lay_out(tmp_path / "empty")
    lay_out(tmp_path / "a" / "b c" / "ü")
    assert Folder(tmp_path / "a" / "b c" / "ü").read().name


def with_comments(place: Path, comment: Callable[[int], str]) -> dict[Path, list[str]]:
    """A comment put before every header and key of every file, and which ones each file holds."""
    from axlewright.store._lines import Lines

    kept = {}
    for file in place.rglob("*.toml"):
        lines = file.read_text(encoding="utf-8").split("\n")
        starts = {s.first - 1 for s in Lines("\n".join(lines)).statements}
        kept[file] = [comment(n) for n in sorted(starts)]
        out = [line for n, text in enumerate(lines) for line in ([comment(n)] if n in starts else []) + [text]]
        file.write_text("\n".join(out), encoding="utf-8")
    return kept


@settings(max_examples=20)
@given(yards(), yards(), st.text("abc#'\"[]={}\\ ü🚜", max_size=12))
def test_comments_stay_in_their_order_whatever_is_added(yard: Yard, more: Yard, words: str) -> None:
    place = Path(tempfile.mkdtemp())
    try:
        lay_out(place / "y")
        store = Folder(place / "y", TODAY)
        store.write(whole(yard), store.read().seen)
        kept = with_comments(place / "y", lambda n: f"# {n} {words}")
        assert store.read() == yard
        added = [r for r in (*more.findings, *more.stages) if r.id not in {o.id for o in yard.records}]
        here = next(iter(yard.corners), None)
        fitted = [
            r.model_copy(
                update={"corner": here, "drive": None, "trouble": None, "hours": None, "clock": None, "about": 0}
            )
            for r in added
            if isinstance(r, Finding) and here
        ]
        notes = [m.model_copy(update={"note": "changed"}) for m in yard.machines]
        change = Change((*fitted, *notes))
        store.write(change, store.read().seen)
        assert store.read() == yard.with_(change)
        for file, comments in kept.items():
            lines = [line for line in file.read_text(encoding="utf-8").split("\n") if line in set(comments)]
            assert lines == comments
    finally:
        shutil.rmtree(place)


def test_other_files_are_let_be(place: Path) -> None:
    (place / "photos").mkdir()
    (place / "photos" / "plug.jpg").write_bytes(b"\xff\xd8\0\0")
    (place / ".git").mkdir()
    (place / ".git" / "x.toml").write_text("nonsense", encoding="utf-8")
    (place / "notes.txt").write_text("milk", encoding="utf-8")
    seen = Folder(place).read().seen
    (place / "notes.txt").write_text("bread", encoding="utf-8")
    assert Folder(place).read().seen == seen


def test_a_full_disk_changes_nothing(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    add(place, LARK)
    before = Folder(place).read()
    calls = iter(range(100))

    def full(handle: int) -> None:
        if next(calls) == 3:
            raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    trouble = Trouble(id="t", number=1, corner=LEFT, opened=date(2026, 8, 1))
    with pytest.raises(Faults, match=r"The disk is full\. Nothing was changed\."):
        add(place, LARK.model_copy(update={"name": "Other"}), trouble, found("f", trouble=1))
    monkeypatch.undo()
    assert Folder(place).read() == before
    assert not (place / _safe.OWN / "writing").exists()


def test_a_write_cut_off_after_it_came_to_hold_is_carried_out_by_the_next_reader(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    add(place, LARK)
    moves = iter(range(10))
    real = os.replace

    def cut(source: Path, target: Path) -> None:
        if next(moves) == 1:
            raise KeyboardInterrupt
        real(source, target)

    monkeypatch.setattr(os, "replace", cut)
    trouble = Trouble(id="t", number=1, corner=LEFT, opened=date(2026, 8, 1))
    with pytest.raises(KeyboardInterrupt):
        add(place, LARK.model_copy(update={"name": "Other"}), trouble, found("f", trouble=1))
    monkeypatch.undo()
    assert _safe.unfinished(place)
    yard = Folder(place).read()
    assert (yard.machine("lark").name, len(yard.findings)) == ("Other", 1)
    assert not _safe.unfinished(place)


def test_what_was_never_finished_is_thrown_away(place: Path) -> None:
    add(place, LARK)
    half = place / _safe.OWN / "writing" / "machines"
    half.mkdir(parents=True)
    (half / "lark.toml").write_text('name = "Ha', encoding="utf-8")
    assert Folder(place).read().machine("lark").name == "Lark"
    assert not half.exists()


def test_a_folder_held_by_another_program_is_waited_for_and_then_said(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(_safe, "WAIT", 0.05)
    seen = Folder(place).read().seen
    with _safe.locked(place), pytest.raises(Faults, match="Another program is writing here"):
        Folder(place).write(Change((LARK,)), seen)
    add(place, LARK)


def test_reading_leaves_nothing_in_a_yard_that_nobody_wrote_to(tmp_path: Path) -> None:
    """So one that may not be written, as package data, can be read all the same."""
    lay_out(tmp_path / "y")
    assert Folder(tmp_path / "y").read().name
    assert not (tmp_path / "y" / _safe.OWN).exists()


def test_the_folders_own_corner_stays_out_of_version_control(place: Path) -> None:
    add(place, LARK)
    assert (place / _safe.OWN / ".gitignore").read_text(encoding="ascii") == "*\n"


def test_a_store_is_found_by_its_path(place: Path) -> None:
    assert at(str(place)).read() == Folder(place).read()
