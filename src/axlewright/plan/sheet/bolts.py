"""Bolts: numbered pattern, which first, passes, the torque for the grease really used, or that nothing is safe to set."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from axlewright.plan.judge import HeldVerdict, Words, judge_line
from axlewright.plan.reckon.joints import GreaseWindow, Joint, on_a_mark
from axlewright.plan.sheet import bolt_figures as figures
from axlewright.plan.sheet.bolt_words import OTHER, Say, answer, grease_words, joint_line, lead
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.trace import Trace
from axlewright.sheets import (
    Block,
    Caution,
    Deciding,
    HoldPoint,
    Note,
    Numbered,
    Run,
    Section,
    Sheet,
    Table,
    Text,
    Values,
    text,
)
from axlewright.sheets.blocks import Column, Item, Row
from axlewright.trade import irons, tightening
from axlewright.trade.threads import look_alikes
from axlewright.yard import Hours

HOUR = 3600.0
MOST_CAUTIONS = 4


def bolts_sheet(made: Joint, frame: Frame, clock: Hours | None = None, again: Sequence[float] = ()) -> Drawn:
    """The Bolts sheet of a joint that was reckoned through.

    Args:
        made: the joint
        frame: what its title block says
        clock: what the engine's clock read when they were tightened; None before that
        again: hours after which these bolts are looked at again [h]; ours where none are given

    Returns:
        the sheet, and the basis of its numbers
    """
    say, words = Say(made, Trace(made.w)), Words(clock)
    verdict = judge_line("JOINT", made.answers, made.margins)
    stops = made.setting is None or verdict.word == "no"
    sections = _stopped(say, verdict) if stops else _set(say, words, again)
    grade = frame.grade if frame.grade is not None and frame.grade.shop else None
    sheet = Sheet(
        name="bolts",
        head=frame.head("Bolts"),
        grade=grade,  # a table sheet of bolts lifts nothing: "is it that bolt?" says what to look at
        verdicts=(joint_line(verdict),),
        answer=answer(say, verdict),
        lead=lead(say),
        deciding=() if stops else (_deciding(say),),
        sections=sections,
        revisions=frame.revisions,
        block=frame.block("Bolts"),
    )
    return Drawn((sheet,), {**say.trace.entries, **words.basis})


def _set(say: Say, words: Words, again: Sequence[float]) -> tuple[Section, ...]:
    """What stands where a torque can be set."""
    return (
        figures.order(say),
        figures.windows(say),
        figures.holds(say),
        _is_it_that_bolt(say, "right"),
        _passes(say, words, again),
        _must_not_be_missed(say, stops=False),
    )


def _stopped(say: Say, verdict: HeldVerdict) -> tuple[Section, ...]:
    """What stands where nothing is to be set: no order, no passes, no margin."""
    windows = (figures.windows(say),) if say.made.windows else ()
    missed = _must_not_be_missed(say, stops=True)
    return (_helps(say, verdict), *windows, _is_it_that_bolt(say, "left"), missed)


def _must_not_be_missed(say: Say, *, stops: bool) -> Section:
    return Section(heading="What must not be missed", place="right", blocks=_cautions(say, stops))


def _deciding(say: Say) -> Deciding:
    used = say.made.used
    assert used is not None
    return Deciding(
        number=text(say.torque("setting")),
        words=text(say.other("setting"), f", {grease_words(used)}. Window ", *say.edges(used), "."),
    )


def _passes(say: Say, words: Words, again: Sequence[float]) -> Section:
    """Snug by hand, the passes on the wrench's own marks, and when to look again."""
    made = say.made
    task, last = made.task, made.task.bolts
    first = " and ".join(str(n) for n in range(1, len(task.fitted) + 1))
    rows = [
        Row(
            cells=(text("1"), text("snug"), text(f"{first} first" if first else f"1 to {last}"), _strong("by hand"), ())
        )
    ]
    for number, (step, row) in enumerate(zip(made.passes, tightening.pass_shares(), strict=True), 2):
        how = f"1 to {last}" if step.pattern == "cross" else "round, until none turns"
        torque = say.torque("setting", unit=False, si=float(step.torque))
        other = say.other("setting", unit=False, si=float(step.torque))
        rows.append(Row(cells=(text(str(number)), text(row.name), text(how), text(Run(voice="strong", words=(torque,))), text(other))))  # fmt: skip
    rows.append(_again(say, words, len(rows) + 1, again))
    columns = (
        Column(heading="", share=0.5),
        Column(heading="", share=1.5),
        Column(heading="order", share=3.3),
        Column(heading=task.unit, to="right", share=1.2),
        Column(heading=OTHER.get(task.unit, "N·m"), to="right", share=1.0),
    )
    gap = say.number("feeler", digits=1)
    hold = HoldPoint(
        lead="Hold point, after the snug pass.",
        words=text("A ", gap, " feeler must not enter anywhere round the face. Faces bare, no paint, no oil."),
        lines=("taken by",),
    )
    return Section(
        heading="Passes", aside="mark each head as you go", blocks=(Table(columns=columns, rows=tuple(rows)), hold)
    )


def _strong(words: str) -> Text:
    return text(Run(voice="strong", words=(words,)))


def _again(say: Say, words: Words, number: int, again: Sequence[float]) -> Row:
    """When to look again: at the book's hours or ours, as clock readings once they are set; by the kind of lock."""
    made = say.made
    lock = tightening.locks()[made.task.lock]
    if not lock.retighten:
        return Row(cells=(text(str(number)), text("later"), text(lock.does), (), ()))
    after = made.task.again_after or [one * HOUR for one in again] or tightening.again().hours
    hours = [seconds / HOUR for seconds in after]
    said = f"after {', '.join(f'{one:g}' for one in hours)} h"
    clocks = [at for one in hours if (at := words.clock_at(one, gone=True))]
    how: Text = text(said)
    if clocks and len(clocks) == len(hours):
        how = text(f"{said}: at ", *(piece for at in clocks for piece in (", ", at)))
        how = (how[0], *how[2:])
    torque = text(Run(voice="strong", words=(say.torque("setting", unit=False),)))
    return Row(cells=(text(str(number)), text("round"), how, torque, text(say.other("setting", unit=False))))


def _is_it_that_bolt(say: Say, place: Literal["left", "right"]) -> Section:
    """What the sheet rests on, to be looked at before anyone trusts it."""
    made = say.made
    task = made.task
    grade = task.marked[0].id if task.marked else ""
    rows: list[tuple[Text, Text]] = [
        (text("thread"), text(task.thread.designation)),
        (text("head mark"), text(grade) if grade else text(Run(voice="must", words=("nobody looked",)))),
    ]
    rows += _on_it(made)
    rows += [
        *_engaged(say),
        (text("housing"), text(f"{irons.iron(task.housing).label}, ", say.number("housing-tensile", with_basis=True))),
    ]
    if task.book_torque is not None:
        rows.append(
            (text("book torque"), text(say.book(with_basis=True, always_unit=True), f", {task.book_state.word}"))
        )
    rows += [(text("wheel on, a wrench reaches"), _reached(made)), *_tools(say)]
    return Section(
        heading="Is it that bolt?",
        aside="look before you trust this",
        place=place,
        blocks=(Values(rows=tuple(rows)),),
    )


def _on_it(made: Joint) -> list[tuple[Text, Text]]:
    """What is on threads and heads."""
    grease = made.task.grease
    if grease is None:
        return [(text("on the threads"), text(Run(voice="must", words=("nobody looked",))))]
    threads, heads = grease
    if threads == heads:
        return [(text("on threads and heads"), text(threads.label))]
    return [(text("on the threads"), text(threads.label)), (text("under the heads"), text(heads.label))]


def _engaged(say: Say) -> list[tuple[Text, Text]]:
    """How far it is engaged, and how far it must be for the bolt to break before the housing strips."""
    made = say.made
    name, label = ("turns", "turns in by hand") if made.task.by_turns else ("engaged", "thread engaged")
    rows = [(text(label), text(say.number(name, with_basis=True)))]
    if "engagement" in made:
        careful = made["engagement-by-shear"].ends()[1]
        rows = [(text(label), text(say.number(name, with_basis=True), "; carries ", say.number("engagement")))]
        rows.append(
            (
                text("bolt goes first from"),
                text(
                    say.number("engagement-by-shear", si=careful, with_unit=False),
                    " by shear, ",
                    say.number("engagement-by-areas"),
                    " by areas",
                ),
            )
        )
    return rows


def _reached(made: Joint) -> Text:
    reached = made.task.reached
    if reached is None:
        return text("nobody looked")
    if len(reached) >= made.task.bolts:
        return text(f"all {made.task.bolts}")
    turn = {bolt: number for number, bolt in enumerate(made.order, 1)}
    within = sorted(turn[bolt] for bolt in turn if bolt in reached)
    out = sorted(turn[bolt] for bolt in turn if bolt not in reached)
    if len(within) <= len(out):  # the shorter of both is read
        return text(f"{', '.join(map(str, within))} only") if within else text("none")
    return text(f"all but {', '.join(map(str, out))}")


def _tools(say: Say) -> list[tuple[Text, Text]]:
    """Wrench or bar."""
    made = say.made
    if made.setting is None:
        return []
    rows = []
    if made.task.wrench is not None:
        wide = made.answers.get("wrench") == "within"
        rows.append(
            (
                text("the torque"),
                text("within your wrench" if wide else Run(voice="must", words=("outside your wrench",))),
            )
        )
    rows.append((text("by a bar: hand out from the bolt"), text(say.number("bar"), " at ", say.number("hard-pull"))))
    return rows


def _helps(say: Say, verdict: HeldVerdict) -> Section:
    """What would help where nothing can be set: other grease, what to look at, whom to ask."""
    made = say.made
    items: list[tuple[str, Text]] = []
    if made.setting is not None:  # a torque there is, and something else that stops
        items += [
            (f"{one.rule.why.capitalize()}:", text(f"{one.rule.lifted_by}."))
            for one in verdict.fired
            if one.word == "no"
        ]
    elif made.task.marked is None:
        items.append(("Brush a head and read it:", text("8.8, 10.9, 12.9; three lines, six lines; or nothing.")))
    elif made.asks_book:
        items.append(("Read the book’s page again:", text("unit, thread, head mark, dry or greased.")))
        items.append(("Ring the dealer with head mark and thread:", text("ask what the torque is meant for.")))
    elif made.task.grease is None:
        items.append(
            ("Draw one bolt, look and rub:", text("paste, oil, dry, or rust; on the thread and under the head."))
        )
    elif made.used is None:
        items.append(
            ("Wire brush, solvent, blow out the holes:", text("goggles. Then grease or oil them, threads and heads."))
        )
    elif made.used.low is None:
        items.append(("Find the book’s torque:", text("and what it means it for, as received or greased.")))
    else:
        items += _wider(made, made.used)
    numbered = Numbered(
        items=tuple(Item(number=str(n), lead=lead_, words=words) for n, (lead_, words) in enumerate(items, 1))
    )
    nothing = Note(words=text("No passes are printed: nothing here is safe to set yet."), voice="must")
    return Section(heading="What would help", blocks=(numbered, nothing))


def _wider(made: Joint, used: GreaseWindow) -> list[tuple[str, Text]]:
    """What opens a window that is shut, or too narrow for the wrench."""
    items: list[tuple[str, Text]] = []
    if used.strips_first and made.task.housing_guessed:
        items.append(
            (
                "Count the full turns a bolt goes in by hand:",
                text("and find the iron’s class. The housing thread decides here."),
            )
        )
    elif used.strips_first:
        items.append(("A longer bolt, or a thread insert:", text("the housing thread goes before the bolt.")))
    open_ = [one.threads for one in made.windows if on_a_mark(one, made.task.mark) is not None]
    fits = [one.label for one in open_ if one.greased] + [f"new bolts {one.word}" for one in open_ if one.new]
    if fits:
        items.append(("Clean them, and take", text(" or ".join(fits), ": there is a window.")))
    items += [
        (
            "One spare bolt as a test:",
            text("tightened with a nut, its stretch measured, it shows this grease’s friction."),
        ),
        ("By angle from snug, in place of torque:", text("friction hardly matters then. Ask for the angle.")),
        ("More or stronger bolts, clean faces, bushes:", text("then each must keep less.")),
    ]
    return items


def _cautions(say: Say, stops: bool) -> tuple[Block, ...]:
    made = say.made
    rows = tightening.cautions()
    made_here: list[Block] = [Caution(lead=rows["turns-and-turns"].lead, words=text(rows["turns-and-turns"].words))]
    made_here += _look_alikes(say)
    if "loosening" in made:
        made_here.append(_loosening(say))
    if not stops:
        made_here += _pressed(say)
        made_here.append(Caution(lead=rows["impact"].lead, words=text(rows["impact"].words)))
    made_here.append(Caution(lead=rows["used-bolts"].lead, words=text(rows["used-bolts"].words)))
    return tuple(made_here[:MOST_CAUTIONS])


def _look_alikes(say: Say) -> tuple[Caution, ...]:
    """The bolt of the other system that starts in this hole, and the finer one that does not."""
    task = say.made.task
    alike = look_alikes(task.thread)
    across = [one for one in alike if one.system != task.thread.system]
    finer = [one for one in alike if one.system == task.thread.system and one.pitch < task.thread.pitch]
    if across:
        lead_ = f"A {across[0].designation} starts in {'an' if task.thread.system == 'metric' else 'a'} {task.thread.designation} hole and strips it."
    elif finer:
        lead_ = f"{'An' if finer[0].system == 'metric' else 'A'} {finer[0].designation} won’t start in it."
    else:
        return ()
    turns: Text = text(" Each by hand: ", say.number("turns"), " full turns.") if task.by_turns else ()
    return (Caution(lead=lead_, words=text("Never help a bolt with the bar.", *turns)),)


def _loosening(say: Say) -> Caution:
    ratio = round(say.made["multiplier-ratio"].middle())
    most = say.torque("loosening", "up")
    return Caution(
        lead="Loosening may want twice the torque:",
        words=text(
            most, f". Multiplier 1 : {ratio} and ", say.torque("loosening-by.torque_in", "up"), "; its arm bears with ",
            say.number("loosening-by.reaction_force"), ". Nobody stands on a bar over a raised machine.",
        ),
    )  # fmt: skip


def _pressed(say: Say) -> tuple[Caution, ...]:
    """Soft steel under the heads sinks, and the clamp goes with it."""
    soft = irons.iron("steel-235")
    tight = say.made["under-head"].ends()[1]
    if tight <= soft.pressure:
        return ()
    return (
        Caution(
            lead="Hardened washers under the heads.",
            words=text(
                "They press with ",
                say.number("under-head", si=tight),
                "; mild steel sinks, and the clamp goes with it.",
            ),
        ),
    )
