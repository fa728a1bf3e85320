"""Sheets for programs: as they would be drawn up, and as they were frozen; as JSON, PDF, HTML or text, and the calendar."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Annotated, Any, BinaryIO, Literal, cast

from fastapi import APIRouter
from fastapi import Path as InPath
from fastapi.responses import FileResponse, JSONResponse, Response
from starlette.background import BackgroundTask
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.desk.calendar import calendar_of, decisions
from axlewright.plan.drawn_up import draw_up
from axlewright.render import ENDINGS, render
from axlewright.sheets import Pack
from axlewright.store import zipped
from axlewright.web.api import problems, shapes
from axlewright.web.api.deeds import marked
from axlewright.web.api.reads import Number, answered, gives, read_at
from axlewright.web.page import show_for, store_of
from axlewright.yard import Yard

router = APIRouter(prefix="/api")
Ending = Literal["pdf", "html", "txt", "json"]
KINDS: dict[str, str] = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "txt": "text/plain; charset=utf-8",
    "json": "application/json",
}
Key = Annotated[str, InPath(pattern="^[0-9a-f]{16}$", description="the pack's key, as at the foot of its sheets")]
Name = Annotated[str, InPath(pattern="^[a-z0-9-]{1,60}$", description="the sheet's name, such as support")]


def files(*codes: int) -> dict[int | str, dict[str, Any]]:
    """The answers of an operation that gives a file."""
    content = {kind.partition(";")[0]: {"schema": {} if name == "json" else {"type": "string"}} for name, kind in KINDS.items()}  # fmt: skip
    return {200: {"description": "the sheets", "content": content}, **problems.told(*codes, 422)}


def as_file(yard: Yard, made: Pack, ending: str) -> Response:
    data = render(made, show_for(yard), ENDINGS[f".{ending}"])
    return Response(data, media_type=KINDS[ending], headers=marked(yard))


@router.get("/trouble/{number}/sheets.{ending}", operation_id="sheets", tags=["sheets"], summary="All sheets of a trouble as they would be drawn up now", response_class=Response, responses=files(400, 404))  # fmt: skip
def sheets(request: Request, number: Number, ending: Ending) -> Response:
    """Nothing is kept: the deed draw-up freezes them under a key."""
    yard, today = read_at(request)
    return as_file(yard, draw_up(yard, yard.trouble(number), today), ending)


@router.get("/trouble/{number}/sheet/{name}.{ending}", operation_id="sheet", tags=["sheets"], summary="One sheet of a trouble as it would be drawn up now", response_class=Response, responses=files(400, 404))  # fmt: skip
def sheet(request: Request, number: Number, name: Name, ending: Ending) -> Response:
    """With the pages that go on with it."""
    yard, today = read_at(request)
    return as_file(yard, alone(draw_up(yard, yard.trouble(number), today), name), ending)


@router.get("/pack", operation_id="packs", tags=["sheets"], summary="The keys of all frozen packs", responses=gives(shapes.PacksSaid))  # fmt: skip
def packs(request: Request) -> Response:
    """Each can be printed again for ever."""
    store = store_of(request)
    names = [name.partition("/")[2].partition(".")[0] for name in store.beside() if name.startswith("packs/")]
    return answered(store.read(), {"packs": names})


@router.get("/pack/{key}", operation_id="pack", tags=["sheets"], summary="A frozen pack and its sheets by name", responses=gives(shapes.PackSaid, 400, 404))  # fmt: skip
def pack(request: Request, key: Key) -> Response:
    """The same key gives the same sheets for ever."""
    made = desk.pack_kept(store_of(request), key)
    block = made.sheets[0].block
    said = {
        "key": made.key,
        "trouble": int(block.trouble) if block.trouble.isdigit() else None,
        "corner": block.corner,
        "on": block.on.isoformat() if block.on else None,
        "sheets": [{"name": one.name, "title": one.block.title} for one in made.sheets],
    }
    return JSONResponse(said)


@router.get("/pack/{key}/all.{ending}", operation_id="pack-file", tags=["sheets"], summary="All sheets of a frozen pack", response_class=Response, responses=files(400, 404))  # fmt: skip
def whole_pack(request: Request, key: Key, ending: Ending) -> Response:
    """As one file."""
    store = store_of(request)
    return as_file(store.read(), desk.pack_kept(store, key), ending)


@router.get("/pack/{key}/{name}.{ending}", operation_id="pack-sheet", tags=["sheets"], summary="One sheet of a frozen pack", response_class=Response, responses=files(400, 404))  # fmt: skip
def pack_sheet(request: Request, key: Key, name: Name, ending: Ending) -> Response:
    """With the pages that go on with it."""
    store = store_of(request)
    return as_file(store.read(), alone(desk.pack_kept(store, key), name), ending)


def alone(made: Pack, name: str) -> Pack:
    """The pack with one sheet only, and the pages that go on with it."""
    found = tuple(one for one in made.sheets if one.name == name or one.name.startswith(f"{name}-"))
    if not found:
        names = ", ".join(one.name for one in made.sheets)
        raise HTTPException(404, f"there is no sheet {name}; there is {names}")
    return made.model_copy(update={"sheets": found})


@router.get("/due.ics", operation_id="calendar", tags=["yard"], summary="What falls due, as a calendar", response_class=Response, responses={200: {"description": "the calendar", "content": {"text/calendar": {"schema": {"type": "string"}}}}, **problems.told(422)})  # fmt: skip
def calendar(request: Request) -> Response:
    """After-checks and dates to decide by, a whole day each, under ids that stay."""
    yard, today = read_at(request)
    data = calendar_of(yard, today, decisions(yard, today))
    return Response(data, media_type="text/calendar; charset=utf-8", headers=marked(yard))


@router.get("/yard.zip", operation_id="yard-zip", tags=["yard"], summary="The whole yard as a zip", response_class=Response, responses={200: {"description": "the zip", "content": {"application/zip": {"schema": {"type": "string", "format": "binary"}}}}, **problems.told(422)})  # fmt: skip
def whole_yard(request: Request) -> Response:
    """All records, photos and frozen packs: the same bytes for the same yard. The command put-back takes it in."""
    with tempfile.NamedTemporaryFile(suffix=".zip", delete=False) as out:
        gone = BackgroundTask(Path(out.name).unlink, missing_ok=True)
        try:
            with store_of(request).whole() as whole:
                zipped.pack(whole, cast("BinaryIO", out))
        except BaseException:
            Path(out.name).unlink(missing_ok=True)
            raise
    return FileResponse(out.name, media_type="application/zip", filename="yard.zip", background=gone)
