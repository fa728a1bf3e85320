"""Answers between the records: which of them holds, which boxes they tick, and every mistake in words."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

import pytest

from axlewright.yard import Answer, Change, Corner, Design, Drive, Machine, Stage, Title, Trouble, Yard, mistakes
from axlewright.yard.asked import answers_of, design_of, open_boxes, words_answered

LEFT = Corner("lark", "front-left")
TODAY = date(2026, 8, 28)
THINGS = (
    Title(name="T"),
    Machine(id="lark", name="Lark"),
    Design(id="hub", name="Hub"),
    Drive(id="d", name="d", design="hub", sits=LEFT),
    Trouble(id="1", number=1, corner=LEFT, drive="d", opened=date(2026, 8, 1)),
)


def given(name: str, value: str, on: str = "2026-08-20", **more: Any) -> Answer:
    fields = {
        "id": f"{name}-{value}-{on}".replace("/", ".").replace(" ", "").replace(",", "-"),
        "name": name,
        "value": value,
        "on": on,
    }
    return Answer.model_validate({**fields, **more})


def yard(*answers: Answer, title: Title = THINGS[0]) -> Yard:  # type: ignore[assignment]
    return Yard.of([title, *THINGS[1:], *answers])


def said(*answers: Answer, **title: Any) -> list[str]:
    return [str(fault) for fault in mistakes(yard(*answers, title=Title(name="T", **title)), TODAY)]


def test_its_own_answer_holds_over_its_design_s_over_its_machine_s_over_the_yard_s() -> None:
    name = "bolts/count"
    layers = [{}, {"machine": "lark"}, {"design": "hub"}, {"trouble": 1}]
    answers = [given(name, str(10 + n), **about) for n, about in enumerate(layers)]
    for upto in range(1, 5):
        for order in (answers[:upto], list(reversed(answers[:upto]))):
            made = yard(*order)
            assert answers_of(made, made.trouble(1))[name].value == str(9 + upto)


def test_the_newest_of_a_name_holds_and_the_older_ones_stay() -> None:
    first = given("bolts/count", "10", "2026-08-20", trouble=1)
    later = given("bolts/count", "12", "2026-08-21", trouble=1)
    same_day = given("bolts/count", "14", "2026-08-21", trouble=1, at=datetime(2026, 8, 21, 9, tzinfo=UTC))
    for order in ((first, later, same_day), (same_day, later, first)):
        made = yard(*order)
        assert made.answered(trouble=1)["bolts/count"] == same_day
        assert set(made.answers) == {first, later, same_day}
    assert yard(first).with_(Change((later,))).answered(trouble=1)["bolts/count"] == later


def test_the_design_is_that_of_the_drive_the_trouble_is_about() -> None:
    made = yard()
    assert design_of(made, made.trouble(1)) == made.design("hub")
    gone = Trouble(
        id="1", number=1, corner=LEFT, opened=date(2026, 8, 1)
    )  # nobody wrote which drive: the one that sits there
    assert design_of(made, gone) == made.design("hub")
    other = Trouble(id="2", number=2, corner=Corner("lark", "front-right"), opened=date(2026, 8, 1))
    assert design_of(made, other) is None


MISTAKES = [
    ([given("bolts/tread", "M18", trouble=1)], "There is no question bolts/tread. Did you mean bolts/thread?"),
    ([given("bolts/count", "ten", trouble=1)], "“ten” cannot be read as a whole number"),
    ([given("bolts/count", "500", trouble=1)], "not believed"),
    ([given("machine/mass", "11 kg", machine="lark")], "Type 11 t"),
    ([given("header", "of", trouble=1)], "Type off"),
    ([given("machine/mass", "11 t", design="hub")], "machine/mass is not asked of a design. It is asked of a machine"),
    ([given("hoist/plate", "1 t", machine="lark")], "asked of the yard’s gear"),
    ([given("bolts/count", "9", trouble=7)], "There is no trouble 7."),
    ([given("machine/mass", "9 t", machine="larks")], "There is no machine larks. Did you mean lark?"),
    ([given("drive/mass", "300 kg", design="hubb")], "There is no design hubb. Did you mean hub?"),
    ([given("bolts/count", "9", trouble=1, design="hub")], "of one of them"),
    ([given("bolts/count", "9", "2027-01-01", trouble=1)], "has not come yet"),
    (
        [given("bolts/count", "9", trouble=1), given("bolts/count", "10", trouble=1)],
        "bolts/count is 10 and 9 on 2026-08-20. Keep one of the two",
    ),
]


@pytest.mark.parametrize(("answers", "words"), MISTAKES)
def test_a_mistake_is_said_with_what_would_be_right(answers: list[Answer], words: str) -> None:
    found = said(*answers)
    assert len(found) == 1, found
    assert words in found[0] or words.replace("10 and 9", "9 and 10") in found[0]


def test_the_yard_s_decimal_mark_counts() -> None:
    point, comma = (given("machine/mass", value, machine="lark") for value in ("9.150 t", "9,150 t"))
    assert said(point) == said(comma, decimal=",") == []
    assert "thousands or decimals" in said(comma)[0]
    assert "thousands or decimals" in said(point, decimal=",")[0]


def test_two_equal_answers_of_a_day_and_one_with_a_time_are_no_doubt() -> None:
    twice = [given("bolts/count", "9", trouble=1, id=name) for name in ("a", "b")]
    timed = given("bolts/count", "10", trouble=1, at=datetime(2026, 8, 20, 9, tzinfo=UTC))
    assert said(*twice, timed) == []


def test_a_box_is_ticked_by_what_was_seen_for_this_trouble_alone() -> None:
    def open_after(*answers: Answer) -> set[str]:
        made = yard(*answers)
        return {asked.id for asked in open_boxes(made, made.trouble(1))}

    every = open_after()
    assert {"header", "walk-round/jack-plate", "walk-round/timber-count"} <= every
    assert "walk-round/stand-plate" not in every  # no stand was spoken of
    assert "overnight-set" not in every
    assert open_after(given("header", "off", trouble=1)) == every  # a guess
    assert open_after(given("header", "off", trouble=1, basis="computed")) == every
    assert open_after(given("walk-round/jack-plate", "12 t", basis="book")) == every  # the yard's, not seen for this
    assert open_after(given("header", "off", trouble=1, basis="measured")) == every - {"header"}
    on_stand = open_after(given("rests-on", "stand", trouble=1, basis="measured"))
    assert {"walk-round/stand-plate", "saddle-fits", "lock-home"} <= on_stand
    assert not {"walk-round/timber-count", "rests-on"} & on_stand
    assert "overnight-set" in open_after(given("overnight", "yes", trouble=1, basis="measured"))


def test_words_are_spelled_as_the_trade_does() -> None:
    made = yard(given("bolts/grease", "copper paste", trouble=1), given("bolts/count", "9", trouble=1))
    assert words_answered(made, made.trouble(1)) == {"bolts/grease": "anti-seize"}


def test_a_course_is_taken_when_a_trouble_is_settled() -> None:
    fields = {"id": "s", "trouble": 1, "on": date(2026, 8, 2), "course": "reseal"}
    made = yard().with_(Change((Stage.model_validate({**fields, "stage": "settled"}),)))
    assert made.course(1) == "reseal"
    assert yard().course(1) is None
    with pytest.raises(ValueError, match="settled"):
        Stage.model_validate({**fields, "stage": "judged"})
    with pytest.raises(ValueError, match="hire out"):
        Stage.model_validate({**fields, "stage": "settled", "course": "hope"})
