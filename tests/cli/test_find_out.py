"""find-out, as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from axlewright.trade.findings import findings
from axlewright.trade.looks import looks
from cli.conftest import Run


def test_what_to_find_out_stands_by_its_worth(run: Run, yard: Path) -> None:
    said = json.loads(run("find-out", "6", "--yard", str(yard), "--json").out)
    nets = [one["net"] for one in said["find_out"]]
    assert nets == sorted(nets, reverse=True)
    for one in said["find_out"]:
        assert one["worth"] >= 0
        assert one["minutes"] > 0
        assert sum(then["chance"] for then in one["then"]) <= 1 + 1e-4  # cut to six digits
    assert said["decide_by"] is None or said["decide_by"] >= "2026-08-28"


def test_struck_courses_have_no_number(run: Run, yard: Path) -> None:
    said = json.loads(run("find-out", "7", "--yard", str(yard), "--json").out)
    struck = [one for one in said["courses"] if one["stopped"]]
    assert {one["course"] for one in struck} >= {"run", "run with checks"}
    for one in struck:
        assert set(one) == {"course", "stopped", "why", "lifted_by"}


def test_at_a_stop_no_look_is_told_that_wants_it_to_work_or_raised(run: Run, yard: Path) -> None:
    """Trouble 7 is stopped by chips: the looks of its list are made on its wheels, engine off."""
    said = json.loads(run("find-out", "7", "--yard", str(yard), "--json").out)
    told = [one["name"] for one in said["find_out"] if one["name"] in findings()]
    assert told
    assert all(set(looks()[findings()[name].look].stages) == {"G"} for name in told)
    assert "Heat" not in run("find-out", "7", "--yard", str(yard)).out


def test_before_the_first_look_that_comes_first(run: Run, yard: Path) -> None:
    ran = run("find-out", "8", "--yard", str(yard))
    assert ran.code == 0
    assert ran.out.startswith("First the half hour")
    assert "First look: wipe, chalk" in ran.out


def test_it_says_the_same_twice(run: Run, yard: Path) -> None:
    words = ("find-out", "6", "--yard", str(yard), "--json")
    assert run(*words).out == run(*words).out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("find-out", "41"), "no trouble 41"),
        (("find-out", "5"), "There is no choice to make here"),
        (("find-out", "six"), "invalid int value"),
    ],
)
def test_what_cannot_be_chosen_is_said_in_plain_words(run: Run, yard: Path, words: tuple[str, ...], says: str) -> None:
    ran = run(*words, "--yard", str(yard))
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_a_yard_without_a_season_says_what_to_write(run: Run, yard: Path) -> None:
    (yard / "seasons/2026.toml").unlink()
    ran = run("find-out", "6", "--yard", str(yard))
    assert ran.code == 2
    assert "seasons/2026.toml" in ran.err
