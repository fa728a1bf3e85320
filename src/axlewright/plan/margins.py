"""A margin: what a thing can bear over what is asked of it, draw by draw. It says no word; `plan/judge` does."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from axlewright.kinds import Array
from axlewright.plan.workings import Got
from axlewright.quantities import careful


@dataclass(frozen=True, slots=True)
class Margin:
    """Capacity and demand of one thing at one stage of the work."""

    what: str
    stage: str
    capacity: Got
    demand: Got
    told: dict[float, float] = field(default_factory=dict, repr=False, compare=False)  # by share, once asked

    def __post_init__(self) -> None:
        if self.capacity.kind != self.demand.kind:
            message = (
                f"margin {self.what}: {self.capacity.name} is a {self.capacity.kind.name}, "
                f"{self.demand.name} a {self.demand.kind.name}"
            )
            raise TypeError(message)

    def ratios(self) -> Array:
        """Capacity over demand, draw by draw: without end where nothing is asked and there is something to bear it."""
        capacity, demand = np.broadcast_arrays(self.capacity.draws, self.demand.draws)
        asked = demand > 0
        unasked = np.where(capacity > 0, np.inf, 0.0)
        ratio: Array = np.where(asked, capacity / np.where(asked, demand, 1.0), unasked)
        return ratio

    def at(self, share: float) -> float:
        """The ratio with this share of the draws below it, a draw of its own."""
        if share not in self.told:
            self.told[share] = careful(self.ratios(), "low", share)
        return self.told[share]
