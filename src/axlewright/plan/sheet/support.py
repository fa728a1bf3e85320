"""Support: what stands on what, how far from tipping, what holds and what could break it, walk-round, gauge, stages."""

from __future__ import annotations

from axlewright.plan.judge import HeldVerdict
from axlewright.plan.judge.held import Walked, judged_hold
from axlewright.plan.reckon.support import Supported, SupportInputs
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.held import Told, refusal, stopped, verdict_line
from axlewright.plan.sheet.support_figures import crib, on_three_points
from axlewright.plan.sheet.support_gauge import gauge
from axlewright.plan.sheet.support_words import CALLS, Say, hints, said_number, stages, what_holds
from axlewright.plan.sheet.trace import Trace
from axlewright.plan.sheet.walk_round import before_the_lift, graded, walk_round
from axlewright.plan.workings import Refused
from axlewright.sheets import Block, Caution, Deciding, Section, Sheet, Text, text

UNTIL = "the walk-round: slope, jack plate, timber, ground, header seen at the machine"
MOST_REVISIONS = 3  # the last ones: the sheet is one page
OTHER = {"front-left": "front right", "front-right": "front left"}


def support_sheet(inputs: SupportInputs, frame: Frame, walked: Walked | None = None) -> Drawn:
    """The Support sheet of a corner: a table sheet until somebody walked round, a stop where it is one.

    Args:
        inputs: what it is drawn up from
        frame: what its title block says
        walked: who made the walk-round, and when

    Returns:
        the sheet, and the basis of its numbers

    Raises:
        ValueError: an input that cannot be, said in words
    """
    verdict, made = judged_hold(inputs, walked)
    if verdict.word == "no":  # some stops no number lifts
        return _stop(verdict, frame, walked)
    if isinstance(made, Refused):
        return _refused(made, verdict, frame, walked)
    assert made is not None
    return _drawn(made, verdict, frame, walked)


def _head(frame: Frame) -> Text:
    return frame.head("Support")


def _stop(verdict: HeldVerdict, frame: Frame, walked: Walked | None) -> Drawn:
    line = verdict_line("HOLD", verdict)
    return stopped("support", "Support", line, verdict, frame, graded(walked, frame.revision), hints())


def _drawn(made: Supported, verdict: HeldVerdict, frame: Frame, walked: Walked | None) -> Drawn:
    say = Say(made, Told(Trace(made.holding.likely)))
    go = text("by the walk-round; read slope, jack and timber again before the first lift.")
    sheet = Sheet(
        name="support",
        head=_head(frame),
        grade=graded(walked, frame.revision),
        verdicts=(verdict_line("HOLD", verdict, UNTIL if walked is None else "", go),),
        answer=_answer(made),
        deciding=_deciding(say),
        sections=(
            on_three_points(say),
            what_holds(say),
            gauge(say),
            crib(say),
            _walk_round(made) if walked is None else _before(),
            stages(say),
            Section(heading="What must not be missed", place="wide", blocks=_cautions(say)),
        ),
        revisions=frame.revisions[-MOST_REVISIONS:],
        block=frame.block("Support"),
    )
    return Drawn((sheet,), say.told.basis())


def _refused(no: Refused, verdict: HeldVerdict, frame: Frame, walked: Walked | None) -> Drawn:
    """An input cannot be: says which; the walk-round and the cautions stand."""
    sheet = Sheet(
        name="support",
        head=_head(frame),
        grade=graded(walked, frame.revision),
        verdicts=(verdict_line("HOLD", verdict, "every number below can be worked out"),),
        answer=text("Not worked out: one of the numbers cannot be."),
        sections=(
            Section(heading="Standing on three points", blocks=(refusal(no, CALLS),)),
            walk_round(LIST),
            Section(heading="What must not be missed", place="wide", blocks=CAUTIONS),
        ),
        revisions=frame.revisions[-MOST_REVISIONS:],
        block=frame.block("Support"),
    )
    return Drawn((sheet,), {})


def _answer(made: Supported) -> Text:
    """The answer in one sentence or two."""
    answers = made.inputs.answers
    header = made.holding.likely[f"{made.holding.at}/header"].ends()[1] > 0 and answers.get("header") != "off"
    tank = made.holding.likely[f"{made.holding.at}/grain"].ends()[1] > 0 and answers.get("tank") != "empty"
    first = " and ".join(filter(None, ("tank empty" if tank else "", "header off" if header else "")))
    lead = f"{first[0].upper()}{first[1:]} first. " if first else ""
    if made.inputs.rests_on == "stand":
        return text(f"{lead}{'Then the' if lead else 'The'} corner stands on a rated stand.")
    if not made.pieces:
        timber = "no timber is counted yet" if not made.inputs.timber else "this timber makes no crib for it"
        return text(f"{lead}{'Then the' if lead else 'The'} corner needs wood: {timber}.")
    return text(f"{lead}{'Then the' if lead else 'The'} corner stands on {said_number(made.pieces)} timbers.")


def _deciding(say: Say) -> tuple[Deciding, ...]:
    """On the jack and on the crib: the heaviest we think possible, the likely one below."""
    made = say.made
    holding = made.holding
    jack = max(("jack-takes-it", "raised"), key=lambda name: holding.load(name)[1])
    what = "stand" if made.inputs.rests_on == "stand" else "crib"
    return (
        Deciding(number=text(say.mass(jack)), words=text("on the jack; ", say.mass(jack, likely=True), " is likely")),
        Deciding(
            number=text(say.mass(made.governing.name)),
            words=text(f"on the {what}; ", say.mass(made.governing.name, likely=True), " is likely"),
        ),
    )


LIST = (
    ("Ground slope, phone level", "%, stop over 3"),
    ("Jack plate, photo", "t"),
    ("Timbers counted, taped", "pieces"),
    ("Ground: slab, or boot heel", "kPa"),
    ("Header off, tank empty, seen", "seen by"),
    ("Front axle weigh ticket", "t"),
    ("Rear axle blocks, both sides", "mm, 10 to 20"),
    ("Chocks in, three wheels", "seen by two"),
    ("Second adult; phone works here", "who"),
)


def _walk_round(made: Supported) -> Section:
    """The list, with what this crib asks of it; a stand in place of timber."""
    need = f"pieces, {made.pieces} + 2" if made.pieces else "pieces"
    wood = (
        ("Stand plate, photo", "t, one or a pair")
        if made.inputs.rests_on == "stand"
        else ("Timbers counted, taped", need)
    )
    return walk_round(tuple(wood if label.startswith("Timbers") else (label, unit) for label, unit in LIST))


def _before() -> Section:
    """The hold point of a shop sheet."""
    words = text(
        "Read again: slope, jack, timber. Chocks seen by two, then brakes off. Rear axle blocks with 10 to 20 mm, set again each bite, snug at full height."
    )
    return before_the_lift("Hold point", "two of you", words, ("slope, %", "read by", "seen by"))


def _cautions(say: Say) -> tuple[Block, ...]:
    """Three, each with its numbers."""
    made = say.made
    holding, at = made.holding, say.at
    other = OTHER.get(made.inputs.corner, "the other front wheel")
    bite = say.told.own(f"{at}/bite", "length", holding.likely[f"{at}/rise"].middle() / made.bites, "rise over bites", made_of=(f"{at}/rise",), digits=2)  # fmt: skip
    say.told.likely.keep(f"{at}/rise")
    name = f"{at}/raised.drift"
    say.told.likely.keep(name)
    walk = say.told.own(f"{at}/walk", "length", holding.likely[name].ends()[1] / made.bites, "travel of the lift point over bites", made_of=(name,), digits=2, toward="up")  # fmt: skip
    return (
        Caution(
            lead="Brake and gear hold nothing",
            words=text(f"once a drive wheel is clear. Chocks do: {other} and both rear wheels, both sides, before the jack touches."),
        ),
        Caution(
            lead="Jack lifts, crib holds.",
            words=text("Bites of ", bite, ": the lift point walks ", walk, f" towards the {other.split()[-1]} each time, so set the jack plumb again. Hands and feet out until it is down on wood."),
        ),
        CAUTIONS[2],
    )  # fmt: skip


CAUTIONS: tuple[Block, ...] = (
    Caution(
        lead="Brake and gear hold nothing",
        words=text("once a drive wheel is clear. Chocks do: the other front wheel and both rear wheels, both sides."),
    ),
    Caution(
        lead="Jack lifts, crib holds.", words=text("Hands and feet out until it is down on wood. Short bites, jack plumb.")
    ),
    Caution(
        lead="Look at the crib",
        words=text("after 10 minutes, at each break, after rain, next morning. Creaking or bulging ends: load off."),
    ),
)  # fmt: skip
