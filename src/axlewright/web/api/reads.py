"""What stands in the yard, for programs: JSON, and the tables among it as CSV."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Annotated, Any

from fastapi import APIRouter, Query
from fastapi import Path as InPath
from fastapi.responses import JSONResponse, Response
from starlette.requests import Request

from axlewright.desk import rows as row
from axlewright.desk.asked import as_data as asked_said
from axlewright.desk.calendar import decisions
from axlewright.desk.tables import TABLES, choice_table, readings_table
from axlewright.plan.choice_made import Choice
from axlewright.plan.drawn_up import chosen, will_be_drawn
from axlewright.plan.facts import clock_now, job_open, seen_at
from axlewright.plan.first_look import FirstLook, first_look
from axlewright.plan.in_hand.worked import worked
from axlewright.plan.sheet.due import falls_due
from axlewright.plan.sheet.trouble import look_of
from axlewright.plan.workings import Refused
from axlewright.render import csv
from axlewright.render.show import Words
from axlewright.trade.findings import findings
from axlewright.web.api import problems, shapes
from axlewright.web.api.deeds import marked
from axlewright.web.api.wanted import wants_csv
from axlewright.web.page import day, show_for, store_of
from axlewright.yard import COURSES, Corner, Fault, Faults, Trouble, Yard
from axlewright.yard.asked import open_boxes

router = APIRouter(prefix="/api")
Number = Annotated[int, InPath(ge=1, le=2**31, description="the trouble's number")]
Ticks = Annotated[list[str], Query(description="what was seen, each as FINDING=GRADE", max_length=60, examples=[["plug=paste"]])]  # fmt: skip
At = Annotated[str | None, Query(description="with what is on record at this corner", max_length=130)]
TABLE = {csv.MEDIA.partition(";")[0]: {"schema": {"type": "string"}}}


def gives(model: type[shapes.Shape], *codes: int, table: bool = False) -> dict[int | str, dict[str, Any]]:
    """The answers of an operation that reads."""
    good: dict[str, Any] = {"model": model, "description": "as it stands"}
    if table:
        good["content"] = TABLE
    return {200: good, **problems.told(*codes, 422, *((400,) if 404 in codes else ()))}


def read_at(request: Request) -> tuple[Yard, date]:
    """The yard, and the day taken as today."""
    yard = store_of(request).read()
    return yard, day(request, yard)


def answered(yard: Yard, said: dict[str, Any]) -> Response:
    return JSONResponse(said, headers=marked(yard))


def as_table(yard: Yard, table: csv.Table, name: str) -> Response:
    """A table as a file."""
    headers = {**marked(yard), "Content-Disposition": f'inline; filename="{name}.csv"', "Vary": "Accept"}
    return Response(csv.written(table, show_for(yard).decimal), media_type=csv.MEDIA, headers=headers)


@router.get("/yard", operation_id="yard", tags=["yard"], summary="The yard, and its mark", responses=gives(shapes.YardSaid))  # fmt: skip
def the_yard(request: Request) -> Response:
    """Its name and how it likes its numbers. `mark` is what If-Match takes."""
    yard, today = read_at(request)
    show = show_for(yard)
    said = {
        "name": yard.name,
        "today": today.isoformat(),
        "measures": show.measures,
        "decimal": show.decimal,
        "currency": yard.currency,
        "paper": show.paper,
        "machines": len(yard.machines),
        "drives": len(yard.drives),
        "troubles": len(yard.troubles),
        "mark": yard.seen,
    }
    return answered(yard, said)


WHOLE: dict[str, tuple[str, type[shapes.Shape], Callable[[Yard, date], dict[str, Any]]]] = {
    "corners": (
        "Every corner: how it stands, may it work, may it go on the road",
        shapes.CornersSaid,
        row.corners_said,
    ),
    "machines": ("Every machine with what its clocks read last", shapes.MachinesSaid, row.machines_said),
    "drives": ("Every drive with the hours that it ran itself", shapes.DrivesSaid, row.drives_said),
    "due": (
        "What falls due, what runs out first on top",
        shapes.DuesSaid,
        lambda yard, today: row.due_said(yard, falls_due(yard, today, decisions(yard, today)), today),
    ),
}
"""What is said of the whole yard, as JSON and as a table."""


def _whole(name: str, said: Callable[[Yard, date], dict[str, Any]]) -> Callable[[Request], Response]:
    def whole(request: Request) -> Response:
        yard, today = read_at(request)
        if wants_csv(request):
            return as_table(yard, TABLES[name](yard, today), name)
        return answered(yard, said(yard, today))

    return whole


for _name, (_words, _model, _said) in WHOLE.items():
    router.add_api_route(f"/{_name}", _whole(_name, _said), operation_id=_name, tags=["yard"], summary=_words, responses=gives(_model, table=True))  # fmt: skip
    router.add_api_route(f"/{_name}.csv", _whole(_name, _said), include_in_schema=False)


@router.get("/words", operation_id="words", tags=["yard"], summary="Findings with their grades, and the courses", responses=gives(shapes.WordsSaid))  # fmt: skip
def words(request: Request) -> Response:
    """The words that deeds take."""
    rows = [
        {
            "finding": one.id,
            "name": one.name,
            "grades": [{"grade": grade.id, "words": grade.words, "stop": bool(grade.stop)} for grade in one.grades],
        }
        for one in findings().values()
    ]
    return JSONResponse({"findings": rows, "courses": list(COURSES)})


@router.get("/season", operation_id="season", tags=["yard"], summary="What is still to be cut, by machine", responses=gives(shapes.SeasonSaid))  # fmt: skip
def season(request: Request) -> Response:
    """In the order in which it is ripe."""
    yard, today = read_at(request)
    rows = [
        {
            "season": one.season,
            "machine": one.machine,
            "crop": one.crop,
            "area": one.area.value,
            "done": one.done.value if one.done else None,
            "starts": one.starts.isoformat(),
            "ends": one.ends.isoformat(),
        }
        for machine in yard.machines
        for one, _ in yard.work_of(machine.id, today)
    ]
    return answered(yard, {"work": rows})


@router.get("/first-look", operation_id="first-look", tags=["trouble"], summary="What was seen in, verdicts out; nothing is kept", responses=gives(shapes.FirstLookSaid, 404))  # fmt: skip
def looked(request: Request, seen: Ticks, corner: At = None) -> Response:
    """May it work, may it go on the road, what to look at first, and what each look would mean."""
    yard, today = read_at(request)
    if not corner:
        return answered(yard, _look(first_look(seen, today=today), yard, None, None))
    at = yard.corner(corner)
    found = first_look(seen, clock=clock_now(yard, at, today), today=today, before=seen_at(yard, at, today), job_open=job_open(yard, at))  # fmt: skip
    running = yard.running_at(at)
    return answered(yard, _look(found, yard, at, running.number if running else None))


def _look(look: FirstLook, yard: Yard, corner: Corner | None, trouble: int | None) -> dict[str, Any]:
    return row.look_said(look, Words(show_for(yard), look.basis), corner, trouble)


@router.get("/trouble", operation_id="troubles", tags=["trouble"], summary="Every trouble", responses=gives(shapes.TroublesSaid))  # fmt: skip
def troubles(request: Request) -> Response:
    """By number, with the stage that each has come to."""
    yard, _ = read_at(request)
    return answered(yard, {"troubles": [row.trouble_row(yard, one) for one in yard.troubles]})


@router.get("/trouble/{number}", operation_id="trouble", tags=["trouble"], summary="A trouble as it stands", responses=gives(shapes.TroubleSaid, 404))  # fmt: skip
def trouble(request: Request, number: Number) -> Response:
    """Its verdicts, findings and stages, and the sheets that would be drawn up."""
    yard, today = read_at(request)
    one = yard.trouble(number)
    keys = ("id", "finding", "grade", "hours", "clock", "who", "note", "photo")
    said = {
        **row.trouble_row(yard, one),
        "note": one.note,
        "first_look": _look(look_of(yard, one, today), yard, one.corner, one.number),
        "findings": [
            {**{key: getattr(found, key) for key in keys}, "on": found.on.isoformat()}
            for found in yard.findings_of(number)
        ],
        "stages": [
            {
                "stage": stage.stage,
                "on": stage.on.isoformat(),
                "who": stage.who,
                "course": stage.course,
                "pack": stage.pack,
                "note": stage.note,
            }
            for stage in yard.stages_of(number)
        ],
        "sheets": [{"name": name, "title": title} for name, title in will_be_drawn(yard, one, today)],
        "walk_round_open": len(open_boxes(yard, one)),
    }
    return answered(yard, said)


@router.get("/trouble/{number}/asked", operation_id="asked", tags=["trouble"], summary="Every question of a trouble, and what is known for it", responses=gives(shapes.AskedSaid, 404))  # fmt: skip
def asked(request: Request, number: Number) -> Response:
    """How it is known, and what is missing. The deed `answer` takes the names."""
    yard, _ = read_at(request)
    return answered(yard, asked_said(yard, yard.trouble(number)))


@router.get("/trouble/{number}/choice", operation_id="choice", tags=["trouble"], summary="The courses best first, and what to find out next", responses=gives(shapes.ChoiceSaid, 404, table=True))  # fmt: skip
@router.get("/trouble/{number}/choice.csv", include_in_schema=False)
def choice(request: Request, number: Number) -> Response:
    """One sentence, one call, one date; each look and telephone call by what it would save."""
    yard, today = read_at(request)
    made, show = _chosen(yard, yard.trouble(number), today), Words(show_for(yard), {}, today)
    if wants_csv(request):
        return as_table(yard, choice_table(made, show, number, yard.currency), f"trouble-{number}-choice")
    return answered(yard, row.choice_said(made, show, number))


def _chosen(yard: Yard, one: Trouble, today: date) -> Choice:
    """The choice of a trouble.

    Raises:
        Faults: there is none to make, or it cannot be made out
    """
    made = chosen(yard, one, today)
    if made is None:
        right = "Write what its machine still has to cut; a job in hand, or one put by, has none to make."
        raise Faults(Fault("choice", "There is no choice to make here.", right))
    if isinstance(made, Refused):
        what = f"No choice can be made out: {made.because}."
        raise Faults(Fault("choice", what, "Put that right, then try again."))
    return made


@router.get("/trouble/{number}/card", operation_id="card", tags=["trouble"], summary="How far the work of the step card came", responses=gives(shapes.CardSaid, 404))  # fmt: skip
def card(request: Request, number: Number) -> Response:
    """The step at hand and what it waits for. `card` is null before one was begun."""
    yard, _ = read_at(request)
    one = yard.trouble(number)
    return answered(yard, row.card_said(yard, one, worked(yard, one)))


@router.get("/trouble/{number}/readings", operation_id="readings", tags=["trouble"], summary="All readings of a trouble", responses=gives(shapes.ReadingsSaid, 404, table=True))  # fmt: skip
@router.get("/trouble/{number}/readings.csv", include_in_schema=False)
def readings(request: Request, number: Number) -> Response:
    """Those that stand, in the order in which they were taken."""
    yard, _ = read_at(request)
    one = yard.trouble(number)
    if wants_csv(request):
        return as_table(yard, readings_table(yard, one), f"trouble-{number}-readings")
    return answered(yard, row.readings_said(yard, one))
