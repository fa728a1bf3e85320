"""The rules that the rows of the work must keep to: each broken once, and all at once."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from axlewright.trade.networks import Card, hand_on, jobs, weave
from axlewright.trade.rows import HERE
from axlewright.trade.steps import Join, NotUsable, Steps, Task, Use
from axlewright.trade.steps_read import read, steps
from axlewright.trade.steps_rules import job_mistakes, mistakes

ROWS = steps()


def change(rows: Steps, task: str, **update: Any) -> Steps:
    """The rows with one task changed."""

    def new(t: Task) -> Task:
        return t.model_copy(update=update) if t.id == task else t

    networks = (n.model_copy(update={"tasks": tuple(map(new, n.tasks))}) for n in rows.networks)
    return replace(rows, networks=tuple(networks))


def hold(task: str, **update: Any) -> dict[str, Any]:
    held = ROWS.task[task].hold
    assert held
    return {"hold": held.model_copy(update=update)}


def added(task: str, field: str, *more: Any) -> dict[str, Any]:
    return {field: (*getattr(ROWS.task[task], field), *more)}


PLANTED: dict[str, tuple[Callable[[Steps], Steps], str, str]] = {
    "an act without a guarding hold": (
        lambda r: change(r, "sd-hold", hold=None),
        "swap-saddle, sd-off-wood",
        "the act off-wood has no hold before it that guards it",
    ),
    "a hold beside the act it guards": (
        lambda r: change(r, "ns-home", after=("ns-bring",), acts=("bolt-up", "bolts-final")),
        "swap-saddle, ns-home",
        "the act bolts-final has no hold before it that guards it",
    ),
    "a hold that guards nothing later": (
        lambda r: change(r, "wn-hold", **hold("wn-hold", guards=("bolt-up",))),
        "swap-saddle, wn-hold",
        "the hold guards nothing later (bolt-up)",
    ),
    "a reading nobody took": (
        lambda r: change(r, "ra-clear", readings=()),
        "jack-gauge",
        "nobody takes the reading jack-gauge",
    ),
    "a reading taken too late": (
        lambda r: change(r, "cl-hold", **hold("cl-hold", readings=("cl-turns", "fm-heat"))),
        "swap-saddle, cl-hold",
        "the hold asks for the reading fm-heat, which nobody took before",
    ),
    "a circle": (lambda r: change(r, "ra-first", after=("ra-up",)), "raise", "goes in a circle: ra-first, ra-clear, ra-band, ra-up"),
    "a predecessor in another network": (
        lambda r: change(r, "ra-hold", after=("nl-crack",)),
        "ra-hold",
        "waits for nl-crack of another network: use a join",
    ),
    "a predecessor that is not there": (
        lambda r: change(r, "ra-hold", after=("ra-nothing",)),
        "ra-hold",
        "waits for ra-nothing, which is not there",
    ),
    "a task before what it waits for": (
        lambda r: change(r, "dl-tray", after=("dl-mark",)),
        "dl-tray",
        "waits for dl-mark, which stands later: tasks stand in working order",
    ),
    "the day ends on the jack": (
        lambda r: change(r, "ra-up", end_day=True),
        "ra-up",
        "end_day on jack: the day ends only where corner and load rest",
    ),
    "the day ends on the hook": (
        lambda r: change(r, "oh-part", end_day=True),
        "oh-part",
        "end_day on hook: the day ends only where corner and load rest",
    ),
    "the day ends on the forks": (
        lambda r: change(r, "wo-nuts", end_day=True),
        "wo-nuts",
        "end_day on forks: the day ends only where corner and load rest",
    ),
    "a block without a way back": (
        lambda r: replace(r, ways_back=tuple(w for w in r.ways_back if w.id != "set-down")),
        "swap-saddle, sd-hold",
        "a block begins here that has no way back",
    ),
    "eight readings": (
        lambda r: change(
            r, "wr-slope", readings=tuple(x.model_copy(update={"card": True}) for x in r.task["wr-slope"].readings)
        ),
        "swap-saddle",
        "eight readings on a card; there is room for 7: slope-long, slope-cross, jack-gauge, crib-settle, ns-torque, "
        "fi-litres, sd-nut-torque, fm-heat",
    ),
    "an unknown caution": (lambda r: change(r, "ra-hold", cautions=("take-care",)), "ra-hold", "cautions: there is no take-care"),
    "a caution that no step carries": (
        lambda r: replace(r, cautions=(*r.cautions, r.cautions[0].model_copy(update={"id": "idle"}))),
        "caution idle",
        "no step carries it",
    ),
    "five cautions on a step": (
        lambda r: change(r, "ra-hold", **added("ra-hold", "cautions", "wind")),
        "ra-hold",
        "5 cautions; a step carries 4 at most",
    ),
    "unknown gear": (lambda r: change(r, "ra-up", gear=("anvil",)), "ra-up", "gear: there is no anvil"),
    "gear that nothing uses": (
        lambda r: replace(r, words=r.words.model_copy(update={"gear": {**r.words.gear, "anvil": "anvil"}})),
        "gear anvil",
        "nothing uses it",
    ),
    "an unknown part": (lambda r: change(r, "ra-up", parts=("nail",)), "ra-up", "parts: there is no nail"),
    "a part that nothing uses": (
        lambda r: replace(r, words=r.words.model_copy(update={"parts": {**r.words.parts, "nail": "nail"}})),
        "parts nail",
        "nothing uses it",
    ),
    "an unknown engine": (lambda r: change(r, "ra-up", draws_on=("A9",)), "ra-up", "engine: there is no A9"),
    "an unknown act": (lambda r: change(r, "ra-up", acts=("jump",)), "ra-up", "act: there is no jump"),
    "an unknown condition": (lambda r: change(r, "ra-up", when="rainy"), "ra-up", "when: there is no rainy"),
    "a card reading without a band": (
        lambda r: replace(r, bands=tuple(b for b in r.bands if b.readings != ("crib-settle",))),
        "ra-settle",
        "the reading crib-settle has no band",
    ),
    "two tasks of one id": (
        lambda r: change(r, "ra-up", id="ra-pack"),
        "task ra-pack",
        "is there twice",
    ),
    "a job that leaves out a task it has not": (
        lambda r: replace(
            r, compositions=tuple(c.model_copy(update={"parts": (*c.parts, Use(use="shelf", without=("ra-up",)))}) for c in r.compositions[:1])
        ),
        "raised-corner-look",
        "shelf has no task ra-up to leave out",
    ),
    "a join that names a task of no part": (
        lambda r: replace(
            r, compositions=(r.compositions[0].model_copy(update={"joins": (Join(task="cl-fit", after=("wr-hold",)),)}), *r.compositions[1:])
        ),
        "raised-corner-look",
        "the join of cl-fit names cl-fit, which is not in it",
    ),
    "a job that ends off its rest": (
        lambda r: change(r, "sd-clear", end_day=False),
        "raised-corner-look, sd-clear",
        "the job ends where the day may not end",
    ),
}  # fmt: skip


@pytest.mark.parametrize("fault", PLANTED)
def test_a_planted_fault_is_named(fault: str) -> None:
    plant, where, what = PLANTED[fault]
    found = mistakes(plant(ROWS))
    assert any(where in w and what == text for w, text in found), f"{fault}: {found}"


def test_the_rows_as_they_stand_break_no_rule() -> None:
    assert mistakes(ROWS) == ()
    assert (len(ROWS.networks), len(ROWS.task), len(ROWS.cautions), len(ROWS.bands)) == (29, 296, 105, 31)
    assert sum(t.hold is not None for t in ROWS.task.values()) == 46


def test_all_mistakes_are_said_at_once() -> None:
    broken = change(
        change(change(ROWS, "ra-up", gear=("anvil",)), "co-seen", after=("ra-up",)), "wo-nuts", end_day=True
    )
    assert [w for w, _ in mistakes(broken)] == ["ra-up", "co-seen", "wo-nuts"]


def test_mistakes_of_several_files_are_named_with_their_file(tmp_path: Path) -> None:
    folder = tmp_path / "steps"
    shutil.copytree(HERE / "steps", folder)
    fill = folder / "fill.toml"
    fill.write_text(
        fill.read_text().replace("hands = 0", "hands = -1").replace("minutes = { low = 10", "minuts = { low = 10")
    )
    (folder / "common" / "bands.toml").write_text(
        'source = "x"\n[[band]]\nreadings = ["crib-settle"]\nunit = "mm"\ngo = [0, 7]\nask = [0, 5]\n'
    )
    (folder / "raise.toml").write_text("id = ")
    with pytest.raises(NotUsable) as bad:
        read(folder)
    said = dict(bad.value.mistakes)
    assert "is no TOML" in said["trade/steps/raise.toml"]
    assert "go must lie inside ask" in said["trade/steps/common/bands.toml, [[band]], no id"]
    assert {"tasks.4.hands", "tasks.4.minutes", "tasks.4.minuts"} <= {
        what.split(":")[0] for where, what in bad.value.mistakes if "fill.toml" in where
    }


def test_minutes_must_rise(tmp_path: Path) -> None:
    folder = tmp_path / "steps"
    shutil.copytree(HERE / "steps", folder)
    fill = folder / "fill.toml"
    fill.write_text(fill.read_text().replace("low = 4, likely = 8, high = 20", "low = 9, likely = 8, high = 20"))
    with pytest.raises(NotUsable, match="minutes must rise"):
        read(folder)


@pytest.mark.parametrize("name", jobs(ROWS))
def test_every_guard_survives_every_combination_of_conditions(name: str) -> None:
    """An optional hold must not go with its task: all subsets of what a job asks, where the loader tries a few."""
    parts = [p.use for p in ROWS.composition[name].parts] if name in ROWS.composition else [name]
    asked = sorted({t.when for p in parts for t in ROWS.network[p].tasks if t.when})
    for n in range(len(asked) + 1):
        for when in combinations(asked, n):
            for kept in ((), ("ready-card",)):
                job = weave(ROWS, name, when, kept)
                assert not list(job_mistakes(ROWS, job)), f"{name} {when}"
                place = {s.task.id: i for i, s in enumerate(job.steps)}
                assert all(place[a] < place[s.task.id] for s in job.steps for a in s.after)


def test_what_is_left_out_hands_on_through_several_tasks() -> None:
    after = {"a": (), "b": ("a",), "c": ("b",), "d": ("c", "a"), "e": ("d",)}
    assert hand_on(after, frozenset("bc")) == {"a": (), "d": ("a",), "e": ("d",)}
    assert hand_on(after, frozenset("abc")) == {"d": (), "e": ("d",)}


def test_bench_and_make_safe_are_worked_on_cards_of_their_own() -> None:
    cards: dict[str, Card] = {c.part: c for c in weave(ROWS, "rebuild-now").cards}
    assert set(cards) == {"", "bench", "make-safe"}
    assert all(len(c.readings) <= 7 for c in cards.values())
    assert [c.part for c in weave(ROWS, "bench", scope="gears").cards] == [""]


def test_depth_of_the_bench() -> None:
    """The sums of the note's table, hours by one person: 3 / 6 / 12 lip, 9 / 17 / 32 bearings, 13 / 26 / 50 gears, the
    night apart."""
    for scope, table in {"seal": (3, 6, 12), "bearings": (9, 17, 32), "gears": (13, 26, 50)}.items():
        job = weave(ROWS, "bench", scope=scope)
        worked = [s.task.minutes for s in job.steps if s.task.hands]
        sums = [sum(getattr(m, column) for m in worked) / 60 for column in ("low", "likely", "high")]
        assert [round(s) for s in sums] == list(table), f"{scope}: {sums}"


def test_cautions_begin_with_a_sentence_that_stands_alone() -> None:
    for caution in ROWS.cautions:
        assert 5 <= len(caution.lead) <= 145, caution.id
        assert f"{caution.lead} {caution.rest}".strip() == caution.text, caution.id
