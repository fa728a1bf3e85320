"""What every store promises, whatever it keeps a yard in."""

from __future__ import annotations

import threading
from datetime import UTC, date, datetime
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store.conftest import New
from yard.made import whole, yards

from axlewright.yard import (
    Beside,
    Change,
    ClockReading,
    Corner,
    Drive,
    Faults,
    Finding,
    Machine,
    Moved,
    Stage,
    Trouble,
    Yard,
)

LARK = Machine(id="lark", name="Lark", clocks=("engine", "threshing"))
LEFT = Corner("lark", "front-left")
TROUBLE = Trouble(id="t1", number=1, corner=LEFT, opened=date(2026, 8, 1))
SHARED = settings(max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture])


def found(name: str = "f", grade: str = "paste", **more: Any) -> Finding:
    fields = {"id": name, "finding": "plug", "grade": grade, "corner": LEFT, "on": date(2026, 8, 2)}
    return Finding.model_validate({**fields, **more})


def test_a_new_yard_is_empty_and_has_a_name(new: New) -> None:
    store, _ = new()
    yard = store.read()
    assert yard.name
    assert yard.records == (yard.title,)


@SHARED
@given(yards())
def test_what_is_written_is_read_again(new: New, yard: Yard) -> None:
    store, again = new()
    mark = store.write(whole(yard), store.read().seen)
    assert again().read() == yard
    assert again().read().seen == mark


@SHARED
@given(yards(), st.data())
def test_written_in_two_parts_is_written_at_once(new: New, yard: Yard, data: st.DataObject) -> None:
    """The records of things first, so that each part keeps the rules; what is added is cut anywhere."""
    things = [r for r in yard.records if not r.adds]
    added = [r for r in yard.records if r.adds]
    cut = data.draw(st.integers(0, len(added)))
    store, again = new()
    mark = store.read().seen
    for part in (things, added[:cut], added[cut:]):
        later = [r for r in part if getattr(r, "corrects", None) is None]
        mark = store.write(Change(tuple(later)), mark)
    assert again().read() == yard


@SHARED
@given(yards(), yards())
def test_things_can_be_changed(new: New, before: Yard, after: Yard) -> None:
    """Every machine, design and drive of one yard over those of another with the same ids."""
    store, again = new()
    mark = store.write(whole(before), store.read().seen)
    wanted = before
    for old in (*before.machines, *before.designs):
        other = next((r for r in (*after.machines, *after.designs) if type(r) is type(old)), None)
        if other is not None:
            kept = {"corners": old.corners, "clocks": old.clocks} if isinstance(old, Machine) else {"fits": ()}
            change = Change((other.model_copy(update={"id": old.id, **kept}),))
            mark, wanted = store.write(change, mark), wanted.with_(change)
    assert again().read() == wanted


def test_a_trouble_may_learn_its_drive_and_corner_and_its_findings_say_what_they_said(new: New) -> None:
    store, again = new()
    drive = Drive(id="d", name="d", sits=LEFT)
    both = {found("a", trouble=1), found("b", trouble=1, drive="d")}
    mark = store.write(Change((LARK, drive, TROUBLE, *both)), store.read().seen)
    mark = store.write(
        Change((TROUBLE.model_copy(update={"drive": "d", "corner": Corner("lark", "front-right")}),)), mark
    )
    yard = again().read()
    assert set(yard.findings) == both
    assert yard.trouble(1).drive == "d"
    mark = store.write(Change((TROUBLE,)), mark)
    assert set(again().read().findings) == both


def test_the_mark_changes_with_what_is_kept_and_only_then(new: New) -> None:
    store, again = new()
    first = store.read().seen
    assert again().read().seen == first
    second = store.write(Change((LARK,)), first)
    assert second != first
    assert store.write(Change((LARK,)), second) == second == store.read().seen


def test_who_comes_too_late_writes_nothing(new: New) -> None:
    store, again = new()
    seen = store.read().seen
    now = store.write(Change((LARK,)), seen)
    with pytest.raises(Moved) as moved:
        again().write(Change((LARK.model_copy(update={"name": "Other"}),)), seen)
    assert (moved.value.seen, moved.value.now) == (seen, now)
    assert store.read().machine("lark").name == "Lark"


def test_sent_twice_is_kept_once_and_another_body_as_a_second_reading(new: New) -> None:
    store, again = new()
    mark = store.write(Change((LARK, TROUBLE, found(trouble=1))), store.read().seen)
    later = datetime(2026, 8, 3, tzinfo=UTC)
    assert store.write(Change((found(trouble=1, at=later),)), mark) == mark
    mark = store.write(Change((found(trouble=1, grade="thick"),)), mark)
    assert store.write(Change((found(trouble=1), found(trouble=1, grade="thick"))), mark) == mark
    assert sorted(f.grade for f in again().read().findings) == ["paste", "thick"]
    assert {f.id for f in again().read().findings} == {"f"}


def test_a_correction_stands_beside_what_it_corrects(new: New) -> None:
    store, again = new()
    mark = store.write(Change((LARK, TROUBLE, found("a", "flakes", trouble=1))), store.read().seen)
    store.write(Change((found("b", "thick", trouble=1, corrects="a"),)), mark)
    yard = again().read()
    assert len(yard.findings) == 2
    assert [f.id for f in yard.standing] == ["b"]


@pytest.mark.parametrize(
    "bad",
    [
        found(finding="plg"),
        found(grade="flake"),
        found(corner=Corner("lrk", "front-left")),
        found(corner=None),
        found(on=date(2026, 8, 29)),
        found(trouble=7),
        found(hours=5),
        ClockReading(id="c", machine="lark", on=date(2026, 8, 2), hours=9000, clock="engine"),
        ClockReading(id="c", machine="lrk", on=date(2026, 8, 2), hours=1, clock="engine"),
        Stage(id="s", trouble=7, stage="judged", on=date(2026, 8, 2)),
        TROUBLE.model_copy(update={"id": "t9"}),
    ],
    ids=lambda r: f"{r.what}-{r.id}",
)
def test_what_breaks_a_rule_is_refused_whole(new: New, bad: Any) -> None:
    """Also what was right beside it: nothing is half written."""
    store, again = new()
    start = ClockReading(id="c0", machine="lark", on=date(2026, 8, 1), hours=100, clock="engine")
    mark = store.write(Change((LARK, start, TROUBLE)), store.read().seen)
    with pytest.raises(Faults) as faults:
        store.write(Change((found("good"), bad)), mark)
    assert len(faults.value.faults) == 1
    assert faults.value.faults[0].what
    assert again().read().seen == mark
    assert again().read().findings == ()


def test_two_people_at_once_lose_nothing(new: New) -> None:
    """Four at a time, each reading and writing again until it is kept."""
    store, again = new()
    store.write(Change((LARK, TROUBLE)), store.read().seen)

    def person(number: int) -> None:
        mine = again()
        for n in range(5):
            while True:
                try:
                    mine.write(Change((found(f"{number}-{n}", trouble=1),)), mine.read().seen)
                    break
                except Moved:
                    continue

    people = [threading.Thread(target=person, args=(n,)) for n in range(4)]
    for one in people:
        one.start()
    for one in people:
        one.join()
    assert {f.id for f in again().read().findings} == {f"{p}-{n}" for p in range(4) for n in range(5)}


def test_files_kept_beside_the_records_stay_as_they_are(new: New) -> None:
    store, again = new()
    before, mark = store.read(), store.read().seen
    name = "packs/0123456789abcdef.json"
    assert store.file(name) is None
    mark = store.write(Change(beside=(Beside(name, b"{}\n"),)), mark)
    assert again().file(name) == b"{}\n"
    assert again().read() == before
    mark = store.write(Change(beside=(Beside(name, b"{}\n"),)), mark)
    with pytest.raises(Faults, match="is kept already"):
        store.write(Change((LARK,), (Beside(name, b"other"),)), mark)
    assert again().file(name) == b"{}\n"
    assert again().read() == before


def test_the_last_change_says_who_when_and_what_stood_before(new: New) -> None:
    store, again = new()
    mark = store.write(Change((LARK, TROUBLE)), store.read().seen)
    at = datetime(2026, 8, 3, 19, 30, tzinfo=UTC)
    renamed = LARK.model_copy(update={"name": "Meadow lark", "who": "owner", "at": at})
    seen = found("new", trouble=1, who="helper", at=at, note="Two lines\nof it")
    photo, pack = Beside("photos/plug.jpg", b"x"), Beside("packs/0123456789abcdef.json", b"{}")
    mark = store.write(Change((renamed, seen), (photo, pack)), mark)
    made = again().last()
    assert made is not None
    assert (made.who, made.at, made.edited) == ("helper", at, False)
    assert (made.added, made.before, made.after) == ((seen,), (LARK,), (renamed,))
    assert set(made.beside) == {"photos/plug.jpg", "packs/0123456789abcdef.json"}
    assert again().beside() == ("packs/0123456789abcdef.json", "photos/plug.jpg")
    number = made.number
    store.write(Change((found("new", trouble=1, grade="thick"), seen, renamed)), mark)
    made = store.last()
    assert made is not None
    assert made.number == number + 1
    assert ([one.grade for one in made.added], made.before, made.after) == (["thick"], (), ())  # type: ignore[attr-defined]


def test_what_changed_nothing_is_no_change(new: New) -> None:
    store, again = new()
    mark = store.write(Change((LARK,), (Beside("photos/a.jpg", b"x"),)), store.read().seen)
    first = store.last()
    assert store.write(Change((LARK,), (Beside("photos/a.jpg", b"x"),)), mark) == mark
    assert again().last() == first
    assert store.write(Change(), mark) == mark
    assert again().last() == first


@settings(SHARED, max_examples=8)
@given(yards(), yards())
def test_the_last_change_can_be_taken_back(new: New, before: Yard, after: Yard) -> None:
    """What it says of things that were replaced is enough to put them back."""
    store, again = new()
    mark = store.write(whole(before), store.read().seen)
    title = after.title.model_copy(update={"today": before.title.today, "who": "helper"})
    mark = store.write(Change((title,)), mark)
    made = again().last()
    assert made is not None
    assert made.before == ((before.title,) if made.after else ())
    store.write(Change(made.before), mark)
    assert again().read() == before


@pytest.mark.parametrize("name", ["packs/../yard.toml", "yard.toml", "photos/a/b.jpg", "/etc/passwd", "packs/x.json"])
def test_a_file_elsewhere_is_never_given(name: str, new: New) -> None:
    with pytest.raises(ValueError, match="no name of a file"):
        new()[0].file(name)
