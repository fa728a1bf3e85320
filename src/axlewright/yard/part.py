"""Whether a change breaks a rule, without looking at records that it cannot touch.

A yard of twenty thousand findings is looked over in half a second; one more reading touches one machine's clocks and a
few names. `part_of` picks what the rules can look at when they judge the new records; over that part the same rules run.
Where it cannot tell, or finds anything, the whole yard is looked over: so nothing is refused or let through by the part
that the whole would not (a law in the tests).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from typing import Any

from axlewright.yard.cards import Reading
from axlewright.yard.faults import Fault
from axlewright.yard.moves import Move
from axlewright.yard.order import in_order
from axlewright.yard.picture import PLACE_OF, Yard
from axlewright.yard.records import Answer, ClockReading, Corner, Design, Drive, Finding, Machine, Record, Trouble
from axlewright.yard.rules import mistakes
from axlewright.yard.seasons import Season
from axlewright.yard.taken_back import TakenBack

THINGS = (Machine, Design, Drive, Trouble, Season)
ELSEWHERE = {"finding", "clock", "reading", "answer", "move", "taken back", *(m.what for m in THINGS)}
"""Sorts that are picked by more than being new."""


def broken(before: Yard, wanted: Yard, new: Sequence[Record], today: date | None) -> tuple[Fault, ...]:
    """The mistakes that a change brings in.

    Args:
        before: the yard without it
        wanted: the yard with it
        new: the records of it that were not kept yet
        today: no record may speak of a later day; None where nobody may ask the clock
    """
    if keeps_the_rules(before, wanted, new, today):
        return ()
    found = mistakes(wanted, today, only=new)
    if found:
        return found
    old = set(mistakes(before, today))  # a yard may have become wrong by a rule that came later
    return tuple(one for one in mistakes(wanted, today) if one not in old)


def keeps_the_rules(before: Yard, wanted: Yard, new: Sequence[Record], today: date | None) -> bool:
    """Whether it can be told from a part of the yard that a change breaks no rule; if not, look over all of it."""
    part = part_of(before, wanted, new)
    return part is not None and not mistakes(part, today)


def part_of(before: Yard, wanted: Yard, new: Sequence[Record]) -> Yard | None:
    """The part of a yard that decides whether new records keep the rules; None: all of it."""
    for one in new:
        new_trouble = isinstance(one, Trouble) and not any(one.id == old.id for old in before.troubles)
        if isinstance(one, TakenBack) or not (one.adds or new_trouble):
            return None
    return _Part(wanted, new).yard()


@dataclass
class _Part:
    """What of a yard is picked, by name and by machine whose clocks count."""

    wanted: Yard
    new: Sequence[Record]
    clocks: set[str] = field(default_factory=set)
    machines: set[str] = field(default_factory=set)
    drives: set[str] = field(default_factory=set)
    designs: set[str] = field(default_factory=set)
    troubles: set[int] = field(default_factory=set)
    seasons: set[str] = field(default_factory=set)

    def yard(self) -> Yard | None:
        """The part; None where a correction reaches over from one machine or drive to another."""
        self.places = {one.number: one.corner.machine for one in self.wanted.troubles}
        self._whose()
        if self._reached_over():
            return None
        told = {
            **{PLACE_OF[what]: self._of(what) for what in ("finding", "clock", "reading")},
            **{place: self._named_too(what) for what, place in PLACE_OF.items() if what not in ELSEWHERE},
            "answers": self._answers(),
        }
        moves = self._closed([*self.new, *(one for records in told.values() for one in records)])
        if self._moved_over(moves):
            return None
        return self._with_things({**told, "moves": moves})

    def _whose(self) -> None:
        """The machines whose clocks the new records speak of, and the drives that ever sat there with all their machines."""
        for one in self.new:
            if isinstance(one, ClockReading):
                self.clocks.add(one.machine)
            elif isinstance(one, Finding | Reading) and (one.hours is not None or one.corrects):
                self.clocks |= {self._machine_of(one)} - {""}
            elif isinstance(one, Move):
                self.drives.add(one.drive)
                if isinstance(one.to, Corner):
                    self.clocks.add(one.to.machine)
        if not self.clocks and not self.drives:
            return
        sat: dict[str, set[str]] = {one.id: {_machine(one.sits)} - {""} for one in self.wanted.drives_written}
        for move in self.wanted.moves:
            sat.setdefault(move.drive, set()).update({_machine(move.to)} - {""})
        for drive in self.drives:
            self.clocks |= sat.get(drive, set())
        mine = [drive for drive, places in sat.items() if places & self.clocks]
        self.drives.update(mine)
        for drive in mine:
            self.clocks |= sat[drive]

    def _of(self, what: str) -> tuple[Any, ...]:
        """The records of the machines that count, with new ones of none."""
        mine = [one for machine in self.clocks for one in self.wanted.clocked.get(f"{what} {machine}")]
        there = {id(one) for one in mine}
        return in_order(what, [*mine, *(one for one in self.new if one.what == what and id(one) not in there)])

    def _reached_over(self) -> bool:
        """Whether a correction reaches from a machine that counts to one that does not, or the other way."""
        for one in self.wanted.corrections:
            if isinstance(one, Finding | ClockReading | Reading):
                here = self._machine_of(one) in self.clocks
                others = self.wanted.known.get(f"{one.what} {one.corrects}")
                if not others or any((self._machine_of(other) in self.clocks) != here for other in others):
                    return True
        return False

    def _machine_of(self, one: Finding | ClockReading | Reading) -> str:
        if isinstance(one, Finding):
            return _machine(one.corner)
        return one.machine if isinstance(one, ClockReading) else self.places.get(one.trouble, "")

    def _moved_over(self, moves: tuple[Move, ...]) -> bool:
        """Whether a correction reaches from a drive that counts to one that does not, or the other way."""
        ids = {one.id for one in moves}
        every = (one for one in self.wanted.moves if one.corrects)
        return any((one.corrects in ids) != (one.drive in self.drives) for one in every)

    def _closed(self, told: Iterable[Record]) -> tuple[Move, ...]:
        """Pick what these name, what that names, and so on; the moves of all drives that were picked."""
        self._names(told)
        while True:
            before = len(self.troubles), len(self.drives)
            moves = tuple(one for one in self.wanted.moves if one.drive in self.drives)
            self._names(one for one in self.wanted.troubles if one.number in self.troubles)
            self._names(moves)
            if before == (len(self.troubles), len(self.drives)):
                return moves

    def _named_too(self, what: str) -> tuple[Any, ...]:
        """New records of a sort, and those that they correct."""
        new = [one for one in self.new if one.what == what]
        named = (str(getattr(one, "corrects", None)) for one in new)
        old = [one for name in named for one in self.wanted.known.get(f"{what} {name}")]
        return in_order(what, {id(one): one for one in (*new, *old)}.values()) if new else ()

    def _answers(self) -> tuple[Answer, ...]:
        about = {one.about for one in self.new if isinstance(one, Answer)}
        return tuple(one for one in self.wanted.answers if one.about in about) if about else ()

    def _names(self, records: Iterable[Record]) -> None:
        """What these records name is picked too."""
        picked: dict[str, set[Any]] = {
            "machine": self.machines,
            "second": self.machines,
            "drive": self.drives,
            "design": self.designs,
            "season": self.seasons,
            "trouble": self.troubles,
            "number": self.troubles,
        }
        for one in records:
            for key in _naming(one.__class__):
                named = getattr(one, key)
                if key in ("corner", "to"):
                    self.machines.add(_machine(named))
                elif named is not None:
                    picked[key].add(named)

    def _with_things(self, told: dict[str, Any]) -> Yard:
        w = self.wanted
        drives = tuple(one for one in w.drives_written if one.id in self.drives)
        self.designs |= {one.design for one in drives if one.design}
        designs = tuple(one for one in w.designs if one.id in self.designs)
        self.machines |= {_machine(one.sits) for one in drives} | self.clocks
        self.machines |= {corner.machine for one in designs for corner in one.fits}
        return Yard(
            w.title,
            machines=tuple(one for one in w.machines if one.id in self.machines),
            designs=designs,
            drives_written=drives,
            troubles=tuple(one for one in w.troubles if one.number in self.troubles),
            seasons=tuple(one for one in w.seasons if one.id in self.seasons),
            seen=w.seen,
            **told,
        )


@cache
def _naming(model: type[Record]) -> tuple[str, ...]:
    """The keys of a record that name other things."""
    keys = ("corner", "to", "machine", "second", "drive", "design", "season", "trouble")
    here = tuple(key for key in keys if key in model.model_fields)
    return (*here, "number") if model is Trouble else here


def _machine(place: Any) -> str:
    return place.machine if isinstance(place, Corner) else ""
