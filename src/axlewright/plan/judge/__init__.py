"""Verdicts: the only place that says a word. From findings with their age, and from margins, by the rows in trade/.

- `judge_corner(seen)` -> `Verdicts`: FIELD and ROAD. `seen` are `Seen(finding, grade, hours_ago, days_ago, photo)`.
- `judge_line(line, answers, margins)` -> `HeldVerdict`: HOLDING, LIFTING, JOINT, OIL, BENCH RELEASE.
- `by_margin(rule, margins)`: one row at its careful end. `breaking_unknown`: the one input that could break it.
- `standing(seen)` -> `Standing`: *not looked at (n days)*, or looked at and the least word.
- `judge_at(yard, corner, today)`, `standing_at(yard, corner, today)`: the same from a yard's records.
- `verdict_lines(verdicts, Words(clock))`: both lines as a sheet prints them.
"""

from axlewright.plan.facts import Seen
from axlewright.plan.judge.corners import judge_at, standing_at
from axlewright.plan.judge.grades import (
    PROVED,
    condition_words,
    heat_grade,
    is_proved,
    least_word,
)
from axlewright.plan.judge.margins import (
    Breaks,
    Fixed,
    HeldVerdict,
    Margin,
    breaking_unknown,
    by_margin,
    judge_line,
    least,
    plate_rating,
)
from axlewright.plan.judge.road import Verdict, Verdicts, judge, judge_corner, printed
from axlewright.plan.judge.says import Words, verdict_lines
from axlewright.plan.judge.seen import State, is_fresh, standing_looks, state_of, still_nuts, unknown
from axlewright.plan.judge.standing import Standing, standing

__all__ = [
    "PROVED",
    "Breaks",
    "Fixed",
    "HeldVerdict",
    "Margin",
    "Seen",
    "Standing",
    "State",
    "Verdict",
    "Verdicts",
    "Words",
    "breaking_unknown",
    "by_margin",
    "condition_words",
    "heat_grade",
    "is_fresh",
    "is_proved",
    "judge",
    "judge_at",
    "judge_corner",
    "judge_line",
    "least",
    "least_word",
    "plate_rating",
    "printed",
    "standing",
    "standing_at",
    "standing_looks",
    "state_of",
    "still_nuts",
    "unknown",
    "verdict_lines",
]
