# SPDX-License-Identifier: MIT
"""Published and derived figures of luck, found again as seasons of real plans.

Random figures: within 4 standard errors at 100,000 histories, so a right engine fails one in about 16,000
with another key; the key is fixed. Standard errors: mean sd/sqrt(N); variance var sqrt(2/N), near enough
here (counts of few days are flatter and have less); coefficient of variation cv/sqrt(2N); chance
sqrt(p(1-p)/N).
"""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from compound_plan import compound_plan
from small_plan import bare, text

N = 100_000
KEY = 1962
ERRORS = 4.0


def simulated(plan: dict[str, Any], keep: list[str]) -> Any:
    return sr.simulate(sr.Plan.parse(text(plan)), histories=N, key=KEY, keep=keep)


def weather_plan(days: int, fraction: float, persistence: float, year_sd: float = 0.0) -> dict[str, Any]:
    start = date(2027, 5, 3)
    return bare(
        season={"start": start, "end": start + timedelta(days=days - 1)},
        weather={"unfishable_fraction": fraction, "persistence": persistence, "year_sd": year_sd},
    )


def assert_mean_and_variance(values: np.ndarray, mean: float, variance: float) -> None:
    assert values.mean() == pytest.approx(mean, abs=ERRORS * math.sqrt(variance / N))
    assert values.var(ddof=1) == pytest.approx(variance, abs=ERRORS * variance * math.sqrt(2.0 / N))


# Bad days in 183 at odds .3: variance n p(1-p)[(1+r)/(1-r) - 2r(1-r^n)/(n(1-r)^2)], Gabriel 1959, Biometrika
# 46:454 (formula from memory, checked by a recursion over days).
@pytest.mark.parametrize(("persistence", "variance"), [(0.45, 100.69), (0.40, 89.20), (0.0, 38.43)])
def test_bad_days_of_a_season_come_in_spells(persistence: float, variance: float) -> None:
    run = simulated(weather_plan(183, 0.3, persistence), ["bad_weather_days"])

    assert_mean_and_variance(run["bad_weather_days"], 54.90, variance)


def test_stormy_and_quiet_years_leave_the_mean_of_bad_days_alone() -> None:
    """183 x .3 = 54.90 for any spread between years (the stated fraction is the long-run mean)."""
    bad = simulated(weather_plan(183, 0.3, 0.45, year_sd=0.8), ["bad_weather_days"])["bad_weather_days"]

    assert bad.mean() == pytest.approx(54.90, abs=ERRORS * bad.std() / math.sqrt(N))
    assert bad.var() > 4.0 * 100.69  # and the years do differ


# WX-01. Tel Aviv rain, Gabriel & Neumann 1962, Q. J. R. Meteorol. Soc. 88:90 (values as quoted in Poole, Linear
# Algebra): wet after wet .662, wet after dry .25; long run .425; a wet day two days after a dry one .353.
WET_AFTER_WET, WET_AFTER_DRY = 0.662, 0.25
PERSISTENCE = WET_AFTER_WET - WET_AFTER_DRY
LONG_RUN = WET_AFTER_DRY / (1.0 - PERSISTENCE)


def test_the_rain_of_tel_aviv_two_days_ahead() -> None:
    """WX-01. First and last day of a three-day season, each seen in its own month's cash."""
    plan = weather_plan(3, LONG_RUN, PERSISTENCE)
    middle = date(2027, 7, 1)
    plan["season"] = {
        "start": middle - timedelta(days=1),
        "end": middle + timedelta(days=1),
        "days_off": [{"from": middle, "to": middle, "why": "only the days around it count"}],
    }
    run = simulated(plan, ["cash.2027-05", "cash.2027-06", "cash.2027-07"])

    dry_first = run["cash.2027-06"] > run["cash.2027-05"]
    wet_last = run["cash.2027-07"] == run["cash.2027-06"]

    assert 1.0 - dry_first.mean() == pytest.approx(0.425, abs=0.0005 + ERRORS * math.sqrt(0.425 * 0.575 / N))
    error = math.sqrt(0.353 * 0.647 / dry_first.sum())
    assert wet_last[dry_first].mean() == pytest.approx(0.353, abs=ERRORS * error)


# WX-03. Mean and variance of wet days in n days of that chain; the variance by the formula above, and by an exact
# forward recursion over (state, count).
@pytest.mark.parametrize(
    ("days", "mean", "variance"),
    [
        (5, 2.12585, 2.358911),
        (30, 12.755102, 17.024339),
        (90, 38.265306, 52.237959),
        (120, 51.020408, 69.844769),
    ],
)
def test_the_rain_of_tel_aviv_over_a_season(days: int, mean: float, variance: float) -> None:
    run = simulated(weather_plan(days, LONG_RUN, PERSISTENCE), ["bad_weather_days"])

    assert_mean_and_variance(run["bad_weather_days"], mean, variance)


# Spread of a season of 110 fished days from the day effect alone, sd .25 on the log scale: derived, the
# double sum over pairs of days of exp(.25^2 phi^|i-j|) - 1; about 25% / sqrt(37 effective days) at phi .5.
@pytest.mark.parametrize(("persistence", "cv"), [(0.5, 0.041398), (0.45, 0.03885), (0.0, 0.02421)])
def test_day_luck_averages_out_over_a_season(persistence: float, cv: float) -> None:
    start = date(2027, 6, 1)
    plan = bare(
        season={"start": start, "end": start + timedelta(days=109)},
        species={"day_sd": 0.25, "day_persistence": persistence},
    )
    catch = simulated(plan, ["catch.crab"])["catch.crab"]

    assert catch.mean() == pytest.approx(110 * 100, rel=ERRORS * cv / math.sqrt(N))
    assert catch.std(ddof=1) / catch.mean() == pytest.approx(cv, rel=ERRORS / math.sqrt(2.0 * N))


def test_mean_sales_are_not_mean_catch_times_mean_price() -> None:
    """E[catch x price] = exp(r s_c s_p) = .99283 at (.20, .12, -.3): moments of log-normals, standard."""
    plan = bare(
        species={"year_sd": 0.20}, outlet={"year_sd": 0.12}, together={"price_catch_correlation": -0.3}
    )
    run = simulated(plan, ["sales", "catch.crab"])

    product = run["sales"] / (100 * 100)

    error = product.std() / math.sqrt(N)
    assert product.mean() == pytest.approx(0.99283, abs=ERRORS * error)
    assert 2 * ERRORS * error < 1.0 - 0.99283  # independent levels would be told apart


def test_a_price_that_returns_to_its_mean() -> None:
    """PRICE-01. Moments of the log price one year on, from ln S = 3.

    Source: Schwartz 1997, J. Finance 52:923, eqs 1-6; parameters recalled from its table IV, taken as given:
    kappa .301, mu 3.093, sigma .334 give mean 2.976006847, variance .083812447, E[S] 20.448572.
    The weekly price is exactly that process seen on Mondays, 52 to the year: persistence exp(-kappa/52), sd
    sigma/sqrt(2 kappa), usual price the mean of its long run. Two fished Mondays 52 weeks apart, each seen in
    its own month's cash, are jointly normal on the log scale, so the regression line and what is left around
    it are the conditional mean and variance.
    """
    kappa, mu, sigma = 0.301, 3.093, 0.334
    long_run_mean, long_run_sd = mu - sigma**2 / (2.0 * kappa), sigma / math.sqrt(2.0 * kappa)
    first, last = date(2027, 2, 1), date(2028, 1, 31)
    between = {"from": first + timedelta(days=1), "to": last - timedelta(days=1), "why": "two Mondays only"}
    plan = bare(
        business={"books_start": first, "opening_cash": 0.0},
        season={"start": first, "end": last, "days_off": [between]},
        species={"per_haul": 0.01},  # 100 hauls: one kg a day
        outlet={
            "price": {"crab": math.exp(long_run_mean + long_run_sd**2 / 2.0)},
            "week_sd": long_run_sd,
            "week_persistence": math.exp(-kappa / 52.0),
        },
    )
    run = simulated(plan, ["cash.2027-02", "cash.2028-01"])

    now = np.log(run["cash.2027-02"])
    later = np.log(run["cash.2028-01"] - run["cash.2027-02"])
    slope, level = np.polyfit(now - 3.0, later, 1)
    left = later - level - slope * (now - 3.0)

    assert now.std() == pytest.approx(0.430475284, rel=ERRORS / math.sqrt(2.0 * N))
    error = left.std() * math.sqrt((1.0 + ((3.0 - now.mean()) / now.std()) ** 2) / N)
    assert level == pytest.approx(2.976006847, abs=ERRORS * error)
    assert left.var() == pytest.approx(0.083812447, rel=ERRORS * math.sqrt(2.0 / N))
    assert math.exp(level + left.var() / 2.0) == pytest.approx(20.448572, rel=ERRORS * 1.1 * error)
    assert slope == pytest.approx(math.exp(-kappa), abs=ERRORS * left.std() / now.std() / math.sqrt(N))


def test_repairs_of_three_sizes_have_the_mean_and_variance_of_the_book() -> None:
    """INS-09. N Poisson(12), sizes 1, 2, 3 with odds 1/2, 1/3, 1/6: mean 20, variance 40.

    Source: Frees (ed.), Loss Data Analytics, example 5.3.1. Each size is split over 20 kinds, so the binomial
    counts cost 0.02 of the variance, a thirtieth of the tolerance. Example 5.3.2 (one or two events, never
    none) has no place in a plan: breakdowns are not counted out beforehand.
    """
    sizes = [1.0] * 20 + [2.0] * 20 + [3.0] * 20
    run = simulated(compound_plan(sizes, [6 / 20] * 20 + [4 / 20] * 20 + [2 / 20] * 20), ["repairs"])

    assert_mean_and_variance(run["repairs"], 20.0, 40.0)


def test_repairs_of_even_sizes_have_the_tail_of_the_book() -> None:
    """INS-12. N Poisson(25), sizes uniform on (5, 95): mean 1,250, variance 79,375, odds above 2,000 .0069838.

    Source: Frees (ed.), Loss Data Analytics, examples 5.3.5 and 5.4.2; the exact tail was found apart from
    this project by inversion. Sizes stand at the middle of 45 equal steps of 2 (variance 674.67 for 675);
    counts are binomial with p = .0015; together 0.2% of the variance and .00010 of the tail, a tenth of the
    tolerances. The normal approximation of the tail, .003884 there, is told apart.
    """
    sizes = [6.0 + 2.0 * i for i in range(45)]
    repairs = simulated(compound_plan(sizes, [25 / 45] * 45), ["repairs"])["repairs"]

    assert_mean_and_variance(repairs, 1250.0, 79375.0)
    tail = (repairs > 2000.0).mean()
    assert tail == pytest.approx(0.0069838, abs=ERRORS * math.sqrt(0.0069838 / N))
    assert abs(tail - 0.003884) > ERRORS * math.sqrt(0.0069838 / N)
