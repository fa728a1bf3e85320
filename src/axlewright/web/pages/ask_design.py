"""What is asked of a kind of drive, for all drives of it: bearings, flange bolts, sizes."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.trade.questions import Question, in_group
from axlewright.web.forms import Typed, form_id, typed
from axlewright.web.page import store_of
from axlewright.web.pages.ask import GROUPS, OF_A_KIND, asked_page, kept_or, row_of
from axlewright.yard import Change, Design, Fault, Yard

router = APIRouter()


@router.get("/yard/design/{design}/ask/{group}", include_in_schema=False)
def ask(request: Request, design: str, group: str) -> Response:
    """The questions of a group, each with what is known of this kind."""
    yard = store_of(request).read()
    return shown(yard, kind_of(yard, design), known(group), {})


@router.post("/yard/design/{design}/ask/{group}", include_in_schema=False)
async def tell(request: Request, design: str, group: str) -> Response:
    """Keep what was answered of the kind."""
    return await run_in_threadpool(told, request, design, known(group), await typed(request))


def known(group: str) -> str:
    if group not in OF_A_KIND:
        raise HTTPException(404, f"nothing is asked of a kind of drive under {group}")
    return group


def kind_of(yard: Yard, name: str) -> Design:
    found = next((one for one in yard.designs if one.id == name), None)
    if found is None:
        raise HTTPException(404, f"there is no kind of drive {name}")
    return found


def asked_of(group: str) -> tuple[Question, ...]:
    """The questions of a group that are of the kind itself."""
    return tuple(one for one in in_group(group) if one.of == "design")


def told(request: Request, name: str, group: str, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    design = kind_of(yard, name)
    typed_in = {asked.id: given.one(asked.id) for asked in asked_of(group)}
    kept = {name: answer.value for name, answer in yard.answered(design=design.id).items()}
    values = {n: v for n, v in typed_in.items() if v and v != kept.get(n)}
    fields = {
        "id": form_id(given.one("form")),
        "design": design.id,
        "values": values,
        "on": request.app.state.today,
        "basis": given.one("basis"),
        "source": given.one("source"),
    }
    now = desk.Now.by(given.one("who"))

    def deed(standing: Yard) -> Change:
        return desk.answer(standing, desk.typed(desk.Answers, standing, fields), now)

    if faults := kept_or(store, deed, values, typed_in):
        return shown(yard, design, group, typed_in, faults, given, 400)
    return RedirectResponse(f"/yard/design#{design.id}", 303)


def shown(
    yard: Yard,
    design: Design,
    group: str,
    typed_in: Mapping[str, str],
    faults: Mapping[str, Fault] | None = None,
    given: Typed | None = None,
    status: int = 200,
) -> Response:
    """The page of a group."""
    given = given or Typed()
    answers = yard.answered(design=design.id)
    return asked_page(
        "Yard",
        group,
        given,
        faults,
        status,
        title=f"{GROUPS[group]}, {design.name}",
        number=0,
        action=f"/yard/design/{design.id}/ask/{group}",
        design=design.id,
        where=design.name,
        boxes=False,
        rows=[row_of(one, typed_in.get(one.id, ""), answers.get(one.id), False) for one in asked_of(group)],
        open_still=0,
        walked=None,
    )
