"""The foot of a trouble's sheets: who saw and decided what, letter by letter, and what the title block says."""

from __future__ import annotations

from datetime import date

from axlewright.plan.sheet.frame import Frame
from axlewright.sheets import Revision, Run, Text
from axlewright.sheets.figures.machine import CORNERS
from axlewright.trade.findings import findings
from axlewright.yard import Corner, Finding, Stage, Trouble, Yard

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # I and O are left out: they read as figures
MOST_NAMED = 4
NEXT = {"seen": "judged", "judged": "settled", "settled": "drawn up"}
SAYS = {"judged": "verdicts made out", "settled": "a course taken", "drawn up": "the sheets"}


def corner_words(yard: Yard, corner: Corner) -> str:
    """`Bramble, forage harvester, front right`."""
    machine = yard.machine(corner.machine)
    kind = (machine.kind or "").replace("-", " ")
    return ", ".join(filter(None, (machine.name, kind, CORNERS[corner.place])))


def frame_of(yard: Yard, trouble: Trouble, today: date) -> Frame:
    """What the title blocks of a trouble's sheets say."""
    made = revisions(yard, trouble)
    kept = [one for one in made if not one.ahead]
    who = next((stage.who for stage in reversed(yard.stages_of(trouble.number)) if stage.who), "")
    return Frame(
        corner=corner_words(yard, trouble.corner),
        trouble=str(trouble.number),
        revision=kept[-1].letter if kept else "",
        on=today,
        yard=yard.title.name,
        made_by=who,
        revisions=made,
    )


def revisions(yard: Yard, trouble: Trouble, most: int = 6) -> tuple[Revision, ...]:
    """The last rows of a trouble's history, and its next stage in construction ink."""
    stages, seen = yard.stages_of(trouble.number), yard.findings_of(trouble.number)
    days = sorted({one.on for one in stages} | {one.on for one in seen})
    rows = []
    for day in days:
        rows += _rows([s for s in stages if s.on == day], [f for f in seen if f.on == day])
    lettered = [row.model_copy(update={"letter": _letter(number)}) for number, row in enumerate(rows)]
    ahead = NEXT.get(yard.stage(trouble.number))
    nxt = (
        (Revision(letter=_letter(len(rows)), on=None, who="", changed=_stage(ahead, SAYS[ahead]), ahead=True),)
        if ahead
        else ()
    )
    return (*lettered[-most:], *nxt)


def _letter(number: int) -> str:
    size = len(LETTERS)
    return LETTERS[number] if number < size else LETTERS[number // size - 1] + LETTERS[number % size]


def _rows(stages: list[Stage], seen: list[Finding]) -> list[Revision]:
    """The rows of one day: what was seen goes with the stage *seen*, else it stands alone; then each other stage."""
    told = _seen(seen)
    rows: list[Revision] = []
    who = ", ".join(dict.fromkeys(one.who for one in seen if one.who))
    if seen and not any(stage.stage == "seen" for stage in stages):
        rows.append(Revision(letter="", on=seen[0].on, who=who, changed=(told,)))
    for stage in stages:
        said = _once(stage.course or "", (stage.note or "").strip().removesuffix("."))
        words = told if stage.stage == "seen" and seen else said
        rows.append(Revision(letter="", on=stage.on, who=stage.who or who, changed=_stage(stage.stage, words)))
    return rows


def _once(course: str, note: str) -> str:
    """A course with its note; where the note says the course's name itself, the note alone."""
    if not course or not note:
        return course or note
    note = note[0].lower() + note[1:] if note[1:2].islower() else note
    return note if note.lower().startswith(course) else f"{course}; {note}"


def _stage(name: str, words: str) -> Text:
    return (Run(voice="strong", words=(name,)), *((f": {words}",) if words else ()))


def _seen(seen: list[Finding]) -> str:
    words = [findings()[one.finding].grade(one.grade).seen for one in seen]
    more = len(words) - MOST_NAMED
    return ", ".join(words[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
