"""The rules of moves: what a move names is there, it goes on from the one before, and no corner holds two drives at once."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import pairwise

from axlewright.yard.faults import closest
from axlewright.yard.hours import spell
from axlewright.yard.moves import Move, Stay, overlaps
from axlewright.yard.picture import Yard
from axlewright.yard.records import Corner, Drive, Record

Found = Iterator[tuple[Record, str, str, str]]


def bad_moves(yard: Yard, doubted: Collection[int] = ()) -> Found:
    """Every mistake of the yard's moves: the record, its key, what is wrong, what would be right.

    Args:
        yard: the picture
        doubted: the `id()` of records that are new, and doubted before others
    """
    drives = {one.id: one for one in yard.drives_written}
    ids = {one.id for one in yard.moves}
    for move in yard.moves:
        if move.drive not in drives:
            yield move, "drive", f"There is no drive {move.drive}.", closest(move.drive, drives)
        if move.trouble is not None and move.trouble not in {one.number for one in yard.troubles}:
            yield move, "trouble", f"There is no trouble {move.trouble}.", "Leave it out, or name one that is there."
        if isinstance(move.to, Corner):
            yield from _corner(yard, move, move.to)
        if move.corrects is not None and (move.corrects not in ids or move.corrects == move.id):
            yield move, "corrects", f"There is no other move {move.corrects} to correct.", closest(move.corrects, ids)
    for name, lived in yard.lives.items():
        for before, after in pairwise(lived):
            yield from _goes_on(drives[name], before, after)
    for first, second in overlaps(stay for lived in yard.lives.values() for stay in lived):
        yield from _two(drives, first, second, doubted)


def bad_warranties(yard: Yard) -> Found:
    """A warranty is on a drive that is there; of two that correct, each corrects another."""
    drives, ids = {one.id for one in yard.drives_written}, {one.id for one in yard.warranties}
    for one in yard.warranties:
        if one.drive not in drives:
            yield one, "drive", f"There is no drive {one.drive}.", closest(one.drive, drives)
        if one.corrects is not None and (one.corrects not in ids or one.corrects == one.id):
            yield one, "corrects", f"There is no other warranty {one.corrects} to correct.", closest(one.corrects, ids)


def _corner(yard: Yard, move: Move, corner: Corner) -> Found:
    machine = next((one for one in yard.machines if one.id == corner.machine), None)
    if machine is None:
        right = closest(corner.machine, [one.id for one in yard.machines])
        yield move, "to", f"There is no machine {corner.machine}.", right
    elif corner.place not in machine.corners:
        yield move, "to", f"{machine.name} has no drive at {corner.place}.", f"It has {' and '.join(machine.corners)}."


def _goes_on(drive: Drive, before: Stay, after: Stay) -> Found:
    """A move goes on from where the drive was, and its hours do not run back."""
    move = after.move
    assert move is not None
    if before.since is not None and move.on < before.since:
        what = f"{drive.name} came to {before.sits} on {before.since}, after this move of {move.on}."
        yield move, "on", what, "Put one of the two days right."
    if before.sits == after.sits:
        yield move, "to", f"{drive.name} sits at {after.sits} already.", "Say where it went, or leave the move out."
    came = before.hours
    if came and move.hours is not None and move.hours + move.about < came.hours - came.about:
        what = f"{spell(move.hours)} h of its own is less than the {spell(came.hours)} h it had when it came to {before.sits}."
        yield move, "hours", what, "A drive’s own hours never run back."


def _two(drives: dict[str, Drive], first: Stay, second: Stay, doubted: Collection[int]) -> Found:
    """Of two drives at one corner the new one is doubted; where neither is new, the one that came later."""

    def kept(stay: Stay) -> Record:
        return stay.move or drives[stay.drive]

    if id(kept(second)) not in doubted and id(kept(first)) in doubted:
        first, second = second, first
    what = f"{first.drive} sits at {second.sits} too."
    right = 'One of them is on the "shelf" or "bench", or is "away".'
    yield kept(second), "to" if second.move else "sits", what, right
