"""Season work and money: from drawn weather, lives and lead times to what each course costs.

The order of calls; everything is draws on the first axis, seconds, square metres, and the yard's own money:

1. `drawn_days(shares, share, memory)` turns shares of 0 to 1 into workable days, with `year_shares` of `weather.py` for a
   year's own share; times the hours of a day they are `workable`.
2. `field_clock(crops, workable)`: running sums, once a trouble; `best_queue` says in which order crops are best cut.
   Repeat each trajectory for its weather replicates beforehand (`numpy.repeat(draws, 5)`), so that all arrays have one
   row a season.
3. `Common(...)`: everything drawn once for all courses. `standard_courses(common, names)` makes the rows of courses; a
   course of one's own is a `Course(...)`.
4. `untroubled(clock)` once, `run_course(clock, common, course, recoveries)` for each course: counts first. Add
   `years_after(common, outcome, years)` to `outcome.season` where the years after shall count (`with_years`).
5. `compare(outcomes, prices, free, admitted, weights, replicates)`: money second. A moved price needs this call alone.
   Where seasons are too many to keep their counts, run them a block at a time: `priced` for each block and recovery, of
   each course the recovery of least mean, `side_by_side` of all courses; it comes to the same.
6. `worth_of_looks(by_trajectory(choice.costs, replicates), states, looks)`, its ceiling `worth_of_state`, and
   `worth_of_asking(choice.costs, values)` for a lead or price that could be asked.
7. `latest(starts, finishes, need_by)` for the last day of each course, `time_needed` of `finish.py` where nothing hangs
   on the day, then `decide_by(means, dates, admitted)` for the trouble.
8. `days_lost(crops, ends, workable, days)` for what one day lost costs, by its date.

Verdicts are not made here: a course that a verdict forbids is given as not admitted.
"""

from axlewright.engines.season._clock import DAY, Crop, FieldClock, field_clock
from axlewright.engines.season._compare import (
    Choice,
    CourseResult,
    Priced,
    by_trajectory,
    compare,
    cost_of,
    priced,
    safe_enough,
    side_by_side,
)
from axlewright.engines.season._decide import DecideBy, best_order, decide_by, latest
from axlewright.engines.season._ledger import Ledger, Prices
from axlewright.engines.season._looks import Look, LookWorth, worth_of_asking, worth_of_looks, worth_of_state
from axlewright.engines.season._lost import DaysLost, days_lost
from axlewright.engines.season._queue import best_queue
from axlewright.engines.season._rows import standard_courses
from axlewright.engines.season._run import run_course, untroubled
from axlewright.engines.season._weather import drawn_days
from axlewright.engines.season._years import life_after_reseal, with_years, years_after
from axlewright.engines.season.courses import (
    Checks,
    Common,
    Course,
    CourseName,
    Job,
    Jobs,
    Life,
    Outcome,
    Recovery,
    Replacement,
    Warranty,
    Winter,
    Years,
)

__all__ = [
    "DAY", "Checks", "Choice", "Common", "Course", "CourseName", "CourseResult", "Crop", "DaysLost", "DecideBy", "FieldClock", "Job", "Jobs",
    "Ledger", "Life", "Look", "LookWorth", "Outcome", "Priced", "Prices", "Recovery", "Replacement", "Warranty", "Winter", "Years", "best_order", "best_queue", "by_trajectory",
    "compare", "cost_of", "days_lost", "decide_by", "drawn_days", "field_clock", "latest", "life_after_reseal", "priced", "run_course", "safe_enough", "side_by_side", "standard_courses", "untroubled",
    "with_years", "worth_of_asking", "worth_of_looks", "worth_of_state", "years_after",
]  # fmt: skip
