"""When and by whom a deed is done, which roles may do it, and how it reaches a store."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Annotated, Any, Literal, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError, ValidationInfo

from axlewright.quantities.units import parse
from axlewright.store import Store
from axlewright.yard import Answer, Change, Faults, Finding, Moved, Record, Yard, faults_of, mistakes
from axlewright.yard.part import keeps_the_rules
from axlewright.yard.records import Id
from axlewright.yard.rules import NO_PLACE

Role = Literal["owner", "helper", "reader"]
ROLES: dict[str, frozenset[Role]] = {}
"""Who may do what: filled by `may`, read by `allowed`."""
DEEDS: dict[str, Callable[..., Change]] = {}
"""Every deed by its name: what the HTTP interface is made from."""
TRIES = 5
HOUR = 3600.0  # [s]

D = TypeVar("D", bound="Deed")
R = TypeVar("R", bound=Record)
F = TypeVar("F", bound=Callable[..., Change])


@dataclass(frozen=True, slots=True)
class Now:
    """The time (with its offset), who does it, and where new ids come from."""

    at: datetime
    who: str
    new_id: Callable[[], str]

    @classmethod
    def by(cls, who: str = "") -> Now:
        """This moment, by somebody; by the owner where nobody says who."""
        return cls(datetime.now().astimezone(), who or "owner", lambda: uuid.uuid4().hex[:12])

    def after(self, kept: Iterable[datetime | None]) -> datetime:
        """The time that something is kept under: whole seconds, later than all before it, so that the newest is never in doubt."""
        at = self.at.replace(microsecond=0)
        return max([at, *(before + timedelta(seconds=1) for before in kept if before)])


def may(*roles: Role) -> Callable[[F], F]:
    """Declare who may do a deed."""

    def declare(function: F) -> F:
        ROLES[function.__name__] = frozenset(roles)
        DEEDS[function.__name__] = function
        return function

    return declare


def allowed(function: Callable[..., Change], role: Role) -> bool:
    """Whether somebody of this role may do a deed."""
    return role in ROLES.get(function.__name__, frozenset())


def _hours(given: Any, info: ValidationInfo) -> Any:
    """Hours as people type them: 4730, 4 730, 4730,5, 4730 h. A program sends a number."""
    if not isinstance(given, str) or _by_program(info):
        return given
    text = given.strip()
    if not text:
        return None
    decimal = (info.context or {}).get("decimal", ".")
    with_unit = text if text[-1].isalpha() else f"{text} h"
    return round(parse(with_unit, "duration", decimal).si / HOUR, 3)


def _by_program(info: ValidationInfo) -> bool:
    """Whether a program sent it as JSON: what says nothing is left out there, and a number is none in quotes."""
    return bool((info.context or {}).get("json"))


def _blank(given: Any, info: ValidationInfo) -> Any:
    """A field left empty says nothing."""
    return None if isinstance(given, str) and not given.strip() and not _by_program(info) else given


TypedHours = Annotated[Annotated[float, Field(ge=0, le=100_000)] | None, BeforeValidator(_hours)]
Blank = BeforeValidator(_blank)


class Deed(BaseModel):
    """What somebody did, as it was typed. Its id is the form's: sent twice it is done once."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, str_strip_whitespace=True)

    id: Annotated[Id | None, Blank] = None
    on: Annotated[date | None, Blank] = Field(None, examples=["2026-08-28"])

    def day(self, yard: Yard, now: Now) -> date:
        return self.on or yard.today(now.at.date())


def typed(model: type[D], yard: Yard | None, fields: Mapping[str, Any]) -> D:
    """A deed from the fields of a form or a command, as text, with the yard's decimal mark where there is a yard.

    Raises:
        Faults: every field that cannot be read; `where` is the field's name
    """
    try:
        return model.model_validate(fields, context={"decimal": yard.title.decimal if yard else "."})
    except ValidationError as bad:
        raise Faults(*faults_of(bad, model, lambda key: key or "form")) from None


def record(model: type[R], **fields: Any) -> R:
    """A record made from checked parts.

    Raises:
        Faults: a part does not fit
    """
    try:
        return model.model_validate({key: value for key, value in fields.items() if value is not None})
    except ValidationError as bad:
        raise Faults(*faults_of(bad, model, lambda key: key or model.what)) from None


def checked(yard: Yard, new: Collection[Record], now: Now) -> Change:
    """The change that these records make: what is kept already left out, the rules between records kept.

    Raises:
        Faults: every rule that they break; `where` is the field, or for a finding its name
    """
    change = yard.fresh(Change(tuple(new)))
    stored = change.records
    wanted, today = yard.with_(change), now.at.date()
    found = () if keeps_the_rules(yard, wanted, stored, today) else mistakes(wanted, today, _field, only=stored)
    faults = [f for f in dict.fromkeys(found) if f.what != NO_PLACE]  # a store refuses those, a judge does not mind
    if faults:
        raise Faults(*faults)
    return change


def _field(one: Record, key: str) -> str:
    if isinstance(one, Answer):
        return one.name
    return one.finding if isinstance(one, Finding) and key in {"finding", "grade"} else key or one.what


def carry_out(store: Store, deed: Callable[[Yard], Change], seen: int | None = None) -> tuple[Yard, Change]:
    """Read, do, write; when somebody wrote in between, do it again on what stands there now.

    Args:
        store: where the yard is kept
        deed: gives the change; a desk function with what was typed and now bound to it
        seen: the mark of the picture that the person had before them, where that matters: no other will do

    Returns:
        the yard as it stands after it, and what was added

    Raises:
        Moved: the yard is no longer the one that was seen, or does not come to rest; nothing was written
    """
    for _ in range(TRIES):
        yard = store.read()
        if seen is not None and yard.seen != seen:
            raise Moved(seen, yard.seen)
        change = yard.fresh(deed(yard))
        if not change:
            return yard, change
        try:
            store.write(change, yard.seen)
        except Moved as moved:
            last = moved
            continue
        return store.read(), change
    raise last
