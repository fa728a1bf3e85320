"""What was answered of a trouble: its own answers, then those of its design, its machine and the yard's gear."""

from __future__ import annotations

from collections.abc import Mapping

from axlewright.trade.questions import Question, in_group, question
from axlewright.yard.picture import Yard
from axlewright.yard.records import Answer, Design, Machine, Stated, Trouble

WALK_ROUND = "walk-round"


def design_of(yard: Yard, trouble: Trouble) -> Design | None:
    """The design of the drive that a trouble is about."""
    drive = next((d for d in yard.drives if d.id == trouble.drive), None) or yard.drive_at(trouble.corner)
    return next((d for d in yard.designs if drive and d.id == drive.design), None)


def answers_of(yard: Yard, trouble: Trouble) -> Mapping[str, Answer]:
    """The answers that hold for a trouble, by name: its own over its design's, over its machine's, over the yard's."""
    design = design_of(yard, trouble)
    return {
        **yard.answered(),
        **yard.answered(machine=trouble.corner.machine),
        **(yard.answered(design=design.id) if design else {}),
        **yard.answered(trouble=trouble.number),
    }


def stated(yard: Yard, trouble: Trouble, asked: Question) -> tuple[Stated, Machine | Design] | None:
    """What the file of the machine or the design says in a key of its own, and whose it is."""
    if not asked.field:
        return None
    thing = yard.machine(trouble.corner.machine) if asked.of == "machine" else design_of(yard, trouble)
    said = getattr(thing, asked.field, None) if thing else None
    if thing is None or not said:
        return None
    return (said if isinstance(said, Stated) else Stated(value=said)), thing


def words_answered(yard: Yard, trouble: Trouble) -> Mapping[str, str]:
    """Every answer of a trouble that is a word, as the trade spells it."""
    found = {}
    for name, answer in answers_of(yard, trouble).items():
        asked = question(name)
        if not asked.number:
            found[name] = str(asked.read(answer.value, yard.title.decimal))
    return found


def is_asked(asked: Question, words: Mapping[str, str]) -> bool:
    """Whether a question arises, by what was answered to others; one that nobody answered counts as its first answer."""
    return all(words.get(other, question(other).words()[0]) in answers for other, answers in asked.given.items())


def ticks(answer: Answer) -> bool:
    """Whether an answer ticks a box: what somebody saw, or read off a plate, for this trouble. A guess ticks none."""
    return answer.trouble is not None and answer.basis in ("measured", "book")


def open_boxes(yard: Yard, trouble: Trouble) -> tuple[Question, ...]:
    """The boxes of the walk-round that nobody has ticked yet."""
    own, words = yard.answered(trouble=trouble.number), words_answered(yard, trouble)
    ticked = {name for name, answer in own.items() if ticks(answer)}
    return tuple(
        asked for asked in in_group(WALK_ROUND) if asked.box and asked.id not in ticked and is_asked(asked, words)
    )
