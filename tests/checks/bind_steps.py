"""Bindings of the task networks: rows of trade, jobs, schedule, the day's end, bands, after-checks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from math import pi
from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.plan.steps import afterwards, bands, day, hours
from axlewright.plan.steps.jobs import Here, finish, job, minutes, times
from axlewright.plan.steps.schedule import Times, TooFewHands, schedule
from axlewright.trade.networks import Job, hand_on, weave
from axlewright.trade.steps import Branch, Composition, Hold, Join, Minutes, Network, Reading, Steps, Task, Use
from axlewright.trade.steps_read import steps
from axlewright.trade.steps_rules import job_mistakes, mistakes

ROWS = steps()
GRAVITY = 9.80665
WHEN = {words: key for key, words in ROWS.words.when.items()}


def toy(
    name: str, takes: float = 1, hands: int = 1, after: Iterable[str] = (), network: str = "toy", **more: Any
) -> Task:
    some = {"title": name, "how": name, "where": "floor", "scale": "fixed", "first": 1.0, "source": "a test"}
    rest = {"corner": "wood", "load": "none", "end_day": True, "ground": ("any",), "weather": ("any",)}
    m = Minutes(low=takes, likely=takes, high=takes)
    return Task.model_validate(
        {**some, **rest, "id": name, "network": network, "hands": hands, "minutes": m, "after": tuple(after), **more}
    )


def network(name: str, tasks: Iterable[Task]) -> Network:
    return Network(id=name, title=name, sheet="Steps", about=name, source="a test", tasks=tuple(tasks))


def toys(*networks: Network, parts: tuple[Use, ...] = (), joins: tuple[Join, ...] = ()) -> Steps:
    whole = Composition(
        id="whole", title="whole", about="whole", source="a test", parts=parts or (Use(use="toy"),), joins=joins
    )
    return Steps(networks=networks, words=ROWS.words, rules=ROWS.rules, compositions=(whole,))


def spelled(table: dict[str, Any]) -> dict[str, tuple[float, int, list[str]]]:
    """Tasks as the checks write them: predecessors by their first letters."""
    names = {name[0]: name for name in table}
    return {name: (lasts, hands, [names[p] for p in before]) for name, (lasts, hands, before) in table.items()}


def run(table: dict[str, Any], hands: int) -> Times:
    tasks = spelled(table)
    lasts = np.array([t[0] for t in tasks.values()], float)
    return schedule(list(tasks), lasts, [t[1] for t in tasks.values()], {n: t[2] for n, t in tasks.items()}, hands)


def done(rows: Steps, name: str, column: Any, here: Here) -> float:
    return finish(rows, job(rows, name, here).steps, column, here)


@binds("corner-job-by-hands")
def corner_job_by_hands(i: dict[str, Any]) -> dict[str, Any]:
    table = i["tasks_min_hands_pred"]
    out: dict[str, Any] = {}
    for hands in i["hands"]:
        try:
            out[f"finish_{hands}"] = float(run(table, hands).finish)
        except TooFewHands as few:
            out[f"finish_{hands}"] = f"refused, names {few.task[0]}"
    free = run(table, 99)
    tasks = spelled(table)
    chain = [free.tasks[int(free.ends.argmax())]]
    while tasks[chain[0]][2]:
        chain.insert(0, max(tasks[chain[0]][2], key=free.end))
    return out | {"critical_99": "".join(name[0] for name in chain)}


@binds("card-order-matters")
def card_order(i: dict[str, Any]) -> dict[str, Any]:
    return {f"finish_{order}": float(run(i[order], i["hands"]).finish) for order in ("order_1", "order_2")}


@binds("waiting-takes-no-hand")
def waiting(i: dict[str, Any]) -> dict[str, Any]:
    table = i["tasks_min_hands_pred"]
    got = run(table, i["hands"])
    held = {name: [lasts, max(hands, 1), before] for name, (lasts, hands, before) in table.items()}
    third = next(name for name in table if name.startswith("C"))
    return {
        "finish": float(got.finish),
        "start_C": float(got.begin(third)),
        "if_waiting_took_a_hand": float(run(held, i["hands"]).finish),
    }


@binds("left-out-task-hands-on")
def left_out(i: dict[str, Any]) -> dict[str, Any]:
    table = spelled(i["tasks_min_hands_pred"])
    after = {n: t[2] for n, t in table.items()}
    stay = hand_on(after, frozenset(i["left_out"]))
    less = [n for n in table if n in stay]
    without = schedule(
        less, np.array([table[n][0] for n in less], float), [table[n][1] for n in less], stay, i["hands"]
    )
    return {
        "finish_with_B": float(run(i["tasks_min_hands_pred"], i["hands"]).finish),
        "finish_without_B": float(without.finish),
        "predecessors_of_C_without_B": list(stay["C"]),
    }


@binds("composition-waits-for-all-exits")
def exits(i: dict[str, Any]) -> dict[str, Any]:
    one = network("one", [toy(n, *t, network="one") for n, t in spelled(i["part_1"]).items()])
    two = network("two", [toy(n, *t, network="two") for n, t in spelled(i["part_2_after_part_1"]).items()])
    parts = (Use(use="one"), Use(use="two", after=("one",)))
    joins = tuple(Join(task=task, after=tuple(after)) for task, after in i["join"].items())
    got, plain = (
        times(w.steps, np.array([s.task.minutes.likely for s in w.steps]), i["hands"])
        for w in (weave(toys(one, two, parts=parts, joins=j), "whole") for j in (joins, ()))
    )
    return {
        "start_C": float(got.begin("C")),
        "start_D": float(got.begin("D")),
        "finish": float(got.finish),
        "start_D_without_join": float(plain.begin("D")),
    }


@binds("raise-as-delivered")
def raise_network(i: dict[str, Any]) -> dict[str, Any]:
    here = Here(hands=i["hands"], size=i["size"], first_time=i["first_timers"])
    return {column: done(ROWS, i["network"], column, here) for column in ("low", "likely", "high")}


@binds("drive-loose-as-delivered")
def drive_loose(i: dict[str, Any]) -> dict[str, Any]:
    when = frozenset(WHEN[w] for w in i["when"])
    return {f"finish_{h}": done(ROWS, i["network"], i["minutes"], Here(when=when, hands=h)) for h in i["hands"]}


@binds("swap-saddle-as-delivered")
def swap_saddle(i: dict[str, Any]) -> dict[str, Any]:
    when = frozenset(WHEN[w] for w in i["when"])
    out = {h: done(ROWS, i["composition"], i["minutes"], Here(when=when, hands=h, size=i["size"])) for h in i["hands"]}
    return {f"finish_{h}": m for h, m in out.items()} | {"third_pair_saves": out[2] - out[3]}


@binds("walk-round-with-ready-card")
def walk_round(i: dict[str, Any]) -> dict[str, Any]:
    return {
        f"{people}_{card}": done(ROWS, i["network"], i["minutes"], Here(hands=hands, kept=frozenset(kept)))
        for people, hands in zip(("one", "two"), i["hands"], strict=True)
        for card, kept in (("without_card", ()), ("with_card", i["kept"]))
    }


@binds("scale-and-first-timer")
def scale(i: dict[str, Any]) -> dict[str, Any]:
    out = {}
    for case in i["cases"]:
        row, size, who = case.split()
        task = toy("t", i["likely"], scale=row).model_copy(update={"first": i["first"]})
        out[f"{row}_{size}_{who}"] = minutes(ROWS, task, "likely", size, who == "first")
    return out


def clock(text: str) -> datetime:
    return datetime(2000, 6, 1, *map(int, text.split(":")))


@binds("stop-of-day-begin-or-not")
def begin_or_not(i: dict[str, Any]) -> dict[str, Any]:
    first, last = i["block"].split(" to ")
    now, by = clock(i["now"]), day.limit(ROWS.rules, clock(i["work_began"]), clock(i["sunset"]))
    out: dict[str, Any] = {"limit": f"{by.at:%H:%M}", "limit_by": by.by}
    for who, first_time in (("practised", False), ("first_timers", True)):
        here = Here(hands=i["hands"], size=i["size"], first_time=first_time)
        piece = next(p for p in day.pieces(ROWS, job(ROWS, "swap-saddle", here), here) if p.name == first)
        assert piece.steps[-1].task.id == last
        out[f"block_high_{who}"] = piece.high
        out[f"ends_{who}"] = f"{now + timedelta(minutes=int(piece.high)):%H:%M}"
        out[f"begin_{who}"] = day.may_begin(piece, now, by.at)
    return out


@binds("stop-of-day-which-limit")
def which_limit(i: dict[str, Any]) -> dict[str, Any]:
    found = [day.limit(ROWS.rules, clock(c["work_began"]), clock(c["sunset"])) for c in i["cases"]]
    return {"limits": [f"{f.at:%H:%M}" for f in found], "by": [f.by for f in found]}


@binds("first-safe-stop-of-day")
def first_safe_stop(i: dict[str, Any]) -> dict[str, Any]:
    # the pieces of the check by the step of the swap that ends each: what carries corner and load stands there
    ends = ("wo-look", "dl-studs", "os-bring", "os-set", "cl-hold", "ns-rig", "ns-third", "ns-torque")
    work = [
        day.Piece(name, likely, high, block, ROWS.task[end].corner, ROWS.task[end].load)
        for (name, (likely, high, block)), end in zip(i["pieces_likely_high_block"].items(), ends, strict=True)
    ]
    got = day.first_safe_stop(work, clock(i["now"]), clock(i["limit"]))
    assert got.last
    assert got.refused
    return {
        "last_done": got.last.name,
        "day_ends": f"{got.at:%H:%M}",
        "refused": got.refused.name,
        "would_have_ended_at_latest": f"{got.latest:%H:%M}",
        "load_on": got.last.load,
        "corner_on": got.last.corner,
    }


@binds("rest-rule")
def rest_rule(i: dict[str, Any]) -> dict[str, Any]:
    return {"may_end": [day.rests(ROWS.rules, corner, load) for corner, load in i["corner_load"]]}


def woven(i: dict[str, Any]) -> Job:
    return weave(ROWS, i["composition"], [WHEN[w] for w in i.get("when", ())])


@binds("holds-of-the-swap-as-delivered")
def holds(i: dict[str, Any]) -> dict[str, Any]:
    work = woven(i)
    return {act: work.guard(act, s.task.id) for s in work.steps for act in s.task.acts}


@binds("hold-after-the-act-is-refused")
def hold_after(i: dict[str, Any]) -> dict[str, Any]:
    def load(order: list[str], after: dict[str, list[str]]) -> list[tuple[str, str]]:
        made = []
        for name in order:
            act, guards, _ = i["task_acts_guards_after"][name]
            held = Hold(guards=(guards,), must="x", who="x", shown_by="second look") if guards else None
            made.append(toy(name, after=after[name], acts=(act,) if act else (), hold=held))
        rows = toys(network("toy", made))
        return list(job_mistakes(rows, weave(rows, "toy")))

    names = {n[0]: n for n in i["task_acts_guards_after"]}
    after = {n: [names[p] for p in row[2]] for n, row in i["task_acts_guards_after"].items()}
    wrong = load(list(names.values()), after)
    a, b, c = names["A"], names["B"], names["C"]
    where, what = wrong[0]
    return {
        "loads": not wrong,
        "names_act": next(act for act in ROWS.words.act if act in what),
        "names_task": where.removeprefix("toy, "),
        "loads_if_B_after_C": not load([a, c, b], after | {b: [c]}),
    }


def without_hold(rows: Steps, act: str) -> Steps:
    def new(task: Task) -> Task:
        return task.model_copy(update={"hold": None}) if task.hold and act in task.hold.guards else task

    networks = [n.model_copy(update={"tasks": tuple(map(new, n.tasks))}) for n in rows.networks]
    return replace(rows, networks=tuple(networks))


@binds("every-hold-has-teeth")
def teeth(i: dict[str, Any]) -> dict[str, Any]:
    unguarded, left = [], 0
    for act in i["acts"]:
        rows = without_hold(ROWS, act)
        said = [what for _, what in job_mistakes(rows, weave(rows, i["composition"], ROWS.words.when))]
        named = {a for what in said for a in ROWS.words.act if f"the act {a} " in what and a in i["acts"]}
        unguarded.append(sum(a == act for a in named))
        left += act not in named
    (each,) = set(unguarded)
    return {"unguarded_each_time": each, "acts_left_guarded": left}


@binds("circle-is-refused")
def circle(i: dict[str, Any]) -> dict[str, Any]:
    def said(after: dict[str, str]) -> str:
        tasks = [toy(name, after=[before]) for name, before in after.items()]
        found = mistakes(
            replace(ROWS, networks=(*ROWS.networks, network("toy", tasks)), compositions=ROWS.compositions)
        )
        return next(what for _, what in found)

    return {
        "circle": "refused, names " + said(i["circle"]).removeprefix("goes in a circle: ").replace(", ", " and "),
        "unknown": "refused, names "
        + said(i["unknown"]).removeprefix("waits for ").removesuffix(", which is not there"),
        "other_network": "refused: " + said(i["other_network"]).rsplit(": ")[-1],
    }


@binds("blocks-of-the-swap-as-delivered")
def blocks(i: dict[str, Any]) -> dict[str, Any]:
    here = Here(hands=i["hands"], when=frozenset(WHEN[w] for w in i["when"]))
    found = [p for p in day.pieces(ROWS, job(ROWS, i["composition"], here), here) if p.block]
    assert all(day.way_back(ROWS, p) for p in found)
    return {"first_tasks": [p.name for p in found], "high": [p.high for p in found]}


@binds("gauge-band")
def gauge_band(i: dict[str, Any]) -> dict[str, Any]:
    area = pi / 4 * (float(i["piston"].split()[0]) / 1000) ** 2
    low, careful, least, second = (float(i[k].split()[0]) * GRAVITY for k in ("F05", "F95", "W", "F95_second"))
    mark = ROWS.rules.gauge.mark["bar"]
    reserve = ROWS.rules.gauge.reserve
    first = bands.gauge_band(low, careful, least, area, mark * 1e5, reserve=reserve)
    other = bands.gauge_band(low, second, least, area, mark * 1e5, reserve=reserve)
    edges = bands.gauge_edges(first, mark)
    return {
        "go_from": edges.go[0],
        "go_to": edges.go[1],
        "lower_now_above": edges.ask[1],
        "go_to_second": bands.gauge_edges(other, mark).go[1],
    }


@binds("after-checks-on-the-clock")
def after_checks(i: dict[str, Any]) -> dict[str, Any]:
    nuts = next(c for c in ROWS.after_checks if c.id == "wheel-nuts")
    row = nuts.model_copy(update={"hours": tuple(i["hours"]), "then_every": i["then_every"]})
    return {"due": list(afterwards.due(row, float(i["T0"].split()[0]), i["count"]))}


@binds("ratio-by-count")
def ratio(i: dict[str, Any]) -> dict[str, Any]:
    row, twin = ROWS.band["cl-ratio"], i["twin"]
    band = bands.printed(row, {"twin": (twin, twin)}, {}, mark=i["counting_step"])
    says = {"go on": row.say_go, "ask": row.say_ask, "now": row.say_now}
    return {
        "difference_percent": [bands.off_by(count, twin) * 100 for count in i["candidates"]],
        "answer": [says[bands.said(row, band, count)] for count in i["candidates"]],
        "counting_error_percent": bands.off_by(twin + i["counting_step"], twin) * 100,
    }


@binds("trouble-odds")
def trouble_odds(i: dict[str, Any]) -> dict[str, Any]:
    made = [
        Branch(
            chance=b["chance"],
            what="x",
            extra_minutes=Minutes(**dict(zip(("low", "likely", "high"), b["extra"], strict=True))),
        )
        for b in i["branches"]
    ]
    got = hours.odds(made)
    return {"at_least_one": got.at_least_one, "mean_extra": got.mean_minutes}


@binds("seven-readings")
def seven_readings(i: dict[str, Any]) -> dict[str, Any]:
    (card,) = (c for c in woven(i).cards if not c.part)
    many = tuple(
        Reading(id=f"r{n}", quantity="x", unit="mm", limit="x", card=True) for n in range(i["toy_card_readings"])
    )
    rows = toys(network("toy", [toy("t", readings=many)]))
    said = [what for _, what in job_mistakes(rows, weave(rows, "toy"))]
    return {"card": [r.id for r in card.readings], "toy": "refused: " + said[0].split()[0] if said else "taken"}
