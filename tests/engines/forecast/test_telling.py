"""Which finding says most and whether they fit: each left out by hand, and planted contradictions."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from engines.forecast.drives import CLEAN, FLAKES, HOUR, NO_ROWS, NONE, a_class

from axlewright.engines.forecast import Sojourn, forecast, what_speaks
from axlewright.engines.limits import OutOfRange

NOW, BY = 4000 * HOUR, 100 * HOUR
SURELY_SOUND = np.array([1.0, 1e-8, 1e-8, 1e-8])
SURELY_FAILING = np.array([1e-8, 1e-8, 1.0, 1.0])


def test_the_finding_named_is_the_one_whose_loss_moves_most() -> None:
    ago = np.array([600.0, 300, 80, 0]) * HOUR
    rows = np.array([CLEAN, [0.3, 0.3, 0.3, 0.3], FLAKES, [0.5, 0.4, 0.3, 0.2]])
    told = what_speaks(a_class(), NOW, ago, rows, BY)
    by_hand = []
    for n in range(4):
        kept = [m for m in range(4) if m != n]
        by_hand.append(float(forecast(a_class(), NOW, ago[kept], rows[kept], [BY]).chance[0, 3]))
    np.testing.assert_allclose(told.without, by_hand)
    assert told.most == 2
    assert told.ratio[1] == pytest.approx(1)
    assert told.ratio[2] > 1 > told.ratio[0]
    odds = told.let_go / (1 - told.let_go)
    assert told.ratio[2] == pytest.approx(odds / (by_hand[2] / (1 - by_hand[2])))
    assert told.fits


def test_findings_that_contradict_one_another_are_called_out() -> None:
    """Surely failing, later surely sound: the chain never goes back, so one of them is wrong."""
    told = what_speaks(a_class(), NOW, np.array([500.0, 10.0]) * HOUR, np.array([SURELY_FAILING, SURELY_SOUND]), BY)
    assert not told.fits
    assert told.support[int(told.most)] < -3  # one in twenty


def test_the_odd_one_out_is_the_suspect() -> None:
    rows = np.array([SURELY_SOUND, SURELY_SOUND, SURELY_FAILING, SURELY_SOUND])
    told = what_speaks(a_class(), NOW, np.array([900.0, 400, 300, 5]) * HOUR, rows, BY)
    assert not told.fits
    assert told.suspect == 2


def test_findings_that_agree_support_one_another() -> None:
    told = what_speaks(a_class(), NOW, np.array([60.0, 30.0]) * HOUR, np.array([FLAKES, FLAKES]), BY)
    assert told.fits
    assert (told.support > 0).all()


def test_nothing_seen_says_nothing() -> None:
    told = what_speaks(a_class(), NOW, NONE, NO_ROWS, BY)
    assert (told.most, told.suspect, told.fit, told.fits) == (-1, -1, 0, True)
    alone = what_speaks(a_class(), NOW, [0.0], [FLAKES], BY)
    assert (alone.most, alone.suspect, alone.fits) == (0, -1, True)
    assert alone.fit == pytest.approx(0, abs=1e-9)


def test_draws_of_a_law_are_refused() -> None:
    two = replace(a_class(), sound=Sojourn("weibull", np.array([4.0, 5.0]) * 1000 * HOUR, 2.0))
    with pytest.raises(OutOfRange, match="one law, not draws"):
        what_speaks(two, NOW, [0.0], [FLAKES], BY)
