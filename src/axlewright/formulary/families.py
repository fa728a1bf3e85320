"""The functions in the order of a list: those by names of the trade first, then engine by engine, module by module."""

from __future__ import annotations

import re
import sys
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from axlewright.formulary.read import Formula
from axlewright.formulary.registry import functions, names, places

FIRST = "bolt-window"
BY_NAME = "by name"
CALLED = {"joints": "bolts and threads", "gravity": "weight"}  # families whose folder has another name than the trade's
ORDER = (BY_NAME, "bolts and threads", "holding", "lifting", "weight")


@dataclass(frozen=True, slots=True)
class Group:
    """The functions of one module, and what it is about."""

    name: str
    words: str
    formulas: tuple[Formula, ...]


@dataclass(frozen=True, slots=True)
class Family:
    name: str
    groups: tuple[Group, ...]

    @property
    def count(self) -> int:
        return sum(len(group.formulas) for group in self.groups)


def family_of(module: str) -> str:
    """The family of a module: `axlewright.engines.joints.threads` is of bolts and threads."""
    _, home, *path = module.split(".")
    return BY_NAME if home == "formulary" else CALLED.get(path[0], path[0])


def group_of(module: str) -> str:
    return module.rsplit(".", 1)[1].replace("_", " ")


@cache
def families() -> tuple[Family, ...]:
    """All functions; imports every engine."""
    found: dict[str, dict[str, list[Formula]]] = defaultdict(lambda: defaultdict(list))
    for one in functions().values():
        module = one.function.__module__
        found[family_of(module)][module].append(one)
    order = [*ORDER, *sorted(found.keys() - set(ORDER))]
    return tuple(
        Family(name, tuple(Group(group_of(m), about(m), first_first(found[name][m])) for m in sorted(found[name])))
        for name in order
        if name in found
    )


def about(module: str) -> str:
    """What a module is about, in its own first line; without what only its author needs."""
    line = (sys.modules[module].__doc__ or "").strip().split("\n")[0]
    return re.sub(r"\s*\([A-E]\d\)| [^.]*\.py\.", "", line)


def first_first(formulas: Iterable[Formula]) -> tuple[Formula, ...]:
    return tuple(sorted(formulas, key=lambda one: (one.name != FIRST, one.name)))


def in_order() -> tuple[Formula, ...]:
    return tuple(one for family in families() for group in family.groups for one in group.formulas)


def beside(name: str) -> tuple[str, ...]:
    """Names of the functions that stand beside one, it among them: of its module, or all by name. Imports nothing."""
    here = places()[name]
    mine = [n for n in names() if places()[n] == here or family_of(here) == family_of(places()[n]) == BY_NAME]
    return tuple(sorted(mine, key=lambda n: (n != FIRST, n)))


def groups() -> tuple[str, ...]:
    """The names of all groups that are not by name, in the order of the list. Imports nothing."""
    modules = {module for module in places().values() if family_of(module) != BY_NAME}
    order = {name: number for number, name in enumerate(ORDER)}
    ranked = sorted(modules, key=lambda m: (order.get(family_of(m), len(order)), family_of(m), m))
    return tuple(group_of(module) for module in ranked)
