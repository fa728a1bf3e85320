"""Tables of others: what is recognised, what is asked, what is wrong line by line; all or nothing, and never twice."""

from __future__ import annotations

import csv
import io
from datetime import date, timedelta
from pathlib import Path

import pytest
from desk.intake.takes import YARD, look, takes, wrong
from hypothesis import given
from hypothesis import strategies as st

from axlewright.desk.intake import bytes_of
from axlewright.trade.take_in import TABLES, columns, measures, spelled
from axlewright.yard import Change, ClockReading, Faults, Machine, OilSample, Rain, TakenBack, mistakes
from axlewright.yard.search import search

HOURS = "Machine;Date;Engine hours\nBramble;24.08.2026;3349,5\nWren;26.08.2026;186,5\n"
TODAY = date(2026, 8, 28)


def test_hours_with_semicolon_comma_and_days_that_settle_each_other() -> None:
    change = takes(HOURS)
    read = {one.machine: (one.on, one.hours, one.clock) for one in change.of(ClockReading)}
    assert read == {"bramble": (date(2026, 8, 24), 3349.5, "engine"), "wren": (date(2026, 8, 26), 186.5, "engine")}
    assert {one.note for one in change.of(ClockReading)} == {"from table.csv"}


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_every_encoding_and_line_end_reads_the_same(encoding: str, ends: str) -> None:
    text = (HOURS + "Wren;27.08.2026;187\n").replace("Date;Engine hours", "Date;Engine hours;Note")
    text = text.replace("3349,5\n", "3349,5;Größe gemessen\n").replace("\n", ends)
    raw = text.encode(encoding)
    first = next(one for one in takes(raw).of(ClockReading) if one.machine == "bramble")
    assert first.note == "Größe gemessen"


def test_the_same_file_twice_adds_nothing_and_neither_does_what_was_typed_by_hand() -> None:
    after = YARD.with_(takes(HOURS))
    again = look(HOURS, yard=after)
    assert not again.change
    assert (again.already, again.comes, again.wrong) == (2, (), ())
    typed = look("machine,date,engine hours\nbramble,2026-08-17,3341\n")  # stands in the demo yard
    assert (typed.already, bool(typed.change)) == (1, False)


def test_what_was_taken_back_can_be_taken_in_again() -> None:
    after = YARD.with_(takes(HOURS))
    back = [
        TakenBack(id=f"b{n}", sort="clock", of=one.id, on=TODAY) for n, one in enumerate(takes(HOURS).of(ClockReading))
    ]
    undone = after.with_(Change(tuple(back)))
    assert undone.clock_readings == YARD.clock_readings
    again = takes(HOURS, yard=undone)
    once_more = undone.with_(again)
    assert len(once_more.clock_readings) == len(YARD.clock_readings) + 2
    assert not look(HOURS, yard=once_more).change


def test_what_is_wrong_is_said_line_by_line_and_nothing_comes_of_it() -> None:
    found = look(
        "Machine,Date,Engine hours\n"
        "Bramble,2026-08-24,3349\n"
        "Bramblee,2026-08-24,3349\n"
        "Wren,2026-13-24,187\n"
        "Wren,2026-08-26,soon\n"
        "Wren,2026-08-26,99\n"
        "Wren,2026-12-26,250\n"
        ",2026-08-26,250\n"
    )
    said = wrong(found)
    assert said.keys() == {3, 4, 5, 6, 7, 8}
    assert "Did you mean bramble?" in said[3]
    assert "no day" in said[4]
    assert "Write year-month-day" in said[4]
    assert "“soon” is no number" in said[5]
    assert "--new-clock 6" in said[6]
    assert "has not come yet" in said[7]
    assert "--machine" in said[8]
    assert not found.change
    with pytest.raises(Faults, match="line 3, Machine"):
        takes("Machine,Date,Engine hours\nBramble,2026-08-24,3349\nBramblee,2026-08-24,3349\n")


def test_bad_lines_are_left_out_only_when_that_is_said() -> None:
    mixed = HOURS + "Wren;25.08.2026;900\nZorro;25.08.2026;12\n"
    assert not look(mixed).change
    found = look(mixed, leave_out=True)
    assert len(found.change.of(ClockReading)) == 2
    assert found.left_out == 2
    assert wrong(found).keys() == {4, 5}
    assert mistakes(YARD.with_(found.change), TODAY) == mistakes(YARD, TODAY)


def test_a_clock_that_falls_is_asked_and_a_new_clock_begins_where_it_is_said() -> None:
    falls = "machine,date,engine hours\nwren,2026-08-26,186.5\nwren,2026-08-28,3\n"
    found = look(falls)
    assert [(one.line, one.new_clock) for one in found.wrong] == [(3, True)]
    change = takes(falls, new_clock=(3,))
    assert [one.new_clock for one in change.of(ClockReading)] == [False, True]
    assert YARD.with_(change).hours("wren", TODAY).hours == 3  # type: ignore[union-attr]


def test_of_one_day_the_last_reading_counts() -> None:
    rows = "".join(f"bramble,2026-08-24 {hour:02d}:00,{3345 + hour / 10:.1f}\n" for hour in range(24))
    found = look(f"machine,date,engine hours\n{rows}")
    assert [one.hours for one in found.change.of(ClockReading)] == [3347.3]
    assert found.already == 23


def test_which_clock_is_asked_where_a_machine_has_two() -> None:
    rows = "machine,date,hours\nbramble,2026-08-24,3349\n"
    assert "Which clock?" in wrong(look(rows))[2]
    assert takes(rows, clock="engine").of(ClockReading)[0].clock == "engine"
    named = takes("machine,date,hours,which clock\nbramble,2026-08-24,3349,engine\n")
    assert named.of(ClockReading)[0].clock == "engine"
    assert "no threshing clock" in wrong(look("machine,date,threshing hours\nwren,2026-08-24,3349\n"))[2]


# what has two readings
@pytest.mark.parametrize("day", ["05/08/2026", "5.8.2026", "05-08-2026"])
def test_a_day_that_reads_two_ways_is_asked(day: str) -> None:
    found = look(f"date;rain (mm)\n{day};3\n")
    assert [ask.name for ask in found.asks] == ["dates"]
    assert "05 Aug 2026 (day-first) or 08 May 2026 (month-first)" in found.asks[0].says
    for way, on in (("day-first", date(2026, 8, 5)), ("month-first", date(2026, 5, 8))):
        change = takes(f"date;rain (mm)\n{day};3\n", dates=way)
        assert list(change.of(Rain)[0].days()) == [(on, 3)]


def test_days_that_disagree_are_asked_and_then_named() -> None:
    table = "date,rain (mm)\n08/13/2026,3\n13/08/2026,4\n05/06/2026,1\n"
    assert [ask.name for ask in look(table).asks] == ["dates"]
    assert wrong(look(table, dates="day-first")).keys() == {2}
    assert wrong(look(table, dates="month-first")).keys() == {3}


@pytest.mark.parametrize(
    ("day", "on"),
    [
        ("2026-08-24", date(2026, 8, 24)),
        ("2026/8/24", date(2026, 8, 24)),
        ("20260824", date(2026, 8, 24)),
        ("24 Aug 2026", date(2026, 8, 24)),
        ("24. August 2026", date(2026, 8, 24)),
        ("August 24, 2026", date(2026, 8, 24)),
        ("24.08.2026 06:30", date(2026, 8, 24)),
        ("8/24/2026", date(2026, 8, 24)),
        ("2026-08-24T06:30:00+02:00", date(2026, 8, 24)),
        ("08.08.2026", date(2026, 8, 8)),
    ],
)
def test_days_as_people_write_them(day: str, on: date) -> None:
    assert list(takes(f'date;rain (mm)\n"{day}";3\n').of(Rain)[0].days()) == [(on, 3)]


@pytest.mark.parametrize("day", ["46258", "31.02.2026", "Tuesday", "2026-02-30", "13/13/2026", "0"])
def test_what_is_no_day_is_said(day: str) -> None:
    assert wrong(look(f"date;rain (mm)\n2026-08-01;1\n{day};3\n")).keys() == {3}


def test_a_year_of_two_digits_is_asked() -> None:
    table = "date;rain (mm)\n24.08.26;3\n"
    assert [ask.name for ask in look(table).asks] == ["dates"]
    assert list(takes(table, dates="day-first").of(Rain)[0].days()) == [(date(2026, 8, 24), 3)]


def test_a_number_that_reads_two_ways_is_asked() -> None:
    table = "machine;date;engine hours\nbramble;2026-08-24;3.349\n"
    found = look(table)
    assert [ask.name for ask in found.asks] == ["decimal"]
    assert takes(table, decimal=",").of(ClockReading)[0].hours == 3349
    assert takes(table.replace("3.349", "3.349,5")).of(ClockReading)[0].hours == pytest.approx(3349.5)
    assert takes(table.replace("3.349", "3 349.5")).of(ClockReading)[0].hours == pytest.approx(3349.5)
    assert takes(table.replace("3.349", "3'349.5 h")).of(ClockReading)[0].hours == pytest.approx(3349.5)
    settled = "machine;date;engine hours\nbramble;2026-08-24;3.349\nwren;2026-08-26;186,5\n"
    assert {one.hours for one in takes(settled).of(ClockReading)} == {3349, 186.5}


def test_a_unit_that_nobody_wrote_is_asked_and_inches_are_25_4_mm() -> None:
    table = "date,precipitation\n2026-08-24,0.25\n"
    found = look(table)
    assert [(ask.name, ask.choices) for ask in found.asks] == [("units.rain", ("mm", "cm", "in"))]
    assert list(takes(table, units={"rain": "in"}).of(Rain)[0].days()) == [(date(2026, 8, 24), 6.35)]
    for header in ("precipitation (in)", "Precipitation [inches]", "precip in"):
        assert list(takes(table.replace("precipitation", header)).of(Rain)[0].days()) == [(date(2026, 8, 24), 6.35)]
    assert list(takes("date,rain\n2026-08-24,6.35 mm\n2026-08-25,1 in\n").of(Rain)[0].days())[1][1] == pytest.approx(
        25.4
    )
    with pytest.raises(Faults, match="no unit of rain"):
        look(table, units={"rain": "furlongs"})


# which table, which columns
@pytest.mark.parametrize("table", TABLES)
def test_no_two_columns_of_a_table_are_called_alike(table: str) -> None:
    words = [word for column in columns(table).values() for word in {column.id, *column.words}]  # type: ignore[arg-type]
    assert len(spelled(table)) <= len(words)  # type: ignore[arg-type]
    for column in columns(table).values():  # type: ignore[arg-type]
        for word in column.words:
            assert spelled(table)[" ".join(word.casefold().replace(".", " ").split())] == column.id, word  # type: ignore[arg-type]
        assert not column.measure or column.measure in measures()


def test_the_factors_of_units_are_those_of_a_units_library() -> None:
    import pint

    registry = pint.UnitRegistry()
    names = {"in": "inch", "cm": "cm", "mm": "mm", "m": "m", "ft": "foot", "kg": "kg", "t": "tonne", "lb": "pound"}
    names |= {"L": "liter", "mL": "milliliter", "US qt": "quart", "US gal": "gallon"}
    keeps = {"rain": "mm", "mass": "kg", "length": "m", "litres": "liter"}
    for name, to in keeps.items():
        for unit in measures()[name].units:
            assert registry.Quantity(1, names[unit.is_]).to(to).magnitude == pytest.approx(unit.factor, rel=1e-8)


def test_a_file_that_is_none_of_ours_says_what_it_has() -> None:
    with pytest.raises(Faults, match="does not tell what this is: colour, taste"):
        look("colour,taste\nred,sweet\n")
    with pytest.raises(Faults, match="no line under them"):
        look("date,rain (mm)\n")


def test_a_column_can_be_named_and_two_that_may_be_one_are_asked() -> None:
    table = "unit,read on,counter\nbramble,2026-08-24,3349\n"
    change = takes(table, table="hours", columns={"machine": "unit", "engine": "counter"})
    assert change.of(ClockReading)[0].hours == 3349
    twice = "machine,date,day,engine hours\nbramble,2026-08-24,2026-08-25,3349\n"
    assert [ask.name for ask in look(twice).asks] == ["columns.on"]
    assert takes(twice, columns={"on": "date"}).of(ClockReading)[0].on == date(2026, 8, 24)
    with pytest.raises(Faults, match="Did you mean counter"):
        look(table, table="hours", columns={"engine": "countre"})


def test_the_delimiter_is_the_one_that_parts_headers_we_know() -> None:
    for sign in ",;\t":
        text = HOURS.replace(",", ".").replace(";", sign)
        assert len(takes(text).of(ClockReading)) == 2, repr(sign)
    assert len(takes("sep=;\n" + HOURS).of(ClockReading)) == 2
    assert wrong(look("sep=;\n" + HOURS + "Zorro;25.08.2026;12\n")).keys() == {5}


def test_a_decimal_comma_between_commas_is_never_cut_in_two() -> None:
    for head in ("date,rain (mm)", "date,rain (mm),", "rain (mm),date"):
        cells = "2026-08-24,1,5" if head.startswith("date") else "1,5,2026-08-24"
        found = look(f"{head}\n{cells}\n")
        assert not found.change, head
        assert wrong(found) or found.asks, head
    assert "3 cells under 2 headers" in wrong(look("date,rain (mm)\n2026-08-24,1,5\n"))[2]
    assert list(takes("date,rain (mm)\n2026-08-24,1.5,,\n").of(Rain)[0].days()) == [(date(2026, 8, 24), 1.5)]


# machines
def test_machines_come_new_and_what_is_known_is_not_written_over() -> None:
    change = takes("Name;Kind;Serial number;Mass (kg);Clocks\nPipit;walker combine;P 20 417;8 950;engine, threshing\n")
    pipit = change.of(Machine)[0]
    assert (pipit.id, pipit.kind, pipit.numbers) == ("pipit", "walker-combine", ("P 20 417",))
    assert pipit.mass
    assert pipit.mass.value == "8950 kg"
    assert pipit.clocks == ("engine", "threshing")
    more = takes("name,serial,mass (t)\nBramble,B-77,11.34\n").of(Machine)[0]
    assert more.numbers == ("B-77",)
    assert more.mass == YARD.machine("bramble").mass
    other = look("name,mass (t)\nBramble,12\n")
    assert "11.34 t" in wrong(other)[2]
    assert "no kind" in wrong(look("name,kind\nFinch,walker combin\n"))[2]
    assert wrong(look("name,kind\nFinch,walker combine\nFinch,walker combine\n")).keys() == {3}
    assert not look("name,serial\nBramble,b77\n", yard=YARD.with_(Change((more,)))).change


# oil samples
def test_oil_samples_are_kept_with_what_the_laboratory_could_not_see() -> None:
    table = "Drive,Sample date,Hours on oil,Fe (ppm),Pb (ppm),Water (%)\nbramble-left,2026-08-19,200,60,<2,0.05\n"
    sample = takes(table).of(OilSample)[0]
    assert (sample.iron, sample.lead, sample.below, sample.water) == (60, 2, ("lead",), 500)
    assert sample.iron_rate() == 30
    after = YARD.with_(takes(table))
    assert after.samples_of("bramble-left") == (sample,)
    assert after.findings == YARD.findings, "a sample is no look at a corner"
    assert not look(table, yard=after).change
    found = look(
        "drive,sample date,iron (ppm)\nbramble-lft,2026-08-19,3\nbramble-left,2026-08-19,-3\nbramble-left,2026-08-19,\n"
    )
    said = wrong(found)
    assert "Did you mean bramble-left?" in said[2]
    assert said.keys() == {2, 3, 4}
    asked = look("drive,sample date,iron,copper\nbramble-left,2026-08-19,3,4\n")
    assert [ask.name for ask in asked.asks] == ["units.elements"]


def test_two_drives_with_one_number_are_asked_by_id() -> None:
    left, right = YARD.drive("bramble-left"), YARD.drive("bramble-right")
    two = (left.model_copy(update={"numbers": ("40-7",)}), right.model_copy(update={"numbers": ("40 7",)}))
    yard = YARD.with_(Change(two))
    found = look("drive,sample date,iron (ppm)\n40-7,2026-08-19,3\n", yard=yard)
    assert "2 drives have this number" in wrong(found)[2]
    assert "bramble-left or bramble-right" in wrong(found)[2]


# rain
def test_rain_is_one_record_a_station_and_year_and_days_can_come_later() -> None:
    first = takes("date,rain (mm)\n2025-12-31,1\n2026-01-01,2\n2026-01-03,0\n", station="Low Meadow")
    assert [(one.id, one.january) for one in first.of(Rain)] == [("low-meadow-2025", ""), ("low-meadow-2026", "2 - 0")]
    yard = YARD.with_(first)
    assert yard.rain() == {date(2025, 12, 31): 1, date(2026, 1, 1): 2, date(2026, 1, 3): 0}
    later = look("date,rain (mm)\n2026-01-02,7.5\n2026-01-01,2\n2026-01-03,1\n", yard=yard, station="Low Meadow")
    assert later.already == 1
    assert [one.says for one in later.comes] == [
        "Low Meadow, 2026-01-02: 7.5 mm",
        "Low Meadow, 2026-01-03: 1 mm (was 0)",
    ]
    assert yard.with_(later.change).rain("Low Meadow")[date(2026, 1, 2)] == pytest.approx(7.5)
    with pytest.raises(ValueError, match="no station"):
        yard.rain("Elsewhere")
    other = yard.with_(takes("date,rain (mm)\n2026-01-02,7.5\n", yard=yard, station="High Field"))
    with pytest.raises(ValueError, match="2 stations"):
        other.rain()


def test_a_year_of_rain_that_somebody_wrote_by_hand_is_lengthened_under_its_own_id() -> None:
    yard = YARD.with_(Change((Rain(id="gauge", station="Low Meadow", year=2026, may="3"),)))
    after = yard.with_(takes("date,rain (mm)\n2026-05-02,4\n", yard=yard, station="low meadow"))
    assert [(one.id, one.station, one.may) for one in after.rains] == [("gauge", "Low Meadow", "3 4")]
    assert mistakes(after, TODAY) == mistakes(YARD, TODAY)


def test_rain_that_cannot_be_is_said() -> None:
    found = look("date,rain (mm)\n2026-08-01,2600\n2026-08-02,-1\n2026-08-03,1\n2026-08-03,2\n2027-01-01,1\n")
    assert wrong(found).keys() == {2, 3, 5, 6}


# hostile
def test_a_file_of_100_mb_is_refused_before_it_is_read(tmp_path: Path) -> None:
    big = tmp_path / "big.csv"
    with big.open("wb") as out:
        out.truncate(100_000_000)
    with pytest.raises(Faults, match="100 MB long; 20 MB is the most"):
        bytes_of(big)
    with pytest.raises(Faults, match="over 200,000 lines"):
        look("date,rain (mm)\n" + "2026-08-01,1\n" * 200_001)


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        (b"", "empty"),
        (b"\n\n\n", "empty"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "no text"),
        (b"PK\x03\x04\0\0\0\0", "no text"),
        (b'date,rain (mm)\n"2026-08-01,1\n', "quote"),
        (b"date,rain (mm)\n2026-08-01,\x81\n", "no text"),
        (b"\xff\xfed\0a\0t", "no text"),
        (b"a," * 500 + b"a\n1\n", "columns"),
    ],
)
def test_what_is_no_table_is_refused_in_words(raw: bytes, says: str) -> None:
    with pytest.raises(Faults, match=says):
        look(raw)


HOSTILE = ["<script>alert(1)</script>", "'; DROP TABLE yard; --", "=HYPERLINK()", "x" * 5000, "🚜", "‮live", "\x07"]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_cells_are_named_or_kept_as_text(text: str) -> None:
    buffer = io.StringIO()
    csv.writer(buffer).writerows([["machine", "date", "engine hours", "note"], [text, text, text, text]])
    assert wrong(look(buffer.getvalue())).keys() == {2}
    buffer = io.StringIO()
    csv.writer(buffer).writerows([["name", "note"], [text, text], ["Finch", text]])
    found = look(buffer.getvalue())
    for one in found.change.of(Machine):
        assert one.note == text


@given(st.binary(max_size=300) | st.text(max_size=300).map(str.encode))
def test_any_bytes_give_a_table_or_words(raw: bytes) -> None:
    try:
        found = look(raw, table="rain")
    except Faults:
        return
    assert found.asks or found.wrong or found.change or found.already or not found.comes


# a table written in any dialect reads back the same
@st.composite
def dialects(draw: st.DrawFn) -> tuple[bytes, dict[date, float]]:
    days = draw(
        st.dictionaries(st.dates(date(2020, 1, 1), date(2026, 8, 27)), st.integers(0, 9999), min_size=1, max_size=40)
    )
    rain = {on: tenths / 10 for on, tenths in days.items()}
    delimiter, decimal = draw(
        st.sampled_from([(",", "."), (";", ","), (";", "."), ("\t", ","), ("\t", "."), (",", ",")])
    )
    shape = draw(st.sampled_from(["%Y-%m-%d", "%d.%m.%Y", "%m/%d/%Y", "%d %b %Y", "%Y%m%d"]))
    unit = draw(st.sampled_from([("mm", 1.0), ("cm", 0.1)]))
    out = io.StringIO()
    quoting = draw(st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]))
    writer = csv.writer(out, delimiter=delimiter, quoting=quoting, lineterminator=draw(st.sampled_from(["\n", "\r\n"])))
    heads = draw(st.permutations([draw(st.sampled_from(["Date", "day", "Datum"])), f"Rain [{unit[0]}]", "Wind"]))
    writer.writerow(heads)
    for on, mm in rain.items():
        number = f"{mm * unit[1]:.2f}".replace(".", decimal)
        cells = {"R": number, "W": "NNW"}
        writer.writerow([cells.get(head[0], on.strftime(shape)) for head in heads])
        if draw(st.booleans()):
            out.write("\n")
    return out.getvalue().encode(draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]))), rain


@given(dialects())
def test_a_table_in_any_dialect_reads_back_the_same(written: tuple[bytes, dict[date, float]]) -> None:
    raw, rain = written
    found = look(raw)
    if found.asks:
        assert [ask.name for ask in found.asks] == ["dates"]
        assert all(on.day <= 12 for on in rain), "a day over the twelfth settles it"
        return
    got = {on: mm for one in found.change.of(Rain) for on, mm in one.days()}
    assert got == pytest.approx(rain)


@given(st.lists(st.tuples(st.integers(0, 2000), st.integers(0, 30000)), min_size=1, max_size=30))
def test_whatever_hours_a_file_has_the_yard_keeps_its_rules(rows: list[tuple[int, int]]) -> None:
    lines = [f"linnet,{TODAY - timedelta(days=back)},{tenths / 10}" for back, tenths in rows]
    found = look("machine,date,engine hours\n" + "\n".join(lines), leave_out=True)
    after = YARD.with_(found.change)
    assert mistakes(after, TODAY) == mistakes(YARD, TODAY)


def test_a_machine_that_came_in_by_a_table_is_found_by_its_number() -> None:
    after = YARD.with_(takes("Name;Serial number\nPipit;P 20 417\n"))
    for said in ("P 20 417", "20417", "p20417"):
        assert [(one.sort, one.id) for one in search(after, said)][:1] == [("machine", "pipit")], said
