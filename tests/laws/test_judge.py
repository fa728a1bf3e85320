"""Laws of the verdicts, and a second reading of judge.md written apart from the rules."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from axlewright.plan.judge import Seen, State, judge, judge_corner, printed, standing, state_of
from axlewright.trade.findings import findings
from axlewright.trade.verdicts import WORDS

FIVE = ("level", "plug", "bolts", "nuts", "rock")
DIAL, EYE = ("none", "some", "beyond", "far"), ("still", "clunk")
SCALES = [(name, tuple(g.id for g in f.grades)) for name, f in findings().items() if f.ordered and name != "rock"]
SCALES += [("rock", DIAL), ("rock", EYE)]
# findings without an order of their own, by what the rules make of them
FLUIDS = ("gear", "grease", "from-above", "brake", "jet")
SCALES += [("fluid", FLUIDS)]
BEST = {"level": "at-mark", "plug": "paste", "bolts": "still", "nuts": "still", "rock": "none"}
ages = st.one_of(st.none(), st.floats(0, 400, allow_nan=False))


def rank(word: str) -> int:
    return WORDS.index(word)  # type: ignore[arg-type]


@st.composite
def looks(draw: st.DrawFn, *, likely: float = 0.5) -> list[Seen]:
    """What somebody saw: for each finding, perhaps, a grade and an age."""
    seen = []
    for name, grades in SCALES:
        if name not in {one.finding for one in seen} and draw(st.floats(0, 1)) < (0.9 if name in FIVE else likely):
            seen.append(Seen(name, draw(st.sampled_from(grades)), draw(ages), draw(ages)))
    return seen


def second_reading(pairs: set[tuple[str, str]], fresh: set[str], job_open: bool = False) -> tuple[str, str, list[str]]:
    """FIELD, ROAD and rows by hand, one `if` after the other, as judge.md section 4 tells them."""
    grade = dict(pairs)
    plug, metal, rock, level = (grade.get(name) for name in ("plug", "oil-metal", "rock", "level"))
    found: list[tuple[str, str, str]] = []

    def row(number: int, field: str, road: str, holds: bool) -> None:
        if holds:
            found.append((f"R{number}", field, road))

    def has(**named: str) -> bool:
        return any((name.replace("_", "-"), g) in pairs for name, grades in named.items() for g in grades.split())

    chips, flakes = "chips" in (plug, metal), "flakes" in (plug, metal)
    row(1, "not known", "not known", not {"level", "plug"} <= fresh)
    row(2, "only if", "not known", not {"bolts", "nuts"} <= fresh)
    row(3, "only if", "not known", "rock" not in fresh)
    row(4, "no", "no", plug == "pieces")
    row(5, "no", "no", chips and ("rock" not in fresh or rock in EYE))
    row(6, "only if", "no", chips and "rock" in fresh and rock in ("none", "some"))
    row(7, "no", "no", (chips or flakes) and rock in ("beyond", "far", "clunk"))
    row(8, "only if", "only if", flakes)
    row(9, "no", "no", rock in ("far", "clunk") or has(seats="slack"))
    row(10, "only if", "no", rock == "beyond")
    row(11, "yes", "only if", rock in ("some", "still"))
    row(12, "no", "no", has(bolts="loose gone", nuts="moved gone"))
    row(13, "only if", "no", has(bolts="streak", nuts="streak"))
    row(14, "only if", "only if", has(nuts="once-still"))
    row(15, "no", "no", has(cracks="suspect crack"))
    stops = {
        "lean": "leans", "turn": "grinds", "wobble": "plain", "backlash": "jumps", "noise": "knock", "smoke": "smoke",
        "heat": "very-hot", "water": "runs-first", "fluid": "jet", "brakes": "sinks",
    }  # fmt: skip
    row(16, "no", "no", level == "not-reached" or any(item in pairs for item in stops.items()))
    row(17, "only if", "no", has(turn="rough", lean="slight", heat="hot"))
    row(18, "only if", "only if", has(wobble="slight", backlash="more", noise="growl", heat="warmer", smoke="smell"))
    row(19, "only if", "only if", plug == "thick" or has(water="milky"))
    row(20, "only if", "only if", level == "low")
    row(21, "only if", "no", level == "over")
    row(22, "only if", "no", has(leak_wheel="runs", leak_input="runs"))
    row(23, "only if", "only if", has(leak_wheel="drips", leak_input="drips"))
    row(24, "only if", "no", has(fluid="brake", brakes="unproved"))
    row(25, "only if", "only if", has(fluid="hydraulic"))
    row(26, "only if", "only if", has(fluid="from-above unknown"))
    row(27, "yes", "only if", has(fluid="grease ballast"))
    row(28, "only if", "only if", has(breather="blocked not-found"))
    row(29, "only if", "no", has(oil_on="wet"))
    row(30, "no", "no", job_open)
    if any(field == "no" for _, field, _ in found):
        found.append(("R31", "", "no"))
    if not found:
        found.append(("R32", "yes", "yes"))
    field = next(w for w in WORDS if any(f == w for _, f, _ in found))
    road = next(w for w in WORDS if any(r == w for _, _, r in found))
    return field, road, [number for number, _, _ in found]


@given(looks(), st.booleans())
def test_rules_agree_with_a_second_reading(seen: list[Seen], job_open: bool) -> None:
    state = state_of(seen, job_open=job_open)
    got = judge(state)
    assert (got.field.word, got.road.word, list(got.rows)) == second_reading(
        set(state.pairs), set(state.fresh), job_open
    )


@given(looks())
def test_road_is_never_better_than_field(seen: list[Seen]) -> None:
    got = judge_corner(seen)
    assert rank(got.road.word) <= rank(got.field.word)


@given(looks(), st.data())
def test_a_worse_grade_never_gives_a_better_verdict(seen: list[Seen], data: st.DataObject) -> None:
    steps = [
        (one, grades[grades.index(one.grade) + 1])
        for one in seen
        for name, grades in SCALES
        if name == one.finding and one.grade in grades[:-1]
    ]
    if not steps:
        return
    one, worse = data.draw(st.sampled_from(steps))
    before, after = judge_corner(seen), judge_corner([replace(s, grade=worse) if s is one else s for s in seen])
    assert rank(after.field.word) <= rank(before.field.word)
    assert rank(after.road.word) <= rank(before.road.word)


@given(looks(), st.data())
def test_a_hard_stop_stops_both_whatever_else_was_seen(seen: list[Seen], data: st.DataObject) -> None:
    stops = [(name, g.id) for name, f in findings().items() for g in f.grades if g.stop]
    name, grade = data.draw(st.sampled_from(stops))
    if (name, grade) in {("plug", "chips"), ("oil-metal", "chips")}:
        seen = [one for one in seen if one.finding != "rock"]  # a dial may turn chips: R6
    got = judge_corner([*(one for one in seen if one.finding != name), Seen(name, grade)])
    assert got.road.word == "no"
    assert got.field.word == "no"


@given(looks(), st.data())
def test_growing_older_never_gives_a_better_verdict(seen: list[Seen], data: st.DataObject) -> None:
    more = data.draw(st.floats(0, 300))
    days = data.draw(st.floats(0, 300))
    older = [replace(s, hours_ago=(s.hours_ago or 0) + more, days_ago=(s.days_ago or 0) + days) for s in seen]
    before, after = judge_corner(seen), judge_corner(older)
    assert rank(after.field.word) <= rank(before.field.word)
    assert rank(after.road.word) <= rank(before.road.word)


@given(looks(), st.data())
def test_a_second_worse_look_at_the_same_hour_never_helps(seen: list[Seen], data: st.DataObject) -> None:
    """Two people differ: the worse end counts."""
    if not seen:
        return
    one = data.draw(st.sampled_from(seen))
    grades = next(grades for name, grades in SCALES if name == one.finding and one.grade in grades)
    worse = replace(one, grade=data.draw(st.sampled_from(grades[grades.index(one.grade) :])))
    before, after = judge_corner(seen), judge_corner([*seen, worse])
    assert rank(after.field.word) <= rank(before.field.word)
    assert rank(after.road.word) <= rank(before.road.word)


@given(st.data())
def test_a_worse_grade_at_an_earlier_look_never_helps(data: st.DataObject) -> None:
    """Over the whole history of one finding: what was worse then is not better put right by the same looks since."""
    name, grades = data.draw(st.sampled_from([scale for scale in SCALES if scale[0] != "fluid"]))
    ages_ = data.draw(st.lists(st.floats(0, 60), min_size=1, max_size=5, unique=True))
    history = [Seen(name, data.draw(st.sampled_from(grades)), ago, ago / 5) for ago in ages_]
    rest = [Seen(other, best, 0.0, 0.0) for other, best in BEST.items() if other != name]
    one = data.draw(st.sampled_from(history))
    worse = data.draw(st.sampled_from(grades[grades.index(one.grade) :]))
    before = judge_corner([*rest, *history])
    after = judge_corner([*rest, *(replace(s, grade=worse) if s is one else s for s in history)])
    assert rank(after.field.word) <= rank(before.field.word)
    assert rank(after.road.word) <= rank(before.road.word)


@given(looks())
def test_yes_is_never_what_is_left_over(seen: list[Seen]) -> None:
    got = judge_corner(seen)
    for verdict in (got.field, got.road):
        if verdict.word == "yes":
            assert set(FIVE) <= got.state.fresh
            assert verdict.saying


@given(st.sets(st.sampled_from([(name, g.id) for name, f in findings().items() for g in f.grades])))
def test_without_a_look_nothing_is_yes_even_if_rows_said_so(pairs: set[tuple[str, str]]) -> None:
    got = judge(State(frozenset(pairs), frozenset()))
    assert got.field.word in {"no", "not known"}
    assert got.road.word in {"no", "not known"}


@given(looks())
def test_order_of_looks_does_not_matter(seen: list[Seen]) -> None:
    assert judge_corner(seen) == judge_corner(list(reversed(seen)))


@given(looks(), st.floats(0.1, 300), st.sampled_from([("plug", "chips"), ("plug", "pieces"), ("oil-metal", "chips")]))
def test_no_later_look_ends_a_proof(seen: list[Seen], ago: float, proof: tuple[str, str]) -> None:
    """Chips and pieces stand until their record is gone, whatever the plug showed later."""
    later = [replace(one, hours_ago=0.0, days_ago=0.0) for one in seen]
    got = judge_corner([*later, Seen(*proof, hours_ago=ago, days_ago=ago)])
    assert got.road.word == "no"
    word = standing([*later, Seen(*proof, hours_ago=ago, days_ago=ago)])
    assert word.word == "failing"


@given(st.lists(st.sampled_from(WORDS), max_size=6))
def test_the_worst_word_is_printed(words: list[str]) -> None:
    got = printed(words)  # type: ignore[arg-type]
    assert got == (min(words, key=rank) if words else "yes")
