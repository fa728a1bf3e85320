"""The yard as one sheet: machines from above to one scale, each corner with how it stands, and what needs somebody."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from axlewright.plan.corners import CornerNow, corners
from axlewright.plan.judge import PROVED, Words
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.yard_needs import Need, address, answer, needs
from axlewright.sheets import Day, Figure, Go, Note, Numbered, Run, Section, Sheet, Table, Text, TitleBlock, text
from axlewright.sheets.blocks import Column, Item, Row
from axlewright.sheets.figures import empty, machine
from axlewright.sheets.figures.machine import CornerLook
from axlewright.sheets.figures.machine import corner_words as twin
from axlewright.sheets.figures.outlines import drawn_as
from axlewright.yard import Machine, Yard
from axlewright.yard.hours import spell

PLACES = ("left", "right")
STAY = "\u00a0"
SCALE = 100.0
MOST_DRAWN = 6  # machines drawn on one sheet: what needs somebody first, the others on the sheets after it
MOST_NEEDS = 10
PROVED_LINES = PROVED.replace("until ", "until; ")  # two short lines beside a wheel


@dataclass(frozen=True, slots=True)
class Room:
    """The parts of the Yard's sheet, so that a page can put its forms between them."""

    sheet: Sheet  # head, answer and foot, without sections
    needs: Section | None
    plans: tuple[tuple[Machine, Section], ...]
    every: Section | None
    machines: Section | None  # all of a long yard, one row each
    empty: tuple[Section, ...]
    first: int  # number of the first machine drawn, from nothing
    words: Words

    @property
    def sections(self) -> tuple[Section, ...]:
        before = (self.needs,) if self.needs else ()
        after = tuple(one for one in (self.every, self.machines) if one)
        return (*self.empty, *before, *(plan for _, plan in self.plans), *after)


def yard_sheet(yard: Yard, today: date, first: int = 0) -> Drawn:
    """The whole yard today; of a long one the machines from `first` on are drawn."""
    room = yard_room(yard, today, first)
    return Drawn((room.sheet.model_copy(update={"sections": room.sections}),), room.words.basis)


def yard_room(yard: Yard, today: date, first: int = 0) -> Room:
    """The parts of the sheet."""
    words, found = Words(), corners(yard, today)
    asks = needs(yard, found, today)
    ordered = in_order(yard, asks)
    first = first if 0 <= first < len(ordered) else 0
    drawn = ordered[first : first + MOST_DRAWN]
    long = len(ordered) > MOST_DRAWN
    sheet = Sheet(
        name="yard",
        head=text(Run(voice="strong", words=("Yard",)), f" · {yard.title.name}, ", Day(on=today)),
        answer=text(answer(yard, asks)),
        sections=(),
        block=TitleBlock(
            title="Yard",
            corner=_machines(len(ordered), len(drawn), first) if ordered else "",
            on=today,
            yard=yard.title.name,
        ),
    )
    shown = {one.id for one in drawn}
    return Room(
        sheet,
        _needs(yard, asks, first),
        _plans(yard, drawn, found, today),
        _every(yard, tuple(now for now in found if now.corner.machine in shown)) if drawn else None,
        _all(yard, ordered, found, asks) if long else None,
        () if ordered else _empty(),
        first,
        words,
    )


def in_order(yard: Yard, asks: tuple[Need, ...]) -> tuple[Machine, ...]:
    """The machines as they are drawn: by name, or in a long yard by what needs somebody first."""
    if len(yard.machines) <= MOST_DRAWN:
        return yard.machines
    rank = {need.corner.machine: -number for number, need in reversed(list(enumerate(asks)))}
    return tuple(sorted(yard.machines, key=lambda one: -rank.get(one.id, -len(asks))))


def _machines(count: int, drawn: int, first: int) -> str:
    if count == drawn:
        return f"{count} machine{'s' if count > 1 else ''}, 1:{SCALE:g}"
    return f"machines {first + 1} to {first + drawn} of {count}, 1:{SCALE:g}"


def _needs(yard: Yard, asks: tuple[Need, ...], first: int) -> Section | None:
    if not asks or first:
        return None
    items = tuple(
        Item(
            number=str(number),
            lead="",
            words=text(Go(words=yard.named(need.corner), to=need.to), f": {need.words}"),
            aside=text(need.when),
        )
        for number, need in enumerate(asks[:MOST_NEEDS], 1)
    )
    more = len(asks) - len(items)
    note = (
        Note(words=text(f"{more} more, in this order, stand at their machines below."), size="small", voice="soft"),
    )
    return Section(
        heading="Needs you",
        aside="in order of what waiting can do",
        place="wide",
        blocks=(Numbered(items=items), *(note if more else ())),
    )


def _plans(
    yard: Yard, drawn: tuple[Machine, ...], found: tuple[CornerNow, ...], today: date
) -> tuple[tuple[Machine, Section], ...]:
    if not drawn:
        return ()
    stands = machine.room([(drawn_as(one.kind), False) for one in drawn], SCALE)
    return tuple(
        (one, _plan(yard, one, tuple(now for now in found if now.corner.machine == one.id), place, today, stands))
        for one, place in zip(drawn, PLACES * len(drawn), strict=False)
    )


def _plan(
    yard: Yard, one: Machine, found: tuple[CornerNow, ...], place: str, today: date, stands: tuple[float, float]
) -> Section:
    looks: dict[str, CornerLook] = {now.corner.place: _look(now) for now in found}
    drawing = machine.plan(drawn_as(one.kind), looks, SCALE, stands=stands)
    links = text(
        Go(words="Its life", to=f"/machine/{one.id}"), ", ", Go(words="ready card", to=f"/machine/{one.id}/ready-card")
    )
    return Section(
        heading=one.name,
        aside=_aside(yard, one, today),
        place="right" if place == "right" else "left",
        blocks=(Figure(drawing=drawing, twin=twin(looks)), Note(words=links, size="small")),
    )


def _aside(yard: Yard, one: Machine, today: date) -> str:
    """Its kind and what its first clock reads."""
    read = yard.hours(one.id, today, one.clocks[0])
    return ", ".join(
        filter(None, ((one.kind or "").replace("-", " "), f"{spell(round(read.hours))}{STAY}h" if read else ""))
    )


def _look(now: CornerNow) -> CornerLook:
    """How a corner is drawn: open where it was looked at and nothing speaks against it."""
    stands = now.standing
    state = stands.word or ("sound" if stands.looked else "not looked at")
    lines = stands.words.replace(PROVED, PROVED_LINES).replace(" (", "; ").replace(")", "").split("; ")
    if now.trouble:
        lines.append(f"trouble {now.trouble.number}")
    return CornerLook(state=state, words=tuple(text(line) for line in lines), goes_to=address(now))


def _every(yard: Yard, found: tuple[CornerNow, ...]) -> Section:
    def word(said: str) -> Text:
        return text(Run(voice="must", words=(said,))) if said == "no" else text(said)

    rows = tuple(
        Row(
            cells=(
                text(Go(words=yard.named(now.corner), to=address(now))),
                (*_drive(now), now.standing.words),
                word(now.verdicts.field.word),
                word(now.verdicts.road.word),
            )
        )
        for now in found
    )
    columns = (
        Column(heading="corner", share=3),
        Column(heading="drive", share=4.4),
        Column(heading="field", share=1.5),
        Column(heading="road", share=1.5),
    )
    return Section(
        heading="Every corner",
        aside="field and road, judged apart",
        place="wide",
        blocks=(Table(columns=columns, rows=rows),),
    )


def _drive(now: CornerNow) -> Text:
    """The drive that sits there, by name, where one is written down."""
    return text(Go(words=now.drive.name, to=f"/drive/{now.drive.id}"), ": ") if now.drive else ()


def _all(yard: Yard, ordered: tuple[Machine, ...], found: tuple[CornerNow, ...], asks: tuple[Need, ...]) -> Section:
    """All machines of a long yard: a tap on one goes to the sheet that draws it."""
    first = {need.corner.machine: need for need in reversed(asks)}
    rows = []
    for number, one in enumerate(ordered):
        mine = [now for now in found if now.corner.machine == one.id]
        unseen = sum(not now.standing.looked for now in mine)
        need = first.get(one.id)
        rows.append(
            Row(
                cells=(
                    text(Go(words=one.name, to=f"/yard?from={number // MOST_DRAWN * MOST_DRAWN + 1}#m-{one.id}")),
                    text((one.kind or "").replace("-", " ")),
                    text(f"{unseen} of {len(mine)}" if unseen else "none"),
                    text(need.words if need else "Nothing is waiting."),
                )
            )
        )
    columns = (
        Column(heading="machine", share=2),
        Column(heading="kind", share=2),
        Column(heading="not looked at", share=1.4),
        Column(heading="first", share=4.6),
    )
    return Section(
        heading="Every machine",
        aside=f"{len(ordered)}, in order of what waiting can do",
        place="wide",
        blocks=(Table(columns=columns, rows=tuple(rows)),),
    )


def _empty() -> tuple[Section, ...]:
    return (
        Section(
            heading="Machines",
            aside="none yet",
            blocks=(
                Figure(drawing=empty.yard()),
                Note(
                    words=text("A machine gets here by a form of one page, or as a file in the folder machines."),
                    size="lead",
                ),
                Note(
                    words=text("Then it stands here from above, and each corner says when it was last looked at."),
                    size="small",
                    voice="soft",
                ),
            ),
        ),
        Section(
            heading="Oil, rock or metal at a wheel?",
            place="right",
            blocks=(
                Note(
                    words=text(Go(words="First look, half an hour", to="/"), ". It needs no machine named."),
                    size="lead",
                ),
            ),
        ),
    )
