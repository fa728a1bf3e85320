"""A yard as a contractor's would be after years: 50 machines, 400 drives, 20,000 findings. Invented, and the same each time.

`big_yard()` gives the picture; `python -m benchmarks.big_yard TO` lays it out in a new folder or database.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from pathlib import Path

from axlewright.trade.findings import findings
from axlewright.yard import (
    STAGES,
    AfterCheck,
    Answer,
    ClockReading,
    Corner,
    Design,
    Drive,
    Finding,
    Machine,
    Move,
    Reading,
    Record,
    Season,
    Stage,
    Stated,
    StepCard,
    Title,
    Trouble,
    Work,
    Yard,
)

MACHINES, DRIVES, FINDINGS = 50, 400, 20_000
FIRST, TODAY = date(2018, 3, 1), date(2026, 8, 28)
BIRDS = ("lark", "finch", "plover", "dunlin", "heron", "siskin", "pipit", "dotterel", "curlew", "avocet")
KINDS = ("walker-combine", "forage-harvester", "small-combine")
FRONT, ALL = ("front-left", "front-right"), ("front-left", "front-right", "rear-left", "rear-right")
DESIGNS = ("hub-one", "hub-two", "drop-one", "drop-two")
PER_THRESHING = 1.4  # engine hours in a threshing hour
LOOKED_AT = ("plug", "level", "where", "nuts", "bolts", "heat", "leak-wheel")
PEOPLE = ("owner", "helper")


def clock(machine: int, day: date) -> float:
    """Engine hours of a machine on a day: it runs in the season alone, and each its own hours a year."""
    begun, a_year = 400.0 + 37 * machine, 160.0 + 3 * machine
    years = day.year - FIRST.year
    season = min(max((day - date(day.year, 7, 1)).days, 0), 120) / 120
    return round(begun + a_year * (years + season), 1)


def at(day: date, chance: random.Random) -> datetime:
    return datetime.combine(day, time(18, chance.randrange(60)), UTC)


def machines() -> tuple[Machine, ...]:
    made = []
    for n in range(MACHINES):
        kind = KINDS[n % len(KINDS)]
        name = f"{BIRDS[n % len(BIRDS)]}-{n // len(BIRDS) + 1}"
        made.append(
            Machine(
                id=name,
                name=name.replace("-", " ").title(),
                kind=kind,
                corners=ALL if kind == "forage-harvester" else FRONT,
                clocks=("engine", "threshing") if kind == "walker-combine" else ("engine",),
                mass=Stated(value=f"{8 + n % 7} t", basis="measured", source="weighbridge"),
                wheelbase=Stated(value=f"{3.4 + 0.1 * (n % 5):.1f} m"),
                track=Stated(value="2.7 m"),
            )
        )
    return tuple(made)


def clocks(yard: tuple[Machine, ...]) -> Iterator[Record]:
    """Each clock read four times a year."""
    for n, machine in enumerate(yard):
        for year in range(FIRST.year, TODAY.year + 1):
            for month, on in ((3, 20), (7, 10), (8, 20), (11, 10)):
                day = date(year, month, on)
                if day > TODAY:
                    continue
                for which in machine.clocks:
                    hours = clock(n, day) / (PER_THRESHING if which == "threshing" else 1)
                    yield ClockReading(
                        id=f"{machine.id}-{which}-{day}",
                        machine=machine.id,
                        on=day,
                        clock=which,
                        hours=round(hours, 1),
                        who="owner",
                    )


def drives(corners: list[Corner]) -> tuple[list[Drive], list[Move], dict[Corner, list[tuple[date, str]]]]:
    """Drives at all corners, half of them replaced once since; the others lie on the shelf, the bench or away."""
    made, moves = [], []
    sat: dict[Corner, list[tuple[date, str]]] = {}
    for n in range(DRIVES):
        first = n < len(corners)
        swapped = len(corners) <= n < len(corners) + len(corners) // 2
        place = corners[n] if first else ("shelf" if swapped else ("shelf", "shelf", "bench", "away")[n % 4])
        one = Drive(
            id=f"drive-{n + 1}",
            name=f"Drive {n + 1}",
            design=DESIGNS[n % len(DESIGNS)],
            numbers=(f"tag {4000 + 7 * n}", f"cast {n % 60}-{n % 9}"),
            sits=place,
            since=FIRST,
            hours=300 + 11 * (n % 190),
            about=60,
        )
        made.append(one)
        if first:
            sat[corners[n]] = [(FIRST, one.id)]
        if swapped:
            corner = corners[2 * (n - len(corners))]
            day = date(2020 + n % 6, 2, 1 + n % 27)
            old = sat[corner][0][1]
            moves.append(Move(id=f"off-{n}", drive=old, to="bench" if n % 3 else "shelf", on=day, who="owner"))
            moves.append(Move(id=f"on-{n}", drive=one.id, to=corner, on=day, who="owner", over="Breather and plug."))
            sat[corner].append((day, one.id))
    return made, moves, sat


def grade_of(finding: str, bad: bool, chance: random.Random) -> str:
    grades = [g for g in findings()[finding].grades if g.good != bad and not (g.stop and chance.random() < 0.9)]
    return chance.choice(grades).id if grades else next(g.id for g in findings()[finding].grades if g.good)


def trouble(number: int, machine: int, corner: Corner, drive: str, day: date, upto: int, chance: random.Random) -> list[Record]:  # fmt: skip
    """A trouble with its stages, and what was kept of the work."""
    name, made = str(number), list[Record]()
    who = chance.choice(PEOPLE)
    made.append(Trouble(id=name, number=number, corner=corner, drive=drive, opened=day, who=who, at=at(day, chance)))
    course = chance.choice(("fit a spare", "reseal", "run with checks", "rebuild now"))
    for n, stage in enumerate(STAGES[: upto + 1]):
        on = min(day + timedelta(days=3 * n), TODAY)
        taken = course if stage == "settled" else None
        made.append(Stage(id=f"{name}-{n}", trouble=number, stage=stage, on=on, course=taken, who=who, at=at(on, chance)))  # fmt: skip
    told: dict[str, object] = {"trouble": number, "on": day, "who": who, "at": at(day, chance)}
    made.append(Answer.model_validate({"id": f"{name}-grease", "name": "bolts/grease", "value": "anti-seize", **told}))
    if upto >= STAGES.index("in hand"):
        on = min(day + timedelta(days=12), TODAY)
        done: dict[str, object] = {"trouble": number, "on": on, "who": who, "at": at(on, chance)}
        card = {"id": f"{name}-card", "course": "fit a spare", "job": "swap-saddle", **done}
        read = {"id": f"{name}-settle", "step": "ra-settle", "reading": "crib-settle", "value": "1 mm", **done}
        made += [StepCard.model_validate(card), Reading.model_validate(read)]
        if upto >= STAGES.index("looked after"):
            down = clock(machine, on)
            due = (round(down + 1), round(down + 10), round(down + 50))
            check = {"id": f"{name}-nuts", "look": "wheel-nuts", "set_down": down, "due": due, **done}
            made.append(AfterCheck.model_validate(check))
    return made


def looks(yard: tuple[Machine, ...], sat: dict[Corner, list[tuple[date, str]]]) -> Iterator[Record]:
    """All findings: corner by corner one look after another, here and there one that opens a trouble."""
    chance, made, number = random.Random(8), 0, 0
    corners = list(sat)
    rounds = FINDINGS // (len(corners) * len(LOOKED_AT)) + 1
    for turn in range(rounds):
        day = FIRST + (TODAY - FIRST) * (turn + 1) / (rounds + 1)
        for corner in corners:
            machine = next(n for n, one in enumerate(yard) if one.id == corner.machine)
            on = min(day + timedelta(days=chance.randrange(60)), TODAY)
            drive = [one for since, one in sat[corner] if since <= on][-1]
            bad = chance.random() < 0.06
            mine: int | None = None
            if bad:
                number, mine = number + 1, number + 1
                upto = 7 if (TODAY - on).days > 1000 else chance.randrange(8)
                yield from trouble(number, machine, corner, drive, on, upto, chance)
            who, then = chance.choice(PEOPLE), at(on, chance)
            for n, looked in enumerate(LOOKED_AT):
                if made == FINDINGS:
                    return
                made += 1
                yield Finding(
                    id=f"{corner.machine}-{corner.place}-{turn}-{looked}",
                    finding=looked,
                    grade=grade_of(looked, bad and n in (0, 6), chance),
                    corner=corner,
                    drive=drive,
                    trouble=mine,
                    on=on,
                    hours=clock(machine, on),
                    clock="engine",
                    note="Wiped clean, looked again next morning." if bad and n == 6 else "",
                    who=who,
                    at=then,
                )


def seasons(yard: tuple[Machine, ...]) -> Iterator[Record]:
    yield Season(id="2026", climate="changeable")
    for n, machine in enumerate(yard):
        crop = "whole-crop-maize" if machine.kind == "forage-harvester" else ("wheat", "oats")[n % 2]
        told = {"season": "2026", "machine": machine.id, "crop": crop, "area": f"{40 + 3 * n} ha"}
        days = {"on": "2026-08-20", "starts": "2026-09-01", "ends": "2026-10-04"}
        yield Work.model_validate({"id": f"work-{machine.id}", **told, **days})


@cache
def big_yard() -> Yard:
    """The picture of it."""
    yard = machines()
    corners = [corner for machine in yard for corner in machine.at_corners()]
    made, moves, sat = drives(corners)
    designs = [
        Design(id=name, name=name.replace("-", " ").capitalize(), fits=tuple(corners[n::4]), mass=Stated(value="310 kg"))
        for n, name in enumerate(DESIGNS)
    ]  # fmt: skip
    title = Title(name="Long Reach (invented)", today=TODAY)
    told = (*clocks(yard), *looks(yard, sat), *seasons(yard))
    return Yard.of([title, *yard, *designs, *made, *moves, *told])


def main(to: str) -> int:
    """Lay it out in a new folder or database."""
    from axlewright import store

    store.lay_out(Path(to), big_yard())
    print(f"{to}: {len(big_yard().records):,} records")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1]))
