"""Forecast: how a drive stands by all that was seen of it, and when it will let go.

Times in seconds of the drive's own clock of machine hours; draws on the first axis; conditions sound, wearing, failing,
let go on the last. The order of calls:

1. `Lives` says the laws of the class; where its fields hold arrays, there is a design a draw.
   `leaned_on_bearings` leans a class on a median life of its bearings (`hub_life` of `engines/running/hub.py`);
   `lean_of`, `lean_factors` and `stretched` do it for a few designs that a drive may be of.
2. What was seen becomes a row of likelihoods a finding: `exposed_likelihood` where a plug was wiped not long ago,
   `finding_weights` and `weighted_likelihood` for what counts how much beside what.
3. `forecast(lives, now, ago, likelihood, ahead)`: chances now and later, exact, no draws. Of several designs `pooled` is
   the chance and `chance_band` its band, both weighted by `posterior_weights`.
4. `trajectories(lives, now, ago, likelihood, shares, causes)`: for decisions, lives it may still have, all of one weight:
   `wears`, `fails`, `lets_go` in seconds from now, past ones negative; never infinite, never nan; `wears <= fails <=
   lets_go`, and `lets_go` is above 0. `condition` now, `cause` by number. `used_lives`, `rebuilt_lives` and `fresh_lives`
   have the same shape, from the day of fitting; there a `lets_go` may be 0. A used drive that was looked at:
   `trajectories` with its likely hours as draws, `offered=True`.
5. `what_speaks(lives, now, ago, likelihood, by)`: the finding that moves the answer most, and whether they fit together.
"""

from axlewright.engines.forecast._condition import (
    Band,
    Chances,
    Forecast,
    Rows,
    Shares,
    Times,
    chance_band,
    chance_by,
    condition_before,
    forecast,
    pooled,
    posterior_weights,
)
from axlewright.engines.forecast._evidence import exposed_likelihood, finding_weights, updated, weighted_likelihood
from axlewright.engines.forecast._laws import Lives, Sojourn, stretched
from axlewright.engines.forecast._leaned import (
    Lean,
    lean_factors,
    lean_of,
    leaned_on_bearings,
    median_to_failing,
    medians_to_failing,
)
from axlewright.engines.forecast._telling import Telling, what_speaks
from axlewright.engines.forecast._trajectories import Trajectories, fresh_lives, trajectories
from axlewright.engines.forecast._used import rebuilt_lives, used_lives

__all__ = [
    "Band", "Chances", "Forecast", "Lean", "Lives", "Rows", "Shares", "Sojourn", "Telling", "Times", "Trajectories", "chance_band",
    "chance_by", "condition_before", "exposed_likelihood", "finding_weights", "forecast", "fresh_lives", "lean_factors", "lean_of",
    "leaned_on_bearings", "median_to_failing", "medians_to_failing", "pooled",
    "posterior_weights", "rebuilt_lives", "stretched", "trajectories", "updated", "used_lives", "weighted_likelihood", "what_speaks",
]  # fmt: skip
