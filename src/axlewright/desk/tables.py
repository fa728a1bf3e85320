"""What a yard says, as tables for a spreadsheet. Hours are in h, money in the yard's currency."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from axlewright.desk.calendar import decisions
from axlewright.desk.rows import choice_said, corners_said, drives_said, due_said, machines_said, readings_said
from axlewright.formulary import said
from axlewright.formulary.call import Answer, Value
from axlewright.plan.choice_made import Choice
from axlewright.plan.in_hand.due import Due
from axlewright.plan.sheet.due import falls_due
from axlewright.render.csv import Cell, Table, listed
from axlewright.render.show import Words
from axlewright.yard import Trouble, Yard

YES = {True: "yes", False: "no", None: None}


def corners_table(yard: Yard, today: date) -> Table:
    """Every corner: how it stands, may it work, may it go on the road."""
    rows = [{**row, "rows": " ".join(row["rows"])} for row in corners_said(yard, today)["corners"]]
    heads = ("corner", "drive", "stands", "field", "road", "rows", "trouble")
    return listed([(head, head) for head in heads], rows)


def due_table(yard: Yard, today: date, found: tuple[Due, ...] | None = None) -> Table:
    """What falls due, what runs out first on top."""
    found = falls_due(yard, today, decisions(yard, today)) if found is None else found
    rows = due_said(yard, found, today)["due"]
    heads = [
        ("corner", "corner"),
        ("look", "words"),
        ("trouble", "trouble"),
        ("due at [h]", "at"),
        ("clock", "clock"),
        ("due on", "on"),
        ("to run [h]", "hours_left"),
        ("expected", "expected"),
        ("state", "state"),
    ]
    return listed(heads, [dict(row) for row in rows])


def drives_table(yard: Yard, today: date) -> Table:
    """Every drive with the hours that it ran itself."""
    heads = [
        ("drive", "id"),
        ("name", "name"),
        ("design", "design"),
        ("sits", "sits"),
        ("since", "since"),
        ("own hours [h]", "hours"),
        ("off by [h]", "about"),
        ("numbers", "numbers"),
    ]
    return listed(heads, [{**row, "numbers": ", ".join(row["numbers"])} for row in drives_said(yard, today)["drives"]])


def machines_table(yard: Yard, today: date) -> Table:
    """Every machine with what its clocks read last."""
    rows = []
    for row in machines_said(yard, today)["machines"]:
        clocks = {one["clock"]: one["hours"] for one in row["clocks"]}
        rows.append({**row, **clocks, "corners": ", ".join(row["corners"])})
    heads = [
        ("machine", "id"),
        ("name", "name"),
        ("kind", "kind"),
        ("engine clock [h]", "engine"),
        ("threshing clock [h]", "threshing"),
        ("corners", "corners"),
    ]
    return listed(heads, rows)


def readings_table(yard: Yard, trouble: Trouble) -> Table:
    """All readings of a trouble, each with the unit that was typed."""
    heads = [
        ("step", "step"),
        ("reading", "reading"),
        ("value", "value"),
        ("on", "on"),
        ("time", "time"),
        ("clock reading [h]", "hours"),
        ("clock", "clock"),
        ("taken", "taken"),
        ("who", "who"),
        ("seen by", "seen_by"),
        ("note", "note"),
    ]
    return listed(heads, readings_said(yard, trouble)["readings"])


def choice_table(choice: Choice, words: Words, number: int, money: str) -> Table:
    """The courses of a trouble, best first, in the yard's currency; those that are struck out with why."""
    heads = [
        ("course", "course"),
        ("stopped", "stopped"),
        (f"expected cost [{money}]", "mean"),
        ("lets go [share of 1]", "lets_go"),
        ("order by", "order_by"),
        ("too late", "too_late"),
        ("why stopped", "why"),
        ("lifted by", "lifted_by"),
    ]
    rows = choice_said(choice, words, number)["courses"]
    return listed(
        heads, [{**row, "stopped": YES[row["stopped"]], "too_late": YES[row.get("too_late")]} for row in rows]
    )


def formula_table(answer: Answer) -> Table:
    """What went into a formula and what came out, in one row; in several where it gives lists."""
    columns = [column for value in (*answer.inputs, *answer.values) for column in _columns(value)]
    most = max((len(cells) for _, cells in columns), default=0)
    rows = tuple(tuple(cells[n] if n < len(cells) else None for _, cells in columns) for n in range(most))
    return Table(tuple(head for head, _ in columns), rows)


def _columns(value: Value) -> list[tuple[str, tuple[Cell, ...]]]:
    """A value in the unit that its head names, and its ends where a range was typed."""
    name, unit = said.name_of(value.name), value.unit
    shown = f" [{unit.symbol}]" if unit and unit.symbol else ""
    many = tuple(value.number) if isinstance(value.si, tuple) else (value.number,)
    found = [(f"{name}{shown}", tuple(_cut(one) for one in many))]
    if value.low is not None and value.high is not None and unit:
        ends = (("low", value.low), ("high", value.high))
        found += [(f"{name} {end}{shown}", (_cut(unit.from_si(at)),)) for end, at in ends]
    return found


def _cut(number: Any) -> Cell:
    """A number without the noise of its units; a word as it is."""
    if isinstance(number, bool | int | str):
        return number
    return float(f"{float(number):.{said.EXACT}g}")


TABLES: Mapping[str, Callable[[Yard, date], Table]] = {
    "corners": corners_table,
    "due": due_table,
    "drives": drives_table,
    "machines": machines_table,
}
"""Tables of the whole yard."""
