"""The records of a yard, the picture they give, and the rules between them."""

from axlewright.yard.cards import AfterCheck, PrintedBand, Reading, StepCard
from axlewright.yard.faults import Fault, Faults, Moved, closest, faults_of
from axlewright.yard.hours import CLOCKS, Clock, Hours, Pair, convert, meant, spell
from axlewright.yard.made import Made, who_and_when
from axlewright.yard.moves import Move, Stay
from axlewright.yard.picture import Beside, Change, Yard
from axlewright.yard.records import (
    COURSES,
    PLACES,
    STAGES,
    Answer,
    Basis,
    ClockReading,
    Corner,
    Course,
    Design,
    Drive,
    Finding,
    Machine,
    Place,
    Record,
    Stage,
    StageName,
    Stated,
    Title,
    Trouble,
)
from axlewright.yard.records import RECORDS as OF_THINGS
from axlewright.yard.rules import Grades, known_grades, mistakes
from axlewright.yard.samples import OilSample, Rain
from axlewright.yard.seasons import Season, Work
from axlewright.yard.taken_back import TakenBack
from axlewright.yard.warranties import Left, Warranty

RECORDS: dict[str, type[Record]] = {
    **OF_THINGS,
    **{model.what: model for model in (Season, Work, StepCard, Reading, AfterCheck, Move, Warranty, OilSample, Rain)},
    TakenBack.what: TakenBack,
}

__all__ = [
    "CLOCKS",
    "COURSES",
    "PLACES",
    "RECORDS",
    "STAGES",
    "AfterCheck",
    "Answer",
    "Basis",
    "Beside",
    "Change",
    "Clock",
    "ClockReading",
    "Corner",
    "Course",
    "Design",
    "Drive",
    "Fault",
    "Faults",
    "Finding",
    "Grades",
    "Hours",
    "Left",
    "Machine",
    "Made",
    "Move",
    "Moved",
    "OilSample",
    "Pair",
    "Place",
    "PrintedBand",
    "Rain",
    "Reading",
    "Record",
    "Season",
    "Stage",
    "StageName",
    "Stated",
    "Stay",
    "StepCard",
    "TakenBack",
    "Title",
    "Trouble",
    "Warranty",
    "Work",
    "Yard",
    "closest",
    "convert",
    "faults_of",
    "known_grades",
    "meant",
    "mistakes",
    "spell",
    "who_and_when",
]
