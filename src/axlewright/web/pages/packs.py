"""Frozen packs: a trouble's sheets drawn up and kept, and any of them again by its key."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.web.forms import Typed, form_id, typed
from axlewright.web.page import page, said_day, show_for, store_of
from axlewright.web.pages.ask import now_of
from axlewright.web.pages.sheets import KINDS, file_of, given

router = APIRouter()


@router.post("/trouble/{number:int}/draw-up", include_in_schema=False)
async def draw_up(request: Request, number: int) -> Response:
    """Freeze the sheets of a trouble."""
    return await run_in_threadpool(drawn_up, request, number, await typed(request))


def drawn_up(request: Request, number: int, told: Typed) -> Response:
    now, fields = now_of(told), {"id": form_id(told.one("form")), "trouble": number, "on": request.app.state.today}
    _, change = desk.carry_out(
        store_of(request), lambda yard: desk.draw_up(yard, desk.typed(desk.DrawUp, yard, fields), now)
    )
    return RedirectResponse(f"/pack/{desk.key_in(change)}", 303)


@router.get("/pack/{name}", include_in_schema=False)
def whole(request: Request, name: str) -> Response:
    """A frozen pack: its sheets by name; with an ending all of it as one file."""
    store = store_of(request)
    key, dot, ending = name.partition(".")
    made, yard = desk.pack_kept(store, key), store.read()
    if dot:
        if ending not in KINDS:
            raise HTTPException(404, f"there is no pack {name}")
        return file_of(made, ending, show_for(yard))
    first = made.sheets[0].block
    return page(
        "pack.html",
        "Trouble",
        title=f"Pack {key}",
        key=key,
        corner=first.corner,
        number=first.trouble,
        on=said_day(yard, first.on) if first.on else "",
        sheets=[{"name": one.name, "title": one.block.title} for one in made.sheets],
    )


@router.get("/pack/{key}/{name}", include_in_schema=False)
def one_sheet(request: Request, key: str, name: str) -> Response:
    """One sheet of a frozen pack; with an ending it comes as a file."""
    store = store_of(request)
    return given(desk.pack_kept(store, key), name, show_for(store.read()), request)
