"""The choice of a trouble: the nine courses through drawn seasons, on common draws, each number named in the workings.

made = made_out(task, stops)        # stops: what a verdict strikes out, by course
made.best, made.courses             # best first, then those that are struck out
made.w["course/run.mean"]           # every number by its name
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache

import numpy as np

from axlewright.engines.season import untroubled
from axlewright.kinds import KINDS, Array, Kind
from axlewright.plan.reckon import choice_calls as calls
from axlewright.plan.reckon import choice_forecast as condition
from axlewright.plan.reckon import choice_money as money
from axlewright.plan.reckon import choice_ran as ran
from axlewright.plan.reckon.choice_task import DAY, HOUR, ChoiceTask, exact
from axlewright.plan.steps.hours import Taken, taken
from axlewright.plan.steps.jobs import Here, NoWay, job
from axlewright.plan.workings import Got, Thing, Workings
from axlewright.quantities import digest
from axlewright.quantities.draws import own_shares
from axlewright.trade.choice import class_of_drives, numbers
from axlewright.trade.steps_read import steps

REPLICATES = 5  # seasons drawn of each trajectory
NETWORKS = {"swap": "swap", "reseal": "reseal", "rebuild": "bench"}  # what a course's work stands as in the steps
WAITED = {
    "fit a used drive": "lead/used-found",
    "fit a rebuilt exchange": "lead/exchange-found",
    "hire out": "lead/hire-found",
}
ORDERED = ("reseal", "fit a used drive", "fit a rebuilt exchange", "rebuild now", "hire out")


@dataclass(frozen=True, slots=True)
class CourseMade:
    """One course as it was made out. Numbers stand under `course/SLUG` in the workings; a stopped one shows none.

    Attributes:
        name: of the course
        stopped: whether it is struck out
        order_by: the last day on which its order still does, nine times in ten; None: nothing to order, or none to be had
        too_late: that day is past, or the work has begun
        too_close: the difference to the best is too small to call
    """

    name: str
    stopped: bool
    mean: float = math.nan
    fails: float = math.nan
    unsafe: float = math.nan
    order_by: date | None = None
    too_late: bool = False
    too_close: bool = False

    @property
    def at(self) -> str:
        """Where its numbers stand."""
        return slug(self.name)


@dataclass(frozen=True, slots=True)
class Made:
    """A choice made out: its workings, the courses best first, and what the season asks.

    Attributes:
        w: every number by its name
        courses: admitted ones best first, then those struck out
        need_by: the day on which work begins
        ends: when the harvest ends: one season in ten, every second, nine in ten; None: after the season's end
        clock_ends: machine hours ahead at the harvest's end, the same three [h]
        begun: work has begun
    """

    w: Workings
    courses: tuple[CourseMade, ...]
    need_by: date
    ends: tuple[date | None, date | None, date | None]
    clock_ends: tuple[float, float, float]
    begun: bool

    @property
    def best(self) -> CourseMade | None:
        """The course to take: of those too close to call the one that lets go least often."""
        open_ = [one for one in self.courses if not one.stopped]
        if not open_:
            return None
        close = [one for one in open_ if one is open_[0] or one.too_close]
        return min(close, key=lambda one: (round(one.fails, 3), one.mean))


def slug(course: str) -> str:
    return "course/" + course.replace(" ", "-")


def given(w: Workings, name: str, kind: Kind, draws: Array, source: str) -> None:
    """A number that no engine gives, as drawn: from rows of the work, with their own spread."""
    draws.setflags(write=False)
    w.got[name] = Got(name, kind, draws, "computed", source, digest(name, draws))


# --- what goes in
def start(task: ChoiceTask) -> Workings:
    """The workings with everything that every course needs: prices, leads, jobs, seasons, how the drive stands."""
    w = condition.workings_of(task)
    row, counted = class_of_drives(), numbers()
    plain = [
        exact("life/fault-mean", "duration", row.fault_mean, "assumed", row.source),
        exact("check/every", "duration", counted.check_every, "assumed", counted.source),
        exact("time/sure", "share", counted.sure, "assumed", counted.source),
        *(exact(f"none/{name}", "share", share, "assumed", "assumed") for name, share in task.none.items()),
    ]
    w.quantities = {**w.quantities, **{one.name: one for one in plain}}
    things = [
        Thing("season/replicates", REPLICATES, "assumed", counted.source),
        Thing("shelf/spare", "there" if "fit a spare" in task.courses else "none", "measured", "the shelf"),
        Thing("road/own", "may go" if task.on_road else "stays off", "measured", "ROAD, as it is judged"),
        Thing("season/window", _window(task), "measured", "the season’s dates; how crops spoil is assumed"),
        Thing("season/workable", _workable(task), task.climate.basis, task.climate.source),
    ]
    w.things = {**w.things, **{one.name: one for one in things}}
    _prices(w)
    _waits(w, task)
    _jobs(w, task)
    w.work_out("season/clock", calls.seasons_ahead, window="season/window", workable="season/workable", crops="season/crops")  # fmt: skip
    w.work_out("season/free", untroubled, clock="season/clock")
    w.work_out("season/free-cost", money.cost_without_trouble, free="season/free", prices="choice/prices")
    return w


def _window(task: ChoiceTask) -> calls.Window:
    works = task.works
    return calls.Window(
        ready=np.array([one.starts * DAY for one in works]),
        grace=np.array([one.grace for one in works]),
        doubling=np.array([one.doubles for one in works]),
        most=np.array([one.most for one in works]),
        ends=np.array([(one.ends + 1) * DAY for one in works]),
        replicates=REPLICATES,
    )


def _workable(task: ChoiceTask) -> calls.Workable:
    days = max(one.ends for one in task.works) + 1
    return calls.Workable(ran.drawn_weather(task.climate, task.seed, task.count * REPLICATES, days))


def _prices(w: Workings) -> None:
    """Prices that hang on others: a drive's own typed price goes before its share of a new one."""
    for name, share in (("used", "used-share"), ("exchange", "exchange-share"), ("deposit", "deposit-share")):
        w.work_out(f"price/{name}", calls.share_of, whole="price/new-drive", share=f"price/{share}")
    for name in ("used", "exchange"):
        w.work_out(f"price/{name}-home", calls.brought_home, price=f"price/{name}", freight="price/freight")
    w.work_out("price/extra-parts", calls.share_of, whole="price/used", share="price/extra-parts-share")
    w.work_out(
        "choice/prices",
        money.all_prices,
        tow="price/tow",
        hour="price/hour-in-season",
        winter_hour="price/hour-off-season",
        used="price/used-home",
        exchange="price/exchange-home",
        deposit="price/deposit",
        seal_kit="price/seal-kit",
        rebuild="price/rebuild-parts",
        extra_parts="price/extra-parts",
        new_drive="price/new-drive",
        hire="price/hire",
        hire_call="price/hire-call",
        spare="price/spare",
        crops="season/crops",
        replicates="season/replicates",
    )


def _waits(w: Workings, task: ChoiceTask) -> None:
    """Leads as found: where there may be none, some draws wait for ever. And the odds, each by luck of its own."""
    for name in ("lead/used", "lead/exchange", "lead/hire"):
        luck = f"luck/{name}"
        given(w, luck, KINDS["share"], own_shares(task.seed, luck, task.count), "drawn")
        w.work_out(f"{name}-found", calls.lead_or_none, lead=name, luck=luck, none=f"none/{name}")
    for name in ("damage", "seen"):
        given(w, f"luck/{name}", KINDS["share"], own_shares(task.seed, f"luck/{name}", task.count), "drawn")
    w.work_out("odds/damage", calls.damage_done, luck="luck/damage", chance="chance/damage", share="share/damage")
    w.work_out("season/waits", calls.all_waits, used="lead/used-found", exchange="lead/exchange-found", parts="lead/parts", kit="lead/seal-kit", hire="lead/hire-found")  # fmt: skip
    w.work_out(
        "season/odds",
        calls.all_odds,
        road="share/road",
        damage="odds/damage",
        unsafe_field="chance/unsafe-field",
        unsafe_road="chance/unsafe-road",
        check_finds="chance/check-finds",
        never_seen="chance/never-seen",
        seen="luck/seen",
    )


def _jobs(w: Workings, task: ChoiceTask) -> None:
    """How long the work takes, from its steps; a night in the shed is no work."""
    for name, network in NETWORKS.items():
        done = _taken(network, task.here, task.seed, task.count)
        source = f"its steps, {network}: minutes of people who did it (trade/steps)"
        given(w, f"job/{name}.takes", KINDS["duration"], _nights(done.minutes * 60), source)
        given(w, f"job/{name}.labour", KINDS["duration"], np.array(done.at_work * 60), source)
    w.work_out("season/jobs", calls.all_jobs, **{f"{name}_{part}": f"job/{name}.{part}" for name in NETWORKS for part in ("takes", "labour")})  # fmt: skip


@lru_cache(maxsize=24)
def _taken(network: str, here: Here, seed: int, count: int) -> Taken:
    """Minutes of a job on all draws of a trouble: the same until the machine or the hands are others.

    Whoever is short of hands for a step finds them, or takes another course: that is said on the Steps sheet.
    """

    def shares(name: str) -> Array:
        return own_shares(seed, f"job/{name}", count)

    work = _job(network, here)
    most = max(step.task.hands for step in work.steps)
    return taken(steps(), work, replace(here, hands=max(here.hands, most)), shares)


def _job(network: str, here: Here):  # type: ignore[no-untyped-def]
    try:
        return job(steps(), network, here)
    except NoWay:
        return job(steps(), network, replace(here, drive="flange", by="saddle"))


def _nights(work: Array) -> Array:
    """Time that work takes by the calendar: a day of it is followed by a night."""
    day = numbers().workday
    whole = np.floor(work / day)
    return np.asarray(whole * DAY + (work - whole * day))


# --- the choice
def made_out(task: ChoiceTask, stopped: Mapping[str, bool]) -> Made:
    """The courses compared, those that a verdict strikes out apart.

    Args:
        task: what it is reckoned from
        stopped: the courses that are struck out before anything is reckoned

    Raises:
        Refused: a number cannot be worked out; says which
    """
    w = start(task)
    free = w["season/free"].draws
    finish = np.asarray(free.finish, float)
    field_hours = sum(float(np.median(np.asarray(w[f"season/crops.{n}.area"].draws) / w[f"season/crops.{n}.rate"].draws)) for n in range(1, len(task.works) + 1)) / HOUR  # fmt: skip
    condition.forecast(w, 1.3 * field_hours)
    condition.other_lives(w)
    condition.spare_lives(w)
    w.work_out(
        "season/common",
        calls.all_common,
        replicates="season/replicates",
        fitted="life/fitted",
        used="life/used",
        used_next="life/used-next",
        spare="life/spare",
        rebuilt="life/rebuilt",
        rebuilt_next="life/rebuilt-next",
        waits="season/waits",
        jobs="season/jobs",
        odds="season/odds",
        shelf="shelf/spare",
    )
    for number, course in enumerate(task.courses, 1):
        _run(w, course, number)
    compare(w, task, stopped)
    return Made(
        w,
        in_order(w, task, stopped),
        _need_by(task),
        _days(task, finish),
        _hours(w, task),
        task.works[0].starts <= 0,
    )


def _run(w: Workings, course: str, number: int) -> None:
    word = Thing(f"{slug(course)}/word", course, "measured", "the course")
    w.things = {**w.things, word.name: word}
    w.work_out(
        f"choice/ran.{number}",
        ran.course_ran,
        course=word.name,
        clock="season/clock",
        common="season/common",
        prices="choice/prices",
        free_cost="season/free-cost",
        check_every="check/every",
        check_finds="chance/check-finds",
        never_seen="chance/never-seen",
        spare="shelf/spare",
        road="road/own",
        next_year="price/next-year",
        replicates="season/replicates",
    )


def compare(w: Workings, task: ChoiceTask, stopped: Mapping[str, bool]) -> None:
    """The courses side by side, and what is told of each."""
    may = money.Admitted(tuple(0 if stopped.get(course) else 1 for course in task.courses))
    if not any(may.all):
        may = money.Admitted(tuple(1 for _ in task.courses))
    w.things = {**w.things, "choice/admitted": Thing("choice/admitted", may, "measured", "the verdicts")}
    w.work_out("choice/compared", money.compared, ran="choice/ran", admitted="choice/admitted", replicates="season/replicates")  # fmt: skip
    by = max(task.works[0].starts, 0) * DAY
    w.quantities = {**w.quantities, "season/begins": exact("season/begins", "duration", by, "measured", "the season’s dates")}  # fmt: skip
    given(w, "lead/none", KINDS["duration"], np.zeros(task.count), "nothing is waited for")
    for number, course in enumerate(task.courses):
        which = Thing(f"{slug(course)}/number", number, "measured", "the course")
        w.things = {**w.things, which.name: which}
        w.work_out(slug(course), money.told, choice="choice/compared", which=which.name)
        w.work_out(f"{slug(course)}/in-time", money.in_time, ran=f"choice/ran.{number + 1}", there=WAITED.get(course, "lead/none"), by="season/begins", sure="time/sure", replicates="season/replicates")  # fmt: skip


def in_order(w: Workings, task: ChoiceTask, stopped: Mapping[str, bool]) -> tuple[CourseMade, ...]:
    made = [_made(w, task, course, bool(stopped.get(course))) for course in task.courses]
    return (*sorted((one for one in made if not one.stopped), key=lambda one: one.mean), *(one for one in made if one.stopped))  # fmt: skip


def _made(w: Workings, task: ChoiceTask, course: str, stopped: bool) -> CourseMade:
    at = slug(course)
    if stopped:
        return CourseMade(course, stopped=True)
    takes = w[f"{at}/in-time.takes"].middle()
    order: date | None = None
    late = False
    if course in ORDERED and math.isfinite(takes):
        left = task.works[0].starts - math.ceil(takes / DAY)
        order = task.today + timedelta(days=left)
        late = left < 0
    return CourseMade(
        course,
        stopped=False,
        mean=w[f"{at}.mean"].middle(),
        fails=w[f"{at}.fails"].middle(),
        unsafe=w[f"{at}.unsafe"].middle(),
        order_by=order,
        too_late=late,
        too_close=bool(np.median(np.asarray(w[f"{at}.too_close"].draws, float))),
    )


def _need_by(task: ChoiceTask) -> date:
    return task.today + timedelta(days=max(task.works[0].starts, 0))


def _days(task: ChoiceTask, finish: Array) -> tuple[date | None, date | None, date | None]:
    """When the last crop is off, if nothing goes wrong."""
    low, middle, high = (
        None if not math.isfinite(at) else task.today + timedelta(days=math.floor(at / DAY))
        for at in np.quantile(finish, (0.1, 0.5, 0.9), method="lower")
    )
    return low, middle, high


def _hours(w: Workings, task: ChoiceTask) -> tuple[float, float, float]:
    """Machine hours to the harvest's end: field hours and what goes on the road."""
    field = sum(np.asarray(w[f"season/crops.{n}.area"].draws) / w[f"season/crops.{n}.rate"].draws for n in range(1, len(task.works) + 1))  # fmt: skip
    ahead = np.asarray(field) * (1 + np.asarray(w["share/road"].draws)) / HOUR
    low, middle, high = (float(at) for at in np.quantile(ahead, (0.1, 0.5, 0.9)))
    return low, middle, high
