"""What stands in the form of a function: as it was typed, with its answer or with all that is wrong."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from axlewright.formulary import Formula, said
from axlewright.formulary.ask import MARK, US_MARK, ask
from axlewright.formulary.call import Answer, Decimal, Value
from axlewright.formulary.ranges import Range
from axlewright.formulary.slots import Slot
from axlewright.quantities import Measures, NotRead
from axlewright.web.forms import on_page
from axlewright.yard import Fault, Faults

OURS = ("measures", "more", "book")  # what a page's form says besides the function's own values


@dataclass(frozen=True)
class Typed:
    """What stands in the form of a function: as it was typed, or a set to try where nothing was."""

    found: Formula
    texts: dict[str, str]
    example: bool
    measures: Measures
    decimal: Decimal
    more: str = ""
    book: str = ""
    faults: tuple[Fault, ...] = ()
    answer: Answer | None = None

    @property
    def given(self) -> dict[str, str]:
        """What was typed, without empty places."""
        return {key: text for key, text in self.texts.items() if text.strip()}

    def wrong(self, key: str) -> Fault | None:
        return next((fault for fault in self.faults if fault.where == key), None)

    def link(self, **changed: str) -> str:
        """The address of this page with what is typed."""
        shown = {"measures": self.measures, "book": self.book, **changed}
        return "?" + urlencode({**({} if self.example else self.given), **{k: v for k, v in shown.items() if v}})


def answered(typed: Typed) -> Typed:
    """With its answer, or with all that is wrong."""
    if typed.example and not typed.texts:
        return typed
    try:
        got = ask(typed.found.name, typed.given, typed.measures, typed.decimal)
    except Faults as bad:
        return replaced(typed, faults=tuple(map(on_page, bad.faults)))
    return replaced(typed, answer=got)


def replaced(typed: Typed, **changed: Any) -> Typed:
    return Typed(**{**vars(typed), **changed})


def measured(typed: Typed) -> dict[str, str]:
    """What a command says of units and decimal mark."""
    out = {}
    if typed.measures == "us":
        out["--measures"] = "us"
    if typed.decimal == ",":
        out["--decimal"] = ","
    return out


def places(typed: Typed) -> set[str]:
    """Where on the page a mistake can stand."""
    return {key for key, _ in said.leaves(typed.found.takes, rows_of(typed))}


def rows_of(typed: Typed) -> dict[str, str]:
    """The texts, with a row more of what was asked for."""
    if not re.fullmatch(r"[a-z0-9.-]{1,80}", typed.more):
        return typed.texts
    count = said.most(typed.texts, typed.more)
    return {**typed.texts, f"{typed.more}.{count + 1}.": ""}


def line(typed: Typed, slot: Slot, key: str, allowed: Range | None = None) -> dict[str, Any]:
    """One place to type, or a structure with its own places."""
    label = {"key": key, "name": said.said_name(slot.key), "words": slot.words}
    if slot.form != "structure":
        return label | field(typed, slot, key, allowed)
    ats = [key]
    if slot.many:
        ats = [f"{key}.{number}" for number in range(1, said.most(rows_of(typed), key) + 1)]
    sets = [[line(typed, part, f"{at}.{part.key}") for part in slot.fields] for at in ats]
    flat = all("sets" not in part for part in sets[0])
    return label | {"sets": sets, "many": slot.many, "abreast": min(len(slot.fields), 3) if flat else 1}


def field(typed: Typed, slot: Slot, key: str, allowed: Range | None) -> dict[str, Any]:
    """A place to type in: what stands in it, what may be chosen, what is wrong with it."""
    text, fault = typed.texts.get(key, ""), typed.wrong(key)
    taken = US_MARK if key == MARK and typed.measures == "us" else said.default_of(slot, typed.decimal)
    chosen, options = text, []
    if slot.choices and not slot.many:
        chosen = meant(slot, text)
        options = [("", taken or "not said")] if not slot.needed or not chosen else []
        options += [(choice, choice) for choice in slot.choices]
        if chosen and chosen not in slot.choices:
            options.append((chosen, chosen))  # what was typed stays, right or wrong
    return {
        "text": chosen,
        "options": options,
        "taken": taken,
        "wrong": fault,
        "span": said.span_of(slot, allowed, typed.measures, typed.decimal) if allowed else "",
        "needed": slot.needed,
    }


def meant(slot: Slot, text: str) -> str:
    """The choice that a typed word stands for; the word itself where it is none."""
    plain = text.strip().casefold().replace("-", " ")
    for choice in slot.choices:
        if plain == choice.casefold().replace("-", " "):
            return choice
    if slot.form == "named" and plain:
        try:
            got = slot.type.read(text)
        except NotRead:
            return text
        return next((str(n) for n in (getattr(got, "label", ""), getattr(got, "id", "")) if n in slot.choices), text)
    return (
        {"y": "yes", "true": "yes", "n": "no", "false": "no"}.get(plain, text) if slot.kind.name == "yes-no" else text
    )


def shown(value: Value, decimal: Decimal) -> dict[str, str]:
    name = said.said_name(said.name_of(value.name))
    return {"name": name, "words": value.words, "says": said.spelled(value, decimal)}
