"""Lives on a rule of hours: every stay and every look that spoke against a drive, at the hours where they were."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from figures.measure import off, words_off

from axlewright.plan.pack import pack
from axlewright.plan.sheet.life import MOST_MARKS, MOST_SEEN, drive_life, machine_life, seen_of, troubles_of
from axlewright.render import Show, pdf, render
from axlewright.sheets.drawing import Label
from axlewright.sheets.figures.life import Lane, Mark, Stay, rule
from axlewright.sheets.figures.shapes import FIELD, plain
from axlewright.sheets.text import text
from axlewright.store import DEMO, at
from axlewright.yard import ClockReading, Corner, Drive, Finding, Machine, Move, Title, Yard

TODAY = date(2026, 8, 28)
YARD = at(DEMO).read()
CORNER = Corner("oak", "front-left")


def said(yard: Yard, name: str) -> str:
    drawn = (
        drive_life(yard, yard.drive(name), TODAY)
        if name in {d.id for d in yard.drives}
        else machine_life(yard, yard.machine(name), TODAY)
    )
    return " ".join(render(pack(drawn), Show(), "text").decode().replace("\u202f", " ").split())


@pytest.mark.parametrize("drive", [one.id for one in YARD.drives])
def test_every_drive_of_the_yard_has_a_life_on_one_page(drive: str) -> None:
    made = pack(drive_life(YARD, YARD.drive(drive), TODAY))
    for paper in ("A4", "Letter"):
        assert pdf.render(made, Show(paper=paper))[:4] == b"%PDF"  # type: ignore[arg-type]


@pytest.mark.parametrize("machine", [one.id for one in YARD.machines])
def test_every_machine_has_one_too(machine: str) -> None:
    assert pdf.render(pack(machine_life(YARD, YARD.machine(machine), TODAY)), Show())[:4] == b"%PDF"


def test_a_drive_that_moved_tells_both_places_and_what_was_changed_over() -> None:
    words = said(YARD, "linnet-spare")
    for one in ("870 h", "shelf", "Linnet, front right", "Breather and level plug", "899 h", "± 120", "trouble 5"):
        assert one in words
    assert [one.number for one in troubles_of(YARD, YARD.drive("linnet-spare"))] == [5]


def test_what_was_seen_at_its_corner_while_it_sat_there_is_its_own_and_nothing_else() -> None:
    def seen(day: int, drive: str | None = None) -> Finding:
        on = date(2026, 1, 1) + timedelta(days=day)
        return Finding(id=f"f{day}", finding="plug", grade="chips", corner=CORNER, drive=drive, on=on)

    drive = Drive(id="d", name="d", sits=CORNER, since=date(2026, 1, 1), hours=10)
    away = Move(id="m", drive="d", to="shelf", on=date(2026, 1, 11))
    yard = Yard.of([Title(name="T"), Machine(id="oak", name="Oak"), drive, away, seen(5), seen(15), seen(20, "d")])
    assert [one.id for one in seen_of(yard, yard.drive("d"))] == ["f5", "f20"]


def test_a_machine_tells_its_drives_its_years_and_its_troubles() -> None:
    words = said(YARD, "linnet")
    for one in ("2 598 h", "2026", "trouble 5", "Linnet, left drive", "Ready card"):
        assert one in words
    reads = [
        ClockReading(id=f"r{n}", machine="oak", on=date(2024 + n, 1, 1), hours=300 * n, clock="engine")
        for n in range(3)
    ]
    yard = Yard.of([Title(name="T"), Machine(id="oak", name="Oak"), *reads])
    assert "2025 300 h" in said(yard, "oak")
    assert "2024 300 h" in said(yard, "oak")


def test_who_was_never_read_or_looked_at_is_told_so() -> None:
    yard = Yard.of([Title(name="T"), Machine(id="oak", name="Oak"), Drive(id="d", name="d", sits=CORNER)])
    assert "Nobody has looked at it" in said(yard, "d")
    assert "Nobody wrote down what it had run" in said(yard, "d")
    assert "nobody has read its clock" in said(yard, "oak")


def test_of_many_looks_the_newest_are_told() -> None:
    many = [
        Finding(
            id=f"f{n}", finding="plug", grade="chips", corner=CORNER, drive="d", on=date(2025, 1, 1) + timedelta(days=n)
        )
        for n in range(MOST_SEEN + 9)
    ]
    drive = Drive(id="d", name="d", sits=CORNER, since=date(2025, 1, 1), hours=10)
    reads = [
        ClockReading(id=f"r{n}", machine="oak", on=date(2025 + n, 1, 1), hours=300 * n, clock="engine") for n in (0, 1)
    ]
    yard = Yard.of([Title(name="T"), Machine(id="oak", name="Oak"), drive, *many, *reads])
    assert "And 9 older looks." in said(yard, "d")
    sheet = drive_life(yard, yard.drive("d"), TODAY).sheets[0]
    drawing = next(b for s in sheet.sections for b in s.blocks if b.kind == "figure").drawing
    assert (
        len([one for one in drawing.shapes if isinstance(one, Label) and plain(one.words).startswith("chips")])
        == MOST_MARKS
    )


def test_leaders_stand_in_order_and_nothing_leaves_the_field() -> None:
    lanes = (
        Lane(
            (
                Stay(0, 500, text("before"), known=False),
                Stay(500, 520, text("Oak, front left")),
                Stay(520, 900, text("Ash")),
            )
        ),
    )
    marks = [Mark(at, text(f"look at {at}"), must=at > 600) for at in (100, 450, 700, 890)]
    drawing = rule(lanes, marks, 900, text("900 now"))
    labels = [one for one in drawing.shapes if isinstance(one, Label) and plain(one.words).startswith("look")]
    assert [plain(one.words) for one in labels] == ["look at 890", "look at 700", "look at 450", "look at 100"]
    across = [one.at[0] for one in labels]
    assert across == sorted(across, reverse=True)
    assert max(across) < FIELD
    assert not off(drawing)
    assert not words_off(drawing)
    assert "look at 100" in drawing.says
