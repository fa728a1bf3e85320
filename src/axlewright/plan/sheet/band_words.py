"""A band as it is printed: what the gauge may read, and what each reading says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from axlewright.plan.sheet.frame import Basis, Number, Numbers
from axlewright.plan.steps.bands import Printed
from axlewright.quantities.units import find
from axlewright.sheets import Bands, Day, Go, Run, Shown, Text
from axlewright.sheets.blocks import Band as Line
from axlewright.trade.steps import Band, Reading, Steps, Task

KINDS = {
    "%": ("angle", "%"),
    "deg": ("angle", "°"),
    "mm": ("length", "mm"),
    "m": ("length", "m"),
    "bar": ("pressure", "bar"),
    "psi": ("pressure", "psi"),
    "kg": ("mass", "kg"),
    "L": ("volume", "L"),
    "N·m": ("torque", "N·m"),
    "K": ("temperature-step", "K"),
}
"""The kind and the tool's unit of what is read; counts, grades and words have none."""
BLANK = "____"
Teller: TypeAlias = Callable[[int, str, bool], Text]  # marks, which end, with its unit


@dataclass(frozen=True, slots=True)
class Told:
    """The three readings of a band in words."""

    go: Text
    ask: tuple[Text, ...]  # below go on, above it
    now: tuple[Text, ...]


class BandWords:
    """Tells bands: every number that is printed is kept with its basis."""

    def __init__(self, rows: Steps, numbers: Numbers) -> None:
        self.rows, self.numbers = rows, numbers

    def told(self, reading: Reading, band: Band, printed: Printed | None) -> Told:
        """What the gauge reads in each of the three."""
        if band.words_go:
            return Told((", ".join(band.words_go),), ((", ".join(band.words_ask),),), ((", ".join(band.words_now),),))
        if printed is None:
            return Told((f"{BLANK} {self.unit(band.unit)}".rstrip(),), (), ())
        (low, high), (least, most) = printed.go, printed.ask

        def n(marks: int, end: str, unit: bool) -> Text:
            return self.number(reading.id, end, printed.value(marks), band, unit=unit)

        ask: list[Text] = []
        now: list[Text] = []
        if low and (least is None or least < low):
            ask.append(
                (*n(least, "ask-from", False), " to ", *n(low, "go-from", True))
                if least
                else ("under ", *n(low, "go-from", True))
            )
        if least:
            now.append(("under ", *n(least, "ask-from", True)))
        if high is not None:
            if most is None:
                ask.append(("any" if high == 0 else "over ", *(() if high == 0 else n(high, "go-to", True))))
            elif most > high:
                ask.append((*n(high, "go-to", False), " to ", *n(most, "ask-to", True)))
        if most is not None:
            now.append(("any",) if most == 0 else ("over ", *n(most, "ask-to", True)))
        return Told(self._span(low, high, n), tuple(ask), tuple(now))

    def hangs_on(self, band: Band) -> str:
        """What a band waits for while nobody has worked it out."""
        return (self.rows.figures or {}).get(band.of) or (self.rows.givers or {}).get(band.by, "")

    def _span(self, low: int | None, high: int | None, n: Teller) -> Text:
        if low is not None and high is not None and low > high:
            return ("no mark of this tool lies in it",)
        if high is None:
            return ("any",) if low is None else (*n(low, "go-from", True), " or more")
        if low is None or low == 0:
            return ("none",) if high == 0 else ("to ", *n(high, "go-to", True))
        return n(high, "go-to", True) if low == high else (*n(low, "go-from", False), " to ", *n(high, "go-to", True))

    def unit(self, unit: str) -> str:
        return KINDS[unit][1] if unit in KINDS else "" if unit == "count" else unit

    def number(self, reading: str, end: str, value: float, band: Band, *, unit: bool) -> Text:
        """An edge, in the unit that is printed on the tool: no choice of measures converts it."""
        if band.unit not in KINDS:
            return (f"{value:g}" + (f" {band.unit}" if unit and band.unit not in {"count", "grade"} else ""),)
        kind, symbol = KINDS[band.unit]
        found = find(kind, symbol)
        assert found
        basis: Basis = "computed" if band.by or band.of else "assumed"
        number = Number(f"steps/{reading}/{end}", kind, found.to_si(value), basis, band.source)
        whole = len(str(int(abs(value)))) if abs(value) >= 1 else 0
        digits = max(whole + len(f"{value:g}".partition(".")[2]), 1)
        return (self.numbers.show(number, on_tool=symbol, digits=digits, with_basis=False, with_unit=unit),)

    def block(self, task: Task, reading: Reading, band: Band, printed: Printed | None, note: Text = ()) -> Bands:
        """The band as three lines: go on, lower and ask, lower now."""
        told = self.told(reading, band, printed)
        ask, now = verbs(task)
        say_go = band.say_go if printed or band.words_go else self.hangs_on(band)
        lines = [_line(told.go, "go on", say_go, "plain")]
        for reads in told.ask[:-1]:
            lines.append(_line(reads, ask, band.say_low, "plain"))
        if told.ask or band.say_ask:
            lines.append(_line(told.ask[-1] if told.ask else (), ask, band.say_ask, "plain"))
        lines += [_line(reads, now, "", "must") for reads in told.now[:-1]]
        lines.append(_line(told.now[-1] if told.now else (), now, band.say_now, "must"))
        return Bands(bands=tuple(lines), note=note)

    def short(self, task: Task, reading: Reading, band: Band, printed: Printed | None) -> Text:
        """The band in a line: where it goes on, and where it is now."""
        told = self.told(reading, band, printed)
        _, now = verbs(task)
        end: Text = ("; ", Run(voice="must", words=(*_flat(_either(told.now)), f": {now}"))) if told.now else ()
        return (*told.go, ": go on", *end)


def verbs(task: Task) -> tuple[str, str]:
    """What is done about a reading: a load that hangs is lowered, else the work stops."""
    hangs = task.corner == "jack" or task.load in {"hook", "forks"}
    return ("lower and ask", "lower now") if hangs else ("stop and ask", "stop now")


def _line(reads: Text, what: str, says: str, voice: str) -> Line:
    must = voice == "must"
    told: Text = (Run(voice="must" if must else "strong", words=(what,)), f"; {says}" if says else "")
    return Line(reads=reads, means=told, voice="must" if must else "plain")


def _either(texts: tuple[Text, ...]) -> Text:
    out: Text = ()
    for one in texts:
        out += (" or ", *one) if out else one
    return out


def _flat(text: Text) -> tuple[str | Shown | Day, ...]:
    return tuple(p for p in text if not isinstance(p, Run | Go))
