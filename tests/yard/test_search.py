"""A drive is found by anything written on it, however it is typed."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.yard import Corner, Drive, Machine, Title, Trouble, Yard
from axlewright.yard.search import plain, search

YARD = Yard.of(
    [
        Title(name="Long Acre"),
        Machine(id="linnet", name="Linnet", corners=("front-left", "front-right")),
        Drive(id="left", name="Linnet left", numbers=("cast 40-7", "tag 3110"), sits=Corner("linnet", "front-left")),
        Drive(id="spare", name="broad spare", numbers=("A1-0053 B",), sits="shelf", note="From a breaker, blue paint"),
        Trouble(id="3", number=3, corner=Corner("linnet", "front-left"), opened="2026-08-01"),
    ]
)


def found(said: str, *, guess: bool = False) -> list[str]:
    return [hit.id for hit in search(YARD, said, ["3f9a01c2d4e5b6a7"]) if hit.guess == guess]


@pytest.mark.parametrize(
    ("said", "drive"),
    [
        ("cast 40-7", "left"),
        ("40-7", "left"),
        ("407", "left"),
        ("CAST  40 7", "left"),
        ("3110", "left"),
        ("tag 3110", "left"),
        ("311", "left"),
        ("110", "left"),
        ("a10053b", "spare"),
        ("a1 0053", "spare"),
        ("broad", "spare"),
        ("blue paint", "spare"),
        ("linnet left", "left"),
        ("left linnet", "left"),
        ("trouble 3", "3"),
        ("3", "3"),
        ("Linnet", "linnet"),
        ("3f9a01", "3f9a01c2d4e5b6a7"),
    ],
)
def test_by_any_number_or_word_on_it(said: str, drive: str) -> None:
    assert drive in found(said)


@pytest.mark.parametrize("said", ["4O7", "cast 4O-7", "311O", "3IlO", "tag 3l1o"])
def test_letters_for_digits_are_offered_as_a_guess(said: str) -> None:
    assert "left" in found(said, guess=True)
    assert "left" not in found(said)


@pytest.mark.parametrize(("said", "drive"), [("Lynnet", "linnet"), ("brod spare", "spare")])
def test_another_spelling_is_offered(said: str, drive: str) -> None:
    assert drive in found(said, guess=True)


@pytest.mark.parametrize("said", ["", "  ", "-", "zzzz", "999999", "'; DROP TABLE drive; --", "%"])
def test_nothing_is_found_where_nothing_fits(said: str) -> None:
    assert search(YARD, said) == ()


def test_the_whole_number_comes_first() -> None:
    more = Drive(id="other", name="other", numbers=("31105",), sits="shelf")
    yard = Yard.of([*YARD.records, more])
    assert [hit.id for hit in search(yard, "3110")][:2] == ["left", "other"]


@settings(max_examples=60)
@given(st.text(max_size=30), st.integers(0, 3))
def test_whatever_is_written_finds_its_drive(number: str, drop: int) -> None:
    """What stands on it finds it, whatever else was typed between its letters."""
    written = "".join(sign for sign in number if sign.isprintable()).strip()
    if not plain(written):
        return
    one = Drive(id="one", name="the one", numbers=(written,), sits="shelf")
    yard = Yard.of([Title(name="Y"), one])
    spread = " - ".join(written) if drop else written.upper()
    hits = [hit.id for hit in search(yard, written)] + [hit.id for hit in search(yard, spread)]
    assert hits.count("one") == 2
