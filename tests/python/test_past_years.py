# SPDX-License-Identifier: MIT
"""Past years beside the model, and a season that was shown beside what it came to."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk.credit import past_columns
from small_plan import bare, text


def with_past(*years: dict[str, Any], **sections: Any) -> sr.Plan:
    """Sales of 10,000 a year but for luck of the year; the account starts with 10,000 and 100 a month is drawn."""
    plan = bare(household={"draw_per_month": 100.0}, **sections)
    plan["past_year"] = list(years)
    return sr.Plan.parse(text(plan))


def kept(plan: sr.Plan, actuals: sr.Plan | None = None, histories: int = 2_000) -> sr.Run:
    return sr.simulate(plan, histories=histories, key=11, keep=past_columns(plan, actuals))


def test_an_actual_stands_beside_the_quantiles_of_its_column() -> None:
    """Definition, and with year_sd 0.2 the 1-in-10 marks of 10,000 exp(0.2 z - 0.02) are 7,586 and 12,666 (z = 1.2816);
    tolerance 4 errors of a quantile of 2,000, about 200."""
    plan = with_past({"year": 2025, "sales": 7_000.0}, {"year": 2026, "sales": 9_500.0, "days_fished": 100.0}, species={"year_sd": 0.2})
    run = kept(plan)
    found = sr.past_years(plan, run)
    first, second = found.years

    assert (first.year, first.season, second.year) == (2025, 2027, 2026)
    (sales,) = first.figures
    assert (sales.low, sales.median, sales.high) == tuple(run.quantile("sales", level) for level in (0.1, 0.5, 0.9))
    assert sales.low.value == pytest.approx(7_586.0, abs=200.0)
    assert sales.high.value == pytest.approx(12_666.0, abs=300.0)
    assert sales.below.value == pytest.approx(np.mean(run["sales"] < 7_000.0))
    assert [figure.name for figure in first.outside] == ["sales"]
    assert second.outside == ()
    page = " ".join(str(found).split())
    assert "2025, sales of the catch: 7,000 GBP is below the 1-in-10 mark" in page
    assert "2026, " not in page


def test_without_luck_an_actual_is_outside_unless_it_is_the_model() -> None:
    plan = with_past({"year": 2026, "sales": 10_000.0, "draw": 1_300.0, "lowest_cash": 9_700.0})
    (year,) = sr.past_years(plan, kept(plan, histories=8)).years

    assert [figure.name for figure in year.outside] == ["draw"]  # 12 x 100 by hand; cash is lowest at the end of May


def test_a_figure_of_several_years_stands_beside_its_own_season() -> None:
    """By hand: sales 10,000 less 1,200 drawn: the account begins the second year with 18,800 and is lowest at the end of
    its third month, 18,500."""
    shown = with_past(business={"years": 2})
    told = with_past({"year": 2027, "sales": 8_000.0}, {"year": 2028, "lowest_cash": 18_500.0}, business={"years": 2})
    run = kept(shown, told, histories=8)
    found = sr.what_happened(run, told)

    assert found.after
    assert [(year.year, year.season) for year in found.years] == [(2027, 2027), (2028, 2028)]
    assert found.years[1].figures[0].median.value == pytest.approx(18_500.0)
    assert [len(year.outside) for year in found.years] == [1, 0]
    assert "what happened" in str(found)
    assert sr.past_years(told, run).years == ()  # they are not past when the first season begins


def test_a_plan_that_tells_nothing_says_so() -> None:
    plan = sr.Plan.parse(text(bare()))
    run = sr.simulate(plan, histories=8, key=1)

    assert sr.past_years(plan, run).years == ()
    assert "tells of no past year" in str(sr.past_years(plan, run))
    with pytest.raises(ValueError, match=r"tells of no season of the run; write a \[\[past_year\]\] with year = 2027"):
        sr.what_happened(run, plan)


def test_a_run_that_did_not_keep_the_columns_is_told_how() -> None:
    plan = with_past({"year": 2026, "day_costs": 500.0})

    with pytest.raises(ValueError, match=r"did not keep day_costs; .*past_columns\(plan\)"):
        sr.past_years(plan, sr.simulate(plan, histories=8, key=1, keep="sales"))


def test_what_the_plan_knows_exactly_is_said_by_itself_once() -> None:
    """By hand: the draw is 12 x 100 in every season, so there are no marks it could lie between; within a whole unit of
    it an actual is the same, for books are typed to the unit."""
    told = [{"year": 2024, "draw": 1_300.0}, {"year": 2025, "draw": 1_100.0}, {"year": 2026, "draw": 1_200.4, "sales": 10_000.0}]
    plan = with_past(*told, species={"year_sd": 0.2})
    found = sr.past_years(plan, kept(plan))
    page = " ".join(str(found).split())

    assert [len(year.outside) for year in found.years] == [1, 1, 0]
    assert [figure.spread for figure in found.years[2].figures] == [True, False]
    assert "The figure that the model spreads lies within the 1-in-10 marks." in page
    assert "Draw: 1,200 GBP in the plan, without luck or guess; it came to 1,300 in 2024, 1,100 in 2025." in page


def test_a_figure_that_is_mostly_one_value_is_not_taken_for_known_exactly() -> None:
    """Repairs come in few seasons: 8 in 10 simulated ones have the same bill of 0, and yet it is luck."""
    breakdown = {"kind": "engine", "per_100_days": 0.05, "repair": 500.0, "days_lost": 0.0}
    plan = bare(household={"draw_per_month": 100.0}, boat={"breakdown": [breakdown]})
    plan["past_year"] = [{"year": 2026, "repairs": 800.0}]
    told = sr.Plan.parse(text(plan))
    run = kept(told)
    (figure,) = sr.past_years(told, run).years[0].figures

    assert np.quantile(run["repairs"], [0.1, 0.9]).tolist() == [0.0, 0.0]
    assert run["repairs"].max() > 0.0
    assert figure.spread
    assert "without luck or guess" not in str(sr.past_years(told, run))
    assert "800 GBP is above the 1-in-10 mark of 0 GBP" in " ".join(str(sr.past_years(told, run)).split())


def test_a_run_in_another_money_is_refused() -> None:
    told = with_past({"year": 2027, "sales": 8_000.0})
    run = kept(with_past(business={"money": "EUR"}), told, histories=8)

    with pytest.raises(ValueError, match="is in EUR, and the plan tells of GBP"):
        sr.what_happened(run, told)
