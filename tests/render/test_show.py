"""Numbers and dates as words: rounding the safe way, units, ranges, the same number in both measures."""

from __future__ import annotations

import datetime
import re
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.quantities.units import unit_for
from axlewright.render.face import widths
from axlewright.render.show import SIGNS, Show, Span, Toward, Words, places_for, rounded, show_of, sign
from axlewright.sheets import BasisEntry, Day, Run, Shown, text
from axlewright.yard import Title
from render.packs import BASIS, CLOCK, LOAD, PRICE, TORQUE, strong

SPACE = "\u202f"
METRIC, US = Words(Show(), BASIS), Words(Show(measures="us"), BASIS)


def entry(kind: str, basis: Literal["book", "measured", "computed", "assumed"] = "computed") -> dict[str, BasisEntry]:
    return {"n": BasisEntry(name="n", kind=kind, value=1.0, basis=basis, source="by hand")}


def read(said: str) -> float:
    """The first number of some words, read without our own parser."""
    found = re.search(r"[−-]?[\d\u202f]+(?:[.,]\d+)?", said)
    assert found is not None
    return float(found[0].replace(SPACE, "").replace("−", "-").replace(",", "."))


def test_a_number_has_its_range_unit_and_basis() -> None:
    assert METRIC.spans(text(TORQUE)) == (Span("plain", "383 (331 to\u00a0447)\u00a0N·m"), Span("basis", "\u00a0cp"))


def test_what_may_be_asked_of_a_part_is_rounded_down_in_the_unit_shown() -> None:
    # 390 N m = 287.65 lbf ft (1 lbf ft = 1.3558179 N m exactly by definition of pound, foot and standard gravity)
    shown = Shown(name="n", si=390.0, toward="down")
    assert Words(Show(measures="us"), entry("torque")).plain(text(shown)).startswith("287\u00a0lbf·ft")
    up = shown.model_copy(update={"toward": "up"})
    assert Words(Show(measures="us"), entry("torque")).plain(text(up)).startswith("288\u00a0lbf·ft")


def test_a_value_frozen_to_six_digits_stays_on_its_step() -> None:
    # 100 lbf ft is 135.58179 N m; frozen it is 135.582, a hair more, and must not become 101
    shown = Shown(name="n", si=135.582, toward="up")
    assert Words(Show(measures="us"), entry("torque")).plain(text(shown)).startswith("100")


def test_a_clock_keeps_its_hours_whole_whatever_the_measures() -> None:
    assert METRIC.plain(text(CLOCK)) == f"4{SPACE}748\u00a0h"
    assert US.plain(text(CLOCK)) == METRIC.plain(text(CLOCK))


def test_money_stands_behind_its_sign() -> None:
    assert METRIC.plain(text(PRICE)) == f"€{SPACE}5{SPACE}150\u00a0bk"
    assert Words(Show(currency="kr"), BASIS).plain(text(PRICE)).startswith(f"kr{SPACE}5")


def test_decimal_comma() -> None:
    shown = Shown(name="n", si=7431.0, digits=2)
    assert Words(Show(decimal=","), entry("mass")).plain(text(shown)) == "7,4\u00a0t\u00a0cp"


@pytest.mark.parametrize(("basis", "said"), [("book", "0.5\u00a0t"), ("computed", "0.500\u00a0t")])
def test_zeros_at_the_end_are_only_said_of_what_was_computed(basis: Literal["book", "computed"], said: str) -> None:
    shown = Shown(name="n", si=500.0, on_tool="t", with_basis=False)
    assert Words(Show(), entry("mass", basis)).plain(text(shown)) == said


def test_a_name_without_a_basis_is_refused() -> None:
    with pytest.raises(LookupError, match="nowhere"):
        METRIC.plain(text(Shown(name="nowhere", si=1.0)))


@pytest.mark.parametrize(
    ("show", "today", "said"),
    [
        (Show(), datetime.date(2026, 8, 28), "1\u00a0Sep"),
        (Show(), datetime.date(2025, 12, 30), "1\u00a0Sep\u00a02026"),
        (Show(measures="us"), datetime.date(2026, 8, 28), "Sep\u00a01"),
        (Show(measures="us"), None, "Sep\u00a01, 2026"),
    ],
)
def test_dates(show: Show, today: datetime.date | None, said: str) -> None:
    assert Words(show, {}, today).plain(text(Day(on=datetime.date(2026, 9, 1)))) == said


def test_voices_carry_over_numbers_but_not_over_the_basis() -> None:
    spans = METRIC.spans(text("on ", strong("the jack ", LOAD), Run(voice="must", words=("!",))))
    assert [span.voice for span in spans] == ["plain", "strong", "basis", "must"]
    assert spans[1].words == "the jack 7.5\u00a0t"


def test_a_deciding_number_parts_its_unit() -> None:
    assert [span.voice for span in METRIC.large(text(TORQUE))] == ["plain", "unit", "basis"]
    assert METRIC.large(text(TORQUE))[0].words == "383"


@given(
    st.floats(-1e9, 1e9).filter(lambda x: abs(x) > 1e-6),
    st.integers(1, 6),
    st.sampled_from(["nearest", "down", "up"]),
)
def test_rounding_keeps_its_side_and_its_step(number: float, digits: int, toward: Toward) -> None:
    places = places_for(number, digits)
    cut = rounded(number, places, toward)
    step = 10.0**-places
    slack = 1e-5 * abs(number)  # half a unit of the sixth digit
    assert abs(cut - number) <= step + slack
    if toward == "down":
        assert cut <= number + slack
    if toward == "up":
        assert cut >= number - slack
    if toward == "nearest":
        assert abs(cut - number) <= step / 2 + slack


@given(
    st.sampled_from(["torque", "mass", "length", "force", "pressure", "volume", "temperature"]),
    st.floats(0.05, 2e5),
    st.sampled_from(["nearest", "down", "up"]),
    st.sampled_from([".", ","]),
)
def test_the_same_number_in_metric_and_us(kind: str, si: float, toward: Toward, decimal: Literal[".", ","]) -> None:
    shown = Shown(name="n", si=si, digits=4, toward=toward, with_basis=False)
    read_back = []
    for measures in ("metric", "us"):
        unit = unit_for(kind, measures, si)  # type: ignore[arg-type]
        show = Show(measures=measures, decimal=decimal)  # type: ignore[arg-type]
        said = Words(show, entry(kind)).plain(text(shown))
        assert said.endswith(unit.symbol)
        places = places_for(unit.from_si(si), 4)
        number = unit.to_si(read(said))
        assert abs(number - si) <= unit.factor * 10.0**-places * 1.01 + 2e-5 * abs(si)
        read_back.append(number)
    assert abs(read_back[0] - read_back[1]) <= 5e-3 * max(abs(si), 1.0) * (300 if kind == "temperature" else 1)


@pytest.mark.parametrize(
    ("show", "with_year", "without"),
    [
        (Show(), "28\u00a0Aug\u00a02026", "28\u00a0Aug"),
        (Show(measures="us"), "Aug\u00a028, 2026", "Aug\u00a028"),
        (Show(measures="us", dates="day month"), "28\u00a0Aug\u00a02026", "28\u00a0Aug"),
        (Show(dates="month day"), "Aug\u00a028, 2026", "Aug\u00a028"),
        (Show(dates="ISO"), "2026-08-28", "2026-08-28"),  # ISO 8601: a date is whole
    ],
)
def test_a_date_is_written_as_was_chosen_whatever_the_measures(show: Show, with_year: str, without: str) -> None:
    on = datetime.date(2026, 8, 28)
    assert Words(show).day(on) == with_year
    assert Words(show, today=datetime.date(2026, 1, 1)).day(on) == without


def test_a_yards_likes_are_its_show() -> None:
    title = Title(name="Long Acre", measures="us", currency="GBP", paper="Letter", decimal=",", dates="ISO")
    assert show_of(title) == Show("us", ",", "Letter", currency="£", dates="ISO")


def test_a_currency_is_written_by_its_sign_or_as_it_was_typed() -> None:
    assert [sign(said) for said in ("eur", "CHF", "R$", "AUD")] == ["€", "CHF", "R$", "AUD"]


def test_the_sheet_face_has_every_sign_that_stands_for_a_code() -> None:
    assert all(ord(letter) in widths() for said in SIGNS.values() for letter in said)


def test_each_side_reads_its_own_trade_words() -> None:
    words = ("Tyres cold. The tyre’s spigot; a pilot bore; greyer",)
    assert Words(Show()).plain(words) == words[0]
    assert Words(Show(measures="us")).plain(words) == "Tires cold. The tire’s pilot; a pilot bore; greyer"


def test_ends_that_cannot_be_told_from_the_middle_are_not_written() -> None:
    exact = Words(Show(), entry("torque", "book"))
    assert exact.plain(text(Shown(name="n", si=563.0, low=563.0, high=563.0))) == "563\u00a0N·m\u00a0bk"
    assert "(562.9" not in exact.plain(text(Shown(name="n", si=563.0, low=562.9, high=563.2)))
    assert "(562 to" in exact.plain(text(Shown(name="n", si=563.0, low=562.4, high=563.2)))  # never narrower than it is


def test_a_middle_far_inside_its_ends_is_told_no_finer_than_they_are() -> None:
    about = Words(Show(), entry("length"))
    said = about.plain(text(Shown(name="n", si=0.000163, low=-0.099438, high=0.097351, with_basis=False)))
    low, high = said.split("(")[1].rstrip(")\u00a0m").split(" to\u00a0")
    assert float(low.replace("−", "-")) <= -99.438
    assert float(high) >= 97.351
    assert "." not in said


@pytest.mark.parametrize(("mm", "us"), [("25", "1"), ("2", "0.08"), ("10", "0.4"), ("50", "2")])
def test_round_lengths_of_words_are_round_in_both_measures(mm: str, us: str) -> None:
    name = f"said/{mm}-mm"
    basis = {name: BasisEntry(name=name, kind="length", value=float(mm) / 1e3, basis="assumed", source="words")}
    shown = text(Shown(name=name, si=float(mm) / 1e3, digits=2, with_basis=False))
    assert Words(Show(), basis).plain(shown) == f"{mm}\u00a0mm"
    assert Words(Show(measures="us"), basis).plain(shown) == f"{us}\u00a0in"


def test_two_loads_that_differ_by_a_twelfth_do_not_read_alike_in_pounds() -> None:
    """66 kN and 61 kN are 14 837 lbf and 13 713 lbf (1 lbf = 4.4482216152605 N): both 14 000 to two digits."""
    basis = entry("force")
    held, asked = (
        Words(Show(measures="us"), basis).plain(text(Shown(name="n", si=si, digits=2, with_basis=False)))
        for si in (66e3, 61e3)
    )
    assert (held, asked) == ("14\u202f800\u00a0lbf", "13\u202f700\u00a0lbf")
    assert Words(Show(), basis).plain(text(Shown(name="n", si=66e3, digits=2, with_basis=False))) == "66\u00a0kN"
