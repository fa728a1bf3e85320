"""What a person does, for programs: one operation for each deed of the desk, made from the deed itself.

POST /api/deed/settle with {"id": "...", "trouble": 6, "course": "fit a spare"}. The body is the deed's own model; who may do
it is declared at the deed; what it raises is what went wrong. A new deed of the desk is an operation without a line here.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, get_type_hints

from fastapi import APIRouter, Header, Query
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel
from pydantic.json_schema import models_json_schema
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from axlewright import desk
from axlewright.desk.now import DEEDS
from axlewright.store import Store
from axlewright.web.api import bodies, files, problems, shapes
from axlewright.web.guard import MOST_BYTES, who_asks
from axlewright.web.page import store_of
from axlewright.yard import Change, Fault, Faults, Moved, Trouble, Yard

HOME = "/api/deed"
SENT = "Sent"  # before the name of a model as it is sent: as it is answered it has all its fields
WRONG = (400, 403, 409, 412, 413, 422)
ANOTHER_WAY = {"take_back": "it takes back what the store has as the last change"}
"""Deeds that are no yard, what was done, now, and at most a file: each has its own lines below."""
MOST_FILE = 20_000_000  # bytes of a file that a deed takes in

IfMatch = Annotated[
    str | None,
    Header(alias="If-Match", description="the ETag of the yard that you saw: nothing is written to another"),
]
Who = Annotated[str | None, Header(alias="Who", description="who does it; letters outside ASCII percent-encoded")]
Preview = Annotated[Literal["yes", "no"], Query(description="yes: say what would be kept, and write nothing")]
router = APIRouter(prefix=HOME, tags=["deeds"])


@dataclass(frozen=True, slots=True)
class Operation:
    """A deed as an operation. One that takes a file has it as its body, and what is said of it in the address."""

    name: str
    does: Callable[..., Change]
    takes: type[BaseModel]
    file: bool = False

    @property
    def address(self) -> str:
        return self.name.replace("_", "-")

    @property
    def words(self) -> str:
        """What it does, and what it refuses, as the deed says it."""
        text = inspect.getdoc(self.does) or ""
        return text.replace("Raises:\n    Faults: ", "Refused: ").replace("Raises:\n    ", "Refused: ")

    @property
    def title(self) -> str:
        return self.words.partition("\n")[0].rstrip(".")


@dataclass(frozen=True, slots=True)
class Doing:
    """A deed with what was sent bound to it, and the trouble that was named in it."""

    does: Callable[[Yard], Change]
    trouble: int | None = None
    given: str | None = None

    def meant(self, yard: Yard) -> int | None:
        """The trouble that was named, or that the same deed belonged to when it was sent before."""
        if self.trouble is not None or self.given is None:
            return self.trouble
        opened = (one.number for one in yard.troubles if one.id == self.given)
        seen = (one.trouble for one in yard.findings if one.id.startswith(f"{self.given}-"))
        return next(opened, next(seen, None))


@cache
def operations() -> tuple[Operation, ...]:
    """Every deed of the desk that takes a yard, what was done, now, and perhaps a file."""
    for module in pkgutil.iter_modules(desk.__path__, "axlewright.desk."):
        importlib.import_module(module.name)
    found = []
    for name, function in sorted(DEEDS.items()):
        if name in ANOTHER_WAY:
            continue
        takes = list(inspect.signature(function).parameters)
        found.append(Operation(name, function, get_type_hints(function)[takes[1]], takes[3:] == ["data"]))
    return tuple(found)


def add_routes() -> None:
    """One address for each."""
    for one in operations():
        router.add_api_route(
            f"/{one.address}",
            _with_file(one) if one.file else _endpoint(one),
            methods=["POST"],
            operation_id=one.address,
            summary=one.title,
            description=one.words,
            responses=answers(),
            openapi_extra=files.described(one.takes, SENT) if one.file else _body(one),
        )


def answers() -> dict[int | str, dict[str, Any]]:
    found: dict[int | str, dict[str, Any]] = {
        200: {"model": shapes.done(), "description": "nothing new: it was kept before, or is a preview"},
        201: {"model": shapes.done(), "description": "kept"},
    }
    return found | problems.told(*WRONG)


def _body(one: Operation) -> dict[str, Any]:
    schema = {"$ref": f"#/components/schemas/{SENT}{one.takes.__name__}"}
    return {"requestBody": {"required": True, "content": {"application/json": {"schema": schema, "example": example(one.takes)}}}}  # fmt: skip


SELDOM = ("on", "about", "new_clock", "part", "photo", "corrects")


def example(model: type[BaseModel]) -> dict[str, Any]:
    """The examples that the fields of a deed carry; where a field has none it is left out, if it may be."""
    found: dict[str, Any] = {}
    for name, field in model.model_fields.items():
        if field.examples and (field.is_required() or name not in SELDOM):
            found[name] = field.examples[0]
    return found | EXAMPLES.get(model.__name__, {})


EXAMPLES: dict[str, dict[str, Any]] = {
    "Seen": {"corner": "bramble/front-left", "marks": [{"finding": "plug", "grade": "paste"}], "hours": 2650},
    "Answers": {"trouble": 3, "values": {"bolts/count": "10"}, "basis": "measured"},
    "WalkedRound": {"trouble": 3, "values": {"header": "off"}},
    "Take": {"trouble": 3, "values": {"crib-settle": "1 mm"}},
    "TypeBack": {"trouble": 3, "revision": "C", "values": {"crib-settle": "1 mm"}, "up_to": 28},
    "LookAfter": {"trouble": 3, "look": "wheel-nuts", "found": {"nuts": "still"}, "hours": 2650},
}
"""What has no example of its own in its model, or one that does not hang together."""


def _endpoint(one: Operation) -> Callable[..., Any]:
    async def do(request: Request, preview: Preview = "no", if_match: IfMatch = None, who: Who = None) -> Response:
        body = await bodies.body_of(request, MOST_BYTES)
        return await run_in_threadpool(_done, request, one, body, preview == "yes", if_match)

    return do


def _with_file(one: Operation) -> Callable[..., Any]:
    async def do(request: Request, preview: Preview = "no", if_match: IfMatch = None, who: Who = None) -> Response:
        data = await bodies.body_of(request, MOST_FILE)
        return await run_in_threadpool(_done, request, one, data, preview == "yes", if_match)

    return do


def _done(request: Request, one: Operation, body: bytes, preview: bool, if_match: str | None) -> Response:
    today = request.app.state.today

    def deed(now: desk.Now) -> Doing:
        yard = store_of(request).read()
        said = files.read(one.takes, request, yard) if one.file else bodies.read(one.takes, body, yard)
        if today and getattr(said, "on", today) is None:  # a day that nobody said is the one taken as today
            said = said.model_copy(update={"on": today})
        file = (body,) if one.file else ()
        return Doing(
            lambda standing: one.does(standing, said, now, *file),
            getattr(said, "trouble", None),
            getattr(said, "id", None),
        )

    return carried_out(request, one.does, deed, preview, if_match)


def carried_out(
    request: Request,
    function: Callable[..., Change],
    deed: Callable[[desk.Now], Doing],
    preview: bool,
    if_match: str | None,
) -> Response:
    """Do it, and say what came of it; or what went wrong."""
    who, role = who_asks(request)
    name = function.__name__.replace("_", "-")
    if not desk.allowed(function, role):
        return problems.problem(403, Fault("who", f"{who} may not do this: {role}.", "Ask the owner of the yard."))
    store, now = store_of(request), desk.Now.by(who)
    try:
        doing, seen = deed(now), _seen(if_match)
        do = doing.does
        yard = store.read()
        if seen is not None and seen != yard.seen:
            change = _kept_before(do, yard, seen)
        elif preview:
            change = yard.fresh(do(yard))
        else:
            yard, change = desk.carry_out(store, do, seen)
    except bodies.Unread as bad:
        return problems.problem(400, bad.fault)
    except Moved as moved:
        return problems.of(moved) if if_match is None else _stale(moved)
    except Faults as bad:
        return problems.of(bad, deed=True)
    after = yard.with_(change) if preview else yard
    said = done(name, change, after, preview, doing.meant(after))
    return JSONResponse(said, 201 if change.records and not preview else 200, headers=marked(yard))


def _kept_before(do: Callable[[Yard], Change], yard: Yard, seen: int) -> Change:
    """Nothing, where all of it was kept by this same id before: that is answered as done (RFC 9110, 13.1.1).

    Raises:
        Moved: it was not
    """
    try:
        change = yard.fresh(do(yard))
    except Faults:
        raise Moved(seen, yard.seen) from None
    if change.records:
        raise Moved(seen, yard.seen)
    return change


def _seen(if_match: str | None) -> int | None:
    """The mark that If-Match names; one that was never ours fits no yard."""
    if if_match is None or if_match.strip() == "*":
        return None
    plain = if_match.strip().removeprefix("W/").strip('"')
    return int(plain) if plain.isascii() and plain.isdigit() and len(plain) < 20 else -1


def _stale(moved: Moved) -> JSONResponse:
    right = "Read the yard again, look whether it still holds, then send it with the new ETag."
    what = "The yard is no longer the one that you saw. Nothing was written."
    return problems.problem(412, Fault("If-Match", what, right), headers={"ETag": f'"{moved.now}"'})


def marked(yard: Yard) -> dict[str, str]:
    """The mark of a yard as an ETag; never kept without asking again."""
    return {"ETag": f'"{yard.seen}"', "Cache-Control": "no-cache"}


def done(name: str, change: Change, after: Yard, preview: bool, meant: int | None = None) -> dict[str, Any]:
    """What a deed has changed."""
    numbers = [one.number if isinstance(one, Trouble) else getattr(one, "trouble", None) for one in change.records]
    trouble = next((number for number in numbers if number is not None), meant)
    packs = [one.name for one in change.beside if one.name.startswith("packs/")]
    return {
        "deed": name,
        "kept": [{"what": one.what, "record": one.model_dump(mode="json")} for one in change.records],
        "files": [one.name for one in change.beside],
        "preview": preview,
        "trouble": trouble,
        "stage": after.stage(trouble) if trouble is not None else None,
        "pack": packs[0][6:22] if packs else None,
        "mark": after.seen,
    }


@router.post(
    "/take-back",
    operation_id="take-back",
    summary="Take the last change back",
    responses=answers(),
)
async def take_back(request: Request, preview: Preview = "no", if_match: IfMatch = None, who: Who = None) -> Response:
    """What the last change brought counts no longer, what it replaced stands as before. Nothing is wiped out.

    Taken back again, it counts once more. Refused: nothing was changed yet, or something rests on it.
    """
    store: Store = store_of(request)

    def deed(now: desk.Now) -> Doing:
        return Doing(lambda standing: desk.take_back(standing, store.last(), now))

    return await run_in_threadpool(carried_out, request, desk.take_back, deed, preview == "yes", if_match)


def components() -> dict[str, Any]:
    """The schemas of all bodies."""
    models = list(dict.fromkeys(one.takes for one in operations() if not one.file))
    made = models_json_schema(
        [(model, "validation") for model in models], ref_template=f"#/components/schemas/{SENT}{{model}}"
    )[1].get("$defs", {})
    return {f"{SENT}{name}": schema for name, schema in made.items()}
