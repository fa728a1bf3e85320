"""The choice against hand-made cases and laws: common draws, prices that turn it, the worth of looking, dates."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from plan.choice_cases import given, task, with_seen

from axlewright.kinds import KINDS
from axlewright.plan.choice_made import made
from axlewright.plan.facts import Seen
from axlewright.plan.judge import judge_corner
from axlewright.plan.judge.courses import course_stop, unsafe_stop
from axlewright.plan.reckon.choice import Made, compare, made_out, slug
from axlewright.plan.reckon.choice_task import ChoiceTask
from axlewright.plan.reckon.choice_worth import Asked, Candidate, FindOut, by_life, find_out, turns, worth_of_used
from axlewright.quantities import Exact, Quantity
from axlewright.trade.choice import courses as course_words
from axlewright.trade.choice import items

NUMBERS = ("mean", "low", "high", "cash", "days_lost", "fails", "unsafe")
FIVE = ("run", "run with checks", "fit a used drive", "rebuild now", "hire out")


def told(out: Made, course: str) -> list[float]:
    return [out.w[f"{slug(course)}.{name}"].middle() for name in NUMBERS]


@pytest.fixture(scope="module")
def plain() -> Made:
    return made_out(with_seen(task(), ("plug", "flakes")), {})


# --- laws of common draws
def test_the_same_seed_gives_the_same_numbers(plain: Made) -> None:
    again = made_out(with_seen(task(), ("plug", "flakes")), {})
    for course in FIVE:
        assert told(again, course) == told(plain, course)


def test_another_course_moves_no_other_numbers(plain: Made) -> None:
    fewer = made_out(with_seen(task(courses=("run", "fit a used drive")), ("plug", "flakes")), {})
    for course in ("run", "fit a used drive"):
        assert told(fewer, course) == pytest.approx(told(plain, course), rel=1e-12)


def test_striking_a_course_out_moves_no_other_numbers(plain: Made) -> None:
    struck = made_out(with_seen(task(), ("plug", "flakes")), {"run": True})
    assert [one.name for one in struck.courses if one.stopped] == ["run"]
    for course in FIVE[1:]:
        assert told(struck, course) == pytest.approx(told(plain, course), rel=1e-12)


def test_worse_findings_never_make_run_cheaper_or_safer() -> None:
    """Plug from bare to flakes: run lets go more often and costs more; a used drive fails as before."""
    rows = [made_out(with_seen(task(), ("plug", grade)), {}) for grade in ("clean", "paste", "thick", "flakes")]
    fails = [out.w["course/run.fails"].middle() for out in rows]
    costs = [out.w["course/run.mean"].middle() for out in rows]
    assert fails == sorted(fails)
    assert fails[0] < fails[-1]
    assert costs == sorted(costs)
    assert len({out.w["course/fit-a-used-drive.fails"].middle() for out in rows}) == 1


def test_worse_findings_never_raise_the_rank_of_run() -> None:
    ranks = []
    for grade in ("clean", "paste", "flakes", "chips"):
        out = made_out(with_seen(task(), ("plug", grade)), {})
        ranks.append([one.name for one in out.courses].index("run"))
    assert ranks == sorted(ranks)


def test_a_course_costs_no_less_when_its_price_rises_and_the_others_stay() -> None:
    cheap, dear = (made_out(task(own={"price/used": given("price/used", "money", p)}), {}) for p in ("2000", "3000"))
    name = "fit a used drive"
    bought = cheap.w["choice/compared"].draws.uses[FIVE.index(name)].bought
    rise = told(dear, name)[0] - told(cheap, name)[0]
    assert rise >= 1000 * bought - 1e-6  # extra parts hang on that price too
    assert rise <= 1000 * (bought + 1)


# --- money
def test_courses_come_best_first_and_the_struck_ones_last(plain: Made) -> None:
    struck = made_out(with_seen(task(), ("plug", "flakes")), {"hire out": True})
    means = [one.mean for one in struck.courses if not one.stopped]
    assert means == sorted(means)
    assert struck.courses[-1].name == "hire out"
    assert np.isnan(struck.courses[-1].mean)
    assert plain.best is not None


def repriced(out: Made, of: ChoiceTask, price: str, at: float) -> Made:
    """The same trouble with one price moved, everything worked out again: a second way to the same numbers."""
    fixed = Quantity(price, KINDS[items()[price].kind if price in items() else "money"], Exact(at), "measured", "moved", "")  # fmt: skip
    return made_out(replace(of, quantities={**of.quantities, price: fixed}), {})


def test_where_the_price_of_a_spare_turns_it_two_courses_cost_the_same() -> None:
    of = with_seen(task(), ("plug", "thick"))
    out = made_out(of, {})
    turn = next((one for one in turns(out, of) if one.price == "price/spare"), None)
    if turn is None:
        pytest.skip("no price of a spare turns this one")
    again = repriced(out, of, "price/spare", turn.at)
    assert out.best is not None
    assert told(again, turn.course)[0] == pytest.approx(told(again, out.best.name)[0], abs=2.0)


def test_at_the_most_that_a_used_drive_is_worth_it_costs_what_the_best_other_costs() -> None:
    """Its price straight in the cost: from the ledger against pricing it anew, extra parts and recoveries held."""
    of = with_seen(task(), ("plug", "flakes"))
    out = made_out(of, {})
    worth = worth_of_used(out, of)
    assert worth is not None
    both, n = out.w["choice/compared"].draws, FIVE.index("fit a used drive")
    freight = float(np.mean(out.w["price/freight"].draws))
    at_it = [both.told[k].mean - both.uses[k].bought_for + both.uses[k].bought * (worth + freight) for k in range(5)]
    mine = at_it.pop(n)
    assert mine == pytest.approx(min(at_it), abs=1e-6)


def test_cash_now_of_a_used_drive_is_its_price_freight_and_hours() -> None:
    own = {"price/used": given("price/used", "money", "3000"), "price/freight": given("price/freight", "money", "200"), "price/hour-in-season": given("price/hour-in-season", "money-rate", "0 /h"), "lead/used": given("lead/used", "duration", "3 d")}  # fmt: skip
    out = made_out(task(own=own), {})
    assert told(out, "fit a used drive")[3] == pytest.approx(3200.0)
    assert not told(out, "run")[3]


# --- dates
def test_the_day_to_order_by_is_the_ripe_day_less_wait_and_work() -> None:
    own = {"lead/used": given("lead/used", "duration", "3 d")}
    out = made_out(task(own=own, starts=20), {})
    used = next(one for one in out.courses if one.name == "fit a used drive")
    takes = np.quantile(np.asarray(out.w["job/swap.takes"].draws), 0.9) / 86400 + 3
    assert used.order_by == date(2026, 8, 1 + 20 - int(np.ceil(takes)))
    assert not used.too_late
    assert out.need_by == date(2026, 8, 21)


def test_a_wait_longer_than_the_time_left_is_too_late() -> None:
    out = made_out(task(own={"lead/used": given("lead/used", "duration", "30 d")}), {})
    used = next(one for one in out.courses if one.name == "fit a used drive")
    assert used.too_late
    assert out.w["course/fit-a-used-drive/in-time.share"].middle() == pytest.approx(0.0)


def test_who_quoted_a_wait_has_found_one() -> None:
    asked = made_out(task(own={"lead/used": given("lead/used", "duration", "3 d")}), {})
    guessed = made_out(task(), {})
    at = "course/fit-a-used-drive/in-time.had"
    assert asked.w[at].middle() == pytest.approx(1.0)
    assert guessed.w[at].middle() == pytest.approx(0.85, abs=0.08)


# --- the worth of looking
def looked(out: Made, of: ChoiceTask, table: list[list[float]], minutes: float = 0.0, stopped: tuple[frozenset[str], ...] = ()) -> FindOut:  # fmt: skip
    """What a look is worth; of its table an outcome a row, a condition a column."""
    chances = np.array(table).T
    outcomes = tuple(f"o{n}" for n in range(chances.shape[1]))
    one = Candidate("look", outcomes, chances, stopped or (frozenset(),) * len(outcomes), minutes)
    return find_out(out, of, [one])[0]


ROUGH = [[0.95, 0.72, 0.25], [0.05, 0.28, 0.75]]


def test_the_worth_of_a_look_is_its_definition() -> None:
    of = with_seen(task(), ("plug", "flakes"))
    out = made_out(of, {})
    costs, condition = by_life(out, of), np.asarray(out.w["life/fitted"].draws.condition, int)
    chances = np.array(ROUGH)[:, condition].T
    today, after = costs.mean(axis=0).min(), 0.0
    for m in range(2):  # by hand: each outcome alone, reweighted
        weights = chances[:, m] / chances[:, m].sum()
        after += chances[:, m].mean() * min(float(weights @ costs[:, k]) for k in range(costs.shape[1]))
    assert looked(out, of, ROUGH).worth == pytest.approx(today - after, abs=1e-6)


def test_a_useless_look_is_worth_nothing_and_none_is_worth_more_than_knowing_the_condition(plain: Made) -> None:
    of = with_seen(task(), ("plug", "flakes"))
    assert looked(plain, of, [[0.5] * 3, [0.5] * 3]).worth == pytest.approx(0.0, abs=1e-9)
    perfect = looked(plain, of, np.eye(3).tolist()).worth
    assert 0.0 <= looked(plain, of, [[0.8, 0.2, 0.1], [0.2, 0.8, 0.9]]).worth <= perfect + 1e-9


def test_time_is_taken_off(plain: Made) -> None:
    found = looked(plain, with_seen(task(), ("plug", "flakes")), ROUGH, minutes=60.0)
    hour = float(np.mean(plain.w["price/hour-in-season"].draws)) * 3600
    assert found.worth - found.net == pytest.approx(hour)


def test_after_an_outcome_that_strikes_a_course_out_another_is_taken(plain: Made) -> None:
    """Whatever is cheapest: after the second outcome a used drive alone is left."""
    left = frozenset(FIVE) - {"fit a used drive"}
    found = looked(plain, with_seen(task(), ("plug", "flakes")), ROUGH, stopped=(frozenset(), left))
    assert found.then[1][2] == "fit a used drive"


def test_asking_what_nothing_hangs_on_is_worth_nothing(plain: Made) -> None:
    of = with_seen(task(), ("plug", "flakes"))
    (found,) = find_out(plain, of, [], [Asked("price/seal-kit", 5.0)])  # nobody reseals here
    best = told(plain, plain.courses[0].name)[0]
    assert found.worth < 0.02 * abs(best)
    assert found.net == pytest.approx(found.worth - 5 / 60 * float(np.mean(plain.w["price/hour-in-season"].draws)) * 3600)  # fmt: skip


# --- verdicts strike out first
FRESH = tuple(Seen(f, g, hours_ago=0.0, days_ago=0.0) for f, g in (("level", "at-mark"), ("plug", "clean"), ("bolts", "still"), ("nuts", "still"), ("rock", "none")))  # fmt: skip


def seen(**worse: str) -> tuple[Seen, ...]:
    return tuple(Seen(one.finding, worse.get(one.finding, one.grade), hours_ago=0.0, days_ago=0.0) for one in FRESH)


@pytest.mark.parametrize(
    ("saw", "struck"),
    [
        (seen(), set()),
        (seen(plug="flakes"), {"run"}),
        (seen(rock="some"), {"reseal"}),
        (seen(plug="pieces"), {"run", "run with checks", "reseal"}),
        ((), {"run", "run with checks", "reseal"}),
    ],
)
def test_a_verdict_strikes_out_what_goes_on_with_the_drive(saw: tuple[Seen, ...], struck: set[str]) -> None:
    verdicts = judge_corner(saw)
    assert {course for course in course_words() if course_stop(course, verdicts)} == struck


def test_what_would_lift_a_stop_is_said_without_a_price() -> None:
    for saw in (seen(plug="pieces"), seen(plug="flakes"), ()):
        for course in course_words():
            stop = course_stop(course, judge_corner(saw))
            if stop:
                assert stop.why
                assert stop.lifted_by
                assert "€" not in stop.why + stop.lifted_by


def test_a_chance_of_harm_only_ever_strikes_out() -> None:
    assert unsafe_stop(0.0) is None
    assert unsafe_stop(0.001) is None
    assert unsafe_stop(0.0011) is not None


def test_stopped_courses_stay_stopped_whatever_they_cost() -> None:
    """With a free hired machine and a used drive for nothing, and run the cheapest: FIELD no is FIELD no."""
    choice = made(with_seen(task(), ("plug", "pieces")), seen(plug="pieces"))
    assert {one.name for one in choice.made.courses if one.stopped} >= {"run", "run with checks"}
    assert choice.made.best is not None
    assert not choice.made.best.stopped


def test_nothing_is_chosen_before_the_first_look() -> None:
    choice = made(task(), ())
    assert choice.look_first


def test_comparing_again_with_another_course_struck_changes_the_best_alone(plain: Made) -> None:
    of = with_seen(task(), ("plug", "flakes"))
    out = made_out(of, {})
    before = {course: told(out, course) for course in FIVE}
    assert out.best is not None
    compare(out.w, of, {out.best.name: True})
    assert {course: told(out, course) for course in FIVE} == before


def test_a_hundred_dots_have_the_mean_of_the_course(plain: Made) -> None:
    for course in FIVE:
        dots = np.asarray(plain.w[f"{slug(course)}.dots"].draws, float)
        assert len(dots) == 100
        assert dots.tolist() == sorted(dots.tolist())
        spread = plain.w[f"{slug(course)}.high"].middle() - plain.w[f"{slug(course)}.low"].middle()
        assert float(np.median(dots)) == pytest.approx(float(np.median(np.asarray(plain.w["choice/compared"].draws.costs)[:, FIVE.index(course)])), abs=0.05 * spread + 1.0)  # fmt: skip


def test_seasons_in_blocks_come_to_the_same_as_all_at_once(monkeypatch: pytest.MonkeyPatch, plain: Made) -> None:
    monkeypatch.setattr("axlewright.plan.reckon.choice_blocks.BLOCK", 300)  # does not part 1,280 evenly
    parted = made_out(with_seen(task(), ("plug", "flakes")), {})
    for course in FIVE:
        assert told(parted, course) == pytest.approx(told(plain, course), rel=1e-12)


def test_the_jobs_go_by_what_was_answered_of_this_trouble() -> None:
    from axlewright.plan.choice_of import choice_task
    from axlewright.plan.work_of import work_of
    from axlewright.store import DEMO, Folder

    yard = Folder(DEMO).read()
    trouble = yard.trouble(6)
    here, sheet = choice_task(yard, trouble, date(2026, 8, 28), 1, 64).here, work_of(yard, trouble, date(2026, 8, 28))
    assert sheet is not None
    assert (here.drive, here.by, here.when, here.size) == (
        sheet.here.drive,
        sheet.here.by,
        sheet.here.when,
        sheet.here.size,
    )
    assert here.first_time == sheet.here.first_time
    assert here.hands >= 2


def test_who_has_not_done_it_before_takes_longer_over_it() -> None:
    known, new = (made_out(replace(task(), here=replace(task().here, first_time=first)), {}) for first in (False, True))
    assert new.w["job/swap.labour"].middle() > known.w["job/swap.labour"].middle()
    assert told(new, "run") != told(known, "run"), "what lets go is swapped too"


def test_a_crop_is_lost_on_its_own_last_day_whatever_the_others_last() -> None:
    one = task(starts=-2)
    more = [given(name.replace("crops.1", "crops.2"), q.kind.name, q.typed) for name, q in one.quantities.items() if name.startswith("season/crops.1")]  # fmt: skip
    first, late = replace(one.works[0], ends=5), replace(one.works[0], starts=20, ends=60)
    both = replace(one, quantities={**one.quantities, **{q.name: q for q in more}}, works=(first, late))
    long = replace(both, works=(replace(first, ends=60), late))
    standing = [np.asarray(made_out(t, {}).w["season/free"].draws.season.standing).mean(axis=0) for t in (both, long)]
    assert standing[0][0] > 10e4, "60 ha at 1.5 ha/h and 8 h a day take five good days"
    assert not standing[1][0]
