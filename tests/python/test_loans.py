# SPDX-License-Identifier: MIT
"""Loans that move or are repaid early, and payments missed. Expected values by the annuity formula (common practice,
L = B i / (1 - (1 + i)^-n) of balance B at i a payment over n payments); figures are invented."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from small_plan import bare, text

LOAN = {"name": "boat", "balance": 12000.0, "rate_fraction": 0.06, "years_left": 4}
HISTORIES = 400


def with_loan(years: int = 4, *, cash: float = 10000.0, limit: float = 0.0, **keys: Any) -> sr.Plan:
    """A boat that fishes for nothing: 100 days at 1 GBP a day, so that the loan is what moves the account."""
    plan = bare(business={"years": years, "opening_cash": cash, "overdraft_limit": limit}, outlet={"price": {"crab": 0.01}})
    return sr.Plan.parse(text(plan | {"loan": [LOAN | keys]}))


def level(balance: float, rate: float, payments: int) -> float:
    return balance / payments if rate == 0.0 else balance * rate / (1.0 - (1.0 + rate) ** -payments)


def owed_after(balance: float, rate: float, payment: float, paid: int) -> float:
    """Balance after so many payments (annuity formula)."""
    growth = (1.0 + rate) ** paid
    return balance * growth - payment * (growth - 1.0) / rate


def one(plan: sr.Plan, *names: str) -> list[float]:
    run = sr.simulate(plan, histories=1, key=3, keep=list(names))
    return [float(run[name][0]) for name in names]


def test_balance_interest_and_principal_by_year() -> None:
    """12,000 at 0.5 in 100 a month over 48 months: 281.82 a month."""
    payment = level(12000.0, 0.005, 48)
    names = [f"{name}.{year}" for year in (2027, 2028, 2029, 2030) for name in ("loan_balance", "loan_principal", "loan_interest")]
    found = dict(zip(names, one(with_loan(), *names), strict=True))

    before = 12000.0
    for n, year in enumerate((2027, 2028, 2029, 2030)):
        after = owed_after(12000.0, 0.005, payment, 12 * (n + 1))
        assert found[f"loan_balance.{year}"] == pytest.approx(after, abs=1e-7)
        assert found[f"loan_principal.{year}"] == pytest.approx(before - after, abs=1e-7)
        assert found[f"loan_interest.{year}"] == pytest.approx(12.0 * payment - (before - after), abs=1e-7)
        before = after
    assert payment == pytest.approx(281.82, abs=0.005)


def test_an_early_repayment_leaves_the_payments_and_ends_them_sooner() -> None:
    """5,000 repaid after the twelfth payment: the payments needed are n = -ln(1 - B i / L) / ln(1 + i) more."""
    payment = level(12000.0, 0.005, 48)
    left = owed_after(12000.0, 0.005, payment, 12) - 5000.0
    more = -math.log(1.0 - left * 0.005 / payment) / math.log(1.005)
    last = owed_after(left, 0.005, payment, int(more)) * 1.005  # what is owed at the payment after the last full one
    plan = with_loan(repay=[{"date": date(2028, 2, 10), "amount": 5000.0}])

    paid, early, first, second, end = one(
        plan, "loan_payments", "loan_repaid_early", "loan_balance.2027", "loan_payments.2028", "loan_balance"
    )

    assert early == 5000.0
    assert first == pytest.approx(left, abs=1e-7)
    assert second == pytest.approx(12.0 * payment, abs=1e-7)
    assert paid == pytest.approx((12 + int(more)) * payment + last, abs=1e-6)
    assert 12 + int(more) < 47
    assert end == pytest.approx(0.0, abs=1e-9)


def test_no_more_is_repaid_than_is_owed_and_the_money_is_conserved() -> None:
    plan = with_loan(years=2, cash=20000.0, repay=[{"date": date(2027, 3, 31), "amount": 50000.0}])
    payment, interest = level(12000.0, 0.005, 48), 60.0

    paid, early, end, closing, household, tax = one(
        plan, "loan_payments", "loan_repaid_early", "loan_balance", "closing_cash", "household", "tax"
    )

    assert (paid, early) == (pytest.approx(payment), pytest.approx(12000.0 - (payment - interest)))
    assert (end, tax) == (0.0, 0.0)
    assert closing == pytest.approx(20000.0 + household - early)


def test_tax_follows_the_interest_that_is_left() -> None:
    """Repaid at once, so that 60 of interest is all there is: tax is 0.2 of (standing - 60); standing is 100."""
    plan = bare(business={"opening_cash": 20000.0}, outlet={"price": {"crab": 0.01}})
    plan |= {
        "household": {"tax_fraction": 0.2, "tax_months": ["jan"]},
        "loan": [LOAN | {"repay": [{"date": date(2027, 3, 1), "amount": 12000.0}]}],
    }

    assert one(sr.Plan.parse(text(plan)), "tax")[0] == pytest.approx(0.2 * 40.0)


def test_a_rate_that_moves_starts_as_stated_and_each_year_is_the_annuity_at_its_own_rate() -> None:
    """Interest of a year over that year's balance tells the rate; payment and balance follow by the formula."""
    plan = with_loan(years=3, rate_change_sd_per_year_fraction=0.01)
    names = [f"{name}.{year}" for year in (2027, 2028, 2029) for name in ("loan_balance", "loan_payments", "loan_interest")]
    run = sr.simulate(plan, histories=HISTORIES, key=3, keep=names)
    payment = level(12000.0, 0.005, 48)

    np.testing.assert_allclose(run["loan_payments.2027"], 12.0 * payment, rtol=1e-12)
    steps = []
    for history in range(HISTORIES):
        rate, balance = 0.06, run["loan_balance.2027"][history]
        for year, left in ((2028, 36), (2029, 24)):
            found = rate_of(balance, run[f"loan_payments.{year}"][history] / 12.0, left)
            after = owed_after(balance, found, level(balance, found, left), 12)
            assert run[f"loan_balance.{year}"][history] == pytest.approx(after, abs=1e-5)
            steps.append(12.0 * found - rate)
            rate, balance = 12.0 * found, run[f"loan_balance.{year}"][history]
    assert np.mean(steps) == pytest.approx(0.0, abs=4.0 * 0.01 / math.sqrt(len(steps)))
    assert np.std(steps) == pytest.approx(0.01, abs=4.0 * 0.01 / math.sqrt(2 * len(steps)))


def rate_of(balance: float, payment: float, payments: int) -> float:
    """The rate a payment at which the level payment is this one, by halving."""
    low, high = 1e-9, 1.0
    for _ in range(200):
        middle = (low + high) / 2.0
        low, high = (low, middle) if level(balance, middle, payments) > payment else (middle, high)
    return low


def test_a_rate_never_falls_below_0_and_one_that_may_not_move_stays() -> None:
    wild = sr.simulate(with_loan(rate_change_sd_per_year_fraction=0.5), histories=HISTORIES, key=3, keep=["loan_interest.2028"])
    still = sr.simulate(with_loan(rate_change_sd_per_year_fraction=0.0), histories=HISTORIES, key=3, keep=["loan_interest.2028"])

    assert (wild["loan_interest.2028"] >= 0.0).all()
    assert 0.3 < (wild["loan_interest.2028"] == 0.0).mean() < 0.6  # P(z < -0.12) = 0.452
    assert np.ptp(still["loan_interest.2028"]) == 0.0


def test_a_rate_moves_alone_and_moves_no_other_luck() -> None:
    plan = bare(business={"years": 3}, weather={"unfishable_fraction": 0.3}, species={"year_sd": 0.2})
    loans = [LOAN, LOAN | {"name": "hauler"}]
    still = sr.Plan.parse(text(plan | {"loan": loans}))
    moving = still.replace({"loan.1.rate_change_sd_per_year_fraction": 0.02})
    keep = ["sales", "days_fished", "running"]
    run, plain = (sr.simulate(one_plan, histories=100, key=3, keep=[*keep, "loan_interest"]) for one_plan in (moving, still))

    assert all((run[name] == plain[name]).all() for name in keep)
    assert (run["loan_interest"] != plain["loan_interest"]).any()


def test_a_loan_with_luck_behind_it_is_not_taken_out() -> None:
    """The moves of a rate are addressed by the loan's place."""
    plan = bare(business={"years": 2}) | {"loan": [LOAN, LOAN | {"name": "hauler", "rate_change_sd_per_year_fraction": 0.01}]}

    with pytest.raises(sr.PlanError, match="would move up and meet other luck"):
        sr.Plan.parse(text(plan)).choose({"loan.0": None})


def test_a_missed_payment_is_a_month_end_beyond_the_overdraft_with_a_payment_due() -> None:
    """1,000 in hand, an overdraft of 500, 300 due each month and 1 a day from June to 8 September: 30, 31, 31 and 8.

    March 700, April 400, May 100, June -170, July -439, August -708, September -1,000, and 300 less each month to
    February, -2,500: seven month ends lie beyond -500, the farthest by 2,000.
    """
    plan = with_loan(years=1, cash=1000.0, limit=500.0, balance=3600.0, rate_fraction=0.0, years_left=1)

    missed, shortfall, room = one(plan, "missed_payments", "shortfall", "cash_room")

    assert (missed, shortfall, room) == (pytest.approx(7.0), pytest.approx(2000.0), pytest.approx(-2000.0))


def test_a_month_without_a_payment_misses_none() -> None:
    """600 in June and December alone, an account that is beyond its overdraft from June on: two are missed."""
    plan = with_loan(years=1, cash=0.0, limit=100.0, balance=1200.0, rate_fraction=0.0, years_left=1, months=["jun", "dec"])

    missed, shortfall = one(plan, "missed_payments", "shortfall")

    assert (missed, shortfall) == (2.0, pytest.approx(1000.0))


def test_lowest_cash_and_shortfall_by_money_year() -> None:
    """1,000 in hand, 1,200 a year paid, 100 earned: lowest -100 and -1,200; 0 and 200 beyond an overdraft of 1,000."""
    plan = with_loan(years=2, cash=1000.0, limit=1000.0, balance=2400.0, rate_fraction=0.0, years_left=2)
    names = [f"{name}.{year}" for name in ("lowest_cash", "shortfall", "missed_payments") for year in (2027, 2028)]

    assert one(plan, *names, "missed_payments", "shortfall") == pytest.approx([-100.0, -1200.0, 0.0, 200.0, 0.0, 2.0, 2.0, 200.0])


def test_cash_that_holds_misses_nothing() -> None:
    assert one(with_loan(cash=50000.0), "missed_payments", "shortfall", "shortfall.2029") == [0.0, 0.0, 0.0]
