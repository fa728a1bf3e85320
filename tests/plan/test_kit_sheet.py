"""The Kit sheet: everything once, what is missing first, one page whatever the shed has."""

from __future__ import annotations

from datetime import date

import pytest

from axlewright.plan.pack import pack
from axlewright.plan.sheet.frame import Frame
from axlewright.plan.sheet.kit import answer, kit_sheet
from axlewright.plan.steps.jobs import Here, plan
from axlewright.plan.steps.kit import Have, kit
from axlewright.render import pdf
from axlewright.render.show import Show, Words
from axlewright.sheets import Boxes, Revision, Sheet, Table
from axlewright.trade.steps import By
from axlewright.trade.steps_read import steps

ROWS = steps()
EVERY = frozenset(ROWS.words.when)
ALL = frozenset({*ROWS.words.gear, *ROWS.words.parts})
HAVES = {
    "nothing said": Have(),
    "all owned": Have(ALL),
    "all lacking": Have(lacks=ALL),
    "all coming": Have(comes=dict.fromkeys(ALL, date(2027, 9, 20))),
    "mixed": Have(frozenset(sorted(ALL)[::2]), frozenset(sorted(ALL)[1::4])),
}
FRAME = Frame(
    corner="Bramble, forage harvester, front right",
    revisions=(Revision(letter="C", on=date(2027, 9, 3), who="owner", changed=("drawn up",)),) * 7,
)


def drawn(course: str, have: Have, drive: str = "flange", by: By = "saddle", people: int = 2) -> Sheet:
    jobs = plan(ROWS, course, Here(drive=drive, by=by, when=EVERY, scope="gears")).now
    return kit_sheet(jobs, kit(ROWS, jobs, have), FRAME, people).sheets[0]


def listed(sheet: Sheet) -> list[str]:
    words = Words()
    rows = [
        words.plain(r.cells[0])
        for s in sheet.sections
        if s.heading == "Missing"
        for b in s.blocks
        if isinstance(b, Table)
        for r in b.rows
    ]
    boxes = [
        words.plain(box.words) for s in sheet.sections for b in s.blocks if isinstance(b, Boxes) for box in b.boxes
    ]
    return [r.replace("\u00a0", " ") for r in (*rows, *boxes)]


@pytest.mark.parametrize("have", HAVES)
@pytest.mark.parametrize(
    ("course", "drive", "by"),
    [
        ("fit a used drive", "flange", "hook"),
        ("rebuild now", "planetary-apart", "saddle"),
        ("reseal", "flange", "machine"),
    ],
)
def test_one_page_with_everything_on_it_once(have: str, course: str, drive: str, by: By) -> None:
    sheet = drawn(course, HAVES[have], drive, by)
    jobs = plan(ROWS, course, Here(drive=drive, by=by, when=EVERY, scope="gears")).now
    want = {
        w
        for j in jobs
        for s in j.steps
        for w in (*map(ROWS.words.gear.get, s.task.gear), *map(ROWS.words.parts.get, s.task.parts))
    }
    assert sorted(listed(sheet)) == sorted(want)  # type: ignore[type-var]
    made = pack(kit_sheet(jobs, kit(ROWS, jobs, HAVES[have]), FRAME, 2))
    assert pdf.render(made, Show(paper="Letter"))[:4] == b"%PDF"


def test_what_is_missing_stands_first_and_in_the_answer() -> None:
    sheet = drawn(
        "fit a spare",
        Have(
            ALL - {"chalk", "jack", "timber"},
            frozenset({"jack"}),
            {"chalk": date(2027, 9, 9), "timber": date(2027, 9, 7)},
        ),
    )
    assert sheet.sections[0].heading == "Missing"
    assert Words().plain(sheet.answer) == "3 things are missing, 1 without a day."
    assert listed(sheet)[:3] == ["jack with its plate readable", "crib timber as taped", "chalk"]


@pytest.mark.parametrize(
    ("have", "says"),
    [
        (Have(ALL), "All of it is here."),
        (Have(ALL - {"chalk"}, frozenset({"chalk"})), "One thing is missing, without a day."),
        (Have(ALL - {"chalk"}, comes={"chalk": date(2027, 9, 9)}), "One thing is missing; the last comes 9 Sep 2027."),
        (Have(ALL - {"chalk"}), "Nothing is known to be missing. Of 1 nobody has said whether it is here."),
    ],
)
def test_the_answer(have: Have, says: str) -> None:
    jobs = plan(ROWS, "fit a spare", Here()).now
    assert Words().plain(answer(kit(ROWS, jobs, have))).replace("\u00a0", " ") == says


def test_one_alone_is_told_so_in_primer() -> None:
    hands = next(s for s in drawn("fit a spare", Have(), people=1).sections if s.heading == "Hands")
    assert hands.voice == "must"
    assert "2 people; 1 named" in str(hands.blocks[0])


@pytest.mark.parametrize("have", HAVES)
def test_a_list_has_one_heading_in_a_column(have: str) -> None:
    for course in ("fit a used drive", "rebuild now", "reseal"):
        sheet = drawn(course, HAVES[have], by="hook")
        for place in ("left", "right"):
            heads = [one.heading for one in sheet.sections if one.place == place]
            assert len(heads) == len(set(heads)), f"{course}, {place}: {heads}"
