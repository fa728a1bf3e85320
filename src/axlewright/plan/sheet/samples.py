"""What a laboratory found in the oil of a drive, sample by sample: shown with its life, and no look at a corner."""

from __future__ import annotations

from axlewright.sheets import Block, Day, Note, Section, Table, Text, text
from axlewright.sheets.blocks import Column, Row
from axlewright.yard import Drive, OilSample, Yard
from axlewright.yard.hours import spell
from axlewright.yard.samples import ELEMENTS

MOST_SHOWN = 12  # the newest
WORDS = (
    "A spectrometer sees particles below about 0.005 mm, and is good to about 15 %: a bearing that breaks up can show"
    " calm numbers while the plug grows chips. No verdict comes of these."
)


def samples(yard: Yard, drive: Drive) -> tuple[Section, ...]:
    """The samples of a drive, the newest first; nothing where none was ever drawn."""
    own = yard.samples_of(drive.id)
    if not own:
        return ()
    columns = (
        Column(heading="day", share=1.1),
        Column(heading="on this oil", share=1.0),
        Column(heading="iron", share=1.0),
        Column(heading="iron in 100 h", share=1.1),
        Column(heading="other metals, dirt, water", share=3),
        Column(heading="sample", share=1.2),
    )
    rows = tuple(Row(cells=_cells(one)) for one in reversed(own[-MOST_SHOWN:]))
    block: Block = Table(columns=columns, rows=rows)
    more = len(own) - MOST_SHOWN
    older = f" {more} older are kept." if more > 0 else ""
    note = Note(words=text(WORDS + older), size="small", voice="soft")
    return (Section(heading="Oil samples", aside="by a laboratory; ppm by mass", blocks=(block, note), place="wide"),)


def _cells(one: OilSample) -> tuple[Text, ...]:
    rate = one.iron_rate()
    others = ", ".join(
        f"{name} {_ppm(one, name)}" for name in (*ELEMENTS[1:], "water") if getattr(one, name) is not None
    )
    return (
        (Day(on=one.on),),
        text(f"{spell(one.on_oil)} h" if one.on_oil is not None else "not known"),
        text(f"{_ppm(one, 'iron')} ppm" if one.iron is not None else ""),
        text(f"{_less(one, 'iron')}{rate:.0f} ppm" if rate is not None else ""),
        text(others),
        text(one.number),
    )


def _ppm(one: OilSample, name: str) -> str:
    return f"{_less(one, name)}{getattr(one, name):g}"


def _less(one: OilSample, name: str) -> str:
    return "<" if name in one.below else ""
