# SPDX-License-Identifier: MIT
"""The account by month, against hand-made years and the usual page."""

from __future__ import annotations

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk.credit import working_capital_columns
from small_plan import bare, text


def hand_made() -> sr.Plan:
    """By hand: 100 days from 1 June bring 100 each at once; 900 of bills in April, 50 a month for the household, 1,000
    for the loan each October; the account begins with 600 and may go 200 below nothing."""
    plan = bare(business={"opening_cash": 600.0, "overdraft_limit": 200.0}, household={"draw_per_month": 50.0})
    plan["boat"][0]["standing"] = [{"name": "bills", "amount": 900.0, "month": "apr"}]
    plan["loan"] = [{"name": "boat", "balance": 5_000.0, "rate_fraction": 0.0, "years_left": 5, "months": ["oct"]}]
    return sr.Plan.parse(text(plan))


def test_a_hand_made_year() -> None:
    """March 550, April -400, May -450, then 3,000 in June; the loan in October: change -1,050, without it -50."""
    plan = hand_made()
    found = sr.working_capital(sr.simulate(plan, histories=8, key=1))
    by_month = {flow.month: flow for flow in found.calendar}

    assert [by_month[month].change.value for month in ("2027-03", "2027-04", "2027-05", "2027-06")] == pytest.approx([-50.0, -950.0, -50.0, 2_950.0])
    assert by_month["2027-10"].loan_payments == pytest.approx(1_000.0)
    assert by_month["2027-10"].change.value == pytest.approx(-1_050.0)
    assert by_month["2027-10"].before_payments.value == pytest.approx(-50.0)
    assert sum(flow.loan_payments for flow in found.calendar) == pytest.approx(1_000.0)
    assert found.lowest_month.month == "2027-05"
    assert found.lowest.value == found.lowest_bad.value == pytest.approx(-450.0)
    assert found.facility.value == pytest.approx(450.0)
    assert found.limit == 200.0
    assert found.beyond_limit.value == 1.0
    assert [flow.month for flow in found.calendar if flow.below_limit.value == 1.0] == ["2027-04", "2027-05"]


def test_an_account_that_never_goes_below_nothing_asks_for_no_overdraft() -> None:
    found = sr.working_capital(sr.simulate(sr.Plan.parse(text(bare())), histories=8, key=1))

    assert found.facility.value == 0.0
    assert "ask for no overdraft" in " ".join(str(found).split())


def test_the_facility_is_enough_in_nine_of_ten(run: sr.Run) -> None:
    """Definition: nine tenths of the histories stay within it at every month end, and fewer within a penny less."""
    found = sr.working_capital(run)
    drawn_on = -run["lowest_cash"]

    assert np.mean(drawn_on <= found.facility.value) >= 0.9
    assert np.mean(drawn_on <= found.facility.value - 0.01) < 0.9


def test_the_changes_add_up_to_what_the_account_closes_with(plan: sr.Plan, run: sr.Run) -> None:
    found = sr.working_capital(run)

    assert plan["business.opening_cash"] + sum(flow.change.value for flow in found.calendar) == pytest.approx(run.mean("closing_cash").value)
    paid = sum(flow.loan_payments for flow in found.calendar)
    assert paid == pytest.approx(run.mean("loan_payments").value, abs=0.005)


def test_it_needs_no_column_that_is_not_usual(plan: sr.Plan) -> None:
    usual = sr.simulate(plan, histories=10, key=1)

    assert set(working_capital_columns(plan)) <= set(usual.columns)
    with pytest.raises(ValueError, match=r"did not keep .*working_capital_columns\(plan\)"):
        sr.working_capital(sr.simulate(plan, histories=10, key=1, keep="household"))


def test_the_page_says_when_how_low_and_what_it_asks_for(run: sr.Run) -> None:
    page = str(sr.working_capital(run))

    assert "lowest most often at the end of Jun 2027" in page
    assert "is enough at the month ends of 9 in 10" in page
    assert max(map(len, page.splitlines())) <= 100
