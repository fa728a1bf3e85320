"""Holding and lifting from Python: a number, or what is out of range by name; never nan, never an error of the arithmetic."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest

from axlewright.engines.limits import OutOfRange
from axlewright.formulary import formula, names
from axlewright.formulary.call import given_by
from axlewright.formulary.examples import texts_to_try

FAMILIES = ("axlewright.engines.holding", "axlewright.engines.lifting")
OURS = [n for n in names() if formula(n).function.__module__.startswith(FAMILIES)]
SILLY = (0.0, -1.0, 1e30, -1e30, math.nan, math.inf, -math.inf)


def sillier(value: Any) -> Iterator[Any]:
    """The value with one of its numbers, however deep, turned into one that nobody can mean."""
    if isinstance(value, bool | str):
        return
    if isinstance(value, np.ndarray):
        for silly in SILLY:
            drawn = np.array(value, float)
            drawn.flat[0] = silly
            yield drawn
    elif isinstance(value, int):
        yield from (-1, 0, 100)
    elif isinstance(value, float):
        yield from SILLY
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        for part in dataclasses.fields(value):
            for changed in sillier(getattr(value, part.name)):
                yield dataclasses.replace(value, **{part.name: changed})
    elif isinstance(value, tuple):
        for place, one in enumerate(value):
            for changed in sillier(one):
                yield (*value[:place], changed, *value[place + 1 :])
        yield ()
        yield value * 5


def numbers_of(got: Any) -> Iterator[Any]:
    if dataclasses.is_dataclass(got) and not isinstance(got, type):
        for part in dataclasses.fields(got):
            yield from numbers_of(getattr(got, part.name))
    elif isinstance(got, tuple):
        for one in got:
            yield from numbers_of(one)
    elif not isinstance(got, str):
        yield np.asarray(got, float)


@pytest.mark.parametrize("name", OURS)
def test_a_number_or_what_is_out_of_range_by_name(name: str) -> None:
    found = formula(name)
    given = given_by(found, texts_to_try(found))
    for key, value in given.items():
        for silly in sillier(value):
            try:
                got = found.function(**{**given, key: silly})
            except OutOfRange:
                continue
            for number in numbers_of(got):
                assert not np.isnan(number).any(), (key, silly)
