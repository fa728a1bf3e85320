"""The First look: every combination of the five looks against a reading of the table written apart, and its words."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.plan.facts import Seen
from axlewright.plan.first_look import FirstLook, by_grade, findings_of, first_look
from axlewright.plan.judge import judge_corner
from axlewright.render.show import Show, Words
from axlewright.sheets import Text
from axlewright.trade.findings import findings
from axlewright.trade.first_look import calls, first_looks, outcomes, short_rows, ticks
from axlewright.yard import Faults, Hours

WIPE = ("dry", "gear", "brake", "hydraulic", "harmless", "above", "unknown")
CHALK = ("nothing", "input", "wheel-side", "elsewhere", "not-yet")
BREATHER = ("free", "blocked", "not-found")
LEVEL = ("at-mark", "low", "not-reached", "over", "not-looked")
PLUG = ("smooth", "flakes", "chips", "not-looked")
ALL = list(itertools.product(WIPE, CHALK, BREATHER, LEVEL, PLUG))
# a finding's grade behind each outcome of a look
BEHIND = {
    "wipe": {"harmless": ("grease", "ballast"), "above": ("from-above",)},
    "plug": {"smooth": ("clean", "paste", "thick"), "chips": ("chips", "pieces")},
}
FINDING = {"wipe": "fluid", "chalk": "where", "breather": "breather", "level": "level", "plug": "plug"}
TODAY = date(2026, 8, 28)


def said(look: FirstLook, text: Text, show: Show | None = None) -> str:
    return re.sub(r"[\u00a0\u202f]", " ", Words(show or Show(), look.basis, TODAY).plain(text))


def by_hand(wipe: str, chalk: str, breather: str, level: str, plug: str) -> tuple[int, str, str]:
    """The table as a person reads it: metal and oil first, then what nobody looked at, then where it comes from."""
    if plug == "chips":
        return 1, "no", "no"
    if level == "not-reached":
        return 2, "no", "no"
    if level == "over":
        return (3, "not known", "no") if plug == "not-looked" else (4, "only if", "no")
    if wipe == "brake":
        if level == "not-looked":
            return 5, "not known", "no"
        return (6, "not known", "no") if plug == "not-looked" else (7, "only if", "no")
    if level == "not-looked":
        return 8, "not known", "not known"
    if plug == "not-looked":
        return 9, "not known", "not known"
    # from here on: oil at the mark or low, plug smooth or with flakes
    if plug == "flakes":
        return (10 if chalk == "wheel-side" else 11), "only if", "not known"
    number = {"hydraulic": 12, "above": 13, "harmless": 14}.get(wipe)
    if number is None and breather != "free":
        number = 15
    if number is None:
        number = {"wheel-side": 16, "input": 17, "elsewhere": 18, "not-yet": 19, "nothing": 20}[chalk]
    return number, "only if", "not known"


def ticked(combination: tuple[str, ...]) -> list[list[str]]:
    """Every way in which grades can stand behind a combination."""
    ways = []
    for look, outcome in zip(FINDING, combination, strict=True):
        grades = BEHIND.get(look, {}).get(outcome, (outcome,))
        ways.append([None] if outcome == "not-looked" else [f"{FINDING[look]}={grade}" for grade in grades])
    return [[tick for tick in way if tick] for way in itertools.product(*ways)]


def test_all_2100_combinations() -> None:
    assert len(ALL) == 2100
    reached = set()
    for combination in ALL:
        number, field, road = by_hand(*combination)
        reached.add(number)
        shows = {look: frozenset([outcome]) for look, outcome in zip(FINDING, combination, strict=True)}
        row = next(row for row in outcomes() if row.fits(shows))
        assert (row.n, row.field, row.road) == (number, field, road), combination
    assert reached == set(range(1, 21))


@given(st.sampled_from(ALL), st.data())
def test_ticks_reach_their_row_and_the_rules_say_its_words(combination: tuple[str, ...], data: st.DataObject) -> None:
    ticks_ = data.draw(st.sampled_from(ticked(combination)))
    look = first_look(ticks_)
    assert (look.outcome.n, look.field.word, look.road.word) == by_hand(*combination)


def test_five_looks_never_give_a_plain_yes() -> None:
    for combination in ALL:
        _, field, road = by_hand(*combination)
        assert field != "yes"
        assert road in {"no", "not known"}


def test_the_short_table_stands_for_rows_of_the_long_one() -> None:
    rows = {row.n: row for row in outcomes()}
    for short in short_rows():
        words = {(rows[n].field, rows[n].road) for n in short.rows}
        assert len(words) == 1, f"{short.see} stands for rows of other words"


def test_ticks_name_findings_that_are_there_and_park_ticks_stop() -> None:
    assert [len(ticks(name)) for name in ("park", "place", "wheel")] == [9, 7, 3]
    for name in ("park", "place", "wheel"):
        for tick in ticks(name).values():
            grade = findings()[tick.finding].grade(tick.grade)
            assert grade.stop or name != "park"
    for row in outcomes():
        assert row.call in calls()
        assert row.answer.endswith(".")


def test_nothing_ticked() -> None:
    """judge.md section 5, before the half hour."""
    look = first_look()
    assert not look.make_safe
    assert [(line.line, line.word, said(look, line.words)) for line in look.lines] == [
        ("WORK IN FIELD", "not known", "before the next start do the First look."),
        ("GO ON ROAD", "not known", "stay off the road until looked at."),
    ]
    assert said(look, look.date) == "Before the next start."
    assert all(line.unseen for line in look.lines)
    assert [one.look.id for one in look.looks] == ["wipe", "chalk", "breather", "level", "plug"]
    assert look.next is look.looks[0]


@pytest.mark.parametrize("park", ticks("park"))
def test_any_tick_of_the_park_it_now_list_stops_both_and_makes_safe(park: str) -> None:
    look = first_look([f"park={park}", "level=at-mark", "bolts=still"])
    assert look.make_safe
    assert [line.word for line in look.lines] == ["no", "no"]
    assert said(look, look.lines[0].words).startswith("park it where it stands: ")
    assert said(look, look.lines[1].words) == "as in the field. Not even home."
    assert said(look, look.answer).startswith("Make it safe first.")


def test_what_was_seen_on_the_drawing() -> None:
    look = first_look(["place=wheel-side", "place=from-above", "wheel=streak"])
    assert {(one.finding, one.grade) for one in look.seen} == {
        ("where", "wheel-side"), ("fluid", "from-above"), ("nuts", "streak"),
    }  # fmt: skip
    assert look.road.word == "no", "a streak: R13"


def test_conditions_carry_clock_readings_never_later() -> None:
    ticks_ = [
        "level=low",
        "plug=flakes",
        "breather=free",
        "fluid=gear",
        "where=wheel-side",
        "bolts=still",
        "nuts=still",
    ]
    look = first_look(ticks_, clock=Hours(4730.6), today=TODAY)
    field = said(look, look.lines[0].words)
    assert "rock looked at by 4 740" in field
    assert "plug again by 4 755" in field
    assert "level again by 4 732" in field
    assert said(look, look.date) == (
        "Level again by 4 732. What was seen holds 25 h or 14 days: to 4 755 on the engine clock, or 11 Sep."
    )


def test_without_a_clock_conditions_say_hours() -> None:
    look = first_look(["level=low", "plug=paste"])
    field = said(look, look.lines[0].words)
    assert "rock looked at within 10 h" in field


def test_a_threshing_clock_falls_due_sooner_and_a_doubtful_one_too() -> None:
    """10 engine hours are at least 10 / 1.5 = 6.7 on the threshing clock; 'about' is taken off."""
    ticks_ = ["level=at-mark", "plug=paste"]
    threshing = first_look(ticks_, clock=Hours(2000, "threshing"))
    assert "rock looked at by 2 006" in said(threshing, threshing.lines[0].words)
    about = first_look(ticks_, clock=Hours(2000, "engine", 5))
    assert "rock looked at by 2 005" in said(about, about.lines[0].words)


def test_speeds_are_said_in_the_readers_measures_and_rounded_down() -> None:
    ticks_ = ["level=at-mark", "plug=paste", "bolts=still", "nuts=still", "rock=some"]
    look = first_look(ticks_)
    assert look.road.word == "only if"
    assert "at most 15 km/h" in said(look, look.lines[1].words)
    assert "at most 9.3 mph" in said(look, look.lines[1].words, Show(measures="us"))


def test_every_number_said_has_its_basis() -> None:
    for ticks_ in ([], ["plug=flakes", "level=low"], ["rock=some", "level=over", "plug=chips"], ["park=nut"]):
        look = first_look(ticks_, clock=Hours(100), today=TODAY)
        for text in (*(line.words for line in look.lines), look.answer, look.date):
            assert said(look, text)  # a number without an entry raises


def test_an_old_record_and_a_new_tick_are_judged_together() -> None:
    before = [Seen("plug", "chips", 60, 9), Seen("level", "at-mark", 2, 1)]
    look = first_look(["plug=paste", "level=at-mark"], before=before)
    assert look.make_safe
    assert look.outcome.n == 1
    assert said(look, look.lines[0].words) == "chips on the plug, rock not looked at: failing until the cover is off."


def test_what_each_outcome_of_the_next_look_would_mean() -> None:
    look = first_look(["level=at-mark", "breather=free", "fluid=gear", "where=input"])
    plug = look.looks[-1]
    assert (plug.look.id, plug.shown) == ("plug", ())
    assert look.next is plug
    assert [(w.outcome, w.row.n, w.field, w.road) for w in plug.would] == [
        ("smooth", 17, "only if", "not known"), ("flakes", 11, "only if", "not known"), ("chips", 1, "no", "no"),
    ]  # fmt: skip


@given(st.sampled_from(ALL))
def test_what_a_look_would_mean_is_what_it_means_once_taken(combination: tuple[str, ...]) -> None:
    ways = ticked(combination)[0]
    for left_out in range(len(ways)):
        look = first_look([tick for n, tick in enumerate(ways) if n != left_out])
        finding, grade = ways[left_out].split("=")
        one = next(one for one in look.looks if first_looks()[one.look.id].finding == finding)
        would = next(w for w in one.would if grade in first_looks()[one.look.id].outcomes[w.outcome])
        taken = first_look(ways)
        assert (would.row.n, would.field, would.road) == (taken.outcome.n, taken.field.word, taken.road.word)


def test_what_each_grade_of_rock_would_mean() -> None:
    look = first_look(["level=at-mark", "plug=paste", "bolts=still", "nuts=still"])
    assert {one.grade: (one.field, one.road) for one in by_grade(look, "rock")} == {
        "none": ("yes", "yes"), "some": ("yes", "only if"), "beyond": ("only if", "no"), "far": ("no", "no"),
        "still": ("yes", "only if"), "clunk": ("no", "no"),
    }  # fmt: skip


def test_quick_looks_come_before_the_rest_of_the_answer() -> None:
    quick = first_look(["level=at-mark", "plug=paste"])
    assert said(quick, quick.answer) == "Next, the wipe: white paper on the wet place. Smell it."
    done = first_look(["level=at-mark", "plug=paste", "fluid=gear", "breather=free", "where=wheel-side"])
    assert said(done, done.answer) == "Raise it and try the rock: it tells whether a reseal can hold."


@pytest.mark.parametrize(
    ("tick", "says"),
    [
        ("plgu=chips", "There is no finding plgu. Did you mean plug?"),
        ("plug=chip", "plug has no grade chip. Did you mean chips?"),
        ("plug", "says no grade. Write FINDING=GRADE"),
        ("park=oil", "park has no grade oil."),
        ("=", "There is no finding"),
        ("", "says no grade"),
        ("plug=" + "x" * 10_000, "plug has no grade"),
        ("<b>=1", "There is no finding"),
    ],
)
def test_an_unknown_tick_is_named_with_what_is_right(tick: str, says: str) -> None:
    with pytest.raises(Faults, match=re.escape(says)) as bad:
        first_look([tick, "level=low"])
    assert len(bad.value.faults) == 1
    assert len(str(bad.value)) < 300


def test_all_unknown_ticks_are_told_at_once() -> None:
    with pytest.raises(Faults) as bad:
        first_look(["plgu=chips", "level=lo", "level=low"])
    assert [fault.where for fault in bad.value.faults] == ["plgu", "level"]


def test_ticks_as_findings_each_once() -> None:
    assert findings_of(["park=chips", "plug=chips", "plug=paste", "place=input"]) == (
        ("plug", "chips", ""), ("plug", "paste", ""), ("where", "input", ""),
    )  # fmt: skip


def test_what_may_be_either_is_kept_as_both() -> None:
    """The tick says nut, stud *or flange bolt*: nuts looked at since say nothing of the bolts. The note says what was ticked."""
    words = "A wheel nut, stud or flange bolt is missing, broken, or turns by hand"
    assert findings_of(["park=nut", "level=low"]) == (
        ("nuts", "gone", words), ("bolts", "gone", words), ("level", "low", ""),
    )  # fmt: skip
    ticked = tuple(
        Seen(finding, grade, hours_ago=40.0, days_ago=4.0) for finding, grade, _ in findings_of(["park=nut"])
    )
    nuts = tuple(Seen("nuts", "still", hours_ago=hours, days_ago=hours / 10) for hours in (39.0, 28.0, 17.0, 5.0))
    bolts = tuple(replace(one, finding="bolts") for one in nuts)
    assert [judge_corner([*ticked, *more]).field.word for more in ((), nuts, bolts)] == ["no", "no", "no"]
    assert judge_corner([*ticked, *nuts, *bolts]).field.word != "no"


def test_with_yes_and_yes_nothing_is_left_to_do_but_look_again() -> None:
    look = first_look(["level=at-mark", "plug=paste", "bolts=still", "nuts=still", "rock=none"], clock=Hours(100))
    assert (look.field.word, look.road.word) == ("yes", "yes")
    assert "look again" in said(look, look.answer)
    assert look.call.startswith("Nobody")
    assert (
        said(look, look.date)
        == "When what was seen grows old. What was seen holds 25 h or 14 days: to 125 on the engine clock."
    )


def test_a_look_to_come_does_not_clear_what_it_could_not() -> None:
    """What *would mean* says of the next look what the page will say once it is taken."""
    seen = (Seen("rock", "clunk", 5.0, 1.0), *(Seen(f, g, 1.0, 0.0) for f, g in
            (("level", "at-mark"), ("plug", "paste"), ("bolts", "still"), ("nuts", "still"))))  # fmt: skip
    meant = {one.grade: (one.field, one.road) for one in by_grade(first_look(before=seen), "rock")}
    for grade, words in meant.items():
        got = judge_corner((*seen, Seen("rock", grade, 0.0, 0.0)))
        assert words == (got.field.word, got.road.word), grade
    assert meant["still"] == ("no", "no")


def test_what_is_overdue_says_since_when() -> None:
    before = [
        Seen(name, grade, 9.5, 1.0)
        for name, grade in (("level", "low"), ("plug", "paste"), ("bolts", "still"), ("nuts", "still"))
    ]
    look = first_look(before=before, clock=Hours(4740), today=TODAY)
    field = said(look, look.lines[0].words)
    assert "level again now, due at 4 732" in field
    assert "rock looked at within 0.5 h" in field, "the clock shows no half hours"
    assert said(look, look.date).startswith("Level again now, due at 4 732.")
    assert "level again now." in said(first_look(before=before), first_look(before=before).lines[0].words)
