"""What records tell the sheets of the work: numbers with their basis, clocks, hours, words of a finding, the book's lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from axlewright.plan.reckon.joints import Joint
from axlewright.plan.sheet.fill import Clocks
from axlewright.plan.sheet.frame import Number
from axlewright.plan.steps.hours import Taken, branches, odds, taken
from axlewright.plan.steps.jobs import Here
from axlewright.plan.work_of import Work
from axlewright.quantities.draws import own_shares
from axlewright.trade.cards import cards
from axlewright.trade.findings import findings
from axlewright.trade.networks import Job
from axlewright.trade.steps import Steps
from axlewright.trade.steps_read import steps
from axlewright.yard import Trouble, Yard
from axlewright.yard.hours import rate

Told = Sequence[str | Number]
HOUR = 3600.0
DRAWS, SEED = 512, 1  # of a job's hours: middle and tenths to a twentieth; the same for every trouble
SOURCE = "docs/engines/steps.md: minutes of each step as draws, troubles in"
PSI_STEP = 50.0  # of a gauge in psi whose marks nobody read


def number_of(work: Work, name: str, tool: str = "") -> Number | None:
    """A number of the trouble as a sheet shows it, in the unit of its tool where it has one; None where nobody knows it."""
    q = work.numbers.get(name)
    if q is None:
        return None
    low, high = q.spread.ends()
    return Number(f"work/{name}", q.kind.name, q.spread.middle(), q.basis, q.source, low, high, tool)


def worked_on(work: Work, joint: Joint | None) -> tuple[tuple[str, Told], ...]:
    """What a step card is for: nuts, bolts, oil, masses, ground, clock, each as it is known."""
    rows: list[tuple[str, Told]] = []

    def add(label: str, *parts: str | Number | None) -> None:
        told = [part for part in parts if part]
        if told:
            spaced = [part for one in told for part in (", ", one)][1:]
            rows.append((label, spaced))

    words = work.words
    add("wheel nuts", _many(work, "nuts"), number_of(work, "nuts/torque"), words.get("nuts/state"))
    setting = None
    if joint is not None and joint.setting is not None:
        setting = Number(
            "work/bolts/setting", "torque", joint.setting, "computed", "the Bolts sheet, for the grease named there"
        )
    add("flange bolts", _many(work, "bolts"), setting)
    add("drive oil", number_of(work, "oil/volume"), oil_told(work))
    add("wheel, drive", number_of(work, "wheel/mass"), number_of(work, "drive/mass"))
    add(
        "ground along, across",
        number_of(work, "walk-round/slope-along", "%"),
        number_of(work, "walk-round/slope-across", "%"),
    )
    clock = work.yard.hours(work.trouble.corner.machine, work.today)
    if clock:
        add(f"{clock.clock} clock", f"{clock}".partition(" (")[0])
    return tuple(rows)


def _many(work: Work, what: str) -> str:
    """How many of which thread: `10 × M18`."""
    count, thread = work.numbers.get(f"{what}/count"), work.words.get(f"{what}/thread", "")
    many = f"{round(count.spread.middle())}" if count else ""
    return " × ".join(filter(None, (many, thread)))


def road_speed(work: Work) -> Number | None:
    """The book's greatest speed on the road, where it is slower than the cab card's own."""
    book = number_of(work, "road/speed")
    return book if book and book.si < cards().cab.speed_km_h / 3.6 else None


def oil_told(work: Work) -> str:
    return work.words.get("oil/kind", "")


def hours_told(rows: Steps, job: Job, here: Here) -> Told:
    """How long such a job takes, troubles in, and how many come."""
    made = hours_of(job.id, here, job.left_out)
    low, middle, high = (made.at(share) for share in (0.1, 0.5, 0.9))

    def hours(which: str, value: float) -> Number:
        return Number(
            f"steps/{job.id}/hours-{which}",
            "duration",
            value * HOUR,
            "computed",
            SOURCE,
            low * HOUR,
            high * HOUR,
            digits=2,
        )

    may = branches(job)
    mean = odds(may)
    return (
        "Half of such jobs, their troubles counted, are done in ",
        hours("50", middle),
        ", one in ten in ",
        hours("10", low),
        "; one in ten takes more than ",
        hours("90", high),
        f". {_troubles(len(may))} in {100 * mean.at_least_one:.0f} of 100 jobs, at a cost of ",
        Number(f"steps/{job.id}/troubles", "duration", mean.mean_minutes * 60.0, "computed", SOURCE, digits=2),
        " on the mean; the gear for it is on the Kit sheet.",
    )


def _troubles(many: int) -> str:
    """How many troubles a job may have, before the share of jobs that have one."""
    return "One trouble may come, and comes" if many == 1 else f"{many} troubles may come, and one or more comes"


@lru_cache(maxsize=64)
def hours_of(job: str, here: Here, left_out: frozenset[str]) -> Taken:
    """A job's hours as draws: they hang on the job and the people alone, so each is drawn once."""
    from axlewright.plan.steps.jobs import job as by_name

    return taken(steps(), by_name(steps(), job, here), here, lambda name: own_shares(SEED, name, DRAWS))


def clocks_at_set_down(work: Work) -> Clocks | None:
    """Both clocks as they stood when the machine was set down; None before that, or where nobody read the engine's."""
    engine = engine_at_set_down(work.yard, work.trouble)
    if engine is None:
        return None
    read = _read_at_set_down(work.yard, work.trouble)
    second = next((hours for clock, hours in read.items() if clock != "engine"), None)
    return Clocks(engine, second, rate(work.yard.clock_log(work.trouble.corner.machine).pairs)[1])


def engine_at_set_down(yard: Yard, trouble: Trouble) -> float | None:
    """The engine's clock when the machine was set down: as kept with its after-checks, else as read that day [h]."""
    if not any(s.stage == "set down" for s in yard.stages_of(trouble.number)):
        return None
    kept = next((c.set_down for c in yard.after_checks if c.trouble == trouble.number), None)
    return _read_at_set_down(yard, trouble).get("engine") if kept is None else kept


def _read_at_set_down(yard: Yard, trouble: Trouble) -> Mapping[str, float]:
    """The clocks that were read on the day of set-down [h]."""
    down = next(s.on for s in yard.stages_of(trouble.number) if s.stage == "set down")
    log = yard.clock_log(trouble.corner.machine)
    return {r.hours.clock: r.hours.hours for r in log.reads if r.on == down and not r.hours.about}


def why_it_came_off(work: Work, most: int = 2) -> str:
    """What was seen of the drive that came off: the last of each look that was not good."""
    seen = {f.finding: f for f in work.yard.findings_of(work.trouble.number) if _of_the_old(work, f.drive)}
    bad = [findings()[f.finding].grade(f.grade) for f in seen.values()]
    return "; ".join([grade.seen for grade in bad if not grade.good][:most])


def _of_the_old(work: Work, drive: str | None) -> bool:
    off = work.outgoing
    return drive is None or off is None or drive == off.id


def book_of_towing(work: Work) -> Mapping[str, Told]:
    """What the machine's own book says on towing, by the line it stands on."""
    speed = number_of(work, "tow/speed")
    said: dict[str, str | Number | None] = {
        "undone, and where": work.words.get("tow/undone"),
        "steers without engine": work.words.get("tow/steers"),
        "greatest speed": speed,
    }
    return {line: (words,) for line, words in said.items() if words}


def our_fit(work: Work) -> Mapping[str, Told]:
    """What our own drive measures, by the words of the seller's list."""
    said: dict[str, list[str | Number | None]] = {
        "flange and bolt circle": [number_of(work, "bolts/outside"), number_of(work, "bolts/circle")],
        "bolts: number and size": [_many(work, "bolts")],
        "guide bushes: which two holes": [work.words.get("bolts/fitted")],
        "wheel flange: studs and circle": [_many(work, "nuts")],
        "brake: side and kind": ["at the drive" if work.words.get("drive/brake") == "at-the-drive" else None],
    }
    found: dict[str, Told] = {}
    for what, parts in said.items():
        known = [part for part in parts if part]
        if known:
            found[what] = [part for one in known for part in (", ", one)][1:]
    return found


def gauge_tool(work: Work) -> Steps:
    """The rows of the work with the jack gauge's band in the unit that is printed on it."""
    unit = work.words.get("jack/gauge", "bar")
    if unit not in ("psi",):
        return work.rows
    bands = tuple(
        band.model_copy(update={"unit": unit, "mark": PSI_STEP}) if "jack-gauge" in band.readings else band
        for band in work.rows.bands
    )
    return replace(work.rows, bands=bands)
