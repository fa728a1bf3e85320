"""Hours that machines send: a fleet and a series, XML and JSON; what is not as it must be, machine by machine."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta, timezone
from typing import Any

import pytest
from desk.in_hand import now
from desk.intake.takes import YARD, look, takes, wrong
from hypothesis import given
from hypothesis import strategies as st

from axlewright.desk import intake
from axlewright.desk.intake import TakeIn
from axlewright.desk.intake.telematics import NAMESPACE, Heard, read
from axlewright.yard import Change, ClockReading, Faults, Yard


def numbered(**numbers: str) -> Yard:
    """The demo yard with numbers typed on its machines."""
    return YARD.with_(
        Change(tuple(YARD.machine(name).model_copy(update={"numbers": (one,)}) for name, one in numbers.items()))
    )


NUMBERED = numbered(bramble="XB 204-17", wren="W-9")


def machine(pin: str, hours: str, when: str = "2026-08-26T06:00:00Z", header: str = "") -> str:
    said = f'<CumulativeOperatingHours datetime="{when}"><Hour>{hours}</Hour></CumulativeOperatingHours>'
    names = f"<OEMName>Invented</OEMName><Model>Four</Model><PIN>{pin}</PIN>{header}"
    return f"<Equipment><EquipmentHeader>{names}</EquipmentHeader>{said if hours else ''}</Equipment>"


def fleet(*machines: str, space: str = NAMESPACE, links: str = "") -> str:
    xmlns = f' xmlns="{space}"' if space else ""
    return f'<?xml version="1.0"?><Fleet{xmlns} version="1" snapshotTime="2026-08-26T07:00:00Z">{links}{"".join(machines)}</Fleet>'


def test_a_fleet_is_read_and_each_machine_is_known_by_its_number() -> None:
    found = look(fleet(machine("xb20417", "3353.5"), machine("W 9", "PT186H30M")), "fleet.xml", NUMBERED)
    read_ = {one.machine: (one.on, one.hours, one.clock) for one in found.change.of(ClockReading)}
    assert read_ == {"bramble": (date(2026, 8, 26), 3353.5, "engine"), "wren": (date(2026, 8, 26), 186.5, "engine")}
    assert "from memory" in found.told[0]
    assert not look(fleet(machine("xb20417", "3353.5")), "fleet.xml", NUMBERED.with_(found.change)).change


def test_the_day_is_that_of_the_yard() -> None:
    late = fleet(machine("W-9", "186.5", "2026-08-26T23:30:00Z")).encode()
    for hours_east, day in ((0, 26), (2, 27), (-7, 26)):
        here = replace(now(), at=now().at.astimezone(timezone(timedelta(hours=hours_east))))
        found = intake.look_through(NUMBERED, TakeIn(name="fleet.xml"), here, late)
        assert found.change.of(ClockReading)[0].on == date(2026, 8, day)


def test_json_says_the_same() -> None:
    said: dict[str, Any] = {
        "Equipment": [
            {
                "EquipmentHeader": {"OEMName": "Invented", "Model": "Four", "SerialNumber": "W-9"},
                "CumulativeOperatingHours": {"datetime": "2026-08-26T06:00:00Z", "Hour": 186.5},
            }
        ],
        "Links": [{"rel": "next", "href": "/Fleet/2"}],
    }
    for whole in (said, {"Fleet": said}):
        answer = read(json.dumps(whole).encode())
        assert answer.next == "/Fleet/2"
        change = takes(json.dumps(whole), "fleet.json", NUMBERED)
        assert [(one.machine, one.hours) for one in change.of(ClockReading)] == [("wren", 186.5)]


def test_a_series_of_one_machine_says_which_or_is_told() -> None:
    hours = "".join(
        f'<CumulativeOperatingHours datetime="2026-08-{day}T06:00:00Z"><Hour>{reads}</Hour></CumulativeOperatingHours>'
        for day, reads in ((24, 185), (25, 186), (26, 186.5))
    )
    series = f'<CumulativeOperatingHoursMessages xmlns="{NAMESPACE}">{hours}</CumulativeOperatingHoursMessages>'
    assert set(wrong(look(series, "series.xml"))) == {1, 2, 3}
    assert "--machine" in wrong(look(series, "series.xml"))[1]
    assert [one.hours for one in takes(series, "series.xml", machine="wren").of(ClockReading)] == [185, 186, 186.5]
    header = "<EquipmentHeader><PIN>W-9</PIN></EquipmentHeader>"
    headed = series.replace("<CumulativeOperatingHours ", f"{header}<CumulativeOperatingHours ", 1)
    assert len(takes(headed, "series.xml", NUMBERED).of(ClockReading)) == 3


@pytest.mark.parametrize(
    ("one", "says"),
    [
        (machine("Z-1", "12"), "has the number Z-1"),
        (machine("W-9", "soon"), "no number of hours"),
        (machine("W-9", "-3"), "no number of hours"),
        (machine("W-9", "1e3"), "no number of hours"),
        (machine("W-9", "999999999"), "No clock reads"),
        (machine("W-9", "P"), "no number of hours"),
        (machine("W-9", "186.5", "2026-08-26"), "no offset"),
        (machine("W-9", "186.5", "yesterday"), "no time"),
        (machine("W-9", "186.5", "0001-01-01T00:00:00Z"), "never sent"),
        (machine("W-9", "186.5", "2026-13-26T06:00:00Z"), "no time"),
        (machine("W-9", "12"), "--new-clock 2"),
        (machine("", "186.5"), "no PIN"),
        (machine("W-9", "186.5", header="<SerialNumber>XB 204-17</SerialNumber>"), "those of bramble and wren"),
    ],
)
def test_what_is_wrong_with_a_machine_is_said_and_the_others_may_come(one: str, says: str) -> None:
    both = fleet(machine("XB 204-17", "3353.5"), one)
    found = look(both, "fleet.xml", NUMBERED)
    assert says in wrong(found)[2]
    assert not found.change
    left = look(both, "fleet.xml", NUMBERED, leave_out=True)
    assert [read.machine for read in left.change.of(ClockReading)] == ["bramble"]


def test_a_new_clock_begins_where_it_is_said() -> None:
    change = takes(fleet(machine("W-9", "12", "2026-08-28T06:00:00Z")), "f.xml", NUMBERED, new_clock=(1,))
    assert [(one.hours, one.new_clock) for one in change.of(ClockReading)] == [(12, True)]


def test_a_machine_without_hours_is_no_mistake_and_another_namespace_is_said() -> None:
    found = look(fleet(machine("Q-1", ""), machine("W-9", "186.5"), space="urn:other"), "fleet.xml", NUMBERED)
    assert len(found.change.records) == 1
    assert any("urn:other" in line for line in found.told)


BOMB = '<?xml version="1.0"?><!DOCTYPE f [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]><Fleet>&b;</Fleet>'
OUTSIDE = '<?xml version="1.0"?><!DOCTYPE f [<!ENTITY x SYSTEM "file:///etc/hostname">]><Fleet>&x;</Fleet>'


@pytest.mark.parametrize(
    ("data", "name", "says"),
    [
        (BOMB, "f.xml", "declares entities"),
        (OUTSIDE, "f.xml", "declares entities"),
        ("<!doctype html><html><body>Sign in</body></html>", "f.xml", "web page"),
        (fleet(machine("W-9", "1"))[:-20], "f.xml", "cannot be read as XML"),
        ("<Orders/>", "f.xml", "no answer of ISO 15143-3"),
        ("{}", "f.json", "no answer of ISO 15143-3"),
        ('{"Equipment": [', "f.json", "cannot be read"),
        ("[" * 5000, "f.json", "cannot be read"),
        ('{"a":' * 300 + "1" + "}" * 300, "f.json", "cannot be read"),
        ("<a>" * 300 + "</a>" * 300, "f.xml", "nested too deeply"),
        ("", "f.xml", "cannot be read"),
    ],
)
def test_what_is_no_such_file_is_refused_in_words(data: str, name: str, says: str) -> None:
    with pytest.raises(Faults, match=says):
        look(data, name)


@given(st.integers(0, 99_999), st.integers(0, 59), st.integers(0, 59))
def test_a_duration_is_its_hours(hours: int, minutes: int, seconds: int) -> None:
    whole = hours + minutes / 60 + seconds / 3600
    days, rest = divmod(hours, 24)
    for text in (f"PT{hours}H{minutes}M{seconds}S", f"P{days}DT{rest}H{minutes}M{seconds}S", f"{whole:.9f}"):
        got = read(fleet(machine("W-9", text)).encode()).rows[0]
        assert isinstance(got, Heard)
        assert got.hours == pytest.approx(whole, abs=1e-6)


@given(st.binary(max_size=200) | st.text('<>/{}[]":,FleetEquipmn ', max_size=120).map(str.encode))
def test_any_bytes_give_hours_or_words(raw: bytes) -> None:
    try:
        answer = read(raw)
    except Faults:
        return
    assert isinstance(answer.rows, tuple)
