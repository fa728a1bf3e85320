"""The yard as one sheet: machines from above to one scale, each corner with how it stands, and what needs somebody."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from axlewright.plan.corners import CornerNow, corners
from axlewright.plan.judge import PROVED, Words
from axlewright.plan.sheet.frame import Drawn
from axlewright.sheets import Day, Figure, Go, Note, Numbered, Run, Section, Sheet, Table, Text, TitleBlock, text
from axlewright.sheets.blocks import Column, Item, Row
from axlewright.sheets.figures import empty, machine
from axlewright.sheets.figures.machine import CORNERS, CornerLook
from axlewright.sheets.figures.machine import corner_words as twin
from axlewright.yard import Corner, Machine, Yard

PLACES = ("left", "right")
SCALE = 100.0


def address(now: CornerNow) -> str:
    """The page that speaks of a corner: its trouble, or a first look there."""
    return f"/trouble/{now.trouble.number}" if now.trouble else f"/?corner={now.corner}"


def yard_sheet(yard: Yard, today: date) -> Drawn:
    """The whole yard today."""
    words = Words()
    found = corners(yard, today)
    asks = needs(yard, found, today)
    sheet = Sheet(
        name="yard",
        head=text(Run(voice="strong", words=("Yard",)), f" · {yard.title.name}, ", Day(on=today)),
        answer=text(_answer(yard, found, asks)),
        sections=_empty() if not yard.machines else _sections(yard, found, asks, words, today),
        block=TitleBlock(
            title="Yard",
            corner=f"{len(yard.machines)} machines, 1:{SCALE:g}" if yard.machines else "",
            on=today,
            yard=yard.title.name,
        ),
    )
    return Drawn((sheet,), words.basis)


@dataclass(frozen=True, slots=True)
class Need:
    """Something that wants somebody, the first first."""

    rank: int
    now: CornerNow
    words: str
    when: str


def needs(yard: Yard, found: tuple[CornerNow, ...], today: date) -> tuple[Need, ...]:
    """What needs somebody: stopped corners, then troubles that run, then corners nobody looked at for longest."""
    out = []
    for now in found:
        if now.verdicts.stopped:
            out.append(Need(0, now, f"{now.standing.words}: make it safe", "today"))
        elif now.trouble and (now.verdicts.field.word, now.verdicts.road.word) != ("yes", "yes"):
            field, road = now.verdicts.field.word, now.verdicts.road.word
            out.append(Need(1, now, f"field {field}, road {road}", "next start"))
        elif not now.standing.looked:
            out.append(Need(2, now, f"{now.standing.words}. First look, half an hour", "this season"))
    return tuple(sorted(out, key=lambda need: (need.rank, -(need.now.standing.days or 9999 if need.rank == 2 else 0))))


def _answer(yard: Yard, found: tuple[CornerNow, ...], asks: tuple[Need, ...]) -> str:
    if not yard.machines:
        return "No machine in this yard yet."
    if not asks:
        return "Nothing is waiting. A look grows old by hours and days."
    first = asks[0]
    name = f"{yard.machine(first.now.corner.machine).name}, {CORNERS[first.now.corner.place]}"
    many = "One thing" if len(asks) == 1 else f"{COUNT.get(len(asks), str(len(asks)))} things"
    do = {0: "make it safe", 1: "look on", 2: "take a first look"}[first.rank]
    return f"{many} to do. First {name}: {do}."


COUNT = {2: "Two", 3: "Three", 4: "Four", 5: "Five", 6: "Six", 7: "Seven", 8: "Eight", 9: "Nine"}


def _sections(
    yard: Yard, found: tuple[CornerNow, ...], asks: tuple[Need, ...], words: Words, today: date
) -> tuple[Section, ...]:
    stands = machine.room([(_kind(one), False) for one in yard.machines], SCALE)
    plans = tuple(
        _plan(yard, one, tuple(now for now in found if now.corner.machine == one.id), place, today, stands)
        for one, place in zip(yard.machines, PLACES * len(yard.machines), strict=False)
    )
    items = tuple(
        Item(
            number=str(number),
            lead="",
            words=text(Go(words=_name(yard, need.now.corner), to=address(need.now)), f": {need.words}."),
            aside=text(need.when),
        )
        for number, need in enumerate(asks, 1)
    )
    wanted = (
        Section(
            heading="Needs you", aside="in order of what waiting can do", place="wide", blocks=(Numbered(items=items),)
        ),
    )
    return (*(wanted if items else ()), *plans, _every(yard, found))


def _name(yard: Yard, corner: Corner) -> str:
    return f"{yard.machine(corner.machine).name}, {CORNERS[corner.place]}"


def _plan(
    yard: Yard, one: Machine, found: tuple[CornerNow, ...], place: str, today: date, stands: tuple[float, float]
) -> Section:
    kind = _kind(one)
    looks: dict[str, CornerLook] = {now.corner.place: _look(now) for now in found}
    clock = yard.hours(one.id, today)
    aside = ", ".join(filter(None, ((one.kind or "").replace("-", " "), str(clock) if clock else "")))
    drawing = machine.plan(kind, looks, SCALE, stands=stands)
    return Section(
        heading=one.name,
        aside=aside,
        place="right" if place == "right" else "left",
        blocks=(
            Figure(drawing=drawing, twin=twin(looks)),
            Note(
                words=text(Go(words="Ready card", to=f"/machine/{one.id}/ready-card"), " to fill in winter"),
                size="small",
            ),
        ),
    )


def _kind(one: Machine) -> str:
    """The outline that a machine is drawn by; one of another kind is drawn as the first."""
    return one.kind if one.kind in machine.KINDS else machine.KINDS[0]


def _look(now: CornerNow) -> CornerLook:
    """How a corner is drawn: open where it was looked at and nothing speaks against it."""
    stands = now.standing
    state = stands.word or ("sound" if stands.looked else "not looked at")
    lines = stands.words.replace(PROVED, PROVED_LINES).replace(" (", "; ").replace(")", "").split("; ")
    if now.trouble:
        lines.append(f"trouble {now.trouble.number}")
    return CornerLook(state=state, words=tuple(text(line) for line in lines), goes_to=address(now))


PROVED_LINES = PROVED.replace("until ", "until; ")  # two short lines beside a wheel


def _every(yard: Yard, found: tuple[CornerNow, ...]) -> Section:
    def word(said: str) -> Text:
        return text(Run(voice="must", words=(said,))) if said == "no" else text(said)

    rows = tuple(
        Row(
            cells=(
                text(Go(words=_name(yard, now.corner), to=address(now))),
                text(now.standing.words),
                word(now.verdicts.field.word),
                word(now.verdicts.road.word),
            )
        )
        for now in found
    )
    columns = (
        Column(heading="corner", share=3),
        Column(heading="drive", share=4),
        Column(heading="field", share=1.5),
        Column(heading="road", share=1.5),
    )
    return Section(
        heading="Every corner",
        aside="field and road, judged apart",
        place="wide",
        blocks=(Table(columns=columns, rows=rows),),
    )


def _empty() -> tuple[Section, ...]:
    return (
        Section(
            heading="Machines",
            blocks=(
                Figure(drawing=empty.yard()),
                Note(
                    words=text(
                        "A machine is a file in the folder machines: its name, its kind, its clocks. example.toml shows how."
                    )
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
