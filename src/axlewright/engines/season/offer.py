"""What a drive on offer is worth at most (E5)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import within
from axlewright.kinds import Money, Share, YesNo


@dataclass(frozen=True, slots=True)
class MostWorth:
    """The most that an offer is worth.

    Attributes:
        price: the price at which it comes out as dear as the best other course [money]
        not_at_any_price: even as a gift it would be dearer [-]
    """

    price: Money
    not_at_any_price: YesNo


def most_worth(best_other: Money, without_price: Money, refunded: Share = 0.0, refund_part: Share = 1.0) -> MostWorth:
    """The most that a drive on offer is worth.

    Args:
        best_other: mean cost of the best other course that may be taken [money]
        without_price: mean cost of the course with this drive, its price apart [money]
        refunded: chance that the seller pays back, discounted [-]
        refund_part: part of the price paid back then [-]

    Returns:
        price

    Source: (C_other - C_without)/(1 - chance x part): cost is straight in the price (docs/engines/season.md).
    Valid: the drive is bought once, at the start; on the same draws for both courses.
    Try: best-other=11450 without-price=6200 refunded=0.06

    >>> round(float(most_worth(11450.0, 6200.0, 0.06).price), 2)
    5585.11
    """
    within("best_other", best_other)
    within("without_price", without_price)
    within("refunded", refunded, 0.0, 0.999)
    within("refund_part", refund_part, 0.0, 1.0)
    saving = np.asarray(best_other, float) - without_price
    price = saving / (1 - np.asarray(refunded, float) * refund_part)
    return MostWorth(np.maximum(price, 0.0)[()], (saving <= 0)[()])
