"""The Yard: machines from above, every corner one tap away."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import Response
from starlette.requests import Request

from axlewright.plan.pack import pack
from axlewright.plan.sheet.yard import yard_sheet
from axlewright.render import html
from axlewright.web.page import day, page, show_for, store_of

router = APIRouter()


@router.get("/yard", include_in_schema=False)
def yard(request: Request) -> Response:
    """The whole yard today."""
    found = store_of(request).read()
    made = pack(yard_sheet(found, day(request, found)))
    return page(
        "sheet_page.html", "Yard", title="Yard", body=html.body(made.sheets[0], made, show_for(found)), files=()
    )
