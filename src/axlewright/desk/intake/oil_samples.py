"""Oil samples of drives out of a laboratory's table. They are kept and shown; none of them is a look at a corner."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import Any

from pydantic import ValidationError

from axlewright.desk.intake.cells import NotRead
from axlewright.desk.intake.found import TakeIn
from axlewright.desk.intake.hours import datetime_of
from axlewright.desk.intake.sheet import BadCell, Line, Sheet
from axlewright.desk.intake.who import Names
from axlewright.desk.now import Now
from axlewright.yard import faults_of
from axlewright.yard.samples import ELEMENTS, OilSample

MEASURED = (*ELEMENTS, "water", "viscosity_40", "viscosity_100", "acid", "added")


def sample_rows(sheet: Sheet, names: Names, deed: TakeIn, now: Now) -> Iterator[tuple[Line, list[OilSample] | NotRead]]:
    """Line by line the sample, or what is wrong with it."""
    for line in sheet.lines():
        try:
            yield line, [_sample(line, names, deed, now)]
        except NotRead as bad:
            yield line, bad


def _sample(line: Line, names: Names, deed: TakeIn, now: Now) -> OilSample:
    said: dict[str, Any] = {"on": line.day("on"), "on_oil": line.hours("on_oil"), "own": line.hours("own")}
    named = line.text("drive") or deed.drive
    if not named:
        right = "Fill it in, or say --drive NAME."
        raise BadCell(line.header("drive"), NotRead("Which drive is not said.", right))
    try:
        said["drive"] = names.drive(named).id
    except NotRead as bad:
        raise BadCell(line.header("drive"), bad) from None
    below = []
    for column in MEASURED:
        found = line.measured(column)
        if found:
            said[column] = found[0]
            below += [column.replace("_", "-")] * found[1]
    said = {key: value for key, value in said.items() if value is not None}
    if not any(column in said for column in MEASURED):
        raise BadCell(
            "",
            NotRead("Nothing was measured on this line.", "Fill in what the laboratory found, or take the line out."),
        )
    said.update({key: line.text(key) for key in ("number", "oil", "note") if line.text(key)}, below=tuple(below))
    told = repr(sorted((key, str(value)) for key, value in said.items() if key != "note"))
    try:
        return OilSample(
            id="s" + hashlib.sha256(told.encode()).hexdigest()[:14], who=now.who, at=datetime_of(now), **said
        )
    except ValidationError as bad:
        fault = faults_of(bad, OilSample, lambda key: key)[0]
        raise BadCell(line.header(fault.where), NotRead(fault.what, fault.right)) from None


def told_of(sample: OilSample) -> str:
    """A sample in one line, for whom looks through it first."""
    said = [(name, getattr(sample, name)) for name in ELEMENTS if getattr(sample, name) is not None][:4]
    parts = [f"{name} {'<' * (name in sample.below)}{ppm:g}" for name, ppm in said]
    rate = sample.iron_rate()
    more = f"; iron {rate:.0f} ppm in 100 h" if rate is not None else ""
    if sample.water is not None:
        parts.append(f"water {sample.water:g}")
    return f"{sample.drive}, {sample.on}: {', '.join(parts)}{' ppm' if parts else 'viscosity and the like'}{more}"
