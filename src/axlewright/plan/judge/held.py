"""HOLD and LIFT of a corner as they are judged, by answers and by what was reckoned; and why it is a stop, in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from axlewright.plan.judge.margins import Fired, HeldVerdict, judge_line
from axlewright.plan.judge.road import printed
from axlewright.plan.quantities_of import walked_round
from axlewright.plan.reckon.lift_task import LiftTask
from axlewright.plan.reckon.lifting import Lifting, lift
from axlewright.plan.reckon.support import Supported, SupportInputs, support, three_points
from axlewright.plan.workings import Refused
from axlewright.trade.verdicts import questions
from axlewright.yard import Trouble, Yard

# What the sheet itself makes a hold point or a caution of: nobody can answer it before the work.
GUARDED: dict[str, dict[str, str]] = {
    "HOLDING": {
        "read-again": "done", "held-by": "jack-and-wood", "held-from-rolling": "chocks-alone",
        "brakes-off": "after-two-saw-the-chocks", "rear-blocks-each-bite": "yes", "rear-blocks-at-height": "yes",
        "on-the-jack": "no", "gauge": "in-its-band",
    },
    "LIFTING": {"under-it": "nobody", "taken-off-wheel": "flat-or-chained", "on-the-forks": "yes"},
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Walked:
    """A walk-round that was made at the machine."""

    who: str
    on: date
    at: str = ""  # time of day, as they wrote it


def walked_of(yard: Yard, trouble: Trouble) -> Walked | None:
    """Who walked round the machine, and when; None while a box of it is open."""
    walked = walked_round(yard, trouble)
    if walked is None or not walked.complete:
        return None
    return Walked(walked.who or "nobody named", walked.on, f"{walked.at:%H:%M}" if walked.at else "")


def answered(line: str, answers: Mapping[str, str], walked: Walked | None) -> dict[str, str]:
    """The answers that a line is judged by; without a walk-round nothing seen at the table stands in for it."""
    mine = {asked: said for asked, said in answers.items() if questions()[asked].line == line}
    if line == "HOLDING":
        mine["walk-round"] = "done" if walked else "not-yet"
    if walked is None:
        return mine
    return {**GUARDED[line], **mine}


def judged_hold(inputs: SupportInputs, walked: Walked | None) -> tuple[HeldVerdict, Supported | Refused | None]:
    """HOLD as it is judged, and what it was judged by; nothing is reckoned where answers alone are a stop."""
    answers = {**answered("HOLDING", inputs.answers, walked), "rests-on": inputs.rests_on}
    if not three_points(inputs.kind):
        answers.setdefault("undercarriage", "rigid-rear-axle")
        if answers["undercarriage"] == "swinging-rear-axle":
            answers["undercarriage"] = "rigid-rear-axle"
    early = judge_line("HOLDING", answers)
    if early.word == "no":
        return early, None
    try:
        made = support(replace(inputs, timber_basis="measured" if walked else inputs.timber_basis))
    except Refused as no:
        return early, no
    return judge_line("HOLDING", answers, made.margins), made


@dataclass(frozen=True, slots=True)
class LiftInputs:
    """What a Wheel and lift sheet is drawn up from.

    Attributes:
        task: wheel, drive, loader, hoist, legs; what nobody read stays empty
        answers: of the line LIFTING, by question
        at: what its numbers' names begin with: `bramble.front-right/lift`
        seed: of the draws
        count: of the draws
    """

    task: LiftTask
    answers: Mapping[str, str] = field(default_factory=dict)
    at: str = "corner/lift"
    seed: int = 1
    count: int = 2048


def judged_lift(inputs: LiftInputs, walked: Walked | None) -> tuple[HeldVerdict, Lifting]:
    """LIFT as it is judged, and what it was judged by."""
    made = lift(inputs.task, inputs.at, inputs.seed, inputs.count)
    return verdict_of(made, answered("LIFTING", inputs.answers, walked)), made


def verdict_of(made: Lifting, answers: Mapping[str, str]) -> HeldVerdict:
    """LIFTING of the drive, and of the wheel on its forks: the worse word, with all rows of both."""
    task = made.task
    known = {**answers, "lift-by": task.how}
    if task.drive.mass.basis == "measured":
        known.setdefault("mass-known", "weighed")
    if any(one.part.limit is None for one in made.parts):
        known["tags"] = "unread"
    if task.how == "hook" and made.hangs:
        known["hang"] = "rolls-over" if made.turns_over else "stable"
    drive = judge_line("LIFTING", known, made.margins)
    if task.wheel is None:
        return drive
    own = {asked: said for asked, said in known.items() if asked not in ("hang", "hoist", "slings", "textile", "tags")}
    wheel = judge_line(
        "LIFTING",
        {**own, "lift-by": "forks", "on-the-forks": "yes", "tags": "read", "mass-known": "trial-lift-planned"},
        (made.wheel,) if made.wheel else (),
    )
    return _both(drive, wheel)


def _both(drive: HeldVerdict, wheel: HeldVerdict) -> HeldVerdict:
    """The worse of both lines, with the conditions of both."""
    word = printed([drive.word, wheel.word])
    first = drive if drive.word == word else replace(wheel, why=f"the wheel: {wheel.why}")
    conditions = tuple(dict.fromkeys((*drive.conditions, *(f"wheel {one}" for one in wheel.conditions))))
    unworked = tuple(dict.fromkeys((*drive.unworked, *wheel.unworked)))
    fired = (*drive.fired, *(one for one in wheel.fired if one not in drive.fired))
    return replace(first, word=word, conditions=conditions, fired=fired, unworked=unworked)


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason to stop: what is so, why that matters, what would lift it."""

    causes: tuple[str, ...]
    why: str
    lifts: tuple[str, ...]
    key: str  # by which words may stand beside it

    def __str__(self) -> str:
        said = "; ".join(self.causes)
        return f"{said}: {self.why}" if said else self.why


def stops_of(verdict: HeldVerdict) -> tuple[Reason, ...]:
    """Every reason why it is a stop; rows with one why stand together, each cause named."""
    found: dict[str, Reason] = {}
    for one in verdict.fired:
        if one.word != "no":
            continue
        rule = one.rule
        asked = [(questions()[name], said) for name, said in one.answers]
        causes = [row.stops[said] for row, said in asked if said in row.stops] or [_failing(one)]
        lifts = [row.lifts.get(said, rule.lifted_by) for row, said in asked] or [rule.lifted_by]
        before = found.get(rule.why, Reason((), rule.why, (), rule.margin or rule.id))
        found[rule.why] = replace(
            before,
            causes=tuple(dict.fromkeys((*before.causes, *causes))),
            lifts=tuple(dict.fromkeys((*before.lifts, *lifts))),
        )
    return tuple(found.values())


def _failing(one: Fired) -> str:
    """What a margin under its limit means; of forks, whether it is the wheel or the drive that is too much."""
    said = FAILING[one.rule.margin]
    if one.margin is not None and one.rule.margin == "tip-slope" and one.margin.at(0.5) <= 0:
        return "the centre of gravity lies outside its supports"
    return f"the {one.margin.stage}: {said}" if one.margin is not None and one.rule.margin == "forks" else said


def because(verdict: HeldVerdict) -> str:
    """The first reason of a stop, by its name."""
    first = next(iter(stops_of(verdict)), None)
    return verdict.why if first is None else f"{first}"


FAILING = {
    "": "",
    "tip-slope": "it would tip",
    "ground-slope": "the ground slopes more than 3 %",
    "jack": "more load than the jack’s plate",
    "stand": "more load than the stand’s plate",
    "crossing": "timber crossings too weak",
    "seat": "too little wood under the plate",
    "ground": "the ground too soft for this crib",
    "lower-code": "the crib too weak by the lower code",
    "crib-height": "the crib too high for its timber",
    "side-hold": "too little hold against a push",
    "chocks": "the chocks hold too little",
    "wind": "wind over 15 m/s",
    "forks": "more load than the forks carry there",
    "leg-angle": "a leg over 60° from plumb",
    "hang-angle": "it hangs near to turning over",
    "rig": "more load than a part’s tag",
    "hoist-tip": "the hoist would tip",
}
