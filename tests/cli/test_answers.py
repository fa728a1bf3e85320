"""settle, walk-round, put-by, and answers typed behind draw-up, as a person types them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from axlewright.trade.questions import questions
from cli.conftest import Run


def test_settle_and_put_by(run: Run, yard: Path) -> None:
    at = ("--yard", str(yard))
    assert "settled: fit a used drive" in run("settle", "6", "fit-used-drive", *at).out
    assert "already" in run("settle", "6", "fit", "a", "used", "drive", *at).out
    assert json.loads(run("settle", "6", "park", "--json", *at).out) == {
        "trouble": 6, "course": "park", "stage": "settled", "new": True,
    }  # fmt: skip
    assert "put by" in run("put-by", "6", *at).out
    again = run("put-by", "6", *at)
    assert again.code == 2
    assert "was put by" in again.err
    assert 'course = "park"' in (yard / "troubles" / "6.toml").read_text(encoding="utf-8")


def test_walk_round_lists_its_boxes_and_says_which_are_open(run: Run, yard: Path) -> None:
    at = ("--yard", str(yard))
    listed = run("walk-round", "6", *at)
    assert listed.code == 0
    for words in ("walk-round/slope-along", "open", "kept: 16 t", "off | on-blocks | neither", "NOT FOR LIFTING"):
        assert words in listed.out
    assert "walk-round/stand-plate" not in listed.out
    one = run("walk-round", "6", "walk-round/slope-along=1 %", "header=off", "walk-round/jack-plate=kept", *at)
    assert "boxes open" in one.out
    found = json.loads(run("walk-round", "6", "--json", *at).out)
    assert not found["complete"]
    assert {"header", "walk-round/jack-plate"} & set(found["open"]) == set()
    rest = [f"{name}={questions()[name].example}" for name in found["open"]]
    done = run("walk-round", "6", *rest, "--as", "owner and helper", *at)
    assert "Every box has its answer" in done.out
    assert "owner and helper" in done.out
    assert json.loads(run("walk-round", "6", "--json", *at).out)["complete"]


def test_draw_up_keeps_answers_first(run: Run, yard: Path) -> None:
    at = ("--yard", str(yard))
    drawn = run("draw-up", "6", "bolts/grease=moly paste", "wheel/mass=391 kg", "--json", *at)
    assert drawn.code == 0
    text = (yard / "troubles" / "6.toml").read_text(encoding="utf-8")
    assert 'value = "moly paste"' in text
    assert "# Bramble, right" in text


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("draw-up", "6", "bolts/grase=oil"), "Did you mean bolts/grease?"),
        (("draw-up", "6", "bolts/grease"), "NAME=VALUE"),
        (("draw-up", "6", "bolts/count=9", "bolts/count=10"), "typed twice"),
        (("draw-up", "6", "machine/mass=11 kg"), "11 t"),
        (("draw-up", "6", "bolts/thread=3/4-10 UNC"), "10.9"),
        (("walk-round", "6", "bolts/count=9"), "no box of the walk-round"),
        (("walk-round", "41"), "no trouble 41"),
        (("walk-round", "six"), "six"),
        (("settle", "6", "hope"), "hire out"),
        (("settle", "6"), "COURSE"),
        (("settle", "41", "park"), "no trouble 41"),
        (("put-by", "3"), "was put by"),
    ],
)
def test_nonsense_is_said_in_a_line_or_two_and_changes_nothing(
    words: tuple[str, ...], says: str, run: Run, yard: Path
) -> None:
    before = {path: path.read_bytes() for path in yard.rglob("*.toml")}
    ran = run(*words, "--yard", str(yard))
    assert ran.code == 2
    assert says in ran.err
    assert len(ran.err.strip().splitlines()) <= 2
    assert {path: path.read_bytes() for path in yard.rglob("*.toml")} == before


def test_the_list_says_what_is_known_how_and_what_is_missing(run: Run, yard: Path) -> None:
    at = ("--yard", str(yard))
    lines = run("draw-up", "6", "--list", *at).out.splitlines()
    line = {words.split()[0]: words for words in lines if words.startswith("  ")}
    assert "anti-seize" in line["bolts/grease"]
    assert "measured" in line["bolts/grease"]
    assert "missing" in line["machine/rear-axle-mass"]
    assert "assumed" in line["machine/cg-height"]
    assert "11.34 t" in line["machine/mass"]
    assert "walk-round/stand-plate" not in line
    rows = {row["name"]: row for row in json.loads(run("draw-up", "6", "--list", "--json", *at).out)["questions"]}
    assert set(line) == set(rows)
    assert rows["bolts/book-torque"]["basis"] == "book"
    assert rows["wheel/mass"]["source"].startswith("size 620/75R30")
    assert all(row["source"] for row in rows.values() if row["value"] and row["basis"] == "assumed")
