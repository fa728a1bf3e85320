"""What a change breaks is found in a part of the yard just as in the whole of it."""

from __future__ import annotations

import random
from datetime import date, timedelta
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from yard.made import yards

from axlewright.yard import (
    Answer,
    Change,
    ClockReading,
    Corner,
    Drive,
    Finding,
    Machine,
    Move,
    Record,
    Title,
    Trouble,
    Yard,
    mistakes,
)
from axlewright.yard.part import broken, part_of

TODAY = date(2026, 8, 28)
HOURS = ("hours", "about")
NAMES = {"machine": "lrk", "drive": "nobody", "trouble": 98, "design": "none", "corner": Corner("lrk", "front-left")}


def whole(yard: Yard, new: tuple[Record, ...]) -> set[str]:
    """What the whole yard says to a change: of its own records, and of others that it breaks."""
    return {fault.what for fault in (*mistakes(yard, TODAY, only=new), *mistakes(yard, TODAY))}


def spoilt(record: Record, chance: random.Random, ids: list[str]) -> Record:
    """A record with something changed that may break a rule, or may not."""
    fields = type(record).model_fields
    changes: list[dict[str, Any]] = [{"id": chance.choice([record.id, "another"])}]
    changes += [{key: name} for key, name in NAMES.items() if key in fields]
    if "hours" in fields and record.hours is not None:  # type: ignore[attr-defined]
        changes += [{"hours": record.hours * share} for share in (0.5, 1.0, 1.001, 2.0)]  # type: ignore[attr-defined]
        changes += [{"about": 4000.0}] if "about" in fields else []
    if "on" in fields and record.on is not None:  # type: ignore[attr-defined]
        changes += [{"on": record.on + timedelta(days=days)} for days in (-400, -1, 1, 60, 4000)]  # type: ignore[attr-defined]
    if "corrects" in fields and ids:
        changes += [{"corrects": chance.choice([*ids, "nothing"])}, {"corrects": chance.choice(ids)}]
    if "new_clock" in fields:
        changes += [{"new_clock": True}]
    change = {key: value for one in chance.sample(changes, chance.randint(1, 2)) for key, value in one.items()}
    return record.model_copy(update=change)


@settings(max_examples=70)
@given(yards(), yards(), st.randoms(use_true_random=False))
def test_the_part_says_what_the_whole_says(before: Yard, other: Yard, chance: random.Random) -> None:
    """New records like those that are there, some of them spoilt, over a yard that keeps all rules."""
    added = [one for one in (*before.records, *other.records) if one.adds or isinstance(one, Trouble)]
    if not added or mistakes(before, TODAY):
        return
    picked = chance.sample(added, min(len(added), chance.randint(1, 3)))
    made = []
    for number, one in enumerate(picked):
        ids = [old.id for old in before.records if old.what == one.what]
        new = one if chance.random() < 0.3 else spoilt(one, chance, ids)
        made.append(new if chance.random() < 0.3 else new.model_copy(update={"id": f"n{number}"}))
    change = before.fresh(Change(tuple(made)))
    wanted = before.with_(change)
    found = {fault.what for fault in broken(before, wanted, change.records, TODAY)}
    full = whole(wanted, change.records)
    assert bool(found) == bool(full)
    assert found <= full


def small() -> Yard:
    lark, wren = (Machine(id=name, name=name, clocks=("engine", "threshing")) for name in ("lark", "wren"))
    drives = [Drive(id=name, name=name, sits=place) for name, place in (("a", "lark/front-left"), ("b", "shelf"))]
    reads = [
        ClockReading(id=f"{m}-{n}", machine=m, clock="engine", on=date(2026, n, 1), hours=100.0 * n)
        for m in ("lark", "wren")
        for n in range(1, 8)
    ]
    return Yard.of([Title(name="T"), lark, wren, *drives, *reads])


def test_it_is_small() -> None:
    yard = small()
    new = Finding(id="f", finding="plug", grade="paste", corner=Corner("lark", "front-left"), on=TODAY)
    part = part_of(yard, yard.with_(Change((new,))), (new,))
    assert part is not None
    assert part.records == (yard.title, yard.machine("lark"), new)
    with_hours = new.model_copy(update={"hours": 750.0, "clock": "engine"})
    part = part_of(yard, yard.with_(Change((with_hours,))), (with_hours,))
    assert part is not None
    assert [one.machine for one in part.clock_readings] == ["lark"] * 7


def test_an_old_record_that_a_new_one_breaks_is_found() -> None:
    """Two drives at one corner by a move; a clock that ran more than the engine's, by an engine reading put in between."""
    yard = small()
    move = Move(id="m", drive="b", to=Corner("lark", "front-left"), on=date(2026, 8, 1))
    assert broken(yard, yard.with_(Change((move,))), (move,), TODAY)
    yard = yard.with_(
        Change(
            tuple(
                ClockReading(id=f"t{n}", machine="lark", clock="threshing", on=date(2026, n, 2), hours=90.0 * n)
                for n in (3, 4)
            )
        )
    )
    assert not mistakes(yard, TODAY)
    slow = ClockReading(id="slow", machine="lark", clock="engine", on=date(2026, 4, 3), hours=300.0)
    wanted = yard.with_(Change((slow,)))
    assert broken(yard, wanted, (slow,), TODAY)


def test_what_was_wrong_before_hinders_no_change() -> None:
    """A rule may come with a newer version; then what was kept can still be corrected."""
    yard = small()
    bad = yard.machine("lark").model_copy(update={"id": "finch", "mass": None})
    lost = Drive(id="c", name="c", sits=Corner("nowhere", "front-left"))
    yard = yard.with_(Change((lost, bad)))
    assert mistakes(yard, TODAY)
    there = lost.model_copy(update={"sits": "shelf"})
    assert broken(yard, yard.with_(Change((there,))), (there,), TODAY) == ()
    renamed = Drive(id="b", name="B", sits="shelf")
    assert broken(yard, yard.with_(Change((renamed,))), (renamed,), TODAY) == ()


def test_where_a_correction_reaches_over_the_whole_is_looked_at() -> None:
    yard = small()
    there = ClockReading(id="over", machine="wren", clock="engine", on=TODAY, hours=800.0, corrects="lark-3")
    assert part_of(yard, yard.with_(Change((there,))), (there,)) is None
    wanted = yard.with_(Change((there,)))
    later = ClockReading(id="later", machine="lark", clock="engine", on=TODAY, hours=800.0)
    assert part_of(wanted, wanted.with_(Change((later,))), (later,)) is None


def test_two_answers_of_one_day_are_seen_together() -> None:
    yard = small()
    one = Answer(id="one", name="wrench/least", value="80 N·m", on=TODAY)
    yard = yard.with_(Change((one,)))
    other = Answer(id="other", name="wrench/least", value="90 N·m", on=TODAY)
    assert broken(yard, yard.with_(Change((other,))), (other,), TODAY)
