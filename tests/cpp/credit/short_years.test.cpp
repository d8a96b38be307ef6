// SPDX-License-Identifier: MIT
#include <algorithm>
#include <random>
#include <stdexcept>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/choice/compare.hpp"
#include "seasonrisk/credit/short_years.hpp"

using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

namespace {

using Column = std::vector<double>;

}  // namespace

// Source: by hand. Each year has a draw of 9,000 and other income of 4,000; the overdraft goes to 2,000.
//  1. 500 left: not short.                         2. 3,000 short, 5,000 in the account: the reserve gives all.
//  3. 9,000 short, 5,000 there: reserve 5,000, overdraft 2,000, household 2,000 of the 5,000 beyond other income.
//  4. 3,000 short, 1,500 overdrawn already: overdraft 500, household 2,500.
//  5. 20,000 short, 1,000 there: reserve 1,000, overdraft 2,000, household 5,000, other income 4,000, nobody 8,000.
TEST_CASE("who covers a short year, worked by hand", "[credit]") {
    const Column household{500.0, -3'000.0, -9'000.0, -3'000.0, -20'000.0};
    const Column opening{5'000.0, 5'000.0, 5'000.0, -1'500.0, 1'000.0};
    const Column draw(5, 9'000.0), other(5, 4'000.0), limit(5, 2'000.0);
    const WhoCovers found = who_covers({household, draw, other, opening, limit});
    CHECK(found.shortage == Column{0.0, 3'000.0, 9'000.0, 3'000.0, 20'000.0});
    CHECK(found.reserve == Column{0.0, 3'000.0, 5'000.0, 0.0, 1'000.0});
    CHECK(found.overdraft == Column{0.0, 0.0, 2'000.0, 500.0, 2'000.0});
    CHECK(found.household == Column{0.0, 0.0, 2'000.0, 2'500.0, 5'000.0});
    CHECK(found.other_income == Column{0.0, 0.0, 0.0, 0.0, 4'000.0});
    CHECK(found.nobody == Column{0.0, 0.0, 0.0, 0.0, 8'000.0});
}

// Source: definition.
TEST_CASE("the parts add up to the shortage in every history, and none gives before the one ahead of it is used up", "[credit]") {
    std::mt19937_64 luck(5);
    const auto drawn = [&luck](double low, double high) {
        Column column(2'000);
        for (double& value : column) value = low + (high - low) * static_cast<double>(luck() % 100'001) / 100'000.0;
        return column;
    };
    const Column household = drawn(-40'000.0, 20'000.0), draw = drawn(0.0, 20'000.0), other = drawn(0.0, 20'000.0), opening = drawn(-6'000.0, 9'000.0), limit = drawn(0.0, 8'000.0);
    const WhoCovers found = who_covers({household, draw, other, opening, limit});
    int short_of_all = 0;
    for (std::size_t i = 0; i < household.size(); ++i) {
        CAPTURE(i);
        const double given = found.reserve[i] + found.overdraft[i] + found.household[i] + found.other_income[i];
        CHECK_THAT(given + found.nobody[i], WithinAbs(std::max(0.0, -household[i]), 1e-9));
        if (found.overdraft[i] > 0.0) CHECK(found.reserve[i] == std::max(0.0, opening[i]));
        if (found.other_income[i] > 0.0) CHECK_THAT(found.household[i], WithinAbs(std::max(0.0, draw[i] - other[i]), 1e-9));
        if (found.nobody[i] > 0.0) {
            ++short_of_all;
            CHECK_THAT(found.household[i] + found.other_income[i], WithinAbs(draw[i], 1e-9));
        }
    }
    CHECK(short_of_all > 100);
}

// Source: the contract.
TEST_CASE("columns of other histories are refused by name where a year is short", "[credit]") {
    const Column two{1.0, 2.0}, one{1.0};
    CHECK_THROWS_WITH(who_covers({two, two, one, two, two}), Contains("other_income: has 1 histories, not 2"));
}

// Source: by hand.
TEST_CASE("two bad years running are neighbours", "[credit]") {
    const Column a{-1.0, -1.0, 1.0, 0.0}, b{1.0, -1.0, -1.0, -1.0}, c{-1.0, 1.0, -1.0, 0.0};
    CHECK(missed_twice({a, b, c}) == Column{0.0, 1.0, 1.0, 0.0});
    CHECK(missed_twice({a}) == Column(4, 0.0));
    CHECK_THROWS_AS(missed_twice({}), std::invalid_argument);
    const Column short_one{1.0};
    CHECK_THROWS_AS(missed_twice({a, short_one}), std::invalid_argument);
}
