"""Machine hours as machines send them: ISO 15143-3 (AEMP 2.0), as XML or JSON, a fleet's snapshot or a series in time.

What is asked of a file here is written from memory of the standard and of answers in public use; its own schema was not
at hand. So: a root that is a fleet or a list of messages, equipment with a header and at least one number in it, a time
with its offset, hours as a number or a duration, from 0 to 100 000. What else stands there is left alone.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from axlewright.desk.intake.cells import NotRead, short
from axlewright.desk.intake.csv_table import check_size
from axlewright.desk.intake.found import TakeIn, Wrong
from axlewright.desk.intake.hours import MOST_HOURS, reading
from axlewright.desk.intake.who import Names
from axlewright.desk.now import Now
from axlewright.yard import ClockReading, Fault, Faults, Machine

NAMESPACE = "http://standards.iso.org/iso/15143/-3"
OWN_NUMBERS = ("pin", "serialnumber", "equipmentid")
"""By which a machine is known: its product identification number, serial number, and the owner's own."""
HOURS = "cumulativeoperatinghours"
MOST_MACHINES = 20_000
DEPTH = 50

_DURATION = re.compile(r"P(?:(\d+(?:\.\d+)?)D)?(?:T(?:(\d+(?:\.\d+)?)H)?(?:(\d+(?:\.\d+)?)M)?(?:(\d+(?:\.\d+)?)S)?)?")
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class Heard:
    """Hours that a machine sent: its numbers, when, how many; `number` counts the readings of a file, from 1."""

    number: int
    numbers: tuple[str, ...]
    called: str
    when: datetime
    hours: float


@dataclass(frozen=True, slots=True)
class Answer:
    """One file or page of a portal: its readings and mistakes, and the address of the next page."""

    rows: tuple[Heard | Wrong, ...]
    next: str
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Node:
    """An element of XML or an object of JSON, by names in small letters without namespace."""

    name: str
    text: str
    parts: tuple[Node, ...]

    def all(self, name: str) -> Iterator[Node]:
        return (part for part in self.parts if part.name == name)

    def one(self, name: str) -> str:
        return next((part.text for part in self.all(name) if part.text), "")


def is_one(name: str, data: bytes) -> bool:
    """Whether a file is of this kind, by its ending or by how it begins."""
    begins = data[:200].lstrip(b"\xef\xbb\xbf \t\r\n")[:1]
    return name.lower().endswith((".xml", ".json")) or begins in (b"<", b"{")


def read(data: bytes, from_number: int = 1) -> Answer:
    """The readings of a file.

    Raises:
        Faults: it is no such file at all
    """
    check_size("file", len(data))
    root, odd = _root(data)
    rows = tuple(_rows(root, from_number))
    machines = sum(part.name == "equipment" for part in root.parts)
    told = ["Read as ISO 15143-3, from memory of it."]
    if odd:
        told.append(f"Its namespace is {odd}, not {NAMESPACE}.")
    if machines:
        told.append(f"Machines: {machines}; readings of hours: {len(rows)}.")
    return Answer(rows, _next(root), tuple(told))


def _root(data: bytes) -> tuple[Node, str]:
    begins = data.lstrip(b"\xef\xbb\xbf \t\r\n")[:1]
    root, odd = _of_xml(data) if begins == b"<" else (_of_json(data), "")
    if root.name == "html":
        right = "Look at the address: a page for people answered, perhaps one to sign in."
        raise Faults(Fault("file", "This is a web page, not an answer of ISO 15143-3.", right))
    if root.name == "fleet" or root.name.endswith("messages") or any(root.all("equipment")) or any(root.all(HOURS)):
        return root, odd
    right = "It begins with Fleet, or with CumulativeOperatingHoursMessages."
    raise Faults(Fault("file", f"{root.name or 'This'} is no answer of ISO 15143-3.", right))


def _of_xml(data: bytes) -> tuple[Node, str]:
    from xml.etree.ElementTree import ParseError

    from defusedxml.common import DefusedXmlException
    from defusedxml.ElementTree import fromstring

    if re.match(rb"(?is)[\s\xef\xbb\xbf]*(<!doctype\s+html|<html)", data):
        return Node("html", "", ()), ""
    try:
        root = fromstring(data, forbid_dtd=True)
    except DefusedXmlException:
        right = "Ask the portal for a plain answer of ISO 15143-3."
        raise Faults(
            Fault("file", "It declares entities or a document type, which no such answer needs.", right)
        ) from None
    except (ParseError, ValueError, LookupError) as bad:
        line = getattr(bad, "position", (1, 0))[0]
        right = "It may have been cut off on its way: fetch it again."
        raise Faults(Fault(f"line {line}", "This cannot be read as XML.", right)) from None
    space = root.tag[1:].partition("}")[0] if root.tag.startswith("{") else ""
    odd = "" if space == NAMESPACE else space or "none"
    return _node(root, 0), odd


def _node(element: Any, depth: int) -> Node:
    if depth > DEPTH:
        raise Faults(Fault("file", "It is nested too deeply.", ""))
    inside = tuple(_node(one, depth + 1) for one in element if isinstance(one.tag, str))
    said = tuple(Node(_local(key), value.strip(), ()) for key, value in element.attrib.items())
    return Node(_local(element.tag), (element.text or "").strip(), (*said, *inside))


def _local(tag: str) -> str:
    return tag.rpartition("}")[2].casefold()


def _of_json(data: bytes) -> Node:
    try:
        got = json.loads(data.decode("utf-8-sig"))
        root = Node("", "", tuple(_of_value("", got, 0)))
    except (UnicodeDecodeError, ValueError, RecursionError):
        right = "It may have been cut off on its way: fetch it again."
        raise Faults(Fault("file", "This cannot be read as XML or JSON.", right)) from None
    inner = root.parts[0] if root.parts else root
    fleets = list(inner.all("fleet"))
    return fleets[0] if fleets else Node(inner.name or "fleet" if any(inner.all("equipment")) else "", "", inner.parts)


def _of_value(name: str, value: Any, depth: int) -> Iterator[Node]:
    """A list is as many parts of one name."""
    if depth > DEPTH:
        raise ValueError("nested too deeply")
    if isinstance(value, Mapping):
        inside = (part for key, one in value.items() for part in _of_value(str(key).casefold(), one, depth + 1))
        yield Node(name, "", tuple(inside))
    elif isinstance(value, list):
        for one in value:
            yield from _of_value(name, one, depth + 1)
    else:
        yield Node(name, "" if value is None else str(value).strip(), ())


def _rows(root: Node, number: int) -> Iterator[Heard | Wrong]:
    holders = list(root.all("equipment")) or [root]
    if len(holders) > MOST_MACHINES:
        raise Faults(Fault("file", f"It has over {MOST_MACHINES:,} machines.", "Ask for fewer."))
    for count, holder in enumerate(holders, 1):
        header = next(holder.all("equipmentheader"), None) or next(root.all("equipmentheader"), None)
        numbers = tuple(dict.fromkeys(one for key in OWN_NUMBERS if header and (one := header.one(key))))
        called = " ".join(one for key in ("oemname", "model") if header and (one := header.one(key)))
        if holder is not root and not numbers:
            what = f"Machine {count} of the file has no PIN, serial number or equipment id."
            yield Wrong(number, "EquipmentHeader", what, "Ask the portal for it, or leave this machine out.")
            number += 1
            continue
        for hours in holder.all(HOURS):
            if hours.parts or hours.text:  # an empty one says nothing
                yield _heard(number, hours, numbers, called)
                number += 1


def _heard(number: int, said: Node, numbers: tuple[str, ...], called: str) -> Heard | Wrong:
    at = f"CumulativeOperatingHours of {numbers[0] if numbers else 'the machine'}"
    try:
        return Heard(number, numbers, called, _when(said.one("datetime")), _hours(said.one("hour") or said.text))
    except NotRead as bad:
        return Wrong(number, at, bad.what, bad.right)


def _when(text: str) -> datetime:
    example = "It has its time with the offset: 2026-08-28T06:00:00Z."
    if not text:
        raise NotRead("It does not say when.", example)
    cut = re.sub(r"(\.\d{1,6})\d*", r"\1", text.strip().upper().replace("Z", "+00:00"))
    try:
        when = datetime.fromisoformat(cut)
    except ValueError:
        raise NotRead(f"{short(text)} is no time.", example) from None
    if when.tzinfo is None:
        raise NotRead(f"{short(text)} has no offset.", example)
    if when.year < 1980:
        raise NotRead(f"{short(text)} is before there was any telematics.", "The machine has never sent its hours.")
    return when


def _hours(text: str) -> float:
    """Hours as a plain number, or as a duration of ISO 8601."""
    said = text.strip().upper()
    if not said:
        raise NotRead("It does not say how many hours.", "It has an element Hour: 3370.5 or PT3370H30M.")
    found = _DURATION.fullmatch(said) if said != "P" else None
    if _NUMBER.fullmatch(said):
        hours = float(said)
    elif found and any(found.groups()):
        days, hour, minute, second = (float(part or 0) for part in found.groups())
        hours = days * 24 + hour + minute / 60 + second / 3600
    else:
        raise NotRead(
            f"{short(text)} is no number of hours.", "It is a number with a point, or a duration: PT3370H30M."
        )
    if not math.isfinite(hours) or hours > MOST_HOURS:
        raise NotRead(f"No clock reads {short(text)} h.", f"The most is {MOST_HOURS:,.0f}.")
    return hours


def _next(root: Node) -> str:
    """The address of the next page, by the links of a page."""
    return next((link.one("href") for link in root.all("links") if link.one("rel").casefold() == "next"), "")


def readings(
    heard: Iterable[Heard | Wrong], names: Names, deed: TakeIn, now: Now
) -> tuple[list[tuple[int, ClockReading]], list[Wrong]]:
    """What was heard as readings of the engine's clock, on the day that it was where the yard is."""
    good: list[tuple[int, ClockReading]] = []
    wrong: list[Wrong] = []
    for one in heard:
        if isinstance(one, Wrong):
            wrong.append(one)
            continue
        try:
            machine = _machine(one, names, deed)
        except NotRead as bad:
            wrong.append(Wrong(one.number, "EquipmentHeader", bad.what, bad.right))
            continue
        on = one.when.astimezone(now.at.tzinfo).date()
        if "engine" not in machine.clocks:
            what = f"{machine.name} has no engine clock; a machine sends the hours of its engine."
            wrong.append(Wrong(one.number, "", what, "Write the engine's clock into its file, or leave it out."))
            continue
        good.append(
            (
                one.number,
                reading(machine, on, one.hours, "engine", now, of=deed.name, new_clock=one.number in deed.new_clock),
            )
        )
    return good, wrong


def _machine(heard: Heard, names: Names, deed: TakeIn) -> Machine:
    """The machine by the numbers that are typed on it; two of them may not lead to two machines."""
    if not heard.numbers:
        if not deed.machine:
            right = "Say --machine NAME: a series of one machine does not name it."
            raise NotRead("It does not say which machine sent this.", right)
        return names.machine(deed.machine)
    found: dict[str, Machine] = {}
    first: NotRead | None = None
    for number in heard.numbers:
        try:
            machine = names.machine(number)
            found[machine.id] = machine
        except NotRead as bad:
            first = first or bad
    if len(found) > 1:
        said = ", ".join(heard.numbers)
        raise NotRead(
            f"The numbers {said} are those of {' and '.join(sorted(found))}.", "Put the numbers of the machines right."
        )
    if found:
        return next(iter(found.values()))
    assert first is not None
    if first.what.startswith("No machine"):
        said = " or ".join(heard.numbers)
        right = f'Write the number into its file, numbers = ["{heard.numbers[0]}"], or leave it out.'
        raise NotRead(
            f"No machine in this yard has the number {said}{f' ({heard.called})' if heard.called else ''}.", right
        )
    raise first
