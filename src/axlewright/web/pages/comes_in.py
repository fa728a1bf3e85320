"""What is written down in the Yard: a machine that came in, a drive at its corner, a kind of drive."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.render import html
from axlewright.render.show import Show, Words
from axlewright.sheets.figures import machine
from axlewright.sheets.figures.outlines import drawn_as, outline
from axlewright.trade.machines import machine_kinds
from axlewright.web.forms import Typed, by_field, form_id, typed
from axlewright.web.page import page, show_for, store_of
from axlewright.web.pages.ask import GROUPS, OF_A_KIND
from axlewright.yard import Fault, Faults, Yard
from axlewright.yard.records import PLACES

router = APIRouter()
SCALE = 160.0  # of the drawing on which corners are ticked
KNOWN = (
    ("assumed", "guessed"),
    ("measured", "weighed or measured"),
    ("book", "from the book"),
    ("computed", "reckoned"),
)
MACHINE = ("name", "kind", "corners", "clocks", "engine", "threshing", "note", "who")
DRIVE = ("corner", "name", "numbers", "design", "hours", "about", "note", "who")
DESIGN = ("name", "fits", "mass", "oil", "oil_volume", "bolts", "bolt_torque", "known", "source", "note", "who")
SEVERAL = ("corners", "clocks", "fits")


@router.get("/yard/machine", include_in_schema=False)
def machine_asked(request: Request) -> Response:
    """A machine that came in."""
    first = Typed({"corners": ("front-left", "front-right"), "clocks": ("engine",)})
    return machine_form(request, store_of(request).read(), first)


@router.post("/yard/machine", include_in_schema=False)
async def machine_sent(request: Request) -> Response:
    """Write a machine down."""
    return await run_in_threadpool(machine_kept, request, await typed(request))


def machine_kept(request: Request, given: Typed) -> Response:
    def do(yard: Yard, fields: dict[str, Any], now: desk.Now) -> Callable[[Yard], Any]:
        deed = desk.typed(desk.MachineIn, yard, fields)
        return lambda standing: desk.machine_in(standing, deed, now)

    return kept(request, given, MACHINE, do, machine_form)


def machine_form(
    request: Request, yard: Yard, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200
) -> Response:
    show = show_for(yard)
    kinds = [
        {"id": row.id, "words": row.label, "picture": kind_drawn(row.id, show), "on": given.one("kind") == row.id}
        for row in machine_kinds().values()
    ]
    return page(
        "machine_in.html",
        "Yard",
        status=status,
        title="A machine came in",
        kinds=kinds,
        plan=html.picture(plan(), Words(show, {}), "corners")["svg"],
        corners=[{**at, "on": at["id"] in given.all("corners")} for at in ticks()],
        given=given,
        first=not yard.machines,
        form_id=form_id(given.one("form") if faults else ""),
        faults=by_field(faults, MACHINE, "name", {"hours": "engine"}),
    )


def kind_drawn(kind: str, show: Show) -> Markup:
    """A kind from above, small, beside words that say the same; nothing where there is no outline of its sort."""
    if kind not in machine.KINDS and not kind.endswith("combine"):
        return Markup()
    drawing = machine.plan(drawn_as(kind), scale=200.0, labels=False)
    made = str(html.picture(drawing, Words(show, {}), f"kind-{kind}")["svg"])
    return Markup(made.replace('role="img"', 'aria-hidden="true"', 1))


def plan() -> Any:
    return machine.plan("walker-combine", scale=SCALE, labels=False)


def ticks() -> list[dict[str, Any]]:
    """Where the wheels stand in the drawing, in per cent of it."""
    one, drawing = outline("walker-combine"), plan()
    above, _ = machine.room([("walker-combine", False)], SCALE, labels=False)
    made = []
    for place in PLACES:
        (x, y), _, _ = one.wheel(place)
        left = 100 * (drawing.width / 2 + x * 1000 / SCALE) / drawing.width
        top = 100 * (above + y * 1000 / SCALE) / drawing.height
        made.append({"id": place, "says": place.replace("-", " "), "left": round(left, 1), "top": round(top, 1)})
    return made


@router.get("/yard/drive", include_in_schema=False)
def drive_asked(request: Request, corner: str = "") -> Response:
    """A drive that sits at a corner."""
    return drive_form(request, store_of(request).read(), Typed({"corner": (corner,)}))


@router.post("/yard/drive", include_in_schema=False)
async def drive_sent(request: Request) -> Response:
    """Write a drive down."""
    return await run_in_threadpool(drive_kept, request, await typed(request))


def drive_kept(request: Request, given: Typed) -> Response:
    def do(yard: Yard, fields: dict[str, Any], now: desk.Now) -> Callable[[Yard], Any]:
        deed = desk.typed(desk.DriveHere, yard, fields)
        return lambda standing: desk.drive_here(standing, deed, now)

    return kept(request, given, DRIVE, do, drive_form)


def drive_form(
    request: Request, yard: Yard, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200
) -> Response:
    corners = [(str(one), yard.named(one)) for one in yard.corners]
    empty = [one for one in yard.corners if yard.drive_at(one) is None]
    return page(
        "drive_here.html",
        "Yard",
        status=status,
        title="A drive at its corner",
        corners=[
            *(pair for pair in corners if pair[0] in {str(one) for one in empty}),
            *((key, f"{words} (one sits there)") for key, words in corners if key not in {str(one) for one in empty}),
        ],
        designs=[(one.id, one.name) for one in yard.designs],
        given=given,
        form_id=form_id(given.one("form") if faults else ""),
        faults=by_field(faults, DRIVE, "corner", {"sits": "corner"}),
    )


@router.get("/yard/design", include_in_schema=False)
def design_asked(request: Request) -> Response:
    """A kind of drive."""
    return design_form(request, store_of(request).read(), Typed())


@router.post("/yard/design", include_in_schema=False)
async def design_sent(request: Request) -> Response:
    """Write a kind of drive down."""
    return await run_in_threadpool(design_kept, request, await typed(request))


def design_kept(request: Request, given: Typed) -> Response:
    def do(yard: Yard, fields: dict[str, Any], now: desk.Now) -> Callable[[Yard], Any]:
        deed = desk.typed(desk.DesignIn, yard, fields)
        return lambda standing: desk.design_in(standing, deed, now)

    return kept(request, given, DESIGN, do, design_form, "/yard/design")


def design_form(
    request: Request, yard: Yard, given: Typed, faults: tuple[Fault, ...] = (), status: int = 200
) -> Response:
    drives: dict[str, list[tuple[str, str]]] = {}
    for drive in yard.drives:
        drives.setdefault(drive.design or "", []).append((drive.id, drive.name))
    kinds = [
        {
            "id": one.id,
            "name": one.name,
            "says": [
                text.value if hasattr(text, "value") else str(text)
                for text in (one.mass, one.oil, one.oil_volume, one.bolts, one.bolt_torque)
                if text
            ],
            "drives": drives.get(one.id, [])[:12],
            "more": max(len(drives.get(one.id, [])) - 12, 0),
        }
        for one in yard.designs
    ]
    return page(
        "design_in.html",
        "Yard",
        status=status,
        title="A kind of drive",
        kinds=kinds,
        asks=[(group, GROUPS[group]) for group in OF_A_KIND],
        corners=[(str(one), yard.named(one)) for one in yard.corners],
        known=KNOWN,
        given=given,
        form_id=form_id(given.one("form") if faults else ""),
        faults=by_field(faults, DESIGN, "name", {"corner": "fits"}),
    )


def kept(
    request: Request,
    given: Typed,
    names: tuple[str, ...],
    do: Callable[[Yard, dict[str, Any], desk.Now], Callable[[Yard], Any]],
    again: Callable[..., Response],
    to: str = "/yard",
) -> Response:
    """What was written is kept; or the form comes back as it was sent, with what is wrong."""
    store = store_of(request)
    yard = store.read()
    now = desk.Now.by(given.one("who"))
    fields: dict[str, Any] = {
        name: list(given.all(name)) if name in SEVERAL else given.one(name)
        for name in names
        if name in ("name", "corner", *SEVERAL) or (name != "who" and given.one(name))
    }
    fields |= {"id": form_id(given.one("form")), "on": request.app.state.today}
    try:
        desk.carry_out(store, do(yard, fields, now))
    except Faults as bad:
        return again(request, yard, given, bad.faults, 400)
    return RedirectResponse(to, 303)
