"""Which step card a trouble is worked by: its job, and the bands that stand on it, cut when it is begun and never after."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.quantities_of import quantities_of, words_of
from axlewright.plan.reckon.joints import joint
from axlewright.plan.reckon.support import support
from axlewright.plan.steps.bands import Edges, Printed, by_verdicts, gauge_edges, printed
from axlewright.plan.steps.jobs import Here, NoWay, job, plan, size_of
from axlewright.plan.support_of import support_inputs
from axlewright.plan.workings import Refused
from axlewright.quantities import Quantity
from axlewright.trade.networks import Job, weave
from axlewright.trade.steps import By, Edge, Steps
from axlewright.trade.steps_read import steps
from axlewright.yard import Faults, PrintedBand, StepCard, Trouble, Yard

TAKEN_WHEN = frozenset({"brake-at-drive", "half-shaft-out", "split-rim"})
"""What is taken to be so while nobody says: a step too many costs minutes, one too few costs more."""
BY: Mapping[str, By] = {"forks": "saddle", "hook": "hook"}
LITRE, NEWTON_METRE = 1e-3, 1.0
COUNT = 2048  # draws


def here_of(yard: Yard, trouble: Trouble, when: Iterable[str] | None = None) -> Here:
    """What the job of a trouble depends on, as far as it is known."""
    numbers, words = quantities_of(yard, trouble), words_of(yard, trouble)
    mass = numbers.get("machine/mass")
    return Here(
        by=BY.get(words.get("lift-by", ""), "saddle"),
        when=TAKEN_WHEN if when is None else frozenset(when),
        size=size_of(steps(), mass.spread.middle()) if mass else "medium",
    )


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


def figures_of(yard: Yard, trouble: Trouble) -> dict[str, Edge]:
    """Figures that bands are parts of, in the bands' units: what was measured or stands in the book, never a guess."""
    numbers = quantities_of(yard, trouble)
    found: dict[str, Edge] = {}
    for figure, name, unit in (("fill", "oil/volume", LITRE), ("mass", "drive/mass", 1.0)):
        edge = _ends(numbers.get(name), unit)
        if edge:
            found[figure] = edge
    try:
        task = bolt_task(yard, trouble)
        made = joint(task, f"trouble-{trouble.number}/bolts", 1, COUNT) if task else None
    except (Faults, Refused, ValueError):
        made = None
    if made and made.used and made.setting is not None and made.used.low is not None:
        found["torque-window"] = (made.used.low / NEWTON_METRE, made.used.high / NEWTON_METRE)
    return found


def _ends(number: Quantity | None, unit: float) -> Edge | None:
    if number is None or number.basis == "assumed":
        return None
    middle = number.spread.middle() / unit
    return middle, middle


def gauge_of(yard: Yard, trouble: Trouble) -> Edges | None:
    """Edges of the jack gauge's band, in its own unit; None where there is no band: then nothing is lifted by it."""
    try:
        inputs = support_inputs(yard, trouble, 1, COUNT)
        made = support(inputs) if inputs else None
    except (Refused, ValueError):
        return None
    if made is None or made.marks is None or made.inputs.gauge is None or made.inputs.gauge.unit != "bar":
        return None
    return gauge_edges(made.marks, made.inputs.gauge.mark)


def mark_of(yard: Yard, trouble: Trouble) -> float | None:
    """The step of the jack's gauge, where it is known."""
    inputs = support_inputs(yard, trouble, 1, COUNT)
    return inputs.gauge.mark if inputs and inputs.gauge else None


def bands_for(yard: Yard, trouble: Trouble, work: Job) -> tuple[PrintedBand, ...]:
    """The bands of a job as they are printed today, each cut to whole marks of its tool; those that are not known are left out."""
    rows = steps()
    asked = {r.id for step in work.steps for r in step.task.readings}
    figures = figures_of(yard, trouble)
    given = by_verdicts()
    gauge = gauge_of(yard, trouble) if "jack-gauge" in asked else None
    if gauge:
        given["gauge"] = gauge
    marks = {"jack-gauge": mark_of(yard, trouble)} if gauge else {}
    found = []
    for reading in sorted(asked & rows.band.keys()):
        band = rows.band[reading]
        made = None if band.words_go else printed(band, figures, given, marks.get(reading))
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
