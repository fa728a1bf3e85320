"""How a yard likes its sheets: measures, dates, decimal mark, money, paper."""

from __future__ import annotations

import unicodedata
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from axlewright.desk.now import Blank, Deed, Now, checked, may
from axlewright.yard import Change, Fault, Faults, Yard, mistakes
from axlewright.yard.records import Dates, Line


def _currency(said: str) -> str:
    """A code of ISO 4217 in capitals, or a sign as it was typed."""
    code = said.upper()
    if len(code) == 3 and code.isascii() and code.isalpha():
        return code
    if not 0 < len(said) <= 4 or not all(map(_in_a_sign, said)):
        raise ValueError("A currency is a code of three letters, such as EUR or CAD, or its sign, such as € or kr.")
    return said


def _in_a_sign(letter: str) -> bool:
    kind = unicodedata.category(letter)
    return kind[0] in "LM" or kind == "Sc" or letter == "."


class Likes(Deed):
    """How a yard likes its sheets from now on."""

    name: Annotated[Line, Field(min_length=1)] = Field(examples=["Long Acre"])
    measures: Literal["metric", "us"] = Field(examples=["metric"])
    dates: Annotated[Dates | None, Blank] = Field(None, examples=["day month"])
    decimal: Literal[".", ","] = Field(examples=["."])
    currency: Annotated[Line, AfterValidator(_currency)] = Field(examples=["EUR"])
    paper: Literal["A4", "Letter"] = Field(examples=["A4"])


@may("owner")
def like_so(yard: Yard, deed: Likes, now: Now) -> Change:
    """Keep how the yard likes its sheets. Records stay as they were typed; only how they are shown changes.

    Raises:
        Faults: with the other decimal mark something that is kept already could be read in two ways
    """
    title = yard.title.model_copy(update={**deed.model_dump(exclude={"id", "on"}), "who": now.who, "at": now.after(())})
    if title.model_copy(update={"who": yard.title.who}).body() == yard.title.body():
        return Change()
    change = checked(yard, (title,), now)
    if title.decimal != yard.title.decimal:
        today = now.at.date()
        before = set(mistakes(yard, today))
        new = [fault for fault in mistakes(yard.with_(change), today) if fault not in before]
        if new:
            said = f"{len(new)} value{'s' if len(new) > 1 else ''} in this yard could then be read in two ways."
            raise Faults(Fault("decimal", said, f"First {new[0].where}: {new[0].what}"))
    return change
