"""Which step card a trouble is worked by: its job, and the bands that stand on it, cut when it is begun and never after."""

from __future__ import annotations

from collections.abc import Mapping

from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.draws_of import COUNT, seed_of
from axlewright.plan.reckon.joints import joint
from axlewright.plan.reckon.support import support
from axlewright.plan.steps.bands import Edges, Printed, by_verdicts, gauge_edges, printed
from axlewright.plan.steps.jobs import Here, NoWay, job, plan
from axlewright.plan.support_of import support_inputs
from axlewright.plan.workings import Refused
from axlewright.trade.networks import Job, weave
from axlewright.trade.steps import Edge, Steps
from axlewright.trade.steps_read import steps
from axlewright.yard import Faults, PrintedBand, StepCard, Trouble, Yard

TAKEN_WHEN = frozenset({"brake-at-drive", "half-shaft-out", "split-rim"})
"""What is taken to be so while nobody says: a step too many costs minutes, one too few costs more."""


def jobs_of(rows: Steps, course: str, here: Here) -> tuple[Job, ...]:
    """The jobs of a course that are worked by a step card: the main one first, then the rest in their order.

    The main one is the last of those that raise the corner; where none does, the last.
    """
    try:
        found = plan(rows, course, here)
    except NoWay:
        return ()
    raising = [one for one in found.now if raises(one)]
    main = (raising or list(found.now))[-1]
    return (main, *(one for one in found.all if one is not main))


def raises(work: Job) -> bool:
    """Whether a job lifts the corner off its wheel."""
    return any(step.task.corner in ("jack", "wood") for step in work.steps)


def conditions(rows: Steps, work: str, here: Here) -> tuple[str, ...]:
    """The conditions that a job asks about: what changes its steps."""
    every = job(rows, work, Here(here.drive, here.by, frozenset(rows.words.when)))
    return tuple(dict.fromkeys(step.task.when for step in every.steps if step.task.when))


def job_of(card: StepCard) -> Job:
    """The job of a step card that was begun."""
    return weave(steps(), card.job, card.when, card.kept, card.scope or "")


def window_of(yard: Yard, trouble: Trouble) -> Edge | None:
    """The torque window of the flange bolts for the grease that is on them [N m]; None where nothing is to be set."""
    try:
        task = bolt_task(yard, trouble)
        made = joint(task, f"trouble-{trouble.number}/bolts", seed_of(trouble), COUNT) if task else None
    except (Faults, Refused, ValueError):
        return None
    if made is None or made.used is None or made.setting is None or made.used.low is None:
        return None
    return made.used.low, made.used.high


def gauge_of(yard: Yard, trouble: Trouble) -> Edges | None:
    """Edges of the jack gauge's band, in its own unit; None where there is no band: then nothing is lifted by it."""
    try:
        inputs = support_inputs(yard, trouble, seed_of(trouble), COUNT)
        made = support(inputs) if inputs else None
    except (Refused, ValueError):
        return None
    if made is None or made.marks is None or made.inputs.gauge is None:
        return None
    return gauge_edges(made.marks, made.inputs.gauge.mark or 1.0)


def gauge_read(yard: Yard, trouble: Trouble) -> tuple[float | None, str]:
    """The step of the jack's gauge, where it is known, and the unit printed on it."""
    inputs = support_inputs(yard, trouble, seed_of(trouble), COUNT)
    return (inputs.gauge.mark, inputs.gauge.unit) if inputs and inputs.gauge else (None, "bar")


def bands_for(
    yard: Yard,
    trouble: Trouble,
    work: Job,
    figures: Mapping[str, Edge],
    rock: float | None = None,
    tools: Mapping[str, float] | None = None,
) -> tuple[PrintedBand, ...]:
    """The bands of a job as they are printed today, each cut to whole marks of its tool; those that are not known are left out.

    Args:
        yard: as it stands
        trouble: whose job it is
        work: the job
        figures: what bands are parts of, measured or out of a book, in the bands' units
        rock: the book's limit for rock [m]; that of the verdict rules where there is none
        tools: step of the tool really used, by reading, besides the jack's gauge
    """
    rows = steps()
    asked = {r.id for step in work.steps for r in step.task.readings} & rows.band.keys()
    wanted = {rows.band[reading].of for reading in asked}
    window = window_of(yard, trouble) if "torque-window" in wanted else None
    known = {**figures, **({"torque-window": window} if window else {})}
    given = by_verdicts(rock)
    gauge = gauge_of(yard, trouble) if "jack-gauge" in asked else None
    if gauge:
        given["gauge"] = gauge
    step, unit = gauge_read(yard, trouble) if gauge else (None, "bar")
    marks = {**(tools or {}), **({"jack-gauge": step} if gauge else {})}
    found = []
    for reading in sorted(asked):
        band = rows.band[reading]
        if reading == "jack-gauge":
            band = band.model_copy(update={"unit": unit})
        made = None if band.words_go else printed(band, known, given, marks.get(reading))
        if made:
            found.append(frozen(reading, made))
    return tuple(found)


def frozen(reading: str, band: Printed) -> PrintedBand:
    """A printed band as it is kept: in the unit of its tool."""
    low, high, least, most = (None if marks is None else band.value(marks) for marks in (*band.go, *band.ask))
    return PrintedBand(
        reading=reading, unit=band.unit, mark=band.mark, go_from=low, go_to=high, ask_from=least, ask_to=most
    )  # fmt: skip


def thawed(band: PrintedBand) -> Printed:
    """The same as whole marks, to hold a reading against."""

    def marks(value: float | None) -> int | None:
        return None if value is None else round(value / band.mark)

    go = marks(band.go_from), marks(band.go_to)
    return Printed(band.unit, band.mark, go, (marks(band.ask_from), marks(band.ask_to)))


def by_hand(figure: Edge, reading: str) -> Printed | None:
    """The band of a reading from a figure that was written by hand."""
    band = steps().band[reading]
    return printed(band, {band.of: figure}, {}) if band.of else None
