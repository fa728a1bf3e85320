"""Seasons a block at a time: more of them at once no longer fit beside the processor, and cost more each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np

BLOCK = 10_240  # seasons


def blocks_of(seasons: int) -> list[slice]:
    """All seasons, a block at a time."""
    return [slice(first, min(first + BLOCK, seasons)) for first in range(0, seasons, BLOCK)]


def rows_of(value: Any, rows: slice, many: int) -> Any:
    """The same with these seasons alone: of every array that has a row a season its rows."""
    if rows == slice(0, many):
        return value
    if isinstance(value, np.ndarray):
        return value[rows] if value.ndim and len(value) == many else value
    if isinstance(value, tuple):
        return tuple(rows_of(one, rows, many) for one in value)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: rows_of(getattr(value, f.name), rows, many) for f in fields(value)})
    return value


def joined(parts: Sequence[Any], sizes: Sequence[int]) -> Any:
    """One of what its blocks came to; a number that stands for all seasons of a block is written out where others differ."""
    first = parts[0]
    if len(parts) == 1 or all(one is first for one in parts):
        return first
    if is_dataclass(first) and not isinstance(first, type):
        return type(first)(**{f.name: joined([getattr(one, f.name) for one in parts], sizes) for f in fields(first)})
    if isinstance(first, tuple):
        return tuple(joined(same, sizes) for same in zip(*parts, strict=True))
    rows = [np.ndim(one) > 0 and len(one) == size for one, size in zip(parts, sizes, strict=True)]
    if any(rows):
        widest = max((np.shape(one)[1:] for one, full in zip(parts, rows, strict=True) if full), key=len)
        return np.concatenate([np.broadcast_to(one, (size, *widest)) for one, size in zip(parts, sizes, strict=True)])
    return first
