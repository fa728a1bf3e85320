"""The records: what is kept of machines, drives and troubles. Each is frozen and knows its id, who gave it and when."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import lru_cache
from typing import Annotated, Any, ClassVar, Literal, get_args

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    model_serializer,
    model_validator,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from axlewright.kinds import KINDS
from axlewright.yard.hours import Clock, Hours

Basis = Literal["book", "measured", "computed", "assumed"]
Dates = Literal["day month", "month day", "ISO"]
Place = Literal["front-left", "front-right", "rear-left", "rear-right"]
PLACES: tuple[Place, ...] = get_args(Place)
StageName = Literal["seen", "judged", "settled", "drawn up", "in hand", "set down", "looked after", "put by"]
STAGES: tuple[StageName, ...] = get_args(StageName)
Course = Literal[
    "run", "run with checks", "reseal", "fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now",
    "hire out", "park",
]  # fmt: skip
COURSES: tuple[Course, ...] = get_args(Course)
"""The nine ways of dealing with a trouble."""

TURNS_TEXT_ROUND = {chr(c) for c in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))}
"""Signs that make a reader see other words than those that stand there. Letters that run right to left are welcome."""


def _plain(text: str, also: str = "") -> str:
    if text.isascii() and text.isprintable():
        return text
    for sign in text:
        if sign in TURNS_TEXT_ROUND or (unicodedata.category(sign) in {"Cc", "Cs", "Zl", "Zp"} and sign not in also):
            raise ValueError(f"It holds a sign that cannot be printed (U+{ord(sign):04X}). Type it again without.")
    return text


def _prose(text: str) -> str:
    return _plain(text.replace("\r\n", "\n").replace("\r", "\n"), also="\n\t")


def _matches(pattern: str, says: str) -> Callable[[str], str]:
    fits = re.compile(pattern).fullmatch

    def check(text: str) -> str:
        if not fits(text):
            raise ValueError(says)
        return text

    return check


def _kept_at(at: datetime) -> datetime:
    if at.tzinfo is None:
        raise ValueError("A time needs its offset from Greenwich: 2026-08-28T19:30:00+02:00.")
    there = at.astimezone(UTC)
    return there.replace(microsecond=0) if there.microsecond else there


Line = Annotated[str, Field(max_length=120), AfterValidator(_plain)]
"""Text on one line: a name, a person."""
Prose = Annotated[str, Field(max_length=4000), AfterValidator(_prose)]
"""Text of several lines: a note."""
Word = Annotated[
    str,
    Field(max_length=60),
    AfterValidator(_matches("[a-z0-9]+(-[a-z0-9]+)*", "It is made of small letters a to z, digits and hyphens.")),
]
"""An id that people type: of a machine, a design, a drive, a finding's kind."""
Id = Annotated[
    str,
    Field(max_length=100),
    AfterValidator(_matches("[A-Za-z0-9][A-Za-z0-9._-]*", "It is made of letters a to z, digits, points and hyphens.")),
]
"""An id that the program or a telephone made."""
Photo = Annotated[
    str,
    Field(max_length=120),
    AfterValidator(_matches(r"|[\w][\w .()+-]*\.\w{1,5}", "It is the name of a file in photos, without a folder.")),
]


@dataclass(frozen=True, slots=True, order=True)
class Corner:
    """A place on a machine where a drive and its wheel sit, spelled `bramble/front-left`."""

    machine: str
    place: Place

    def __str__(self) -> str:
        return f"{self.machine}/{self.place}"

    @classmethod
    def read(cls, text: object) -> Corner:
        """A corner from its spelling.

        Raises:
            ValueError: it is none; says how a corner is spelled
        """
        if isinstance(text, Corner):
            return text
        found = _corner(text) if isinstance(text, str) else None
        if found:
            return found
        raise ValueError(
            f"A corner is spelled machine/place, and the place is {', '.join(PLACES[:-1])} or {PLACES[-1]}."
        )

    @classmethod
    def __get_pydantic_core_schema__(cls, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            cls.read,
            serialization=core_schema.to_string_ser_schema(when_used="always"),
            json_schema_input_schema=core_schema.str_schema(),
        )


@lru_cache(maxsize=4096)
def _corner(text: str) -> Corner | None:
    machine, _, place = text.partition("/")
    known = next((one for one in PLACES if machine and one == place.strip().lower().replace(" ", "-")), None)
    return known and Corner(machine.strip().lower(), known)


class Stated(BaseModel):
    """A value as it was typed, with its unit, and how it is known. One that does not say so is *assumed*."""

    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True)

    value: Annotated[Line, Field(min_length=1)]
    basis: Basis = "assumed"
    source: Line = ""

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, given: Any) -> Any:
        return {"value": given} if isinstance(given, str) else given

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        whole = handler(core)
        if handler.mode == "serialization":
            return whole
        return {"anyOf": [{"type": "string", "minLength": 1, "maxLength": 120}, whole]}

    @model_serializer(mode="plain")
    def _shortest(self) -> str | dict[str, str]:
        if self.basis == "assumed" and not self.source:
            return self.value
        full = {"value": self.value, "basis": self.basis, "source": self.source}
        return {key: text for key, text in full.items() if text}


class Record(BaseModel):
    """What all records share. `at` says when it was kept; the day it speaks of has a field of its own."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", allow_inf_nan=False, str_strip_whitespace=True, revalidate_instances="never"
    )
    what: ClassVar[str]
    adds: ClassVar[bool] = False
    """True where history matters: a newer record never stands in place of an older one."""

    id: Id
    who: Line = Field("", examples=["owner"])
    at: Annotated[datetime, AfterValidator(_kept_at)] | None = None

    def body(self) -> dict[str, Any]:
        """All that was said, without when it was kept: what is compared when the same id comes twice."""
        return self.model_dump(mode="json", exclude={"at"}, exclude_defaults=True)


class Title(Record):
    """What a title block says of the yard, and how it likes its sheets."""

    what: ClassVar[str] = "title"
    id: Literal["yard"] = "yard"
    name: Annotated[Line, Field(min_length=1, examples=["Long Acre"])]
    measures: Literal["metric", "us"] = Field("metric", examples=["metric"])
    currency: Annotated[Line, Field(max_length=12, examples=["EUR"])] = "EUR"
    paper: Literal["A4", "Letter"] = Field("A4", examples=["A4"])
    decimal: Literal[".", ","] = Field(".", examples=[","])
    dates: Dates | None = Field(None, examples=["day month"])
    """How a date is written; left out, as the measures have it: 28 Aug, or Aug 28 with US measures."""
    today: date | None = Field(None, examples=["2026-08-28"])
    """Taken as today in a yard that shows something, so that it shows the same tomorrow. Left out in a real one."""


MassStated = Annotated[Stated | None, KINDS["mass"]]
LengthStated = Annotated[Stated | None, KINDS["length"]]
VolumeStated = Annotated[Stated | None, KINDS["volume"]]
TorqueStated = Annotated[Stated | None, KINDS["torque"]]


class Machine(Record):
    what: ClassVar[str] = "machine"
    id: Word = Field(examples=["bramble"])
    name: Annotated[Line, Field(min_length=1, max_length=60, examples=["Bramble"])]
    kind: Word | None = Field(None, examples=["walker-combine"])
    numbers: tuple[Line, ...] = Field((), examples=[["serial 4711"]])
    """What is typed on it: serial number, product identification number, the owner's own."""
    corners: tuple[Place, ...] = Field(("front-left", "front-right"), examples=[["front-left", "front-right"]])
    clocks: tuple[Clock, ...] = Field(("engine",), min_length=1, examples=[["engine", "threshing"]])
    mass: MassStated = Field(None, examples=["11 t"])
    front_axle: MassStated = Field(None, examples=["8 t"])
    rear_axle: MassStated = Field(None, examples=["3 t"])
    wheelbase: LengthStated = Field(None, examples=["3.6 m"])
    track: LengthStated = Field(None, examples=["2.9 m"])
    photos: tuple[Photo, ...] = Field((), examples=[["jack-point.jpg"]])
    note: Prose = Field("", examples=["Bought used"])

    def at_corners(self) -> tuple[Corner, ...]:
        return tuple(Corner(self.id, place) for place in self.corners)


class ClockReading(Record):
    """A clock of a machine, read on a day. `new_clock`: the clock was changed, and begins with this reading."""

    what: ClassVar[str] = "clock"
    adds: ClassVar[bool] = True
    machine: Word = Field(examples=["bramble"])
    on: date = Field(examples=["2026-08-28"])
    hours: float = Field(ge=0, le=100_000, examples=[2650])
    clock: Clock = Field(examples=["engine"])
    about: float = Field(0.0, ge=0, le=10_000, examples=[5])
    new_clock: bool = Field(False, examples=[True])
    note: Prose = Field("", examples=["Read from a photo"])
    corrects: Id | None = None

    def read(self) -> Hours:
        return Hours(self.hours, self.clock, self.about)


class Design(Record):
    """What drives of one kind share."""

    what: ClassVar[str] = "design"
    id: Word = Field(examples=["two-stage"])
    name: Annotated[Line, Field(min_length=1, examples=["Two-stage hub"])]
    fits: tuple[Corner, ...] = Field((), examples=[["bramble/front-left", "bramble/front-right"]])
    mass: MassStated = Field(None, examples=["290 kg"])
    oil: Line = Field("", examples=["80W-90"])
    oil_volume: VolumeStated = Field(None, examples=["8 l"])
    bolts: Line = Field("", examples=["10 x M18"])
    bolt_torque: TorqueStated = Field(None, examples=["380 Nm"])
    note: Prose = Field("", examples=["Level plug turns with the wheel"])


Sits = Corner | Literal["shelf", "bench", "away"]


def _sits(given: Any) -> Any:
    if given in {"shelf", "bench", "away"} or isinstance(given, Corner):
        return given
    try:
        return Corner.read(given)
    except ValueError:
        raise ValueError(
            'It sits at a corner ("bramble/front-left"), or on the "shelf" or "bench", or is "away".'
        ) from None


class SitsSchema:
    """How a place of a drive is read and written."""

    @classmethod
    def __get_pydantic_core_schema__(cls, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            _sits,
            serialization=core_schema.to_string_ser_schema(when_used="always"),
            json_schema_input_schema=core_schema.str_schema(),
        )


class Drive(Record):
    """One removable drive with its own identity and hours. `hours` are those it had run when it came to where it sits.

    Where it sits is where its record begins: from there on its moves tell (`Yard.drives` has it as it stands today).
    """

    what: ClassVar[str] = "drive"
    id: Word = Field(examples=["bramble-left"])
    name: Annotated[Line, Field(min_length=1, examples=["left drive"])]
    design: Word | None = Field(None, examples=["two-stage"])
    numbers: tuple[Line, ...] = Field((), examples=[["cast 40-7", "tag 311"]])
    sits: Annotated[Sits, SitsSchema] = Field(examples=["bramble/front-left"])
    since: date | None = Field(None, examples=["2023-03-04"])
    hours: float | None = Field(None, ge=0, le=100_000, examples=[1200])
    about: float = Field(0.0, ge=0, le=100_000, examples=[100])
    photos: tuple[Photo, ...] = Field((), examples=[["flange.jpg"]])
    note: Prose = Field("", examples=["Rebuilt in winter"])


class Finding(Record):
    """Something seen or measured on a drive. A wrong one is not changed: a new one `corrects` it."""

    what: ClassVar[str] = "finding"
    adds: ClassVar[bool] = True
    finding: Word = Field(examples=["plug"])
    grade: Word = Field(examples=["paste"])
    corner: Corner | None = Field(None, examples=["bramble/front-left"])
    drive: Word | None = Field(None, examples=["bramble-left"])
    trouble: int | None = Field(None, ge=1, examples=[3])
    on: date = Field(examples=["2026-08-28"])
    hours: float | None = Field(None, ge=0, le=100_000, examples=[2650])
    clock: Clock | None = Field(None, examples=["engine"])
    about: float = Field(0.0, ge=0, le=10_000, examples=[5])
    photo: Photo = Field("", examples=["plug.jpg"])
    note: Prose = Field("", examples=["Smelled burnt"])
    corrects: Id | None = Field(None, examples=["3-plug"])

    def read(self) -> Hours | None:
        """The clock as it stood, if it was read."""
        return None if self.hours is None or self.clock is None else Hours(self.hours, self.clock, self.about)


class Trouble(Record):
    """What is wrong at one corner, from the first finding to the last after-check. Its stages are records of their own."""

    what: ClassVar[str] = "trouble"
    number: int = Field(ge=1, examples=[3])
    corner: Corner = Field(examples=["bramble/front-left"])
    drive: Word | None = Field(None, examples=["bramble-left"])
    opened: date = Field(examples=["2026-08-28"])
    note: Prose = Field("", examples=["Wet after the long road"])


PackKey = Annotated[str, AfterValidator(_matches("[0-9a-f]{16}", "It is sixteen of 0-9 and a-f."))]
"""The key under which a pack is frozen."""


class Stage(Record):
    """A trouble has come to a stage; `pack` is the key of the sheets that were frozen with it."""

    what: ClassVar[str] = "stage"
    adds: ClassVar[bool] = True
    trouble: int = Field(ge=1, examples=[3])
    stage: StageName = Field(examples=["settled"])
    on: date = Field(examples=["2026-08-28"])
    course: Course | None = Field(None, examples=["fit a spare"])
    pack: PackKey | None = Field(None, examples=["3f9a01c2d4e5b6a7"])
    note: Prose = Field("", examples=["Parked in the shed"])

    @model_validator(mode="after")
    def _taken_once_settled(self) -> Stage:
        if self.course and self.stage != "settled":
            raise ValueError("A course is taken when a trouble is settled.")
        return self


Name = Annotated[
    str,
    Field(max_length=60),
    AfterValidator(
        _matches("[a-z0-9-]+(/[a-z0-9-]+)?", "It is made of small letters, digits and hyphens: bolts/thread.")
    ),
]
"""The name of a question, as trade/questions.toml has it."""


class Answer(Record):
    """A value that somebody gave to a question, as typed: of a trouble, a machine or a design; else of the yard's gear.

    It is never changed: the newest of a name is the one that counts. One that does not say how it is known is *assumed*.
    """

    what: ClassVar[str] = "answer"
    adds: ClassVar[bool] = True
    name: Name = Field(examples=["bolts/thread"])
    value: Annotated[Line, Field(min_length=1, examples=["M18"])]
    trouble: int | None = Field(None, ge=1, examples=[3])
    machine: Word | None = Field(None, examples=["bramble"])
    design: Word | None = Field(None, examples=["two-stage"])
    on: date = Field(examples=["2026-08-28"])
    basis: Basis = Field("assumed", examples=["measured"])
    source: Line = Field("", examples=["service book, p. 40"])

    @property
    def about(self) -> tuple[int | None, str | None, str | None]:
        """Whose it is: trouble, machine, design; none of them is the yard."""
        return self.trouble, self.machine, self.design


RECORDS: dict[str, type[Record]] = {
    model.what: model for model in (Title, Machine, ClockReading, Design, Drive, Finding, Trouble, Stage, Answer)
}
