"""Bindings of judge.md: verdicts, grades, margins at the careful end, and the tables of section 3."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterable
from typing import Any

from checks.bindings import binds

from axlewright.engines.holding.stand import stand_rating
from axlewright.plan.judge import (
    Fixed,
    Seen,
    State,
    breaking_unknown,
    by_margin,
    heat_grade,
    judge_corner,
    judge_line,
    least_word,
    printed,
)
from axlewright.plan.judge.road import spoken
from axlewright.plan.steps.bands import gauge_band
from axlewright.trade.findings import by_eye, findings, floored, order_breaks, sum_error
from axlewright.trade.first_look import first_looks, outcomes
from axlewright.trade.verdicts import WORDS, held_rules

ZERO_C = 273.15
VERDICTS = (
    "nothing-looked-at", "all-five-clean", "five-looks-only-damp-wheel-side", "chips-rock-not-looked",
    "chips-rock-none-by-dial", "chips-rock-still-by-eye", "clunk-clean-plug", "one-loose-bolt", "rust-streak-at-nut",
    "crack-suspect", "flakes-rock-some", "flakes-rock-beyond", "brake-oil-at-the-wheel", "level-rising",
    "oil-not-reached", "rock-look-gone-stale", "old-chips-do-not-go-stale", "plug-wiped-five-hours-ago",
    "hub-very-hot", "nut-moved-at-second-check", "pieces-stop-everything", "grease-only",
)  # fmt: skip


@binds(*VERDICTS)
def verdicts(i: dict[str, Any]) -> dict[str, Any]:
    ages = i.get("hours_since_look", {})
    wiped = {"plug": i.get("hours_since_plug_was_wiped")}
    seen = [
        Seen(finding, grade, ages.get(finding), since_wiped=wiped.get(finding))
        for finding, grade in i["findings"].items()
    ]
    found = judge_corner(seen)
    return {"field": found.field.word, "road": found.road.word, "rows": list(found.rows)}


def shown_by(choice: dict[str, str]) -> list[list[tuple[str, str]]]:
    """Every way in which grades can stand behind one combination of outcomes."""
    behind = []
    for look, outcome in choice.items():
        row = first_looks()[look]
        grades = [] if outcome == "not-looked" else row.outcomes[outcome]
        behind.append([(row.finding, grade) for grade in grades if grade != "jet"] or [None])
    return [[pair for pair in ways if pair] for ways in itertools.product(*behind)]


@binds("first-look-table-complete")
def first_look_table(i: dict[str, Any]) -> dict[str, Any]:
    looks = ("wipe", "chalk", "breather", "level", "plug")
    combinations = unmatched = yes = road_better = 0
    reached = set()
    for shown in itertools.product(*(i[look] for look in looks)):
        combinations += 1
        choice = dict(zip(looks, shown, strict=True))
        row = next((r for r in outcomes() if r.fits({k: frozenset([v]) for k, v in choice.items()})), None)
        if row is None:
            unmatched += 1
            continue
        reached.add(row.n)
        for pairs in shown_by(choice):
            field, road = spoken(State(frozenset(pairs), frozenset(finding for finding, _ in pairs)))
            unmatched += (field, road) != (row.field, row.road)
            yes += field == "yes"
            road_better += road in {"yes", "only if"}
    return {
        "combinations": combinations,
        "unmatched": unmatched,
        "rows": len(outcomes()),
        "rows_never_reached": len(outcomes()) - len(reached),
        "field_plain_yes": yes,
        "road_yes_or_only_if": road_better,
    }


def scales() -> list[tuple[str, list[str]]]:
    """Findings with an order of their own, mildest grade first; the eye's and the dial's rock apart."""
    found = []
    for name, finding in findings().items():
        if finding.ordered:
            ways = dict.fromkeys(grade.by for grade in finding.grades)
            found += [(name, [g.id for g in finding.grades if g.by == by]) for by in ways]
    return found


@binds("verdict-worse-never-better")
def worse_never_better(i: dict[str, Any]) -> dict[str, Any]:
    chance = random.Random(20)
    by_finding: dict[str, list[list[str]]] = {}
    for name, grades in scales():
        by_finding.setdefault(name, []).append(grades)
    rank = {word: n for n, word in enumerate(WORDS)}
    violations = 0
    for _ in range(i["random_cases"]):
        pairs, steps = {}, []
        for name, ways in by_finding.items():
            if chance.random() < 0.45:
                grades = chance.choice(ways)
                at = chance.randrange(len(grades))
                pairs[name] = grades[at]
                if at + 1 < len(grades):
                    steps.append((name, grades[at + 1]))
        fresh = frozenset(name for name in pairs if chance.random() < 0.8)
        field, road = spoken(State(frozenset(pairs.items()), fresh))
        violations += rank[road] > rank[field]
        if steps:
            name, worse = chance.choice(steps)
            after = spoken(State(frozenset({**pairs, name: worse}.items()), fresh))
            violations += rank[after[0]] > rank[field] or rank[after[1]] > rank[road]
    return {"violations": violations}


@binds("precedence")
def precedence(i: dict[str, Any]) -> dict[str, Any]:
    return {"printed": [printed(words) for words in i["rows"]]}


@binds("least-word")
def least(i: dict[str, Any]) -> dict[str, Any]:
    def pairs(grades: Iterable[str]) -> list[tuple[str, str]]:
        return [
            next((name, g) for name, finding in findings().items() for one in finding.grades if one.id == g)
            for g in grades
        ]

    return {"word": [least_word(pairs(case["findings"]), case["likeliest"]) for case in i["cases"]]}


@binds("hub-heat-grades")
def heat(i: dict[str, Any]) -> dict[str, Any]:
    grades = [
        heat_grade(hub + ZERO_C, None if twin == "none" else twin + ZERO_C)
        for hub, twin in zip(i["hub_C"], i["twin_C"], strict=True)
    ]
    return {"grade": [grade or "not looked at" for grade in grades]}


# margins at the careful end
def rule(margin: str) -> Any:
    return next(row for row in held_rules() if row.margin == margin)


@binds("jack-plate-at-the-careful-end")
def jack(i: dict[str, Any]) -> dict[str, Any]:
    margins = [Fixed("jack", i["plate_t"] / load, i["plate_t"] / load) for load in i["careful_load_t"]]
    return {"margin": [m.at(0.05) for m in margins], "verdict": [by_margin(rule("jack"), [m]) for m in margins]}


@binds("careful-end-decides")
def careful(i: dict[str, Any]) -> dict[str, Any]:
    return {
        "verdict": [
            by_margin(rule(i["rule"]), [Fixed(i["rule"], middle, end)])
            for middle, end in zip(i["middle"], i["careful"], strict=True)
        ]
    }


@binds("stand-plate-per-pair")
def stand(i: dict[str, Any]) -> dict[str, Any]:
    margin = stand_rating(i["plate_t"], i["per_pair"]) / i["careful_load_t"]
    words = []
    for lock in i["lock_home"]:
        answers = {"rests-on": "stand", "lock-home": "yes" if lock else "no"}
        found = judge_line("HOLDING", answers, [Fixed("stand", margin, margin)])
        words.append(printed(one.word for one in found.fired if one.rule.id == "H6"))
    return {"margin": margin, "verdict": words}


@binds("gauge-bands")
def bands(i: dict[str, Any]) -> dict[str, Any]:
    area = math.pi / 4 * (i["ram_mm"] / 1000) ** 2
    mark = i["step_bar"] * 1e5
    careful, limit = i["careful_kN"] * 1e3, i["limit_kN"] * 1e3
    go_from, go_to, now = gauge_band(careful / 2, careful, limit, area, mark, i["raising_friction"])
    return {"go_to_bar": go_to * i["step_bar"], "lower_above_bar": now * i["step_bar"], "empty": go_from > go_to}


@binds("one-unknown-that-breaks-it")
def breaks(i: dict[str, Any]) -> dict[str, Any]:
    found = breaking_unknown(
        lambda v: i["capacity_t"] / (i["base_t"] + i["grain_share"] * v["grain"] + v["offset"]),
        middle={"grain": i["grain_t"][0], "offset": i["offset_t"][0]},
        careful={"grain": i["grain_t"][1], "offset": i["offset_t"][1]},
    )
    assert found
    return {
        "margin_middle": found.margin_middle,
        "names": found.name,
        "margin_alone": found.margin_alone,
        "breaks_at_grain_t": found.at,
    }


@binds("blunt-tool-no-verdict")
def blunt(i: dict[str, Any]) -> dict[str, Any]:
    margins = [i["tolerance_mm"] / error for error in i["tool_error_mm"]]
    return {"verdict": [by_margin(rule("tool"), [Fixed("tool", m, m)]) for m in margins]}


# tables of section 3
@binds("tables-sum-and-monotone")
def tables(i: dict[str, Any]) -> dict[str, Any]:
    found = [table for finding in findings().values() for table in finding.tables().values()]
    assert len(found) == i["tables"]
    return {
        "worst_sum_error": max(sum_error(table) for table in found),
        "violations": sum(order_breaks(table) for table in found),
    }


@binds("floor-lifts-only-worse")
def floor(i: dict[str, Any]) -> dict[str, Any]:
    return {"floored": [list(floored(tuple(row), i["e"])) for row in i["likelihood"]]}


@binds("rock-by-eye-from-dial")
def eye(i: dict[str, Any]) -> dict[str, Any]:
    still = by_eye(dict(enumerate(i["dial"])), i["still_share"])
    return {"still": list(still.values()), "clunk": [1 - p for p in still.values()]}
