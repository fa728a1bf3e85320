"""What holding and lifting sheets share: their verdict line, numbers at the careful end, and the sheet that says stop."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from axlewright.plan.judge import HeldVerdict, Words
from axlewright.plan.judge.held import FAILING as FAILING
from axlewright.plan.judge.held import because, stops_of
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.trace import Trace, entry_of, parts_of
from axlewright.plan.workings import Refused, Workings
from axlewright.sheets import (
    BasisEntry,
    Block,
    Caution,
    Figure,
    Grade,
    Note,
    Numbered,
    Run,
    Section,
    Sheet,
    Shown,
    Table,
    Text,
    VerdictLine,
    text,
)
from axlewright.sheets.blocks import Column, Item, Row
from axlewright.sheets.figures import make_safe as figures
from axlewright.trade import make_safe as trade

SAID = {"no": "stop", "not known": "not known", "only if": "go if", "yes": "go"}
MOST_TOLD = 2  # things that nobody knows yet, in the verdict's line
GRAVITY = 9.80665  # m/s^2, of weights told as masses
HELD = "held"  # names of careful numbers begin so


@dataclass(slots=True)
class Told:
    """Numbers of likely and held workings, and of what was made of them, each with its basis."""

    likely: Trace
    entries: dict[str, BasisEntry] = field(default_factory=dict)

    def basis(self) -> dict[str, BasisEntry]:
        return {**self.likely.entries, **self.entries}

    def input(self, name: str, **how: object) -> Shown:
        """A number of the likely workings: what was typed, or worked out of it."""
        return self.likely.show(name, **how)  # type: ignore[arg-type]

    def keep_held(self, case: str, w: Workings, name: str) -> str:
        """The basis of a number of held workings, and of all it was made of, under names of their own."""
        own = f"{HELD}-{case}/{name}"
        if own not in self.entries and name in w:
            got = w[name]
            if not isinstance(got.draws, np.ndarray):
                return own
            named = (one for part in got.made_of for one in parts_of(w, part))
            parts = tuple(self.keep_held(case, w, part) for part in named)
            entry = entry_of(got)
            known = tuple(part for part in parts if part in self.entries)
            self.entries[own] = entry.model_copy(update={"name": own, "made_of": known})
        return own

    def own(
        self,
        name: str,
        kind: str,
        si: float,
        source: str,
        *,
        made_of: tuple[str, ...] = (),
        basis: str = "computed",
        **how: object,
    ) -> Shown:
        """A number of the sheet's own, made of others: a weight as a mass, a margin, a limit."""
        entry = BasisEntry(name=name, kind=kind, value=si, basis=basis, source=source, made_of=made_of)
        if self.entries.setdefault(name, entry) != entry:
            raise ValueError(f"two numbers of one pack are called {name}")
        return Shown(name=name, si=si, **{"with_basis": False, **how})


def times(ratio: float) -> str:
    """A margin as it is printed: cut, never rounded up."""
    places = 0 if ratio >= 9.95 else 1 if ratio >= 2.995 else 2
    cut = math.floor(ratio * 10**places + 1e-9) / 10**places
    return f"{cut:.{places}f} ×"


def verdict_line(line: str, verdict: HeldVerdict, until: str = "", goes: Text = ()) -> VerdictLine:
    """HOLD or LIFT as it stands on top of the sheet.

    Args:
        line: as printed
        verdict: of that line
        until: what *not known* waits for, where it is the walk-round
        goes: words beside a plain go
    """
    word = verdict.word
    match word:
        case "no":
            words = text(f"{because(verdict)}.")
        case "only if":
            words = text("; ".join(verdict.conditions) + ".")
        case "yes":
            words = goes
        case _:
            words = text(f"until {until}." if until else _unknown(verdict))
    return VerdictLine(line=line, word=SAID[word], words=words, stops=word == "no", unseen=word == "not known")


def _unknown(verdict: HeldVerdict) -> str:
    """What is not known: what nobody answered, then what nobody worked out, then what only the middle holds."""
    told = [one.asks for one in verdict.unanswered]
    if told:
        more = len(told) - MOST_TOLD
        return " ".join(told[:MOST_TOLD]) + (f" And {more} more." if more > 0 else "")
    weak = [one.rule.lifted_by for one in verdict.fired if one.word == "not known"]
    if weak:
        return f"the heaviest we think possible does not pass. Lifted by: {weak[0]}."
    return f"not worked out: {', '.join(WORKED.get(one, one) for one in verdict.unworked[:MOST_TOLD])}."


WORKED = {
    "jack": "the jack, its plate is not read",
    "stand": "the stand, its plate is not read",
    "crossing": "the crib, timber is not counted",
    "seat": "the crib’s seat",
    "lower-code": "the crib",
    "crib-height": "the crib’s height",
    "ground": "the ground",
    "wind": "the wind",
    "tip-slope": "tipping",
    "ground-slope": "the ground’s slope",
    "side-hold": "a push sideways",
    "chocks": "the chocks",
    "forks": "the loader, its plate is not read",
    "rig": "slings and hoist, no tag is read",
    "leg-angle": "how the legs stand",
    "hang-angle": "how it hangs",
    "hoist-tip": "whether the hoist tips",
}


def refusal(no: Refused, calls: Mapping[str, str]) -> Block:
    """A section that could not be worked out: which input, and what to do."""
    name = no.at or no.name
    field_name = name.rsplit("/", 1)[-1]
    said = calls.get(field_name, field_name.replace("-", " "))
    bad = no.bad
    why = no.because + " " if bad is None else f"{bad.why}. " if bad.why else ""
    words = text(
        Run(voice="must", words=("Not worked out.",)),
        f" {said[0].upper()}{said[1:]} cannot be as it was given. {why[:1].upper()}{why[1:]}Look at it again and draw up anew; the other sections stand.",
    )  # fmt: skip
    return Note(words=words)


def stopped(
    name: str,
    title: str,
    line: VerdictLine,
    verdict: HeldVerdict,
    frame: Frame,
    grade: Grade,
    hints: Mapping[str, Text] = {},
    basis: Mapping[str, BasisEntry] = {},
) -> Drawn:
    """The sheet in place of one to lift by: leave it on its wheels, what stops it, what would lift that.

    Args:
        name: of the sheet
        title: of the sheet
        line: the verdict as printed
        verdict: of that line
        frame: what its title block says
        grade: of the sheet
        hints: words beside a row, by its id
        basis: of the numbers in the hints
    """
    words = Words(None, basis={})
    keep_out = words.filled("{keep-out} and more all round", trade.numbers())
    order = tuple(
        Item(number=str(n), lead="", words=words.filled(row.words, trade.numbers()))
        for n, row in enumerate(trade.order()[1:], 1)
    )
    sheet = Sheet(
        name=name,
        head=frame.head(title),
        grade=grade,
        verdicts=(line,),
        answer=text(
            Run(voice="must", words=("Leave it on its wheels." if line.line == "HOLD" else "Don’t lift it like this.",))
        ),
        sections=(
            Section(
                heading="On its wheel", aside="from the side", blocks=(Figure(drawing=figures.on_its_wheel(keep_out)),)
            ),
            Section(heading="In this order", blocks=(Numbered(items=order),)),
            Section(
                heading="Already raised",
                aside=f"from the front, 1:{figures.SCALE:g}",
                place="right",
                blocks=(Figure(drawing=figures.already_raised()),),
            ),
            Section(heading="What would lift it", aside="each of them, then draw up anew", place="wide", blocks=(_lifts(verdict, hints),)),
            Section(heading="What must not be missed", place="wide", blocks=STOP_CAUTIONS),
        ),
        revisions=frame.revisions,
        block=frame.block(title),
    )  # fmt: skip
    return Drawn((sheet,), {**basis, **words.basis})


def _lifts(verdict: HeldVerdict, hints: Mapping[str, Text]) -> Table:
    """Each reason that stops it, and what would lift it."""
    rows = []
    for stop in stops_of(verdict):
        said = f"{stop}"
        cells = (text(f"{said[0].upper()}{said[1:]}"), text("; ".join(stop.lifts), *hints.get(stop.key, ())), ())
        rows.append(Row(cells=cells))
    return Table(
        columns=(
            Column(heading="because", share=4.2),
            Column(heading="lifted by", share=3.6),
            Column(heading="who, when", share=1.4),
        ),
        rows=tuple(rows),
    )


STOP_CAUTIONS: tuple[Block, ...] = (
    Caution(lead="Nothing here is to lift by:", words=text("no load, no crib, no band is printed while it is a stop.")),
    Caution(lead="Jacks lift, they do not hold.", words=text("Is it up already: rest it on wood, then ask.")),
    Caution(lead="The machine’s own book comes first,", words=text("and a workshop with means for it before a guess.")),
)
