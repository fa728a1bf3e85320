"""The order of records in a picture: by what they say, and the same however a change was put in."""

from __future__ import annotations

import random

from hypothesis import given
from hypothesis import strategies as st
from yard.made import whole, yards

from axlewright.yard import Change, Record, Yard


def slowly(yard: Yard, new: tuple[Record, ...]) -> Yard:
    """The picture after a change, made anew from all records."""
    latest = {(r.what, r.id): r for r in new if not r.adds}
    stay = [r for r in yard.records if (r.what, r.id) not in latest]
    return Yard.of([*stay, *latest.values(), *(r for r in new if r.adds)], yard.seen)


@given(yards(), yards(), st.randoms(use_true_random=False))
def test_put_in_place_is_put_in_order(before: Yard, after: Yard, chance: random.Random) -> None:
    """Records of another yard over one with some of the same ids, a part at a time."""
    mixed = list(after.records)
    chance.shuffle(mixed)
    cut = chance.randrange(len(mixed) + 1)
    yard = before
    for part in (tuple(mixed[:cut]), tuple(mixed[cut:])):
        wanted = slowly(yard, yard.fresh(Change(part)).records)
        yard = yard.with_(Change(part))
        assert yard == wanted


@given(yards(), st.randoms(use_true_random=False))
def test_the_order_in_which_they_come_is_forgotten(yard: Yard, chance: random.Random) -> None:
    twice = [one.model_copy(update={"who": f"{one.who} too"}) for one in yard.records if one.adds]  # second readings
    mixed = [*yard.records, *twice]
    chance.shuffle(mixed)
    assert Yard.of(mixed) == Yard.of([*yard.records, *twice])


@given(yards())
def test_each_sort_stands_where_it_is_looked_for(yard: Yard) -> None:
    for record in yard.records:
        assert record in yard.sort(record.what) or record in yard.gone
    assert yard.fresh(whole(yard)).records == ()
