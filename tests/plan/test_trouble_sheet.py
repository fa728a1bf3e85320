"""A trouble's sheet: what it asks next, what an answer moved, and the pictures that it asks by."""

from __future__ import annotations

import dataclasses
import io
from datetime import UTC, date, datetime

import pytest
from figures import measure
from pypdf import PdfReader

from axlewright import desk, store
from axlewright.plan.choice_made import Choice
from axlewright.plan.drawn_up import blank, chosen
from axlewright.plan.sheet.grades import PAGES, PROOF, grades_sheets, proof, true_size, word_and_line
from axlewright.plan.sheet.trouble import look_of, trouble_drawn
from axlewright.plan.sheet.trouble_moved import Stands, moved_section, told_with, without
from axlewright.render import render
from axlewright.render.show import Show, Words
from axlewright.sheets import Day, Figure, Go, Note, Table
from axlewright.sheets.drawing import Area
from axlewright.sheets.figures import grades
from axlewright.trade.findings import findings
from axlewright.trade.looks import looks
from axlewright.yard import Yard

TODAY = date(2026, 8, 28)
FORM = "f" * 32
PHONE = 328.0  # px, what a field of 88 mm has on a telephone of 360 px


@pytest.fixture(scope="module")
def yard() -> Yard:
    return store.at(store.DEMO, TODAY).read()


def kept(yard: Yard, number: int, finding: str, grade: str) -> Yard:
    trouble = yard.trouble(number)
    seen = desk.Seen(id=FORM, corner=str(trouble.corner), trouble=number, marks=(desk.Mark(finding=finding, grade=grade),))  # fmt: skip
    now = desk.Now(datetime(2026, 8, 28, 18, 0, tzinfo=UTC), "owner", lambda: "one")
    return yard.with_(desk.add_findings(yard, seen, now))


def asks(yard: Yard, number: int) -> list[str]:
    return [one.name for one in trouble_drawn(yard, yard.trouble(number), TODAY).asks]


# what it asks
def test_while_nobody_looked_in_the_five_come_first_and_chalk_is_read_last(yard: Yard) -> None:
    assert asks(yard, 8)[:2] == ["level", "plug"]
    assert "where" in asks(yard, 8)


def test_what_was_looked_at_is_asked_no_more(yard: Yard) -> None:
    first = asks(yard, 8)[0]
    assert first not in asks(kept(yard, 8, first, "at-mark"), 8)


def test_nothing_is_worked_or_raised_for_a_look_before_what_must_be_clean_is(yard: Yard) -> None:
    """Order of looks: no look at work before plug, bolts and nuts are clean; none is raised before bolts and nuts are still."""
    for one in (yard, kept(yard, 6, "plug", "flakes")):
        for number in (6, 8):
            trouble = one.trouble(number)
            choice = chosen(one, trouble, TODAY)
            drawn = trouble_drawn(one, trouble, TODAY, choice if isinstance(choice, Choice) else None)
            fresh = set(drawn.stands.look.verdicts.state.fresh)
            for asked in drawn.asks:
                if asked.asked:
                    continue
                needs = looks()[findings()[asked.name].look].after
                firsts = {"wipe": "fluid", "chalk": "where"}
                assert {firsts.get(name, name) for name in needs} <= fresh, asked
                fresh.add(asked.name)
    assert not {"noise", "heat"} & set(asks(kept(yard, 6, "plug", "flakes"), 6))


def test_while_it_is_stopped_nobody_is_sent_to_work_or_to_raise_it(yard: Yard) -> None:
    for one, number in ((yard, 7), (kept(yard, 6, "noise", "knock"), 6), (kept(yard, 6, "bolts", "loose"), 6)):
        trouble = one.trouble(number)
        choice = chosen(one, trouble, TODAY)
        drawn = trouble_drawn(one, trouble, TODAY, choice if isinstance(choice, Choice) else None)
        assert drawn.stands.look.make_safe
        for asked in drawn.asks:
            assert asked.asked or looks()[findings()[asked.name].look].stages == ("G",)


def test_rock_is_asked_though_it_does_not_pay_since_road_asks_for_it(yard: Yard) -> None:
    assert "rock" in asks(yard, 6)


@pytest.mark.parametrize("number", [1, 5, 9])
def test_a_trouble_whose_course_is_gone_asks_nothing(number: int, yard: Yard) -> None:
    assert asks(yard, number) == []


# what an answer moved
def moved(yard: Yard, number: int, finding: str, grade: str) -> tuple[list[tuple[str, ...]], str]:
    now = kept(yard, number, finding, grade)
    before, trouble = without(now, FORM), now.trouble(number)
    assert before == yard, "without the form the yard is what it was"
    stands = [Stands(look_of(one, trouble, TODAY), chosen(one, trouble, TODAY)) for one in (before, now)]
    section, _ = moved_section(now, told_with(now, FORM), *stands)
    told = next(block for block in section.blocks if isinstance(block, Note))
    rows = [row for block in section.blocks if isinstance(block, Table) for row in block.rows if row.voice == "strong"]
    return [tuple(str(cell[0]) for cell in row.cells) for row in rows], "".join(str(one) for one in told.words)


def test_chips_move_both_verdicts_to_no(yard: Yard) -> None:
    rows, told = moved(yard, 6, "plug", "chips")
    assert ("Work in field", "only if", "no") in rows
    assert ("Go on road", "not known", "no") in rows
    assert "chips on the plug" in told


def test_what_says_nothing_of_the_drive_moves_nothing(yard: Yard) -> None:
    assert moved(yard, 6, "brakes", "hold")[0] == []


# the drawing
def test_a_thumb_finds_each_place_and_no_two_lie_on_each_other(yard: Yard) -> None:
    sheet = trouble_drawn(yard, yard.trouble(6), TODAY).drawn.sheets[0]
    drawing = next(b.drawing for s in sheet.sections for b in s.blocks if isinstance(b, Figure))
    areas = measure.of(drawing, Area)
    assert len(areas) == len({one.goes_to for one in areas}) == 6
    boxes = []
    for one in areas:
        words = one.outline[:4]
        xs, ys = [x for x, _ in words], [y for _, y in words]
        assert min(max(xs) - min(xs), max(ys) - min(ys)) * PHONE / 88.0 >= 48.0
        assert min(xs) >= 0
        assert max(xs) <= drawing.width
        assert 0 <= min(ys) < max(ys) <= drawing.height
        boxes.append((min(xs), min(ys), max(xs), max(ys)))
    for n, a in enumerate(boxes):
        for b in boxes[n + 1 :]:
            assert min(a[2], b[2]) - max(a[0], b[0]) < 9 or min(a[3], b[3]) <= max(a[1], b[1])


# the pictures
def test_every_pictured_finding_stands_on_one_page_of_the_pictures() -> None:
    assert sorted(name for page in PAGES for name in page) == sorted(grades.FINDINGS)
    assert all(findings()[name].picture for name in grades.FINDINGS)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_each_page_of_the_pictures_is_one_page_of_paper(paper: str) -> None:
    pdf = PdfReader(io.BytesIO(render(blank("grades"), Show(paper=paper), "pdf")))
    assert len(pdf.pages) == len(PAGES)


def test_each_grade_has_its_word_and_no_word_twice() -> None:
    for name in grades.FINDINGS:
        words = [word_and_line(name, grade.id)[0] for grade in findings()[name].grades]
        assert all(words)
        assert len(set(words)) == len(words)


def test_the_bar_stands_where_pictures_are_true_size() -> None:
    for sheet in grades_sheets().sheets:
        for section, name in zip(sheet.sections, PAGES[grades_sheets().sheets.index(sheet)], strict=True):
            bars = [block for block in section.blocks if isinstance(block, Figure) and block.drawing == proof()]
            assert len(bars) == true_size(name)
    lengths = [measure.span(measure.path_points(one.d))[0] for one in measure.of(proof(), measure.Path)]
    assert max(lengths) == PROOF


# what its page says first
def links(text: tuple[object, ...]) -> list[str]:
    return [piece.to for piece in text if isinstance(piece, Go)]


@pytest.mark.parametrize("number", [1, 2, 3, 4])
def test_what_is_put_by_says_how_it_ended_and_where_it_goes_on(number: int, yard: Yard) -> None:
    trouble = yard.trouble(number)
    assert yard.stage(number) == "put by"
    sheet = trouble_drawn(yard, trouble, TODAY).drawn.sheets[0]
    end, running = yard.stages_of(number)[-1], yard.running_at(trouble.corner)
    assert Day(on=end.on) in sheet.answer
    assert end.note.rstrip(".") in "".join(map(str, sheet.answer))
    assert links(sheet.lead) == ([f"/trouble/{running.number}"] if running else [])
    assert not [s for s in sheet.sections if s.heading.startswith(("What the next look", "One call", "One date"))]


def test_a_stop_leads_to_its_sheet_from_the_first_lines(yard: Yard) -> None:
    sheet = trouble_drawn(yard, yard.trouble(7), TODAY).drawn.sheets[0]
    assert links(sheet.lead)[0] == "/trouble/7/make-safe"


def test_a_course_that_was_taken_is_the_heading_whatever_is_best_by_now(yard: Yard) -> None:
    trouble = yard.trouble(6)
    choice = chosen(yard, trouble, TODAY)
    assert isinstance(choice, Choice)
    assert choice.made.best is not None
    assert choice.made.best.name != yard.course(6)
    for made in (None, choice):
        sheet = trouble_drawn(yard, trouble, TODAY, made).drawn.sheets[0]
        assert f"Settled: {yard.course(6)}." in str(sheet.answer)
    assert links(sheet.lead) == ["/trouble/6/choice"]


def test_a_drive_that_was_moved_off_is_named_with_the_one_that_sits_there_now(yard: Yard) -> None:
    trouble = yard.trouble(5)
    old, now = yard.drive(trouble.drive), yard.drive_at(trouble.corner)
    assert now is not None
    assert now.id != old.id
    said = "".join(str(piece) for piece in trouble_drawn(yard, trouble, TODAY).drawn.sheets[0].head)
    machine = yard.machine(trouble.corner.machine).name
    assert now.name.removeprefix(f"{machine}, ") in said


def test_outcomes_that_come_to_one_are_no_table(yard: Yard) -> None:
    """Whichever look is told as the next: its rows differ, or are told in one sentence."""
    for number in (5, 6, 8):
        sheet = trouble_drawn(yard, yard.trouble(number), TODAY).drawn.sheets[0]
        (section,) = (s for s in sheet.sections if s.heading.startswith("What the next look"))
        tables = [b for b in section.blocks if isinstance(b, Table)]
        assert all(len({row.cells[1:] for row in table.rows}) > 1 for table in tables)


@pytest.mark.parametrize(("course", "struck"), [("run", True), ("reseal", True), ("fit a spare", False)])
def test_a_course_that_was_taken_though_it_is_struck_out_says_so(course: str, struck: bool, yard: Yard) -> None:
    """Trouble 6: FIELD is only if, and nobody looked at rock: neither runs it as it is nor is it resealed."""
    stage = next(one for one in yard.stages if one.trouble == 6 and one.stage == "settled")
    taken = dataclasses.replace(yard, stages=(*yard.stages, stage.model_copy(update={"course": course})))
    drawn = trouble_drawn(taken, taken.trouble(6), TODAY).drawn
    lead = Words(Show(), drawn.basis).plain(drawn.sheets[0].lead)
    assert ("Struck out, as things stand:" in lead) == struck
    assert ("Lifted by:" in lead) == struck
