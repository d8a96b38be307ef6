# SPDX-License-Identifier: MIT
"""Loans over their life, against published payments, hand-made values and what a run pays."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
import seasonrisk as sr
from conftest import ROOT
from seasonrisk.credit import over_loan_life
from seasonrisk.credit.assets import assets_bought, wear_of_year
from small_plan import bare, text

PENNY = 0.005
THREE_BOATS = ROOT / "examples/plans/three_boats_five_years.toml"


def with_loans(*loans: dict[str, Any], **sections: Any) -> sr.Plan:
    plan = bare(**sections)
    plan["loan"] = list(loans)
    return sr.Plan.parse(text(plan))


def asset(name: str = "the boat", **keys: Any) -> dict[str, Any]:
    return {"name": name, "cost": 100_000.0, "bought": date(2017, 3, 1), "life_years": 25.0, "resale": 20_000.0, **keys}


@pytest.mark.parametrize(
    ("balance", "rate", "years", "payment"),
    [(60_000.0, 0.085, 10, 9144.46), (77_000.0, 0.09, 8, 13911.93), (40_000.0, 0.085, 8, 7093.23)],
)
def test_a_yearly_loan_pays_the_level_payment_until_nothing_is_owed(balance: float, rate: float, years: int, payment: float) -> None:
    """Standard annuity; the payments were worked out apart."""
    (loan,) = sr.loans(with_loans({"name": "boat", "balance": balance, "rate_fraction": rate, "years_left": years, "months": ["oct"]})).loans

    assert [year.payments for year in loan.years] == pytest.approx([payment] * years, abs=PENNY)
    assert loan.years[0].interest == pytest.approx(balance * rate, abs=PENNY)
    assert loan.years[0].season == 2027
    assert loan.years[-1].balance == pytest.approx(0.0, abs=PENNY)
    assert loan.payment_months == tuple(7 + 12 * year for year in range(years))
    assert loan.last_payment == f"{2026 + years}-10"


def test_a_monthly_loan_pays_the_published_payment() -> None:
    """FIN-01: 200,000 over 15 years at 7.5% is 1,854.0247 a month (numpy-financial, docstring of pmt)."""
    (loan,) = sr.loans(with_loans({"name": "boat", "balance": 200_000.0, "rate_fraction": 0.075, "years_left": 15})).loans

    assert loan.payments == pytest.approx([1854.0247200054619] * 180, abs=1e-6)


def test_the_table_is_what_a_run_pays() -> None:
    """Source: the engine's own books. The shipped plan of three boats has loans paid monthly, twice a year, and with
    interest alone at first."""
    plan = sr.Plan.read(THREE_BOATS)
    seasons = range(2027, 2032)
    keep = [*(f"loan_payments.{y}" for y in seasons), *(f"loan_interest.{y}" for y in seasons), "loan_balance"]
    run = sr.simulate(plan, histories=4, key=1, keep=keep)
    found = sr.loans(plan)

    for season in seasons:
        interest, principal, balance = found.total(season)
        assert interest == pytest.approx(run[f"loan_interest.{season}"][0], abs=PENNY)
        assert interest + principal == pytest.approx(run[f"loan_payments.{season}"][0], abs=PENNY)
    assert balance == pytest.approx(run["loan_balance"][0], abs=PENNY)


def test_what_is_held_against_a_loan_wears_from_the_survey_on() -> None:
    """By hand: 100,000 worn to 20,000 over 25 years loses 3,200 a year of 365.25 days. On 1 March 2027 the asset is
    3,652 days old and worth 68,004.38; the survey says 60,000. A year later it is 4,018 days old and worth 64,797.81, so
    the survey's value is 60,000 x 64,797.81 / 68,004.38 = 57,170.86, and half of it in a hurry."""
    loan = {"name": "boat", "balance": 40_000.0, "rate_fraction": 0.0, "years_left": 4, "secured_on": "the boat", "months": ["oct"]}
    second = {"name": "gear", "balance": 6_000.0, "rate_fraction": 0.0, "years_left": 2, "secured_on": "the boat", "months": ["nov"]}
    plan = bare()
    plan["loan"] = [loan, second]
    plan["asset"] = [asset(survey_value=60_000.0, forced_sale_fraction=0.5)]
    boat, gear = sr.loans(sr.Plan.parse(text(plan))).loans

    first = boat.years[0]
    assert first.security_value == pytest.approx(57_170.86, abs=0.01)
    assert first.forced_value == pytest.approx(28_585.43, abs=0.01)
    assert first.balance == pytest.approx(30_000.0)
    assert first.owed_on_it == gear.years[0].owed_on_it == pytest.approx(33_000.0)
    assert first.owed_to_forced == pytest.approx(33_000.0 / 28_585.43, abs=1e-6)
    assert boat.years[2].owed_on_it == pytest.approx(10_000.0)  # the other is paid off


def test_what_the_plan_does_not_tell_of_a_security_is_not_made_up() -> None:
    loan = {"name": "boat", "balance": 40_000.0, "rate_fraction": 0.05, "years_left": 4, "secured_on": "the boat"}
    bare_plan = bare()
    bare_plan["loan"] = [{key: value for key, value in loan.items() if key != "secured_on"}]
    (nothing,) = sr.loans(sr.Plan.parse(text(bare_plan))).loans
    plan = bare()
    plan["loan"], plan["asset"] = [loan], [asset()]
    (unsurveyed,) = sr.loans(sr.Plan.parse(text(plan))).loans

    assert nothing.years[0].security_value is None
    assert nothing.years[0].forced_value is None
    assert unsurveyed.years[0].security_value == pytest.approx(64_797.81, abs=0.01)  # worn cost, by hand above
    assert unsurveyed.years[0].owed_to_forced is None
    assert "  -" in str(sr.loans(sr.Plan.parse(text(plan))))


def test_wear_of_a_year_by_hand() -> None:
    """3,200 a year of 365.25 days: 366 days wear 3,206.57. The new one, bought on 1 September 2027 for 5,000 to be worth
    nothing in 10 years, wears 182 of 3,652.5 days: 249.14, then a whole year."""
    plan = bare(business={"years": 2})
    plan["asset"] = [asset(), asset("hauler", cost=5_000.0, bought=date(2027, 9, 1), life_years=10.0, resale=0.0)]
    parsed = sr.Plan.parse(text(plan))

    assert wear_of_year(parsed, 0) == pytest.approx(3_206.57 + 249.14, abs=0.01)
    assert wear_of_year(parsed, 1) == pytest.approx(3_197.81 + 499.66, abs=0.01)
    assert assets_bought(parsed) == 5_000.0


def test_a_guess_is_named_and_taken_as_typical() -> None:
    loan = {"name": "boat", "balance": 12_000.0, "rate_fraction": {"low": 0.04, "typical": 0.06, "high": 0.09}, "years_left": 2, "months": ["oct"]}
    found = sr.loans(with_loans(loan))

    assert found.loans[0].guesses == ("rate_fraction",)
    assert found.loans[0].years[0].interest == pytest.approx(720.0)
    assert "rate_fraction: a guess" in " ".join(str(found).split())


def test_a_plan_without_loans_says_so() -> None:
    found = sr.loans(sr.Plan.parse(text(bare())))

    assert found.loans == found.seasons == ()
    assert "no loan" in " ".join(str(found).split())


def test_a_plan_over_the_life_of_its_loans() -> None:
    plan = with_loans({"name": "boat", "balance": 1_000.0, "rate_fraction": 0.05, "years_left": 3.5})

    assert over_loan_life(plan)["business.years"] == 4
    assert over_loan_life(over_loan_life(plan))["business.years"] == 4
    bare_plan = sr.Plan.parse(text(bare()))
    assert over_loan_life(bare_plan) is bare_plan


def test_an_early_repayment_shortens_the_loan_and_a_moving_rate_is_said() -> None:
    """By hand: 1,000 a year without interest; 2,500 repaid in the first May leave 1,500 after the first October: two more."""
    loan = {
        "name": "boat", "balance": 5_000.0, "rate_fraction": 0.0, "years_left": 5, "months": ["oct"],
        "rate_change_sd_per_year_fraction": 0.01, "repay": [{"date": date(2027, 5, 20), "amount": 2_500.0}],
    }  # fmt: skip
    found = sr.loans(with_loans(loan, business={"years": 2}))
    (boat,) = found.loans

    assert [year.payments for year in boat.years] == pytest.approx([1_000.0, 1_000.0, 500.0])
    assert [year.repaid_early for year in boat.years] == [2_500.0, 0.0, 0.0]
    assert boat.rate_moves
    page = " ".join(str(found).split())
    assert "2,500 GBP of it is repaid early" in page
    assert "The rate may move with each money year; here it stays as it is." in page


def test_coverage_over_the_life_of_a_loan_leaves_no_loan_open() -> None:
    plan = over_loan_life(with_loans({"name": "boat", "balance": 3_000.0, "rate_fraction": 0.05, "years_left": 3, "months": ["oct"]}))
    found = sr.coverage(sr.simulate(plan, histories=8, key=1, keep=sr.coverage_columns(plan)))

    assert len(found.years) == 3
    assert found.loans_go_on == ()
