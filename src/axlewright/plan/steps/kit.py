"""What a course needs: gear and parts along its jobs, what is owned, what is missing and when it comes, what to have near."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal, TypeAlias

from axlewright.trade.networks import Job
from axlewright.trade.steps import Steps

Sort: TypeAlias = Literal["gear", "parts"]
State: TypeAlias = Literal["owned", "coming", "missing", "not said"]


@dataclass(frozen=True, slots=True)
class Have:
    """What the shed has and lacks, by the ids of gear and parts, and the day on which a piece comes.

    Of what stands in none of the three nobody has said anything: it is neither here nor missing.
    """

    owned: frozenset[str] = frozenset()
    lacks: frozenset[str] = frozenset()
    comes: Mapping[str, date] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Need:
    """A piece of gear or a part: where it is first wanted, and whether it is here."""

    id: str
    sort: Sort
    words: str
    job: str
    first: str  # task
    state: State
    comes: date | None = None


@dataclass(frozen=True, slots=True)
class Near:
    """Gear that only a trouble asks for: have it near, or know where it lies."""

    id: str
    words: str
    trouble: str
    chance: float  # of the likeliest trouble that asks for it
    state: State
    comes: date | None = None


@dataclass(frozen=True, slots=True)
class Kit:
    needs: tuple[Need, ...]
    near: tuple[Near, ...]
    hands: int  # the most that one step takes

    def missing(self) -> tuple[Need, ...]:
        """What stops the job until it is here, those without a day first."""
        out = [n for n in self.needs if n.state in {"coming", "missing"}]
        return tuple(sorted(out, key=lambda n: (n.comes is not None, n.comes or date.min)))

    def of_state(self, state: State) -> tuple[Need, ...]:
        return tuple(n for n in self.needs if n.state == state)

    @property
    def complete_on(self) -> date | None:
        """The day on which the last of it comes; None while a piece has no day, or nothing is missing."""
        missing = self.missing()
        days = [n.comes for n in missing if n.comes]
        return max(days) if days and len(days) == len(missing) else None


def kit(rows: Steps, jobs: Sequence[Job], have: Have) -> Kit:
    """The kit of some jobs, each piece once, in the order in which it is first wanted."""
    needs: dict[tuple[Sort, str], Need] = {}
    near: dict[str, Near] = {}
    hands = 0
    for job in jobs:
        for step in job.steps:
            task = step.task
            hands = max(hands, task.hands)
            for gear in task.gear:
                needs.setdefault(
                    ("gear", gear), Need(gear, "gear", rows.words.gear[gear], job.id, task.id, *_state(have, gear))
                )
            for part in task.parts:
                needs.setdefault(
                    ("parts", part), Need(part, "parts", rows.words.parts[part], job.id, task.id, *_state(have, part))
                )
            for branch in task.trouble_branches:
                for gear in branch.gear:
                    if gear not in near or branch.chance > near[gear].chance:
                        near[gear] = Near(gear, rows.words.gear[gear], branch.what, branch.chance, *_state(have, gear))
    only_near = sorted((n for n in near.values() if ("gear", n.id) not in needs), key=lambda n: -n.chance)
    return Kit(tuple(needs.values()), tuple(only_near), hands)


def _state(have: Have, piece: str) -> tuple[State, date | None]:
    if piece in have.owned:
        return "owned", None
    if piece in have.comes:
        return "coming", have.comes[piece]
    return ("missing" if piece in have.lacks else "not said"), None
