"""The First look: what was ticked in, verdicts out, and what each of the five looks would mean; with or without a machine.

    look = first_look(["plug=flakes", "place=wheel-side"], clock=Hours(4730), today=date(2026, 8, 28))
    look.field.word, look.road.word        'only if', 'not known'
    look.lines                             both lines as a sheet prints them
    look.make_safe                         True: Make safe is printed and nothing else
    look.outcome.means, look.outcome.next  the row of the table that fits, and what to do next
    look.looks                             the five in order, each with what every outcome of it would mean
    look.call, look.date                   one telephone call, one date
    look.basis                             of every number in those texts

A tick is `FINDING=GRADE` (trade/findings.toml), `park=ID`, `place=ID` or `wheel=ID` (trade/first_look.toml).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from axlewright.plan.facts import Seen
from axlewright.plan.judge import (
    State,
    Verdict,
    Verdicts,
    Words,
    fresh_hours,
    is_fresh,
    judge_corner,
    spoken,
    standing_looks,
    state_of,
    verdict_lines,
)
from axlewright.sheets import BasisEntry, Day, Piece, Text, VerdictLine
from axlewright.trade.findings import findings
from axlewright.trade.first_look import (
    FirstLook as Row,
)
from axlewright.trade.first_look import (
    Outcome,
    Tick,
    calls,
    first_looks,
    outcome_of,
    said,
    ticks,
)
from axlewright.trade.looks import Look, looks
from axlewright.trade.verdicts import Word
from axlewright.yard import Fault, Faults, Hours, closest

MAKE_SAFE = "Make it safe first. Nothing else is done until it is."
IN_HAND = "The job is not done: go on by its step card, or take its way back."
LISTS = ("park", "place", "wheel")
HAIR = 1e-6  # h: a look to come is newer than one made just now
LONGEST = 40  # letters of something typed that a message repeats
QUICK = (
    "wipe",
    "breather",
)  # looks of five minutes that come before the rest of the answer, where they could change it


@dataclass(frozen=True, slots=True)
class Would:
    """What one outcome of a look would mean, the other looks as they are."""

    outcome: str
    words: str
    row: Outcome
    field: Word
    road: Word


@dataclass(frozen=True, slots=True)
class NextLook:
    """One of the five looks: how it is done, what it showed, and what each outcome of it would mean."""

    look: Look
    shown: tuple[str, ...]  # words of what it showed; none: not looked at
    would: tuple[Would, ...]

    @property
    def differs(self) -> bool:
        """Whether what it shows moves a verdict, or what it means."""
        return len({(one.field, one.road, one.row.means) for one in self.would}) > 1


@dataclass(frozen=True, slots=True)
class FirstLook:
    """The answer of the first half minute."""

    verdicts: Verdicts
    lines: tuple[VerdictLine, VerdictLine]
    parked: tuple[Tick, ...]
    seen: tuple[Seen, ...]  # ticked now
    before: tuple[Seen, ...]  # on record already
    outcome: Outcome
    looks: tuple[NextLook, ...]
    answer: Text
    call: str
    date: Text
    clock: Hours | None
    basis: Mapping[str, BasisEntry]

    @property
    def field(self) -> Verdict:
        return self.verdicts.field

    @property
    def road(self) -> Verdict:
        return self.verdicts.road

    @property
    def everything(self) -> tuple[Seen, ...]:
        """All that the verdicts rest on."""
        return (*self.before, *self.seen)

    @property
    def make_safe(self) -> bool:
        """Whether it stops here: Make safe is printed."""
        return self.verdicts.unsafe

    @property
    def next(self) -> NextLook | None:
        """The first of the five that nobody took and whose outcomes differ; the first at all where none differs."""
        open_ = [one for one in self.looks if not one.shown]
        return next((one for one in open_ if one.differs), open_[0] if open_ else None)


def first_look(
    ticked: Iterable[str] = (),
    *,
    clock: Hours | None = None,
    today: date | None = None,
    before: Iterable[Seen] = (),
    photo: bool = False,
    job_open: bool = False,
) -> FirstLook:
    """What may be done, and what to look at first.

    Args:
        ticked: `FINDING=GRADE`, `park=ID`, `place=ID`, `wheel=ID`; none: nothing was looked at
        clock: what the machine's clock reads, if it was read
        today: the day of the look; None where dates are not wanted
        before: what is on record at this corner already (`plan.facts.seen_at`)
        photo: a photo was taken of what was ticked
        job_open: the corner is raised, or a job at it is not done

    Returns:
        verdicts, the five looks, one call, one date

    Raises:
        Faults: every tick that is none, with the nearest that is
    """
    parked, seen = read_ticks(ticked, photo=photo)
    on_record = tuple(before)
    everything = (*on_record, *seen)
    verdicts = judge_corner(everything, job_open=job_open)
    words = Words(clock)
    lines = verdict_lines(verdicts, words, [tick.words for tick in parked])
    shows = _shows(verdicts.state)
    outcome = outcome_of(_filled(shows))
    five = tuple(_next(row, shows, everything, job_open) for row in first_looks().values())
    return FirstLook(
        verdicts=verdicts,
        lines=lines,
        parked=parked,
        seen=seen,
        before=on_record,
        outcome=outcome,
        looks=five,
        answer=_answer(verdicts, outcome, five),
        call=_call(verdicts, outcome),
        date=_date(verdicts, everything, words, today),
        clock=clock,
        basis=words.basis,
    )


def read_ticks(ticked: Iterable[str], *, photo: bool = False) -> tuple[tuple[Tick, ...], tuple[Seen, ...]]:
    """The park-it-now rows that were ticked, and all ticks as findings seen now, each once.

    Raises:
        Faults: every tick that is none, with the nearest that is
    """
    parked: list[Tick] = []
    pairs: dict[tuple[str, str], None] = {}
    faults: list[Fault] = []
    for one in ticked:
        name, given, value = one.partition("=")
        name, value = name.strip(), value.strip()
        if name in LISTS and value in ticks(name):
            row = ticks(name)[value]
            parked += [row] if name == "park" and row not in parked else []
            pairs |= dict.fromkeys([(row.finding, row.grade), *row.also.items()])
        elif fault := _wrong(name, given, value):
            faults.append(fault)
        else:
            pairs[name, value] = None
    if faults:
        raise Faults(*faults)
    return tuple(parked), tuple(Seen(finding, grade, photo=photo) for finding, grade in pairs)


def _wrong(name: str, given: str, value: str) -> Fault | None:
    known, name, value = [*findings(), *LISTS], _short(name), _short(value)
    if not given:
        return Fault(name or "tick", f"“{name}” says no grade.", "Write FINDING=GRADE, as plug=paste.")
    if name not in known:
        return Fault(name, f"There is no finding {name}.", closest(name, known))
    grades = list(ticks(name)) if name in LISTS else [grade.id for grade in findings()[name].grades]
    if value in grades:
        return None
    near = closest(value, grades)
    every = f"There is {', '.join(grades)}."
    return Fault(name, f"{name} has no grade {value}.", f"{near} {every}" if near.startswith("Did") else every)


def _short(typed: str) -> str:
    return typed if len(typed) <= LONGEST else typed[: LONGEST - 1] + "…"


def findings_of(ticked: Iterable[str]) -> tuple[tuple[str, str, str], ...]:
    """Finding, grade and note of every tick, as a record keeps them; what may be either of two has the tick's own words.

    Raises:
        Faults: as `read_ticks`
    """
    parked, seen = read_ticks(ticked)
    either = {pair: row.words for row in parked if row.also for pair in ((row.finding, row.grade), *row.also.items())}
    return tuple((one.finding, one.grade, either.get((one.finding, one.grade), "")) for one in seen)


# the table of outcomes
def _shows(state: State) -> dict[str, frozenset[str]]:
    """By look, what it showed in the words of the table; nothing where nobody looked, or too long ago."""
    return {
        look.id: frozenset(
            outcome
            for outcome, grades in look.outcomes.items()
            if look.finding in state.fresh and any((look.finding, grade) in state.pairs for grade in grades)
        )
        for look in first_looks().values()
    }


def _filled(shows: Mapping[str, frozenset[str]]) -> dict[str, frozenset[str]]:
    """What nobody looked at, in the words of the table."""
    return {look: shown or frozenset([first_looks()[look].unlooked]) for look, shown in shows.items()}


def _next(row: Row, shows: Mapping[str, frozenset[str]], seen: tuple[Seen, ...], job_open: bool) -> NextLook:
    would = []
    for outcome, grades in row.outcomes.items():
        state = state_of(_looked_again(seen, row.finding, grades[0]), job_open=job_open)
        field, road = spoken(state)
        would.append(Would(outcome, said()[outcome], outcome_of(_filled(_shows(state))), field, road))
    shown = tuple(said()[one] for one in row.outcomes if one in shows[row.id])
    return NextLook(looks()[row.id], shown, tuple(would))


def _looked_again(seen: Iterable[Seen], finding: str, grade: str) -> tuple[Seen, ...]:
    """What would be on record after one more look: what only a better look or two can end stays."""
    before = (replace(one, hours_ago=(one.hours_ago or 0.0) + HAIR) if one.finding == finding else one for one in seen)
    return (*before, Seen(finding, grade))


@dataclass(frozen=True, slots=True)
class Graded:
    """What a grade would mean, everything else as it is."""

    grade: str
    by: str  # dial or eye, where that makes a difference
    words: str
    field: Word
    road: Word
    why: str


def by_grade(look: FirstLook, finding: str) -> tuple[Graded, ...]:
    """What each grade of a finding would mean, everything else as it is."""
    found = []
    for grade in findings()[finding].grades:
        again = _looked_again(look.everything, finding, grade.id)
        judged = judge_corner(again, job_open=look.verdicts.state.job_open)
        said = [row for row in (*judged.field.saying, *judged.road.saying) if (finding, grade.id) in row.named()]
        why = said[0].why if said else judged.field.why
        found.append(Graded(grade.id, grade.by, grade.words, judged.field.word, judged.road.word, why))
    return tuple(found)


# one sentence, one call, one date
def all_clear(verdicts: Verdicts) -> bool:
    """Whether both lines say yes."""
    return (verdicts.field.word, verdicts.road.word) == ("yes", "yes")


def _call(verdicts: Verdicts, outcome: Outcome) -> str:
    if verdicts.stopped and not verdicts.unsafe:
        return "Nobody yet: the step card says who is wanted, and when."
    if all_clear(verdicts):
        return "Nobody: nothing waits for a call."
    return calls()["low-loader" if verdicts.stopped and outcome.field != "no" else outcome.call].words


def _answer(verdicts: Verdicts, outcome: Outcome, five: tuple[NextLook, ...]) -> Text:
    if verdicts.unsafe:
        return (MAKE_SAFE,)
    if verdicts.stopped:
        return (IN_HAND,)
    if all_clear(verdicts):
        return ("Nothing that was looked at stands against it: look again when that grows old.",)
    if not any(one.shown for one in five):
        return ("Half an hour, nothing jacked: wipe, chalk, breather, level, plug.",)
    for one in five:
        if one.look.id in QUICK and not one.shown and any(would.row.n != outcome.n for would in one.would):
            return (f"Next, the {one.look.name.lower()}: {one.look.short[0].lower()}{one.look.short[1:]}",)
    if "rock" in verdicts.state.fresh and "ock" in outcome.next:  # raised and tried already
        return (outcome.means[0].upper() + outcome.means[1:] + ".",)
    return (outcome.answer,)


def _date(verdicts: Verdicts, seen: tuple[Seen, ...], words: Words, today: date | None) -> Text:
    """When the next thing is to be done, and how long what was seen holds."""
    if verdicts.unsafe:
        return ("Now, before anybody starts it.",)
    if verdicts.stopped:
        return ("Before dark: at a rest, its load on wood.",)
    first: Text = ("When what was seen grows old.",) if all_clear(verdicts) else ("Before the next start.",)
    due = [one for one in verdicts.field.conditions if one.within is not None]
    if verdicts.field.word == "only if" and due:
        soonest = words.provided(min(due, key=lambda one: one.left))
        start = soonest[0]
        first = (start[0].upper() + start[1:] if isinstance(start, str) else start, *soonest[1:], ".")
    return (*first, *_holds(seen, words, today))


def _holds(seen: Iterable[Seen], words: Words, today: date | None) -> Text:
    """`What was seen holds 25 h or 14 days: to 4 755 on the engine clock.` What is fresh alone counts."""
    seen = tuple(seen)
    pairs = state_of(seen).pairs
    stood = [one for ones in standing_looks(seen).values() for one in ones if is_fresh(one, pairs)]
    taken = [(one, looks()[findings()[one.finding].look]) for one in stood]
    hours = [fresh - (one.hours_ago or 0.0) for one, look in taken if (fresh := fresh_hours(look, pairs)) is not None]
    days = [look.fresh_days - (one.days_ago or 0.0) for one, look in taken if look.fresh_days is not None]
    limits = [f"{min(hours):g} h"] if hours else []
    limits += [f"{min(days):g} days"] if days else []
    if not limits:
        return ()
    to: list[Piece] = []
    at = words.clock_at(min(hours)) if hours else None
    if at and words.clock:
        to += ["to ", at, f" on the {words.clock.clock} clock"]
    if days and today:
        to += [", or " if to else "to ", Day(on=today + timedelta(days=min(days)))]
    return (f" What was seen holds {' or '.join(limits)}", *((": ", *to) if to else ()), ".")
