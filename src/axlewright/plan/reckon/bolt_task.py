"""What the bolts of a joint are reckoned from: what was looked at, what the book says, and the rows behind it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from axlewright.engines.joints.order import BOLTS_MOST
from axlewright.kinds import KINDS
from axlewright.plan.workings import Thing
from axlewright.quantities import Basis, Exact, LogNormal, NotRead, Quantity, Spread, Tenths
from axlewright.quantities.spread import NINE_IN_TEN
from axlewright.trade import irons, lubricants, steels, surfaces, tightening
from axlewright.trade.threads import Known, Thread

BASIS_OF: dict[Known, Basis] = {"read": "book", "memory": "assumed", "practice": "assumed", "assumed": "assumed"}
HAIR = 1e-6  # m: two designations of one size
ENGAGED = (1.1, 1.5, 2.0)  # diameters, where nobody counted: 10, 50 and 90 of a hundred; assumed (shop rule 1.5 to 2)
GUARDED = {"feeler": "does-not-enter", "faces": "bare-and-clean", "set": "none-or-whole-set-new", "locks": "new"}
"""What the sheet itself makes a hold point or a caution of: nobody can answer it before the job."""


@dataclass(frozen=True, slots=True)
class WrenchHeld:
    """A torque wrench of the shed [N m]: its scale, the step of its marks, the unit printed on it."""

    least: float
    greatest: float
    mark: float = 5.0
    unit: str = "N·m"
    checked: bool = True


@dataclass(frozen=True)
class BoltTask:
    """All that is known of the bolts of a joint. What nobody looked at stays empty.

    Attributes:
        thread: as designated
        bolts: how many on the circle
        head_mark: what stands on the heads
        on_threads: what is on the threads
        on_heads: what is under the heads; empty: the same
        turns: full turns that a bolt goes in by hand [1]
        engaged: length of thread engaged, where it was measured instead [m]
        housing: the metal that they are screwed into
        circle: diameter of the bolt circle [m]
        outside: diameter of the flange [m]
        fitted: numbers of the bolts in guide bushes, clockwise from the top; the first goes first
        located_by: bushes, spigot or neither
        book_torque: the book's torque [N m]
        book_grease: what the book means it for
        clamp_needed: preload that each bolt must keep [N]
        wrench: the torque wrench
        reached: numbers of the bolts that a wrench reaches with the wheel on
        lock: how they are locked
        hole: thread of the hole, where the bolts did not come out of it
        again_after: machine hours after which they are looked at again; the book's [s]
        answers: other answers of the line JOINT, by question
    """

    thread: Thread
    bolts: int
    head_mark: str = ""
    on_threads: str = ""
    on_heads: str = ""
    turns: Quantity | None = None
    engaged: Quantity | None = None
    housing: str = "unknown"
    circle: Quantity | None = None
    outside: Quantity | None = None
    fitted: tuple[int, ...] = ()
    located_by: str = ""
    book_torque: Quantity | None = None
    book_grease: str = "as-received"
    clamp_needed: Quantity | None = None
    wrench: WrenchHeld | None = None
    reached: tuple[int, ...] | None = None
    lock: str = "plain"
    hole: Thread | None = None
    again_after: tuple[float, ...] = ()
    answers: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not 1 <= self.bolts <= BOLTS_MOST:
            raise NotRead(str(self.bolts), "how many bolts there are", hint=f"from 1 to {BOLTS_MOST}")
        for number in self.fitted:
            if not 1 <= number <= self.bolts or self.fitted.count(number) > 1:
                wanted = "the numbers of the bolts in bushes, clockwise from the top"
                raise NotRead(str(number), wanted, hint=f"each once, from 1 to {self.bolts}")
        for one, wanted in ((self.book_torque, "the book’s torque"), (self.clamp_needed, "the clamp a bolt must keep")):
            if one is not None and float(one.spread.at(0.5)) <= 0:
                raise NotRead(one.typed or "0", wanted, hint="it is more than nothing; leave it out if it is not known")

    @cached_property
    def marked(self) -> tuple[steels.Grade, str] | None:
        """The grade of the head mark, and what had to be taken; None where nobody looked.

        Raises:
            NotRead: no such mark on this thread
        """
        return steels.read_head_mark(self.head_mark, self.thread) if self.head_mark.strip() else None

    @cached_property
    def grease(self) -> tuple[lubricants.Condition, lubricants.Condition] | None:
        """What is on the threads and under the heads; None where nobody looked.

        Raises:
            NotRead: no such state
        """
        if not self.on_threads.strip():
            return None
        threads = lubricants.condition(self.on_threads)
        return threads, lubricants.condition(self.on_heads) if self.on_heads.strip() else threads

    @cached_property
    def book_state(self) -> lubricants.Condition:
        """What the book means its torque for."""
        return lubricants.condition(self.book_grease)

    @cached_property
    def iron(self) -> irons.Iron:
        return irons.iron(self.housing)

    @property
    def mark(self) -> float:
        """Step of the wrench's marks [N m]."""
        return self.wrench.mark if self.wrench else 5.0

    @property
    def unit(self) -> str:
        """Unit printed on the wrench."""
        return self.wrench.unit if self.wrench else "N·m"

    @property
    def by_turns(self) -> bool:
        return self.turns is not None

    @property
    def housing_guessed(self) -> bool:
        """Whether nobody counted the turns, or named the metal that they go into."""
        return (self.turns is None and self.engaged is None) or bool(self.iron.tensile_low)

    def _same(self, hole: Thread) -> bool:
        """Whether a hole has the bolt's own thread."""
        return abs(hole.diameter - self.thread.diameter) < HAIR and abs(hole.pitch - self.thread.pitch) < HAIR

    def states(self) -> tuple[lubricants.Condition, ...]:
        """Every state that a window is worked out for: the usual ones and those that are met here."""
        met = [*(self.grease or ()), *([self.book_state] if self.book_torque else [])]
        return tuple(s for s in lubricants.conditions().values() if not s.clean_first and (s.usual or s in met))

    def answered(self) -> dict[str, str]:
        """The answers of the line JOINT that can be given before a torque is found."""
        clean = self.grease is not None and not any(s.clean_first for s in self.grease)
        known = {
            **GUARDED,
            "head-mark": "read" if self.marked else "unknown",
            "threads": "seen" if clean else "unknown",
            "torque-from": "known" if self.book_torque or self.clamp_needed else "unknown",
            "grease-and-torque": "a-pair",  # the sheet's torque is the one for this grease
            "bolt-in-hole": "fits" if self.hole is None or self._same(self.hole) else "inch-in-metric",
        }
        if self.located_by:
            known["located-by"] = self.located_by
        elif self.fitted:
            known["located-by"] = "bushes"
        if self.reached is not None:
            known["reach"] = "in-reach" if len(set(self.reached)) >= self.bolts else "out-of-reach"
        if self.wrench:
            error = tightening.wrenches()["checked" if self.wrench.checked else "never-checked"].error
            doubtful = error >= tightening.wrench_use().doubt_limit
            known["wrench-true"] = "doubtful" if doubtful else "yes"
        return {**known, **self.answers}

    def quantities(self, at: str) -> dict[str, Quantity]:
        """Every number under its own name: `at/nut-factor/anti-seize`."""
        given = [*self._bolt(), *self._iron(), *self._wrench()]
        for name in ("turns", "engaged", "circle", "outside", "book_torque", "clamp_needed"):
            one: Quantity | None = getattr(self, name)
            if one is not None:
                given.append(replace(one, name=name.replace("_", "-")))
        for state in self.states():
            factor = LogNormal(state.nut_factor, state.log_sd)
            given.append(_quantity(f"nut-factor/{state.id}", "share", factor, "assumed", state.source))
        return {f"{at}/{one.name}": replace(one, name=f"{at}/{one.name}") for one in given}

    def things(self, at: str) -> dict[str, Thing]:
        """What is no number."""
        named = {f"{at}/bolts": Thing(f"{at}/bolts", self.bolts, "measured", "counted")}
        return named

    def _bolt(self) -> list[Quantity]:
        thread, head = self.thread, surfaces.head_of(self.thread.diameter)
        said = f"{thread.designation}, its standard"
        given = [
            _quantity("diameter", "length", Exact(thread.diameter), "book", said),
            _quantity("pitch", "length", Exact(thread.pitch), "book", said),
            _quantity("tolerance-length", "length", Exact(thread.tolerance_length), "book", said),
            _quantity("washer-face", "length", Exact(head.face), BASIS_OF[head.known], head.source),
            _quantity("clearance-hole", "length", Exact(head.hole), BASIS_OF[head.known], head.source),
            _quantity("bearing-diameter", "length", Exact((head.face + head.hole) / 2), BASIS_OF[head.known], head.source),
        ]  # fmt: skip
        if self.marked:
            grade, _ = self.marked
            given += [
                _quantity("yield-stress", "pressure", Exact(grade.yields), "book", grade.source),
                _quantity("tensile-strength", "pressure", Exact(grade.tensile), "book", grade.source),
                _quantity("proof-stress", "pressure", Exact(grade.proof), "book", grade.source),
            ]
        if self.turns is None and self.engaged is None:
            engaged = Tenths(*(times * thread.diameter for times in ENGAGED))
            given.append(
                _quantity("engaged", "length", engaged, "assumed", "1.1 to 2 diameters: nobody counted the turns")
            )
        return given  # fmt: skip

    def _iron(self) -> list[Quantity]:
        iron = self.iron
        tensile = _from_low(iron.tensile_low, iron.tensile) if iron.tensile_low else Exact(iron.tensile)
        basis = BASIS_OF[iron.known]
        return [
            _quantity("housing-tensile", "pressure", tensile, basis, iron.source),
            _quantity("shear-ratio", "share", _from_low(iron.shear_low, iron.shear_likely), basis, iron.source),
        ]

    def _wrench(self) -> list[Quantity]:
        row = tightening.wrenches()["checked" if not self.wrench or self.wrench.checked else "never-checked"]
        hands, loose, gap = tightening.hands(), tightening.loosening(), tightening.feeler()
        return [
            _quantity("wrench-factor", "share", LogNormal(1.0, row.error), "assumed", row.source),
            _quantity("hard-pull", "force", Exact(hands.hard), "assumed", hands.source),
            _quantity("multiplier-ratio", "share", Exact(hands.multiplier_ratio), "assumed", hands.source),
            _quantity("multiplier-efficiency", "share", Exact(hands.multiplier_efficiency), "assumed", hands.source),
            _quantity("multiplier-arm", "length", Exact(hands.multiplier_arm), "assumed", hands.source),
            _quantity("loosening-times", "share", Exact(loose.greatest), "assumed", loose.source),
            _quantity("feeler", "length", Exact(gap.gap), "assumed", gap.source),
        ]


def _quantity(name: str, kind: str, spread: Spread, basis: Basis, source: str) -> Quantity:
    return Quantity(name, KINDS[kind], spread, basis, source)


def _from_low(low: float, likely: float) -> LogNormal:
    """A spread with this middle, and 5 of a hundred below its low value: what a row calls its careful end."""
    return LogNormal(likely, max(math.log(likely / low) / NINE_IN_TEN, 1e-6))
