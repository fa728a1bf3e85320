"""The rules of work in hand: what a step card, a reading or an after-check names is there, and what was read can be read."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlewright.quantities import NotRead
from axlewright.trade.steps_read import steps
from axlewright.yard.card_values import DONE, PHOTO, UNDONE, asked_at, figures_at, look_of, read_figure, read_value
from axlewright.yard.cards import AfterCheck, Reading, StepCard
from axlewright.yard.faults import closest
from axlewright.yard.picture import Yard
from axlewright.yard.records import Record

Bad = Iterator[tuple[Record, str, str, str]]
"""Record, key, what is wrong, what is right."""


def bad_cards(yard: Yard, today: date | None) -> Bad:
    """Every mistake of the yard's step cards, readings and after-checks."""
    troubles = {one.number for one in yard.troubles}
    told: tuple[StepCard | Reading | AfterCheck, ...] = (*yard.step_cards, *yard.readings, *yard.after_checks)
    ids = {kind: {one.id for one in told if one.what == kind} for kind in (Reading.what, AfterCheck.what)}
    for one in told:
        if one.trouble not in troubles:
            yield one, "trouble", f"There is no trouble {one.trouble}.", closest(one.trouble, map(str, troubles))
        if today and one.on > today:
            yield one, "on", f"{one.on} has not come yet: today is {today}.", f"Write on = {today}, or the day it was."
        if isinstance(one, Reading | AfterCheck) and one.corrects:
            if one.corrects == one.id:
                yield one, "corrects", "It corrects itself.", "Give the correction an id of its own."
            elif one.corrects not in ids[one.what]:
                right = closest(one.corrects, ids[one.what])
                yield one, "corrects", f"There is no {one.what} {one.corrects} to correct.", right
    for card in yard.step_cards:
        yield from _card(card)
    for reading in yard.readings:
        yield from _reading(yard, reading)
    for check in yard.after_checks:
        if look_of(check.look) is None:
            known = [row.id for row in steps().after_checks]
            yield check, "look", f"There is no after-check {check.look}.", closest(check.look, known)


def _card(card: StepCard) -> Bad:
    rows = steps()
    jobs = (*rows.composition, *rows.network)
    if card.job not in jobs:
        yield card, "job", f"There is no job {card.job}.", closest(card.job, jobs)
    if card.drive not in {row.id for row in rows.drives}:
        kinds = [row.id for row in rows.drives]
        yield card, "drive", f"There is no kind of drive {card.drive}.", closest(card.drive, kinds)
    for key, given, known in (
        ("when", card.when, rows.words.when),
        ("kept", card.kept, rows.words.kept),
        ("scope", (card.scope,) if card.scope else (), rows.words.scope),
    ):
        for word in given:
            if word not in known:
                yield card, key, f"There is no {word} here.", closest(word, known)
    for band in card.bands:
        if band.reading not in rows.band:
            yield card, "bands", f"No reading {band.reading} has a band.", closest(band.reading, rows.band)


def _reading(yard: Yard, reading: Reading) -> Bad:
    rows = steps()
    if look_of(reading.step):
        if reading.reading:
            yield (
                reading,
                "reading",
                f"{reading.step} is an after-check.",
                "Leave reading out; value says what was seen.",
            )
        return
    task = rows.task.get(reading.step)
    if task is None:
        known = [*rows.task, *(row.id for row in rows.after_checks)]
        yield reading, "step", f"There is no step {reading.step}.", closest(reading.step, known)
        return
    if reading.reading is None:
        if reading.value.casefold() not in (DONE, UNDONE, PHOTO):
            what = f"{reading.value} says neither that it was done nor that it was not."
            yield reading, "value", what, f'Write value = "{DONE}", or name the reading.'
        return
    asked = asked_at(task.id)
    if reading.reading not in asked:
        right = closest(reading.reading, asked) or "Nothing is read at this step: leave reading out."
        yield reading, "reading", f"{task.id} asks for no {reading.reading}.", right
        return
    try:
        figure = figures_at(task.id).get(reading.reading)
        if figure:
            read_figure(figure, reading.value, yard.title.decimal)
        else:
            read_value(rows.reading[reading.reading], reading.value, yard.title.decimal)
    except NotRead as bad:
        yield reading, "value", str(bad), ""
