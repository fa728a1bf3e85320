"""Verdicts: the only place that says a word. From findings with their age, and from margins, by the rows in trade/.

- `judge_corner(seen)` -> `Verdicts`: FIELD and ROAD. `seen` are `Seen(finding, grade, hours_ago, days_ago, photo)`.
- `judge_line(line, answers, margins)` -> `HeldVerdict`: HOLDING, LIFTING, JOINT, OIL, BENCH RELEASE.
- `by_margin(rule, margins)`: one row at its careful end. `breaking_unknown`: the one input that could break it.
- `course_stop(course, verdicts)`: what strikes a course out, and what would lift it; `unsafe_stop(chance)`.
- `standing(seen)` -> `Standing`: *not looked at (n days)*, or looked at and the least word.
- `verdict_lines(verdicts, Words(clock))`: both lines as a sheet prints them.
"""

from axlewright.plan.facts import Seen
from axlewright.plan.judge.ahead import FIVE, GIVES, may_look, missing
from axlewright.plan.judge.courses import Stop, course_stop, unsafe_stop
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
)
from axlewright.plan.judge.road import Verdict, Verdicts, judge, judge_corner, printed, spoken
from axlewright.plan.judge.says import Words, verdict_lines
from axlewright.plan.judge.seen import State, fresh_hours, is_fresh, standing_looks, state_of, still_nuts, unknown
from axlewright.plan.judge.standing import Standing, standing

__all__ = [
    "FIVE",
    "GIVES",
    "PROVED",
    "Breaks",
    "Fixed",
    "HeldVerdict",
    "Margin",
    "Seen",
    "Standing",
    "State",
    "Stop",
    "Verdict",
    "Verdicts",
    "Words",
    "breaking_unknown",
    "by_margin",
    "condition_words",
    "course_stop",
    "fresh_hours",
    "heat_grade",
    "is_fresh",
    "is_proved",
    "judge",
    "judge_corner",
    "judge_line",
    "least",
    "least_word",
    "may_look",
    "missing",
    "printed",
    "spoken",
    "standing",
    "standing_looks",
    "state_of",
    "still_nuts",
    "unknown",
    "unsafe_stop",
    "verdict_lines",
]
