"""Machines out of a table: new ones, and what is not known yet of those that are there. What is known is not written over."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from typing import Any

from pydantic import ValidationError

from axlewright.desk.intake.cells import NotRead, short
from axlewright.desk.intake.hours import datetime_of
from axlewright.desk.intake.sheet import BadCell, Line, Sheet
from axlewright.desk.intake.who import bare
from axlewright.desk.now import Now
from axlewright.quantities import NotRead as UnitNotRead
from axlewright.quantities import parse, read_spread
from axlewright.trade.machines import machine_kinds as kinds
from axlewright.yard import CLOCKS, PLACES, Machine, Stated, Yard, closest, faults_of

STATED = {"mass": "mass", "front_axle": "mass", "rear_axle": "mass", "wheelbase": "length", "track": "length"}
"""Values with a unit, each with its kind."""
ALIKE = 0.001  # a share by which 11.34 t and 11 340 kg may differ


def word_of(name: str) -> str:
    """A name as an id: small letters a to z, digits and hyphens; empty where nothing of it is left.

    >>> word_of("Große Wiese 2")
    'grosse-wiese-2'
    """
    folded = unicodedata.normalize("NFKD", name.casefold())
    return re.sub(r"[^a-z0-9]+", "-", "".join(s for s in folded if not unicodedata.combining(s))).strip("-")[:60]


def machine_rows(sheet: Sheet, yard: Yard, now: Now) -> Iterator[tuple[Line, list[Machine] | NotRead]]:
    """Line by line the machine as it would stand, or what is wrong with it."""
    once: dict[str, int] = {}
    for line in sheet.lines():
        try:
            made = _machine(line, yard, now)
            first = once.setdefault(made.id, line.number)
            if first != line.number:
                raise BadCell(
                    line.header("name"), NotRead(f"{made.name} stands on line {first} already.", "Keep one of the two.")
                )
            yield line, [made]
        except NotRead as bad:
            yield line, bad


def _machine(line: Line, yard: Yard, now: Now) -> Machine:
    name = line.text("name")
    if not name:
        raise BadCell(line.header("name"), NotRead("The name is missing.", "Write what the machine is called."))
    said: dict[str, Any] = {"name": name, "id": line.text("id").casefold() or word_of(name)}
    if line.text("kind"):
        said["kind"] = _kind(line)
    if line.texts("numbers"):
        parts = (part.strip() for text in line.texts("numbers") for part in re.split(r"[;,|]", text))
        said["numbers"] = tuple(dict.fromkeys(part for part in parts if part))
    for column, all_of_them in (("corners", PLACES), ("clocks", CLOCKS)):
        if text := line.text(column):
            said[column] = _listed(line, column, text, all_of_them)
    for column in STATED:
        if text := line.stated(column):
            said[column] = Stated(value=text, source="")
    if line.text("note"):
        said["note"] = line.text("note")
    there = next((one for one in yard.machines if one.id == said["id"]), None)
    if there is None and not line.text("id"):
        there = next((one for one in yard.machines if one.name.casefold() == name.casefold()), None)
    there = there or _numbered(line, yard, said.get("numbers", ()))
    if there:
        return _with(line, there, said, yard)
    try:
        return Machine.model_validate({**said, "who": now.who, "at": datetime_of(now)})
    except ValidationError as bad:
        fault = faults_of(bad, Machine, lambda key: key)[0]
        raise BadCell(line.header(fault.where), NotRead(fault.what, fault.right)) from None


def _kind(line: Line) -> str:
    wanted = word_of(line.text("kind"))
    if wanted not in kinds():
        raise BadCell(
            line.header("kind"), NotRead(f"There is no kind {short(line.text('kind'))}.", closest(wanted, kinds()))
        )
    return wanted


def _listed(line: Line, column: str, text: str, known: tuple[str, ...]) -> tuple[str, ...]:
    found = tuple(
        part.strip().casefold().replace(" ", "-") for part in re.split(r"[;,|/+]|\band\b", text) if part.strip()
    )
    for one in found:
        if one not in known:
            raise BadCell(
                line.header(column), NotRead(f"There is no {short(one)} among the {column}.", closest(one, known))
            )
    return tuple(one for one in known if one in found)


def _numbered(line: Line, yard: Yard, numbers: tuple[str, ...]) -> Machine | None:
    """The machine that has one of these numbers."""
    wanted = {bare(number) for number in numbers}
    found = [one for one in yard.machines if wanted & {bare(number) for number in one.numbers}]
    if len(found) > 1:
        ids = " and ".join(one.id for one in found)
        raise BadCell(
            line.header("numbers"), NotRead(f"{ids} have this number.", "Write the id of one in a column id.")
        )
    return found[0] if found else None


def _with(line: Line, there: Machine, said: dict[str, Any], yard: Yard) -> Machine:
    """A machine of the yard with what was not known of it. What stands there otherwise is a mistake, not a change."""
    new: dict[str, Any] = {}
    for key, value in said.items():
        if key in ("id", "name"):
            continue
        known = getattr(there, key)
        if key == "numbers":
            more = tuple(number for number in value if bare(number) not in map(bare, known))
            if more:
                new[key] = (*known, *more)
        elif not known or known == type(there).model_fields[key].default:
            if value != known:
                new[key] = value
        elif not _same(key, known, value, yard):
            what = f"{there.name} has {_shown(known)} there; the file says {_shown(value)}."
            raise BadCell(line.header(key), NotRead(what, "Change it in the yard, or leave that cell empty."))
    return there.model_copy(update=new) if new else there


def _same(key: str, known: Any, value: Any, yard: Yard) -> bool:
    if key not in STATED:
        return bool(known == value)
    try:
        new = parse(value.value, STATED[key], ".").si
        old = float(read_spread(known.value, STATED[key], yard.title.decimal).at(0.5))
    except UnitNotRead:
        return False
    return abs(old - new) <= ALIKE * abs(old)


def _shown(value: Any) -> str:
    return value.value if isinstance(value, Stated) else ", ".join(value) if isinstance(value, tuple) else str(value)
