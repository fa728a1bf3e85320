"""Bindings of D2 and D3: how a drive stands by its findings, used and rebuilt drives."""

from __future__ import annotations

import itertools
import re
from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.forecast import Forecast, Lives, Sojourn, forecast, fresh_lives, pooled, updated, used_lives
from axlewright.engines.forecast.cases import effective_share, learned_row
from axlewright.engines.forecast.rebuilt import early_fault_left
from axlewright.plan.judge.grades import condition_words

HOUR = 3600.0
NONE: list[float] = []
NO_ROWS = np.empty((0, 4))


def numbers(text: str) -> list[float]:
    return [float(n) for n in re.findall(r"(?<![\w.])\d+(?:\.\d+)?", text)]


def law(text: str) -> Sojourn:
    """`Weibull shape 2, median 5500 h` or `lognormal median 900 h, sigma_ln 0.7`."""
    one, other = numbers(text)
    if text.startswith("Weibull"):
        return Sojourn("weibull", other * HOUR, one)
    return Sojourn("lognormal", one * HOUR, other)


def lives(i: dict[str, Any]) -> Lives:
    unit = numbers(i["unit_factor"])[-1]
    return Lives(law(i["sound"]), law(i["wearing"]), law(i["failing"]), unit)


def exponential(means_h: list[float]) -> Lives:
    """Exponential sojourns: a Weibull of shape 1, whose median is ln 2 times its mean."""
    sound, wearing, failing = (Sojourn("weibull", mean * HOUR * np.log(2), 1.0) for mean in means_h)
    return Lives(sound, wearing, failing, 0.0)


def hours(values: Any) -> Any:
    return np.asarray(values, float) * HOUR


def found(of: Lives, findings: list[dict[str, Any]], ahead_h: list[float]) -> Forecast:
    """The forecast at the hour of the last finding."""
    at = hours([f["h"] for f in findings])
    now = float(at.max())
    return forecast(of, now, now - at, np.array([f["likelihood"] for f in findings]), hours(ahead_h))


@binds("exponential-sojourns-prior")
def exponential_prior(i: dict[str, Any]) -> dict[str, Any]:
    at = hours(i["at_h"])
    return {"p": forecast(exponential(i["mean_sojourn_h"]), 0.0, NONE, NO_ROWS, at, carries=False).chance.tolist()}


@binds("equal-exponential-sojourns-poisson")
def equal_exponential(i: dict[str, Any]) -> dict[str, Any]:
    of = exponential(i["mean_sojourn_h"])
    return {"p": forecast(of, hours(i["at_h"]), NONE, NO_ROWS, [0.0], carries=False).chance[0].tolist()}


@binds("discretised-chain-forward-backward")
def forward_backward(i: dict[str, Any]) -> dict[str, Any]:
    of, at = exponential(i["mean_sojourn_h"]), hours(i["steps"]) * i["step_h"]
    rows = np.array(i["table"]).T[i["grade"]]
    now, back = float(at.max()), float(at.max() - at[1])
    filtered = forecast(of, now, now - at, rows, [0.0], carries=False)
    # the chain of the check lets a drive that has let go be looked at too
    evidence_with = [
        float(forecast(of, now, np.append(now - at, back), np.vstack([rows, one]), [0.0], carries=False).log_evidence)
        for one in np.eye(4)
    ]
    smoothed = np.exp(np.array(evidence_with) - max(evidence_with))
    return {
        "filtered_120": filtered.chance[0].tolist(),
        "smoothed_100": (smoothed / smoothed.sum()).tolist(),
        "log_evidence": float(filtered.log_evidence),
    }


@binds("class-default-prior-predictive")
def class_default(i: dict[str, Any]) -> dict[str, Any]:
    return {"p": forecast(lives(i), 0.0, NONE, NO_ROWS, hours(i["at_h"]), carries=False).chance.tolist()}


@binds("still-carrying-is-evidence")
def still_carrying(i: dict[str, Any]) -> dict[str, Any]:
    return {"p": forecast(lives(i), hours(i["alive_at_h"]), NONE, NO_ROWS, hours(i["ahead_h"])).chance.tolist()}


@binds("clean-then-flakes")
def clean_then_flakes(i: dict[str, Any]) -> dict[str, Any]:
    return {"p": found(lives(i), i["findings"], i["ahead_h"]).chance.tolist()}


@binds("perfect-findings-collapse")
def perfect(i: dict[str, Any]) -> dict[str, Any]:
    got = found(lives(i), i["findings"], i["ahead_h"])
    return {
        "p_now": got.chance[0].tolist(),
        "let_go_50": got.chance[1, 3],
        "let_go_100": got.chance[2, 3],
        "no_nan": bool(np.isfinite(got.chance).all() and np.isfinite(got.log_evidence)),
    }


@binds("order-of-entry-and-flat-findings")
def order_of_entry(i: dict[str, Any]) -> dict[str, Any]:
    from checks.bindings import checks

    base = next(c for c in checks() if c["id"] == i["base"])["inputs"]
    of, findings = lives(base), base["findings"]
    first = found(of, findings, base["ahead_h"]).chance
    least = 0.0
    for order in itertools.permutations(range(len(findings))):
        for scale in i["scale"]:
            shuffled = [
                {"h": findings[n]["h"], "likelihood": [scale * p for p in findings[n]["likelihood"]]} for n in order
            ]
            flat = [{"h": 500.0 * n, "likelihood": [0.7] * 4} for n in range(1, i["flat_rows"] + 1)]
            for several in (shuffled, shuffled + flat, flat + shuffled):
                least = max(least, float(np.abs(found(of, several, base["ahead_h"]).chance - first).max()))
    return {"max_difference": least}


@binds("two-findings-one-instant-by-hand")
def one_instant(i: dict[str, Any]) -> dict[str, Any]:
    return {"p": updated(np.array(i["prior"]), np.array([i["flakes"], i["rock_beyond"]])).tolist()}


@binds("effective-sample-size-two-classes")
def effective(i: dict[str, Any]) -> dict[str, Any]:
    return {"ess_over_n": float(effective_share(np.array(i["weight"]), np.array(i["share"])))}


@binds("dirichlet-update-of-a-table-row")
def dirichlet(i: dict[str, Any]) -> dict[str, Any]:
    return {"row_new": learned_row(np.array(i["row"]), i["worth"], i["counts"]).tolist()}


@binds("forecast-invariants")
def invariants(i: dict[str, Any]) -> dict[str, Any]:
    rng = np.random.default_rng(20)
    of = Lives(
        Sojourn("weibull", 5500 * HOUR, 2.0), Sojourn("lognormal", 900 * HOUR, 0.7), Sojourn("lognormal", 90 * HOUR, 0.9), 0.35
    )  # fmt: skip
    worst, monotone, finite = 0.0, True, True
    for _ in range(i["random_cases"]):
        many, now = int(rng.integers(0, i["max_findings"] + 1)), float(rng.uniform(50, 9000) * HOUR)
        rows = np.maximum(rng.random((many, 4)) ** rng.uniform(1, 20), 1e-6)
        got = forecast(of, now, rng.uniform(0, now, many), rows, np.linspace(0, 600, 9) * HOUR).chance
        finite &= bool(np.isfinite(got).all())
        monotone &= bool((np.diff(got[:, 3]) >= -1e-12).all() and (np.diff(got[:, 0]) <= 1e-12).all())
        worst = max(worst, float(np.abs(got.sum(axis=1) - 1).max()))
    return {"sum": 1.0 + worst, "monotone": monotone, "finite": finite}


@binds("simulated-fleet-is-calibrated")
def fleet(i: dict[str, Any]) -> dict[str, Any]:
    """Drives drawn from the class, looked at, forecast; then held against what became of them."""
    rng, of = np.random.default_rng(1), lives(i)
    true = fresh_lives(of, rng.random((i["units"], 4)))
    low, high = numbers(i["now_h"])[:2]
    now = rng.uniform(low, high, i["units"]) * HOUR
    share_ago = np.array([0.0, 2.0, 10.0, 20.0, 35.0, 50.0]) / 100
    tables = [np.array(i[name]) for name in ("plug", "rock")]
    horizons = hours([100, 200, 400])
    marks, chances, outcomes = [], [], []
    for n in np.flatnonzero(true.lets_go > now):
        ago = now[n] * share_ago
        hour, left = now[n] - ago, true.lets_go[n] - now[n]
        condition = (hour >= true.wears[n]).astype(int) + (hour >= true.fails[n])
        looked = [tables[k] for k in rng.integers(0, 2, len(ago))]
        rows = [t[:, rng.choice(t.shape[1], p=t[c])] for t, c in zip(looked, condition, strict=True)]
        # coarser than a sheet's: errs by 3e-3 at worst and 5e-5 in the mean, for a fifth of the time
        let_go = forecast(of, now[n], ago, np.array(rows), [*horizons, left], nodes=5, fineness=2.4).chance[:, 3]
        marks.append(let_go[3])
        chances.append(let_go[:3])
        outcomes.append(left <= horizons)
    return scores(np.array(marks), np.array(chances), np.array(outcomes, float))


def scores(marks: Any, chances: Any, outcomes: Any) -> dict[str, Any]:
    from scipy.stats import kstest

    z = (outcomes - chances).sum(axis=0) / np.sqrt((chances * (1 - chances)).sum(axis=0))
    tenths = np.array_split(np.argsort(chances[:, 1]), 10)
    error = sum(len(t) * abs(chances[t, 1].mean() - outcomes[t, 1].mean()) for t in tenths) / len(chances)
    return {
        "pit_ks_p_min": float(kstest(marks, "uniform").pvalue),
        "coverage_80": float(((marks > 0.1) & (marks < 0.9)).mean()),
        "ece_let_go_200h_max": float(error),
        "z_total_max": float(np.abs(z).max()),
    }


@binds("used-unit-unknown-hours")
def used_hours_unknown(i: dict[str, Any]) -> dict[str, Any]:
    """The age law speaks of drives on offer: each age counts by its own weight, however few come so far."""
    median, sigma = numbers(i["age_h"])
    nodes, weights = np.polynomial.hermite_e.hermegauss(11)
    ages = median * HOUR * np.exp(sigma * nodes)
    got = forecast(lives(i), ages, NONE, NO_ROWS, hours(i["ahead_h"]))
    return {"p": pooled(Forecast(got.chance, np.zeros(len(ages))), weights).tolist()}


@binds("early-failure-share-fades")
def early_failures(i: dict[str, Any]) -> dict[str, Any]:
    return {"share_left": early_fault_left(i["share"], i["mean_h"] * HOUR, hours(i["after_h"])).tolist()}


def class_of(text: str) -> Lives:
    """The laws of a class said in one line: `sound Weibull shape 2, median 5500 h; wearing lognormal 900 h, 0.7; ...`."""
    sound, wearing, failing, unit = text.split("; ")
    return lives({"sound": sound.removeprefix("sound "), "wearing": wearing, "failing": failing, "unit_factor": unit})


def alone(i: dict[str, Any], ahead_h: list[float]) -> list[Any]:
    """The forecast after each grade alone."""
    of = class_of(i["class_default"])
    now, ago = i["now_h"] * HOUR, (i["now_h"] - i["look_h"]) * HOUR
    return [forecast(of, now, [ago], np.array([row]), hours(ahead_h)).chance for row in i["likelihood"]]


@binds("forecast-order-of-plug-grades", "forecast-order-of-rock-grades")
def order_of_grades(i: dict[str, Any]) -> dict[str, Any]:
    found = alone(i, [0, i["ahead_h"]])
    sound, let_go = [f[0, 0] for f in found], [f[1, 3] for f in found]
    falls = [n for n in range(1, len(sound)) if not sound[n] < sound[n - 1]]
    return {
        "sound_now": sound,
        "let_go_100": let_go,
        "sound_strictly_falls_to": i["grades"][falls[0] - 1 if falls else -1],
        "let_go_never_falls": bool((np.diff(let_go) >= -1e-12).all()),
    }


@binds("chips-with-rock-none-is-failing", "clean-plug-after-chips-clears-nothing")
def proof(i: dict[str, Any]) -> dict[str, Any]:
    chance = found(class_of(i["class_default"]), i["findings"], i["ahead_h"]).chance
    return {
        "p_now": chance[0].tolist(),
        **{f"let_go_{h}": chance[n, 3] for n, h in enumerate(i["ahead_h"]) if h},
        "word": condition_words([("plug", "chips"), ("rock", "none")]),
    }


@binds("chips-and-rock-none-by-hand")
def chips_by_hand(i: dict[str, Any]) -> dict[str, Any]:
    return {"p": updated(np.array(i["prior"]), np.array([i["chips"], i["rock_none"]], float)).tolist()}


@binds("used-drive-let-go-within-300-h")
def used_within_300(i: dict[str, Any]) -> dict[str, Any]:
    """Lives drawn from the mixture; laws and hours as used-unit-unknown-hours has them."""
    from checks.bindings import checks
    from scipy.special import ndtri
    from scipy.stats import qmc

    base = next(c for c in checks() if c["id"] == "used-unit-unknown-hours")["inputs"]
    median, sigma = numbers(base["age_h"])
    ages = median * HOUR * np.exp(sigma * ndtri((np.arange(40) + 0.5) / 40))
    shares = qmc.Sobol(7, seed=3).random(2**15)
    drawn = [used_lives(lives(base), ages, bad, shares).lets_go for bad in i["share_bad"]]
    return {"let_go_300": [float((times <= 300 * HOUR).mean()) for times in drawn]}
