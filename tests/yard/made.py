"""Generated yards: any that the rules allow, with names and notes as odd as people and telephones make them."""

from __future__ import annotations

from datetime import date, datetime, timedelta, timezone
from typing import Any

from hypothesis import strategies as st

from axlewright.trade.questions import Whose, questions
from axlewright.yard import (
    COURSES,
    PLACES,
    STAGES,
    AfterCheck,
    Answer,
    Change,
    ClockReading,
    Corner,
    Design,
    Drive,
    Finding,
    Machine,
    Move,
    OilSample,
    PrintedBand,
    Rain,
    Reading,
    Record,
    Stage,
    Stated,
    StepCard,
    TakenBack,
    Title,
    Trouble,
    Warranty,
    Yard,
    known_grades,
)
from axlewright.yard.cards import TAKEN
from axlewright.yard.records import TURNS_TEXT_ROUND

FIRST = date(2020, 1, 1)
LAST = date(2026, 8, 28)

signs = st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp"), exclude_characters="".join(TURNS_TEXT_ROUND))
hostile = st.sampled_from(
    [
        "<script>alert(1)</script>",
        "'; DROP TABLE yard; --",
        '"""',
        "'''",
        "\\",
        "a = 1",
        "[[finding]]",
        "# no",
        "{ }",
        "𝄞 tractor 🚜",
        "مزرعة",
        "=1+1",
        "../../x",
    ]
)
lines = st.one_of(hostile, st.text(signs, min_size=1, max_size=30)).filter(lambda text: text.strip())
notes = st.one_of(st.just(""), lines, st.lists(lines, min_size=2, max_size=3).map("\n".join))
words = st.from_regex(r"[a-z][a-z0-9]{0,8}(-[a-z0-9]{1,5})?", fullmatch=True)
ids = st.from_regex(r"[A-Za-z0-9][A-Za-z0-9._-]{0,20}", fullmatch=True)
days = st.dates(FIRST, LAST)
times = st.none() | st.datetimes(
    datetime(2020, 1, 1), datetime(2026, 8, 28), timezones=st.just(timezone(timedelta(hours=2)))
)
people = st.sampled_from(["", "owner", "helper"])
masses = st.none() | st.builds(
    Stated,
    value=st.sampled_from(["9 t", "8,5 t", "8200 kg", "19 000 lb"]),
    basis=st.sampled_from(["book", "measured", "assumed"]),
    source=st.just("") | lines,
)


def stood(machine: str, clock: str, on: date) -> float:
    """A clock that runs evenly, so that whatever day it is read on, it fits."""
    return (on - FIRST).days * (0.5 if clock == "engine" else 0.375) + len(machine)


@st.composite
def yards(draw: st.DrawFn) -> Yard:
    """A yard of a few of everything, all rules kept."""
    kept: list[Record] = [
        Title(
            name=draw(lines),
            measures=draw(st.sampled_from(["metric", "us"])),
            currency=draw(st.sampled_from(["EUR", "kr", "$"])),
            decimal=".",
            today=draw(st.none() | st.just(LAST)),
        )
    ]
    machines = [draw(_machine(name)) for name in draw(st.lists(words, max_size=3, unique=True))]
    corners = [corner for machine in machines for corner in machine.at_corners()]
    designs = [draw(_design(name, corners)) for name in draw(st.lists(words, max_size=2, unique=True))]
    free = list(corners)
    drives = [draw(_drive(name, designs, free)) for name in draw(st.lists(words, max_size=4, unique=True))]
    kept += [*machines, *designs, *drives]
    kept += [move for drive in drives for move in draw(_moves(drive))]
    kept += [one for drive in drives for one in draw(_warranties(drive))]
    kept += [one for drive in drives for one in draw(_samples(drive))]
    kept += draw(_rains())
    for machine in machines:
        for _ in range(draw(st.integers(0, 3))):
            kept.append(ClockReading(id=draw(ids), machine=machine.id, **draw(_read(machine)), **draw(_kept())))
    if corners:
        numbers = draw(st.lists(st.integers(1, 99), max_size=2, unique=True))
        for number in numbers:
            kept += draw(_trouble(number, machines, drives))
        for _ in range(draw(st.integers(0, 3))):
            kept.append(draw(_finding(draw(st.sampled_from(machines)), drives, None)))
    looks = [one for one in kept if isinstance(one, Finding)]
    if looks and draw(st.booleans()):  # nothing rests on a look
        kept.append(
            TakenBack(id=draw(ids), sort="finding", of=draw(st.sampled_from(looks)).id, on=LAST, **draw(_kept()))
        )
    kept += draw(_answers("yard", {}))
    for machine in machines:
        kept += draw(_answers("machine", {"machine": machine.id}))
    for design in designs:
        kept += draw(_answers("design", {"design": design.id}))
    return Yard.of(_once(kept))


def _once(records: list[Record]) -> list[Record]:
    """Each id once, so that the picture holds exactly what goes in."""
    return list({(r.what, r.id): r for r in records}.values())


@st.composite
def _kept(draw: st.DrawFn) -> dict[str, Any]:
    return {"who": draw(people), "at": draw(times)}


@st.composite
def _machine(draw: st.DrawFn, name: str) -> Machine:
    return Machine(
        id=name,
        name=draw(lines),
        kind=draw(st.sampled_from([None, "walker-combine"])),
        numbers=tuple(draw(st.lists(lines, max_size=2))),
        corners=tuple(draw(st.lists(st.sampled_from(PLACES), min_size=1, max_size=4, unique=True))),
        clocks=draw(st.sampled_from([("engine",), ("threshing",), ("engine", "threshing")])),
        mass=draw(masses),
        rear_axle=draw(masses),
        note=draw(notes),
        **draw(_kept()),
    )


@st.composite
def _design(draw: st.DrawFn, name: str, corners: list[Corner]) -> Design:
    fits = tuple(draw(st.lists(st.sampled_from(corners), max_size=2, unique=True))) if corners else ()
    return Design(id=name, name=draw(lines), fits=fits, mass=draw(masses), bolts=draw(lines), note=draw(notes))


@st.composite
def _drive(draw: st.DrawFn, name: str, designs: list[Design], free: list[Corner]) -> Drive:
    sits: Any = draw(st.sampled_from([*free, "shelf", "bench", "away"]))
    if isinstance(sits, Corner):
        free.remove(sits)
    return Drive(
        id=name,
        name=draw(lines),
        design=draw(st.sampled_from([None, *(d.id for d in designs)])),
        numbers=tuple(draw(st.lists(lines, max_size=2))),
        sits=sits,
        since=draw(st.none() | days),
        hours=draw(st.none() | st.integers(0, 9000)),
        **draw(_kept()),
    )


@st.composite
def _moves(draw: st.DrawFn, drive: Drive) -> list[Move]:
    """A few moves between places that hold many drives."""
    made: list[Move] = []
    sits, day = drive.sits, drive.since or FIRST
    for to in draw(st.lists(st.sampled_from(["shelf", "bench", "away"]), max_size=3)):
        if to == sits:
            continue
        day = draw(st.dates(day, LAST))
        hours = draw(st.none() | st.integers(9000 + 100 * len(made), 9099 + 100 * len(made)))
        said: dict[str, Any] = {"to": to, "on": day, "hours": hours, "over": draw(notes), "photo": "flange.jpg"}
        made.append(Move(id=draw(ids), drive=drive.id, **said, who=draw(people), at=_later(made)))
        sits = to  # type: ignore[assignment]
    return made if len({one.id for one in made}) == len(made) else made[:1]


@st.composite
def _warranties(draw: st.DrawFn, drive: Drive) -> list[Warranty]:
    """None, or one of days, hours or both."""
    if draw(st.booleans()):
        return []
    ends: dict[str, Any] = draw(st.sampled_from([{"days": 365}, {"hours": 300.5}, {"days": 30, "hours": 90}]))
    said = {"begins": draw(st.sampled_from(["fitted", "bought"])), "paper": draw(lines), "note": draw(notes)}
    return [Warranty(id=draw(ids), drive=drive.id, on=draw(days), **said, **ends, **draw(_kept()))]


@st.composite
def _samples(draw: st.DrawFn, drive: Drive) -> list[OilSample]:
    """None, or one of a few elements."""
    if draw(st.booleans()):
        return []
    ppm = st.none() | st.integers(0, 400).map(lambda n: n / 4)
    said = {"iron": draw(ppm), "silicon": draw(ppm), "water": draw(ppm), "on_oil": draw(ppm), "number": draw(lines)}
    return [
        OilSample(
            id=draw(ids), drive=drive.id, on=draw(days), below=("iron",), note=draw(notes), **said, **draw(_kept())
        )
    ]


@st.composite
def _rains(draw: st.DrawFn) -> list[Rain]:
    """None, or two years of one station, some days left out."""
    cells = st.sampled_from(["-", "0", "0.3", "12.7"])
    month = st.lists(cells, max_size=28).map(" ".join)
    said = {"station": draw(lines), "january": draw(month), "may": draw(month)}
    years = draw(st.sampled_from([(), (2024,), (2024, 2025)]))
    return [Rain(id=f"rain-{year}", year=year, **said, **draw(_kept())) for year in years]


def _later(made: list[Move]) -> datetime:
    """Moves of one day are told apart by when they were kept."""
    return datetime(2026, 8, 28, 12, 0, len(made), tzinfo=timezone(timedelta(hours=2)))


@st.composite
def _read(draw: st.DrawFn, machine: Machine) -> dict[str, Any]:
    day, clock = draw(days), draw(st.sampled_from(machine.clocks))
    return {"on": day, "clock": clock, "hours": stood(machine.id, clock, day), "about": draw(st.sampled_from([0, 2.5]))}


@st.composite
def _finding(draw: st.DrawFn, machine: Machine, drives: list[Drive], trouble: int | None) -> Finding:
    name = draw(st.sampled_from(sorted(known_grades())))
    read = draw(_read(machine)) if draw(st.booleans()) else {"on": draw(days)}
    return Finding(
        id=draw(ids),
        finding=name,
        grade=draw(st.sampled_from(known_grades()[name])),
        corner=draw(st.sampled_from(machine.at_corners())),
        drive=draw(st.sampled_from([None, *(d.id for d in drives)])),
        trouble=trouble,
        photo=draw(st.sampled_from(["", "plug.jpg"])),
        note=draw(notes),
        **read,
        **draw(_kept()),
    )


@st.composite
def _trouble(draw: st.DrawFn, number: int, machines: list[Machine], drives: list[Drive]) -> list[Record]:
    machine = draw(st.sampled_from(machines))
    opened = draw(st.dates(FIRST, LAST - timedelta(days=30)))
    trouble = Trouble(
        id=draw(st.just(str(number)) | ids.map(lambda end: f"t{number}-{end}")),
        number=number,
        corner=draw(st.sampled_from(machine.at_corners())),
        drive=draw(st.sampled_from([None, *(d.id for d in drives)])),
        opened=opened,
        note=draw(notes),
        **draw(_kept()),
    )
    upto = draw(st.integers(1, len(STAGES)))
    stages = [
        Stage(
            id=f"{number}-{n}",
            trouble=number,
            stage=stage,
            on=opened + timedelta(days=n),
            course=draw(st.sampled_from([None, *COURSES])) if stage == "settled" else None,
            note=draw(notes),
        )
        for n, stage in enumerate(STAGES[:upto])
    ]
    found = [draw(_finding(draw(st.sampled_from(machines)), drives, number)) for _ in range(draw(st.integers(0, 3)))]
    return [trouble, *stages, *found, *draw(_answers("trouble", {"trouble": number})), *draw(_in_hand(number, machine))]


bands = st.builds(
    PrintedBand,
    reading=st.just("crib-settle"),
    unit=st.just("mm"),
    mark=st.sampled_from([1, 0.5]),
    go_from=st.none() | st.just(0),
    go_to=st.none() | st.integers(0, 3),
    ask_to=st.none() | st.integers(3, 9),
)


@st.composite
def _in_hand(draw: st.DrawFn, number: int, machine: Machine) -> list[Record]:
    """A step card, a few readings of it, and an after-check."""
    made: list[Record] = []
    if draw(st.booleans()):
        card = StepCard(
            id=draw(ids),
            trouble=number,
            revision=draw(st.sampled_from(["", "C"])),
            course=draw(st.sampled_from(COURSES)),
            job=draw(st.sampled_from(["swap-saddle", "raised-corner-look"])),
            when=draw(st.sampled_from([(), ("split-rim", "brake-at-drive")])),
            hands=draw(st.integers(1, 4)),
            bands=draw(st.just(()) | bands.map(lambda band: (band,))),
            on=draw(days),
            note=draw(notes),
            **draw(_kept()),
        )
        made.append(card)
    said = [("ra-settle", "crib-settle", "2 mm"), ("ra-settle", None, "done"), ("cl-ratio", "twin", "31 turns")]
    for step, reading, value in draw(st.lists(st.sampled_from([*said, ("wheel-nuts", None, "still")]), max_size=3)):
        when = draw(_read(machine)) if draw(st.booleans()) else {"on": draw(days)}
        when.pop("about", None)
        seen = draw(st.sampled_from(["", "helper"]))
        time = draw(st.sampled_from(["", "14:20"]))
        how: dict[str, Any] = {
            "taken": draw(st.sampled_from(TAKEN)),
            "seen_by": seen,
            "time": time,
            "note": draw(notes),
        }
        one = Reading(
            id=draw(ids), trouble=number, step=step, reading=reading, value=value, **how, **when, **draw(_kept())
        )
        made.append(one)
    if draw(st.booleans()):
        mornings = tuple(draw(st.lists(days, max_size=2, unique=True)))
        looks: dict[str, Any] = {"look": "wheel-nuts", "due": (2651, 2660), "every": 250, "second": (1907.5,)}
        made.append(
            AfterCheck(
                id=draw(ids),
                trouble=number,
                says=draw(lines),
                set_down=2650.4,
                on=draw(days),
                mornings=mornings,
                by=draw(st.none() | days),
                **looks,
            )
        )
    return made


@st.composite
def _answers(draw: st.DrawFn, whose: Whose, about: dict[str, Any]) -> list[Answer]:
    """A few answers of one thing, each question once a day."""
    names = [name for name, asked in questions().items() if whose in (asked.of, "trouble")]
    made = []
    for name in draw(st.lists(st.sampled_from(names), max_size=3, unique=True)):
        asked = questions()[name]
        made.append(
            Answer(
                id=draw(ids),
                name=name,
                value=draw(st.sampled_from([asked.example, *asked.words()])),
                on=draw(days),
                basis=draw(st.sampled_from(["book", "measured", "assumed"])),
                source=draw(st.just("") | lines),
                **about,
                **draw(_kept()),
            )
        )
    return made


def whole(yard: Yard) -> Change:
    """Everything of a yard as one change."""
    return Change(yard.records)
