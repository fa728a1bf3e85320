"""Bindings of season work: rates, waiting, weather (E1)."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import Crop, field_clock, weather, work
from axlewright.engines.season.money import repairs_share, yearly_growth
from axlewright.quantities import parse

DAY, HOUR, HA, ACRE = 86400.0, 3600.0, 1e4, 4046.8564224
FOOT, MILE = 0.3048, 1609.344
HA_H, AC_H = HA / HOUR, ACRE / HOUR
KM_H, MPH = 1 / 3.6, MILE / HOUR


def seattle() -> tuple[np.ndarray, np.ndarray]:
    """Rain of each day, and its month."""
    months = [
        line
        for line in (Path(__file__).parent / "seattle-rain.txt").read_text(encoding="utf-8").splitlines()
        if not line.startswith("#")
    ]
    rain = [np.array(month.split(), float) for month in months]
    return np.concatenate(rain), np.concatenate([np.full(len(r), i % 12 + 1) for i, r in enumerate(rain)])


@binds("efc-us-rows")
def efc_us_rows(i: dict[str, Any]) -> dict[str, Any]:
    width, speed = np.array(i["width_ft"]) * FOOT, np.array(i["speed_mph"]) * MPH
    return {"ac_per_h": work.field_capacity(width, speed, np.array(i["efficiency"])) / AC_H}


@binds("efc-si")
def efc_si(i: dict[str, Any]) -> dict[str, Any]:
    rate = work.field_capacity(i["width_m"], i["speed_km_h"] * KM_H, i["efficiency"])
    return {"ha_per_h": rate / HA_H, "ac_per_h": rate / AC_H}


@binds("material-capacity-si")
def material_capacity(i: dict[str, Any]) -> dict[str, Any]:
    rate = work.field_capacity(i["width_m"], i["speed_km_h"] * KM_H, i["efficiency"])
    return {"t_per_h": work.throughput(rate, i["yield_t_ha"] * 0.1) * 3.6}


@binds("efc-limits")
def efc_limits(i: dict[str, Any]) -> dict[str, Any]:
    out: list[Any] = []
    for width, speed, efficiency in i["cases"]:
        try:
            out.append(work.field_capacity(width, speed * KM_H, efficiency) / HA_H)
        except OutOfRange:
            out.append("refused")
    return {"ha_per_h": out}


@binds("machine-size-from-days")
def machine_size(i: dict[str, Any]) -> dict[str, Any]:
    days, hours = i["days_week_1"] + i["days_week_2"], i["hours_per_day"] * HOUR
    rate = work.capacity_needed(i["area_ac"] * ACRE, days, hours)
    return {"days": days, "ac_per_day": rate * hours / ACRE, "ac_per_h": rate / AC_H}


@binds("delay-loss-corn-soy")
def delay_loss(i: dict[str, Any]) -> dict[str, Any]:
    """Worth taken as the yield itself, on one unit of area: the loss is then in bushels."""

    def lost(factor: Any, crop: float) -> Any:
        return work.loss_by_delay(np.asarray(factor) / DAY, i["days"] * DAY, 1.0, crop)

    return {"corn_loss": lost(i["corn_K"], i["corn_yield"]), "soy_loss": lost(i["soy_K"], i["soy_yield"])}


@binds("delay-loss-is-convex")
def delay_loss_is_convex(i: dict[str, Any]) -> dict[str, Any]:
    lost = np.array(i["loss_pct"]) / 100
    return {"pct_per_day": work.loss_between(lost[:-1], lost[1:], i["days_between"] * DAY) * DAY * 100}


@binds("ep496-timeliness-cost")
def timeliness(i: dict[str, Any]) -> dict[str, Any]:
    area, worth = i["area_ha"] * HA, i["yield_t_ha"] * i["value_per_t"] / HA
    loss, working = i["K"] / DAY, i["pwd"] * i["hours_day"] / 24
    one, two = (work.area_delay_loss(loss, area, worth, i["ha_per_h"] * HA_H, working, starts) for starts in (2.0, 4.0))
    return {
        "calendar_days": 2 * one / (i["K"] * area * worth),
        "per_ha_one_sided": one / i["area_ha"],
        "total_one_sided": one,
        "per_ha_balanced": two / i["area_ha"],
    }


@binds("breakdown-delays-all-that-remains")
def breakdown(i: dict[str, Any]) -> dict[str, Any]:
    worth = i["yield_t_ha"] * i["value_per_t"] / HA
    cost = [
        work.loss_by_delay(i["K"] / DAY, days * DAY, i["remaining_ha"] * HA, worth) for days in (i["stop_days"], 1.0)
    ]
    return {"cost": cost[0], "cost_per_day": cost[1]}


@binds("repair-cost-combine")
def repair_cost(i: dict[str, Any]) -> dict[str, Any]:
    return {"share_of_price": repairs_share(np.array(i["hours"]) * HOUR, i["RF1"], i["RF2"])}


@binds("markov-tel-aviv", "markov-ithaca-january")
def markov(i: dict[str, Any]) -> dict[str, Any]:
    """Wet days stand where workable ones do: the chain does not mind."""
    (dry_dry, dry_wet), (wet_dry, wet_wet) = i["counts"]
    found = weather.chain_from_counts(dry_dry, dry_wet, wet_dry, wet_wet)
    chain = found.chain
    return {
        "p01": chain.after_bad,
        "p11": chain.after_good,
        "share_wet": chain.share,
        "persistence": chain.memory,
        "chi2": found.chi_square,
    }


@binds("markov-seattle-all-year")
def markov_seattle(i: dict[str, Any]) -> dict[str, Any]:
    rain, month = seattle()
    assert set(month) == set(i["months"])
    counts = weather.days_followed(rain > i["wet_above_mm"])
    chain = weather.chain_from_counts(counts.bad_bad, counts.bad_good, counts.good_bad, counts.good_good).chain
    return {
        "n00": counts.bad_bad,
        "n01": counts.bad_good,
        "n10": counts.good_bad,
        "n11": counts.good_good,
        "p01": chain.after_bad,
        "p11": chain.after_good,
        "share_wet": chain.share,
    }


@binds("workable-from-rain-rule")
def rain_rule(i: dict[str, Any]) -> dict[str, Any]:
    rain, month = seattle()
    days = weather.workable_by_rain(rain, i["today_below_mm"], i["yesterday_below_mm"], i["two_days_below_mm"])
    mine = days[np.isin(month, i["months"])]
    return {"workable": float(mine.sum()), "days": float(mine.size), "share": float(mine.mean())}


@binds("chain-from-share-and-spell")
def chain_from_spell(i: dict[str, Any]) -> dict[str, Any]:
    chain = weather.chain_from_spell(i["share"], i["mean_workable_spell_days"])
    return {
        "p01": chain.after_bad,
        "p11": chain.after_good,
        "mean_bad_spell_days": chain.bad_spell,
        "persistence": chain.memory,
        "share_back": chain.share,
    }


@binds("workable-days-distribution")
def days_distribution(i: dict[str, Any]) -> dict[str, Any]:
    chain = weather.chain_from_spell(i["share"], i["mean_workable_spell_days"])
    chances = weather.days_chances(i["share"], float(chain.memory), i["days"])
    count = np.arange(i["days"] + 1)
    mean = float(chances @ count)
    return {
        "mean": mean,
        "variance": float(chances @ (count - mean) ** 2),
        "variance_formula": weather.days_variance(i["share"], chain.memory, i["days"]),
        "variance_binomial": weather.days_variance(i["share"], 0.0, i["days"]),
        "p_at_least_15": float(chances[15:].sum()),
        "p_at_least_20": float(chances[20:].sum()),
    }


@binds("workable-days-limits")
def days_limits(i: dict[str, Any]) -> dict[str, Any]:
    chances = [weather.days_chances(share, 0.0, i["days"]) for share in i["share"]]
    return {"p_finish": [float(one[i["need"] :].sum()) for one in chances]}


@binds("iowa-autumn-weeks")
def iowa(i: dict[str, Any]) -> dict[str, Any]:
    """Mean and scatter of reports are what `memory_from_reports` is asked with; it refuses weeks more alike than chance."""
    days = np.array(i["days"])
    share, deviation = float(days.mean()) / 7, float(days.std(ddof=1))
    variance = float(weather.days_variance(share, 0.0, 7.0))
    assert deviation**2 < variance
    return {"mean": share * 7, "sd": deviation, "share": share}


@binds("spell-length-geometric")
def spell_length(i: dict[str, Any]) -> dict[str, Any]:
    return {"p": weather.spell_at_least(i["p11"], np.array(i["k"], float))}


@binds("between-year-spread")
def between_years(i: dict[str, Any]) -> dict[str, Any]:
    given = i["share"], i["persistence"], float(i["days"])
    return {
        "sd_chain_only": float(weather.days_variance(*given)) ** 0.5,
        "sd_with_years": float(weather.days_variance(*given, i["sd_of_share_between_years"])) ** 0.5,
    }


@binds("season-nothing-to-do")
def nothing_to_do(i: dict[str, Any]) -> dict[str, Any]:
    clock = field_clock((Crop(i["area_ha"], 1.0, loss=i["K"]),), np.full((1, 50), 8 * HOUR))
    return {
        "finish_day": float(np.asarray(clock.finish)[0]) / DAY,
        "p_finish": float(np.isfinite(clock.finish).mean()),
        "loss": float(work.share_lost_by_waiting(i["delay_days"] * DAY, i["K"]))
        + float(np.asarray(clock.delayed).sum()),
    }


@binds("custom-rates-per-hectare")
def rates_per_hectare(i: dict[str, Any]) -> dict[str, Any]:
    def per_hectare(rates: list[float]) -> list[float]:
        return [parse(f"{rate} /ac", "area-price").si * HA for rate in rates]

    return {"corn_usd_ha": per_hectare(i["corn_usd_ac"]), "soy_usd_ha": per_hectare(i["soy_usd_ac"])}


@binds("custom-rates-trend")
def rates_trend(i: dict[str, Any]) -> dict[str, Any]:
    rates = i["usd_ac"]
    return {
        "growth_2021_2025_pct_per_year": 100 * yearly_growth(rates["y2021"], rates["y2025"], 4.0),
        "usd_ha_2025": parse(f"{rates['y2025']} /ac", "area-price").si * HA,
    }


@binds("road-moves")
def road_moves(i: dict[str, Any]) -> dict[str, Any]:
    time = work.road_time(i["moves"], i["km"] * 1e3, i["km_h"] * KM_H, i["header_min"] * 60)
    return {"hours": time / HOUR, "field_ha_lost": time * work.field_capacity(9.15, 5.5 * KM_H, 0.7) / HA}


@binds("grain-moisture-shrink")
def grain(i: dict[str, Any]) -> dict[str, Any]:
    wet, dry = np.array(i["from_pct"]) / 100, i["to_pct"] / 100
    total = work.drying_shrink(wet, dry, i["handling_pct"] / 100)
    return {
        "water_shrink_pct": 100 * work.drying_shrink(wet, dry),
        "total_shrink_pct": 100 * total[-1],
        "dry_lb": i["mass_lb"] * (1 - total[-1]),
    }
