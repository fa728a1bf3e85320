"""The three figures of the Bolts sheet: order to scale, windows of each grease, what one bolt then holds."""

from __future__ import annotations

import math
from itertools import count

from axlewright.plan.reckon.joints import GreaseWindow, Joint
from axlewright.plan.sheet.bolt_words import Say, grease_words
from axlewright.quantities import find
from axlewright.sheets import Figure, Note, Piece, Section, Text, text
from axlewright.sheets.figures import bolts as figures
from axlewright.sheets.figures.bolts import Flange, Limit, Window

RIM = 1.14  # outside of a flange over its bolt circle, where nobody measured it: the drawing's, not a number
USUAL_CIRCLE = 0.30  # m, of a drawing that is not to scale
FEW_TICKS = 6
MOST_ROWS = 5  # windows that leave room for the rest of the page
THIN = "\u202f"


def flange(made: Joint) -> tuple[Flange, bool]:
    """The flange as drawn, and whether it is to scale."""
    known = made.task.circle is not None
    circle = made["circle"].middle() if known else USUAL_CIRCLE
    outside = made["outside"].middle() if "outside" in made else RIM * circle
    return Flange(made.task.bolts, circle, outside), known


def order(say: Say) -> Section:
    """Bolts numbered in the order of tightening."""
    made = say.made
    drawn, to_scale = flange(made)
    scale = figures.scale_for(drawn.outside)
    fitted = made.task.fitted
    told: Text = text(f"{made.task.bolts} bolts")
    if to_scale:
        told = text(f"{made.task.bolts} on ", say.number("circle"))
    last = made.task.bolts
    caption = f"Chalk these numbers on the flange, then go 1 to {last}."
    if fitted:
        caption += " Ringed: in a guide bush." if len(fitted) == 1 else " Ringed: the bolts in guide bushes."
    return Section(
        heading="Order",
        aside=f"from outside, 1:{scale:g}" if to_scale else "from outside, not to scale",
        blocks=(
            Figure(
                drawing=figures.order(drawn, made.order, told, fitted=fitted[:2], scale=scale),
                twin=figures.order_words(drawn, made.order, fitted),
                caption=text(caption),
            ),
        ),
    )


def windows(say: Say) -> Section:
    """The torque window of each grease, the book's torque across all, the setting in its own."""
    made = say.made
    shown = _shown(made)
    span, step = _axis(made, shown)
    unit = find("torque", made.task.unit)
    assert unit is not None
    first = math.ceil(unit.from_si(span[0]) / step - 1e-9) + (1 if unit.from_si(span[0]) % step < 1e-6 else 0)
    ticks = []
    for number in count(first):
        at = unit.to_si(number * step)
        if at > span[1] - 0.12 * (span[1] - span[0]):  # the unit stands at the end
            break
        ticks.append((at, text(_plain(number * step))))
    book = made["book-torque"].middle() if made.task.book_torque is not None else None
    drawing = figures.windows(
        [_window(say, one) for one in shown],
        span,
        ticks,
        text(made.task.unit),
        book=book,
        book_words=text("book ", say.torque("book-torque", unit=False)) if book is not None else (),
    )
    drawing = drawing.model_copy(update={"says": _says(made, shown)})
    return Section(
        heading="Which grease, which torque",
        aside=", ".join(filter(None, (made.task.thread.designation, made.task.marked and made.task.marked[0].id))),
        place="right",
        blocks=(Figure(drawing=drawing, twin=_in_words(say, shown), caption=_edges(made)),),
    )


def _says(made: Joint, shown: list[GreaseWindow]) -> str:
    """What is seen, without the numbers: they stand in words beside it."""
    names = ", ".join(one.threads.label for one in shown)
    book = "; the book’s torque goes across all of them" if made.task.book_torque is not None else ""
    setting = (
        f"; the setting stands in that of {made.used.threads.label}" if made.setting is not None and made.used else ""
    )
    return f"Torque window of each grease, from too slack to may break: {names}{book}{setting}."


def _shown(made: Joint) -> list[GreaseWindow]:
    """The windows of the figure: the usual greases and the one really used; that of two greases behind the threads' own."""
    shown = [one for one in made.windows if one.threads.usual or one == made.used]
    if made.used is not None and made.used not in shown:
        before = [i for i, one in enumerate(shown) if one.threads.nut_factor <= made.used.threads.nut_factor]
        shown.insert(before[-1] + 1 if before else 0, made.used)
    if len(shown) > MOST_ROWS and made.used is not None:  # the one least like it makes room
        factor = made.used.threads.nut_factor
        others = [one for one in shown if one != made.used]
        shown.remove(max(others, key=lambda one: abs(one.threads.nut_factor - factor)))
    return shown


def _window(say: Say, one: GreaseWindow) -> Window:
    made = say.made
    chosen = made.setting if one == made.used else None
    return Window(
        name=text(grease_words(one) if one == made.used or not one.is_one else one.threads.label),
        low=one.low or 0.0,
        high=one.high,
        breaks=max(one.may_break, one.high),
        told=say.edges(one),
        chosen=chosen,
        chosen_words=text(say.torque("setting", unit=False)) if chosen is not None else (),
    )


def _axis(made: Joint, shown: list[GreaseWindow]) -> tuple[tuple[float, float], float]:
    """Least and greatest torque of the axis, on whole steps of the wrench's unit, and the step."""
    unit = find("torque", made.task.unit)
    assert unit is not None
    lows = [one.low if one.low is not None else 0.6 * one.high for one in shown]
    low, high = unit.from_si(0.75 * min(lows)), unit.from_si(1.05 * max(one.may_break for one in shown))
    if made.task.book_torque is not None:
        book = unit.from_si(made["book-torque"].middle())
        low, high = min(low, 0.9 * book), max(high, 1.08 * book)
    step = next(s * 10**e for e in range(5) for s in (1.0, 2.0, 5.0) if (high - low) / (s * 10**e) <= FEW_TICKS + 1)
    half = step / 2
    span = (unit.to_si(max(math.floor(low / half), 0) * half), unit.to_si(math.ceil(high / half) * half))
    return span, step


def _plain(number: float) -> str:
    return f"{number:,.0f}".replace(",", THIN)


def _in_words(say: Say, shown: list[GreaseWindow]) -> tuple[Text, ...]:
    return tuple(
        text(
            f"{grease_words(one)}: ",
            *say.edges(one, unit=True),
            ", may break from ",
            say.torque(f"{one.key}/may-break", "down"),
        )
        for one in shown
    )


def _edges(made: Joint) -> Text:
    """What the edges are for."""
    strips = any(one.strips_first for one in made.windows)
    hurts = "stays under yield and does not strip the housing" if strips else "stays under yield"
    clamp = {"": "", f"{made.at}/clamp-needed": "the slackest bolt keeps its clamp; "}.get(
        made.clamp, "the slackest bolt keeps what the book’s slackest does; "
    )
    return text(f"Edges stand at the careful end of friction and wrench: {clamp}the tightest {hurts}.")


def holds(say: Say) -> Section:
    """What one bolt holds at the setting, against what it needs, yields, breaks, strips."""
    made = say.made
    low, middle, high = made["preload"].ends()[0], made["preload"].middle(), made["preload"].ends()[1]
    yields, breaks, strips = made["yields"].middle(), made["breaks"].middle(), made["strips"].ends()[0]
    limits = [
        Limit(yields, text("yields ", say.number("yields", with_unit=False)), must=True),
        Limit(breaks, text("breaks ", say.number("breaks", with_unit=False))),
    ]
    if strips < 1.6 * breaks:
        limits.append(Limit(strips, text("iron strips ", say.number("strips", si=strips, with_unit=False))))
    if made.clamp:
        needs = "needs " if made.clamp.endswith("clamp-needed") else "by the book "
        clamp = say.trace.show(made.clamp, with_unit=False)
        limits.append(Limit(clamp.si, text(needs, clamp)))
    top = 1.06 * max(high, *(one.at for one in limits))
    step = next(s * 10**e for e in range(3, 8) for s in (1.0, 2.0, 5.0) if top / (s * 10**e) <= 16)
    drawing = figures.holds(
        (low, middle, high),
        limits,
        math.ceil(top / step) * step,
        text(say.number("preload", ends=True)),
        text("at ", say.torque("setting")),
        step,
    )
    says = "The pull of one bolt with its careful ends on a rule of force, against what it needs, yields, breaks and strips at."
    drawing = drawing.model_copy(update={"says": says})
    twin: list[Piece] = ["At ", say.torque("setting"), " one bolt holds ", say.number("preload", ends=True)]
    for one in sorted(limits, key=lambda limit: limit.at):
        twin += ["; ", *one.told]
    return Section(
        heading="What one bolt then holds",
        blocks=(Figure(drawing=drawing, twin=((*twin, "."),)), *_needs(made)),
    )


def _needs(made: Joint) -> tuple[Note, ...]:
    """Where the clamp comes from that each bolt must keep."""
    if not made.clamp:
        return ()
    if made.clamp.endswith("clamp-of-book"):
        return (
            Note(
                words=text("By the book: what its own slackest bolt keeps. Nobody worked out what the wheel asks."),
                size="small",
            ),
        )
    return (Note(words=text(f"Needs: {made['clamp-needed'].source}."), size="small", voice="soft"),)
