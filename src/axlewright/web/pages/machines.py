"""What is printed for a machine: its ready card."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import Response
from starlette.requests import Request

from axlewright.plan.pack import pack
from axlewright.plan.sheet.ready_card import ready_cards
from axlewright.web.page import day, show_for, store_of
from axlewright.web.pages.sheets import given

router = APIRouter()


@router.get("/machine/{machine}/{name}", include_in_schema=False)
def ready_card(request: Request, machine: str, name: str) -> Response:
    """The ready card of a machine; with an ending it comes as a file."""
    yard = store_of(request).read()
    made = pack(ready_cards(yard, yard.machine(machine), day(request, yard)))
    return given(made, name, show_for(yard), request)
