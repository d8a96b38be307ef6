// SPDX-License-Identifier: MIT
#include <cmath>

#include "catch.hpp"
#include "seasonrisk/season/bills.hpp"
#include "seasonrisk/season/crew.hpp"
#include "seasonrisk/season/ledger.hpp"

using namespace seasonrisk;

TEST_CASE("FIN-01, FIN-02: a level payment pays a loan off", "[season]") {
    // FIN-01: 200,000 over 15 years at 7.5% monthly is 1,854.0247 (published; recomputed from the formula).
    CHECK(std::abs(level_payment(200'000.0, 0.075 / 12.0, 180.0) - 1854.0247200054619) < 1e-6);
    // FIN-02: 15,000 at 8% over 60 months 304.1459143, at no interest 250 (numpy-financial's tests of pmt).
    CHECK(std::abs(level_payment(15'000.0, 0.08 / 12.0, 60.0) - 304.1459143262052) < 1e-8);
    CHECK(level_payment(15'000.0, 0.0, 60.0) == 250.0);
    // Yearly payments, by hand: 60,000 at 8.5% over 10; 77,000 at 9% over 8; 40,000 at 8.5% over 8.
    CHECK(std::abs(level_payment(60'000.0, 0.085, 10.0) - 9144.46) < 0.005);
    CHECK(std::abs(level_payment(77'000.0, 0.09, 8.0) - 13911.93) < 0.005);
    CHECK(std::abs(level_payment(40'000.0, 0.085, 8.0) - 7093.23) < 0.005);
}

TEST_CASE("a level payment keeps its digits down to no interest", "[season]") {
    // Oracle: the annuity formula with the standard library's expm1 and log1p in long double.
    for (double rate = 0.5; rate > 1e-18; rate *= 0.37) {
        for (const double payments : {1.0, 2.0, 12.0, 180.0, 720.0}) {
            CAPTURE(rate, payments);
            const long double r = rate;
            const long double exact = 15'000.0L * r / -std::expm1(-static_cast<long double>(payments) * std::log1p(r));
            CHECK(std::abs(level_payment(15'000.0, rate, payments) / static_cast<double>(exact) - 1.0) < 1e-12);
        }
    }
}

TEST_CASE("a share is never below nothing and a bad week leaves nothing to carry", "[season]") {
    WeekFigures week;
    week.sales = Lanes(80.0);
    week.fuel_and_bait = Lanes(140.0);
    week.days_out = Lanes(2.0);
    Lanes pay_of_week;

    find_week_pay(week, PayKind::share_after_bait_and_fuel, Lanes(0.18), pay_of_week);
    CHECK(pay_of_week[0] == 0.0);
    find_week_pay(week, PayKind::share_of_sales, Lanes(0.12), pay_of_week);
    CHECK(std::abs(pay_of_week[0] - 9.60) < 1e-12);
    find_week_pay(week, PayKind::day_wage, Lanes(45.0), pay_of_week);
    CHECK(pay_of_week[0] == 90.0);
    // The week of 30 October of the outside check crew-three-ways: 1,120 - 840 = 280, of which 18% is 50.40.
    week.sales = Lanes(1120.0);
    week.fuel_and_bait = Lanes(840.0);
    find_week_pay(week, PayKind::share_after_bait_and_fuel, Lanes(0.18), pay_of_week);
    CHECK(std::abs(pay_of_week[0] - 50.40) < 1e-12);
}

TEST_CASE("overdraft interest runs by the day and is charged with the month end", "[season]") {
    // By hand, as in the outside check starting-on-the-overdraft: 4,000 x 0.12 x 31 / 365 = 40.767123.
    CashBook cash;
    EarnedBook earned{};
    cash.balance = Lanes(-4000.0);
    cash.interest_due = Lanes(0.0);
    cash.incoming.assign(32, Lanes(0.0));
    for (int day = 0; day < 31; ++day) receive_money_and_accrue(cash, day, Lanes(0.12 / 365.0));

    charge_overdraft(cash, earned);

    CHECK(std::abs(cash.balance[0] + 4040.767123) < 1e-6);
    CHECK(std::abs(earned.overdraft_interest[0] - 40.767123) < 1e-6);
}

TEST_CASE("the lowest month end is the first of the lowest", "[season]") {
    CashBook cash;
    cash.month_end.resize(4);
    cash.loan_due.assign(4, Lanes(0.0));
    cash.loan_due[0] = cash.loan_due[3] = Lanes(10.0);
    cash.missed_payments = Lanes(0.0);
    cash.lowest_of_year.resize(1);
    cash.shortfall_of_year.resize(1);
    const double ends[4] = {100.0, -20.0, 300.0, -20.0};
    for (int month = 0; month < 4; ++month) {
        cash.balance = Lanes(ends[month]);
        close_month(cash, month, Lanes(15.0));
    }
    CHECK(cash.lowest[0] == -20.0);
    CHECK(cash.lowest_month[0] == 1.0);
    CHECK(cash.room[0] == -5.0);
    CHECK(cash.lowest_of_year[0][0] == -20.0);
    CHECK(cash.shortfall_of_year[0][0] == 5.0);
    CHECK(cash.missed_payments[0] == 1.0);  // of the two month ends beyond the overdraft one has a payment
}

TEST_CASE("money that falls due after the money year is owed, not lost", "[season]") {
    CashBook cash;
    cash.incoming.assign(11, Lanes(0.0));  // a year of ten days
    expect_money(cash, Lanes(50.0), 4, 3);
    expect_money(cash, Lanes(70.0), 9, 30);
    expect_money(cash, Lanes(5.0), 2, Lanes(100.0));
    expect_money(cash, Lanes(1.0), 2, Lanes(1e12));  // a wild guess of a delay

    CHECK(cash.incoming[7][0] == 50.0);
    CHECK(cash.incoming.back()[0] == 76.0);
}
