"""What others wrote comes in by a page: a file is chosen, looked through, asked about, and only then taken in."""

from __future__ import annotations

import hashlib
from collections import OrderedDict, defaultdict
from threading import Lock
from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.desk import intake
from axlewright.trade.take_in import TABLES
from axlewright.web.forms import Typed
from axlewright.web.page import page, store_of
from axlewright.yard import Fault, Faults, Moved, Yard

router = APIRouter()
MOST_HELD = 4  # files
MOST_SHOWN = 60  # lines of a preview
ASKED = "ask."
PLAIN = ("table", "decimal", "dates", "machine", "drive", "station", "clock")
"""What can be said of a file beside its columns and units."""


class Held:
    """The files that were looked through last, by what stands in them; a file that fell out is chosen again."""

    def __init__(self) -> None:
        self._files: OrderedDict[str, bytes] = OrderedDict()
        self._lock = Lock()

    def hold(self, data: bytes) -> str:
        name = hashlib.sha256(data).hexdigest()
        with self._lock:
            self._files[name] = data
            self._files.move_to_end(name)
            while len(self._files) > MOST_HELD:
                self._files.popitem(last=False)
        return name

    def get(self, name: str) -> bytes | None:
        with self._lock:
            return self._files.get(name)


HELD = Held()


@router.get("/take-in", include_in_schema=False)
def asked(request: Request, kept: str = "") -> Response:
    """Choose a file; or what was just taken in."""
    store = store_of(request)
    made = store.last() if kept else None
    return shown(store.read(), Typed(), kept=desk.told(made) if made else "")


@router.post("/take-in", include_in_schema=False)
async def sent(request: Request) -> Response:
    """Look a file through, or take in one that was looked through."""
    async with request.form(max_files=1, max_fields=200) as form:
        fields: dict[str, list[str]] = defaultdict(list)
        for key, value in form.multi_items():
            if isinstance(value, str):
                fields[key].append(value)
        file = form.get("file")
        data, name = b"", ""
        if file is not None and not isinstance(file, str):
            data, name = await file.read(intake.MOST_BYTES + 1), file.filename or ""
    given = Typed({key: tuple(values) for key, values in fields.items()})
    if data:
        given = given.having("name", plain_name(name)).having("held", HELD.hold(data)).having("do", "look")
    return await run_in_threadpool(looked, request, given)


def plain_name(name: str) -> str:
    """The name of a file as it is shown and kept: on one line, not too long."""
    return "".join(sign for sign in name.replace("\\", "/").rpartition("/")[2] if sign.isprintable())[-100:] or "file"


def looked(request: Request, given: Typed) -> Response:
    """The preview of a file, or the way on after it was taken in."""
    store = store_of(request)
    yard, now = (
        store.read(),
        desk.Now.by(given.one("who")),
    )
    data = HELD.get(given.one("held")) if given.one("held") else None
    if data is None:
        right = "Choose it again." if given.one("held") else "Choose one first."
        what = "The file is no longer held here." if given.one("held") else "There is no file."
        return shown(yard, given, faults=(Fault("file", what, right),), status=400)
    try:
        deed = deed_of(yard, given)
        found = intake.look_through(yard, deed, now, data)
    except Faults as bad:
        return shown(yard, given, faults=bad.faults, status=400)
    seen = given.one("seen")
    if given.one("do") != "keep" or found.refused() or seen != str(yard.seen):
        return shown(yard, given, found=found, moved=given.one("do") == "keep" and seen != str(yard.seen))
    try:
        desk.carry_out(store, lambda standing: intake.take_in(standing, deed, now, data), yard.seen)
    except Moved:
        return shown(store.read(), given, found=found, moved=True)
    except Faults as bad:
        return shown(yard, given, faults=bad.faults, status=400)
    return RedirectResponse("/take-in?kept=yes", 303)


def deed_of(yard: Yard, given: Typed) -> intake.TakeIn:
    """What was said of the file, from the fields of the form.

    Raises:
        Faults: a field that cannot be read
    """
    parts: dict[str, dict[str, str]] = {"columns": {}, "units": {}}
    for key in given.fields:
        group, _, part = key.removeprefix(ASKED).partition(".")
        if key.startswith(ASKED) and group in parts and part and given.one(key):
            parts[group][part] = given.one(key)
    plain = {key: said for key in PLAIN if (said := given.one(f"{ASKED}{key}"))}
    lines = tuple(int(line) for line in given.all("new_clock") if line.isdecimal() and len(line) < 9)
    leave_out = given.one("leave_out") == "yes"
    fields = {"name": given.one("name") or "file", **plain, **parts, "new_clock": lines, "leave_out": leave_out}
    return desk.typed(intake.TakeIn, yard, fields)


def shown(
    yard: Yard,
    given: Typed,
    *,
    found: intake.Found | None = None,
    faults: tuple[Fault, ...] = (),
    kept: str = "",
    moved: bool = False,
    status: int = 200,
) -> Response:
    """The page: choose a file, and below it what would come of the one that was chosen."""
    asks = [_ask(one, given) for one in found.asks] if found else []
    open_ones = {one["name"] for one in asks}
    said = [(key, given.one(key)) for key in given.fields if key.startswith(ASKED) and key not in open_ones]
    hold = [("held", given.one("held")), ("name", given.one("name")), ("seen", str(yard.seen))]
    return page(
        "take_in.html",
        "Yard",
        status=status,
        title="Take in",
        tables=TABLES,
        who=given.one("who"),
        found=found,
        told=found.told if found else (),
        asks=asks,
        hidden=[*hold, *(one for one in said if one[1])] if found else [],
        wrong=[_wrong(one, given) for one in found.wrong[:MOST_SHOWN]] if found else [],
        comes=found.comes[:MOST_SHOWN] if found else [],
        more=MOST_SHOWN,
        can=found is not None and found.refused() is None,
        leave_out=given.one("leave_out") == "yes",
        faults=faults,
        kept=kept,
        moved=moved,
    )


def _ask(one: intake.Ask, given: Typed) -> dict[str, Any]:
    name = f"{ASKED}{one.name}"
    return {"name": name, "says": one.says, "choices": one.choices, "value": given.one(name)}


def _wrong(one: intake.Wrong, given: Typed) -> dict[str, Any]:
    right = one.right.partition(" If a new clock was fitted then,")[0] if one.new_clock else one.right
    ticked = str(one.line) in given.all("new_clock")
    return {
        "line": one.line,
        "at": one.at,
        "what": one.what,
        "right": right,
        "new_clock": one.new_clock,
        "ticked": ticked,
    }
