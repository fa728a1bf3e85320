"""Bindings of the choice: courses, looks, checks, offers, dates (E2 to E6)."""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.forecast.sojourns import Sojourn, sojourn_survival
from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import (
    Choice,
    Common,
    CourseResult,
    Crop,
    FieldClock,
    Job,
    Jobs,
    Ledger,
    Life,
    Outcome,
    Prices,
    Replacement,
    best_order,
    compare,
    cost_of,
    field_clock,
    finish,
    interval,
    money,
    run_course,
    safe_enough,
    standard_courses,
    untroubled,
)
from axlewright.engines.season import next as looks
from axlewright.engines.season._clock import moment_of
from axlewright.engines.season.offer import most_worth
from axlewright.engines.season.work import loss_by_delay
from axlewright.plan.judge import Seen, judge_corner
from axlewright.plan.judge.courses import Stop, course_stop, unsafe_stop
from axlewright.plan.steps.schedule import schedule
from axlewright.trade.choice import numbers

DAY, HOUR, HA = 86400.0, 3600.0, 1e4
NONE = Job(0.0, 0.0)
FREE = Prices(*([0.0] * 14), crop=np.zeros(1))


# --- E2: courses ---


def season_of(i: dict[str, Any]) -> tuple[FieldClock, Prices]:
    """The season of the hand values: the loss of a day grows by 4 a hectare from the fourth on, of a worth of 1000."""
    crop = Crop(
        i["area_ha"] * HA, i["rate_ha_per_h"] * HA / HOUR, loss=4 / i["value_per_ha"] / DAY, grace=4 * DAY, most=1.0
    )
    clock = field_clock((crop,), np.full((1, 60), i["hours_per_day"] * HOUR))
    prices = replace(FREE, crop=np.array([i["value_per_ha"] / HA]))
    if "tow" in i:
        prices = replace(
            prices,
            tow=i["tow"],
            extra_parts=i["extra_parts"],
            damage=i["secondary_damage"],
            used=i["used_unit"],
            labour=i["wage"] / HOUR,
            rebuild=i.get("winter_rebuild", 0.0),
        )
    return clock, prices


def trouble_of(i: dict[str, Any], lead: float) -> Common:
    drive = Replacement(0.0, Life(), Life())
    swap = Job(0.0, i["hours_own"] * HOUR)
    return Common(
        fitted=Life(i["lets_go_at_h"] * HOUR, i["lets_go_at_h"] * HOUR), resealed=Life(),
        spare=replace(drive, lead=np.inf), used=replace(drive, lead=lead * DAY), exchange=drive, rebuilt=drive,
        jobs=Jobs(swap, swap, NONE, NONE), hire_lead=np.inf, kit_lead=0.0, road=0.0, damage=1.0,
        unsafe_field=0.0, unsafe_road=0.0, seen=0.5, honoured=0.5,
    )  # fmt: skip


def told(clock: FieldClock, prices: Prices, outcome: Outcome) -> dict[str, Any]:
    total = float(np.asarray(cost_of(outcome.season, prices))[0])
    waiting = float((np.asarray(outcome.season.delayed) * prices.crop).sum())
    return {
        "finish_day": float(np.asarray(outcome.finish)[0]) / DAY,
        "days_lost": float(np.asarray(outcome.lost)[0]) / DAY,
        "delay_cost": waiting,
        "cash": total - waiting,
        "total": total,
        "field_failures": float(np.asarray(outcome.failed)[0]),
    }


@binds("season-no-trouble")
def season_no_trouble(i: dict[str, Any]) -> dict[str, Any]:
    clock, prices = season_of(i)
    return told(clock, prices, untroubled(clock))


@binds("season-run-lets-go")
def season_run(i: dict[str, Any]) -> dict[str, Any]:
    clock, prices = season_of(i)
    common = trouble_of(i, i["downtime_days"])
    (outcome,) = run_course(clock, common, standard_courses(common, ("run",))[0])
    stop = moment_of(clock.worked, clock.day, np.array([i["lets_go_at_h"] * HOUR]), np.array([0]))
    return told(clock, prices, outcome) | {"failure_day": float(stop[0]) / DAY}


@binds("season-used-unit-now")
def season_used(i: dict[str, Any]) -> dict[str, Any]:
    clock, prices = season_of(i)
    common = trouble_of(i, i["ready_day"])
    (outcome,) = run_course(clock, common, standard_courses(common, ("fit a used drive",))[0])
    return told(clock, prices, outcome)


def plain_outcome(name: str, costs: list[float], unsafe: float = 0.0) -> tuple[Outcome, ...]:
    """A course that does nothing but cost: so many tows at 1 each."""
    cost, nothing = np.array(costs, float), np.zeros(len(costs))
    season = Ledger(tows=cost)
    return (
        Outcome(name, 0, Ledger(), season, nothing, nothing, nothing, nothing, nothing + unsafe, Life(), nothing, nothing),
    )  # fmt: skip


ONE_A_TOW = replace(FREE, tow=1.0)


@binds("hindsight-best-is-not-best")
def hindsight(i: dict[str, Any]) -> dict[str, Any]:
    weights = [chance for _, chance in i["run"]]
    run = [cost for cost, _ in i["run"]]
    used = [i["used"][0][0]] * len(run)
    free = plain_outcome("free", [0.0] * len(run))[0]
    choice = compare(
        (plain_outcome("run", run), plain_outcome("used", used)), ONE_A_TOW, free, weights=np.array(weights)
    )
    one, two = choice.results
    return {
        "mean_run": one.mean, "mean_used": two.mean, "share_run_cheapest": one.cheapest, "regret_run": one.regret,
        "regret_used": two.regret, "evpi": choice.perfect, "best": choice.results[choice.best].name,
    }  # fmt: skip


@binds("hard-stop")
def hard_stop(i: dict[str, Any]) -> dict[str, Any]:
    courses = i["courses"]
    may = safe_enough(np.array([c["p_unsafe"] for c in courses.values()]), i["limit_p_unsafe"])
    rows = tuple(plain_outcome(name, [c["mean"]] * 2, c["p_unsafe"]) for name, c in courses.items())
    choice = compare(rows, ONE_A_TOW, plain_outcome("free", [0.0, 0.0])[0], admitted=tuple(map(bool, may)))
    names = [f.name for kind in (Choice, CourseResult) for f in fields(kind)]
    return {
        "best": choice.results[choice.best].name,
        "shown_struck_out": [name for name, fits in zip(courses, may, strict=True) if not fits],
        "price_of_limit_shown": any("limit" in name for name in names),
    }


SHED = {"run": "run", "used": "fit a used drive", "hire": "hire out"}


@binds("money-never-admits")
def money_never_admits(i: dict[str, Any]) -> dict[str, Any]:
    """FIELD is no by a plug with pieces on it; another drive and a hired machine ask nothing of this one."""
    broken = judge_corner([Seen("plug", "pieces", 0.0)])
    assert broken.field.word == i["courses"]["run"]["field"] == "no"
    assert i["limit_p_unsafe"] == numbers().unsafe_limit
    stops = {name: course_stop(SHED[name], broken) or unsafe_stop(c["p_unsafe"]) for name, c in i["courses"].items()}
    rows = tuple(plain_outcome(name, [c["mean"]] * 2, c["p_unsafe"]) for name, c in i["courses"].items())
    free = plain_outcome("free", [0.0, 0.0])[0]
    choice = compare(rows, ONE_A_TOW, free, admitted=tuple(stop is None for stop in stops.values()))
    struck = {name: stop for name, stop in stops.items() if stop}
    names = [f.name for kind in (Choice, CourseResult, Stop) for f in fields(kind)]
    return {
        "best": choice.results[choice.best].name, "struck_out": list(struck),
        "price_of_limit_shown": any("limit" in name or "price" in name for name in names),
        "lifts_shown": all(stop.lifted_by for stop in struck.values()),
    }  # fmt: skip


@binds("run-or-fix-break-even")
def run_or_fix(i: dict[str, Any]) -> dict[str, Any]:
    run = money.cost_with_failure(i["run_cash"], i["p_fail"], i["fail_cost"])
    fix = money.cost_with_failure(i["fix_cash"], i["p_fail_fixed"], i["fail_cost"])
    chance = money.break_even_chance(i["run_cash"], i["fix_cash"], i["fail_cost"], i["p_fail_fixed"])
    return {
        "expected_run": run,
        "expected_fix": fix,
        "break_even_p": chance,
        "better": "fix" if i["p_fail"] > chance else "run",
    }


@binds("hire-net-cost")
def hire_net(i: dict[str, Any]) -> dict[str, Any]:
    area, price, own = i["area_ha"] * HA, i["rate_usd_ha"] / HA, i["own_running_cost_ha"] / HA
    waiting = loss_by_delay(i["K"] / DAY, i["wait_days"] * DAY, area, i["yield_t_ha"] * i["value_per_t"] / HA)
    bill = money.hire_cost(area, price, i["move_in_usd"], 0.0)
    return {
        "hire_bill": bill,
        "saved_own_running": bill - money.hire_cost(area, price, i["move_in_usd"], own),
        "delay_loss_while_waiting": waiting,
        "net_cost": money.hire_cost(area, price, i["move_in_usd"], own, waiting),
    }


@binds("labour-and-workshop")
def labour(i: dict[str, Any]) -> dict[str, Any]:
    hours = np.array(i["hours_low_mid_high"]) * HOUR
    wage = i["usd_h"] / HOUR
    mean = finish.three_point(*hours).mean
    return {
        "usd": money.labour_cost(i["people"], hours, wage),
        "pert_mean_usd": money.labour_cost(i["people"], mean, wage),
    }


@binds("wildcatter-risk-averse-ce")
def wildcatter_ce(i: dict[str, Any]) -> dict[str, Any]:
    revenue, cost = np.array(list(i["revenue"].values()), float), np.array(i["cost"], float)
    weights = np.outer(i["p_revenue"], i["p_cost"]).ravel()
    sure = -float(
        money.certainty_equivalent(np.subtract.outer(-revenue, -cost).ravel(), weights, float(i["risk_tolerance"]))
    )
    return {"certainty_equivalent_drill": sure, "best": "drill" if sure > 0 else "not drill"}


@binds("ce-normal")
def ce_normal(i: dict[str, Any]) -> dict[str, Any]:
    at, weights = np.polynomial.hermite_e.hermegauss(60)
    return {"ce": money.certainty_equivalent(i["mean"] + i["sd"] * at, weights, float(i["risk_tolerance"]))}


@binds("risk-tolerance-from-loss")
def tolerance(i: dict[str, Any]) -> dict[str, Any]:
    refused = []
    for chance in i["refuse_p"]:
        try:
            money.risk_tolerance(i["loss"], chance)
            refused.append(False)
        except OutOfRange:
            refused.append(True)
    return {"R": money.risk_tolerance(i["loss"], np.array(i["p"])), "refused": refused}


@binds("crn-variance-ratio")
def common_draws(i: dict[str, Any]) -> dict[str, Any]:
    return {"ratio": money.common_draws_gain(i["sd_a"], i["sd_b"], i["correlation"])}


@binds("flip-price-linear")
def flip(i: dict[str, Any]) -> dict[str, Any]:
    run, used = i["run"], i["used"]
    return {
        "flip_hire_price_per_ha": money.flip_price(
            run["other_cost"], run["hired_ha"], used["other_cost"], used["hired_ha"]
        )
    }


@binds("warranty-exponential")
def warranty(i: dict[str, Any]) -> dict[str, Any]:
    window = 500 * HOUR
    rate = i["rate_times_W"] / window
    return {
        "full_refund": money.expected_refund(rate, window),
        "pro_rata": money.expected_refund_pro_rata(rate, window),
        "limit_pro_rata_small": money.expected_refund_pro_rata(rate * 1e-9, window),
    }


@binds("shelf-spare-value")
def shelf_spare(i: dict[str, Any]) -> dict[str, Any]:
    year = 365.25 * DAY
    rates = i["rate_per_year"] / year, i["discount_continuous"] / year, i["years"] * year
    protection, resale = money.spare_protection(*rates, i["saving"]), money.spare_resale(*rates, i["resale"])
    return {"protection": protection, "resale_part": resale, "total": protection + resale}


@binds("field-failure-conditional-weibull")
def conditional_weibull(i: dict[str, Any]) -> dict[str, Any]:
    law = Sojourn("weibull", i["scale_h"] * HOUR * np.log(2) ** (1 / i["shape"]), i["shape"])
    age, season = i["age_h"] * HOUR, i["season_h"] * HOUR
    left = sojourn_survival(law, np.array([0.0, age, age + season, season]))
    return {"p": 1 - left[2] / left[1], "p_if_age_forgotten": 1 - left[3] / left[0]}


# --- E3: what to find out next ---


def costs(*rows: list[float]) -> tuple[looks.Option, ...]:
    return tuple(looks.Option(np.array(row, float)) for row in rows)


def sayings(by_state: list[list[float]]) -> tuple[looks.Saying, ...]:
    return tuple(looks.Saying(np.array(column, float)) for column in zip(*by_state, strict=True))


@binds("oil-wildcatter-evsi")
def oil_wildcatter(i: dict[str, Any]) -> dict[str, Any]:
    states = list(i["prior"])
    drill = [-i["payoff_drill"][s] for s in states]
    table = i["likelihood_ns_os_cs"]
    found = looks.worth_of_a_look(
        np.array([i["prior"][s] for s in states]),
        costs(drill, [-i["payoff_not"]] * len(states)),
        sayings([table[s] for s in states]),
    )
    free = found.worth - found.now
    return {
        "no_test": -found.now, "free_test": free, "with_test_net": free - i["test_cost"], "evsi": found.worth,
        "evpi": found.ceiling,
        "drill_after": [n for n, k in zip(("ns", "os", "cs"), found.choices, strict=True) if k == 1],
    }  # fmt: skip


@binds("drill-or-sell-evsi")
def drill_or_sell(i: dict[str, Any]) -> dict[str, Any]:
    oil, good = i["prior_oil"], i["p_favourable"]
    prior = np.array([oil, 1 - oil])
    drill, sell = [-i["payoff_drill"]["oil"], -i["payoff_drill"]["dry"]], [-i["payoff_sell"]] * 2
    likely = [[good["oil"], 1 - good["oil"]], [good["dry"], 1 - good["dry"]]]
    found = looks.worth_of_a_look(prior, costs(drill, sell), sayings(likely))
    after = prior[0] * np.array(likely[0]) / np.asarray(found.chances)
    free = found.worth - found.now
    return {
        "no_survey": -found.now, "p_favourable": found.chances[0], "post_oil_favourable": after[0],
        "post_oil_unfavourable": after[1], "free_survey": free, "evsi": found.worth, "evpi": found.ceiling,
        "net": free - i["survey_cost"],
    }  # fmt: skip


@binds("wildcatter-two-uncertainties-evppi")
def wildcatter_two(i: dict[str, Any]) -> dict[str, Any]:
    revenue, cost = np.array(list(i["revenue"].values()), float), np.array(i["cost"], float)
    weights = np.outer(i["p_revenue"], i["p_cost"])
    drill = cost[None, :] - revenue[:, None]
    known = np.repeat(np.eye(len(revenue)), len(cost), axis=0)  # the revenue is told, the cost is not
    found = looks.worth_of_a_look(
        weights.ravel(), costs(drill.ravel().tolist(), [0.0] * drill.size), sayings(known.tolist())
    )
    return {"emv": -found.now, "evppi_revenue": found.worth, "evpi_both": found.ceiling}


@binds("imperfect-test-partners")
def partners(i: dict[str, Any]) -> dict[str, Any]:
    good, wet_good, wet_bad = i["p_good_test"], i["p_wet_given_good"], i["p_wet_given_bad"]
    wet = good * wet_good + (1 - good) * wet_bad
    likely = [[good * wet_good / wet, (1 - good) * wet_bad / wet]]
    likely.append([good * (1 - wet_good) / (1 - wet), (1 - good) * (1 - wet_bad) / (1 - wet)])
    drill = [-i["payoff_wet"], -i["payoff_dry"]]
    prior = np.array([wet, 1 - wet])
    found = looks.worth_of_a_look(prior, costs(drill, [0.0, 0.0]), sayings(likely))
    after = [
        -looks.worth_of_a_look(np.array([p, 1 - p]), costs(drill), sayings([[1.0], [1.0]])).now
        for p in (wet_good, wet_bad)
    ]
    return {
        "value_after_good": after[0], "value_after_bad_if_drilled": after[1], "prior_drill": -found.now,
        "with_free_test": found.worth - found.now, "evsi": found.worth, "evpi": found.ceiling,
    }  # fmt: skip


@binds("two-option-normal-evpi-evppi-evsi")
def two_options(i: dict[str, Any]) -> dict[str, Any]:
    both = float(np.hypot(i["sd_p1"], i["sd_p2"]))
    out = {
        "evpi": looks.difference_known(i["mean"], both),
        "evppi_p1": looks.difference_known(i["mean"], i["sd_p1"]),
    }
    for n in i["n"]:
        out[f"evsi_n{n}"] = looks.difference_known(i["mean"], looks.spread_told(i["sd_p1"], 1.0, n))
    return out


@binds("debris-plug-evsi")
def debris_plug(i: dict[str, Any]) -> dict[str, Any]:
    names = list(i["cost"])
    prior = np.array(list(i["prior"].values()))
    table = i["likelihood_debris_clean_paste_flakes"]
    found = looks.worth_of_a_look(prior, costs(*i["cost"].values()), sayings([table[s] for s in i["prior"]]))
    nothing = sayings([[1.0]] * len(prior))
    return {
        "expected_cost": {n: looks.worth_of_a_look(prior, costs(i["cost"][n]), nothing).now for n in names},
        "best_now": names[int(found.best) - 1],
        "best_after_clean_paste_flakes": [names[int(k) - 1] for k in found.choices],
        "evsi": found.worth,
        "evppi_condition": found.ceiling,
    }


@binds("evsi-limits")
def evsi_limits(i: dict[str, Any]) -> dict[str, Any]:
    prior = np.array([0.3, 0.5, 0.2])
    rows = costs([100.0, 4000.0, 15000.0], [6000.0, 6100.0, 7000.0])
    look = sayings([[0.8, 0.2], [0.5, 0.5], [0.1, 0.9]])
    perfect = looks.worth_of_a_look(prior, rows, sayings(np.eye(3).tolist()))
    return {
        "useless": looks.worth_of_a_look(prior, rows, sayings([[0.3, 0.7]] * 3)).worth,
        "perfect_minus_evppi": perfect.worth - perfect.ceiling,
        "certain_prior": looks.worth_of_a_look(np.array([0.0, 1.0, 0.0]), rows, look).worth,
        "equal_courses": looks.worth_of_a_look(prior, (rows[0], rows[0]), look).worth,
    }


# --- E4: hours between checks ---


@binds("delay-time-share-failing")
def share_failing(i: dict[str, Any]) -> dict[str, Any]:
    one, two = interval.share_unseen(i["interval_h"] * HOUR, i["mean_failing_h"] * HOUR, np.array(i["power"]))
    return {"b_power_1": one, "b_power_0_7": two}


@binds("delay-time-best-interval")
def best_interval(i: dict[str, Any]) -> dict[str, Any]:
    rate = float(Fraction(i["defect_rate_per_h"])) / HOUR
    best = interval.best_interval(
        rate, i["mean_failing_h"] * HOUR, i["power"], i["cost_let_go"], i["cost_found"], i["cost_check"]
    )
    return {
        "interval_h": best.interval / HOUR,
        "cost_per_h": best.cost * HOUR,
        "square_root_estimate_h": best.estimate / HOUR,
    }


@binds("delay-time-limits")
def delay_limits(i: dict[str, Any]) -> dict[str, Any]:
    h, mean = 25 * HOUR, 90 * HOUR
    return {
        "T_to_0": interval.share_unseen(1e-6 * HOUR, mean, 0.7),
        "T_to_inf": interval.share_unseen(1e9 * HOUR, mean, 0.7),
        "power_to_0": interval.share_unseen(h, mean, 0.0),
        "sojourn_to_0": interval.share_unseen(h, 1e-6 * HOUR, 0.7),
    }


@binds("checks-for-mission-reliability")
def mission(i: dict[str, Any]) -> dict[str, Any]:
    """The spacing is looked for: even against others, the last stretch taking what is left."""
    sound, failing = i["mean_sound_h"] * HOUR, i["mean_failing_h"] * HOUR
    stretches = i["checks"] + 1

    def lasts(hours: float) -> float:
        rest = i["mission_h"] - (stretches - 1) * hours
        one = interval.chance_to_last(hours * HOUR, sound, failing, i["checks"] - 1)
        return float(one * interval.chance_to_last(rest * HOUR, sound, failing, 0.0))

    tried = np.arange(40.0, 99.0, 0.5)
    best = float(tried[np.argmax([lasts(h) for h in tried])])
    return {"interval_h": best, "reliability": interval.chance_to_last(best * HOUR, sound, failing, i["checks"])}


# --- E5: offers ---


@binds("offer-for-used-unit")
def offer_used(i: dict[str, Any]) -> dict[str, Any]:
    without = money.cost_with_failure(i["fit_cash"], i["p_fail_used"], i["fail_cost"]) - i["core_value_kept"]
    return {"max_price": most_worth(min(i["expected_cost_other_courses"]), without).price}


@binds("offer-linear", "offer-limits")
def offer(i: dict[str, Any]) -> dict[str, Any]:
    without = np.asarray(i["course_without_price"], float)
    found = most_worth(i["best_other"], without, i["p_refund"], i["refund_share"])
    return {"price": found.price, "not_at_any_price": found.not_at_any_price}


# --- E6: dates ---


@binds("pert-seven-activities")
def pert_seven(i: dict[str, Any]) -> dict[str, Any]:
    times = [finish.three_point(*map(float, task)) for task in i["a_m_b"].values()]
    names = list(i["a_m_b"])
    tasks = tuple(
        finish.Activity(name, time.mean, before) for name, time, before in zip(names, times, ["", *names], strict=False)
    )
    mean = float(finish.network_finish(tasks).finish)
    variance = sum(float(time.deviation) ** 2 for time in times)
    return {"mean": mean, "variance": variance, "p_28": finish.chance_before(mean, variance**0.5, 28.0)}


@binds("pert-fourteen-activities")
def pert_fourteen(i: dict[str, Any]) -> dict[str, Any]:
    table = i["a_m_b_pred"]
    times = {name: finish.three_point(*map(float, row[:3])) for name, row in table.items()}
    tasks = tuple(finish.Activity(name, times[name].mean, " ".join(row[3])) for name, row in table.items())
    path = finish.network_finish(tasks)
    slack = dict(zip(table, path.slack, strict=True))
    variance = sum(float(times[name].deviation) ** 2 for name in path.critical.split())
    return {
        "finish": path.finish, "critical": path.critical.replace(" ", ""), "variance": variance, "slack_B": slack["B"],
        "slack_D": slack["D"], "p_55_single_path": finish.chance_before(path.finish, variance**0.5, 55.0),
    }  # fmt: skip


@binds("clark-two-equal-paths")
def clark(i: dict[str, Any]) -> dict[str, Any]:
    later = finish.later_of_two(i["mean"], i["sd"], i["mean"], i["sd"])
    return {"mean_of_max": later.mean, "sd_of_max": later.deviation}


@binds("last-order-date")
def last_order(i: dict[str, Any]) -> dict[str, Any]:
    from scipy.special import ndtri

    even = (np.arange(400_000) + 0.5) / 400_000
    takes = (i["median_d"] * np.exp(i["sigma"] * ndtri(even)) + i["work_d"]) * DAY
    mean = float(takes.mean())
    return {
        "days_before_harvest": finish.time_needed(takes, i["confidence"]) / DAY,
        "if_mean_were_used": mean / DAY,
        "confidence_then": finish.chance_in_time(takes, mean),
    }


WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@binds("workshop-calendar")
def workshop(i: dict[str, Any]) -> dict[str, Any]:
    assert i["open"] == "Mon-Fri 08:00-16:00"
    week = tuple(finish.Open((24 * d + 8) * HOUR, (24 * d + 16) * HOUR) for d in range(5))
    day, clock = i["start"].split()
    start = (24 * WEEKDAYS.index(day) + int(clock[:2])) * HOUR

    def spoken(seconds: float) -> str:
        hours = round(seconds / HOUR, 6)
        return f"{WEEKDAYS[int(hours // 24) % 7]} {int(hours % 24):02d}:{round(hours % 1 * 60):02d}"

    arrival = finish.done_in_shop((24 * 5 + 10) * HOUR, 1 * HOUR, week)
    assert spoken(float(arrival)) == "Monday 09:00"  # what the check's own note says of a part on Saturday
    return {"finish": [spoken(float(finish.done_in_shop(start, h * HOUR, week))) for h in i["work_h"]]}


@binds("hands-limited-job")
def hands_limited(i: dict[str, Any]) -> dict[str, Any]:
    table = {name[0]: row for name, row in i["tasks_h_hands_pred"].items()}
    after = {name: list(row[2]) for name, row in table.items()}

    def done(hands: int, order: Any = tuple(table)) -> float:
        lasts = np.array([table[n][0] for n in order], float)
        return float(schedule(list(order), lasts, [table[n][1] for n in order], after, hands).finish)

    shares = np.random.default_rng(1).random((200, len(table)))
    best = best_order(tuple(table), after, lambda order: done(2, tuple(order)), shares)
    return {
        "finish_unlimited": done(99), "finish_3": done(3), "finish_2_best": done(2, best),
        "finish_2_in_list_order": done(2),
    }  # fmt: skip


@binds("order-date-critical-ratio")
def critical_ratio(i: dict[str, Any]) -> dict[str, Any]:
    ratio = finish.how_sure(i["late"], i["early"])
    return {"ratio": ratio, "days_before": finish.time_before(i["mean_d"], i["sd_d"], ratio)}
