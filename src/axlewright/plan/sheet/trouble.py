"""The trouble's own sheet: verdicts, the answer, what was seen at its leaders, what each next look would mean."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from axlewright.plan.corners import corner_now
from axlewright.plan.facts import clock_now, job_open, seen_at
from axlewright.plan.first_look import FirstLook, NextLook, first_look
from axlewright.plan.judge import Seen, Words, standing_looks
from axlewright.plan.judge.seen import Pair, fresh_hours, is_fresh
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.revisions import corner_words, frame_of
from axlewright.sheets import Block, Caution, Drawing, Figure, Go, Note, Run, Section, Sheet, Table, Text, text
from axlewright.sheets.blocks import Column, Row
from axlewright.sheets.drawing import Leader
from axlewright.sheets.figures import condition, drive_section
from axlewright.trade.findings import findings
from axlewright.trade.looks import looks
from axlewright.yard import Trouble, Yard

# what stands at its leader in the section, and where it is told
LEADERS = {"plug": "plug", "level": "level", "breather": "breather", "rock": "rock", "heat": "heat"}
TABLE = ("wipe", "chalk", "breather", "level", "plug", "bolts", "nuts", "rock")


def look_of(yard: Yard, trouble: Trouble, today: date) -> FirstLook:
    """The First look of a trouble as it stands today."""
    corner = trouble.corner
    return first_look(
        clock=clock_now(yard, corner, today),
        today=today,
        before=seen_at(yard, corner, today),
        job_open=job_open(yard, corner),
    )


def trouble_sheet(yard: Yard, trouble: Trouble, today: date) -> Drawn:
    """What a trouble looks like today."""
    look, frame = look_of(yard, trouble, today), frame_of(yard, trouble, today)
    words = Words(look.clock, basis=dict(look.basis))
    stood = standing_looks(seen_at(yard, trouble.corner, today))
    bad = look.verdicts.state.pairs
    drive = yard.drive(trouble.drive).name if trouble.drive else ""
    head = f" · {corner_words(yard, trouble.corner)}" + (f", {drive}" if drive else "")
    sheet = Sheet(
        name="trouble",
        head=text(Run(voice="strong", words=(f"Trouble {trouble.number}",)), head),
        verdicts=look.lines,
        answer=look.answer,
        lead=_lead(look),
        sections=(
            Section(
                heading="What was seen",
                aside="machine left, wheel right",
                blocks=(Figure(drawing=section(stood, bad)), looked_at(stood, bad, words)),
            ),
            _condition(yard, trouble, today),
            Section(heading="One call", place="right", blocks=(Note(words=text(look.call)),)),
            Section(heading="One date", place="right", blocks=(Note(words=look.date),)),
            *_next_looks(look),
            Section(
                heading="What must not be missed",
                place="wide",
                blocks=(
                    Caution(
                        lead="A chip, a loose bolt, a clunk:",
                        words=text("FIELD no, ROAD no, whatever else was seen. The machine’s own book comes first."),
                    ),
                ),
            ),
        ),
        revisions=frame.revisions,
        block=frame.block(f"Trouble {trouble.number}"),
    )
    return Drawn((sheet,), words.basis)


def _lead(look: FirstLook) -> Text:
    """What it means, unless the answer says it already."""
    means = look.outcome.means
    said = "".join(piece for piece in look.answer if isinstance(piece, str)).lower()
    return () if means in said else text(f"{means[0].upper()}{means[1:]}.")


def section(stood: Mapping[str, tuple[Seen, ...]], bad: frozenset[Pair]) -> Drawing:
    """The drive with what was seen at its leaders, dashed with a shut eye where nobody looked."""
    leaders: list[Leader] = []
    for finding, place in LEADERS.items():
        shown = stood.get(finding, ())
        if shown and is_fresh(shown[0], bad):
            leaders.append(drive_section.leader(place, *_lines(findings()[finding].name, _grades(shown))))
        else:
            leaders.append(drive_section.leader(place, f"{SHORT[finding]}: not", "looked at", unseen=True))
    where = {one.grade for one in stood.get("where", ())}
    wet = next((place for place in ("wheel-side", "input") if place in where), "")
    drops = any(one.grade in {"drips", "runs"} for name in ("leak-wheel", "leak-input") for one in stood.get(name, ()))
    level = next((one.grade for one in stood.get("level", ())), None)
    return drive_section.drawing(
        tuple(leaders),
        oil=level if level in {"at-mark", "low", "over", "not-reached"} else None,  # type: ignore[arg-type]
        drips=wet if drops else "",  # type: ignore[arg-type]
        puddle=any(one.grade == "yes" for one in stood.get("puddle", ())),
    )


SHORT = {"plug": "plug", "level": "level", "breather": "breather", "rock": "rock", "heat": "heat"}


def _grades(shown: tuple[Seen, ...]) -> str:
    return ", ".join(findings()[one.finding].grade(one.grade).seen for one in shown)


def _lines(name: str, said: str) -> tuple[str, ...]:
    """Words on one or two short lines."""
    if len(said) <= 16:
        return (said,)
    cut = said.rfind(" ", 0, len(said) // 2 + 5)
    return (said[:cut], said[cut + 1 :]) if cut > 0 else (said,)


def looked_at(stood: Mapping[str, tuple[Seen, ...]], bad: frozenset[Pair], words: Words) -> Table:
    """Each look, what it showed, and to which clock reading it is fresh."""
    rows = []
    for name in TABLE:
        finding = looks()[name].gives[0]
        shown = stood.get(finding, ())
        heading = looks()[name].name
        if not shown:
            rows.append(Row(cells=(text(heading), text("not looked at"), ())))
            continue
        fresh = is_fresh(shown[0], bad)
        hours = fresh_hours(looks()[name], bad)
        left = hours - (shown[0].hours_ago or 0.0) if hours is not None else None
        until: Text = ()
        if fresh and left is not None:
            at = words.clock_at(left)
            until = (at,) if at else text(f"{left:g} h more")
        said = _grades(shown)
        rows.append(Row(cells=(text(heading), text(said if fresh else f"{said}; too old"), until)))
    columns = (
        Column(heading="look", share=2.2),
        Column(heading="it showed", share=5),
        Column(heading="fresh to", to="right", share=2),
    )
    return Table(columns=columns, rows=tuple(rows))


def _condition(yard: Yard, trouble: Trouble, today: date) -> Section:
    now = corner_now(yard, trouble.corner, today)
    stands = now.standing
    block: Block
    if stands.looked and stands.word is None and now.verdicts.field.word != "yes":
        block = Note(words=text("Looked at in part: nothing seen so far speaks against it."))
    else:
        told = (
            f"{stands.words[0].upper()}{stands.words[1:]}."
            if stands.word or not stands.looked
            else "As far as looked at."
        )
        state = stands.word or ("sound" if stands.looked else "not looked at")
        block = Figure(drawing=condition.drive(state), caption=text(told))
    return Section(heading="Condition, by word", aside="by findings alone", place="right", blocks=(block,))


def _next_looks(look: FirstLook) -> tuple[Section, ...]:
    """What each outcome of the next look would mean; nothing more to look at while it is stopped."""
    if look.make_safe:
        return (
            Section(
                heading="Make safe",
                place="wide",
                voice="must",
                blocks=(
                    Note(words=text(Go(words="The Make safe sheet", to="make-safe"), " comes before anything else.")),
                ),
            ),
        )
    ahead = look.next
    return (_would(ahead),) if ahead is not None else ()


def _would(ahead: NextLook) -> Section:
    rows = tuple(Row(cells=(text(w.words), _word(w.field), _word(w.road), text(w.row.means))) for w in ahead.would)
    columns = (
        Column(heading="it shows", share=2.4),
        Column(heading="field", share=1.5),
        Column(heading="road", share=1.5),
        Column(heading="it means", share=4.6),
    )
    return Section(
        heading=f"Look next: {ahead.look.name.lower()}",
        aside=f"{ahead.look.minutes:g} min, no jacking",
        place="wide",
        blocks=(Note(words=text(ahead.look.how)), Table(columns=columns, rows=rows)),
    )


def _word(word: str) -> Text:
    return text(Run(voice="must", words=(word,))) if word == "no" else text(word)
