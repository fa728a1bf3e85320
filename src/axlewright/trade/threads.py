"""Thread designations as people type them, and the threads that are mistaken for one another."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from axlewright.engines.joints import limits_of_size, threads
from axlewright.engines.joints.limits_of_size import LimitsOfSize
from axlewright.quantities.numbers import Doubt, read_number
from axlewright.quantities.units import NotRead
from axlewright.trade.rows import Row, rows

System = Literal["metric", "inch"]
Known = Literal["read", "memory", "practice", "assumed"]
INCH = 0.0254  # m
EXAMPLE = "a thread, such as M20, M20x1.5, 3/4-10 UNC or 1 1/8-7"
SAME = 1e-6  # m: two designations of one size
ALIKE_PITCH = 0.03  # pitches that run into one another for some turns
ALIKE_DEPTH = 0.6  # of the pitch: a bolt so much smaller still catches the flanks

_METRIC = re.compile(
    r"M\s*(?P<size>\d[\d.,]*)(?:\s*[xX×*]\s*(?P<pitch>\d[\d.,]*))?(?:\s*-?\s*\d[a-hA-H](?:\d[a-hA-H])?)?(?:\s*-?\s*LH)?",
    re.IGNORECASE,
)
_INCH = re.compile(
    r"(?P<size>\d+\s+\d+/\d+|\d+-\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+)\s*(?:\"|″|in\b)?\s*-\s*(?P<count>\d+(?:[.,]\d+)?)"
    r"(?:\s*-?\s*(?P<series>UNC|UNF|UNEF|UNS|UN|UNR|UNRC|UNRF|NC|NF))?(?:\s*-?\s*[123][ABab])?(?:\s*-?\s*LH)?",
    re.IGNORECASE,
)


class Series(Row):
    """Standard threads of one series."""

    id: str
    system: System
    tolerance_length: Literal["diameter", "nine pitches", ""] = ""
    pairs: tuple[tuple[str, float], ...]
    known: Known

    def sizes(self) -> tuple[tuple[float, float], ...]:
        """Diameters and pitches [m]."""
        return tuple(
            (_size(size) * INCH, INCH / count) if self.system == "inch" else (_size(size) / 1000, count / 1000)
            for size, count in self.pairs
        )


def _size(text: str) -> float:
    value, rest = read_number(text)
    if value is None or rest.strip():
        message = f"{text!r} is no size of a thread"
        raise ValueError(message)
    return value


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread as designated. `doubt` is a sentence where it is none of the standard ones."""

    designation: str
    diameter: float
    pitch: float
    system: System
    series: str
    tolerance_length: float
    doubt: str = ""

    @property
    def stress_diameter(self) -> float:
        """Diameter of the circle that has the stress area [m]."""
        if self.system == "inch":
            return float(threads.stress_diameter_inch(self.diameter, self.pitch))
        return float(threads.stress_diameter_metric(self.diameter, self.pitch))

    def limits(self) -> LimitsOfSize:
        """Limits of size, 2A/2B or 6g/6H."""
        if self.system == "inch":
            return limits_of_size.limits_unified(self.diameter, self.pitch, self.tolerance_length)
        return limits_of_size.limits_metric(self.diameter, self.pitch)


@cache
def series() -> tuple[Series, ...]:
    return rows("threads.toml", "series", Series)


@cache
def _standard() -> tuple[tuple[Series, float, float], ...]:
    return tuple((row, diameter, pitch) for row in series() for diameter, pitch in row.sizes())


def _of(system: System, diameter: float, pitch: float | None = None) -> list[tuple[Series, float]]:
    return [
        (row, p)
        for row, d, p in _standard()
        if row.system == system and abs(d - diameter) < SAME and (pitch is None or abs(p - pitch) < SAME)
    ]


def _number(typed: str, text: str) -> float:
    try:
        value, rest = read_number(text.replace(",", "."))
    except Doubt as doubt:
        raise NotRead(typed, EXAMPLE, hint=doubt.why) from None
    if value is None or rest.strip() or value <= 0:
        raise NotRead(typed, EXAMPLE, hint=f"{text} is no size")
    return value


def _plain(number: float) -> str:
    return f"{number:.4g}"


def parse_designation(text: str) -> Thread:
    """A thread from its designation.

    A metric size without pitch is coarse. An inch size without thread count is refused, since a coarse and a fine one
    exist. A pair that is in no table is taken, with a doubt.

    Raises:
        NotRead: it is no thread; says what is wrong and what to type
    """
    typed = text.strip() if isinstance(text, str) else ""
    if not typed:
        raise NotRead(typed, EXAMPLE, hint="nothing is typed")
    if found := _METRIC.fullmatch(typed):
        return _metric(typed, found)
    if found := _INCH.fullmatch(typed):
        return _inch(typed, found)
    bare = re.fullmatch(r"(?P<size>\d+\s+\d+/\d+|\d+/\d+|\d*[.,]?\d+)\s*(\"|″|in)?", typed)
    if bare and ("/" in typed or bare.group(2)):
        counts = sorted({round(INCH / p) for _, p in _of("inch", _number(typed, bare["size"]) * INCH)})
        choices = tuple(f"{bare['size']}-{count}" for count in counts)
        raise NotRead(
            typed, EXAMPLE, choices, "an inch size has a coarse and a fine thread: count the threads on one inch"
        )
    if bare:
        raise NotRead(typed, EXAMPLE, (f"M{typed}",), "a bare number may be metric or inch")
    raise NotRead(typed, EXAMPLE)


def _metric(typed: str, found: re.Match[str]) -> Thread:
    size = _number(typed, found["size"])
    diameter = size / 1000
    if found["pitch"]:
        pitch = _number(typed, found["pitch"]) / 1000
    else:
        coarse = [p for row, p in _of("metric", diameter) if row.id == "coarse"]
        if not coarse:
            raise NotRead(typed, EXAMPLE, hint=f"no coarse pitch of M{_plain(size)} is known: add it, as in M20x1.5")
        pitch = coarse[0]
    _possible(typed, diameter, pitch)
    rows_found = _of("metric", diameter, pitch)
    name = f"M{_plain(size)} × {_plain(pitch * 1000)}"
    doubt = "" if rows_found else f"{name} is in none of our tables: measure the pitch over ten threads."
    kind = rows_found[0][0].id if rows_found else ""
    return Thread(name, diameter, pitch, "metric", kind, diameter, doubt)


def _inch(typed: str, found: re.Match[str]) -> Thread:
    size_text = re.sub(r"(\d+)-(\d+/\d+)", r"\1 \2", found["size"])
    diameter = _number(typed, size_text) * INCH
    count = _number(typed, found["count"])
    pitch = INCH / count
    _possible(typed, diameter, pitch)
    said = (found["series"] or "").upper().replace("UNR", "UN").replace("UNN", "UN")
    said = {"NC": "UNC", "NF": "UNF"}.get(said, said)
    rows_found = _of("inch", diameter, pitch)
    name = f"{size_text}-{_plain(count)}"
    doubt, length = "", max(diameter, 9 * pitch)  # the wider tolerance of the two rules: a smaller strip area
    kind = said or "UN"
    if rows_found:
        row = rows_found[0][0]
        kind, length = row.id, diameter if row.tolerance_length == "diameter" else 9 * pitch
        if said and said != kind:
            doubt = f"{name} is {kind}, not {said}: count the threads on one inch."
    else:
        doubt = f"{name} is in none of our tables: count the threads on one inch again."
    return Thread(f"{name} {kind}", diameter, pitch, "inch", kind, length, doubt)


def _possible(typed: str, diameter: float, pitch: float) -> None:
    if pitch > diameter / 3:
        raise NotRead(typed, EXAMPLE, hint="no thread is that coarse: its pitch is more than a third of its diameter")
    if not 0.002 <= diameter <= 0.3:
        raise NotRead(typed, EXAMPLE, hint="no bolt of a drive is that size")


def look_alikes(thread: Thread) -> tuple[Thread, ...]:
    """Standard threads that this one is mistaken for: same size with another pitch, or the other system's neighbour.

    The neighbour starts, runs on part of its flanks, and strips.
    """
    found: dict[str, Thread] = {}
    for row, diameter, pitch in _standard():
        if abs(diameter - thread.diameter) < SAME and abs(pitch - thread.pitch) < SAME:
            continue
        same_size = row.system == thread.system and abs(diameter - thread.diameter) < SAME
        neighbour = (
            row.system != thread.system
            and abs(pitch / thread.pitch - 1) < ALIKE_PITCH
            and abs(diameter - thread.diameter) < ALIKE_DEPTH * thread.pitch
        )
        if same_size or neighbour:
            size = f"M{_plain(diameter * 1000)} × {_plain(pitch * 1000)}"
            if row.system == "inch":
                text = next(s for s, _ in row.pairs if abs(_size(s) * INCH - diameter) < SAME)
                size = f"{text}-{_plain(INCH / pitch)} {row.id}"
            length = diameter if row.tolerance_length != "nine pitches" else 9 * pitch
            found[size] = Thread(size, diameter, pitch, row.system, row.id, length)
    return tuple(found.values())


def runs_into(bolt: Thread, hole: Thread) -> bool:
    """Whether a bolt of one system starts in a hole of the other and then strips it."""
    return bolt.system != hole.system and any(t.designation == hole.designation for t in look_alikes(bolt))
