"""Quantities: units (parse, choose), spreads, quantities with basis and source, and draws of them."""

from axlewright.quantities.draws import (
    by_ranks,
    careful,
    digest,
    first_order_share,
    own_shares,
    rank_correlation,
    sobol,
    stream,
    what_moves,
)
from axlewright.quantities.quantity import BASES, Basis, Quantity
from axlewright.quantities.spread import (
    Discrete,
    Exact,
    LogNormal,
    Normal,
    Pert,
    Samples,
    Spread,
    Tenths,
    Triangular,
    Uniform,
)
from axlewright.quantities.spread_text import read_spread, write_spread
from axlewright.quantities.table import UNITS, Unit
from axlewright.quantities.units import Measures, NotRead, Typed, expected, find, parse, spell, unit_for

__all__ = [
    "BASES",
    "UNITS",
    "Basis",
    "Discrete",
    "Exact",
    "LogNormal",
    "Measures",
    "Normal",
    "NotRead",
    "Pert",
    "Quantity",
    "Samples",
    "Spread",
    "Tenths",
    "Triangular",
    "Typed",
    "Uniform",
    "Unit",
    "by_ranks",
    "careful",
    "digest",
    "expected",
    "find",
    "first_order_share",
    "own_shares",
    "parse",
    "rank_correlation",
    "read_spread",
    "sobol",
    "spell",
    "stream",
    "unit_for",
    "what_moves",
    "write_spread",
]
