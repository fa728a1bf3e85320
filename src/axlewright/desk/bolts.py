"""The flange bolts of a trouble were looked at."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import Field, ValidationError

from axlewright.desk.now import Deed, Now, checked, may
from axlewright.yard import Bolts, Change, Faults, Yard, faults_of
from axlewright.yard.records import Line

LISTS = ("in_bushes", "reached")
BOOK = ("book_torque",)


class LookedAtBolts(Deed):
    """What was looked at of the bolts, field by field as typed; what is left out stays as it was."""

    trouble: int = Field(ge=1, examples=[3])
    values: Mapping[str, Line]


@may("owner", "helper")
def look_at_bolts(yard: Yard, deed: LookedAtBolts, now: Now) -> Change:
    """Keep what was looked at of a trouble's flange bolts.

    Raises:
        Faults: no such trouble; a field that there is not, or that cannot be read; all of them at once
    """
    trouble = yard.trouble(deed.trouble)
    before = trouble.bolts.model_dump(exclude_defaults=True) if trouble.bolts else {}
    try:
        looked = Bolts.model_validate({**before, **{name: _as_kept(name, text) for name, text in deed.values.items()}})
    except ValidationError as bad:
        raise Faults(*faults_of(bad, Bolts, lambda key: f"bolts.{key}" if key else "bolts")) from None
    if looked == trouble.bolts:
        return Change()
    return checked(yard, (trouble.model_copy(update={"bolts": looked}),), now)


def _as_kept(name: str, text: str) -> object:
    """A typed word as the record has it: numbers of bolts by commas, the book's torque as the book's."""
    if name in LISTS:
        return [part.strip() for part in text.replace(";", ",").split(",") if part.strip()]
    return {"value": text, "basis": "book"} if name in BOOK else text
