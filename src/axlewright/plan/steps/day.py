"""How a day of work ends: at a rest, before the dark, and with a way back from wherever it stops."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal, TypeAlias

from axlewright.plan.steps.jobs import Here, finish
from axlewright.trade.networks import Job, Step
from axlewright.trade.steps import Corner, Load, Rules, Steps, WayBack

LimitBy: TypeAlias = Literal["sunset", "twelve hours", "both"]


@dataclass(frozen=True, slots=True)
class Limit:
    """The moment by which everything rests, and what sets it."""

    at: datetime
    by: LimitBy


def limit(rules: Rules, work_began: datetime, sunset: datetime) -> Limit:
    """The earlier of half an hour before sunset and twelve hours after work began."""
    dark = sunset - timedelta(minutes=rules.day.before_sunset_min)
    tired = work_began + timedelta(hours=rules.day.longest_h)
    return Limit(min(dark, tired), "both" if dark == tired else "sunset" if dark < tired else "twelve hours")


def rests(rules: Rules, corner: Corner, load: Load) -> bool:
    """Whether the day may end on what carries corner and load. Needed, not enough: a step may still forbid it."""
    return corner in rules.rest.corner and load in rules.rest.load


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of steps. A block may only be left at its end; any other piece after each of its steps."""

    name: str
    likely: float  # [min]
    high: float  # [min]
    block: bool
    corner: Corner = "none"  # what carries the corner when it ends
    load: Load = "none"
    steps: tuple[Step, ...] = ()


def pieces(rows: Steps, work: Job, here: Here) -> tuple[Piece, ...]:
    """A job in pieces: its blocks, and between them the runs of steps of one part.

    Raises:
        TooFewHands: a step takes more people than there are
    """
    runs: list[tuple[tuple[Step, ...], bool]] = []
    blocks = {b[0].task.id: b for b in work.blocks()}
    inside = {s.task.id for b in blocks.values() for s in b}
    for step in work.steps:
        if step.task.id in blocks:
            runs.append((blocks[step.task.id], True))
        elif step.task.id not in inside:
            if runs and not runs[-1][1] and runs[-1][0][-1].part == step.part:
                runs[-1] = (*runs[-1][0], step), False
            else:
                runs.append(((step,), False))
    return tuple(
        Piece(
            run[0].task.id,
            finish(rows, run, "likely", here),
            finish(rows, run, "high", here),
            block,
            run[-1].task.corner,
            run[-1].task.load,
            run,
        )
        for run, block in runs
    )


def may_begin(piece: Piece, now: datetime, by: datetime) -> bool:
    """Whether a piece may be begun: a block by its high minutes, a piece that can be left anywhere by its likely ones."""
    return now + timedelta(minutes=piece.high if piece.block else piece.likely) <= by


@dataclass(frozen=True, slots=True)
class DayEnd:
    """Where the day ends: after which piece, when, and on what corner and load rest.

    `refused` is what may not be begun any more, and `latest` when it could have ended; None when all of it is done.
    """

    last: Piece | None
    at: datetime
    refused: Piece | None = None
    latest: datetime | None = None


def first_safe_stop(work: Sequence[Piece], now: datetime, by: datetime) -> DayEnd:
    """The end of the day: pieces go by their likely minutes, and a block is begun only if its high ones still fit."""
    last: Piece | None = None
    for piece in work:
        if not may_begin(piece, now, by):
            return DayEnd(last, now, piece, now + timedelta(minutes=piece.high))
        now += timedelta(minutes=piece.likely)
        last = piece
    return DayEnd(last, now)


def way_back(rows: Steps, piece: Piece) -> WayBack | None:
    """The way back to rest from inside a block; None for what is no block."""
    return rows.way_back.get(piece.steps[0].task.id) if piece.block and piece.steps else None
