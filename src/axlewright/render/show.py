"""How a reader reads numbers and dates: the only place where a number becomes text.

`Show` is what the reader chose. `Words` knows the pack's basis too and turns a text into spans of plain strings.
"""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias, assert_never

from axlewright.quantities.table import Unit
from axlewright.quantities.units import unit_for
from axlewright.render.sides import in_us_words
from axlewright.sheets import BasisEntry, Day, Go, Piece, Run, Shown, Text
from axlewright.yard import Title
from axlewright.yard.records import Dates

THIN = "\u202f"  # between thousands
STAY = "\u00a0"  # between a number and its unit
MINUS = "\u2212"
LETTERS = {"book": "bk", "measured": "ms", "computed": "cp", "assumed": "as"}
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
ROUND = re.compile(r"said/[\d.]+-mm$")
"""Names of lengths that stand in the words of a step or caution (plan/sheet/said.py)."""
COARSE = ("mass", "force")  # kinds whose US units are so small that two digits of them part loads no more
FAR = 10.0  # times the middle: ends that lie farther out
SLACK = 6e-6  # a pack is frozen to six digits: nearer than this to a step is on it

Voice: TypeAlias = Literal["plain", "strong", "must", "soft", "struck", "basis", "unit"]
Toward: TypeAlias = Literal["nearest", "down", "up"]


@dataclass(frozen=True, slots=True)
class Show:
    """What the reader chose: measures, decimal mark, paper, language, the yard's currency, and how a date is written.

    Without `dates` it is written as the measures have it.
    """

    measures: Literal["metric", "us"] = "metric"
    decimal: Literal[".", ","] = "."
    paper: Literal["A4", "Letter"] = "A4"
    language: Literal["en"] = "en"
    currency: str = "€"
    dates: Dates | None = None

    @property
    def dated(self) -> Dates:
        """How a date is written."""
        return self.dates or ("month day" if self.measures == "us" else "day month")


def show_of(title: Title) -> Show:
    """As a yard likes its sheets."""
    return Show(
        measures=title.measures,
        decimal=title.decimal,
        paper=title.paper,
        currency=sign(title.currency),
        dates=title.dates,
    )


SIGNS = {"EUR": "€", "USD": "$", "GBP": "£", "JPY": "¥", "PLN": "zł", "CZK": "Kč", "UAH": "₴"}
"""What is written for a code of ISO 4217. A sign that several countries share stands for none of the others."""


def sign(currency: str) -> str:
    """The sign of a currency, from its code or as it was typed."""
    return SIGNS.get(currency.upper(), currency)


@dataclass(frozen=True, slots=True)
class Span:
    """Some words in one voice; `basis` is the two small letters after a unit, `unit` a unit beside a large number."""

    voice: Voice
    words: str
    to: str = ""  # what a tap on it opens


Spans: TypeAlias = tuple[Span, ...]


def rounded(number: float, places: int, toward: Toward = "nearest") -> float:
    """A number cut to so many places, the way it may be cut."""
    steps = number * 10.0**places
    near = math.floor(steps + 0.5)
    if abs(steps - near) <= SLACK * abs(steps) or toward == "nearest":
        steps = near
    else:
        steps = math.floor(steps) if toward == "down" else math.ceil(steps)
    return steps / 10.0**places if places > 0 else steps * 10.0**-places


def places_for(number: float, digits: int) -> int:
    """Decimal places that leave so many digits; fewer than none for whole tens and hundreds."""
    if number == 0:
        return 0
    places = digits - 1 - math.floor(math.log10(abs(number)))
    grown = rounded(number, places)
    return digits - 1 - math.floor(math.log10(abs(grown))) if grown else places


@dataclass(frozen=True, slots=True)
class Words:
    """Texts of one pack, as this reader reads them. `today` is the sheet's date: its year is not said again."""

    show: Show = field(default_factory=Show)
    basis: Mapping[str, BasisEntry] = field(default_factory=dict)
    today: datetime.date | None = None

    def figure(self, number: float, places: int, *, bare: bool = False) -> str:
        """A number as it is written, to so many places; `bare` leaves out zeros at the end."""
        said = f"{abs(number):.{max(places, 0)}f}"
        if bare and "." in said:
            said = said.rstrip("0").rstrip(".")
        whole, _, rest = said.partition(".")
        groups = [whole[max(end - 3, 0) : end] for end in range(len(whole), 0, -3)]
        sign = MINUS if number < 0 and float(said) else ""
        return sign + THIN.join(reversed(groups)) + (self.show.decimal + rest if rest else "")

    def number(self, shown: Shown) -> Spans:
        """Middle, ends, unit and basis of a number."""
        middle, ends, unit, letters = self._parts(shown)
        return (Span("plain", middle + ends + unit), *((Span("basis", letters),) if letters else ()))

    def _parts(self, shown: Shown) -> tuple[str, str, str, str]:
        """A number's middle, its ends, its unit and its basis, each as it stands behind the last."""
        entry = self.basis.get(shown.name)
        if entry is None:
            raise LookupError(f"{shown.name} is shown on a sheet but stands not in the pack's basis: add its entry")
        unit = unit_for(entry.kind, self.show.measures, shown.si, shown.on_tool)
        middle = unit.from_si(shown.si)
        places = min(places_for(middle, self._digits(shown)), 9)
        widest = max((abs(unit.from_si(end)) for end in (shown.low, shown.high) if end is not None), default=0.0)
        if widest > FAR * abs(middle):  # the ends say how much of the middle is known
            places = min(places, places_for(widest, max(shown.digits - 1, 1)))
        if shown.on_tool is not None:
            places = max(places, 0)  # never coarser than what is printed on the tool
        bare = entry.kind == "count" or entry.basis != "computed"
        said = self.figure(rounded(middle, places, shown.toward), places, bare=bare)
        ends = self._ends(shown, unit, places, bare=bare)
        if ends == f" ({said} to{STAY}{said})":
            ends = ""  # no ends that could be written
        symbol = glued(unit.symbol) if shown.with_unit else ""
        if entry.kind == "money" and shown.with_unit:
            said, symbol = self.show.currency + THIN + said, ""
        return said, ends, symbol, STAY + LETTERS[entry.basis] if shown.with_basis else ""

    def _digits(self, shown: Shown) -> int:
        """Digits of a number: one of words, round in its own measures, is round in the others too, 25 mm and 1 in."""
        if self.show.measures == "us" and ROUND.match(shown.name):
            return 1
        entry = self.basis[shown.name]
        if self.show.measures == "us" and entry.kind in COARSE and shown.digits == 2:
            inner = abs(unit_for(entry.kind, "us", shown.si, shown.on_tool).from_si(shown.si))
            return 3 if f"{inner:.1e}".startswith("1") else 2  # 14 000 lb: half a tonne may hide in the second digit
        return shown.digits

    def _ends(self, shown: Shown, unit: Unit, places: int, *, bare: bool) -> str:
        """The ends of a range, rounded outwards: never narrower than it is."""

        def end(si: float, toward: Toward) -> str:
            return self.figure(rounded(unit.from_si(si), places, toward), places, bare=bare)

        match shown.low, shown.high:
            case None, None:
                return ""
            case float(low), None:
                return f" (from{STAY}{end(low, 'down')})"
            case None, float(high):
                return f" (to{STAY}{end(high, 'up')})"
            case low, high:
                assert low is not None
                assert high is not None
                return f" ({end(low, 'down')} to{STAY}{end(high, 'up')})"

    def day(self, on: datetime.date) -> str:
        """A date; the year only where it is not the sheet's own."""
        return self.date(on, year=self.today is None or on.year != self.today.year)

    def date(self, on: datetime.date, *, year: bool = True) -> str:
        """A date with or without its year."""
        if self.show.dated == "ISO":
            return on.isoformat()
        month = MONTHS[on.month - 1]
        if self.show.dated == "month day":
            return f"{month}{STAY}{on.day}" + (f", {on.year}" if year else "")
        return f"{on.day}{STAY}{month}" + (f"{STAY}{on.year}" if year else "")

    def spans(self, text: Text) -> Spans:
        """A text as spans, neighbours of one voice joined."""
        joined: list[Span] = []
        for piece in text:
            for span in self._piece(piece):
                if joined and joined[-1].voice == span.voice and not (joined[-1].to or span.to):
                    joined[-1] = Span(span.voice, joined[-1].words + span.words)
                elif span.words:
                    joined.append(span)
        return tuple(joined)

    def said(self, words: str) -> str:
        """Words as the trade says them where these measures are used: tyre, or tire."""
        return in_us_words(words) if self.show.measures == "us" else words

    def _piece(self, piece: Piece) -> Spans:
        match piece:
            case str():
                return (Span("plain", self.said(piece)),)
            case Shown():
                return self.number(piece)
            case Day():
                return (Span("plain", self.day(piece.on)),)
            case Run():
                inner = self.spans(piece.words)
                return tuple(span if span.voice == "basis" else Span(piece.voice, span.words) for span in inner)
            case Go():
                return (Span("plain", piece.words, piece.to),)
            case _:
                assert_never(piece)

    def large(self, text: Text) -> Spans:
        """A deciding number: its ends and its unit apart, to be written smaller."""
        out: list[Span] = []
        for piece in text:
            if isinstance(piece, Shown):
                middle, ends, unit, letters = self._parts(piece)
                apart = (Span("plain", middle), Span("unit", ends + unit), Span("basis", letters))
                out += [span for span in apart if span.words]
            else:
                out += self._piece(piece)
        return tuple(out)

    def plain(self, text: Text) -> str:
        """A text as one string."""
        return "".join(span.words for span in self.spans(text))


def glued(symbol: str) -> str:
    """A unit's symbol as it stands behind its number."""
    if not symbol or symbol in {"°", "′", "″"}:
        return symbol
    return STAY + symbol
