"""What a function takes and gives, slot by slot, from its annotations and the words of its docstring."""

from __future__ import annotations

import collections.abc
import dataclasses
import re
import types
import typing
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, Literal

from axlewright.kinds import KINDS, LAST_AXIS, Kind

REQUIRED: Any = object()
WORD = Kind("word", "-")  # one of a few words


class NotAFormula(TypeError):
    """A function that the formulary cannot take, with all that is wrong with it."""


@dataclass(frozen=True, slots=True)
class Named:
    """Marks an argument that a person gives by a name of the trade: `Annotated[Thread, Named("thread", ...)]`."""

    name: str
    read: Callable[[str], Any]
    example: str
    choices: Callable[[], tuple[str, ...]] | None = None  # none: too many to list


@dataclass(frozen=True, slots=True)
class Slot:
    """One argument, or one part of a result.

    A quantity has its kind; anything else a kind of its own, by name. `fields` are the parts of a structure;
    `many` of them may be given, as a tuple; with `axis` as an array.
    """

    name: str
    kind: Kind
    words: str = ""
    default: Any = REQUIRED
    choices: tuple[str, ...] = ()
    form: Literal["quantity", "whole", "word", "named", "structure"] = "quantity"
    type: Any = None
    fields: tuple[Slot, ...] = ()
    many: bool = False
    one: bool = False  # one number, never draws
    axis: bool = False  # an array with one a thing along its last axis

    @property
    def needed(self) -> bool:
        return self.default is REQUIRED

    @property
    def key(self) -> str:
        """Its name as it is typed."""
        return self.name.replace("_", "-")


@dataclass(slots=True)
class Said:
    """What a docstring says: words and bracketed unit of each name, and its paragraphs."""

    title: str = ""
    words: str = ""
    takes: dict[str, tuple[str, str]] = field(default_factory=dict)
    gives: dict[str, tuple[str, str]] = field(default_factory=dict)
    parts: dict[str, str] = field(default_factory=dict)  # Source, Valid, Try
    example: str = ""


_NAMED = re.compile(r"^(\w+)(?:\s*\([^)]*\))?:\s+(.*)$")
_UNIT = re.compile(r"\s*\[([^\[\]]*)\]\s*$")
_HEADINGS = {"Args:": "takes", "Returns:": "gives", "Attributes:": "takes", "Raises:": ""}


def said_by(doc: str) -> Said:
    """Read a docstring in the house's form."""
    lines = doc.expandtabs().strip().splitlines()
    indents = [len(line) - len(line.lstrip()) for line in lines[1:] if line.strip()]
    cut = min(indents, default=0)
    lines = [lines[0], *(line[cut:] for line in lines[1:])] if lines else []
    said = Said(title=lines[0].strip() if lines else "")
    listed: dict[str, tuple[str, str]] | None = None
    part, name = "", ""
    plain: list[str] = []
    for line in lines[1:]:
        stripped = line.strip()
        if stripped.startswith(">>>") or said.example:
            said.example += line + "\n"
            continue
        if stripped in _HEADINGS:
            listed = getattr(said, _HEADINGS[stripped], {})
            part = name = ""
        elif found := re.match(r"^(Source|Valid|Try):\s*(.*)$", line):
            listed, part = None, found[1]
            said.parts[part] = found[2]
        elif listed is not None and line.startswith(" "):
            named = None if line.startswith("     ") else _NAMED.match(stripped)
            name, words = (named[1], named[2]) if named else (name if line.startswith("     ") else "", stripped)
            listed[name] = (f"{listed[name][0]} {words}" if name in listed else words, "")
        elif part and stripped:
            said.parts[part] += " " + stripped
        elif stripped:
            plain.append(stripped)
        else:
            part = ""
    said.words = " ".join(plain)
    for listing in (said.takes, said.gives):
        for key, (words, _) in listing.items():
            unit = _UNIT.search(words)
            listing[key] = (_UNIT.sub("", words), unit[1] if unit else "")
    return said


def slot_of(name: str, hint: Any, words: str, unit: str, default: Any, faults: list[str]) -> Slot | None:
    """The slot of an argument or result; what is wrong with it goes to `faults`."""
    hint, many = _one_of_many(hint)
    made: Slot | None = None
    marks = getattr(hint, "__metadata__", ())
    if kind := next((m for m in marks if isinstance(m, Kind)), None):
        answers = ("yes", "no") if kind.name == "yes-no" else ()
        made = Slot(name, kind, words, default, answers, one=hint.__origin__ is float, axis=LAST_AXIS in marks)
    elif named := next((m for m in marks if isinstance(m, Named)), None):
        choices = named.choices() if named.choices else ()
        made = Slot(name, Kind(named.name, "-"), words, default, choices, "named", named)
    elif typing.get_origin(hint) is Literal:
        made = Slot(name, WORD, words, default, tuple(map(str, typing.get_args(hint))), "word")
    elif hint is bool:
        made = Slot(name, KINDS["yes-no"], words, default, ("yes", "no"))
    elif hint is int:
        made = Slot(name, KINDS["count"], words, default, form="whole")
    elif hint is str:
        made = Slot(name, WORD, words, default, form="word")
    elif dataclasses.is_dataclass(hint) and isinstance(hint, type):
        fields = fields_of(hint, {}, faults)
        return Slot(name, kind_of_structure(hint), words, default, (), "structure", hint, fields, many)
    if made is None:
        faults.append(f"{name or 'the result'} is no quantity kind, word or structure of them: {hint!r}")
        return None
    wanted = made.kind.unit
    if not unit and made.form not in ("word", "named"):
        faults.append(f"{name or 'the result'} has no unit in brackets; it is [{wanted}]")
    elif unit and unit != wanted:
        faults.append(f"{name or 'the result'} is a {made.kind.name} in [{wanted}], its docstring says [{unit}]")
    return dataclasses.replace(made, many=many or made.axis)


def _one_of_many(hint: Any) -> tuple[Any, bool]:
    """What a hint is of, without `| None`, and whether there are many of it."""
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        left = [a for a in typing.get_args(hint) if a is not type(None)]
        if len(left) == 1:
            hint = left[0]
    origin = typing.get_origin(hint)
    if origin in (tuple, list, collections.abc.Sequence):
        args = [a for a in typing.get_args(hint) if a is not Ellipsis]
        if args and all(a == args[0] for a in args):
            return args[0], True
    return hint, False


def kind_of_structure(structure: type) -> Kind:
    """A kind of its own for each structure: two of different type are never taken for one another."""
    return Kind(re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "-", structure.__name__).lower(), "-")


def fields_of(structure: type, said: dict[str, tuple[str, str]], faults: list[str]) -> tuple[Slot, ...]:
    """The parts of a frozen dataclass; units from `said`, else from its own docstring."""
    if not structure.__dataclass_params__.frozen:  # type: ignore[attr-defined]
        faults.append(f"{structure.__name__} is not frozen")
    own = said_by(structure.__doc__ or "").takes
    hints = typing.get_type_hints(structure, include_extras=True)
    slots = []
    for part in dataclasses.fields(structure):
        words, unit = said.get(part.name) or own.get(part.name, ("", ""))
        default = part.default if part.default is not dataclasses.MISSING else REQUIRED
        mine: list[str] = []
        slot = slot_of(part.name, hints[part.name], words, unit, default, mine)
        faults += [f"{structure.__name__}: {fault}" for fault in mine]
        if slot:
            slots.append(slot)
    return tuple(slots)
