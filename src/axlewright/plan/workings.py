"""The workings of a trouble: every number with how it came about. The trace is made by the call, never written by hand."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from hashlib import blake2b
from typing import Any, Literal

import numpy as np

from axlewright.engines.limits import OutOfRange
from axlewright.formulary import Formula, Slot, read
from axlewright.formulary.slots import kind_of_structure
from axlewright.kinds import Array, Kind
from axlewright.quantities import Basis, Exact, Quantity, Spread, by_ranks, careful, digest, own_shares
from axlewright.quantities.draws import CAREFUL

MEMO_BYTES = 64 * 2**20  # of results kept for all 'what if' of one trouble


class Refused(Exception):
    """A number that cannot be worked out.

    Attributes:
        name: of the number
        because: a sentence, with the name of the input that is to blame
        at: that input's own name, where it is one
        bad: what the engine said
    """

    def __init__(self, name: str, because: str, at: str = "", bad: OutOfRange | None = None) -> None:
        self.name, self.because, self.at, self.bad = name, because, at, bad
        super().__init__(f"{name}: {because}")


@dataclass(frozen=True, slots=True)
class Thing:
    """An input that is no number: timber, legs, a thread, a yes. It counts by its digest and is the same in all draws."""

    name: str
    value: Any
    basis: Basis
    source: str


@dataclass(frozen=True, slots=True, eq=False)
class Got:
    """A number of the workings: its draws and all that is to be said of it.

    A result of several fields is kept whole too, as the dataclass it is: an engine may take it so.
    """

    name: str
    kind: Kind
    draws: Any  # an array, one value a draw; a dataclass or another thing where the kind is no quantity
    basis: Basis
    source: str
    key: str
    made_of: tuple[str, ...] = ()
    beside: Got | None = None  # the computed value, where a measured one stands in its place
    told: list[tuple[float, float, float]] = field(default_factory=list, repr=False)  # middle and ends, once asked
    given: Spread | None = None  # of a number that was given: it is told as it was given, the same on every sheet

    def at(self, share: float) -> float:
        """The draw with this share of all below it."""
        return careful(self.draws, "low", share)

    def middle(self) -> float:
        return self._told()[0]

    def ends(self) -> tuple[float, float]:
        """The careful ends, 5 and 95 of a hundred."""
        return self._told()[1:]

    def _told(self) -> tuple[float, float, float]:
        """Middle and careful ends: every sheet asks all three, so the draws are put in order once."""
        if not self.told and self.given is not None:
            self.told.append((self.given.middle(), *self.given.ends()))
        if not self.told:
            rising = np.sort(np.ravel(np.asarray(self.draws, float)))
            half, beyond = rising.size // 2, min(int(CAREFUL * rising.size), rising.size - 1)
            middle = rising[half] if rising.size % 2 else (rising[half - 1] + rising[half]) / 2
            self.told.append((float(middle), float(rising[beyond]), float(rising[-1 - beyond])))
        return self.told[0]


class Memo:
    """Results by key, the least lately used dropped first when they grow too large."""

    def __init__(self, most: int = MEMO_BYTES) -> None:
        self.most, self.size = most, 0
        self._kept: dict[str, tuple[Any, int]] = {}

    def __len__(self) -> int:
        return len(self._kept)

    def get(self, key: str) -> Any:
        found = self._kept.pop(key, None)
        if found is None:
            return None
        self._kept[key] = found  # now the last to go
        return found[0]

    def put(self, key: str, value: Any) -> Any:
        size = sum(array.nbytes for array in arrays_in(value)) + 512
        self._kept[key] = (value, size)
        self.size += size
        while self.size > self.most and len(self._kept) > 1:
            self.size -= self._kept.pop(next(iter(self._kept)))[1]
        return value


def arrays_in(value: Any) -> Iterator[Array]:
    """All arrays of a result."""
    if isinstance(value, np.ndarray):
        yield value
    elif isinstance(value, tuple):
        for part in value:
            yield from arrays_in(part)
    elif dataclasses.is_dataclass(value):
        kind: type = type(value)
        for name in _names_of(kind):
            yield from arrays_in(getattr(value, name))


@lru_cache(maxsize=512)
def _names_of(kind: type) -> tuple[str, ...]:
    return tuple(part.name for part in dataclasses.fields(kind))


@lru_cache(maxsize=8192)
def _key(quantity: Quantity, seed: int, count: int) -> str:
    return digest(quantity, seed, count)


def _call_key(function: Callable[..., Any], given: list[tuple[str, Got]]) -> str:
    """The name of a call: the function and what it is given. Keys and names hold no line break, so a join is safe."""
    parts = [function.__module__, function.__qualname__]
    for slot, got in given:
        parts += (slot, got.key)
    return blake2b("\n".join(parts).encode(), digest_size=16).hexdigest()


def held_at(quantity: Quantity, end: Literal["low", "high"], share: float = CAREFUL) -> Quantity:
    """A quantity at its careful corner: one value, its source says so."""
    value = float(quantity.spread.at(share if end == "low" else 1 - share))
    return replace(quantity, spread=Exact(value), source=f"{quantity.source}; held at its {end} end")


@dataclass(slots=True)
class Workings:
    """All numbers of one trouble, on common draws."""

    quantities: Mapping[str, Quantity]
    seed: int
    count: int
    things: Mapping[str, Thing] = field(default_factory=dict)
    goes_with: Mapping[str, tuple[str, float]] = field(
        default_factory=dict
    )  # name -> the name it follows, rank correlation
    memo: Memo = field(default_factory=Memo)  # shared by all 'what if' of one trouble; never on disk
    got: dict[str, Got] = field(default_factory=dict)
    refused: dict[str, Refused] = field(default_factory=dict)

    def __getitem__(self, name: str) -> Got:
        """A number worked out before, or a quantity drawn now from a stream of its own, so that a new one moves no other.

        Raises:
            Refused: it was to be worked out and could not be
            KeyError: nobody gave it and nobody worked it out: a mistake of the program
        """
        found = self.got.get(name)
        if found is None:
            if name in self.quantities:
                found = self._drawn(self.quantities[name])
            elif name in self.things:
                found = _kept(self.things[name])
            elif refusal := self.refused.get(name) or self.refused.get(name.rpartition(".")[0]):
                raise refusal
            else:
                message = f"{name} is no quantity of this trouble, and was not worked out before"
                raise KeyError(message)
            self.got[name] = found
        return found

    def __contains__(self, name: str) -> bool:
        return name in self.got or name in self.quantities or name in self.things

    def shares(self, name: str) -> Array:
        """The shares of 0 to 1 that a quantity is drawn by."""
        own = own_shares(self.seed, name, self.count)
        leader = self.goes_with.get(name)
        return own if leader is None else by_ranks(self.shares(leader[0]), own, leader[1])

    def _drawn(self, quantity: Quantity) -> Got:
        key = _key(quantity, self.seed, self.count)
        if quantity.name in self.goes_with:
            key = digest(key, self._leaders(quantity.name))
        draws = self.memo.get(key)
        if draws is None:
            exactly = isinstance(quantity.spread, Exact)  # then no shares need be drawn
            draws = np.full(self.count, quantity.spread.at(0.5)) if exactly else np.array(quantity.spread.at(self.shares(quantity.name)), float)  # fmt: skip
            draws.setflags(write=False)
            self.memo.put(key, draws)
        return Got(quantity.name, quantity.kind, draws, quantity.basis, quantity.source, key, given=quantity.spread)

    def _leaders(self, name: str) -> tuple[tuple[str, float], ...]:
        leader = self.goes_with.get(name)
        return () if leader is None else (leader, *self._leaders(leader[0]))

    def work_out(self, name: str, function: Callable[..., Any], **takes: str) -> Got:
        """Call an engine on named numbers; the result knows its kind, its source and what it was made of.

        A structure may be taken by its own name, or by the names of its parts: `centre="body"` from `body.x`, `body.y`,
        `body.z`. A result with several fields is kept as `name.field` too. Where a quantity stands under a result's own
        name, it was measured: it wins from there on, and the computed one stays beside it.

        Raises:
            Refused: an input is out of range; says which
            TypeError: an input of the wrong kind, or one too few or too many: a mistake of the program
        """
        formula = read(function)
        try:
            given = self._given(name, formula, takes)
            key = _call_key(function, given)
            result = self.memo.get(key)
            if result is None:
                result = self.memo.put(key, self._called(name, formula, given, takes))
        except Refused as no:
            if name in self.quantities:  # measured: it needs no working out
                return self[name]
            self.refused[name] = no
            self.got.pop(name, None)
            raise
        if formula.structure is None:
            return self._keep(
                Got(name, formula.gives[0].kind, result, "computed", formula.source, key, tuple(takes.values()))
            )
        return self._keep_parts(name, formula, result, key, tuple(takes.values()))

    def _given(self, name: str, formula: Formula, takes: Mapping[str, str]) -> list[tuple[str, Got]]:
        """What each slot gets, of the right kind."""
        given, left, known = [], len(takes), self.got
        for slot in formula.takes:
            slot_name = slot.name
            source = takes.get(slot_name)
            if source is None:
                if slot.needed:
                    message = f"{name}: {formula.name} takes {slot.name}, which was not given"
                    raise TypeError(message)
                continue
            left -= 1
            got = known.get(source) or (self[source] if slot.form != "structure" else self._structure(slot, source))
            if got.kind is not slot.kind and got.kind != slot.kind and not (slot.many and got.kind.name == "many"):
                message = f"{name}: {slot.name} wants a {slot.kind.name}, {source} is a {got.kind.name}"
                raise TypeError(message)
            given.append((slot_name, got))
        if left:
            message = f"{name}: {formula.name} takes no {', '.join(set(takes) - {s.name for s in formula.takes})}"
            raise TypeError(message)
        return given

    def _structure(self, slot: Slot, source: str) -> Got:
        """A structure by its own name, or made of named parts; many of them by number."""
        if source in self:
            return self[source]
        if slot.many:
            one = replace(slot, many=False)
            parts: list[Got] = []
            while self._known(f"{source}.{len(parts) + 1}"):
                parts.append(self._structure(one, f"{source}.{len(parts) + 1}"))
            if not parts:
                return self[source]  # refuses
            value: Any = tuple(part.draws for part in parts)
        else:
            named = [s for s in slot.fields if s.needed or f"{source}.{s.name}" in self]
            parts = [
                self._structure(s, f"{source}.{s.name}") if s.form == "structure" else self[f"{source}.{s.name}"]
                for s in named
            ]
            for part_slot, part in zip(named, parts, strict=True):
                if part.kind != part_slot.kind:
                    message = (
                        f"{part.name} is a {part.kind.name}; a {slot.kind.name} wants a {part_slot.kind.name} there"
                    )
                    raise TypeError(message)
            value = slot.type(**{s.name: part.draws for s, part in zip(named, parts, strict=True)})
        key = digest(*[part.key for part in parts])
        return Got(source, slot.kind, value, "computed", "put together", key, tuple(part.name for part in parts))

    def _known(self, name: str) -> bool:
        """Whether this name, or a part of it, is known."""
        names = (*self.got, *self.quantities, *self.things)
        return name in self or any(known.startswith(f"{name}.") for known in names)

    def _called(self, name: str, formula: Formula, given: list[tuple[str, Got]], takes: Mapping[str, str]) -> Any:
        """The engine's answer, its arrays frozen."""
        whole = {slot.name for slot in formula.takes if slot.form == "whole"}
        try:
            result = formula.function(
                **{slot: _whole(slot, got) if slot in whole else got.draws for slot, got in given}
            )
        except OutOfRange as bad:
            at = takes.get(bad.what, "")
            because = f"{at}{str(bad).removeprefix(bad.what)}" if at else f"{formula.name}: {bad}"
            raise Refused(name, because, at, bad) from bad
        if formula.structure is None and not formula.many:
            result = np.asarray(result)
            if result.ndim == 0:
                result = np.full(self.count, result)
        for array in arrays_in(result):
            if array.dtype.kind == "f" and np.isnan(np.vdot(array, array)):  # squares: one nan makes a nan of the sum
                message = f"{name}: {formula.name} gave a number that is none"
                raise FloatingPointError(message)
            array.setflags(write=False)
        return result

    def _keep(self, computed: Got) -> Got:
        """Keep a result, under a measured one where there is one."""
        measured = self.quantities.get(computed.name)
        kept = computed
        if measured is not None:
            if measured.kind != computed.kind:
                message = f"{computed.name} is a {computed.kind.name}, and was measured as a {measured.kind.name}"
                raise TypeError(message)
            kept = replace(self._drawn(measured), beside=computed)
        self.got[computed.name] = kept
        self.refused.pop(computed.name, None)
        return kept

    def _keep_parts(self, name: str, formula: Formula, result: Any, key: str, made_of: tuple[str, ...]) -> Got:
        """Keep each field of a result, and the whole with what was measured of it in its place."""
        measured: dict[str, Got] = {}
        for slot in formula.gives:
            value = getattr(result, slot.name)
            if slot.form == "quantity" and not slot.many:
                value = np.broadcast_to(np.asarray(value), (self.count,)) if np.ndim(value) == 0 else np.asarray(value)
            part = Got(
                f"{name}.{slot.name}", slot.kind, value, "computed", formula.source, f"{key}.{slot.name}", made_of
            )
            kept = self._keep(part)
            if kept.beside is not None:
                measured[slot.name] = kept
        if measured:
            result = replace(result, **{field_name: got.draws for field_name, got in measured.items()})
            key = digest(key, *[part for field_name, got in measured.items() for part in (field_name, got.key)])
        assert formula.structure is not None
        whole = Got(name, kind_of_structure(formula.structure), result, "computed", formula.source, key, made_of)
        self.got[name] = whole
        self.refused.pop(name, None)
        return whole

    def what_if(self, *changed: Quantity | Thing) -> Workings:
        """The same trouble with other inputs, on the same draws: nothing worked out yet, all results still at hand."""
        quantities = {q.name: q for q in changed if isinstance(q, Quantity)}
        things = {t.name: t for t in changed if isinstance(t, Thing)}
        return replace(
            self, quantities={**self.quantities, **quantities}, things={**self.things, **things}, got={}, refused={}
        )


def _kept(thing: Thing) -> Got:
    value = thing.value
    if isinstance(value, bool | np.bool_):
        kind = Kind("yes-no", "-")
    elif isinstance(value, int):
        kind = Kind("count", "1")
    elif isinstance(value, str):
        kind = Kind("word", "-")
    else:
        kind = Kind("many", "-") if isinstance(value, tuple) else kind_of_structure(type(value))
    return Got(thing.name, kind, value, thing.basis, thing.source, digest(thing.value))


def _whole(slot: str, got: Got) -> int:
    """A whole number: one that does not vary."""
    values = np.unique(np.asarray(got.draws, float))
    if values.size != 1 or values[0] != round(float(values[0])):
        message = f"{slot} wants one whole number, {got.name} varies"
        raise TypeError(message)
    return int(values[0])
