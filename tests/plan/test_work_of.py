"""The sheets of the work in a trouble's pack: drawn whole when all they need is known, named with what they wait for else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

import pytest

from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.drawn_up import stopped, will_be_drawn
from axlewright.plan.in_hand.card import bands_for
from axlewright.plan.pack import pack
from axlewright.plan.raised import raised_sheets
from axlewright.plan.reckon.joints import joint
from axlewright.plan.sheet.bolts import bolts_sheet
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.revisions import frame_of
from axlewright.plan.sheet.trouble import look_of
from axlewright.plan.work_of import Work, answered_by, page_of, work_of
from axlewright.plan.work_sheets import WorkDrawn, work_named, work_sheets
from axlewright.plan.work_waits import UNSETTLED, waits_of, waits_section
from axlewright.render import pdf, render
from axlewright.render.show import Show
from axlewright.sheets import Bands, Numbered, Sheet, Table
from axlewright.store import DEMO, at
from axlewright.trade.questions import question, questions
from axlewright.web.pages.ask import GROUPS
from axlewright.yard import Answer, Change, Stage, Yard

TODAY = date(2026, 8, 28)
YARD = at(DEMO).read()
COUNT = 256
SHOP, TABLE = 5, 6  # troubles of the demo yard: walked round and worked, and said at the table


def told(yard: Yard, number: int, **answers: str) -> Yard:
    """The yard with these answers of a trouble, `__` for the stroke of a name."""
    made = [
        Answer(
            id=f"t-{name}",
            name=name.replace("__", "/").replace("_", "-"),
            value=value,
            trouble=number,
            on=TODAY,
            basis="measured",
        )
        for name, value in answers.items()
    ]
    return yard.with_(Change(tuple(made)))


def without(yard: Yard, *names: str) -> Yard:
    """The yard as if nobody had answered these."""
    return Yard.of([one for one in yard.records if not (isinstance(one, Answer) and one.name in names)])


def settled(yard: Yard, number: int, course: str) -> Yard:
    taken = Stage(id="t-settled", trouble=number, stage="settled", course=course, on=TODAY)  # type: ignore[arg-type]
    return yard.with_(Change((taken,)))


@dataclass(frozen=True)
class Made:
    work: Work
    drawn: WorkDrawn
    raised: tuple[Drawn, ...]

    @property
    def sheets(self) -> dict[str, Sheet]:
        return {sheet.name: sheet for one in (*self.drawn.early, *self.drawn.late) for sheet in one.sheets}

    def waits(self, sheet: str) -> str:
        return " ".join(
            " ".join([w.words, *(q.id for q in w.questions)]) for w in self.drawn.waits if w.sheet == sheet
        ).strip()  # fmt: skip

    def text(self, measures: str = "metric") -> str:
        made = pack(*self.drawn.early, *self.drawn.late)
        return " ".join(
            render(made, Show(measures=measures), "text").decode().replace("\u202f", " ").replace("\u00a0", " ").split()
        )  # type: ignore[arg-type]


def made(yard: Yard, number: int) -> Made:
    trouble = yard.trouble(number)
    frame = frame_of(yard, trouble, TODAY)
    raised = raised_sheets(yard, trouble, frame, 1, COUNT)
    task = bolt_task(yard, trouble)
    reckoned = joint(task, "bolts", 1, COUNT) if task else None
    bolts = bolts_sheet(reckoned, frame) if reckoned else None
    work = work_of(yard, trouble, TODAY)
    assert work
    return Made(work, work_sheets(work, frame, raised, bolts, reckoned), raised)


def bands(sheet: Sheet) -> Iterator[Bands]:
    return (b for s in sheet.sections for b in s.blocks if isinstance(b, Bands))


@pytest.mark.parametrize("number", [SHOP, TABLE])
def test_a_trouble_that_has_all_gets_all_its_sheets_in_the_packs_order(number: int) -> None:
    yard = YARD if number == SHOP else told(YARD, TABLE, work__stands="field")
    names = [name for name in made(yard, number).sheets if not name.startswith("steps-")]
    wanted = ["bring-home", "fill", "kit", "steps", "key-tag"]
    assert names == wanted[number == SHOP :]
    named = [name for name, _ in will_be_drawn(yard, yard.trouble(number), TODAY)]
    order = [
        "first-look",
        "trouble",
        "choice",
        "bring-home",
        "support",
        "wheel-and-lift",
        "bolts",
        *wanted[1:],
        "basis",
    ]
    assert named == [name for name in order if name in named]
    assert set(names) <= set(named)


@pytest.mark.parametrize("measures", ["metric", "us"])
@pytest.mark.parametrize("number", [SHOP, TABLE])
def test_every_sheet_is_one_page_of_both_papers(number: int, measures: str) -> None:
    got = made(told(YARD, number, work__stands="field"), number)
    whole = pack(*got.drawn.early, *got.drawn.late)
    for paper in ("A4", "Letter"):
        assert pdf.render(whole, Show(paper=paper, measures=measures))[:4] == b"%PDF"  # type: ignore[arg-type]


def test_only_a_walk_round_with_both_verdicts_go_releases_the_steps() -> None:
    shop, table = made(YARD, SHOP).sheets["steps"], made(YARD, TABLE).sheets["steps"]
    assert shop.grade
    assert shop.grade.shop
    assert table.grade
    assert not table.grade.shop
    assert "boxes of the walk-round are open" in "".join(map(str, table.grade.words))
    unlanded = made(without(YARD, "landing"), SHOP).sheets["steps"]  # walked round, but LIFT is not known
    assert unlanded.grade
    assert not unlanded.grade.shop
    assert "LIFT not go yet" in "".join(map(str, unlanded.grade.words))


WANTED = {
    "Steps": [
        "drive/built", "drive/brake", "drive/half-shaft", "wheel/rim", "wheel/duals", "work/hands", "drive/turns",
        "nuts/torque", "jack/gauge", "jack/piston", "bolts/grease", "lift-by",
    ],
    "Kit": ["drive/built", "drive/brake", "wheel/rim", "work/hands"],
    "Fill and looks": ["drive/level-plug", "brake/fluid"],
}  # fmt: skip


@pytest.mark.parametrize(("sheet", "name"), [(s, n) for s, names in WANTED.items() for n in names])
def test_what_is_missing_is_named_and_nothing_is_drawn_by_half(sheet: str, name: str) -> None:
    got = made(without(YARD, name), TABLE)
    assert name in got.waits(sheet).split()
    page = {"Steps": "steps", "Kit": "kit", "Fill and looks": "fill"}[sheet]
    assert not [one for one in got.sheets if one == page or one.startswith(f"{page}-")]
    assert page not in [named for named, _ in work_named(got.work)[1]]
    wait = next(w for w in got.drawn.waits if w.sheet == sheet)
    command = answered_by(wait, TABLE)
    assert command.startswith(f"draw-up {TABLE} {name}=")
    assert question(name).read(command.partition("=")[2].strip('"'))
    assert page_of(question(name)) in GROUPS
    section = waits_section(got.drawn.waits, TABLE)[0]
    (table,) = (b for b in section.blocks if isinstance(b, Table))
    assert any(question(name).asks in "".join(map(str, row.cells[1])) for row in table.rows)


def test_before_a_course_is_settled_no_step_is_drawn_and_the_trouble_says_so() -> None:
    assert work_of(YARD, YARD.trouble(8), TODAY) is None
    assert waits_of(YARD, YARD.trouble(8), TODAY) == (UNSETTLED,)
    assert "settled" in UNSETTLED.words
    assert not {"steps", "kit", "fill"} & {name for name, _ in will_be_drawn(YARD, YARD.trouble(8), TODAY)}


@pytest.mark.parametrize(
    ("answers", "line"),
    [({"walk_round__jack_plate": "2 t"}, "HOLD"), ({"loader__plate": "250 kg"}, "LIFT")],
)
def test_no_margin_no_steps_but_make_safe_with_what_would_lift_it(answers: dict[str, str], line: str) -> None:
    got = made(told(YARD, SHOP, **answers), SHOP)
    assert [v.line for one in got.raised for v in one.sheets[0].verdicts if v.stops] == [line]
    page = got.sheets["steps"]
    assert page.block.title == "Make safe"
    assert [v.line for v in page.verdicts] == [line]
    assert not [one for one in got.sheets if one.startswith("steps-")]
    (lifts,) = (s for s in page.sections if "lift" in s.heading and s.heading.endswith("it"))
    rows = [row for block in lifts.blocks if isinstance(block, Table) for row in block.rows]
    assert rows
    assert all(row.cells[1] for row in rows)
    steps = {s.task.title for job in got.work.carded for s in job.steps}
    told_ = {
        str(item.lead).rstrip(".")
        for s in page.sections
        for b in s.blocks
        if isinstance(b, Numbered)
        for item in b.items
    }
    assert not steps & told_
    assert pdf.render(pack(*got.drawn.late), Show(paper="Letter"))[:4] == b"%PDF"


def test_what_was_seen_stops_it_but_the_open_job_itself_does_not() -> None:
    assert stopped(YARD, YARD.trouble(7), look_of(YARD, YARD.trouble(7), TODAY))
    begun = YARD.with_(Change((Stage(id="t-hand", trouble=TABLE, stage="in hand", on=TODAY),)))
    look = look_of(begun, begun.trouble(TABLE), TODAY)
    assert look.field.word == "no"
    assert not stopped(begun, begun.trouble(TABLE), look)


def test_one_alone_is_told_which_step_needs_two() -> None:
    got = made(told(YARD, TABLE, work__hands="1"), TABLE)
    assert "it takes 2 people, 1 is named" in got.waits("Steps")
    assert "steps" not in got.sheets


def test_a_jack_without_gauge_and_a_corner_nobody_can_raise_withhold_the_steps() -> None:
    got = made(told(YARD, TABLE, jack__gauge="none"), TABLE)
    assert "gauge" in got.waits("Steps")
    assert "steps" not in got.sheets


def test_the_band_of_the_gauge_is_the_one_that_the_support_sheet_prints() -> None:
    got = made(YARD, SHOP)
    basis = {name: e.value for name, e in got.raised[0].basis.items() if "/gauge/" in name}
    edges = {name.rpartition("/")[2]: float(value) / 1e5 for name, value in basis.items()}
    steps = {name: e for one in got.drawn.late for name, e in one.basis.items() if name.startswith("steps/jack-gauge/")}
    own = {name.rpartition("/")[2]: float(e.value) / 1e5 for name, e in steps.items()}
    assert own["go-from"] == pytest.approx(edges["from"])
    assert own["go-to"] == pytest.approx(edges["to"])
    assert own["ask-to"] == pytest.approx(edges["above"])


def test_numbers_of_the_front_come_from_the_records() -> None:
    text = made(YARD, TABLE).text()
    for said in (
        "10 × M22 × 1.5, 563 N·m bk",
        "11.7 L bk",
        "80W-90",
        "0.8 %",
        "3 366",
        "Low Meadow, second gate",
        "neighbour",
    ):
        assert said in text
    us = made(YARD, TABLE).text("us")
    assert "415 lbf·ft bk" in us
    assert "3.09 US gal" in us


def test_the_day_ends_at_a_rest_and_night_is_said_by_name() -> None:
    text = made(YARD, TABLE).text()
    assert "First safe stop of each day" in text
    assert "step 87 waits" in text
    late = made(told(YARD, TABLE, work__begins="17:40", work__sunset="18:30"), TABLE).text()
    assert "is not begun: " in late
    assert "Begin earlier, or with more hands" in late


def test_the_hours_of_people_practice_and_size_and_the_troubles_stand_on_the_front() -> None:
    first, practised = made(YARD, TABLE).text(), made(told(YARD, TABLE, work__done_before="yes"), TABLE).text()
    assert "minutes for 3 people, medium machine, first time" in first
    assert "minutes for 3 people, medium machine, done before" in practised

    def half(text: str) -> float:
        return float(text.split("troubles counted, are done in ")[1].split()[0])

    assert half(first) > half(practised)
    assert "troubles may come, and one or more comes in" in first
    assert "Have it near" in first


def test_the_kit_says_what_is_here_what_comes_too_late_and_what_nobody_spoke_of() -> None:
    got = made(YARD, TABLE)
    have = got.work.have
    assert "jack" in have.owned  # its plate was read
    assert have.comes["joint-ring"] == date(2026, 9, 2)
    assert "brake-fluid" in have.lacks
    text = got.text()
    assert "not here by then" in text
    assert "nobody spoke of: is it here?" in text
    later = made(told(YARD, TABLE, parts__joint_ring="2026-09-20"), TABLE).text()
    assert "5 not here by then" in later


@pytest.mark.parametrize("built", ["flange", "planetary-whole", "planetary-apart"])
@pytest.mark.parametrize(
    "course", ["reseal", "fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now"]
)
@pytest.mark.parametrize("by", ["forks", "hook"])
def test_each_course_is_drawn_for_each_kind_of_drive(course: str, built: str, by: str) -> None:
    yard = settled(
        told(YARD, TABLE, drive__built=built, drive__spindle="comes-off", lift_by=by, mass_known="weighed"),
        TABLE,
        course,
    )
    got = made(yard, TABLE)
    assert not got.waits("Kit")
    assert not got.waits("Fill and looks")
    assert "kit" in got.sheets
    assert "fill" in got.sheets
    assert ("sellers-yard" in got.sheets) == (course == "fit a used drive")
    cards = {step.part for job in got.work.carded for step in job.steps}
    assert ("off-planetary" in cards) == (built == "planetary-apart")
    if "steps" not in got.sheets:
        assert got.waits("Steps")
    assert render(pack(*got.drawn.early, *got.drawn.late), Show(), "text")


def test_a_lip_that_comes_out_on_the_machine_leaves_the_drive_on_its_bolts() -> None:
    got = made(settled(told(YARD, TABLE, drive__lip="yes"), TABLE, "reseal"), TABLE)
    assert "reseal-on-machine" in [job.id for job in got.work.carded]
    apart = made(settled(told(YARD, TABLE, drive__lip="yes", drive__built="planetary-apart"), TABLE, "reseal"), TABLE)
    assert "Nothing is known for reseal" in apart.waits("Steps")
    assert not {"steps", "kit"} & apart.sheets.keys()


def test_a_look_on_a_raised_corner_has_its_support_and_no_lift() -> None:
    got = made(settled(YARD, TABLE, "run with checks"), TABLE)
    assert [one.sheets[0].name for one in got.raised] == ["support"]
    assert [job.id for job in got.work.carded] == ["raised-corner-look", "run-looks"]
    assert {"kit", "steps", "steps-run-looks-1", "key-tag"} <= got.sheets.keys()
    assert "fill" not in got.sheets


def test_run_has_the_stop_list_and_nothing_else() -> None:
    got = made(settled(YARD, TABLE, "run"), TABLE)
    assert list(got.sheets) == ["key-tag"]
    assert not got.drawn.waits


def test_the_cab_card_knows_drives_clocks_and_the_slower_speed() -> None:
    got = made(YARD, SHOP)
    basis = got.drawn.late[-1].basis
    assert float(basis["steps/after/wheel-nuts/engine-1"].value) == pytest.approx(3600 * (2569 + 1))
    text = got.text()
    assert "drive Linnet, right drive" in text
    assert "Drive Linnet's old right drive" in text
    assert float(basis["cards/road-speed"].value) == pytest.approx(15 / 3.6)  # its book says 21 km/h
    slow = made(told(YARD, SHOP, road__speed="9 km/h"), SHOP).drawn.late[-1].basis
    assert float(slow["work/road/speed"].value) == pytest.approx(9 / 3.6)


def test_every_piece_that_the_work_names_is_asked_for() -> None:
    words = made(YARD, TABLE).work.rows.words
    for sort, known in (("gear", words.gear), ("parts", words.parts)):
        assert {f"{sort}/{piece}" for piece in known} == {name for name in questions() if name.startswith(f"{sort}/")}


def test_paper_and_page_cut_a_torque_to_the_same_marks_of_the_wrench() -> None:
    yard = told(YARD, SHOP, wrench__mark="2 N·m")
    got = made(yard, SHOP)
    job = got.work.carded[-1]
    page = {
        b.reading: b for b in bands_for(yard, yard.trouble(SHOP), job, got.work.figures, None, got.work.wrench_marks)
    }
    assert page["sd-nut-torque"].mark == pytest.approx(2.0)
    paper = {name: e for one in got.drawn.late for name, e in one.basis.items()}
    for end, value in (("go-from", page["sd-nut-torque"].go_from), ("go-to", page["sd-nut-torque"].go_to)):
        assert value is not None
        assert float(paper[f"steps/sd-nut-torque/{end}"].value) == pytest.approx(value)
    assert float(paper["steps/ns-torque/go-from"].value) % 2 == pytest.approx(0.0)
