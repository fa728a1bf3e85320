"""Oil samples stand with the life of their drive, the newest first, in every format; without any, nothing does."""

from __future__ import annotations

from datetime import date, timedelta

from axlewright.plan.pack import pack
from axlewright.plan.sheet.life import drive_life
from axlewright.plan.sheet.samples import MOST_SHOWN, samples
from axlewright.plan.sheet.yard import yard_sheet
from axlewright.render import Show, html, pdf, render
from axlewright.store import DEMO, at
from axlewright.yard import Change, OilSample, Yard

TODAY = date(2026, 8, 28)
YARD = at(DEMO).read()
DRIVE = YARD.drive("bramble-left")


def drawn(count: int) -> Yard:
    made = (
        OilSample(
            id=f"s{n}", drive=DRIVE.id, on=TODAY - timedelta(days=n), iron=10 * n, on_oil=50, lead=2, below=("lead",)
        )
        for n in range(1, count + 1)
    )
    return YARD.with_(Change(tuple(made)))


def said(yard: Yard) -> str:
    return " ".join(render(pack(drive_life(yard, DRIVE, TODAY)), Show(), "text").decode().split())


def test_a_drive_without_samples_says_nothing_of_them() -> None:
    assert samples(YARD, DRIVE) == ()
    assert "Oil samples" not in said(YARD)


def test_samples_stand_with_what_was_not_seen_and_iron_by_the_hours_on_the_oil() -> None:
    words = said(drawn(3))
    for one in ("Oil samples", "10 ppm", "20 ppm", "60 ppm", "lead <2", "No verdict comes of these"):
        assert one in words
    assert words.index("27 Aug") < words.index("25 Aug", words.index("Oil samples"))
    made = pack(drive_life(drawn(3), DRIVE, TODAY))
    assert "Oil samples" in html.body(made.sheets[0], made, Show())
    assert pdf.render(made, Show())[:4] == b"%PDF"


def test_of_many_the_newest_are_shown_and_the_others_counted() -> None:
    block = samples(drawn(MOST_SHOWN + 5), DRIVE)[0].blocks[0]
    assert len(block.rows) == MOST_SHOWN  # type: ignore[union-attr]
    assert "5 older are kept" in said(drawn(MOST_SHOWN + 5))


def test_no_sample_makes_a_corner_looked_at() -> None:
    for corner in YARD.corners:
        assert drawn(3).findings_at(corner) == YARD.findings_at(corner)
    assert render(pack(yard_sheet(drawn(3), TODAY)), Show(), "text") == render(
        pack(yard_sheet(YARD, TODAY)), Show(), "text"
    )
