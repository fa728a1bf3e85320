"""reading and due, as a person types them: what each reading says, what a hold waits for, what is wrong and what is not."""

from __future__ import annotations

import json
from pathlib import Path

import icalendar
import pytest

from cli.conftest import Run


def test_without_values_it_says_where_the_card_stands_and_what_is_missing(run: Run, yard: Path) -> None:
    ran = run("reading", "9", "--yard", str(yard))
    assert ran.code == 0
    assert ">  10 ra-band" in ran.out
    assert "HOLD" in ran.out
    assert "seen-by: A second person looks, by name." in ran.out
    found = json.loads(run("reading", "9", "--json", "--yard", str(yard)).out)
    assert found["at"]["step"] == "ra-band"
    assert found["card"]["revision"] == "C"


def test_a_reading_says_what_its_band_says(run: Run, yard: Path) -> None:
    at = ("--yard", str(yard), "--as", "owner")
    assert "go on" in run("reading", "9", "jack-gauge=120", *at).out
    assert "lower and ask" in run("reading", "9", "jack-gauge=150", *at).out
    high = run("reading", "9", "jack-gauge=300 bar", *at)
    assert "LOWER NOW" in high.out
    assert high.code == 0
    refused = run("reading", "9", "ra-band=done", "--seen-by", "helper", *at)
    assert refused.code == 2
    assert "outside its band" in refused.err
    run("reading", "9", "jack-gauge=120", *at)
    assert "ra-up" in run("reading", "9", "ra-band=done", "--seen-by", "helper", *at).out
    text = (yard / "troubles" / "9.toml").read_text(encoding="utf-8")
    assert text.startswith("# Wren, right")
    assert 'value = "300 bar"' in text


def test_a_paper_is_typed_back_in_one_line(run: Run, yard: Path) -> None:
    words = ("reading", "9", "jack-gauge=115", "crib-settle=1", "--typed-back", "--up-to", "16", "--seen-by", "helper")
    ran = run(*words, "--revision", "C", "--yard", str(yard), "--json")
    assert ran.code == 0
    found = json.loads(ran.out)
    assert found["done"] == 16
    void = run(*words, "--revision", "B", "--yard", str(yard))
    assert void.code == 2
    assert "void" in void.err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("reading", "41"), "no trouble 41"),
        (("reading", "8", "jack-gauge=1"), "No step card"),
        (("reading", "9", "jack-guage=1"), "Did you mean jack-gauge?"),
        (("reading", "9", "jack-gauge"), "NAME=VALUE"),
        (("reading", "9", "jack-gauge=1 t"), "pressure"),
        (("reading", "9", "crib-settle=1"), "is not passed"),
        (("reading", "9", "ra-settle=perhaps"), "whether it was done"),
        (("reading", "9", "ra-band=done"), "second person"),
        (("reading", "9", "set-down=190"), "is not done"),
        (("reading", "9", "--begin"), "does not rest"),
        (("reading", "6", "--begin"), "walk-round"),
        (("reading", "5", "wheel-nuts=still"), "clock"),
        (("reading", "5", "wheel-nuts=tight", "--clock", "2599"), "no grade tight"),
        (("reading", "5", "wheel-nuts=still", "--clock", "25990"), "Did you mean"),
        (("due", "--within", "soon"), "neither hours nor days"),
        (("due", "--to", "due.docx"), ".pdf"),
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


def test_due_lists_what_runs_out_first_and_an_after_check_takes_its_line_away(run: Run, yard: Path) -> None:
    at = ("--yard", str(yard))
    lines = run("due", *at).out.splitlines()
    rows = [line for line in lines if "linnet/front-right" in line]
    assert "coupling lock seen" in rows[0]
    assert "OVERDUE" in rows[0]
    assert run("reading", "5", "coupling=lock seen", "--clock", "2599", *at).code == 0
    assert "coupling" not in run("due", *at).out
    soon = json.loads(run("due", "--within", "5h", "--json", *at).out)
    assert [one for one in soon["due"] if one["hours_left"] is not None and one["hours_left"] > 5] == []


def test_due_as_a_calendar_and_as_a_sheet(run: Run, yard: Path, tmp_path: Path) -> None:
    to = tmp_path / "out" / "due.ics"
    assert run("due", "--to", str(to), "--yard", str(yard)).code == 0
    events = icalendar.Calendar.from_ical(to.read_bytes()).walk("VEVENT")
    assert any("wheel nuts" in str(event["SUMMARY"]) for event in events)
    for ending, begins in ((".pdf", b"%PDF"), (".txt", b"Due"), (".json", b"{")):
        assert run("due", "--to", str(tmp_path / f"due{ending}"), "--yard", str(yard)).code == 0
        assert (tmp_path / f"due{ending}").read_bytes().startswith(begins)


def test_the_ready_card_of_a_machine_by_its_name(run: Run, yard: Path) -> None:
    ran = run("draw-up", "Linnet", "--yard", str(yard))
    assert ran.code == 0
    assert "Ready card" in ran.out
    assert run("draw-up", "lark", "--yard", str(yard)).code == 2
