"""The Support sheet: grades, weakest first, roundings to the safe side, stops without a number to lift by, one page."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from plan.held_cases import (
    FRAME,
    HELD_WELL,
    SHOP,
    TABLE,
    WALKED,
    every_number_has_its_basis,
    given,
    no_chance_is_printed,
    read,
    shown_in,
)
from pypdf import PdfReader

from axlewright.plan.pack import pack
from axlewright.plan.reckon.corner_task import quantity
from axlewright.plan.reckon.holding import STAGES
from axlewright.plan.reckon.support import SupportInputs, support
from axlewright.plan.sheet.frame import Drawn
from axlewright.plan.sheet.held import FAILING, times
from axlewright.plan.sheet.support import support_sheet
from axlewright.plan.sheet.support_words import stage_word
from axlewright.plan.sheet.walk_round import Walked
from axlewright.quantities import Exact, Quantity
from axlewright.render import render
from axlewright.render.show import Show
from axlewright.sheets import Bands, Figure, Lines, Numbered, Sheet, Table
from axlewright.sheets.drawing import Dimension
from axlewright.trade.verdicts import held_rules, questions


def section(drawn: Drawn, heading: str):
    return next(one for one in drawn.sheets[0].sections if one.heading == heading)


def test_a_table_sheet_is_not_for_lifting_and_not_known() -> None:
    drawn = support_sheet(TABLE, FRAME)
    (sheet,) = drawn.sheets
    assert sheet.grade is not None
    assert not sheet.grade.shop
    assert "NOT FOR LIFTING" in read(drawn)
    (line,) = sheet.verdicts
    assert (line.line, line.word, line.unseen) == ("HOLD", "not known", True)
    (list_,) = [one for one in section(drawn, "Walk-round").blocks if isinstance(one, Lines)]
    assert list_.ticked
    assert f"pieces, {support(TABLE).pieces} + 2" in [one.unit for one in list_.lines]


def test_no_answer_makes_a_table_sheet_say_go() -> None:
    (line,) = support_sheet(replace(SHOP, answers={**HELD_WELL, "walk-round": "done"}), FRAME).sheets[0].verdicts
    assert line.word == "not known"


def test_a_shop_sheet_says_who_walked_round_and_goes() -> None:
    drawn = support_sheet(SHOP, FRAME, WALKED)
    (sheet,) = drawn.sheets
    assert sheet.verdicts[0].word == "go"
    said = read(drawn)
    assert "Shop sheet B walked round 3 Sep, 18:40, owner and helper" in said
    assert "NOT FOR LIFTING" not in said
    assert "Before the first lift." in said
    assert not [one for one in sheet.sections if one.heading == "Walk-round"]


@pytest.mark.parametrize("missing", ["phone", "rear-blocks", "lift-point", "overnight"])
def test_one_answer_that_is_missing_is_not_known(missing: str) -> None:
    answers = {asked: said for asked, said in HELD_WELL.items() if asked != missing}
    (line,) = support_sheet(replace(SHOP, answers=answers), FRAME, WALKED).sheets[0].verdicts
    assert line.word == "not known"


def test_a_bar_is_kept_off_where_it_tips_soon() -> None:
    for height, word in ((1.65, "go"), (2.35, "go if"), (3.6, "stop")):
        (line,) = support_sheet(replace(SHOP, given=given(centre_height=height)), FRAME, WALKED).sheets[0].verdicts
        assert line.word == word
        assert ("no bar work on that corner" in str(line.words)) == (word == "go if")


STOPS = [(asked, said) for rule in held_rules() if rule.line == "HOLDING" and rule.word == "no" for asked, answers in rule.any.items() for said in answers]  # fmt: skip


@pytest.mark.parametrize(("asked", "said"), STOPS)
@pytest.mark.parametrize("walked", [None, WALKED])
def test_a_stop_prints_no_number_to_lift_by_but_its_cause_and_what_would_lift_it(
    asked: str, said: str, walked: Walked | None
) -> None:
    row = questions()[asked]
    way = {name: answers[0] for name, answers in row.given.items()}  # that the question is asked at all
    drawn = support_sheet(replace(SHOP, answers={**HELD_WELL, **way, asked: said}), FRAME, walked)
    (sheet,) = drawn.sheets
    assert (sheet.verdicts[0].word, sheet.verdicts[0].stops) == ("stop", True)
    assert not {"Crib", "Standing on three points", "Gauge while raising", "Stage by stage"} & {
        one.heading for one in sheet.sections
    }
    assert not sheet.deciding
    assert {drawn.basis[one.name].kind for one in shown_in(drawn.sheets)} <= {
        "length"
    }  # of tape and water, none of the corner
    rule = next(one for one in held_rules() if one.line == "HOLDING" and said in one.any.get(asked, ()))
    because, lifted = stop_told(sheet)
    assert row.stops[said] in because.lower()
    assert rule.why in because
    assert row.lifts.get(said, rule.lifted_by) in lifted
    assert (
        row.stops[said] in " ".join(read(drawn).split()).lower()
    )  # on top of it, and there it is not cut into columns


def stop_told(sheet: Sheet) -> tuple[str, str]:
    """Causes, and what would lift them, as they stand in the table of a stop."""
    (table,) = next(one.blocks for one in sheet.sections if one.heading == "What would lift it")
    assert isinstance(table, Table)
    cells = [[part for part in cell if isinstance(part, str)] for row in table.rows for cell in row.cells[:2]]
    return "; ".join(map("".join, cells[::2])), "; ".join(map("".join, cells[1::2]))


def test_every_margin_that_may_stop_it_is_named_in_words() -> None:
    asked = {rule.margin for rule in held_rules() if rule.line in ("HOLDING", "LIFTING") and rule.no_below is not None}
    assert asked <= set(FAILING)
    flat = support_sheet(replace(SHOP, given=given(centre_height=3.6, jack_rating=2e4)), FRAME, WALKED).sheets[0]
    because, lifted = stop_told(flat)
    assert "It would tip: the first motion is the accident" in because
    assert "More load than the jack’s plate: proof load is no reserve" in because
    assert "bigger jack" in lifted


def test_a_kind_without_a_swinging_rear_axle_is_a_stop() -> None:
    for answers in ({}, {"undercarriage": "swinging-rear-axle"}):
        drawn = support_sheet(SupportInputs("sprayer", "front-left", answers=answers), FRAME)
        assert drawn.sheets[0].verdicts[0].word == "stop"


def test_a_centre_of_gravity_outside_its_supports_is_a_stop_without_a_negative_load() -> None:
    for share, word in ((0.999, "stop"), (0.62, "go")):
        drawn = support_sheet(replace(SHOP, given=given(front_share=share)), FRAME, WALKED)
        assert drawn.sheets[0].verdicts[0].word == word
        assert not re.search(r"[\u2212-]\d+(\.\d+)? ?(t|kN|kg)", read(drawn))
        outside = "the centre of gravity lies outside its supports" in " ".join(read(drawn).split())
        assert outside == (word == "stop")


def test_degrees_typed_for_per_cent_are_asked() -> None:
    drawn = support_sheet(replace(SHOP, given=given(slope_nose=math.radians(3))), FRAME, WALKED)
    assert drawn.sheets[0].verdicts[0].word == "stop"
    assert "Read in degrees? 3 % is 1.7°" in stop_told(drawn.sheets[0])[1]


def test_a_value_that_cannot_be_is_named_and_the_rest_stands() -> None:
    for bad, named in ((given(mass=-9000.0), "machine’s mass"), (given(track=0.6), "Wheel to jack")):
        drawn = support_sheet(replace(SHOP, given=bad), FRAME, None)
        said = " ".join(read(drawn).split())
        assert named.lower() in said.lower()
        assert "draw up anew" in said
        assert drawn.sheets[0].verdicts[0].word == "not known"
        assert {"Walk-round", "What must not be missed"} <= {one.heading for one in drawn.sheets[0].sections}


@pytest.mark.parametrize(("inputs", "walked"), [(TABLE, None), (SHOP, WALKED)])
def test_every_number_stands_in_the_basis_and_none_is_a_chance(inputs: SupportInputs, walked) -> None:
    drawn = support_sheet(inputs, FRAME, walked)
    every_number_has_its_basis(drawn)
    no_chance_is_printed(drawn)


def test_held_numbers_stand_beside_the_likely_ones() -> None:
    drawn = support_sheet(TABLE, FRAME)
    at = TABLE.at
    likely, heaviest = drawn.basis[f"{at}/mass"], drawn.basis[f"held-corner/{at}/mass"]
    assert heaviest.value > likely.value
    assert "held at its high end" in heaviest.source
    assert heaviest.basis == "assumed"


def test_what_is_carried_is_rounded_up_and_what_holds_down() -> None:
    drawn = support_sheet(TABLE, FRAME)
    by_name = {one.name: one for one in shown_in(drawn.sheets)}
    up = [
        one
        for name, one in by_name.items()
        if name.startswith("held/") and name.endswith(("/mass", "/asked", "rear-wheels"))
    ]
    down = [one for name, one in by_name.items() if name.endswith(("/holds", "/least"))]
    assert len(up) > 15
    assert len(down) >= 4
    assert all(one.toward == "up" for one in up)
    assert all(one.toward == "down" for one in down)
    assert times(1.2999) == "1.29 ×"
    assert times(2.999) == "2.9 ×"
    assert times(9.99) == "9 ×"
    assert times(0.999) == "0.99 ×"


def test_the_weakest_stands_first_over_what_is_wanted_of_it() -> None:
    made = support(TABLE)
    (rows,) = [
        one
        for one in section(support_sheet(TABLE, FRAME), "What holds, and what could break it").blocks
        if isinstance(one, Numbered)
    ]
    wanted = {"Tips": math.degrees(math.atan(0.2)), "Push sideways": 1.5, "Chocks on three wheels": 1.5}
    over = [
        float(re.search(r"[\d.]+", item.number).group()) / wanted.get(item.lead.rstrip(","), 1.0)  # type: ignore[union-attr]
        for item in rows.items
    ]
    assert over == sorted(over)
    assert len(rows.items) >= 3
    assert {one.what for one in made.margins} > {"crossing", "seat", "ground", "side-hold", "chocks", "tip-slope"}


def test_a_plate_nobody_read_is_no_jack() -> None:
    no_plate = {name: one for name, one in given().items() if name != "jack_rating"}
    drawn = support_sheet(replace(SHOP, given=no_plate), FRAME, WALKED)
    assert drawn.sheets[0].verdicts[0].word == "not known"
    assert "the jack, its plate is not read" in read(drawn)
    assert "No band." in read(drawn)


def test_the_band_is_in_whole_marks() -> None:
    drawn, made = support_sheet(SHOP, FRAME, WALKED), support(SHOP)
    assert made.marks is not None
    (bands,) = [one for one in section(drawn, "Gauge while raising").blocks if isinstance(one, Bands)]
    shown = [one for band in bands.bands for one in shown_in(band)]
    assert {round(one.si / 5e5, 6) for one in shown} == set(map(float, made.marks))
    reads = " ".join(read(drawn).split())
    assert f"{made.marks[0] * 5} to {made.marks[1] * 5} go on" in reads
    assert f"over {made.marks[2] * 5} lower now" in reads
    american = replace(SHOP, gauge=replace(SHOP.gauge, unit="psi", mark=100.0))
    again = support(american)
    assert again.marks is not None
    said = "".join(read(support_sheet(american, FRAME, WALKED)).split())
    assert f"over{again.marks[2] * 100}lowernow" in said


def test_left_and_right_are_mirror_images() -> None:
    left, right = (support_sheet(replace(TABLE, corner=corner), FRAME) for corner in ("front-left", "front-right"))
    loads = [[one.si for one in shown_in(drawn.sheets[0].sections)] for drawn in (left, right)]
    assert loads[0] == loads[1]
    said = [" ".join(read(drawn).replace("\n! ", " ").split()) for drawn in (left, right)]
    assert "front right and both rear wheels" in said[0]
    assert "towards the left" in said[1]


def test_the_drawing_measures_what_it_says() -> None:
    drawn = support_sheet(TABLE, FRAME)
    (figure,) = [one for one in section(drawn, "Standing on three points").blocks if isinstance(one, Figure)]
    scale = float(section(drawn, "Standing on three points").aside.rsplit(":", 1)[1])
    seen = 0
    for one in figure.drawing.shapes:
        if isinstance(one, Dimension):
            (shown,) = shown_in(one.words)
            axis = 0 if one.direction == "across" else 1
            assert abs(one.a[axis] - one.b[axis]) * scale / 1000 == pytest.approx(shown.si, abs=0.003)
            seen += 1
    assert seen == 5


def test_stage_words_are_those_of_the_rules() -> None:
    high = support(replace(SHOP, given=given(centre_height=2.35)))
    words = {stage.name: stage_word(high, stage) for stage in STAGES[1:]}
    for stage in STAGES[1:]:
        tips = min(one.at(0.05) for one in high.margins if one.what == "tip-slope" and one.stage == stage.name)
        assert (words[stage.name] in ("yes", "only if")) == (tips >= 0.2)
        if tips < 0.3:
            assert words[stage.name] != "yes"


@pytest.mark.parametrize(
    "kind", ["small-combine", "walker-combine", "large-combine", "very-large-combine", "forage-harvester"]
)
@pytest.mark.parametrize("measures", ["metric", "us"])
def test_one_page_on_either_paper(kind: str, measures: str) -> None:
    for inputs, walked in ((replace(TABLE, kind=kind), None), (replace(SHOP, kind=kind), WALKED)):
        drawn = support_sheet(inputs, FRAME, walked)
        for paper in ("A4", "Letter"):
            pdf = render(pack(drawn), Show(paper=paper, measures=measures), "pdf")  # type: ignore[arg-type]
            assert len(PdfReader(io.BytesIO(pdf)).pages) == 1


def test_a_stand_in_place_of_a_crib() -> None:
    asked = replace(SHOP, timber=(), given=given(stand_rating=9e4, stand_half_base=0.2),
                    answers={**HELD_WELL, "rests-on": "stand", "saddle-fits": "yes", "lock-home": "yes", "base-flat": "yes", "nothing-stacked": "yes"})  # fmt: skip
    drawn = support_sheet(asked, FRAME, WALKED)
    assert drawn.sheets[0].verdicts[0].word == "go"
    assert "Rated stand" in read(drawn)
    loose = support_sheet(replace(asked, answers={**asked.answers, "lock-home": "no"}), FRAME, WALKED)
    assert loose.sheets[0].verdicts[0].word == "stop"
    assert "stand" in read(support_sheet(replace(asked, given=given(stand_rating=2e4)), FRAME, WALKED))


def test_no_crib_says_what_is_wanted() -> None:
    short = replace(SHOP, timber=(replace(SHOP.timber[0], pieces=4),))
    drawn = support_sheet(short, FRAME, WALKED)
    assert drawn.sheets[0].verdicts[0].word == "not known"
    assert "too few pieces" in " ".join(read(drawn).split())
    assert "no timber is counted yet" in " ".join(read(support_sheet(replace(SHOP, timber=()), FRAME)).split())


def test_the_same_pack_in_both_measures_and_both_ways_through_json() -> None:
    made = pack(support_sheet(TABLE, FRAME))
    assert type(made).model_validate_json(render(made, Show(), "json")) == made
    said = render(made, Show(measures="us"), "text").decode()
    assert " lb" in said
    assert not re.search(r"\d (t|kN|mm)\b", said.split("Walk-round")[0])


def test_timber_counts_as_seen_only_after_the_walk_round() -> None:
    name = f"{SHOP.at}/crib/length"
    assert support_sheet(TABLE, FRAME).basis[name].basis == "assumed"
    assert support_sheet(SHOP, FRAME, WALKED).basis[name].basis == "measured"


def test_a_guess_never_becomes_the_gauges_bore() -> None:
    bare = Quantity("bore", SHOP.gauge.bore.kind, Exact(0.06), "book", "its plate")
    wide, narrow = support(replace(SHOP, gauge=replace(SHOP.gauge, bore=bare))), support(SHOP)
    assert wide.marks is not None
    assert narrow.marks is not None
    assert wide.marks[2] < narrow.marks[2]


def test_the_how_tos_example_runs() -> None:
    page = (Path(__file__).parents[2] / "docs" / "how-to" / "hold-a-corner.md").read_text(encoding="utf-8")
    (code,) = re.findall(r"```python\n(.*?)```", page, re.DOTALL)
    names: dict[str, object] = {}
    exec(code, names)
    assert names["drawn"].sheets[0].grade.shop is False  # type: ignore[attr-defined]


def test_a_margin_that_fails_and_that_no_reading_mends_says_what_to_look_at_first() -> None:
    """All guesses of a small combine, its crib far inboard: no one of them, at its best, keeps it from tipping."""
    far = {"crib_inboard": quantity("crib_inboard", Exact(0.85), "measured", "tape")}
    made = support(replace(TABLE, kind="small-combine", given=far))
    least = min(made.holding.tips_at(stage.name)[1] for stage in STAGES[1:])
    assert math.tan(least) < 0.2
    unknown = made.unknowns["tip-slope"]
    assert unknown is not None
    assert unknown.settles
    assert unknown.at is None
    said = " ".join(read(support_sheet(replace(TABLE, kind="small-combine", given=far), FRAME)).split())
    assert "No one reading settles it. First: " in said
    assert "None of the guesses alone breaks it" not in said.split("Tips at this slope")[1].split("×")[0]


def test_a_band_waits_for_the_gauges_marks() -> None:
    assert SHOP.gauge is not None
    made = support(replace(SHOP, gauge=replace(SHOP.gauge, mark=None)))
    assert made.marks is None
    assert "marks" in made.no_band
    assert support(SHOP).marks is not None


def test_oil_on_the_plate_is_told_of_a_crib_and_not_of_a_stand() -> None:
    made = support(SHOP)
    best, high = made.cribbed.layouts[0], SHOP.height_of_crib(made.holding)
    topples = (0.85 - 2 * best.overhang) / 2 / high
    assert topples > 0.20  # so that it slides first, and half of 0.20 is gone where oil leaves 0.10
    assert "Wet or oily plate: half of it is gone" in " ".join(read(support_sheet(SHOP, FRAME)).split())
    stands = {**given(), "stand_rating": given()["jack_rating"]}
    on_stand = support_sheet(replace(SHOP, timber=(), given=stands, answers={**HELD_WELL, "rests-on": "stand"}), FRAME)
    assert "oily" not in read(on_stand)


@pytest.mark.parametrize(("paper", "measures"), [("A4", "metric"), ("Letter", "us")])
def test_everything_that_can_stop_it_at_once_is_told_on_one_page(paper: Any, measures: Any) -> None:
    every = {asked: said for asked, said in STOPS if not questions()[asked].given} | {"overnight": "yes", "overnight-set": "not-all"}  # fmt: skip
    drawn = support_sheet(replace(SHOP, answers={**HELD_WELL, **every}), FRAME, WALKED)
    because, _ = stop_told(drawn.sheets[0])
    for asked, said in every.items():
        assert asked == "overnight" or questions()[asked].stops[said] in because.lower()
    pdf = render(pack(drawn), Show(paper=paper, measures=measures), "pdf")
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 1
