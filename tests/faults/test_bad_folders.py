"""A folder that a person got wrong: each mistake is named with its file and line, all of them at once, none with a crash."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from axlewright.store import DEMO, Folder, lay_out
from axlewright.yard import Change, Fault, Faults, Machine

TODAY = date(2026, 8, 28)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    lay_out(tmp_path / "y")
    (tmp_path / "y/machines/lark.toml").write_text('name = "Lark"\n', encoding="utf-8")
    return tmp_path / "y"


def said(place: Path) -> list[str]:
    """Every fault of a folder as a line; that it also refuses to be written to."""
    with pytest.raises(Faults) as faults:
        Folder(place, TODAY).read()
    before = {p: p.read_bytes() for p in place.rglob("*.toml") if p.is_file()}
    with pytest.raises(Exception, match=r"."):
        Folder(place, TODAY).write(Change((Machine(id="new", name="New"),)), 0)
    assert {p: p.read_bytes() for p in place.rglob("*.toml") if p.is_file()} == before
    return [str(fault) for fault in faults.value.faults]


CASES = [
    # syntax
    ("machines/a.toml", 'name = Bramble\n', 'machines/a.toml, line 1: This line cannot be read: name = Bramble Text, and a value with its unit, stands in quotes: name = "Bramble"'),
    ("machines/a.toml", 'name = "A"\nmass = 9 t\n', 'machines/a.toml, line 2: This line cannot be read: mass = 9 t Text, and a value with its unit, stands in quotes: mass = "9 t"'),
    ("drives/a.toml", 'name = "A"\nsits = "shelf"\nhours = 12,5\n', "drives/a.toml, line 3: This line cannot be read: hours = 12,5 A number has a point for decimals: hours = 12.5"),
    ("drives/a.toml", 'name = "A"\nsits = "shelf"\nsince = 2026-13-04\n', "drives/a.toml, line 3: There is no month 13. Day and month turned round? Write 2026-04-13."),
    ("drives/a.toml", 'name = "A"\nsits = "shelf"\nsince = 2026-02-30\n', "drives/a.toml, line 3: There is no day 2026-02-30. A date is year-month-day: 2026-08-28."),
    ("machines/a.toml", 'name = "A"\nname = "B"\n', 'machines/a.toml, line 2: This stands twice in the file: name = "B" Keep one of the two.'),
    ("machines/a.toml", 'name = "A"\nclocks = ["engine"\n', "was opened and not closed"),
    ("machines/a.toml", "Lark is a good machine\n", "machines/a.toml, line 1: This line cannot be read: Lark is a good machine A line reads key = value"),
    ("machines/a.toml", 'name = "A\n', "machines/a.toml, line 1: "),
    # bytes
    ("machines/a.toml", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "machines/a.toml: This is no text. Save it as plain text in UTF-8"),
    ("machines/a.toml", 'name = "A"'.encode("utf-16"), "machines/a.toml: This is no text."),
    ("machines/a.toml", b'name = "A"\nnote = "B\xfche"\n', "machines/a.toml, line 2: A letter here is not written in UTF-8."),
    ("machines/a.toml", b"", "machines/a.toml: The file is empty. Delete it, or put back what stood in it."),
    ("machines/a.toml", 'name = "A"\n#' + "x" * 10_000_000, "machines/a.toml: It is 10.0 MB long. A file here holds one thing and is shorter than 1 MB."),
    ("machines/a.toml", "x = " + "[" * 5000 + "]" * 5000, "machines/a.toml"),
    # keys and values
    ("machines/a.toml", 'nam = "A"\n', "machines/a.toml, line 1: There is no nam here. Did you mean name?"),
    ("machines/a.toml", 'name = "A"\n\nmass = 9\n', "machines/a.toml, line 3: mass = 9: A value with its unit stands in quotes. Write mass = \"11 t\"."),
    ("machines/a.toml", 'name = "A"\nmass = "9 bar"\n', "machines/a.toml, line 2: “9 bar” cannot be read as a mass"),
    # answers
    ("machines/a.toml", 'name = "A"\n\n[[answer]]\nname = "machine/track"\nvalue = "2900 m"\non = 2026-08-01\n', "machines/a.toml, line 5: “2900 m” cannot be read as an answer to “How far apart do the front wheels stand?”, from 1.4 m to 4.5 m: it is not believed as it stands. Type 2900 mm."),
    ("machines/a.toml", 'name = "A"\n[[answer]]\nname = "machine/trak"\nvalue = "2.9 m"\non = 2026-08-01\n', "machines/a.toml, line 3: There is no question machine/trak. Did you mean machine/track?"),
    ("machines/a.toml", 'name = "A"\n[[answer]]\nname = "machine/track"\non = 2026-08-01\n', 'machines/a.toml, line 2: value is missing. Write value = "M18".'),
    ("machines/a.toml", 'name = "A"\n[[answer]]\nname = "hoist/plate"\nvalue = "1 t"\non = 2026-08-01\n', "machines/a.toml, line 3: hoist/plate is not asked of a machine."),
    ("machines/a.toml", 'name = "A"\nanswer = 3\n', "machines/a.toml, line 2: answer is a list of groups of keys. Write [[answer]]."),
    ("designs/a.toml", 'name = "A"\n[[answer]]\nname = "bolts/count"\nvalue = 14\non = 2026-08-01\n', "designs/a.toml, line 4: value = 14: This is text and stands in quotes."),
    ("machines/a.toml", 'name = "A"\nreadings = 3\n', "machines/a.toml, line 2: readings is a list of groups of keys. Write readings = [{ ... }]."),
    ("machines/a.toml", 'name = "A"\nreadings = [\n  { on = 2026-08-01, hours = 5, clock = "engine" },\n  { on = 2026-08-02, hours = 3, clock = "engine" },\n]\n', "machines/a.toml, line 4: A, engine clock 3 h on 2026-08-02; it read 5 on 2026-08-01."),
    ("machines/a.toml", 'name = "A"\nreadings = [\n  { on = 2026-08-01, hours = 5 },\n]\n', 'machines/a.toml, line 3: clock is missing. Write clock = "engine".'),
    ("machines/a.toml", 'name = "A"\nreadings = [{ on = 2026-09-01, hours = 5, clock = "engine" }]\n', "machines/a.toml, line 2: 2026-09-01 has not come yet"),
    ("machines/Upper Case.toml", 'name = "A"\n', "machines/Upper Case.toml: id = \"Upper Case\": It is made of small letters"),
    ("drives/a.toml", 'name = "A"\nsits = "lark/rear-left"\n', "drives/a.toml, line 2: Lark has no drive at rear-left. It has front-left and front-right."),
    ("drives/a.toml", 'name = "A"\nsits = "lrk/front-left"\n', "drives/a.toml, line 2: There is no machine lrk. Did you mean lark?"),
    ("looks/lark.toml", '[[finding]]\nfinding = "plug"\ngrade = "paste"\ncorner = "lark/front-left"\non = 2026-08-01\n\n[[finding]]\n# drips\nfinding = "plg"\ngrade = "paste"\ncorner = "lark/front-left"\non = 2026-08-01\n', "looks/lark.toml, line 9: There is no finding plg. Did you mean plug?"),
    ("looks/lark.toml", '[[finding]]\nfinding = "plug"\ngrade = "shiny"\ncorner = "lark/front-left"\non = 2026-08-01\n', "looks/lark.toml, line 3: plug has no grade shiny. The grades of plug: clean, paste"),
    ("looks/lark.toml", '[[finding]]\nfinding = "plug"\ngrade = "paste"\non = 2026-08-01\n', "looks/lark.toml, line 1: It does not say where it was seen."),
    ("looks/lark.toml", 'machine = "lark"\n[[findings]]\nfinding = "plug"\n', "looks/lark.toml, line 2: There is no findings here. Did you mean finding?"),
    ("troubles/3.toml", 'corner = "lark/front-left"\nopened = 2026-08-01\n[[findings]]\nfinding = "plug"\n', "There is no findings here. Did you mean finding?"),
    ("troubles/third.toml", 'corner = "lark/front-left"\nopened = 2026-08-01\n', "troubles/third.toml: number is missing. Write number = 3."),
    ("troubles/3.toml", 'corner = "lark/front-left"\nopened = 2026-08-01\n[[stage]]\nstage = "done"\non = 2026-08-02\n', "troubles/3.toml, line 4: stage = \"done\": It must be 'seen', 'judged'"),
    # files
    ("machine/wren.toml", 'name = "Wren"\n', "machine/wren.toml: This file has no place here. A yard has yard.toml and files in machines, designs, drives, troubles, seasons, rain and looks."),
    ("machines/old/wren.toml", 'name = "Wren"\n', "machines/old/wren.toml: This file has no place here."),
    ("machines/other.toml", 'id = "lark"\nname = "Other"\n', "machines/other.toml, line 1: Two machines have the id lark; the other is machines/lark.toml. Give one another id."),
    ("yard.toml", 'name = ""\n', "yard.toml, line 1: name = \"\": Nothing stands here. Write name = \"Long Acre\"."),
    ("yard.toml", 'name = "x"\nmeasures = "imperial"\n', "yard.toml, line 2: measures = \"imperial\": It must be 'metric' or 'us'."),
]  # fmt: skip


@pytest.mark.parametrize(
    ("file", "text", "words"), CASES, ids=[f"{n}-{c[0].split('/')[-1]}" for n, c in enumerate(CASES)]
)
def test_every_mistake_is_said_where_it_stands(place: Path, file: str, text: str | bytes, words: str) -> None:
    path = place / file
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    found = said(place)
    assert any(words in one for one in found), found


def test_no_yard_at_all(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "file").write_text("x", encoding="utf-8")
    (tmp_path / "nearly" / "machines").mkdir(parents=True)
    (tmp_path / "nearly" / "machines" / "lark.toml").write_text("name = 3\n", encoding="utf-8")
    for name, words in [
        ("empty", "There is no yard here. lay-out makes a new one."),
        ("nowhere", "There is no such folder."),
        ("file", "This is a file, not a folder."),
        ("nearly", 'yard.toml: This file is missing. Write one with name = "Long Acre" in it.'),
    ]:
        with pytest.raises(Faults) as faults:
            Folder(tmp_path / name).read()
        assert words in str(faults.value)
    assert "name = 3" in str(faults.value)  # and all else that is wrong there


def test_all_mistakes_of_a_folder_come_at_once_and_none_follows_from_another(place: Path) -> None:
    """One in each file, also across files; what a broken file would have said is not held against the others."""

    def write(name: str, text: str) -> int:
        return (place / name).write_text(text, encoding="utf-8")

    write("yard.toml", "name = 3\n")
    write("machines/lark.toml", "name = Lark\n")  # broken, yet others may name lark and its corners
    write("machines/wren.toml", 'name = "Wren"\nclocs = ["engine"]\n')
    write("designs/hub.toml", 'name = "Hub"\nmass = 3\n')
    write("drives/a.toml", 'name = "A"\nsits = "lark/front-left"\ndesign = "hub"\n')
    write("drives/b.toml", 'name = "B"\nsits = "wren/rear-right"\nhours = "lots"\n')
    write(
        "troubles/1.toml",
        'corner = "lark/front-left"\ndrive = "b"\nopened = 2026-08-01\n[[finding]]\nfinding = "plug"\ngrade = "nice"\non = 2026-08-02\nhours = 5\nclock = "threshing"\n',
    )
    write(
        "troubles/2.toml", 'corner = "nowhere"\nopened = 2026-08-01\n[[finding]]\nfinding = "plug"\ngrade = "paste"\n'
    )
    lines = [str(f).split(": ")[0] for f in _faults(place)]
    assert lines == [
        "designs/hub.toml, line 2",
        "drives/b.toml, line 3",
        "machines/lark.toml, line 1",
        "machines/wren.toml, line 2",
        "troubles/1.toml, line 6",
        "troubles/2.toml, line 1",
        "troubles/2.toml, line 3",
        "yard.toml, line 1",
    ]


def _faults(place: Path) -> tuple[object, ...]:
    with pytest.raises(Faults) as faults:
        Folder(place, TODAY).read()
    return faults.value.faults


FILES = sorted(p.relative_to(DEMO).as_posix() for p in DEMO.rglob("*.toml"))


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=150)
@given(st.data())
def test_a_file_cut_or_scrawled_over_anywhere_gives_faults_and_no_crash(tmp_path: Path, data: st.DataObject) -> None:
    place = tmp_path / "scrawled"
    if not place.exists():
        lay_out(place, DEMO)
    file = place / data.draw(st.sampled_from(FILES))
    whole = file.read_bytes()
    start = data.draw(st.integers(0, len(whole)))
    end = data.draw(st.integers(start, min(len(whole), start + 60)))
    scrawl = data.draw(
        st.sampled_from([b"", b"x", b"=", b'"', b"[", b"\0", b"\xff", b"[[", b"9999", b"-", b"\n", b"'''", b"{", b"#"])
    )
    file.write_bytes(whole[:start] + scrawl + whole[end:])
    found: tuple[Fault, ...] = ()
    try:
        Folder(place).read()
    except Faults as faults:
        found = faults.faults
        assert found
    finally:
        file.write_bytes(whole)
    assert all(fault.where and fault.what for fault in found)


@pytest.mark.parametrize(
    "name", ["<script>alert(1)</script>", "'; DROP TABLE yard; --", "مزرعة", "🚜" * 10, '\\"""', "{{ 7*7 }}"]
)
def test_odd_names_go_through_a_folder_unharmed(place: Path, name: str) -> None:
    store = Folder(place, TODAY)
    store.write(Change((Machine(id="odd", name=name, note=f"{name}\n{name}"),)), store.read().seen)
    assert store.read().machine("odd").name == name
    assert store.read().machine("odd").note == f"{name}\n{name}"
