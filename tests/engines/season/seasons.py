"""Random seasons and drives, and one season gone through hour by hour, as a person would on paper."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from axlewright.engines.season import Common, Course, Crop, Job, Jobs, Life, Prices, Recovery, Replacement, Winter

DAY, HOUR, HA = 86400.0, 3600.0, 1e4

CROPS = (
    Crop(90 * HA, 1.6 * HA / HOUR, 0.0, 0.005 / DAY, 3 * DAY, 15 * DAY),
    Crop(40 * HA, 2.1 * HA / HOUR, 15.3 * DAY, 0.008 / DAY, 2 * DAY, 10 * DAY, 0.3),
)

PRICES = Prices(
    tow=800, labour=60 / HOUR, winter_labour=30 / HOUR, used=3500, exchange=8400, deposit=1700, seal_kit=180,
    rebuild=1600, extra_parts=700, damage=14000, hire=110 / HA, hire_call=400, check=20, hold=50,
    crop=np.array([1200, 1500]) / HA, spare=2000, hours_left=3000,
)  # fmt: skip


def weather(rng: np.random.Generator, seasons: int, days: int = 45) -> np.ndarray:
    hours = rng.uniform(4, 11, (seasons, 1)) * HOUR
    return (rng.random((seasons, days)) < rng.uniform(0.4, 0.9, (seasons, 1))) * hours


def drives(rng: np.random.Generator, seasons: int, **changed: Any) -> Common:
    """Everything drawn at random, with leads that may be endless, drives that fail already, and short lives."""

    def about(middle: float, spread: float = 0.6) -> np.ndarray:
        return rng.lognormal(math.log(middle), spread, seasons)

    def life(sound: float) -> Life:
        fails = about(sound) * HOUR
        return Life(fails, fails + about(60, 0.9) * HOUR)

    def replacement(lead: float, none: float, sound: float = 150) -> Replacement:
        waits = np.where(rng.random(seasons) < none, np.inf, about(lead) * DAY)
        return Replacement(waits, life(sound), life(sound))

    def job(days: float, hours: float) -> Job:
        return Job(about(days) * DAY, about(hours) * HOUR)

    fails = np.where(rng.random(seasons) < 0.4, -about(20) * HOUR, about(120) * HOUR)
    fitted = Life(fails, np.maximum(fails, 0) + about(40, 0.9) * HOUR)
    given: dict[str, Any] = {
        "fitted": fitted, "resealed": fitted, "spare": replacement(0.5, 0.3), "used": replacement(4, 0.2),
        "exchange": replacement(8, 0.25), "rebuilt": replacement(7, 0.0),
        "jobs": Jobs(job(1.2, 25), job(2, 32), job(1, 12), job(3, 26)),
        "hire_lead": np.where(rng.random(seasons) < 0.2, np.inf, about(5) * DAY), "kit_lead": about(2) * DAY,
        "road": rng.uniform(0.03, 0.15, seasons), "damage": (rng.random(seasons) < 0.45) * about(0.5),
        "unsafe_field": 0.005, "unsafe_road": 0.1, "seen": rng.random(seasons), "honoured": rng.random(seasons),
        "hire_rate": 1.2,
    }  # fmt: skip
    return Common(**{**given, **changed})


def one(value: Any, season: int) -> float:
    numbers = np.asarray(value, float)
    return float(numbers[season] if numbers.ndim else numbers)


@dataclass
class Page:
    """One season on paper."""

    days: np.ndarray
    crops: tuple[Crop, ...]
    time: float = 0.0
    left: list[float] = field(default_factory=list)
    delayed: list[float] = field(default_factory=list)
    gone: list[float] = field(default_factory=list)
    hired: float = 0.0
    waited: float = 0.0

    def __post_init__(self) -> None:
        self.left = [float(np.asarray(c.area)) for c in self.crops]
        self.delayed = [0.0] * len(self.crops)
        self.gone = [0.0] * len(self.crops)

    @property
    def end(self) -> float:
        return len(self.days) * DAY

    def done(self) -> bool:
        return not any(self.left)

    @property
    def standing(self) -> list[float]:
        """What was never taken off: it stands still, or its own time was over."""
        return [left + gone for left, gone in zip(self.left, self.gone, strict=True)]

    def work(self, budget: float, rate: float = 1.0, until: float = math.inf) -> float:
        """Day by day; the field time that was worked."""
        worked = 0.0
        while self.time < min(self.end, until) and worked < budget and not self.done():
            for n, crop in enumerate(self.crops):
                if self.left[n] and self.time >= crop.ends and all(not area for area in self.left[:n]):
                    self.gone[n], self.left[n] = self.gone[n] + self.left[n], 0.0
            if self.done():
                break
            number = next(n for n, area in enumerate(self.left) if area)
            crop = self.crops[number]
            if self.time < crop.ready:
                self.time = min(float(crop.ready), self.end, until)
                continue
            day = min(int(self.time // DAY), len(self.days) - 1)
            stop = min((day + 1) * DAY, until, float(crop.ends))
            speed = self.days[day] / DAY
            if speed == 0:
                self.time = stop
                continue
            pace = float(np.asarray(crop.rate)) * rate
            can, need, may = (stop - self.time) * speed, self.left[number] / pace, budget - worked
            take = min(can, need, may)
            late = max(day * DAY - float(crop.ready) - float(crop.grace), 0.0)
            lost = min(float(crop.loss) * late * (1 + late / (2 * float(crop.doubling))), float(crop.most))
            self.delayed[number] += pace * take * lost
            self.left[number] = 0.0 if take == need else self.left[number] - pace * take
            worked += take
            self.time = stop if take == can else self.time + take / speed
        if not self.done() and worked < budget:
            self.time = min(self.end, until)
        return worked


def found_by_checks(course: Course, fails: float, lets_go: float, luck: float) -> float:
    """Check by check: the luck of all checks in one number, as in throwing until it falls."""
    every, power = float(course.checks.interval), float(course.checks.power)
    if math.isinf(every):
        return math.inf
    missed, hours = 1.0, 0.0
    while True:
        hours += every
        if hours >= lets_go:
            return math.inf
        if hours >= fails:
            missed *= 1 - power
            if 1 - luck > missed:
                return hours


def on_paper(
    days: np.ndarray,
    crops: tuple[Crop, ...],
    common: Common,
    course: Course,
    recovery: Recovery,
    winter: Winter,
    i: int,
) -> dict[str, float]:
    """A course of the own machine through season i: what `run_course` must find for it."""
    page, count = (
        Page(days, crops),
        dict.fromkeys(("labour", "winter_labour", "tows", "used", "rebuilds", "hire_calls"), 0.0),
    )
    per = 1 + one(common.road, i)
    fails, lets_go = one(course.life.fails, i), one(course.life.lets_go, i)
    failed, down, ordered = 0, min(one(course.ready, i), page.end), 0.0
    spare = float(one(common.spare.lead, i) < math.inf and course.source != "spare")
    page.time = down

    def hired(call_late: bool, since: float) -> float:
        if not call_late:
            return math.inf
        return since + (0.0 if recovery.quoted else float(recovery.wait)) + one(common.hire_lead, i)

    ready = one(course.ready, i)
    if course.meanwhile:
        failed += _meanwhile(page, common, course, winter, count, i)
        down = page.waited
    elif hired(ready > recovery.wait, 0.0) < ready:
        page.time = down = min(hired(True, 0.0), page.end)
        before = sum(page.standing)
        page.work(math.inf, one(common.hire_rate, i))
        page.hired, count["hire_calls"] = before - sum(page.standing), 1.0
        return _told(page, count, failed, down)
    found = found_by_checks(course, fails, lets_go, one(common.seen, i))
    budget = min(found, lets_go) / per
    worked = page.work(budget)
    broken, turn = found > lets_go, 0
    while worked >= budget * (1 - 1e-12) and not page.done() and turn < 2:
        since = ordered = page.time
        jobs = common.jobs
        job = jobs.field_swap if broken else jobs.swap
        source = recovery.source
        if source == "spare" and spare:
            spare = 0.0
        elif source == "spare":
            source = "used"
        if one(getattr(common, source).lead, i) == math.inf:
            source = "rebuilt"
        drive = getattr(common, source)
        lead, people = one(drive.lead, i), one(job.labour, i)
        if source == "rebuilt":
            lead, people = lead + one(jobs.rebuild.takes, i), people + one(jobs.rebuild.labour, i)
            count["rebuilds"] += winter.let_go if broken else winter.failing
        count["used"] += source == "used"
        count["tows"] += broken
        failed += broken
        back = max(since, ordered + lead) + one(job.takes, i)
        other = max(hired(back - ordered > recovery.wait, ordered), since)
        on = min(back, other, page.end)
        down += on - since
        page.time = on
        if other < back:
            count["winter_labour"] += people
            count["hire_calls"] += 1
            before = sum(page.standing)
            page.work(math.inf, one(common.hire_rate, i))
            page.hired += before - sum(page.standing)
            break
        count["labour"] += people
        life = drive.life if turn == 0 else drive.next_life
        turn, broken = turn + 1, True
        budget = math.inf if turn == 2 else one(life.lets_go, i) / per
        worked = page.work(budget)
    return _told(page, count, failed, down)


def _meanwhile(page: Page, common: Common, course: Course, winter: Winter, count: dict[str, float], i: int) -> int:
    """On with the old drive until the other comes; whether it let go before."""
    page.time, per = 0.0, 1 + one(common.road, i)
    comes, budget = min(one(course.arrives, i), page.end), one(common.fitted.lets_go, i) / per
    worked = page.work(budget, until=comes)
    broken = worked >= budget * (1 - 1e-12) and not page.done()
    jobs = common.jobs
    if broken:
        count["tows"] += 1
        count["labour"] += one(jobs.field_swap.labour, i) - one(jobs.swap.labour, i)
    if one(course.now.rebuilds, i):
        suffered = winter.let_go if broken else winter.failing if worked * per >= one(common.fitted.fails, i) else 1.0
        count["rebuilds"] += suffered - one(course.now.rebuilds, i)
    if not page.done():
        stands = one(course.ready, i) - one(course.arrives, i)
        if broken:
            stands += max(one(jobs.field_swap.takes, i) - one(jobs.swap.takes, i), 0.0)
        on = min(max(page.time, comes) + stands, page.end)
        page.waited, page.time = on - page.time, on
    return int(broken)


def _told(page: Page, count: dict[str, float], failed: int, down: float) -> dict[str, float]:
    return {
        **count, "finish": math.inf if any(page.standing) else page.time, "failed": failed, "down": down, "hired": page.hired,
        **{f"delayed {n}": lost for n, lost in enumerate(page.delayed)},
        **{f"standing {n}": area for n, area in enumerate(page.standing)},
    }  # fmt: skip
