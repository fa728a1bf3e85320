"""Make safe in place of the steps: a margin or a verdict stops the job. What stops it, what would lift it, how it stands till then."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from axlewright.plan.judge import Words
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.held import STOP_CAUTIONS
from axlewright.sheets import Figure, Lines, Numbered, Run, Section, Sheet, text
from axlewright.sheets.blocks import Item, Line
from axlewright.sheets.figures import make_safe as figures
from axlewright.trade import make_safe as trade

LIFTS = ("What would lift it", "What would help")
ROWS = 3


def withheld(stops: Sequence[Drawn], frame: Frame, name: str = "steps") -> Drawn:
    """The sheet in place of a step list.

    Args:
        stops: the sheets that say stop, each with what would lift it
        frame: what its title block says
        name: of the sheet
    """
    words = Words(None, basis={})
    keep_out = words.filled("{keep-out} and more all round", trade.numbers())
    order = tuple(
        Item(number=str(n), lead="", words=words.filled(row.words, trade.numbers()))
        for n, row in enumerate(trade.order()[1:], 1)
    )
    lines = tuple(line for one in stops for line in one.sheets[0].verdicts if line.stops)
    ring = Lines(lines=tuple(Line(label=row.words) for row in trade.ring()), stacked=True)
    sheet = Sheet(
        name=name,
        head=text(Run(voice="strong", words=("Make safe",)), " in place of the steps", *((f" · {frame.corner}",) if frame.corner else ())),
        verdicts=lines,
        answer=text(Run(voice="must", words=("No margin, no steps: it is left as it stands.",))),
        sections=(
            Section(heading="On its wheel", aside="from the side", blocks=(Figure(drawing=figures.on_its_wheel(keep_out)),)),
            Section(heading="In this order", blocks=(Numbered(items=order),)),
            Section(
                heading="Already raised", aside=f"from the front, 1:{figures.SCALE:g}", place="right",
                blocks=(Figure(drawing=figures.already_raised()),),
            ),
            Section(heading="Whom to ring", aside="tried from this spot", place="right", blocks=(ring,)),
            *_lifts(stops),
            Section(heading="What must not be missed", place="wide", blocks=STOP_CAUTIONS),
        ),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Make safe"),
    )  # fmt: skip
    basis = {name: entry for one in stops for name, entry in one.basis.items()}
    return Drawn((sheet,), {**basis, **words.basis})


def _lifts(stops: Sequence[Drawn]) -> Iterator[Section]:
    """What would lift each stop, as its own sheet says it."""
    for one in stops:
        page = one.sheets[0]
        for section in page.sections:
            if section.heading in LIFTS:
                yield section.model_copy(
                    update={"heading": f"{page.block.title}: {_small(section.heading)}", "place": "wide"}
                )


def _small(heading: str) -> str:
    return heading[0].lower() + heading[1:]
