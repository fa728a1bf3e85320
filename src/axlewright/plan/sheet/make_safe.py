"""Make safe: printed before everything else while FIELD is no. What to do, whom to ring, what would turn it."""

from __future__ import annotations

from collections.abc import Sequence

from axlewright.plan.first_look import FirstLook
from axlewright.plan.judge import Seen, Words, judge_corner, verdict_lines
from axlewright.plan.judge.says import few, seen_words
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.sheets import Caution, Figure, Lines, Numbered, Section, Sheet, Table, Text, text
from axlewright.sheets.blocks import Column, Item, Line, Row
from axlewright.sheets.figures import make_safe as figures
from axlewright.trade import make_safe as trade
from axlewright.trade.findings import findings
from axlewright.trade.verdicts import Lift, Rule

MOST_ROWS = 5  # of what would turn it: the sheet is one page


def make_safe(look: FirstLook, frame: Frame, follows: Text = ()) -> Drawn:
    """The sheet that is printed while FIELD is no.

    Args:
        look: what was seen, judged
        frame: what its title block says
        follows: what is said of the sheets behind it

    Returns:
        the sheet, and the basis of its numbers
    """
    words = Words(look.clock, basis=dict(look.basis))
    keep_out = words.filled("{keep-out} and more all round", trade.numbers())
    aside, lifts = lifted_by(look, words)
    sheet = Sheet(
        name="make-safe",
        head=frame.head("Make safe"),
        verdicts=look.lines,
        answer=look.answer,
        lead=follows,
        sections=(
            Section(
                heading="On its wheel", aside="from the side", blocks=(Figure(drawing=figures.on_its_wheel(keep_out)),)
            ),
            Section(heading="In this order", blocks=(_order(words),)),
            Section(
                heading="Already raised",
                aside=f"from the front, 1:{figures.SCALE:g}",
                place="right",
                blocks=(Figure(drawing=figures.already_raised()),),
            ),
            Section(heading="Whom to ring", aside="tried from this spot", place="right", blocks=(_ring(),)),
            Section(heading="What would turn it", aside=aside, place="wide", blocks=(lifts,)),
            Section(
                heading="What must not be missed",
                place="wide",
                blocks=tuple(
                    Caution(lead=one.lead, words=words.filled(one.words, trade.numbers()))
                    for one in trade.cautions()
                    if not one.given
                    or any((f, g) in look.verdicts.state.pairs for f, gs in one.given.items() for g in gs)
                ),
            ),
        ),
        revisions=frame.revisions,
        block=frame.block("Make safe"),
    )
    return Drawn((sheet,), words.basis)


def _order(words: Words) -> Numbered:
    return Numbered(
        items=tuple(
            Item(number=str(number), lead="", words=words.filled(row.words, trade.numbers()))
            for number, row in enumerate(trade.order(), 1)
        )
    )


def _ring() -> Lines:
    return Lines(lines=tuple(Line(label=row.words) for row in trade.ring()), stacked=True)


def lifted_by(look: FirstLook, words: Words) -> tuple[str, Table]:
    """What would turn each row that stops FIELD: how many of it are wanted, and the table."""
    stops, seen = look.field.saying, look.everything
    told = [(rule, (*_second_look(rule, look), *(_lift(lift, seen, words) for lift in rule.lift))) for rule in stops]
    rows: list[Row] = []
    left = list(stops)
    for rule, lifts in told:
        if rows and len(rows) + len(lifts) > MOST_ROWS:
            break
        left.remove(rule)
        because = _because([rule], look)
        for do, then in lifts:
            rows.append(Row(cells=(text(because), do, then, ()) if len(stops) > 1 else (do, then, ())))
            because = ""
    if left:
        rows.append(
            Row(cells=(text(_because(left, look)), text("each put right, looked at again"), text("judged afresh"), ()))
        )
    columns = [
        Column(heading="do this", share=3.6),
        Column(heading="then", share=4.4),
        Column(heading="who, when", share=1.8),
    ]
    if len(stops) > 1:
        columns = [Column(heading="because", share=2.0), *columns]
    aside = "for each cause one of its rows" if len(stops) > 1 else "one of them" if len(rows) > 1 else ""
    return aside, Table(columns=tuple(columns), rows=tuple(rows))


def _because(rules: Sequence[Rule], look: FirstLook) -> str:
    """What was seen for which these rows stop it; of many the first few."""
    return few(list(dict.fromkeys(said for rule in rules for said in seen_words(rule, look.verdicts.state))))


def _second_look(rule: Rule, look: FirstLook) -> tuple[tuple[Text, Text], ...]:
    """A proof without a photo asks for a second look before anything is taken apart."""
    named = set(rule.named()) & look.verdicts.state.pairs
    unproved = [one for one in look.everything if (one.finding, one.grade) in named and not one.photo]
    if not unproved or not any(findings()[one.finding].grade(one.grade).proof for one in unproved):
        return ()
    what = findings()[unproved[-1].finding].name
    return (
        (text(f"Second look at the {what}, with a photo, 2 minutes"), text("no chips after all: First look again")),
    )


def _lift(lift: Lift, seen: tuple[Seen, ...], words: Words) -> tuple[Text, Text]:
    do = words.filled(lift.do)
    if lift.then:
        return do, text(lift.then)
    others = tuple(one for one in seen if one.finding not in lift.shows)
    then = judge_corner((*others, *(Seen(finding, grade) for finding, grade in lift.shows.items())))
    if then.stopped:
        return do, text("this one is lifted; FIELD stays no until the others are")
    field, road = verdict_lines(then, words)
    said = ("ROAD stays no.",) if road.word == "no" else (f"ROAD {road.word}.",)
    return do, (f"FIELD {field.word}: ", *field.words, " ", *said)
