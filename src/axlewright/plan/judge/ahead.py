"""Which looks may be made next: nothing is worked or raised behind a stop, and no look behind one that is not clean."""

from __future__ import annotations

from axlewright.plan.judge.road import Verdicts
from axlewright.trade.findings import findings
from axlewright.trade.looks import Look, looks

FIVE = {"wipe": "fluid", "breather": "breather", "level": "level", "plug": "plug", "chalk": "where"}
"""What each of the five looks finds first, in the order in which it can be told: chalk is read after 20 minutes of work."""
GIVES = {**FIVE, "bolts": "bolts", "nuts": "nuts", "cracks": "cracks", "rock": "rock", "turn": "turn"}
"""What tells that a look is there, which must be clean before another."""
NOT_CLEAN = {("plug", "flakes")}
"""Grades that do not stop it, and yet are not clean: nothing is worked or raised for a look behind them."""
AT_REST = {"G"}
"""The stages that a stop leaves open: on its wheels, engine off."""


def may_look(verdicts: Verdicts, finding: str) -> bool:
    """Whether a finding may be looked for as the corner stands.

    Args:
        verdicts: of the corner, with what was seen
        finding: its id

    Returns:
        False while Make safe is printed and the look wants the machine to work, or raised; and where a look that
        must be clean before it is there and not clean: that is put right first
    """
    look = looks()[findings()[finding].look]
    if verdicts.unsafe and set(look.stages) - AT_REST:
        return False
    return all(GIVES[name] not in verdicts.state.fresh for name in missing(verdicts, look))


def missing(verdicts: Verdicts, look: Look) -> tuple[str, ...]:
    """The looks that must be there and clean before this one, and are not."""
    return tuple(name for name in look.after if not _clean(verdicts, GIVES[name]))


def _clean(verdicts: Verdicts, finding: str) -> bool:
    """Whether a look is fresh and showed nothing that forbids the next."""
    shown = [grade for name, grade in verdicts.state.pairs if name == finding]
    bad = any(findings()[finding].grade(grade).stop or (finding, grade) in NOT_CLEAN for grade in shown)
    return finding in verdicts.state.fresh and not bad
