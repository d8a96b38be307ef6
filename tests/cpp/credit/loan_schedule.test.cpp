// SPDX-License-Identifier: MIT
#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "ensemble/invented_plan.hpp"

#include "seasonrisk/credit/loan_schedule.hpp"
#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/season/bills.hpp"

using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

namespace {

constexpr double k_penny = 0.005;
constexpr Date k_march = std::chrono::sys_days{std::chrono::year{2027} / 3 / 1};
constexpr Date k_january = std::chrono::sys_days{std::chrono::year{2027} / 1 / 1};

Loan<double> loan_of(double balance, double rate, double years, std::vector<unsigned> months = {}, double interest_only_months = 0.0) {
    Loan<double> loan;
    loan.balance = balance;
    loan.rate_fraction = rate;
    loan.years_left = years;
    loan.months = std::move(months);
    loan.interest_only_months = interest_only_months;
    return loan;
}

double paid(const LoanYear& year) { return year.interest + year.principal; }
double paid(const LoanPayment& payment) { return payment.interest + payment.principal; }

}  // namespace

// Source: standard annuity (published extension tables' formula), worked out for three loans of 10 and 8 years.
TEST_CASE("three loans paid once a year pay their published level payment until nothing is owed", "[credit]") {
    struct Case { double balance, rate, years, payment; };
    for (const Case& c : {Case{60'000.0, 0.085, 10.0, 9144.46}, Case{77'000.0, 0.09, 8.0, 13911.93}, Case{40'000.0, 0.085, 8.0, 7093.23}}) {
        CAPTURE(c.balance);
        const LoanSchedule schedule = loan_schedule(loan_of(c.balance, c.rate, c.years, {10}), k_march);
        REQUIRE(schedule.years.size() == static_cast<std::size_t>(c.years));
        double lent = 0.0;
        for (const LoanYear& year : schedule.years) {
            CHECK_THAT(paid(year), WithinAbs(c.payment, k_penny));
            lent += year.principal;
        }
        CHECK_THAT(schedule.years.front().interest, WithinAbs(c.balance * c.rate, 1e-9));
        CHECK_THAT(schedule.years.back().balance, WithinAbs(0.0, 1e-6));
        CHECK_THAT(lent, WithinAbs(c.balance, 1e-6));
        CHECK(schedule.payments.front().month == 7);  // October of a money year from March
    }
}

// FIN-01, FIN-02: numpy-financial (commit f47e8af2), docstring and tests of pmt.
TEST_CASE("FIN-01, FIN-02: monthly loans pay their published payment", "[credit]") {
    const LoanSchedule long_one = loan_schedule(loan_of(200'000.0, 0.075, 15.0), k_march);
    CHECK(long_one.payments.size() == 180);
    for (const LoanPayment& payment : long_one.payments) CHECK_THAT(paid(payment), WithinAbs(1854.0247200054619, 1e-6));
    CHECK_THAT(paid(loan_schedule(loan_of(15'000.0, 0.08, 5.0), k_march).payments[17]), WithinAbs(304.1459143262052, 1e-8));
    CHECK_THAT(paid(loan_schedule(loan_of(15'000.0, 0.0, 5.0), k_march).payments[59]), WithinAbs(250.0, 1e-9));
}

// FIN-04: 5,000, 8,000, 12,000, 30,000 at 8% are worth 43,065.22 (numpy-financial, docstring of npv). FIN-05: the rates
// at which 39, 59, 55, 20 are worth 100, and 15,000 ... 60,000 are worth 150,000 (the same, docstring and tests of irr;
// its other patterns have a negative rate or change sign, and are no loan). Loans with interest alone until their
// last year whose payments together are the pattern must then lend that sum.
TEST_CASE("FIN-04, FIN-05: what a pattern of payments is lent for at a rate is the published worth", "[credit]") {
    struct Case { std::vector<double> payments; double rate, worth, tolerance; };
    const std::vector<Case> cases{{{5'000.0, 8'000.0, 12'000.0, 30'000.0}, 0.08, 43065.22267, k_penny},
                                  {{39.0, 59.0, 55.0, 20.0}, 0.28095, 100.0, 0.01},
                                  {{15'000.0, 25'000.0, 35'000.0, 45'000.0, 60'000.0}, 0.0524, 150'000.0, 30.0}};
    for (const Case& c : cases) {
        CAPTURE(c.rate);
        const std::size_t years = c.payments.size();
        double lent = 0.0;
        std::vector<double> by_year(years, 0.0);
        for (std::size_t n = years; n-- > 0;) {  // the longest first: each year pays interest on all that still runs
            const double balance = (c.payments[n] - c.rate * lent) / (1.0 + c.rate);
            const LoanSchedule schedule = loan_schedule(loan_of(balance, c.rate, static_cast<double>(n + 1), {12}, 12.0 * static_cast<double>(n)), k_january);
            for (std::size_t y = 0; y < schedule.years.size(); ++y) by_year[y] += paid(schedule.years[y]);
            CHECK_THAT(schedule.years.back().balance, WithinAbs(0.0, 1e-6));
            lent += balance;
        }
        for (std::size_t y = 0; y < years; ++y) CHECK_THAT(by_year[y], WithinAbs(c.payments[y], 1e-6));
        // Tolerance of the last two: the published rates have five and four digits.
        CHECK_THAT(lent, WithinAbs(c.worth, c.tolerance));
    }
}

// loan-other: numpy-financial, docstrings of fv and nper. (1 + i)^n of the saver's sum is 1 / (1 - i / payment of 1).
TEST_CASE("loan-other: the months and the sum that the published examples print", "[credit]") {
    const double rate = 0.05 / 12.0, of_one = level_payment(1.0, rate, 120.0);
    CHECK_THAT((100.0 + 100.0 / of_one) / (1.0 - rate / of_one), WithinAbs(15692.92889433575, 1e-6));
    CHECK_THAT(level_payment(8'000.0, 0.07 / 12.0, 64.07335), WithinAbs(150.0, 1e-4));
    CHECK(paid(loan_schedule(loan_of(8'000.0, 0.07, 64.0 / 12.0), k_january).payments[0]) > 150.0);
    CHECK(paid(loan_schedule(loan_of(8'000.0, 0.07, 65.0 / 12.0), k_january).payments[0]) < 150.0);
}

// Source: by hand. 12,000 at 10% over 4 yearly payments, the first two interest alone (24 months): 1,200 twice, then
// 12,000 in two years: 12,000 x 0.1 / (1 - 1.1^-2) = 6,914.2857.
TEST_CASE("interest alone comes first and lies inside the term", "[credit]") {
    const LoanSchedule schedule = loan_schedule(loan_of(12'000.0, 0.10, 4.0, {6}, 24.0), k_march);
    REQUIRE(schedule.years.size() == 4);
    for (const std::size_t y : {0U, 1U}) {
        CHECK_THAT(paid(schedule.years[y]), WithinAbs(1'200.0, 1e-9));
        CHECK(schedule.years[y].balance == 12'000.0);
    }
    for (const std::size_t y : {2U, 3U}) CHECK_THAT(paid(schedule.years[y]), WithinAbs(6914.285714, 1e-6));
    CHECK_THAT(schedule.years[2].balance, WithinAbs(12'000.0 * 1.1 - 6914.285714, 1e-6));
    CHECK_THAT(schedule.years[3].balance, WithinAbs(0.0, 1e-8));
}

// Source: the engine's own books, told by other code: a plan of five years with three kinds of loan.
TEST_CASE("a schedule is what a history of the season pays", "[credit]") {
    Plan plan = tests::invented_plan();
    plan.business.years = 5;
    plan.business.books_start = std::chrono::sys_days{std::chrono::year{2027} / 3 / 1};
    plan.loan.clear();
    const std::vector<Loan<double>> loans{loan_of(32'000.0, 0.08, 6.0), loan_of(48'000.0, 0.085, 2.6, {9, 11}), loan_of(76'000.0, 0.07, 12.0, {}, 15.0)};
    for (const Loan<double>& loan : loans) {
        Loan<Number> in_plan;
        in_plan.name = "loan";
        in_plan.balance = loan.balance;
        in_plan.rate_fraction = loan.rate_fraction;
        in_plan.years_left = loan.years_left;
        in_plan.interest_only_months = loan.interest_only_months;
        in_plan.months = loan.months;
        if (loan.months.empty()) in_plan.repay = {{std::chrono::sys_days{std::chrono::year{2029} / 5 / 9}, 3'000.0}};
        plan.loan.push_back(in_plan);
    }
    RunOptions options;
    options.histories = 1;
    options.keep = {"all"};
    const Outcomes run = simulate(plan, options);
    const std::vector<LoanSchedule> schedules = loan_schedules(plan);
    REQUIRE(schedules.size() == loans.size());
    for (int y = 0; y < 5; ++y) {
        CAPTURE(y);
        double payments = 0.0, interest = 0.0, early = 0.0;
        for (const LoanSchedule& schedule : schedules) {
            if (static_cast<std::size_t>(y) >= schedule.years.size()) continue;
            payments += paid(schedule.years[static_cast<std::size_t>(y)]);
            interest += schedule.years[static_cast<std::size_t>(y)].interest;
            early += schedule.years[static_cast<std::size_t>(y)].repaid_early;
        }
        CHECK_THAT(payments, WithinAbs(run.column("loan_payments." + std::to_string(2027 + y))[0], 1e-6));
        CHECK_THAT(interest, WithinAbs(run.column("loan_interest." + std::to_string(2027 + y))[0], 1e-6));
        CHECK_THAT(early, WithinAbs(run.column("loan_repaid_early." + std::to_string(2027 + y))[0], 1e-6));
    }
}

// Source: by hand. 12,000 without interest over 12 yearly payments of 1,000 each June; 4,000 repaid in October of the
// second year: 12,000 - 2,000 - 4,000 = 6,000 are left for six more payments, four fewer than before. A repayment larger
// than what is owed takes what is owed.
TEST_CASE("an early repayment leaves the payments as they are and ends the loan sooner", "[credit]") {
    Loan<double> loan = loan_of(12'000.0, 0.0, 12.0, {6});
    loan.repay = {{std::chrono::sys_days{std::chrono::year{2028} / 10 / 15}, 4'000.0}};
    const LoanSchedule schedule = loan_schedule(loan, k_march);
    REQUIRE(schedule.years.size() == 8);
    CHECK(schedule.years[1].repaid_early == 4'000.0);
    CHECK_THAT(schedule.years[1].balance, WithinAbs(6'000.0, 1e-9));
    for (const LoanYear& year : schedule.years) CHECK_THAT(paid(year), WithinAbs(1'000.0, 1e-9));
    CHECK_THAT(schedule.years.back().balance, WithinAbs(0.0, 1e-9));

    loan.repay[0].amount = 50'000.0;
    const LoanSchedule all = loan_schedule(loan, k_march);
    REQUIRE(all.years.size() == 2);
    CHECK_THAT(all.years[1].repaid_early, WithinAbs(10'000.0, 1e-9));
    CHECK(all.payments.size() == 2);
}

// Source: the contract.
TEST_CASE("a loan that cannot be is refused by name", "[credit]") {
    CHECK_THROWS_WITH(loan_schedule(loan_of(-1.0, 0.08, 5.0), k_march), Contains("balance=") && Contains("0 or more"));
    CHECK_THROWS_WITH(loan_schedule(loan_of(1.0, -0.08, 5.0), k_march), Contains("rate_fraction="));
    CHECK_THROWS_WITH(loan_schedule(loan_of(1.0, 0.08, 0.0), k_march), Contains("years_left="));
    CHECK_THROWS_WITH(loan_schedule(loan_of(1.0, 0.08, 5.0, {13}), k_march), Contains("months=") && Contains("1 to 12"));
}
