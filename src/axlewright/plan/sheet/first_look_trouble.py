"""The First look of a trouble: what was seen at its place, what is still to be looked at, what each outcome would mean."""

from __future__ import annotations

from axlewright.plan.first_look import FirstLook, NextLook, by_grade
from axlewright.plan.judge import FIVE, Seen, Words, fresh_hours, is_fresh, standing_looks
from axlewright.plan.sheet.first_look import BOXES, MUST, meanings, park_boxes, word
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.sheets import (
    Boxes,
    Drawing,
    Figure,
    Go,
    Lines,
    Note,
    Numbered,
    Section,
    Sheet,
    Table,
    Text,
    text,
)
from axlewright.sheets.blocks import Box, Column, Item, Line, Row
from axlewright.sheets.drawing import Leader
from axlewright.sheets.figures import drive_section
from axlewright.trade.findings import findings
from axlewright.trade.looks import looks

TABLED = ("level", "plug", "breather", "fluid", "where", "leak-wheel", "leak-input", "bolts", "nuts", "rock")
ALWAYS = {"level", "plug", "breather", "where", "bolts", "nuts", "rock"}
NAMES = {"fluid": "wipe", "where": "chalk", "leak-wheel": "drips, wheel side", "leak-input": "drips, machine side"}
MOST_REVISIONS = 3  # the last ones: the sheet is one page
MOSTLY_LOOKED = 4  # of the five: what was looked at stands in one line, and leaves room beside the drawing
MOST_WITH_PLAN = 6  # conditions: with more the machine from above gives way to them
WRENCH = {
    "bolts": ("Flange bolts", {"still": "still", "streak": "rust streak", "loose": "loose", "gone": "gone"}),
    "nuts": ("Wheel nuts", {"still": "still", "once-still": "still once", "streak": "rust streak", "moved": "moved", "gone": "gone"}),
}  # fmt: skip


def first_look_sheet(look: FirstLook, frame: Frame, plan: Drawing | None = None) -> Drawn:
    """The First look of a trouble, one side.

    Args:
        look: what was seen, judged
        frame: what its title block says
        plan: the machine from above, its corner circled; left out where no machine is named

    Returns:
        the sheet, and the basis of its numbers
    """
    words = Words(look.clock, basis=dict(look.basis))
    stood = standing_looks(look.everything)
    here: tuple[Section, ...] = ()
    roomy = len(look.field.conditions) + len(look.road.conditions) <= MOST_WITH_PLAN
    if plan is not None and roomy:
        here = (Section(heading="Where it is", aside="nose up", place="right", blocks=(Figure(drawing=plan, caption=text("The corner is circled. Look at its twin too."), on_paper=0.5),)),)  # fmt: skip
    sheet = Sheet(
        name="first-look",
        head=frame.head("First look"),
        verdicts=look.lines,
        answer=look.answer,
        sections=(
            Section(
                heading="What was seen",
                aside="machine left, wheel right",
                blocks=(
                    Figure(drawing=section_of(stood), on_paper=0.85 if roomy else 0.75),
                    seen_table(look, stood, words),
                ),
            ),
            Section(
                heading="Park it now if",
                aside="one tick is enough",
                voice="must",
                place="right" if sum(bool(one.shown) for one in look.looks) >= MOSTLY_LOOKED else "left",
                blocks=park_boxes(words, look.parked)[:1],
            ),
            Section(
                heading="Five looks, in this order",
                aside="half an hour, no jacking",
                place="right",
                blocks=(Numbered(items=tuple(_item(n, one, look) for n, one in enumerate(look.looks, 1))),),
            ),
            Section(
                heading="Then a wrench on every one",
                aside="10 minutes, tightening way",
                place="right",
                blocks=tuple(_wrench(name, stood) for name in WRENCH),
            ),
            would_mean(look),
            Section(heading="", place="wide", blocks=(Note(words=MUST, size="lead"),)),
            Section(heading="One call", blocks=(Note(words=text(look.call)),)),
            Section(heading="One date", place="left" if here else "right", blocks=(Note(words=look.date),)),
            *here,
            Section(
                heading="",
                place="wide",
                blocks=(
                    Lines(
                        lines=(
                            Line(label="look again at clock reading"),
                            Line(label="who looked"),
                            Line(label="who looked second"),
                        )
                    ),
                ),
            ),
        ),
        revisions=frame.revisions[-MOST_REVISIONS:],
        block=frame.block("First look"),
        paper="dense",
    )
    return Drawn((sheet,), words.basis)


# what was seen, at its place
def look_at(number: int, finding: str) -> str:
    """The page on which one look at a trouble is written down."""
    return f"/trouble/{number}/look/{finding}"


def section_of(stood: dict[str, tuple[Seen, ...]], number: int | None = None) -> Drawing:
    """The drive in section with what was seen, and with a shut eye where nobody looked; of a trouble, to be tapped."""
    shown = {name: ones[0] for name, ones in stood.items() if ones}
    level = shown.get("level")
    drips = next((side for name, side in (("leak-wheel", "wheel-side"), ("leak-input", "input")) if name in shown and shown[name].grade in {"drips", "runs"}), "")  # fmt: skip
    return drive_section.drawing(
        leaders(stood, number),
        oil=level.grade if level else None,  # type: ignore[arg-type]
        drips=drips,  # type: ignore[arg-type]
        puddle="puddle" in shown and shown["puddle"].grade == "yes",
    )


def leaders(stood: dict[str, tuple[Seen, ...]], number: int | None = None) -> tuple[Leader, ...]:
    """Six places at most: above the drive from-above or heat, breather, rock; below it level or input, plug, wheel side."""
    found = {(one.finding, one.grade) for ones in stood.values() for one in ones}
    above = _place("from-above", "fluid", stood) if ("fluid", "from-above") in found else _place("heat", "heat", stood)
    wet_left = ("where", "input") in found or _bad("leak-input", stood)
    below = _wet("input", "leak-input", stood) if wet_left else _place("level", "level", stood)
    told = {
        "fluid" if ("fluid", "from-above") in found else "heat": above,
        "breather": _place("breather", "breather", stood),
        "rock": _place("rock", "rock", stood),
        "leak-input" if wet_left else "level": below,
        "plug": _place("plug", "plug", stood),
        "leak-wheel": _wet("wheel-side", "leak-wheel", stood),
    }
    if number is None:
        return tuple(told.values())
    return tuple(one.model_copy(update={"goes_to": look_at(number, name)}) for name, one in told.items())


def _bad(finding: str, stood: dict[str, tuple[Seen, ...]]) -> bool:
    return any(not findings()[finding].grade(one.grade).good for one in stood.get(finding, ()))


def _place(place: str, finding: str, stood: dict[str, tuple[Seen, ...]]) -> Leader:
    name = NAMES.get(finding, finding)
    if not stood.get(finding):
        return drive_section.leader(place, name, "not looked at", unseen=True)
    one = stood[finding][0]
    if finding == "fluid":
        return drive_section.leader(place, "oil from", "above")
    return drive_section.leader(place, f"{name} {one.grade.replace('-', ' ')}", _when(one))


def _wet(place: str, leak: str, stood: dict[str, tuple[Seen, ...]]) -> Leader:
    """A side of the hub: what leaks there, or what chalk showed."""
    if stood.get(leak):
        return drive_section.leader(place, f"{_leak(stood[leak][0].grade)} here", _when(stood[leak][0]))
    chalk = stood.get("where", ())
    if any(one.grade == place for one in chalk):
        return drive_section.leader(place, "wet here", _when(chalk[0]))
    if chalk and all(one.grade != "not-yet" for one in chalk):
        return drive_section.leader(place, "dry here", _when(chalk[0]))
    side = "wheel side" if place == "wheel-side" else "machine side"
    return drive_section.leader(place, side, "not looked at", unseen=True)


def _leak(grade: str) -> str:
    return "dry" if grade == "none" else grade


def _when(one: Seen) -> str:
    days = round(one.days_ago or 0.0)
    return "today" if days == 0 else "yesterday" if days == 1 else f"{days} days ago"


def seen_table(look: FirstLook, stood: dict[str, tuple[Seen, ...]], words: Words, number: int | None = None) -> Table:
    """Each look with what it showed and to when that holds; of a trouble, each leads to its look."""
    rows = []
    for name in TABLED:
        ones = stood.get(name, ())
        if not ones and name not in ALWAYS:
            continue
        label = _capital(findings()[name].name if name not in NAMES else NAMES[name])
        said = text(label if number is None else Go(words=label, to=look_at(number, name)))
        if ones:
            shown = "; ".join(findings()[name].grade(one.grade).words for one in ones)
            rows.append(Row(cells=(said, text(shown), fresh_to(ones[0], look, words))))
        else:
            rows.append(Row(cells=(said, text("not looked at"), ()), voice="soft"))
    return Table(
        columns=(
            Column(heading="look", share=2.4),
            Column(heading="what it showed", share=4.6),
            Column(heading="fresh to", to="right", share=2.0),
        ),
        rows=tuple(rows),
    )


def fresh_to(one: Seen, look: FirstLook, words: Words) -> Text:
    """The clock reading to which a look holds, or for how long."""
    pairs = look.verdicts.state.pairs
    if not is_fresh(one, pairs):
        return text("too old")
    row = looks()[findings()[one.finding].look]
    hours = fresh_hours(row, pairs)
    if hours is None:
        return text(row.holds) if row.holds else ()
    left = hours - (one.hours_ago or 0.0)
    at = words.clock_at(left)
    return (at,) if at else text(f"{left:g} h")


def _capital(said: str) -> str:
    return said[0].upper() + said[1:]


# what is still to be looked at
def _item(number: int, one: NextLook, look: FirstLook) -> Item:
    """A look with what it showed, in the words of the table beside it; or how it is done, with its boxes."""
    if one.shown:
        found = [
            findings()[name].grade(grade).words
            for name, grade in look.verdicts.state.pairs
            if name == FIVE.get(one.look.id)
        ]
        return Item(number=str(number), lead=one.look.name, words=text(", ".join(found or one.shown)), done=True)
    minutes = f"{one.look.minutes:g} min" + (f" + {one.look.work_minutes:g}" if one.look.work_minutes else "")
    return Item(
        number=str(number),
        lead=one.look.name,
        words=text(one.look.printed or one.look.short),
        aside=text(minutes),
        boxes=BOXES[one.look.id],
    )


def _wrench(name: str, stood: dict[str, tuple[Seen, ...]]) -> Boxes:
    lead, grades = WRENCH[name]
    ticked = {one.grade for one in stood.get(name, ())}
    return Boxes(
        lead=lead, boxes=tuple(Box(words=text(said), ticked=grade in ticked) for grade, said in grades.items())
    )


def would_mean(look: FirstLook) -> Section:
    """What each outcome of the next look would mean; once all five are taken, the next one is rock."""
    if not any(one.shown for one in look.looks):
        short = (meanings(),)
        return Section(heading="What each outcome will mean", aside="first row that fits", place="right", blocks=short)
    coming = look.next
    if coming is None:
        name = "rock"
        cells = [(f"{one.grade} by {one.by}", one.field, one.road, one.why) for one in by_grade(look, name)]
    else:
        name = coming.look.name.lower()
        if not coming.differs:
            return _all_one(coming, name)
        cells = [(one.words, one.field, one.road, one.row.means) for one in coming.would]
    rows = tuple(Row(cells=(text(see), word(field), word(road), text(means))) for see, field, road, means in cells)
    return Section(
        heading=f"What the next look would mean: {name}",
        aside="the others as they are",
        place="right",
        blocks=(
            Table(
                columns=(
                    Column(heading="you see", share=2.4),
                    Column(heading="field", share=1.7),
                    Column(heading="road", share=1.7),
                    Column(heading="it means", share=4.2),
                ),
                rows=rows,
            ),
        ),
    )


def _all_one(coming: NextLook, name: str) -> Section:
    """Outcomes that come to one are told once."""
    one = coming.would[0]
    said: Text = ("Whatever it shows: FIELD ", *word(one.field), ", ROAD ", *word(one.road), f"; {one.row.means}.")
    return Section(heading=f"What the next look would mean: {name}", aside="the others as they are", place="right", blocks=(Note(words=said),))  # fmt: skip
