# SPDX-License-Identifier: MIT
"""Coverage in both forms, missed payments and who covers a short year, on plans with answers known from outside."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from season_checks import entries
from seasonrisk import _core
from seasonrisk.credit.gives_first import opening_cash, overdraft_limit
from small_plan import bare, text

needs_checks = pytest.mark.skipif(not entries(), reason="the outside checks are not beside the repository")


def covered(plan: sr.Plan, histories: int = 8, key: int = 1) -> sr.Coverage:
    return sr.coverage(sr.simulate(plan, histories=histories, key=key, keep=sr.coverage_columns(plan)))


def entry_plan(name: str) -> sr.Plan:
    return sr.Plan.parse(entries()[name]["plan"])


def expected(name: str, quantity: str, year: int | None = None) -> float:
    return next(f["value"] for f in entries()[name]["expected"] if f["quantity"] == quantity and f["year"] == year)


def in_debt(**sections: Any) -> dict[str, Any]:
    """100 days of sales of 100, so 10,000 a year; a loan of 5,000 without interest, 1,000 a year each October."""
    plan = bare(**sections)
    plan["loan"] = [{"name": "boat", "balance": 5_000.0, "rate_fraction": 0.0, "years_left": 5, "months": ["oct"]}]
    return plan


@needs_checks
def test_two_years_worked_out_apart_meet_both_ratios() -> None:
    """Source: month-cash-path of the outside season checks; no overdraft interest there, so both readings agree."""
    found = covered(entry_plan("month-cash-path"))

    for year, one in enumerate(found.years):
        assert one.before_household is not None
        assert one.after_household is not None
        assert one.before_household.median.value == pytest.approx(expected("month-cash-path", "coverage before the household", year), abs=1e-6)
        assert one.after_household.median.value == pytest.approx(expected("month-cash-path", "coverage after the household", year), abs=1e-6)
        assert one.before_household.median.exact


@needs_checks
def test_interest_on_the_overdraft_comes_off_net_income_and_is_not_added_back() -> None:
    """Source: starting-on-the-overdraft. The check's own ratio after the household, (standing + other income - draw -
    tax) / payments, leaves that interest out; the Farm Financial Standards Council's adds back interest on term debt alone,
    so ours is lower by overdraft interest / payments, 218.2496 / 2,595.78. The plan opens 4,000 overdrawn (its text)."""
    name = "starting-on-the-overdraft"
    found = covered(entry_plan(name)).years[0]
    interest, payments = expected(name, "overdraft interest"), expected(name, "loan payments")

    assert found.before_household is not None
    assert found.after_household is not None
    assert found.before_household.median.value == pytest.approx(expected(name, "coverage before the household"), abs=1e-6)
    assert found.after_household.median.value == pytest.approx(expected(name, "coverage after the household") - interest / payments, abs=1e-5)
    capacity = found.capacity.median.value
    assert found.repayment_margin.median.value == pytest.approx(capacity - payments - 4_000.0, abs=0.01)


@needs_checks
def test_four_years_of_payments_fall_below_one_as_often_as_they_should() -> None:
    """Source: four-years-of-payments of the outside season checks, by quadrature of an autoregression. That plan has no
    overdraft interest, so its loan rung is missed exactly where the commercial ratio is below 1. Tolerance: 4 errors of
    40,000 histories; one figure in 16,000 keys falls outside by chance."""
    name, n = "four-years-of-payments", 40_000
    plan = entry_plan(name)
    run = sr.simulate(plan, histories=n, key=20270601, keep=sr.coverage_columns(plan))
    found = sr.coverage(run)

    for year, one in enumerate(found.years):
        below = 1.0 - expected(name, "loan", year) if year == 0 else 1.0 - 0.883029
        assert one.before_household is not None
        assert abs(one.before_household.below_1.value - below) < 4.0 * math.sqrt(below * (1.0 - below) / n)
    both = expected(name, "chance it is missed in both year 0 and year 1")
    seen = _core.missed_twice([run["loan.2027"], run["loan.2028"]]).mean()
    assert abs(seen - both) < 4.0 * math.sqrt(both * (1.0 - both) / n)
    # In two years running some time in four: more often than in the first two, and than independent years would give.
    assert found.two_bad_years is not None
    assert found.two_bad_years.value > both > 0.116971**2


def test_a_hand_made_year_in_both_forms() -> None:
    """By hand: sales 10,000, bills 3,000: standing 7,000. Tax 10 in 100 of it, 700 (no interest, no allowance); draw 400
    a month, other income 100 a month: capacity 7,000 + 1,200 - 4,800 - 700 = 2,700. Payments 1,000: 7.0 and 2.7; no
    assets, so both margins are 1,700. Left after everything: 1,700, so no year is short."""
    plan = in_debt(household={"draw_per_month": 400.0, "other_income_per_month": 100.0, "tax_fraction": 0.1, "tax_months": ["jan"]})
    plan["boat"][0]["standing"] = [{"name": "bills", "amount": 3_000.0, "month": "apr"}]
    found = covered(sr.Plan.parse(text(plan)))
    year = found.years[0]

    assert year.before_household is not None
    assert year.after_household is not None
    assert year.before_household.median.value == pytest.approx(7.0)
    assert year.after_household.median.value == pytest.approx(2.7)
    assert year.repayment_margin.median.value == year.replacement_margin.median.value == pytest.approx(1_700.0)
    assert (year.after_household.below_1.value, year.after_household.below_1_25.value) == (0.0, 0.0)
    assert found.missed is not None
    assert found.missed.value == 0.0
    assert math.isnan(found.gives_first.shortage.value)
    assert found.two_bad_years is None
    assert found.loans_go_on == (("boat", "2031-10"),)


def test_a_year_without_payments_has_no_ratio_and_the_page_says_so() -> None:
    found = covered(sr.Plan.parse(text(bare())))

    assert found.years[0].before_household is None
    assert found.years[0].after_household is None
    assert found.missed is None
    assert found.worst_year is None
    page = str(found)
    assert "no payments" in page
    assert "No loan payment falls due" in page
    assert not {"inf", "nan"} & set(page.replace(",", " ").split())


def test_a_loan_paid_off_on_the_way_leaves_later_years_without_a_ratio() -> None:
    plan = in_debt(business={"years": 3})
    plan["loan"][0]["years_left"] = 2
    found = covered(sr.Plan.parse(text(plan)))

    assert [year.before_household is None for year in found.years] == [False, False, True]
    assert found.years[2].missed is None
    assert found.loans_go_on == ()


def test_who_covers_a_short_year_by_hand() -> None:
    """By hand: sales 10,000, payments 1,000, draw 15,000, other income 2,400: 3,600 short each year. In the account when
    the first year begins: 500; the overdraft goes to 1,000. First year: reserve 500, overdraft 1,000, household 2,100 of
    the 12,600 by which the draw exceeds other income. It ends 3,100 overdrawn, so in the second year nothing is left of
    either: household 3,600. Two years together: 7,200 = 500 + 1,000 + 5,700."""
    plan = in_debt(
        business={"opening_cash": 500.0, "overdraft_limit": 1_000.0, "years": 2},
        household={"draw_per_month": 1_250.0, "other_income_per_month": 200.0},
    )
    found = covered(sr.Plan.parse(text(plan)))
    given = {coverer.name: coverer.mean.value for coverer in found.gives_first.coverers}

    assert given == pytest.approx({"reserve": 500.0, "overdraft": 1_000.0, "household": 5_700.0, "other_income": 0.0, "nobody": 0.0})
    assert found.gives_first.shortage.value == pytest.approx(7_200.0)
    assert [(season, short.value, mean.value) for season, short, mean in found.gives_first.by_year] == [(2027, 1.0, pytest.approx(3_600.0)), (2028, 1.0, pytest.approx(3_600.0))]
    assert found.two_short_years is not None
    assert found.two_short_years.value == 1.0
    assert found.two_bad_years is not None
    assert found.two_bad_years.value == 0.0  # the loan itself is covered


def test_a_payment_is_missed_in_its_own_month_alone() -> None:
    """By hand: the account starts with nothing, sales of 10,000 come 120 days late, so the year's draw is not met until
    late September; the loan is paid in October, or in August. Only the second is missed."""
    def missed(month: str) -> float:
        plan = in_debt(business={"opening_cash": 0.0, "overdraft_limit": 100.0}, household={"draw_per_month": 50.0}, outlet={"paid_after_days": 120})
        plan["loan"][0]["months"] = [month]
        found = covered(sr.Plan.parse(text(plan)))
        assert found.missed is not None
        return found.missed.value

    assert missed("oct") == 0.0
    assert missed("aug") == 1.0


def test_the_parts_add_up_to_the_shortage(plan: sr.Plan, run: sr.Run) -> None:
    found = sr.coverage(run).gives_first

    assert sum(coverer.mean.value for coverer in found.coverers) == pytest.approx(found.shortage.value, rel=1e-9)
    assert found.chance.value == pytest.approx(1.0 - run.chance("household").value)
    assert found.shortage.value == pytest.approx(run.shortfall_when_missed("household").value)


def test_an_opening_balance_that_is_a_guess_is_taken_as_it_was_drawn() -> None:
    """Without other luck the first month end is the opening balance and a constant (here 100 a month is drawn)."""
    plan = in_debt(household={"draw_per_month": 100.0}, business={"years": 2, "opening_cash": {"low": 1_000.0, "typical": 3_000.0, "high": 6_000.0}})
    plan["business"]["overdraft_limit"] = {"low": 500.0, "typical": 1_000.0, "high": 1_500.0}
    parsed = sr.Plan.parse(text(plan))
    run = sr.simulate(parsed, histories=500, key=3, keep=sr.coverage_columns(parsed))
    opened = opening_cash(run, 0)

    assert opened - 100.0 == pytest.approx(run["cash.2027-03"], abs=1e-6)
    assert np.std(opened) > 1_000.0
    assert run["lowest_cash"] + overdraft_limit(run) == pytest.approx(run["cash_room"], abs=1e-9)


def test_a_run_that_did_not_keep_the_columns_is_told_how(plan: sr.Plan) -> None:
    with pytest.raises(ValueError, match=r"did not keep .*loan_payments.*coverage_columns\(plan\)"):
        sr.coverage(sr.simulate(plan, histories=10, key=1, keep="household"))
    with pytest.raises(TypeError, match="must be a Run"):
        sr.coverage(plan)  # type: ignore[arg-type]


def test_the_page_shows_both_forms_by_name(run: sr.Run) -> None:
    page = str(sr.coverage(run))

    assert "Commercial form: cash available before the owner's living and tax" in page
    assert "Farm-finance form: repayment capacity after the owner's living and tax" in page
    assert max(map(len, page.splitlines())) <= 100
    assert "<table>" in sr.coverage(run)._repr_html_()
