"""Work by a step card: what is read is held against what was printed, a hold is passed by nothing else, nothing is lost."""

from __future__ import annotations

from typing import Any

import pytest
from desk.in_hand import EVENING, card_begun, now, of, step, take, walked_round, work_to
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright import desk, store
from axlewright.plan.in_hand.worked import two_people
from axlewright.yard import Change, Faults, Reading, StepCard, Yard


def refused(deed: Any, *given: Any) -> dict[str, str]:
    with pytest.raises(Faults) as bad:
        deed(*given)
    return {fault.where: f"{fault.what} {fault.right}" for fault in bad.value.faults}


def test_a_card_is_begun_after_the_walk_round_with_its_bands_cut() -> None:
    before = store.at(store.DEMO).read()
    assert "walk-round 6" in refused(desk.begin_card, before, desk.BeginCard(trouble=6), now())["trouble"]
    yard = card_begun()
    card = of(yard).card
    assert yard.stage(6) == "in hand"
    assert card.revision
    assert {band.reading for band in card.bands} >= {"jack-gauge", "crib-settle", "fm-heat"}
    gauge = next(band for band in card.bands if band.reading == "jack-gauge")
    assert gauge.go_from is not None
    assert gauge.go_to is not None
    assert gauge.ask_to is not None
    assert gauge.go_from < gauge.go_to < gauge.ask_to
    assert all((end or 0) % gauge.mark == 0 for end in (gauge.go_from, gauge.go_to, gauge.ask_to))


@pytest.mark.parametrize(
    ("fields", "where", "says"),
    [
        ({"trouble": 8}, "trouble", "settle 8"),
        ({"trouble": 7}, "trouble", "No course"),
        ({"trouble": 3}, "trouble", ""),
        ({"trouble": 61}, "trouble", "no trouble 61"),
        ({"trouble": 6, "job": "swop"}, "job", "swap"),
        ({"trouble": 6, "when": ("brakes",)}, "when", "no brakes"),
        ({"trouble": 6, "hands": 1}, "hands", "second adult"),
    ],
)
def test_no_card_where_there_can_be_none(fields: dict[str, Any], where: str, says: str) -> None:
    assert says in refused(desk.begin_card, walked_round(), desk.BeginCard(**fields), now())[where]


def test_a_stop_withholds_the_steps() -> None:
    yard = store.at(store.DEMO).read()
    yard = yard.with_(desk.settle(yard, desk.Settle(trouble=7, course="reseal"), now()))
    assert "stopped" in refused(desk.begin_card, yard, desk.BeginCard(trouble=7), now())["trouble"]


def test_a_newer_card_only_at_a_rest_and_it_voids_the_older_paper() -> None:
    yard = work_to(card_begun(), "ra-clear")
    assert "does not rest" in refused(desk.begin_card, yard, desk.BeginCard(trouble=6), now())["trouble"]
    rests = work_to(yard, "wo-forks")
    newer = rests.with_(desk.begin_card(rests, desk.BeginCard(trouble=6), now()))
    assert len([card for card in newer.step_cards if card.trouble == 6]) == 2
    assert set(of(newer).done) >= set(of(rests).done)
    paper = desk.TypeBack(trouble=6, revision="A", values={"fi-litres": "11"})
    assert "void" in refused(desk.type_back, newer, paper, now())["revision"]


def test_readings_are_kept_as_typed_and_held_against_whole_marks() -> None:
    yard = work_to(card_begun(), "ra-first")
    yard = yard.with_(take(yard, values={"jack-lean": "1,5", "plate-sink": "4 mm"}))
    kept = {one.reading: one for one in yard.readings if one.reading}
    assert kept["jack-lean"].value == "1,5 deg"
    assert kept["jack-lean"].who == "owner"
    assert kept["jack-lean"].time == f"{EVENING:%H:%M}"
    assert of(yard).taken["jack-lean"].says == "go on"
    for value, says in (("1.6", "ask"), ("3", "ask"), ("3.2", "now"), ("1.5", "go on")):
        again = yard.with_(take(yard, values={"jack-lean": value}))
        assert of(again).taken["jack-lean"].says == says, value


def test_all_that_cannot_be_read_is_said_at_once_and_nothing_is_kept() -> None:
    yard = work_to(card_begun(), "ra-first")
    found = refused(take, yard, 6)
    assert "Nothing was read" in found["values"]
    with pytest.raises(Faults) as bad:
        take(yard, values={"jack-lean": "straight", "plate-sink": "4 kg", "jack-guage": "120"})
    told = {fault.where: str(fault) for fault in bad.value.faults}
    assert set(told) == {"jack-lean", "plate-sink", "jack-guage"}
    assert "mass" in told["plate-sink"]
    assert "jack-gauge" in told["jack-guage"]


def test_nothing_is_taken_behind_a_hold_that_is_not_passed_but_paper_is_believed() -> None:
    yard = work_to(card_begun(), "ra-band")
    with pytest.raises(Faults) as bad:
        take(yard, values={"crib-settle": "1"})
    assert "inside its band" in bad.value.faults[0].what
    kept = yard.with_(take(yard, values={"crib-settle": "1"}, taken="paper"))
    assert "crib-settle" in of(kept).taken
    assert "ra-settle" not in of(kept).done


def test_a_hold_says_which_reading_is_missing_or_outside_and_who_must_look() -> None:
    yard = work_to(card_begun(), "ra-clear")
    assert "is not done" in refused(step, yard, "ra-band", "helper")["step"]
    above = next(band.ask_to for band in of(yard).card.bands if band.reading == "jack-gauge")
    yard = yard.with_(take(yard, values={"jack-gauge": f"{above + 10:g}"}))
    yard = yard.with_(step(yard, "ra-clear"))
    assert "outside its band" in refused(step, yard, "ra-band", "helper")["jack-gauge"]
    fits = next(band.go_from for band in of(yard).card.bands if band.reading == "jack-gauge")
    yard = yard.with_(take(yard, values={"jack-gauge": f"{fits:g}"}, step="ra-clear"))
    assert "second person" in refused(step, yard, "ra-band")["seen_by"]
    assert "somebody else" in refused(step, yard, "ra-band", "Owner")["seen_by"]
    assert "ra-band" in of(yard.with_(step(yard, "ra-band", "helper"))).done


def test_what_is_put_right_later_opens_the_hold_again() -> None:
    yard = (
        work_to(card_begun(), "wo-outer") if "wo-outer" in of(card_begun()).steps else work_to(card_begun(), "wo-forks")
    )
    settled = next(one for one in yard.readings if one.reading == "crib-settle")
    assert "ra-held" in of(yard).done
    worse = yard.with_(take(yard, values={"crib-settle": "6 mm"}, corrects=settled.id))
    assert settled in worse.readings
    assert settled not in worse.standing_readings
    assert "ra-held" not in of(worse).done
    assert of(worse).now is not None
    assert of(worse).now.task.id == "ra-held"  # type: ignore[union-attr]


def test_a_figure_nobody_reckoned_is_written_by_hand_but_never_the_gauge() -> None:
    yard = card_without(card_begun(), "cl-ratio")
    stands = of(yard)
    assert "cl-ratio" not in stands.bands
    assert stands.figure_of("cl-ratio") == "twin"
    assert stands.figure_of("jack-gauge") == ""
    yard = yard.with_(take(yard, values={"twin": "31"}, taken="paper"))
    assert of(yard).bands["cl-ratio"].says(31.25) == "go on"
    assert of(yard).bands["cl-ratio"].says(32.5) == "now"
    no_gauge = card_without(yard, "jack-gauge")
    assert "jack-gauge" not in of(no_gauge).bands
    assert (
        of(no_gauge.with_(take(no_gauge, values={"jack-gauge": "150"}, taken="paper"))).taken["jack-gauge"].says
        == "ask"
    )


def card_without(yard: Yard, reading: str) -> Yard:
    card = of(yard).card
    bands = tuple(band for band in card.bands if band.reading != reading)
    newer = card.model_copy(update={"id": "other", "bands": bands, "at": now(later=90).at})
    return yard.with_(Change((newer,)))


def test_a_paper_card_is_typed_back_in_one_go() -> None:
    yard = card_begun()
    front = of(yard).front()
    assert len(front) <= 7
    up_to = next(n for n, one in enumerate(of(yard).cards[""], 1) if one.task.id == "ra-held")
    gauge = next(band.go_to for band in of(yard).card.bands if band.reading == "jack-gauge")
    assert gauge
    values = {"jack-gauge": f"{gauge:g}", "crib-settle": "1", "jack-lean": "1", "plate-sink": "3"}
    deed = desk.TypeBack(trouble=6, revision=of(yard).card.revision, values=values, up_to=up_to, seen_by="helper", time="16:40")  # fmt: skip
    after = yard.with_(desk.type_back(yard, deed, now()))
    assert "ra-held" in of(after).done
    assert {one.taken for one in after.readings if one.trouble == 6} == {"paper"}
    assert {one.time for one in after.readings if one.trouble == 6} == {"16:40"}
    high = desk.TypeBack(trouble=6, values={**values, "jack-gauge": "900"}, up_to=up_to, seen_by="helper")
    told = refused(desk.type_back, yard, high, now())
    assert "outside its band" in told["up_to"]
    nobody = desk.TypeBack(trouble=6, values=values, up_to=up_to)
    assert "second person" in refused(desk.type_back, yard, nobody, now())["up_to"]
    lower = high.model_copy(update={"up_to": None})
    assert of(yard.with_(desk.type_back(yard, lower, now()))).taken["jack-gauge"].says == "now"


@pytest.mark.parametrize("deed", ["take", "step", "paper", "begin", "down", "after"])
def test_a_form_sent_twice_even_later_is_kept_once(deed: str) -> None:
    yard = set_down_done() if deed == "after" else work_to(card_begun(), "ra-first")
    if deed == "down":
        yard = worked_through()
    if deed == "begin":
        yard = walked_round()
    made: dict[str, Any] = {
        "take": (desk.take_reading, desk.Take(id="f", trouble=6, values={"plate-sink": "3"})),
        "step": (desk.undo_step, desk.DoStep(id="f", trouble=6, step="ra-hold")),
        "paper": (desk.type_back, desk.TypeBack(id="f", trouble=6, values={"plate-sink": "3"})),
        "begin": (desk.begin_card, desk.BeginCard(id="f", trouble=6)),
        "down": (desk.set_down, desk.SetDown(id="f", trouble=6, engine=3368.0)),
        "after": (
            desk.do_after_check,
            desk.LookAfter(id="f", trouble=6, look="level", found={"level": "at-mark"}, hours=3369.0),
        ),
    }
    function, said = made[deed]
    once = yard.with_(function(yard, said, now()))
    assert once != yard
    assert once.with_(function(once, said, now(later=3))) == once


_WORKED: list[Yard] = []


def worked_through() -> Yard:
    if not _WORKED:
        _WORKED.append(work_to(card_begun(), "nothing"))
    return _WORKED[0]


def test_a_job_that_is_set_down_has_moved_its_drives() -> None:
    """The spare of the same kind sits at the corner, the old drive lies on the bench, both by this trouble."""
    before, yard = card_begun(), set_down_done()
    old, spare = before.drive_at(before.trouble(6).corner), before.drive("broad-spare")
    there = yard.drive_at(yard.trouble(6).corner)
    assert old
    assert there
    assert (there.id, yard.drive(old.id).sits) == (spare.id, "bench")
    assert {move.trouble for move in yard.moves if move not in before.moves} == {6}


def set_down_done() -> Yard:
    yard = worked_through()
    return yard.with_(desk.set_down(yard, desk.SetDown(trouble=6, engine=3368.4), now()))


def test_the_whole_card_can_be_worked_and_writes_the_looks_that_follow() -> None:
    early = work_to(card_begun(), "sd-wheel")
    assert "is not done" in refused(desk.set_down, early, desk.SetDown(trouble=6, engine=3368.0), now())["trouble"]
    yard = worked_through()
    assert of(yard).now is None
    assert "clock" in refused(desk.set_down, yard, desk.SetDown(trouble=6), now())["engine"]
    assert "threshing" in refused(desk.set_down, yard, desk.SetDown(trouble=6, threshing=12.0), now())
    down = set_down_done()
    assert down.stage(6) == "set down"
    due = {check.look: check.due for check in down.after_checks if check.trouble == 6}
    assert due["wheel-nuts"] == (3369, 3378, 3418, 3668)
    assert due["flange-bolts"] == (3378, 3418, 3668)
    mornings = next(c.mornings for c in down.after_checks if c.trouble == 6 and c.look == "joint-and-lip")
    assert [f"{day}" for day in mornings] == [f"2026-08-{day}" for day in (29, 30, 31)] + [
        f"2026-09-0{n}" for n in range(1, 5)
    ]
    assert "already" in refused(desk.set_down, down, desk.SetDown(trouble=6, engine=3369.0), now())["trouble"]


def test_an_after_check_is_a_finding_too_and_needs_its_clock() -> None:
    yard = set_down_done()
    nuts = desk.LookAfter(trouble=6, look="wheel-nuts", found={"nuts": "moved"}, hours=3369.0)
    after = yard.with_(desk.do_after_check(yard, nuts, now("helper")))
    assert [f.grade for f in after.findings if f.finding == "nuts"][-1] == "moved"
    assert after.stage(6) == "looked after"
    bad = {
        "hours": desk.LookAfter(trouble=6, look="wheel-nuts", found={"nuts": "moved"}),
        "nuts": desk.LookAfter(trouble=6, look="wheel-nuts", found={"nuts": "tight"}, hours=3369.0),
        "look": desk.LookAfter(trouble=6, look="wheel-nut", found={"nuts": "still"}, hours=3369.0),
        "says": desk.LookAfter(trouble=6, look="coupling", says="perhaps", hours=3369.0),
        "plug": desk.LookAfter(trouble=6, look="level", found={"plug": "paste"}, hours=3369.0),
    }
    for where, deed in bad.items():
        assert where in refused(desk.do_after_check, yard, deed, now())


# the law: whatever is written, in whatever order, no step counts as done behind a hold that its readings do not pass
START = work_to(card_begun(), "ra-hold")
NEAR = ("ra-hold", "ra-first", "ra-clear", "ra-band", "ra-up", "ra-pack", "ra-seat-hold", "ra-down", "ra-settle", "ra-insure", "ra-held", "wo-forks")  # fmt: skip
VALUES = {
    "jack-lean": ("0", "1.5", "2", "9"),
    "plate-sink": ("0", "10", "15", "30"),
    "jack-gauge": ("0", "150", "240", "900"),
    "crib-settle": ("0", "2", "4", "8"),
    "slope-long": ("0.5", "2.5", "9"),
    "slope-cross": ("0.5", "2.5", "9"),
}
deeds = st.one_of(
    st.tuples(
        st.just("take"), st.sampled_from(sorted(VALUES)), st.integers(0, 3), st.sampled_from(["command", "paper"])
    ),
    st.tuples(st.just("do"), st.sampled_from(NEAR), st.sampled_from(["", "owner", "helper"])),
    st.tuples(st.just("undo"), st.sampled_from(NEAR)),
    st.tuples(st.just("typed"), st.integers(1, 30), st.sampled_from(["", "helper"])),
    st.tuples(st.just("file"), st.sampled_from(NEAR)),  # a line written into the file by hand
)


def carried_out(yard: Yard, deed: tuple[Any, ...]) -> Yard:
    try:
        match deed:
            case "take", name, n, how:
                value = VALUES[name][n % len(VALUES[name])]
                return yard.with_(take(yard, values={name: value}, taken=how))
            case "do", name, seen_by:
                return yard.with_(step(yard, name, seen_by))
            case "undo", name:
                return yard.with_(desk.undo_step(yard, desk.DoStep(trouble=6, step=name), now()))
            case "typed", number, seen_by:
                paper = desk.TypeBack(trouble=6, up_to=number, seen_by=seen_by)
                return yard.with_(desk.type_back(yard, paper, now()))
            case _, name:
                line = Reading(id=f"x{len(yard.readings)}", trouble=6, step=name, value="done", on=EVENING.date())
                return yard.with_(Change((line,)))
    except Faults:
        return yard


def inside(card: StepCard, reading: str, value: float) -> bool:
    band = next(band for band in card.bands if band.reading == reading)
    low, high = band.go_from, band.go_to
    return (low is None or value >= low) and (high is None or value <= high)


@settings(max_examples=60, deadline=None)
@given(st.lists(deeds, min_size=5, max_size=25))
def test_no_order_of_deeds_passes_a_hold(many: list[tuple[Any, ...]]) -> None:
    yard = START
    for deed in many:
        yard = carried_out(yard, deed)
    stands = of(yard)
    newest: dict[str, float] = {"slope-long": 1.0, "slope-cross": 0.5}  # of the walk-round
    marks: dict[str, Reading] = {}
    for one in sorted(yard.readings, key=lambda r: (r.on, r.at.isoformat() if r.at else "")):
        if one.reading in VALUES:
            newest[one.reading] = float(one.value.split()[0])
        elif one.reading is None:
            marks[one.step] = one
    for name in stands.done:
        for before in (*stands.job.before[name], name):
            hold = stands.steps[before].task.hold
            if hold is None or before not in NEAR:
                continue
            assert marks[before].value == "done"
            for reading in hold.readings:
                assert inside(stands.card, reading, newest[reading]), (name, before, reading, newest)
            if two_people(hold):
                assert marks[before].seen_by
                assert marks[before].seen_by.casefold() != marks[before].who.casefold()
    assert set(START.readings) <= set(yard.readings), "what was written once stays"


def test_a_gauge_in_psi_is_read_in_psi() -> None:
    """1 bar is 14.5038 psi (NIST SP 811): the same load gives the same band, to a mark of the gauge."""
    in_bar = next(band for band in of(card_begun()).card.bands if band.reading == "jack-gauge")
    yard = walked_round()
    told = desk.Answers(trouble=6, values={"jack/gauge": "psi", "jack/gauge-mark": "100 psi"}, basis="measured")
    yard = yard.with_(desk.answer(yard, told, now()))
    yard = work_to(yard.with_(desk.begin_card(yard, desk.BeginCard(trouble=6), now())), "ra-clear")
    gauge = next(band for band in of(yard).card.bands if band.reading == "jack-gauge")
    assert (gauge.unit, gauge.mark) == ("psi", 100)
    for psi, bar in ((gauge.go_from, in_bar.go_from), (gauge.go_to, in_bar.go_to), (gauge.ask_to, in_bar.ask_to)):
        assert psi is not None
        assert bar is not None
        assert abs(psi - bar * 14.5038) <= 100 + in_bar.mark * 14.5038
    yard = yard.with_(take(yard, values={"jack-gauge": f"{gauge.go_from:g}"}))
    assert of(yard).taken["jack-gauge"].typed == f"{gauge.go_from:g} psi"
    assert of(yard).taken["jack-gauge"].says == "go on"
    over = yard.with_(take(yard, values={"jack-gauge": f"{(gauge.ask_to or 0) / 14.5038 + 20:.0f} bar"}))
    assert of(over).taken["jack-gauge"].says == "now"
    assert "ra-band" in of((y := yard.with_(step(yard, "ra-clear"))).with_(step(y, "ra-band", "helper"))).done
