# SPDX-License-Identifier: MIT
"""Weather, year levels and day effects of the NumPy season, for a block of histories: rows are days."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import numpy as np
from numpy_plan import fraction_of_month

Array = np.ndarray
NODES, WEIGHTS = np.polynomial.hermite_e.hermegauss(16)
WEIGHTS = WEIGHTS / WEIGHTS.sum()


def mean_one(sd: Any, x: Array) -> Array:
    return np.exp(sd * x - 0.5 * sd * sd)


def expit(x: Array) -> Array:
    return 1.0 / (1.0 + np.exp(-x))


def centre_for_mean(fraction: Any, sd: Any) -> Array:
    """The `a` for which expit(a + sd z) has mean `fraction`, by Newton's rule."""
    fraction, sd = np.atleast_1d(fraction)[:, None], np.atleast_1d(sd)[:, None]
    a = np.log(fraction / (1.0 - fraction))
    for _ in range(25):
        p = expit(a + sd * NODES)
        a = a - ((p @ WEIGHTS)[:, None] - fraction) / ((p * (1.0 - p)) @ WEIGHTS)[:, None]
    return a[:, 0]


def marginal(fraction: Any, multiplier: Any, year_sd: Any, w: Array) -> Array:
    if not np.any(year_sd):
        return fraction * multiplier / (1.0 - fraction + fraction * multiplier) + np.zeros_like(w)
    inside = np.clip(fraction, 1e-12, 1.0 - 1e-12)
    shifted = expit(centre_for_mean(inside, year_sd) + year_sd * w + np.log(multiplier))
    return np.where((np.asarray(fraction) <= 0.0) | (np.asarray(fraction) >= 1.0), fraction, shifted)


def bad_weather(v: dict[str, Any], dates: list, w: Array, rng: np.random.Generator) -> Array:
    weather, multiplier = v["weather"], v["boat"][0].get("weather_odds_multiplier", 1.0)
    r = weather.get("persistence", 0.0)
    by_month = {
        m: marginal(
            fraction_of_month(weather["unfishable_fraction"], m), multiplier, weather.get("year_sd", 0.0), w
        )
        for m in {d.month for d in dates}
    }
    u = rng.random((len(dates), len(w)))
    bad = np.empty(u.shape, bool)
    bad[0] = u[0] < by_month[dates[0].month]  # the chain starts in its long run
    for t in range(1, len(dates)):
        m, before = by_month[dates[t].month], by_month[dates[t - 1].month]
        tie = r
        if m is not before:
            with np.errstate(divide="ignore", invalid="ignore"):
                up = np.where(before > 0.0, m / before, np.inf)
                down = np.where(before < 1.0, (1.0 - m) / (1.0 - before), np.inf)
            tie = np.minimum(r, np.minimum(up, down))
        np.less(u[t], m + tie * (bad[t - 1] - before), out=bad[t])
    return bad


def year_levels(v: dict[str, Any], w: Array, rng: np.random.Generator) -> tuple[list, list, Array, Array]:
    n, species, ties = len(w), v["species"], v.get("together", {})
    r_s = ties.get("species_year_correlation", 0.0)
    r_pc, r_wc = ties.get("price_catch_correlation", 0.0), ties.get("weather_catch_correlation", 0.0)
    if len(species) == 1:
        r_s = r_wc * r_wc  # nothing in common but the weather; the rest is the species' own
    a, b = rng.standard_normal((2, n))
    catch, price = [], []
    for one in species:
        e, f = rng.standard_normal((2, n))
        x = r_wc * w + np.sqrt(r_s - r_wc * r_wc) * a + np.sqrt(1.0 - r_s) * e
        y = r_pc * x + np.sqrt(1.0 - r_pc * r_pc) * (np.sqrt(r_s) * b + np.sqrt(1.0 - r_s) * f)
        catch.append(mean_one(one.get("year_sd", 0.0), x))
        price.append(mean_one(v["outlet"][0].get("year_sd", 0.0), y))
    fuel, bait = (
        mean_one(v["prices"].get(f"{k}_year_sd", 0.0), rng.standard_normal(n)) for k in ("fuel", "bait")
    )
    return catch, price, fuel, bait


def ar1(x: Array, phi: Any) -> Array:
    """White noise by rows made, in place, a standard stationary AR(1)."""
    if np.any(phi):
        rest = np.sqrt(1.0 - phi * phi)
        for t in range(1, len(x)):
            x[t] *= rest
            x[t] += phi * x[t - 1]
    return x


def day_effect(one: dict[str, Any], days: int, n: int, rng: np.random.Generator) -> Array | None:
    """Ground and own effect of every day together; None where there is neither."""
    ground, own = one.get("day_sd", 0.0), one.get("boat_day_sd", 0.0)
    total = None
    if np.any(ground):
        total = ar1(rng.standard_normal((days, n)), one.get("day_persistence", 0.0))
        total *= ground
        total -= 0.5 * ground * ground
    if np.any(own):
        z = rng.standard_normal((days, n))
        z *= own
        z -= 0.5 * own * own
        total = z if total is None else np.add(total, z, out=total)
    return None if total is None else np.exp(total, out=total)


def week_effect(
    outlet: dict[str, Any], dates: list, n: int, rng: np.random.Generator
) -> tuple[Array | None, list[int]]:
    """Price factor by week, and the week of each day."""
    monday = dates[0] - timedelta(days=dates[0].weekday())
    week = [(d - monday).days // 7 for d in dates]
    sd = outlet.get("week_sd", 0.0)
    if not np.any(sd):
        return None, week
    return mean_one(
        sd, ar1(rng.standard_normal((week[-1] + 1, n)), outlet.get("week_persistence", 0.0))
    ), week
