"""The formulary: every engine function alone, by name."""

from axlewright.formulary.read import Formula, read
from axlewright.formulary.registry import formula, functions, names
from axlewright.formulary.slots import Named, NotAFormula, Slot

__all__ = ["Formula", "Named", "NotAFormula", "Slot", "formula", "functions", "names", "read"]
