"""The Choice and Basis sheets of the demo yard: one page each way, every number with its basis, no price for a stop."""

from __future__ import annotations

import io
import re
from datetime import date

import pypdf
import pytest
from plan.choice_cases import given, task, with_seen

from axlewright.kinds import KINDS
from axlewright.plan.choice_made import Choice, made
from axlewright.plan.drawn_up import choice_pack, chosen, draw_up, will_be_drawn
from axlewright.plan.facts import Seen
from axlewright.plan.pack import pack
from axlewright.plan.sheet.basis import basis_sheets, names_on, own_numbers
from axlewright.plan.sheet.choice import choice_sheet
from axlewright.plan.sheet.frame import Frame
from axlewright.plan.sheet.trouble import trouble_sheet
from axlewright.render import pdf, text
from axlewright.render.show import Show
from axlewright.sheets import BasisEntry, DotStrip, Pack
from axlewright.store import DEMO, Folder

TODAY = date(2026, 8, 28)
YARD = Folder(DEMO).read()
CHOSEN = [one.number for one in YARD.troubles if isinstance(chosen(YARD, one, TODAY), Choice)]
PAPERS = ("A4", "Letter")


def choice_of(number: int) -> Pack:
    made_ = choice_pack(YARD, YARD.trouble(number), TODAY)
    assert made_ is not None
    return made_


def strips(made_: Pack) -> DotStrip:
    (block,) = [b for section in made_.sheets[0].sections for b in section.blocks if isinstance(b, DotStrip)]
    return block


def test_the_demo_yard_has_choices_to_make() -> None:
    assert len(CHOSEN) >= 3


@pytest.mark.parametrize("number", CHOSEN)
@pytest.mark.parametrize("paper", PAPERS)
def test_each_sheet_is_one_page(number: int, paper: str) -> None:
    made_ = choice_of(number)
    pages = pypdf.PdfReader(io.BytesIO(pdf.render(made_, Show(paper=paper)))).pages  # type: ignore[arg-type]
    assert len(pages) == len(made_.sheets)
    said = " ".join(pages[0].extract_text().split())
    assert "Decide by" in said
    assert "Find out next" in said


@pytest.mark.parametrize("number", CHOSEN)
def test_what_stands_in_the_pack_was_told_beforehand(number: int) -> None:
    trouble = YARD.trouble(number)
    names = [sheet.name for sheet in draw_up(YARD, trouble, TODAY).sheets]
    told = [name for name, _ in will_be_drawn(YARD, trouble, TODAY)]
    assert [name for name in names if name in told] == told
    assert ("choice" in told) == ("choice" in names)


@pytest.mark.parametrize("number", CHOSEN)
def test_stopped_courses_have_a_way_out_and_no_price(number: int) -> None:
    for one in strips(choice_of(number)).stopped:
        assert one.why
        assert one.lifted_by
        assert "€" not in str(one)


@pytest.mark.parametrize("number", CHOSEN)
def test_dots_beyond_and_drawn_are_a_hundred(number: int) -> None:
    for strip in strips(choice_of(number)).strips:
        assert len(strip.dots) + strip.beyond == 100


@pytest.mark.parametrize("number", CHOSEN)
def test_as_many_dots_are_full_as_seasons_in_which_a_drive_let_go(number: int) -> None:
    choice = chosen(YARD, YARD.trouble(number), TODAY)
    assert isinstance(choice, Choice)
    for strip in strips(choice_of(number)).strips:
        name = next(one for one in choice.made.courses if strip.letter and _titled(one.name, strip.label))
        full = sum(dot.full for dot in strip.dots)
        assert full <= 100 * name.fails + 1
        assert full >= 100 * name.fails - strip.beyond - 1


def _titled(course: str, label: object) -> bool:
    from axlewright.trade.choice import courses

    return str(label).startswith(f"('{courses()[course].title}")


@pytest.mark.parametrize("number", CHOSEN)
def test_every_number_shown_has_its_basis_and_says_what_it_was_made_of(number: int) -> None:
    made_ = choice_of(number)
    for name in names_on(made_.sheets):
        assert made_.basis[name].source
    for name, entry in made_.basis.items():
        assert set(entry.made_of) <= set(made_.basis), name
        if name.startswith("course/"):
            assert "price/used" not in name
    mean = next(entry for name, entry in made_.basis.items() if name.endswith(".mean"))
    assert {"price/tow", "lead/used", "season/crops.1.area"} <= set(mean.made_of)


def test_the_same_trouble_gives_the_same_bytes() -> None:
    trouble = YARD.trouble(CHOSEN[0])
    again = Folder(DEMO).read()
    one, other = (text.render(choice, Show()) for choice in (choice_of(CHOSEN[0]), choice_pack(again, trouble, TODAY)))  # type: ignore[arg-type]  # fmt: skip
    assert one == other


def test_a_sheet_is_read_without_colour() -> None:
    """What stands in another voice stands in words too: stopped, struck, let go."""
    said = text.render(choice_of(7), Show()).decode()
    assert re.search(r"\[struck: Run it as it is\] stopped", said)
    assert "Lifted by:" in said
    assert "let go in" in said


def test_before_the_first_look_no_course_is_chosen() -> None:
    said = " ".join(text.render(choice_of(8), Show()).decode().split())
    assert "No course is chosen before." in said
    assert "First look" in said


def sheet_of(own: dict[str, object] | None = None, **of: object) -> str:
    fresh = tuple(Seen(f, g, hours_ago=0.0, days_ago=0.0) for f, g in (("level", "at-mark"), ("plug", "flakes"), ("bolts", "still"), ("nuts", "still"), ("rock", "none")))  # fmt: skip
    choice = made(with_seen(task(own=own, **of), ("plug", "flakes")), fresh)  # type: ignore[arg-type]
    return text.render(pack(choice_sheet(choice, (), Frame(on=date(2026, 8, 1)), {})), Show()).decode()


def test_a_date_to_order_by_stands_in_the_sentence() -> None:
    quick = {"lead/used": given("lead/used", "duration", "3 d"), "price/used": given("price/used", "money", "10"), "price/freight": given("price/freight", "money", "10")}  # fmt: skip
    said = sheet_of(quick, courses=("run", "fit a used drive"), starts=20)
    assert re.search(r"A: fit a used drive now\. Order it by \w+day 1\d Aug\.", said)
    assert "Ring the seller today" in said


def test_a_day_that_is_past_is_struck() -> None:
    slow = {"lead/used": given("lead/used", "duration", "30 d")}
    said = sheet_of(slow, courses=("run with checks", "fit a used drive"), starts=14)
    assert re.search(r"order by \[struck: 1\d Jul\]", said)


def entry(name: str, basis: str, made_of: tuple[str, ...] = (), value: float = 5.0) -> BasisEntry:
    return BasisEntry(name=name, kind="mass", value=value, basis=basis, source=f"of {name}", made_of=made_of)  # type: ignore[arg-type]


def test_the_basis_names_every_input_and_every_computed_number_that_is_shown() -> None:
    numbers = {name: entry(name, basis) for name, basis in (("a", "assumed"), ("m", "measured"), ("b", "book"))}
    numbers["c"] = entry("c", "computed", ("a", "m", "b"))
    drawn = basis_sheets(numbers, Frame())
    said = text.render(Pack(version="0", sheets=drawn.sheets, basis=numbers), Show()).decode()
    for name in "ambc":
        assert f"of {name}" in said
    assert "from a, m and 1 more" in said


def test_a_number_held_alike_at_several_corners_is_printed_once() -> None:
    same = {name: entry(name, "assumed") for name in ("x/load", "held-low/x/load", "held/x/load")}
    other = {"held-wide/x/load": entry("held-wide/x/load", "assumed", value=6.0)}
    assert set(own_numbers({**same, **other})) == {"x/load", "held-wide/x/load"}


@pytest.mark.parametrize("paper", PAPERS)
def test_a_basis_of_many_numbers_runs_over_pages_that_each_fit(paper: str) -> None:
    names = [f"machine.front-left/part-{n}/a-rather-long-name-{n}" for n in range(260)]
    numbers = {name: entry(name, ("assumed", "computed")[n % 2], tuple(names[:3]), 5.0 + n) for n, name in enumerate(names)}  # fmt: skip
    drawn = basis_sheets(numbers, Frame(on=TODAY))
    assert len(drawn.sheets) > 1
    made_ = Pack(version="0", sheets=drawn.sheets, basis=numbers)
    pages = pypdf.PdfReader(io.BytesIO(pdf.render(made_, Show(paper=paper)))).pages  # type: ignore[arg-type]
    assert len(pages) == len(drawn.sheets)
    assert KINDS["mass"].unit == "kg"


def test_the_troubles_sheet_says_which_course_was_settled() -> None:
    yard = Folder(DEMO).read()
    courses = {yard.course(trouble.number) for trouble in yard.troubles}
    assert len(courses) > 2
    for trouble in yard.troubles:
        sheet = trouble_sheet(yard, trouble, date(2026, 8, 28)).sheets[0]
        said, course = str((sheet.answer, sheet.lead)), yard.course(trouble.number)
        assert said.count(f"Settled: {course}.") == 1 if course else "Settled" not in said
