"""What counts at a corner: age, the dial and the eye, proof, two looks still, and how a corner stands."""

from __future__ import annotations

from dataclasses import replace

import pytest

from axlewright.plan.judge import (
    Seen,
    Words,
    condition_words,
    heat_grade,
    is_fresh,
    judge_corner,
    standing,
    state_of,
    still_nuts,
    verdict_lines,
)
from axlewright.trade.findings import findings
from axlewright.trade.looks import looks

CLEAN = [
    Seen("level", "at-mark"),
    Seen("plug", "paste"),
    Seen("bolts", "still"),
    Seen("nuts", "still"),
    Seen("rock", "none"),
]


def without(finding: str) -> list[Seen]:
    return [one for one in CLEAN if one.finding != finding]


# age
@pytest.mark.parametrize("name", [name for name, f in findings().items() if looks()[f.look].fresh_hours is not None])
def test_fresh_is_less_than_the_hours_of_the_look(name: str) -> None:
    """judge.md: each *less than* 25 machine hours old."""
    hours = looks()[findings()[name].look].fresh_hours
    assert hours is not None
    grade = findings()[name].grades[0].id
    assert is_fresh(Seen(name, grade, hours - 0.1))
    assert not is_fresh(Seen(name, grade, hours))


def test_days_count_as_well_as_hours() -> None:
    assert is_fresh(Seen("level", "at-mark", 3, 13))
    assert not is_fresh(Seen("level", "at-mark", 3, 14))
    assert is_fresh(Seen("plug", "paste", 3, 14)), "the plug holds 60 days"


def test_a_leak_that_drips_makes_the_level_old_after_10_h() -> None:
    level, drips, runs = Seen("level", "at-mark", 12), Seen("leak-wheel", "drips", 12), Seen("leak-input", "runs", 0)
    assert judge_corner([*without("level"), level]).field.word == "yes"
    assert "R1" in judge_corner([*without("level"), level, drips]).rows
    assert "R1" in judge_corner([*without("level"), Seen("level", "at-mark", 2), runs]).rows, "runs: each stop"
    assert "R1" not in judge_corner([*without("level"), Seen("level", "at-mark", 0), runs]).rows


def test_a_stale_good_look_is_gone_and_a_stale_bad_one_stays() -> None:
    state = state_of([Seen("breather", "free", 500), Seen("breather", "blocked", 600), Seen("cracks", "suspect", 500)])
    assert state.pairs == {("cracks", "suspect")}, "the newer look found the breather free"
    assert not state.fresh


def test_a_bad_look_stands_until_a_newer_one() -> None:
    old, new = Seen("cracks", "suspect", 30, 3), Seen("cracks", "none", 2, 1)
    assert judge_corner([*CLEAN, old]).field.word == "no"
    assert judge_corner([*CLEAN, old, new]).field.word == "yes"


@pytest.mark.parametrize("bad", [("bolts", "loose"), ("bolts", "gone"), ("nuts", "moved"), ("nuts", "gone")])
def test_what_came_loose_wants_two_looks_still(bad: tuple[str, str]) -> None:
    """judge.md R12: whole set right, torqued, *two looks still*."""
    name, rest = bad[0], without(bad[0])
    old, first, second = Seen(*bad, 30, 3), Seen(name, "still", 20, 2), Seen(name, "still", 2, 1)
    for seen in ([old], [old, first], [first, second, Seen(*bad, 1, 0)], [old, second, replace(second, who="helper")]):
        got = judge_corner([*rest, *seen])
        assert (got.field.word, got.road.word) == ("no", "no"), seen
        assert "R12" in got.rows
    once_more = judge_corner([*rest, old, first, second])
    assert once_more.rows == ("R32",), "more than 10 h after it"
    old, soon = Seen(*bad, 20, 3), [Seen(name, "still", 19.8, 2.9), Seen(name, "still", 19.7, 2.8)]
    assert judge_corner([*rest, old, *soon]).rows == ("R13",), "what came loose has moved: after 1 h, then 10 h"
    assert judge_corner([*rest, old, *soon, Seen(name, "still", 18, 2), Seen(name, "still", 1, 0)]).rows == ("R32",)
    streak = Seen(name, "streak", 10, 1.5)
    assert "R12" in judge_corner([*rest, old, first, streak]).rows, "a streak between is no look still"
    again = judge_corner(
        [
            *rest,
            Seen(*bad, 300, 90),
            Seen(name, "still", 280, 80),
            Seen(name, "still", 2, 1),
            Seen(name, "streak", 1, 0),
        ]
    )
    assert again.rows == ("R13",), "what was put right long ago is over"


@pytest.mark.parametrize("name", ["bolts", "nuts"])
@pytest.mark.parametrize(
    ("after", "stands"),
    [((0.2,), True), ((2,), True), ((0.2, 0.9), True), ((2, 9.9), True), ((0.5, 10), True), ((1, 10), False), ((0.2, 1, 11), False)],
)  # fmt: skip
def test_a_streak_wants_a_still_look_after_1_h_and_one_after_10(
    name: str, after: tuple[float, ...], stands: bool
) -> None:
    """judge.md R13: no new streak after 1 h, then 10 h."""
    later = [Seen(name, "still", 20 - hours, (20 - hours) / 10) for hours in after]
    got = judge_corner([*without(name), Seen(name, "streak", 20, 2), *later])
    assert ("R13" in got.rows) is stands
    assert got.road.word == ("no" if stands else "yes")


def test_why_a_still_look_is_not_yet_enough_is_said() -> None:
    moved, still = Seen("nuts", "moved", 9, 3), [Seen("nuts", "still", 8.9, 2), Seen("nuts", "still", 8.8, 1)]
    for seen, said in (
        ([moved], "a wheel nut moved: "),
        ([moved, still[0]], "a wheel nut moved, found still but once since: "),
        ([moved, *still], "a wheel nut moved, not yet found still after 1 h and after 10 h: "),
        ([Seen("nuts", "streak", 9, 3)], "rust streak at a wheel nut: "),
    ):
        lines = verdict_lines(judge_corner([*without("nuts"), *seen]), Words())
        words = next("".join(map(str, line.words)) for line in lines if line.word == "no")
        assert words.startswith(said)


# when a condition falls due
def left(seen: list[Seen], words: str) -> float:
    return next(one.left for one in judge_corner(seen).field.conditions if one.words == words)


def test_hours_of_a_condition_run_from_the_look_not_from_today() -> None:
    for ago in (0.0, 1.5, 2.0, 9.0):
        assert left([*without("level"), Seen("level", "low", ago)], "level again") == 2 - ago
        assert left([*without("plug"), Seen("plug", "flakes", ago)], "plug again") == 25 - ago


def test_rock_is_due_10_h_after_the_first_look_of_the_trouble() -> None:
    """Looking at something else again gives no more time; nor does a look from before the trouble take any."""
    seen = [replace(one, hours_ago=1.0, running=True) for one in without("rock")]
    assert left(seen, "rock looked at") == 9
    assert left([*seen, Seen("where", "input", 8.0, 1.0, running=True)], "rock looked at") == 2
    assert left([*seen, Seen("where", "input", 300.0, 90.0)], "rock looked at") == 9
    assert (
        left(
            [*seen, Seen("where", "input", 40.0, 4.0, running=True), Seen("rock", "none", 27.0, 3.0)], "rock looked at"
        )
        == 8
    )
    assert left([replace(one, running=False) for one in seen], "rock looked at") == 9


def test_what_falls_due_again_and_again_runs_from_the_last_look_at_it() -> None:
    seen = [*without("level"), Seen("level", "at-mark", 3.0), Seen("leak-wheel", "drips", 9.0)]
    assert left(seen, "level") == 7
    chips = [*without("rock"), Seen("plug", "chips", 30, 3), Seen("plug", "clean", 4, 1), Seen("rock", "none", 6, 1)]
    assert left(chips, "plug and rock") == 4


def test_a_condition_that_was_met_is_left_out() -> None:
    flakes = Seen("plug", "flakes", 5.0, 1.0)
    words = {one.words for one in judge_corner([*without("plug"), flakes]).field.conditions}
    assert words == {"plug again"}, "rock was looked at since"
    before = [*without("rock"), flakes, Seen("rock", "none", 6.0, 2.0)]
    assert left([one for one in before if one != CLEAN[1]], "rock looked at") == 5
    growl = Seen("noise", "growl", 3.0, 1.0)
    assert left([*CLEAN, growl], "hub heat again") == -1
    assert left([*CLEAN, growl, Seen("heat", "same", 3.0, 1.0)], "hub heat again") == -1, (
        "at the same look is not again"
    )
    assert not judge_corner([*CLEAN, growl, Seen("heat", "same", 1.0, 0.0)]).field.conditions


def test_two_people_at_one_look_differ_and_the_worse_counts() -> None:
    seen = [*without("plug"), Seen("plug", "paste", 1, 0, who="owner"), Seen("plug", "flakes", 1, 0, who="helper")]
    assert "R8" in judge_corner(seen).rows


def test_two_fluids_at_one_look_both_count() -> None:
    got = judge_corner([*CLEAN, Seen("fluid", "gear"), Seen("fluid", "brake"), Seen("fluid", "grease")])
    assert {"R24", "R27"} <= set(got.rows)
    assert got.road.word == "no"


# the plug
@pytest.mark.parametrize(("hours", "counts"), [(None, True), (9.9, False), (10.0, True)])
def test_a_clean_plug_too_soon_after_wiping_says_nothing(hours: float | None, counts: bool) -> None:
    got = judge_corner([*without("plug"), Seen("plug", "clean", 0, since_wiped=hours)])
    assert ("R1" not in got.rows) is counts


def test_bad_news_counts_at_once() -> None:
    got = judge_corner([*without("plug"), Seen("plug", "flakes", 0, since_wiped=1.0)])
    assert "R8" in got.rows
    assert "R1" not in got.rows


def test_a_wiped_plug_does_not_hide_the_thick_one_before() -> None:
    got = judge_corner([*without("plug"), Seen("plug", "thick", 8, 1), Seen("plug", "clean", 3, 0, since_wiped=5.0)])
    assert "R19" in got.rows


def test_chips_stand_beside_a_later_clean_plug_and_it_counts_as_looked_at() -> None:
    got = judge_corner([*without("plug"), Seen("plug", "chips", 60, 9), Seen("plug", "clean", 3, 1, since_wiped=57)])
    assert got.rows == ("R6",)
    assert condition_words(got.state.pairs) == "failing until the cover is off"


# rock by dial and by eye
@pytest.mark.parametrize(
    ("dial", "eye", "rows"),
    [
        (("none", 5), ("still", 1), ("R32",)),  # the eye adds nothing to a fresh dial
        (("none", 40), ("still", 1), ("R11",)),  # where the dial is too old the eye stands, as an eye
        (("beyond", 5), ("still", 1), ("R10",)),  # the eye does not clear what a dial found
        (("some", 40), ("still", 1), ("R3", "R11")),  # nor make it new
        (("none", 5), ("clunk", 1), ("R9", "R31")),
        (("none", 1), ("clunk", 5), ("R32",)),  # a dial under far lifts a clunk
        (("beyond", 1), ("clunk", 5), ("R10",)),
        (("beyond", 40), ("clunk", 5), ("R9", "R10", "R31")),
        (("none", 1), ("clunk", 1), ("R32",)),  # at one look the dial settles it
        (("far", 40), ("still", 1), ("R3", "R9", "R31")),
    ],
)
def test_dial_and_eye(dial: tuple[str, float], eye: tuple[str, float], rows: tuple[str, ...]) -> None:
    seen = [*without("rock"), Seen("rock", dial[0], dial[1]), Seen("rock", eye[0], eye[1])]
    assert judge_corner(seen).rows == rows


def test_the_eye_does_not_clear_its_own_clunk() -> None:
    """judge.md R9: what lifts a clunk is a dial under far."""
    felt, not_felt = Seen("rock", "clunk", 9, 2), Seen("rock", "still", 1, 1)
    assert judge_corner([*without("rock"), felt, not_felt]).rows == ("R9", "R31")
    assert judge_corner([*without("rock"), felt, Seen("rock", "some", 1, 1)]).rows == ("R11",)
    assert judge_corner([*without("rock"), felt, Seen("rock", "none", 5, 1), not_felt]).rows == ("R32",)


def test_far_is_lifted_by_the_cover_alone() -> None:
    got = judge_corner([*without("rock"), Seen("rock", "far", 9, 2), Seen("rock", "none", 1, 1)])
    assert got.field.word == "no"
    assert got.field.lifted_by == "cover off"


def test_chips_need_a_dial_that_is_fresh() -> None:
    chips = [*without("rock"), Seen("plug", "chips")]
    assert judge_corner([*chips, Seen("rock", "some", 3)]).field.word == "only if"
    for rock in (
        Seen("rock", "some", 30),
        Seen("rock", "none", 30),
        Seen("rock", "still", 1),
        Seen("rock", "clunk", 1),
    ):
        got = judge_corner([*chips, rock])
        assert "R5" in got.rows, rock
        assert got.field.word == "no", rock


# nuts
@pytest.mark.parametrize(
    ("grade", "before", "hours", "found"),
    [
        ("still", [], 3.0, "once-still"),
        ("still", ["once-still"], 12.0, "still"),
        ("still", ["still"], 12.0, "still"),
        ("still", ["moved"], 12.0, "once-still"),
        ("still", ["still", "streak"], 12.0, "once-still"),  # two people at the look before, one saw a streak
        ("still", [], 50.0, "still"),
        ("still", [], None, "still"),
        ("moved", ["still"], 3.0, "moved"),
    ],
)
def test_two_looks_still(grade: str, before: list[str], hours: float | None, found: str) -> None:
    assert still_nuts(grade, before, hours) == found


def test_the_first_still_look_after_fitting_is_once_still() -> None:
    first, second = Seen("nuts", "still", 9, 2, since_off=1.2), Seen("nuts", "still", 1, 1, since_off=9.4)
    assert judge_corner([*without("nuts"), first]).rows == ("R14",)
    assert judge_corner([*without("nuts"), first, second]).rows == ("R32",)


def test_two_people_at_one_look_are_not_two_looks() -> None:
    both = [Seen("nuts", "still", 1, 0, since_off=3.0, who=who) for who in ("owner", "helper")]
    assert judge_corner([*without("nuts"), *both]).rows == ("R14",)


# heat
@pytest.mark.parametrize(
    ("hub", "twin", "grade"),
    [(60, 60, "same"), (69.9, 60, "same"), (70, 60, "warmer"), (80, 60, "hot"), (110, 60, "very-hot"), (30, 90, "same"),
     (107, 106, "same"), (107.1, 106, "hot"), (120, 119, "hot"), (120.1, 119, "very-hot"), (107, None, None),
     (108, None, "hot"), (121, None, "very-hot")],
)  # fmt: skip
def test_hub_heat(hub: float, twin: float | None, grade: str | None) -> None:
    assert heat_grade(hub + 273.15, None if twin is None else twin + 273.15) == grade


# how a corner stands
def test_a_corner_nobody_looked_at_is_not_looked_at() -> None:
    found = standing([])
    assert (found.looked, found.days, found.word, found.words) == (False, None, None, "not looked at")


def test_a_corner_turns_into_not_looked_at_by_itself() -> None:
    """From the day on which the freshest of the five grew old: the plug holds 60 days, bolts too, nuts 30."""

    def aged(days: float) -> list[Seen]:
        return [Seen(one.finding, one.grade, 0.0, days) for one in without("rock")]

    assert standing(aged(59)).words == "looked at"
    assert standing(aged(60)).words == "not looked at (since today)"
    assert standing(aged(61)).words == "not looked at (1 day)"
    assert standing(aged(100)).days == 40


def test_hours_run_out_on_a_day_of_even_work() -> None:
    """50 h in 10 days: 25 h were run after 5."""
    assert standing([Seen("plug", "paste", 50.0, 10.0)]).days == 5


def test_a_word_stands_only_behind_a_fresh_look() -> None:
    assert standing([Seen("plug", "flakes", 3, 1)]).word == "wearing"
    old = standing([Seen("plug", "flakes", 30, 4)])
    assert (old.word, old.looked) == (None, False)
    assert standing([Seen("plug", "chips", 300, 90)]).words.startswith("failing until the cover is off; not looked at")


def test_an_unfinished_job_stops_both() -> None:
    got = judge_corner(CLEAN, job_open=True)
    assert got.rows == ("R30", "R31")
    assert got.road.word == "no"
