"""The Steps sheets: every step once, every caution on its step, holds framed, readings against their bands, one page each."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from axlewright.plan.pack import pack
from axlewright.plan.sheet.frame import Drawn, Frame, Number, Numbers
from axlewright.plan.sheet.measure import lines, stay, width
from axlewright.plan.sheet.said import said
from axlewright.plan.sheet.step_card import step_sheet
from axlewright.plan.sheet.steps import StepsFacts, short, steps_sheets
from axlewright.plan.sheet.steps_page import height, spell
from axlewright.plan.steps.bands import Edges, by_verdicts
from axlewright.plan.steps.day import pieces
from axlewright.plan.steps.jobs import Here, job
from axlewright.plan.steps.schedule import TooFewHands
from axlewright.render import pdf, render
from axlewright.render.show import Show, Words
from axlewright.sheets import Bands, Caution, Figure, Grade, HoldPoint, Lines, Note, Numbered, Revision, Text
from axlewright.trade.networks import Job, jobs
from axlewright.trade.steps import Caution as Row
from axlewright.trade.steps import Task
from axlewright.trade.steps_read import steps

ROWS = steps()
EVERY = frozenset(ROWS.words.when)
ROOM = Revision(
    letter="K",
    on=date(2027, 9, 3),
    who="owner, helper",
    changed=("set down at 5,200; after-checks run, and a long word on why it took two days",),
)
FRAME = Frame(
    corner="Bramble, forage harvester, front right",
    trouble="31",
    revision="K",
    on=date(2027, 9, 3),
    yard="Low Meadow (invented)",
    made_by="owner",
    grade=Grade(shop=False, words=("from answers at the table, 28 Aug",)),
    revisions=(ROOM,) * 7,
)
FIGURES = {
    "fill": (11.0, 11.0),
    "torque-window": (351.0, 388.0),
    "nut-window": (505.0, 590.0),
    "twin": (33.5, 33.5),
    "mass": (275.0, 275.0),
}
GIVEN = {**by_verdicts(), "gauge": Edges((95, 130), (0, 165))}


def facts(name: str, here: Here, **more: object) -> StepsFacts:
    return StepsFacts(job=job(ROWS, name, here), here=here, frame=FRAME, figures=FIGURES, given=GIVEN, **more)  # type: ignore[arg-type]


def drawn(name: str, part: str = "", when: frozenset[str] = EVERY, **more: object) -> Drawn:
    return steps_sheets(ROWS, facts(name, Here(when=when, scope="gears", **more)), part)  # type: ignore[arg-type]


CARDS = [
    (name, part)
    for name in jobs(ROWS)
    for part in (c.part for c in job(ROWS, name, Here(when=EVERY, scope="gears")).cards)
]


@pytest.mark.parametrize(("name", "part"), CARDS)
def test_one_page_each_on_the_lower_paper(name: str, part: str) -> None:
    assert pdf.render(pack(drawn(name, part)), Show(paper="Letter", measures="us"))[:4] == b"%PDF"


def test_one_page_each_on_the_other_paper() -> None:
    assert pdf.render(pack(drawn("swap-hook"), drawn("bench")), Show(paper="A4"))[:4] == b"%PDF"


def first(lead: str, words: Text, got: Drawn) -> str:
    """The words that lead a block: a lead that holds a number stands as its first words."""
    return lead or Words(Show(), got.basis).plain(words[:1]).replace("\u00a0", " ").replace("°C", "C")


@pytest.mark.parametrize(("name", "part"), CARDS)
def test_every_step_stands_once_with_its_cautions_before_it(name: str, part: str) -> None:
    got = drawn(name, part)
    work: Job = job(ROWS, name, Here(when=EVERY, scope="gears"))
    card = next(c for c in work.cards if c.part == part)
    want = [s.task for s in card.steps if s.part != "walk-round"] or [s.task for s in card.steps]
    told: list[str] = []
    cautions: list[str] = []
    found: list[set[str]] = []
    for sheet in got.sheets:
        if sheet.name == "steps":
            continue
        for section in sheet.sections:
            if section.place == "wide":
                continue
            for block in section.blocks:
                if isinstance(block, Caution):
                    cautions.append(first(block.lead, block.words, got))
                elif isinstance(block, Note) and block.voice == "soft":
                    cautions.append(first("", block.words, got))
                elif isinstance(block, HoldPoint | Numbered):
                    held = isinstance(block, HoldPoint)
                    lead, words = (
                        (block.lead.split("  ")[1], block.words)
                        if held
                        else (block.items[0].lead, block.items[0].words)
                    )  # type: ignore[union-attr]
                    told.append(first(lead, words, got))
                    found.append({" ".join(cautions)})
                    cautions = []
    assert [t.rstrip(".").replace("\u00a0", " ") for t in told] == [t.title for t in want]
    for task, had in zip(want, found, strict=True):
        flat = " ".join(had).replace("\u00a0", " ")
        assert all(ROWS.caution[c].lead in flat for c in task.cautions if ROWS.caution[c].severity != "note"), task.id


@pytest.mark.parametrize(("name", "part"), CARDS)
def test_no_caution_names_a_case_and_leaves_what_to_do_unsaid(name: str, part: str) -> None:
    got = drawn(name, part)
    blocks = [b for sheet in got.sheets for s in sheet.sections for b in s.blocks if isinstance(b, Caution)]
    assert blocks
    for block in blocks:
        said = f"{block.lead} {Words(Show(), got.basis).plain(block.words)}".strip()
        assert not said.endswith(":"), said


def test_a_caution_stands_in_full_on_each_page_that_has_it() -> None:
    row = ROWS.caution["forks-nobody"]
    for sheet in drawn("swap").sheets[1:]:
        mine = [b for s in sheet.sections for b in s.blocks if isinstance(b, Caution) and row.lead in b.lead]
        if mine:
            assert mine[0].words
            assert not any(b.words for b in mine[1:])


def test_the_front_says_what_to_do_if_it_falls_first() -> None:
    front = drawn("swap").sheets[0]
    assert front.sections[0].heading == "If it falls"
    assert front.sections[0].voice == "must"
    assert all(sheet.sections[0].heading == "If it falls" for sheet in drawn("swap").sheets[1:])
    assert not any(s.heading == "If it falls" for s in drawn("fetch-used").sheets[0].sections)


def test_seven_readings_at_most_on_the_front_each_with_three_bands() -> None:
    words = Words(Show(), drawn("swap").basis, date(2027, 9, 3))
    sections = [s for s in drawn("swap").sheets[0].sections if s.heading[:1].isdigit()]
    assert [s.heading[0] for s in sections] == list("1234567")
    bands = {s.heading[3:]: next(b for b in s.blocks if isinstance(b, Bands)) for s in sections}
    assert all(sorted({b.voice for b in band.bands}) == ["must", "plain"] for band in bands.values())
    assert all(band.bands[-1].voice == "must" and band.bands[0].voice == "plain" for band in bands.values())
    reads = {name: [words.plain(b.reads).replace("\u00a0", " ") for b in band.bands] for name, band in bands.items()}
    assert reads["Jack gauge"] == ["95 to 130 bar", "under 95 bar", "130 to 165 bar", "over 165 bar"]
    assert reads["Slope across the machine"] == ["to 2 %", "2 to 3 %", "over 3 %"]
    assert reads["Final torque set"] == ["355 to 385 N·m", "under 355 N·m", "over 385 N·m", ""]
    assert reads["Oil poured"][0] == "10.5 to 11.5 L"  # a twentieth of 11 L either way, in whole tenths
    assert reads["Hub minus twin after ten minutes"] == ["to 9 K", "9 to 20 K", "over 20 K"]
    means = {name: [words.plain(b.means).split(";")[0] for b in band.bands] for name, band in bands.items()}
    assert means["Jack gauge"] == ["go on", "lower and ask", "lower and ask", "lower now"]
    assert means["Oil poured"] == ["go on", "stop and ask", "stop and ask", "stop now", "stop now"]
    assert "the wheel still carries" in words.plain(bands["Jack gauge"].bands[1].means)
    assert "down onto wood" in words.plain(bands["Jack gauge"].bands[2].means)


def test_bands_keep_the_unit_of_the_tool_in_us_measures() -> None:
    made = drawn("swap")
    gauge = next(
        b for s in made.sheets[0].sections if "Jack gauge" in s.heading for b in s.blocks if isinstance(b, Bands)
    )
    assert Words(Show(measures="us"), made.basis).plain(gauge.bands[0].reads).replace("\u00a0", " ") == "95 to 130 bar"


def test_a_band_nobody_worked_out_is_left_to_be_written() -> None:
    here = Here(when=EVERY)
    bare = StepsFacts(job=job(ROWS, "swap", here), here=here, frame=Frame())
    gauge = next(
        b
        for s in steps_sheets(ROWS, bare).sheets[0].sections
        if "Jack gauge" in s.heading
        for b in s.blocks
        if isinstance(b, Bands)
    )
    assert gauge.bands[0].reads == ("____ bar",)
    assert "walked round" in str(gauge.bands[0].means)


def test_runs_print_their_slow_end_the_clock_and_the_way_back() -> None:
    here = Here(when=EVERY)
    day = {"work_begins": datetime(2027, 9, 4, 7, 0), "sunset": datetime(2027, 9, 4, 19, 24)}
    got = steps_sheets(ROWS, facts("swap", here, **day))
    for piece in (p for p in pieces(ROWS, job(ROWS, "swap", here), here) if p.block):
        text = " ".join(
            str(b.words) for sheet in got.sheets for s in sheet.sections for b in s.blocks if isinstance(b, Note)
        )
        assert f"{spell(piece.likely)}, {spell(piece.high)} when it is slow" in text
    assert "not begun after 16:25" in text  # 18:54 less 149 minutes
    assert text.count("Way back: ") == 8


def test_a_hold_asks_for_two_names_and_its_own_readings() -> None:
    holds = [b for sheet in drawn("swap").sheets for s in sheet.sections for b in s.blocks if isinstance(b, HoldPoint)]
    assert len(holds) == 18  # 19 of the swap with its road, less that of the walk-round
    assert all(h.lines[-2:] in {("read by", "seen by"), ("first", "second")} for h in holds)
    assert next(h for h in holds if any("feeler" in line for line in h.lines)).lines == (
        "thickest feeler that enters, mm",
        "read by",
        "seen by",
    )


def test_readings_off_the_front_have_a_line_at_their_step() -> None:
    labels = [
        line.label
        for sheet in drawn("swap").sheets[1:]
        for s in sheet.sections
        for b in s.blocks
        if isinstance(b, Lines)
        for line in b.lines
    ]
    own = {r.quantity for r in job(ROWS, "swap", Here(when=EVERY)).readings if not r.card}
    assert own - set(labels) == {
        "slope along the machine",
        "ground by thumb and picket",
        "sound pieces of one section",
        "thickest feeler that enters",
    }


def test_nobody_to_help_is_said_by_name() -> None:
    with pytest.raises(TooFewHands, match="takes 2 people"):
        drawn("swap", hands=1)


def test_numbers_of_one_name_are_one_number() -> None:
    numbers = Numbers()
    one = Number("a", "mass", 1.0, "book", "the book")
    numbers.show(one)
    numbers.show(one, digits=2)
    with pytest.raises(ValueError, match="two numbers"):
        numbers.show(Number("a", "mass", 2.0, "book", "the book"))


def test_minutes_as_people_say_them() -> None:
    assert [spell(m) for m in (4, 99, 99.2, 100, 149, 223.5)] == [
        "4 min",
        "99 min",
        "1 h 40",
        "1 h 40",
        "2 h 29",
        "3 h 44",
    ]


def test_a_number_stays_with_its_unit() -> None:
    assert stay("10 to 20 mm gap, 3 degrees, within 10 m, 30 % and 15 km/h") == (
        "10 to 20\u00a0mm gap, 3 degrees, within 10\u00a0m, 30\u00a0% and 15\u00a0km/h"
    )


def test_lines_are_counted_as_they_are_laid_out() -> None:
    """Words of 10 m's are 8.33 sizes wide (Adobe's metrics): at 9 pt, 26.5 mm and a little; three to a field."""
    word = "m" * 10
    assert width(word, 9.0) == pytest.approx(10 * 0.833 * 9 * 0.352778, rel=0.02)
    assert [lines((" ".join([word] * n),), 88.0, 9.0) for n in (1, 3, 4, 6, 7)] == [1, 1, 2, 2, 3]
    assert height(Note(words=(" ".join([word] * 8),))) > height(Note(words=(word,)))


def test_a_step_alone_says_what_to_do_and_what_its_reading_tells() -> None:
    here = Here(when=EVERY)
    given = facts("swap", here)
    at = next(
        n for n, s in enumerate((s for s in given.job.steps if s.part != "walk-round"), 1) if s.task.id == "ra-clear"
    )
    sheet = step_sheet(ROWS, given, at, done={at - 1: "14:20"}, read={"jack-gauge": 110.0}).sheets[0]
    names = [s.heading for s in sheet.sections]
    assert names == [
        f"{at} of {len([s for s in given.job.steps if s.part != 'walk-round'])}",
        "What the jack gauge tells",
        "Around this step",
        "If it falls",
    ]
    (line,) = (line for b in sheet.sections[0].blocks if isinstance(b, Lines) for line in b.lines)
    assert line.written == ("110",)
    scale = next(b.drawing for b in sheet.sections[1].blocks if isinstance(b, Figure))
    assert "go on 95 to 130" in scale.says
    assert "165 lower now" in scale.says
    around = next(b for b in sheet.sections[2].blocks if isinstance(b, Numbered))
    assert [i.done for i in around.items] == [False, False, True, False, False, False, False, False]
    assert [bool(i.lead) for i in around.items].index(True) == 3


@pytest.mark.parametrize(("name", "each"), [("swap-planetary", 9), ("make-safe", 3), ("bench", 5)])
def test_a_step_alone_is_one_page(name: str, each: int) -> None:
    given = facts(name, Here(when=EVERY, scope="gears"))
    many = len([s for s in given.job.steps if s.part != "walk-round"])
    made = pack(*(step_sheet(ROWS, given, n) for n in range(1, many + 1, each)))
    assert pdf.render(made, Show(paper="Letter"))[:4] == b"%PDF"


def test_who_stands_where_is_drawn_where_the_machine_is_known() -> None:
    given = facts("swap", Here(when=EVERY))
    sheet = step_sheet(ROWS, given, 13, drawn_on=("walker-combine", "front-left", (-0.4, 1.0))).sheets[0]
    assert sheet.sections[-1].heading == "Who stands where"


def test_a_step_that_is_not_there() -> None:
    with pytest.raises(IndexError, match="steps 1 to"):
        step_sheet(ROWS, facts("swap", Here(when=EVERY)), 400)


def test_numbers_in_the_words_of_a_step_follow_the_measures() -> None:
    got = drawn("swap")
    whole = pack(got)
    metric, us = (
        " ".join(render(whole, Show(measures=m), "text").decode().replace("\u00a0", " ").split())
        for m in ("metric", "us")
    )  # type: ignore[arg-type]
    for said_, as_us in (
        ("Raise the first 50 mm, wood following", "Raise the first 2 in, wood following"),
        ("10 to 20 mm gap", "0.4 to 0.8 in gap"),
        ("Tape at 5 m", "Tape at 16 ft"),
        ("15 km/h at most", "9.3 mph at most"),
    ):
        assert said_ in metric
        assert as_us in us
        assert said_ not in us


@pytest.mark.parametrize("row", [*ROWS.task.values(), *ROWS.cautions], ids=lambda row: row.id)
def test_words_stay_as_they_are_written_in_their_own_measures(row: Task | Row) -> None:
    """Taken apart and put together again, no word of a step or caution is another; but C is printed with its ring."""
    numbers = Numbers()
    written = [row.text] if isinstance(row, Row) else [row.title, row.how, row.hold.must if row.hold else "x"]
    for words in written:
        shown = Words(Show(), numbers.entries).plain(said(words, numbers)).replace("\u00a0", " ").replace("\u202f", " ")
        assert shown.replace(" °C", " C") == words


def test_a_page_is_not_begun_for_the_last_step_alone() -> None:
    assert len(drawn("run-looks").sheets) == 1
    for name, part in CARDS:
        sheets = [one for one in drawn(name, part).sheets if not words_of_head(one.head).startswith("Step card")]
        last = words_of_head(sheets[-1].head).split(" · ")[0]
        assert len(sheets) == 1 or last.startswith("Steps "), f"{name}: {last}"  # several steps


def words_of_head(head: Text) -> str:
    return Words().plain(head)


def test_a_short_job_stands_over_the_first_step_of_the_long_one() -> None:
    here = Here(when=EVERY, scope="gears")
    first_job, main = facts("spare-look", here), facts("swap-hook", here)
    assert short(first_job.job.cards[0])
    assert not short(main.job.cards[-1])
    alone, both = steps_sheets(ROWS, main), steps_sheets(ROWS, main, before=(first_job,))
    heads = [section.heading for section in both.sheets[1].sections]
    assert first_job.job.title in heads
    assert heads.index(first_job.job.title) < heads.index(alone.sheets[1].sections[1].heading)
    numbers = [i.number for s in both.sheets[1].sections for b in s.blocks if isinstance(b, Numbered) for i in b.items]
    assert numbers[:2] == ["a1", "1"]
    assert pdf.render(pack(both), Show(paper="Letter", measures="us"))[:4] == b"%PDF"
