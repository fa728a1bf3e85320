"""How far the work of a step card came, by its readings alone.

Nothing is marked as passed anywhere: a step counts as done when somebody wrote so, all before it is done and its own
readings are there; a hold besides only while every reading it asks for lies inside its printed band and whoever must
have seen it is named. So no order of writing, and no line added to a file, takes work past a hold.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from axlewright.plan.in_hand.card import by_hand, job_of, thawed
from axlewright.plan.steps.bands import Printed, Says, said
from axlewright.quantities import NotRead
from axlewright.trade.networks import Card, Job, Step
from axlewright.trade.steps import Hold, Steps, Task
from axlewright.trade.steps import Reading as Asked
from axlewright.trade.steps_read import steps
from axlewright.yard import Answer, Reading, StepCard, Trouble, Yard
from axlewright.yard.asked import answers_of, ticks
from axlewright.yard.card_values import DONE, PHOTO, figures_at, read_figure, read_value

WALKED = "walk-round"
FROM_THE_WALK_ROUND = {"slope-long": "walk-round/slope-along", "slope-cross": "walk-round/slope-across"}
"""Readings that the walk-round gives, by the question that it answers."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading as it stands: what was typed, the value in the tool's unit, and what its band says to it.

    `says` is nothing where the reading has no band; `band` is None where a number's band was never printed.
    """

    reading: str
    typed: str
    value: float | str
    says: Says | None
    band: Printed | None
    who: str
    time: str
    record: Reading | None = None


@dataclass(frozen=True, slots=True)
class Want:
    """What is missing before a step counts as done: of a reading, of a signature, or a step before it."""

    step: str
    reading: str
    words: str


def two_people(hold: Hold) -> bool:
    """Whether a hold takes a second person, by name: one that is shown by a look always does."""
    return hold.shown_by == "second look" or " then " in hold.who or " and " in hold.who


@dataclass(frozen=True)
class Worked:
    """A step card with all that was written by it."""

    card: StepCard
    job: Job
    records: tuple[Reading, ...]  # of this trouble, standing, the oldest first
    given: Mapping[str, Answer]  # what the walk-round measured, by reading
    decimal: Literal[".", ","] = "."

    @property
    def rows(self) -> Steps:
        return steps()

    @cached_property
    def steps(self) -> Mapping[str, Step]:
        return {step.task.id: step for step in self.job.steps}

    @cached_property
    def cards(self) -> Mapping[str, tuple[Step, ...]]:
        """The steps of each card that stand on its sheets, by part; the job's own under no name."""
        return {card.part: shown_on(card) for card in self.job.cards}

    @cached_property
    def bands(self) -> Mapping[str, Printed]:
        """Bands as they were printed, and those of figures that were written by hand where none was."""
        found = {band.reading: thawed(band) for band in self.card.bands}
        for task in {step.task.id for step in self.job.steps}:
            for figure in figures_at(task):
                written = self._newest(task, figure)
                if written is None:
                    continue
                for reading, band in self.rows.band.items():
                    if band.of == figure and reading not in found:
                        made = by_hand(read_figure(band, written.value, self.decimal), reading)
                        if made:
                            found[reading] = made
        return found

    def _newest(self, step: str, reading: str | None) -> Reading | None:
        return self._by_step.get((step, reading))

    @cached_property
    def _by_step(self) -> Mapping[tuple[str, str | None], Reading]:
        """The newest record of each reading; by step for what says that the step was done."""
        found: dict[tuple[str, str | None], Reading] = {}
        for one in self.records:
            if one.value != PHOTO:
                found[one.step, one.reading] = one
        return found

    @cached_property
    def taken(self) -> Mapping[str, Taken]:
        """The newest of each reading, wherever it was written; what the walk-round measured where nobody read again."""
        found = {name: self._walked(name, answer) for name, answer in self.given.items()}
        for one in self.records:
            if one.reading and one.reading in self.rows.reading:
                made = self._read(one)
                if made:
                    found[one.reading] = made
        return found

    def reading(self, name: str) -> Asked:
        """A reading of the trade, in the unit that stands on this card: that of the gauge really used."""
        row, band = self.rows.reading[name], self.bands.get(name)
        return row.model_copy(update={"unit": band.unit}) if band and band.unit != row.unit else row

    def _walked(self, reading: str, answer: Answer) -> Taken:
        value = read_value(self.reading(reading), answer.value, self.decimal)
        size = abs(value) if isinstance(value, float) else value
        band = self.bands.get(reading)
        return Taken(reading, answer.value, size, self._says(reading, size), band, answer.who, "", None)

    def _read(self, one: Reading) -> Taken | None:
        assert one.reading
        try:
            value = read_value(self.reading(one.reading), one.value, self.decimal)
        except NotRead:
            return None
        size = abs(value) if isinstance(value, float) and one.reading in FROM_THE_WALK_ROUND else value
        says = self._says(one.reading, size)
        return Taken(one.reading, one.value, size, says, self.bands.get(one.reading), one.who, one.time, one)

    def _says(self, reading: str, value: float | str) -> Says | None:
        band = self.rows.band.get(reading)
        return said(band, self.bands.get(reading), value) if band else None

    # what counts as done
    @cached_property
    def done(self) -> Mapping[str, Reading | None]:
        """The steps that count as done, each with the record that says so; the walk-round's without one."""
        found: dict[str, Reading | None] = {}
        for step in self.job.steps:
            task = step.task
            if step.part == WALKED and WALKED in {s.part for s in self.job.steps} - self._shown_parts:
                found[task.id] = None
                continue
            record = self._newest(task.id, None)
            if record is None or record.value.casefold() != DONE:
                continue
            if all(before in found for before in step.after) and not self._own_wants(task, record):
                found[task.id] = record
        return found

    @cached_property
    def _shown_parts(self) -> frozenset[str]:
        return frozenset(step.part for shown in self.cards.values() for step in shown)

    def wants(self, task_id: str) -> tuple[Want, ...]:
        """All that is missing before a step may count as done, but that somebody writes so."""
        record = self._newest(task_id, None)
        before = self.open_before(task_id)
        waits = tuple(Want(one.task.id, "", f"{self.name(one.task.id)} is not done.") for one in before[:1])
        return (*waits, *self._own_wants(self.steps[task_id].task, record))

    def open_before(self, task_id: str) -> tuple[Step, ...]:
        """The steps before this one that are not done, in card order."""
        before = self.job.before[task_id]
        return tuple(step for step in self.job.steps if step.task.id in before and step.task.id not in self.done)

    def holds_before(self, task_id: str) -> tuple[Step, ...]:
        """The holds before this step that are not passed."""
        return tuple(step for step in self.open_before(task_id) if step.task.hold)

    @cached_property
    def needed(self) -> frozenset[str]:
        """The readings without which a step is not done: those on a card's front, and those that a hold asks for."""
        asked = {name for step in self.job.steps for name in self.job.asked(step.task)}
        return frozenset(asked | {r.id for card in self.job.cards for r in card.readings})

    def _own_wants(self, task: Task, record: Reading | None) -> tuple[Want, ...]:
        """What a step itself wants: its readings, and for a hold their bands and who saw it."""
        found = [
            Want(task.id, r.id, f"{r.quantity[0].upper()}{r.quantity[1:]}: nobody has read it.")
            for r in task.readings
            if r.id in self.needed and r.id not in self.taken
        ]
        if task.hold:
            found += self._hold_wants(task, record)
        return tuple(dict.fromkeys(found))

    def _hold_wants(self, task: Task, record: Reading | None) -> Iterable[Want]:
        hold = task.hold
        assert hold
        for reading in self.job.asked(task):
            what = self.rows.reading[reading].quantity
            words = f"{what[0].upper()}{what[1:]}"
            taken = self.taken.get(reading)
            if taken is None:
                yield Want(task.id, reading, f"{words}: nobody has read it.")
            elif taken.band is None and not isinstance(taken.value, str):
                yield Want(task.id, reading, f"{words}, {taken.typed}: it has no band to be held against.")
            elif taken.says != "go on":
                yield Want(task.id, reading, f"{words}, {taken.typed}: outside its band.")
        if two_people(hold):
            first, second = (record.who, record.seen_by) if record else ("", "")
            if not second:
                yield Want(task.id, "seen_by", "A second person looks, by name.")
            elif second.casefold() == first.casefold():
                yield Want(task.id, "seen_by", f"{second} did it: the second look is somebody else’s.")

    # names and places
    def place(self, task_id: str) -> tuple[str, int]:
        """On which card a step stands, and its number there."""
        for part, shown in self.cards.items():
            for number, step in enumerate(shown, 1):
                if step.task.id == task_id:
                    return part, number
        return WALKED, 0

    def name(self, task_id: str) -> str:
        """`Step 29, Hold: gauge inside its band`."""
        part, number = self.place(task_id)
        title = self.steps[task_id].task.title
        if not number:
            return f"The walk-round, {title}"
        return f"Step {number}{f' of the card {part}' if part else ''}, {title}"

    def at(self, part: str, number: int) -> Step | None:
        """The step of this number on a card."""
        shown = self.cards.get(part, ())
        return shown[number - 1] if 1 <= number <= len(shown) else None

    @property
    def now(self) -> Step | None:
        """Where the job's own card stands: its first step that is not done; None when all of it is."""
        return next((step for step in self.cards[""] if step.task.id not in self.done), None)

    @property
    def at_rest(self) -> bool:
        """Whether the work may stop here: the last step done leaves corner and load at rest."""
        last = [step.task for step in self.job.steps if step.task.id in self.done]
        return not last or last[-1].end_day

    def readings_at(self, task: Task) -> tuple[str, ...]:
        """All that a step's page asks for: its own readings, then those that its hold asks for."""
        own = [r.id for r in task.readings]
        return tuple(dict.fromkeys([*own, *self.job.asked(task)]))

    def front(self, part: str = "") -> tuple[str, ...]:
        """The readings on the front of a card: seven at most."""
        return tuple(r.id for card in self.job.cards if card.part == part for r in card.readings)

    def figure_of(self, reading: str) -> str:
        """The figure that a reading's band waits for, and that may be written by hand; nothing where it has its band."""
        band = self.rows.band.get(reading)
        return band.of if band and band.of and reading not in self.bands else ""


def begun(yard: Yard, number: int) -> StepCard | None:
    """The step card that holds for a trouble: the newest."""
    return next((card for card in reversed(yard.step_cards) if card.trouble == number), None)


def worked(yard: Yard, trouble: Trouble) -> Worked | None:
    """How far the step card of a trouble came; None while none was begun."""
    card = begun(yard, trouble.number)
    if card is None:
        return None
    answers = answers_of(yard, trouble)
    given = {
        reading: answers[name]
        for reading, name in FROM_THE_WALK_ROUND.items()
        if name in answers and ticks(answers[name])
    }
    records = tuple(one for one in yard.standing_readings if one.trouble == trouble.number)
    return Worked(card, job_of(card), records, given, yard.title.decimal)


def shown_on(card: Card) -> tuple[Step, ...]:
    """The steps of a card that stand on its sheets: the walk-round has a list of its own."""
    return tuple(step for step in card.steps if step.part != WALKED) or card.steps
