"""The Season: what is still to be cut and what a lost day costs; a crop typed anew, the weather of a year."""

from __future__ import annotations

from datetime import date

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.desk.seasons import CutWork, SetSeason, cut_work, set_season, standing
from axlewright.plan.pack import pack
from axlewright.plan.season_of import season_of
from axlewright.plan.sheet.season import season_sheet
from axlewright.render import html
from axlewright.trade.seasons import climates, crops
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages.sheets import as_file
from axlewright.yard import Fault, Faults, Work, Yard

router = APIRouter()
CROP = ("machine", "crop", "area", "done", "starts", "ends", "rate", "hours_a_day", "worth", "hire", "second")
MORE = ("known", "source", "note", "who")
MOST_LINKS = 12
KNOWN = (
    ("assumed", "guessed"),
    ("measured", "measured: mapped, weighed, by the clock"),
    ("book", "from the book or a contract"),
    ("computed", "reckoned by hand"),
)
YEAR = ("season", "climate", "season-note", "season-who")


@router.get("/season", include_in_schema=False)
def season(request: Request, crop: str = "", machine: str = "") -> Response:
    """The season as it lies ahead; with a crop its form is filled with what stands."""
    yard = store_of(request).read()
    return room(request, yard, filled(yard, crop), first=machine)


@router.get("/season.{ending}", include_in_schema=False)
def sheet(request: Request, ending: str) -> Response:
    """The sheet as a file."""
    return as_file(request, ending, season_sheet)


@router.post("/season", include_in_schema=False)
async def write(request: Request) -> Response:
    """Keep a crop, or the weather of a year."""
    return await run_in_threadpool(written, request, await typed(request))


def written(request: Request, given: Typed) -> Response:
    store = store_of(request)
    yard = store.read()
    about_year = given.one("what") == "season"
    who = given.one("season-who" if about_year else "who") or "owner"
    now = desk.Now.by(who)
    said = {"id": form_id(given.one("form")), "on": request.app.state.today}
    try:
        if about_year:
            year = desk.typed(SetSeason, yard, {**said, "season": given.one("season"), "climate": given.one("climate"), "note": given.one("season-note")})  # fmt: skip
            desk.carry_out(store, lambda stands: set_season(stands, year, now))
        else:
            fields = {name: given.one(name) for name in (*CROP, "known", "source", "note", "stands")}
            fields["season"] = given.one("year")
            work = desk.typed(CutWork, yard, {**said, **fields, "known": fields["known"] or "assumed"})
            desk.carry_out(store, lambda stands: cut_work(stands, work, now))
    except Faults as bad:
        moved = any(one.where == "stands" for one in bad.faults)
        return room(request, yard, given, bad.faults, 409 if moved else 400)
    return RedirectResponse("/season#top", 303)  # else the browser stays at the form


def filled(yard: Yard, said: str) -> Typed:
    """The form of a crop that stands, `machine.season.crop`; empty where nobody typed such a one."""
    machine, _, rest = said.partition(".")
    year, _, crop = rest.partition(".")
    work = standing(yard, year, machine, crop)
    return Typed(as_typed(work)) if work else Typed()


def as_typed(work: Work) -> dict[str, tuple[str, ...]]:
    """A crop as it would stand in its form."""
    found = {"stands": work.id, "year": work.season}
    for name in CROP:
        value = getattr(work, name)
        found[name] = "" if value is None else value.isoformat() if isinstance(value, date) else str(getattr(value, "value", value))  # fmt: skip
    return {name: (text,) for name, text in {**found, "note": work.note}.items()}


def room(
    request: Request, yard: Yard, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200, first: str = ""
) -> Response:
    """The room, with the form of a crop and that of a year."""
    today = day(request, yard)
    made = pack(season_sheet(yard, today, first))
    about_year = given.one("what") == "season"
    moved = any(one.where == "stands" for one in faults)
    stands = _standing_now(yard, given) if moved else given.one("stands")
    years = [one.id for one in yard.seasons] or [str(today.year)]
    year = given.one("season") or years[-1]
    kept = next((one for one in yard.seasons if one.id == year), None)
    return page(
        "season.html",
        "Season",
        status=status,
        title="Season",
        body=html.body(made.sheets[0], made, show_for(yard)),
        machines=[(one.id, one.name) for one in yard.machines],
        crops=[(one.id, one.label) for one in crops().values()],
        climates=[(one.id, one.label) for one in climates().values()],
        known=KNOWN,
        typed={name: given.one(name) for name in (*CROP, *MORE)},
        year=year,
        climate=given.one("climate") if about_year else (kept.climate or "" if kept else ""),
        year_note=given.one("season-note") if about_year else (kept.note if kept else ""),
        year_who=given.one("season-who"),
        stands=stands,
        written=_written(yard, today, first),
        work_year=given.one("year"),
        about_year=about_year,
        moved=moved,
        form_id=form_id(given.one("form") if faults and not moved else ""),
        faults=by_field(faults, (*CROP, *MORE, *YEAR, "stands"), "season" if about_year else "crop", {"id": "season", "work": "ends"}),
    )  # fmt: skip


def _standing_now(yard: Yard, given: Typed) -> str:
    """The record that a form sent again would stand in the place of."""
    year = given.one("year") or given.one("starts")[:4]
    work = standing(yard, year, given.one("machine"), given.one("crop"))
    return work.id if work else ""


def _written(yard: Yard, today: date, first: str) -> list[tuple[str, str]]:
    """What is written down already, the machines that are drawn first: its words, and how its form is asked for."""
    found = sorted(season_of(yard, today), key=lambda one: one.machine.id != first)
    works = [(one.machine.name, crop) for one in found for crop in one.crops]
    return [(f"{name}’s {crop.row.label}", f"{crop.work.machine}.{crop.season.id}.{crop.row.id}") for name, crop in works[:MOST_LINKS]]  # fmt: skip
