"""Draws: a stream of its own for every name, so that a new number moves no other; and what is read off draws.

More draws begin with the same draws; one worker or ten give the same numbers.
"""

from __future__ import annotations

import hashlib
import math
import struct
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from typing import Any, Literal

import numpy as np

from axlewright.kinds import Array, Number

CAREFUL = 0.05  # the share of draws beyond the careful end


def digest(*parts: Any) -> str:
    """A name for these parts: equal parts, equal name, on any machine. Arrays count by their bytes."""
    return hashlib.blake2b(b"".join(map(_bytes, parts)), digest_size=16).hexdigest()


def _bytes(part: Any) -> bytes:
    """A part as bytes that say their type and length, so that no two parts run into one another."""
    if type(part) is str:  # by far the most
        return b"s%d:" % len(part) + part.encode()
    if isinstance(part, Enum):
        return _framed(b"e", f"{type(part).__qualname__}.{part.name}".encode())
    if isinstance(part, str):
        return _bytes(str(part))
    if part is None or isinstance(part, bool | np.bool_):
        return _framed(b"b", str(part).encode())
    if isinstance(part, int | np.integer):
        return _framed(b"i", str(int(part)).encode())
    if isinstance(part, float | np.floating):
        return _framed(b"f", struct.pack("<d", float(part) + 0.0))  # -0.0 is 0.0
    if isinstance(part, np.ndarray):
        if part.dtype == object:
            return _framed(b"l", b"".join(map(_bytes, part.ravel().tolist())))
        plain = np.ascontiguousarray(part, part.dtype.newbyteorder("<"))
        return _framed(b"a", f"{plain.dtype.str}{plain.shape}".encode() + plain.tobytes())
    if isinstance(part, bytes):
        return _framed(b"y", part)
    if isinstance(part, date):
        return _framed(b"d", part.isoformat().encode())
    if is_dataclass(part) and not isinstance(part, type):
        inside = b"".join(_bytes(f.name) + _bytes(getattr(part, f.name)) for f in fields(part))
        return _framed(b"o", _bytes(type(part).__qualname__) + inside)
    if isinstance(part, Mapping):
        return _framed(b"m", b"".join(sorted(_bytes(k) + _bytes(v) for k, v in part.items())))
    if isinstance(part, tuple | list):
        return _framed(b"l", b"".join(map(_bytes, part)))
    message = f"no digest of a {type(part).__name__}: give text, numbers, arrays, dates or frozen dataclasses of them"
    raise TypeError(message)


def _framed(kind: bytes, body: bytes) -> bytes:
    return kind + str(len(body)).encode() + b":" + body


def stream(seed: int, name: str) -> np.random.Generator:
    """The generator that belongs to a name."""
    key = np.frombuffer(bytes.fromhex(digest(seed, name)), "<u8")
    return np.random.Generator(np.random.Philox(key=key))


def own_shares(seed: int, name: str, count: int) -> Array:
    """Shares of 0 to 1 from the stream of a name: the first hundred of a thousand are the hundred."""
    return stream(seed, name).random(count)


def sobol(seed: int, name: str, count: int, width: int) -> Array:
    """Sobol points, scrambled, one row a draw: evener than chance, for integrals over `width` shares.

    The first 2^k rows are evenly spread for each k; more rows begin with the same rows.
    """
    from scipy.stats import qmc

    scramble = np.random.default_rng(int(digest(seed, name), 16))  # one that can be split, as scipy wants
    source = qmc.Sobol(width, scramble=True, seed=scramble)
    points: Array = source.random_base2(max(0, math.ceil(math.log2(max(count, 1)))))[:count]
    return points


def by_ranks(leads: Array, own: Array, correlation: float) -> Array:
    """Shares that go with others: rank correlation as asked, spread as even as before.

    Args:
        leads: shares of the quantity that leads [-]
        own: shares of the quantity's own stream [-]
        correlation: Spearman's rank correlation, -1 to 1 [-]

    Source: normal copula; normal correlation 2 sin(pi/6 x rank correlation), Pearson 1907.
    """
    from scipy.special import ndtr, ndtri

    if not -1 <= correlation <= 1:
        message = f"a correlation lies between -1 and 1, not at {correlation}"
        raise ValueError(message)
    normal = 2 * math.sin(math.pi / 6 * correlation)
    inside = [ndtri(np.clip(u, 1e-16, 1 - 1e-16)) for u in (leads, own)]
    together: Array = ndtr(normal * inside[0] + math.sqrt(max(0.0, 1 - normal**2)) * inside[1])
    return together


def careful(draws: Number, end: Literal["low", "high"], share: float = CAREFUL) -> float:
    """The careful end of draws: one of them, with at most this share of all beyond it."""
    values = np.ravel(np.asarray(draws, float))
    beyond = min(int(share * values.size), values.size - 1)
    place = beyond if end == "low" else values.size - 1 - beyond
    return float(np.partition(values, place)[place])


def ranks(draws: Array) -> Array:
    """Ranks from 0, ties at their mean."""
    _, place, count = np.unique(draws, return_inverse=True, return_counts=True)
    last = np.cumsum(count)
    middle: Array = (last - (count + 1) / 2)[place]
    return middle


def rank_correlation(one: Array, other: Array) -> float:
    """Spearman's rank correlation of two sets of draws; 0 where one of them does not vary."""
    return _correlated(ranks(np.asarray(one, float)), ranks(np.asarray(other, float)))


def _correlated(a: Array, b: Array) -> float:
    """Correlation of two sets of numbers; 0 where one of them does not vary."""
    a, b = a - a.mean(), b - b.mean()
    size = math.sqrt(float(a @ a) * float(b @ b))
    return float(a @ b) / size if size else 0.0


def first_order_share(given: Array, result: Array, slices: int | None = None) -> float:
    """The share of a result's variance that would go if this input were known.

    Draws are cut by the input into slices of equal count; variance within slices against variance of all, both unbiased.
    Draws serve that were made for anything else.

    Source: first-order index S = V(E(Y|X))/V(Y), Saltelli et al., Global Sensitivity Analysis, 2008, ch. 1; from memory.
    """
    x, y = np.ravel(np.asarray(given, float)), np.ravel(np.asarray(result, float))
    total = float(np.var(y, ddof=1)) if y.size > 1 else 0.0
    if total == 0 or x.min() == x.max():
        return 0.0
    count = slices or max(2, min(64, int(math.sqrt(y.size) / 1.5)))
    order = np.argsort(x, kind="stable")
    rising = x[order]
    new = np.concatenate([[False], rising[1:] != rising[:-1]])
    at = np.arange(y.size) * count // y.size
    if new.sum() < count:  # few values: each is a slice of its own
        at = np.cumsum(new)
        count = int(at[-1]) + 1
    place = np.empty(y.size, int)
    place[order] = at
    number = np.bincount(place, minlength=count)
    mean = np.bincount(place, y, minlength=count) / number
    within = float(np.sum((y - mean[place]) ** 2)) / (y.size - count)
    return min(1.0, max(0.0, 1 - within / total))


def what_moves(inputs: Mapping[str, Array], result: Array) -> list[tuple[str, float, float]]:
    """Inputs by how much they move a result: name, first-order share, rank correlation; greatest first."""
    placed = ranks(np.asarray(result, float))
    found = [
        (name, first_order_share(x, result), _correlated(ranks(np.asarray(x, float)), placed))
        for name, x in inputs.items()
    ]
    return sorted(found, key=lambda row: (-row[1], -abs(row[2]), row[0]))
