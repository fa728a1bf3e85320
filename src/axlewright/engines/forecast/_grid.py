"""The change-point grid: how a drive of one law stands, exactly, by all findings at once.

The chain never goes back, so a life is three times s1 < s2 < s3, and a finding's likelihood hangs only on where it falls
among them. With C_c(t) the sum of log-likelihoods of condition c over the findings before t,

    into_wearing[i] = P(s1 in cell i) x mean over cell i of exp(C_sound - C_wearing)
    into_failing    = (causal convolution with wearing) x mean over each cell of exp(C_wearing - C_failing)
    into_let_go     = (causal convolution with failing) x mean over each cell of exp(C_failing - C_let go)

The mean of the stepped ratio over a cell is what makes the error second order in the width of a cell. Sums of positive
terms keep relative accuracy, which a Fourier transform would not: weights span many powers of ten. The present is an
edge of the grid, and all masses are counted with the same midpoints, so that nothing is lost: the four chances sum to
what they summed to before.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.forecast._laws import Lives, left_at
from axlewright.kinds import Array

HARD = -100.0  # logarithm that stands for a likelihood of 0: what it lets through is 4e-44
ROUNDING = 1e-9  # of a cell: what a whole number of cells may be off by


@dataclass(frozen=True, slots=True)
class Walk:
    """One walk of the grid, for several laws of one age at once: a row a law, then cells or edges."""

    width: float
    now: int  # the edge that is the present
    sound_left: Array  # at edges
    wearing_left: Array  # half a cell and more after coming in
    failing_left: Array
    into_wearing: Array  # by cell, each up to the factor that `log_scale` holds
    into_failing: Array
    let_go_by: Array  # at edges
    log_scale: Array  # by condition

    def at_edge(self, edge: int) -> Array:
        """Weights of the four conditions at an edge, a row a law, each up to its factor."""
        weights = np.empty((len(self.sound_left), 4))
        weights[:, 0] = self.sound_left[:, edge]
        weights[:, 1] = (self.into_wearing[:, :edge] * self.wearing_left[:, edge - 1 :: -1][:, :edge]).sum(axis=1)
        weights[:, 2] = (self.into_failing[:, :edge] * self.failing_left[:, edge - 1 :: -1][:, :edge]).sum(axis=1)
        weights[:, 3] = self.let_go_by[:, edge]
        return weights

    def log_at(self, edge: int) -> Array:
        """Logarithms of the weights at an edge."""
        with np.errstate(divide="ignore"):
            logs: Array = np.log(self.at_edge(edge)) + self.log_scale
        return logs


def logs_of(likelihood: Array) -> Array:
    """Log-likelihoods; a 0 is a number far down."""
    return np.where(likelihood > 0, np.log(np.where(likelihood > 0, likelihood, 1.0)), HARD)


def walk(lives: Lives, now: float, at: Array, logs: Array, farthest: float, cell: float) -> Walk:
    """Walk from new to `now + farthest`, with findings at the times `at` in rising order.

    Args:
        lives: laws, a row each: medians are columns
        now: age of the drive
        at: ages at which something was found
        logs: log-likelihoods, a row a finding
        farthest: how far ahead
        cell: width of a cell, about
    """
    before = int(np.ceil(now / cell - ROUNDING)) if now > 0 else 0
    width = now / before if before else cell
    count = max(1, before + int(np.ceil(farthest / width - ROUNDING)))
    edges: Array = width * np.arange(count + 1, dtype=float)
    half: Array = edges[:-1] + width / 2
    sound_left = left_at(lives.sound, edges)
    wearing_left, failing_left = left_at(lives.wearing, half), left_at(lives.failing, half)
    until = np.vstack([np.zeros(4), np.cumsum(logs, axis=0)])
    steps = until[:, :3] - until[:, 1:]
    most = steps.max(axis=0)
    ratios = _cell_means(edges, width, at, np.exp(steps - most))
    into_wearing = -np.diff(sound_left) * ratios[0]
    into_failing = _convolved(into_wearing, masses(wearing_left)) * ratios[1]
    into_let_go = _convolved(into_failing, masses(failing_left)) * ratios[2]
    let_go_by = np.zeros_like(sound_left)
    np.cumsum(into_let_go, axis=1, out=let_go_by[:, 1:])
    return Walk(
        width, before, sound_left, wearing_left, failing_left, into_wearing, into_failing, let_go_by,
        until[-1] + np.concatenate([[0.0], np.cumsum(most)]),
    )  # fmt: skip


def _convolved(rows: Array, others: Array) -> Array:
    """Causal convolution, row by row, by direct sums."""
    return np.array([np.convolve(one, other)[: len(one)] for one, other in zip(rows, others, strict=True)])


def masses(left: Array) -> Array:
    """Chance that a stay begun at the middle of a cell ends in the same cell, the next, the next but one ..."""
    masses = np.empty_like(left)
    masses[..., 0] = 1 - left[..., 0]
    masses[..., 1:] = left[..., :-1] - left[..., 1:]
    return masses


def _cell_means(edges: Array, width: float, at: Array, ratios: Array) -> list[Array]:
    """The mean over each cell of functions that step at the findings."""
    count = len(edges) - 1
    if not len(at):
        return [np.full(count, ratio) for ratio in ratios[0]]
    points = np.insert(edges, np.searchsorted(edges, at), at)
    found = np.searchsorted(at, points[:-1], side="right")
    cells = np.minimum(np.searchsorted(edges, points[:-1], side="right") - 1, count - 1)
    parts = np.diff(points) / width
    return [np.asarray(np.bincount(cells, parts * column[found], minlength=count), float) for column in ratios.T]
