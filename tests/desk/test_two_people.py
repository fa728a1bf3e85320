"""Two people on one trouble: whoever comes second is told or kept beside, never written over; sent twice is kept once."""

from __future__ import annotations

import itertools
import threading
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from axlewright import desk, store
from axlewright.desk import Now, carry_out
from axlewright.yard import Change, Faults, Moved, Yard

EVENING = datetime(2026, 8, 28, 20, 15, tzinfo=UTC)
Deed = Callable[[Yard], Change]


@pytest.fixture(params=["yard", "yard.db"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[store.Store]:
    """The demo yard, in each kind of store."""
    to = tmp_path / request.param
    store.lay_out(to, store.DEMO)
    opened = store.at(to, date(2026, 8, 28))
    yield opened
    opened.close()


def by(who: str, name: str = "") -> Now:
    ids = itertools.count(1)
    return Now(EVENING, who, lambda: f"{name or who}{next(ids)}")


def ticked(grade: str, who: str, form: str | None = None, corner: str = "linnet/front-left") -> Deed:
    seen = desk.Seen(id=form, corner=corner, marks=(desk.Mark(finding="plug", grade=grade),))
    return lambda yard: desk.add_findings(yard, seen, by(who))


def moved(drive: str, to: str, who: str, out_to: str | None = None, form: str | None = None) -> Deed:
    deed = desk.MoveDrive(id=form, drive=drive, to=to, out_to=out_to)
    return lambda yard: desk.move_drive(yard, deed, by(who))


def test_both_looks_of_one_evening_are_kept_in_one_trouble(place: store.Store) -> None:
    carry_out(place, ticked("thick", "owner"))
    yard, _ = carry_out(place, ticked("flakes", "helper"))
    found = [one for one in yard.findings if one.finding == "plug" and one.on == date(2026, 8, 28)]
    assert {(one.grade, one.who) for one in found} >= {("thick", "owner"), ("flakes", "helper")}
    assert (
        len({one.trouble for one in found if one.who in ("owner", "helper") and str(one.corner) == "linnet/front-left"})
        == 1
    )


def test_one_form_sent_twice_is_kept_once_and_with_another_body_as_a_second_reading(place: store.Store) -> None:
    once, _ = carry_out(place, ticked("thick", "owner", "form"))
    again, change = carry_out(place, ticked("thick", "owner", "form"))
    assert again == once
    assert not change
    yard, change = carry_out(place, ticked("flakes", "owner", "form"))
    assert {one.grade for one in yard.findings if one.id == "form-plug"} == {"thick", "flakes"}
    assert carry_out(place, ticked("flakes", "owner", "form"))[0] == yard


def test_who_wants_the_corner_second_is_told_who_sits_there_and_both_drives_stay_somewhere(place: store.Store) -> None:
    carry_out(place, moved("broad-spare", "bramble/front-left", "owner", "bench"))
    with pytest.raises(Faults) as bad:
        carry_out(place, moved("bramble-right", "bramble/front-left", "helper"))
    assert "broad spare sits at" in bad.value.faults[0].what
    yard = place.read()
    assert [d.id for d in yard.drives if str(d.sits) == "bramble/front-left"] == ["broad-spare"]
    assert str(yard.drive("bramble-right").sits) == "bramble/front-right"


def test_the_same_drive_wanted_by_two_goes_to_the_first(place: store.Store) -> None:
    carry_out(place, moved("linnet-old", "shelf", "owner"))
    with pytest.raises(Faults, match="already"):
        carry_out(place, moved("linnet-old", "shelf", "helper"))
    yard, _ = carry_out(place, moved("linnet-old", "away", "helper"))
    assert [(m.to, m.who) for m in yard.moves if m.drive == "linnet-old"][-2:] == [
        ("shelf", "owner"),
        ("away", "helper"),
    ]


def test_who_insists_on_what_he_saw_is_told_that_it_moved_and_nothing_is_written(place: store.Store) -> None:
    seen = place.read().seen
    carry_out(place, ticked("thick", "owner"))
    before = place.read()
    with pytest.raises(Moved):
        carry_out(place, moved("box-spare", "bench", "helper"), seen)
    assert place.read() == before
    carry_out(place, moved("box-spare", "bench", "helper"), before.seen)
    assert place.read().drive("box-spare").sits == "bench"


def test_a_course_taken_by_one_does_not_wipe_out_the_others(place: store.Store) -> None:
    for course, who in (("fit-spare", "owner"), ("park", "helper")):
        deed = desk.Settle(trouble=8, course=course)
        carry_out(place, lambda yard, deed=deed, who=who: desk.settle(yard, deed, by(who, f"s{who}")))  # type: ignore[misc]
    yard = place.read()
    assert yard.course(8) == "park"
    assert [(s.course, s.who) for s in yard.stages_of(8) if s.course] == [("fit a spare", "owner"), ("park", "helper")]


def test_many_at_once_lose_nothing(place: store.Store) -> None:
    """Eight people, each with a reading and a move of a drive that nobody else touches: all there in the end."""
    failed: list[BaseException] = []
    drives = ["box-spare", "broad-spare", "linnet-old"]

    def work(n: int) -> None:
        try:
            for _ in range(20):
                try:
                    carry_out(place, ticked("thick", f"p{n}", f"form{n}", "wren/front-left"))
                    if n < len(drives):
                        carry_out(place, moved(drives[n], "away", f"p{n}", form=f"m{n}"))
                    return
                except Moved:  # too many wrote in between: tried again, as a person would
                    continue
            raise AssertionError("never came to rest")
        except BaseException as bad:  # told outside of the thread
            failed.append(bad)

    threads = [threading.Thread(target=work, args=(n,)) for n in range(8)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert not failed
    yard = place.read()
    looks = [one for one in yard.findings if one.id.startswith("form")]
    assert sorted(one.who for one in looks) == [f"p{n}" for n in range(8)]
    assert len({one.trouble for one in looks}) == 1
    assert {d.id for d in yard.drives if d.sits == "away"} == set(drives)
