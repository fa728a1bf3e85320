"""What is taken of a wheel's bearings and their work while nobody typed his own, and how their rating is weighed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from pydantic import BaseModel, ConfigDict, Field

from axlewright.trade.choice import Item
from axlewright.trade.rows import rows, table


class Opinion(BaseModel):
    """How a rating of bearings is weighed beside the class.

    Attributes:
        spread: standard deviation of ln(median), besides what the inputs leave open [-]
        most: what all other causes than fatigue would last, over the class; no design is stretched by more [-]
        beyond: share of draws past half the capacity above which no life is given [-]
        tank: of a full tank in the mean over a day: low end, middle, high end [-]
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    spread: float = Field(gt=0)
    most: float = Field(ge=1)
    beyond: float = Field(ge=0, lt=0.5)
    tank: tuple[float, float, float]
    source: str


@cache
def items() -> Mapping[str, Item]:
    """Every number that is taken, by name."""
    return {row.id: row for row in rows("bearings.toml", "item", Item)}


@cache
def opinion() -> Opinion:
    return Opinion.model_validate(table("bearings.toml")["opinion"])
