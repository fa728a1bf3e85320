"""walk-round: what is seen at the machine, box by box; without answers, which boxes there are and which are open."""

from __future__ import annotations

import json
from argparse import Namespace
from collections.abc import Iterable

from axlewright import desk
from axlewright.cli import yards
from axlewright.plan.quantities_of import walked_round
from axlewright.trade.questions import Question, questions
from axlewright.yard import Trouble, Yard
from axlewright.yard.asked import WALK_ROUND, answers_of, is_asked, open_boxes, ticks, words_answered

NAME, VALUE = 26, 22  # letters of the first two columns


def run(args: Namespace) -> int:
    place = yards.opened(args)
    yard = place.read()
    if args.values:
        fields = {"trouble": args.trouble, "values": yards.answers(args.values), "on": yards.day(args)}
        deed, now = desk.typed(desk.WalkedRound, yard, fields), yards.now(args)
        yard, _ = desk.carry_out(place, lambda standing: desk.walk_round(standing, deed, now))
    trouble = yard.trouble(args.trouble)
    if args.json:
        print(json.dumps(as_data(yard, trouble), ensure_ascii=False, indent=1))
    elif args.values:
        print(outcome(yard, trouble))
    else:
        print("\n".join([f"Trouble {trouble.number}, at {trouble.corner}:", "", *listed(yard, trouble)]))
        print(f"\n{outcome(yard, trouble)}")
    return 0


def boxes(yard: Yard, trouble: Trouble) -> list[Question]:
    """The boxes that arise at this trouble."""
    words = words_answered(yard, trouble)
    mine = [asked for asked in questions().values() if asked.belongs(WALK_ROUND) and asked.box]
    return [asked for asked in mine if is_asked(asked, words)]


def listed(yard: Yard, trouble: Trouble) -> Iterable[str]:
    """Each box with what was answered, or what may be."""
    own, known = yard.answered(trouble=trouble.number), answers_of(yard, trouble)
    for asked in boxes(yard, trouble):
        answer = own.get(asked.id)
        if answer and not ticks(answer):
            answer = None  # a guess
        before = known.get(asked.id)
        told = f"as {asked.example}" if asked.number else " | ".join(asked.words()) or f"as {asked.example}"
        if before:
            told = f"kept: {before.value}"
        yield f"{asked.id:{NAME}} {answer.value if answer else 'open':{VALUE}} {asked.asks}" + ("" if answer else f" ({told})")  # fmt: skip


def outcome(yard: Yard, trouble: Trouble) -> str:
    """How far the walk-round came."""
    open_still = open_boxes(yard, trouble)
    walked = walked_round(yard, trouble)
    if not open_still and walked:
        return f"Every box has its answer. Walked round {walked.on}, {walked.who or 'nobody named'}: draw up the shop sheets."
    more = f" ... and {len(open_still) - 3} more" if len(open_still) > 3 else ""
    first = open_still[0]
    wanted = ", ".join(asked.id for asked in open_still[:3]) + more
    return (
        f"{len(open_still)} boxes open: {wanted}. The sheets stay table sheets, NOT FOR LIFTING.\n"
        f'Write NAME=VALUE, as {first.id}="{first.example}"; {desk.KEPT} where what the yard knew is still so.'
    )


def as_data(yard: Yard, trouble: Trouble) -> dict[str, object]:
    own, walked = yard.answered(trouble=trouble.number), walked_round(yard, trouble)
    rows = [
        {
            "name": asked.id,
            "asks": asked.asks,
            "help": asked.help,
            "answers": list(asked.words()),
            "example": asked.example,
            "value": own[asked.id].value if asked.id in own and ticks(own[asked.id]) else None,
        }
        for asked in boxes(yard, trouble)
    ]
    return {
        "trouble": trouble.number,
        "corner": str(trouble.corner),
        "complete": walked is not None and walked.complete,
        "who": walked.who if walked else None,
        "on": walked.on.isoformat() if walked else None,
        "open": [asked.id for asked in open_boxes(yard, trouble)],
        "boxes": rows,
    }
