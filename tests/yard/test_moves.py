"""Moves: every drive sits at one place, no corner holds two, and its own hours are the sum of its stays."""

from __future__ import annotations

import random
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.yard import (
    Change,
    ClockReading,
    Corner,
    Drive,
    Finding,
    Hours,
    Machine,
    Move,
    Record,
    Title,
    Yard,
    mistakes,
)

START = date(2024, 1, 1)
TODAY = START + timedelta(days=1000)
PLACES = (*(Corner(m, p) for m in ("oak", "ash") for p in ("front-left", "front-right")), "shelf", "bench")
RATE = {"oak": 3.0, "ash": 5.0}  # engine hours a day
ASIDE = ("shelf", "bench", "away")


def base() -> list[Record]:
    made: list[Record] = [Title(name="T")]
    for name, rate in RATE.items():
        made.append(Machine(id=name, name=name.capitalize()))
        made += [
            ClockReading(id=f"{name}-{d}", machine=name, on=START + timedelta(days=d), hours=rate * d, clock="engine")
            for d in (0, 1000)
        ]
    return made


def move(drive: str, to: Any, day: int, number: int = 0, **says: Any) -> Move:
    at = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(seconds=number)
    return Move(id=f"m{number}-{drive}", drive=drive, to=to, on=START + timedelta(days=day), at=at, **says)


@st.composite
def lives(draw: st.DrawFn) -> tuple[list[Drive], list[Move], dict[str, list[tuple[Any, int]]]]:
    """Drives and moves that the rules allow, and where each sat from which day, kept by hand."""
    places: list[Any] = list(draw(st.permutations(PLACES)))[:3]
    drives = [Drive(id=f"d{n}", name=f"d{n}", sits=place, since=START, hours=100 * n) for n, place in enumerate(places)]
    where: dict[str, list[tuple[Any, int]]] = {d.id: [(d.sits, 0)] for d in drives}
    moves: list[Move] = []
    day = 0
    for number in range(draw(st.integers(0, 8))):
        day += draw(st.integers(1, 100))
        one = draw(st.sampled_from(drives)).id
        taken = {ways[-1][0] for name, ways in where.items() if name != one} - set(ASIDE)
        to = draw(st.sampled_from([p for p in PLACES if p != where[one][-1][0] and p not in taken]))
        moves.append(move(one, to, day, number))
        where[one].append((to, day))
    return drives, moves, where


@given(lives(), st.randoms())
def test_every_drive_sits_where_it_went_last_and_its_hours_are_the_sum_of_its_stays(
    lived: tuple[list[Drive], list[Move], dict[str, list[tuple[Any, int]]]], shuffled: random.Random
) -> None:
    drives, moves, where = lived
    records = [*base(), *drives, *moves]
    yard = Yard.of(records)
    shuffled.shuffle(records)
    assert Yard.of(records) == yard
    assert mistakes(yard, TODAY) == ()
    for drive in yard.drives:
        ways = where[drive.id]
        assert drive.sits == ways[-1][0]
        ends = [day for _, day in ways[1:]] + [1000]
        ran = sum(
            RATE[p.machine] * (end - day) for (p, day), end in zip(ways, ends, strict=True) if isinstance(p, Corner)
        )
        own = yard.drive_hours(drive, TODAY)
        begun = next(one.hours for one in drives if one.id == drive.id)
        assert own
        assert begun is not None
        assert own.hours == pytest.approx(begun + ran, abs=0.1 * len(ways))
    for corner in yard.corners:
        here = yard.drive_at(corner)
        assert [d for d in yard.drives if d.sits == corner] == ([here] if here else [])
    assert set(yard.spares) == {d for d in yard.drives if d.sits == "shelf"}


def test_hours_count_on_over_two_machines_and_both_clocks() -> None:
    """On a machine that only has a threshing clock 1.3 to 1.5 engine hours pass in one of its own: common practice."""
    reads = [
        ClockReading(id=f"elm-{n}", machine="elm", on=START + timedelta(days=n), hours=n, clock="threshing")
        for n in (0, 1000)
    ]
    drive = Drive(id="d", name="d", sits=Corner("oak", "front-left"), since=START, hours=500, about=20)
    records = [*base(), Machine(id="elm", name="Elm", clocks=("threshing",)), *reads, drive]
    yard = Yard.of([*records, move("d", "shelf", 100, 1), move("d", Corner("elm", "front-left"), 300, 2)])
    own = yard.drive_hours(yard.drives[0], TODAY)
    assert own
    assert own.hours == pytest.approx(500 + 300 + 700 * 1.4, abs=1)
    assert own.about >= 20 + 700 * 0.1
    shelved = yard.drive_hours(yard.drives[0], START + timedelta(days=200))
    assert shelved
    assert shelved.hours == 800


def test_hours_that_were_counted_anew_win_and_unknown_ones_stay_unknown() -> None:
    drive = Drive(id="d", name="d", sits=Corner("oak", "front-left"), since=START)
    nobody = Yard.of([*base(), drive, move("d", "bench", 100)])
    assert nobody.drive_hours(nobody.drives[0], TODAY) is None
    counted = Yard.of([*base(), drive, move("d", "bench", 100, hours=640, about=10)])
    assert counted.drive_hours(counted.drives[0], TODAY) == Hours(640, "engine", 10)


def test_a_finding_belongs_to_the_drive_that_sat_there_that_day() -> None:
    corner = Corner("oak", "front-left")
    first = Drive(id="a", name="a", sits=corner, since=START)
    second = Drive(id="b", name="b", sits="shelf", since=START)

    def seen(day: int) -> Finding:
        return Finding(id=f"f{day}", finding="plug", grade="paste", corner=corner, on=START + timedelta(days=day))

    records = [*base(), first, second, seen(10), seen(60), seen(90)]
    moves = [move("a", "bench", 50, 1), move("b", corner, 50, 2)]
    yard = Yard.of([*records, *moves])
    assert [f.id for f in yard.findings_at(corner)] == ["f60", "f90"]
    back = Yard.of([*records, *moves, move("b", "shelf", 80, 3), move("a", corner, 80, 4)])
    assert [f.id for f in back.findings_at(corner)] == ["f90"]
    assert yard.lives["a"][0].covers(START + timedelta(days=49))
    assert not yard.lives["a"][0].covers(START + timedelta(days=50))


def test_a_correction_takes_the_place_of_a_move() -> None:
    drive = Drive(id="d", name="d", sits="shelf", since=START)
    wrong = move("d", "bench", 10, 1)
    right = move("d", "away", 12, 2, corrects=wrong.id)
    yard = Yard.of([*base(), drive, wrong, right])
    assert [stay.sits for stay in yard.lives["d"]] == ["shelf", "away"]
    assert len(yard.moves) == 2


CORNER = Corner("oak", "front-left")
HERE = Drive(id="here", name="here", sits=CORNER, since=START, hours=500)
SPARE = Drive(id="spare", name="spare", sits="shelf", since=START + timedelta(days=30), hours=900)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (move("spare", CORNER, 60), "here sits at oak/front-left too"),
        (move("spare", "shelf", 60), "sits at shelf already"),
        (move("spare", "bench", 20), "after this move"),
        (move("spare", "bench", 60, hours=800), "less than the 900 h"),
        (move("spare", Corner("elm", "front-left"), 60), "no machine elm"),
        (move("spare", Corner("oak", "rear-left"), 60), "has no drive at rear-left"),
        (move("spire", "bench", 60), "no drive spire"),
        (move("spare", "bench", 60, trouble=7), "no trouble 7"),
        (move("spare", "bench", 60, corrects="x"), "no other move x"),
        (move("spare", "bench", 2000), "has not come yet"),
    ],
)
def test_a_move_that_cannot_be_is_said(wrong: Move, says: str) -> None:
    yard = Yard.of([*base(), HERE, SPARE])
    assert mistakes(yard, TODAY) == ()
    after = yard.with_(Change((wrong,)))
    assert says in " ".join(f"{f.what} {f.right}" for f in mistakes(after, TODAY, only=(wrong,)))


def test_two_drives_at_one_corner_in_the_past_are_found_too() -> None:
    late = Drive(id="late", name="late", sits=CORNER, since=START + timedelta(days=10))
    yard = Yard.of([*base(), HERE, late, move("here", "shelf", 20, 1)])
    assert [f.where for f in mistakes(yard, TODAY)] == ["drive late, sits"]
    after = Yard.of(
        [*base(), HERE, late.model_copy(update={"since": START + timedelta(days=20)}), move("here", "shelf", 20, 1)]
    )
    assert mistakes(after, TODAY) == ()


def look(name: str, grade: str, day: int, corner: Corner, **says: Any) -> Finding:
    return Finding(id=f"{name}{day}", finding=name, grade=grade, corner=corner, on=START + timedelta(days=day), **says)


ASH = Corner("ash", "front-left")
PUT = Drive(id="d", name="d", sits=CORNER, since=START)


@pytest.mark.parametrize("named", [None, "d"])
def test_proof_goes_with_the_drive_to_another_corner_and_nothing_good_does(named: str | None) -> None:
    chips = look("plug", "chips", 10, CORNER, drive=named, hours=30, clock="engine")
    still = look("nuts", "still", 10, CORNER, drive=named)
    records = [*base(), PUT, chips, still]
    shelved = [*records, move("d", "shelf", 20, 1), move("d", ASH, 40, 2)]
    for gone in ([*records, move("d", ASH, 20)], shelved):
        yard = Yard.of(gone)
        found = yard.findings_at(ASH)
        assert [(f.finding, f.grade) for f in found] == [("plug", "chips")]
        assert found[0].hours is None  # of another machine's clock
        here = {f.id for f in yard.findings_at(CORNER)}  # nobody sits there: what was seen there stands
        assert here == {"plug10", "nuts10"}
    opened = Yard.of([*records, move("d", "bench", 20, 1), move("d", ASH, 40, 2)])
    assert opened.findings_at(ASH) == ()
    back = Yard.of([*records, move("d", "bench", 20, 1), move("d", CORNER, 40, 2)])
    assert back.findings_at(CORNER) == ()  # rebuilt, or at least opened: it is looked at afresh


def test_the_twin_that_comes_to_a_corner_is_not_charged_with_what_went_before() -> None:
    other = Drive(id="e", name="e", sits="shelf", since=START)
    chips = look("plug", "chips", 10, CORNER)
    yard = Yard.of([*base(), PUT, other, chips, move("d", "shelf", 20, 1), move("e", CORNER, 20, 2)])
    assert yard.findings_at(CORNER) == ()
    sold_and_back = yard.with_(Change((move("d", ASH, 30, 3),)))
    assert [f.grade for f in sold_and_back.findings_at(ASH)] == ["chips"]
