"""The demo yard: it reads without a mistake, shows every state, and borrows no number from anywhere."""

from __future__ import annotations

import re
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

from axlewright.store import DEMO, at, lay_out
from axlewright.trade.findings import findings
from axlewright.yard import Corner, Stated, Yard

CHECKS = Path(__file__).parent.parent / "checks"


def demo() -> Yard:
    return at(DEMO).read()


def test_it_reads_without_a_mistake_on_any_day() -> None:
    assert at(DEMO, date(2020, 1, 1)).read() == demo() == at(DEMO, date(2040, 1, 1)).read()
    assert demo().today(date(2040, 1, 1)) == date(2026, 8, 28)


def test_its_machines_are_the_three() -> None:
    assert {m.id: m.kind for m in demo().machines} == {
        "bramble": "forage-harvester",
        "linnet": "walker-combine",
        "wren": "small-combine",
    }
    assert demo().name == "Low Meadow (invented)"
    assert len(demo().spares) == 2
    assert any(d.sits == "bench" for d in demo().drives)


def test_troubles_stand_at_several_stages() -> None:
    yard = demo()
    stages = {t.number: yard.stage(t.number) for t in yard.troubles}
    assert {"seen", "judged", "looked after", "put by"} <= set(stages.values())


def test_corners_are_fresh_stale_and_never_looked_at() -> None:
    yard = demo()
    today = yard.today(date.max)
    ages = {
        corner: min(((today - f.on).days for marks in yard.newest(corner).values() for f in marks), default=None)
        for corner in yard.corners
    }
    assert ages[Corner("wren", "front-right")] is None
    assert ages[Corner("linnet", "front-left")] == 57
    fresh = yard.newest(Corner("linnet", "front-right"))
    assert {"level", "plug", "bolts", "nuts", "rock"} <= set(fresh)
    for marks in fresh.values():
        for mark in marks:
            run = yard.run_since(mark, today)
            assert run is not None
            assert run.hours + run.about < 25
            assert findings()[mark.finding].grade(mark.grade).good


def test_one_corner_is_to_be_made_safe() -> None:
    yard = demo()
    stops = {f.corner for f in yard.standing if f.on.year == 2026 and findings()[f.finding].grade(f.grade).stop}
    assert stops == {Corner("wren", "front-left")}


def test_there_are_five_years_of_hours_on_two_clocks_and_one_that_was_changed() -> None:
    yard = demo()
    for machine in yard.machines:
        days = [r.on for r in yard.clock_readings if r.machine == machine.id]
        assert (max(days) - min(days)).days > 4.5 * 365
    assert yard.clock_log("linnet").pairs
    assert any(r.new_clock for r in yard.clock_readings)


def test_it_can_be_copied_and_written_to(tmp_path: Path) -> None:
    lay_out(tmp_path / "y", DEMO)
    assert at(tmp_path / "y").read() == demo()


def test_courses_were_taken_where_troubles_were_settled() -> None:
    yard = demo()
    taken = {t.number: yard.course(t.number) for t in yard.troubles}
    assert taken[5] == "fit a spare"
    assert all(bool(taken[s.trouble]) for s in yard.stages if s.stage == "settled")


def test_it_borrows_no_number() -> None:
    """No hours and no value with a unit of the demo yard is a check value, where it tells anything."""

    def numbers(value: Any) -> set[float]:
        if isinstance(value, dict):
            return set().union(*map(numbers, value.values())) if value else set()
        if isinstance(value, list):
            return set().union(*map(numbers, value)) if value else set()
        return {float(value)} if isinstance(value, int | float) and not isinstance(value, bool) else set()

    borrowed: set[float] = set()
    for file in CHECKS.glob("*.toml"):
        for check in tomllib.loads(file.read_text(encoding="utf-8")).get("check", []):
            borrowed |= numbers(check.get("inputs")) | numbers(check.get("expected"))
    own = {r.hours for r in demo().clock_readings} | {f.hours for f in demo().findings if f.hours is not None}
    for thing in (*demo().machines, *demo().designs):
        stated = [value for _, value in thing if isinstance(value, Stated)]
        own |= {float(value.value.split()[0]) for value in stated}
    telling = {n for n in own if n >= 300 or n != int(n)}
    for answer in demo().answers:  # a short figure such as 0.6 or 16 is nobody's
        found = re.findall(r"(?<![\w.-])\d+(?:\.\d+)?(?![\w/.])", answer.value)
        telling |= {float(text) for text in found if len(text.replace(".", "").lstrip("0")) >= 3}
    assert telling
    assert sorted(telling & borrowed) == []
