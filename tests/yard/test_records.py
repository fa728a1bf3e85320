"""Single records: what they take, what they refuse, and that what they refuse is said in plain words."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

import pytest
from pydantic import ValidationError

from axlewright.yard import RECORDS, Corner, Drive, Finding, Machine, Stated, Title, faults_of
from axlewright.yard.records import TURNS_TEXT_ROUND


def said(model: type, **fields: Any) -> str:
    """The faults of one record, as a person reads them."""
    with pytest.raises(ValidationError) as bad:
        model.model_validate(fields)
    return "\n".join(map(str, faults_of(bad.value, model, lambda key: f"line of {key}" if key else "file")))


@pytest.mark.parametrize("text", ["bramble/front-left", "Bramble/Front Left", " bramble / front-left "])
def test_a_corner_is_read_as_people_spell_it(text: str) -> None:
    assert Corner.read(text) == Corner("bramble", "front-left")
    assert str(Corner.read(text)) == "bramble/front-left"


@pytest.mark.parametrize("text", ["", "bramble", "/front-left", "bramble/middle", "bramble/front-left/x", 7, None])
def test_what_is_no_corner_is_refused(text: object) -> None:
    with pytest.raises(ValueError, match="spelled machine/place"):
        Corner.read(text)


def test_every_record_is_frozen_and_refuses_strange_keys() -> None:
    for model in RECORDS.values():
        assert model.model_config["frozen"], model
        assert model.model_config["extra"] == "forbid", model


def test_every_field_that_people_type_carries_an_example_that_fits() -> None:
    """An example that is itself refused would send a person round in circles."""
    for model in RECORDS.values():
        examples = {key: info.examples[0] for key, info in model.model_fields.items() if info.examples}
        inner = {"id": "x1"} if model is not Title else {}
        assert model.model_validate({**inner, **examples})
        own = [k for k in model.model_fields if k not in {"id", "at", "corrects"}]
        assert set(own) <= set(examples), model


def test_values_with_a_unit_are_assumed_unless_they_say_otherwise() -> None:
    machine = Machine.model_validate({"id": "lark", "name": "Lark", "mass": "9 t"})
    assert machine.mass == Stated(value="9 t", basis="assumed")
    assert machine.body()["mass"] == "9 t"
    weighed = Machine.model_validate({"id": "lark", "name": "Lark", "mass": {"value": "9 t", "basis": "measured"}})
    assert weighed.body()["mass"] == {"value": "9 t", "basis": "measured"}


def test_a_body_leaves_out_when_it_was_kept_and_reads_back() -> None:
    found = Finding(
        id="a",
        finding="plug",
        grade="paste",
        corner=Corner("lark", "front-left"),
        on=date(2026, 8, 1),
        at=datetime(2026, 8, 1, tzinfo=UTC),
    )
    assert "at" not in found.body()
    assert Finding.model_validate(found.body()) == found.model_copy(update={"at": None})


def test_a_drive_sits_at_a_corner_or_in_one_of_three_places() -> None:
    assert Drive.model_validate({"id": "a", "name": "a", "sits": "lark/front-left"}).sits == Corner(
        "lark", "front-left"
    )
    assert Drive.model_validate({"id": "a", "name": "a", "sits": "shelf"}).body()["sits"] == "shelf"
    assert '"shelf" or "bench"' in said(Drive, id="a", name="a", sits="barn")


@pytest.mark.parametrize("sign", ["\0", "\n", "\x1b", "\x7f", "\u2028", *sorted(TURNS_TEXT_ROUND)])
def test_signs_that_cannot_be_printed_or_turn_text_round_are_refused_in_names(sign: str) -> None:
    assert f"U+{ord(sign):04X}" in said(Machine, id="lark", name=f"Lark{sign}x")


@pytest.mark.parametrize(
    "name", ["<script>alert(1)</script>", "'; DROP TABLE", "مزرعة", "🚜", "a\u00a0b", '"""', "{{ 7*7 }}", "=cmd"]
)
def test_odd_names_are_taken_as_they_are(name: str) -> None:
    assert Machine(id="lark", name=name).name == name


def test_a_note_keeps_its_lines_and_takes_any_line_end() -> None:
    found = Finding(
        id="a", finding="plug", grade="paste", drive="x", on=date(2026, 8, 1), note="one\r\ntwo\rthree\n\nfour\n"
    )
    assert found.note == "one\ntwo\nthree\n\nfour"


@pytest.mark.parametrize(
    ("model", "fields", "words"),
    [
        (Machine, {"id": "lark"}, "line of name: name is missing. Write name = \"Bramble\"."),
        (Machine, {"id": "lark", "name": 14}, "line of name: name = 14: This is text and stands in quotes."),
        (Machine, {"id": "lark", "name": "L", "clocs": []}, "line of clocs: There is no clocs here. Did you mean clocks?"),
        (Machine, {"id": "Lark!", "name": "L"}, "small letters a to z, digits and hyphens"),
        (Machine, {"id": "lark", "name": " "}, "Nothing stands here."),
        (Machine, {"id": "lark", "name": "x" * 61}, "longer than 60 characters"),
        (Machine, {"id": "lark", "name": "L", "clocks": ["drum"]}, "It must be 'engine' or 'threshing'."),
        (Machine, {"id": "lark", "name": "L", "corners": "front-left"}, "This is a list, in square brackets."),
        (Machine, {"id": "lark", "name": "L", "mass": 9}, "mass = 9: A value with its unit stands in quotes."),
        (Machine, {"id": "lark", "name": "L", "mass": {"value": "9 t", "basis": "guess"}}, "'assumed'"),
        (Finding, {"on": "2026-02-30"}, "There is no such date."),
        (Finding, {"on": datetime(2026, 8, 1, 12)}, "without a time"),
        (Finding, {"hours": "many"}, "This is a number"),
        (Finding, {"hours": -1}, "It must be 0.0 or more."),
        (Finding, {"hours": float("nan")}, "plain number"),
        (Finding, {"at": datetime(2026, 8, 1)}, "offset"),
        (Finding, {"photo": "../../etc/passwd.jpg"}, "without a folder"),
        (Finding, {"corner": "lark/middle"}, "A corner is spelled machine/place"),
        (Finding, {"trouble": 1.5}, "This is a whole number."),
        (Finding, {"note": "x" * 5000}, "longer than 4000 characters"),
    ],
)  # fmt: skip
def test_mistakes_are_said_in_plain_words(model: type, fields: dict[str, Any], words: str) -> None:
    given = {"id": "a", "finding": "plug", "grade": "paste", "on": date(2026, 8, 1)} if model is Finding else {}
    assert words in said(model, **{**given, **fields})


def test_all_mistakes_of_a_record_come_at_once() -> None:
    assert len(said(Machine, id="!", nam="x", clocks=["drum"]).splitlines()) == 4
