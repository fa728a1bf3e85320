"""One look at a trouble: how it is done, a picture of each grade to choose by; what was seen is kept, and what it moved is shown."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright import desk
from axlewright.desk.pictures import photo_of
from axlewright.plan.sheet.revisions import corner_words
from axlewright.trade.findings import Finding as Row
from axlewright.trade.findings import findings
from axlewright.web.forms import Typed, by_field, form_id, with_photo
from axlewright.web.making import begin
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages.in_hand import known, now_of, remembered
from axlewright.web.question import UNSEEN, faulty, left_out, question, written_since
from axlewright.yard import Beside, Change, Fault, Faults, Trouble, Yard

router = APIRouter()
PLAIN = ("clock", "which", "who", "note", "photo", "corrects", "grade")


@router.get("/trouble/{number:int}/look/{finding}", include_in_schema=False)
def look(request: Request, number: int, finding: str) -> Response:
    """The page of one look."""
    yard = store_of(request).read()
    given = Typed({"corrects": (request.query_params.get("corrects", ""),)})
    return shown(request, yard, yard.trouble(number), row_of(finding), given)


@router.post("/trouble/{number:int}/look/{finding}", include_in_schema=False)
async def tell(request: Request, number: int, finding: str) -> Response:
    """Keep what a look showed."""
    given, photo = await with_photo(request)
    return await run_in_threadpool(looked, request, number, row_of(finding), given, photo)


def row_of(finding: str) -> Row:
    found = findings().get(finding)
    if found is None:
        raise HTTPException(404, f"there is no look at {finding}")
    return found


def looked(request: Request, number: int, row: Row, given: Typed, photo: bytes) -> Response:
    store, form = store_of(request), form_id(given.one("form"))
    given = given.having("form", form)
    yard = store.read()
    one = yard.trouble(number)
    told = tuple(grade for grade in given.all("grade") if grade not in UNSEEN)
    if not told and not photo and not given.one("note"):
        return RedirectResponse(f"/trouble/{number}?not={','.join((*left_out(given.one('not')), row.id))}", 303)
    try:
        if not told:
            raise Faults(
                Fault("grade", "What does it show?", "Choose the picture that comes nearest; in doubt the worse.")
            )
        if written := written_since(yard, number, given.one("seen"), form):
            return shown(request, yard, one, row, given, written=written, status=409)
        beside = (photo_of(photo),) if photo else ()
        name = beside[0].name.removeprefix("photos/") if beside else ""
        deed, now = deed_of(yard, one, row, told, given, name, request.app.state.today), now_of(request, given)
        desk.carry_out(store, lambda standing: with_photo_beside(deed(standing, now), beside))
    except Faults as bad:
        faults = by_field(bad.faults, PLAIN, "grade", {"hours": "clock", row.id: "grade"})
        if "photo" in faults and not photo:
            faults["photo"] = Fault("photo", faults["photo"].what, "Choose it here.")
        return shown(request, yard, one, row, given, faults, status=400)
    after = store.read()
    begin(after, after.trouble(number), day(request, after))
    return known(RedirectResponse(f"/trouble/{number}?moved={form}", 303), given)


def deed_of(
    yard: Yard, one: Trouble, row: Row, told: tuple[str, ...], given: Typed, photo: str, on: date | None
) -> Callable[[Yard, desk.Now], Change]:
    """What is to be done: a look of its own, or one that was written before put right."""
    clock = given.one("take") or given.one("clock")
    plain = {
        "id": form_id(given.one("form")),
        "corner": str(one.corner),
        "hours": clock or None,
        "clock": given.one("which") or None if clock else None,
        "on": on,
    }
    if given.one("corrects"):
        if len(told) > 1:
            raise Faults(Fault("grade", "One look is put right by one grade.", "Tick one, write the others as a look."))
        fields = {
            **plain,
            "corrects": given.one("corrects"),
            "grade": told[0],
            "photo": photo,
            "note": given.one("note"),
        }
        fields |= {"on": None, "corner": None}  # it keeps its day and its place
        correction = desk.typed(desk.Correction, yard, fields)
        return lambda standing, now: desk.correct_finding(standing, correction, now)
    marks = [{"finding": row.id, "grade": grade, "note": given.one("note"), "photo": photo} for grade in told]
    seen = desk.typed(desk.Seen, yard, {**plain, "trouble": one.number, "marks": marks})
    return lambda standing, now: desk.add_findings(standing, seen, now)


def with_photo_beside(change: Change, photo: tuple[Beside, ...]) -> Change:
    """The photo is kept with the finding that it shows, or not at all."""
    return Change(change.records, (*change.beside, *photo)) if change.records else change


def shown(
    request: Request,
    yard: Yard,
    one: Trouble,
    row: Row,
    given: Typed,
    faults: Mapping[str, Fault] | None = None,
    written: tuple[str, ...] = (),
    status: int = 200,
) -> Response:
    """The page, with what was typed if it could not be kept."""
    who = remembered(request, "who")
    return page(
        "look.html",
        "Trouble",
        status=status,
        title=f"{row.name[0].upper()}{row.name[1:]}, trouble {one.number}",
        number=one.number,
        where=corner_words(yard, one.corner),
        q=question(yard, one, row, given, day(request, yard), show_for(yard), who),
        written=written,
        **faulty(faults or {}),
    )
