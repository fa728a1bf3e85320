"""What others measured for the yard: oil samples of drives by a laboratory, and the rain of each day at a station."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from typing import Annotated, ClassVar

from pydantic import AfterValidator, Field, model_validator

from axlewright.yard.records import Id, Line, Prose, Record, Word

ELEMENTS = (
    "iron", "chromium", "nickel", "copper", "lead", "tin", "aluminium", "silicon", "sodium", "potassium",
)  # fmt: skip
MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
)  # fmt: skip
MOST_RAIN = 2000.0  # [mm] in a day: more than was ever measured (1 825 mm in 24 h, World Meteorological Organization)
NOT_MEASURED = "-"

Ppm = Annotated[float | None, Field(ge=0, le=1_000_000)]
SomeHours = Annotated[float | None, Field(ge=0, le=100_000)]


class OilSample(Record):
    """What a laboratory found in the oil of a drive. Elements and water in ppm by mass, viscosity in mm²/s, hours in h.

    `on_oil`: hours on this oil, `own`: hours of the drive; `below`: of what the laboratory saw less than stands here.
    """

    what: ClassVar[str] = "oil sample"
    adds: ClassVar[bool] = True
    drive: Word = Field(examples=["bramble-left"])
    on: date = Field(examples=["2026-08-28"])
    number: Line = Field("", examples=["L-2207"])
    oil: Line = Field("", examples=["80W-90"])
    on_oil: SomeHours = Field(None, examples=[210])
    own: SomeHours = Field(None, examples=[1400])
    added: float | None = Field(None, ge=0, le=10_000, examples=[0.5])
    iron: Ppm = Field(None, examples=[62])
    chromium: Ppm = Field(None, examples=[1.5])
    nickel: Ppm = Field(None, examples=[0.5])
    copper: Ppm = Field(None, examples=[12])
    lead: Ppm = Field(None, examples=[3])
    tin: Ppm = Field(None, examples=[1])
    aluminium: Ppm = Field(None, examples=[4])
    silicon: Ppm = Field(None, examples=[18])
    sodium: Ppm = Field(None, examples=[5])
    potassium: Ppm = Field(None, examples=[2])
    water: Ppm = Field(None, examples=[300])
    viscosity_40: float | None = Field(None, gt=0, le=100_000, examples=[140])
    viscosity_100: float | None = Field(None, gt=0, le=10_000, examples=[14.2])
    acid: float | None = Field(None, ge=0, le=100, examples=[1.2])
    below: tuple[Word, ...] = Field((), examples=[["tin"]])
    note: Prose = Field("", examples=["Drawn warm, by tube"])
    corrects: Id | None = None

    def iron_rate(self) -> float | None:
        """Iron [ppm] in 100 h on this oil, what was in it when new left out; None without hours on the oil."""
        return self.iron / self.on_oil * 100 if self.iron is not None and self.on_oil else None


def _month(text: str) -> str:
    cells = text.split()
    if len(cells) > 31:
        raise ValueError(f"A month has no {len(cells)} days.")
    for cell in cells:
        if cell != NOT_MEASURED and (not re.fullmatch(r"\d{1,4}(\.\d{1,3})?", cell) or float(cell) > MOST_RAIN):
            raise ValueError(f"{cell[:20]} is no rain of a day: millimetres as 12.5, or - where none was measured.")
    return " ".join(cells)


Month = Annotated[str, AfterValidator(_month)]


class Rain(Record):
    """The rain of one year at a station: for each month a line, for each of its days the millimetres, or - for not measured."""

    what: ClassVar[str] = "rain"
    id: Word = Field(examples=["low-meadow-2026"])
    station: Annotated[Line, Field(min_length=1, examples=["Low Meadow"])]
    year: int = Field(ge=1700, le=2200, examples=[2026])
    january: Month = Field("", examples=["0 2.5 - 11"])
    february: Month = Field("", examples=["0 2.5 - 11"])
    march: Month = Field("", examples=["0 2.5 - 11"])
    april: Month = Field("", examples=["0 2.5 - 11"])
    may: Month = Field("", examples=["0 2.5 - 11"])
    june: Month = Field("", examples=["0 2.5 - 11"])
    july: Month = Field("", examples=["0 2.5 - 11"])
    august: Month = Field("", examples=["0 2.5 - 11"])
    september: Month = Field("", examples=["0 2.5 - 11"])
    october: Month = Field("", examples=["0 2.5 - 11"])
    november: Month = Field("", examples=["0 2.5 - 11"])
    december: Month = Field("", examples=["0 2.5 - 11"])

    @model_validator(mode="after")
    def _has_these_days(self) -> Rain:
        for month, name in enumerate(MONTHS, 1):
            count = len(getattr(self, name).split())
            if count > _days_in(self.year, month):
                raise ValueError(f"{name.capitalize()} {self.year} has no {count} days.")
        return self

    def days(self) -> Iterator[tuple[date, float]]:
        """Each day that was measured, with its rain [mm]."""
        for month, name in enumerate(MONTHS, 1):
            for number, cell in enumerate(getattr(self, name).split(), 1):
                if cell != NOT_MEASURED:
                    yield date(self.year, month, number), float(cell)


def _days_in(year: int, month: int) -> int:
    first = date(year, month, 1)
    return ((first + timedelta(days=32)).replace(day=1) - first).days


def months_of(year: int, days: Mapping[date, float]) -> dict[str, str]:
    """The lines of a year, by the names of its months; days of other years left alone."""
    found: dict[str, str] = {}
    for month, name in enumerate(MONTHS, 1):
        cells = [days.get(date(year, month, number + 1)) for number in range(_days_in(year, month))]
        while cells and cells[-1] is None:
            cells.pop()
        if cells:
            found[name] = " ".join(
                NOT_MEASURED if cell is None else f"{cell:.3f}".rstrip("0").rstrip(".") for cell in cells
            )
    return found


def rain_of(years: Iterable[Rain], station: str = "") -> dict[date, float]:
    """The rain of each day that was measured [mm], by day; of one station, or of the only one there is.

    Raises:
        ValueError: there are several stations, and none is named; or none of that name
    """
    years = tuple(years)
    stations = sorted({one.station for one in years})
    if station and station not in stations:
        raise ValueError(f"There is no station {station}: there is {', '.join(stations) or 'none'}.")
    if len(stations) > 1 and not station:
        raise ValueError(f"There are {len(stations)} stations: {', '.join(stations)}. Say which.")
    days = (day for one in years if not station or one.station == station for day in one.days())
    return dict(sorted(days))
