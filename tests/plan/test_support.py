"""What a Support sheet says could break a margin, on the demo yard's own corner."""

from __future__ import annotations

from datetime import date

from axlewright import store
from axlewright.plan.drawn_up import draw_up
from axlewright.plan.in_hand.card import gauge_of


def test_what_tips_it_forward_is_told_as_a_share_never_as_an_axle_load() -> None:
    """A heavier machine with the same share tips no sooner, so a load on the front axle alone settles nothing."""
    yard = store.Folder(store.DEMO).read()
    made = draw_up(yard, yard.trouble(6), date(2026, 8, 28))
    (entry,) = [one for name, one in made.basis.items() if name.endswith("tip-slope/breaks-at")]
    assert entry.kind == "share"
    assert 7.58 / 11.34 < entry.value < 1  # beyond the likely share, which passes


def test_the_step_cards_band_is_the_sheets() -> None:
    """One gauge, one band: paper and card draw the same numbers."""
    yard = store.Folder(store.DEMO).read()
    trouble = yard.trouble(6)
    made = draw_up(yard, trouble, date(2026, 8, 28))
    from_, to, above = (next(one.value for name, one in made.basis.items() if name.endswith(f"gauge/{end}")) / 1e5 for end in ("from", "to", "above"))  # fmt: skip
    edges = gauge_of(yard, trouble)
    assert edges is not None
    assert (round(edges.go[0], 6), round(edges.go[1], 6), round(edges.ask[1], 6)) == (from_, to, above)
