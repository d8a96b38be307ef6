// SPDX-License-Identifier: MIT
#include <stdexcept>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/credit/coverage.hpp"
#include "seasonrisk/summary/summary.hpp"

using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

namespace {

using Column = std::vector<double>;

}  // namespace

// Source: by hand, in the words of the Farm Financial Standards Council's worksheet as an extension service prints it.
// Sales 100,000; running costs 55,000; bills and inputs 15,000: standing 30,000. Interest on the loan 4,000, on the
// overdraft 500; wear 6,000: net income 30,000 - 4,500 - 6,000 = 19,500. Other income 5,400, draw 18,000, tax 2,100.
// Capacity 19,500 + 5,400 + 6,000 + 4,000 - 18,000 - 2,100 = 14,800. Payments 10,000: commercial form 30,000 / 10,000
// = 3.00, farm-finance form 1.48. Overdraft brought in 1,300: repayment margin 14,800 - 10,000 - 1,300 = 3,500;
// replacement margin 3,500 - 6,000 = -2,500: payments are met, and nothing is left to replace what wears.
TEST_CASE("both forms of coverage of one year, worked by hand", "[credit]") {
    const Column standing{30'000.0}, payments{10'000.0}, interest{4'000.0}, overdraft{500.0}, tax{2'100.0}, draw{18'000.0}, other{5'400.0}, before{1'300.0};
    const Coverage found = coverage({standing, payments, interest, overdraft, tax, draw, other, before, 6'000.0});
    CHECK(found.available == Column{30'000.0});
    CHECK(found.before_household == Column{3.0});
    CHECK_THAT(found.capacity[0], WithinAbs(14'800.0, 1e-9));
    CHECK_THAT(found.after_household[0], WithinAbs(1.48, 1e-12));
    CHECK_THAT(found.repayment_margin[0], WithinAbs(3'500.0, 1e-9));
    CHECK_THAT(found.replacement_margin[0], WithinAbs(-2'500.0, 1e-9));
}

// FIN-07: worked ratio of a lender's page, 1,000,000 over 750,000 is 1.33.
TEST_CASE("FIN-07: the published ratio", "[credit]") {
    const Column standing{1'000'000.0}, payments{750'000.0}, none{0.0};
    CHECK_THAT(coverage({standing, payments, none, none, none, none, none, none, 0.0}).before_household[0], WithinAbs(1.33, 0.005));
}

// Source: definition; a ratio to nothing is no number.
TEST_CASE("a history without payments has no ratio, and keeps its margins", "[credit]") {
    const Column standing{9'000.0, 8'000.0, -500.0}, payments{0.0, 4'000.0, 0.0}, none{0.0, 0.0, 0.0};
    const Coverage found = coverage({standing, payments, none, none, none, none, none, none, 1'000.0});
    CHECK(found.before_household == Column{2.0});
    CHECK(found.after_household == Column{2.0});
    CHECK(found.repayment_margin == Column{9'000.0, 4'000.0, -500.0});
    CHECK(found.replacement_margin == Column{8'000.0, 3'000.0, -1'500.0});
}

// Source: the contract.
TEST_CASE("columns of other histories are refused by name", "[credit]") {
    const Column two{1.0, 2.0}, one{1.0};
    CHECK_THROWS_WITH(coverage({two, two, two, two, one, two, two, two, 0.0}), Contains("tax: has 1 histories, not 2"));
}

// RISK-01: Loss Data Analytics, Example 10.3.4: VaR_q = inf{x: F(x) >= q} of 1, 3, 4 with odds 0.75, 0.20, 0.05. The
// column holds 20 histories with exactly these shares.
TEST_CASE("RISK-01: a quantile on a step is the value at the step", "[credit]") {
    Column loss(15, 1.0);
    loss.insert(loss.end(), 4, 3.0);
    loss.push_back(4.0);
    CHECK(quantile(loss, 0.6).value == 1.0);
    CHECK(quantile(loss, 0.9).value == 3.0);
    CHECK(quantile(loss, 0.95).value == 3.0);
    CHECK(quantile(loss, 0.950001).value == 4.0);
}
