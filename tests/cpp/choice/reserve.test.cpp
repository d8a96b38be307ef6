// SPDX-License-Identifier: MIT
#include <cmath>
#include <random>
#include <span>
#include <stdexcept>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/choice/reserve.hpp"

using namespace seasonrisk;

namespace {

using Years = std::vector<std::vector<double>>;

std::vector<std::span<const double>> spans(const Years& years) { return {years.begin(), years.end()}; }

/// The rule told plainly: does a reserve that starts with `start` stay at or above 0?
bool lasts(const Years& years, std::size_t history, double start, double refill) {
    double money = start;
    for (const std::vector<double>& year : years) {
        money -= year[history];
        if (money < -1e-9) return false;
        money = std::min(start, money + refill);
    }
    return true;
}

Years invented_years(std::size_t histories) {
    std::mt19937_64 luck(77);
    Years years(3, std::vector<double>(histories));
    for (std::vector<double>& year : years)
        for (double& need : year) need = luck() % 3 == 0 ? 0.0 : static_cast<double>(luck() % 9000);
    return years;
}

}  // namespace

// Source: by hand. 3,000 - 1,200 + 5 days of 40,000 / 100; a season without a day left takes the mean of the others, 400
// a day; days that lose money cost nothing when they are lost.
TEST_CASE("a year's need is repairs less claims and the days lost", "[choice][reserve]") {
    const std::vector<double> repairs{3000.0, 500.0, 800.0}, claims{1200.0, 0.0, 0.0};
    const std::vector<double> broken{5.0, 2.0, 4.0};
    const std::vector<double> contribution{40000.0, 0.0, 40000.0}, left{100.0, 0.0, 100.0};
    CHECK(need_of({repairs, claims, contribution, broken, left}) == std::vector<double>{3800.0, 1300.0, 2400.0});
    CHECK(need_of({repairs, {}, contribution, broken, left}) == std::vector<double>{5000.0, 1300.0, 2400.0});

    const std::vector<double> loss{-5000.0, 0.0, 40000.0};
    CHECK(need_of({repairs, claims, loss, broken, left})[0] == 1800.0);
}

// Source: by hand. Needs 4, 1, 6 with 2 put back: down 4, back to 2; 3, back to 1; 7. Without: 4, 5, 11. Put back
// whole: the worst year.
TEST_CASE("money used is not there again until it is put back", "[choice][reserve]") {
    const Years years{{4.0}, {1.0}, {6.0}};
    CHECK(start_needed(spans(years), 2.0) == std::vector<double>{7.0});
    CHECK(start_needed(spans(years), 0.0) == std::vector<double>{11.0});
    CHECK(start_needed(spans(years), 1e6) == std::vector<double>{6.0});
    CHECK(refill_needed(spans(years), 7.0) == std::vector<double>{2.0});
    CHECK(refill_needed(spans(years), 11.0) == std::vector<double>{0.0});
    CHECK(std::isinf(refill_needed(spans(years), 5.9)[0]));
}

// Source: the rule itself, year by year. A little less must fail: otherwise the answer would not be the least.
TEST_CASE("the start and the refill are the least with which the rule holds", "[choice][reserve]") {
    const Years years = invented_years(500);
    const auto needs = spans(years);
    int fails_with_less = 0, refills = 0;
    for (const double refill : {0.0, 700.0, 2500.0}) {
        const std::vector<double> start = start_needed(needs, refill);
        for (std::size_t i = 0; i < start.size(); ++i) {
            CHECK(lasts(years, i, start[i], refill));
            if (start[i] == 0.0) continue;
            CHECK_FALSE(lasts(years, i, start[i] - 1.0, refill));
            ++fails_with_less;
        }
    }
    const std::vector<double> refill = refill_needed(needs, 6000.0);
    for (std::size_t i = 0; i < refill.size(); ++i) {
        if (std::isinf(refill[i])) {
            CHECK_FALSE(lasts(years, i, 6000.0, 1e9));
            continue;
        }
        CHECK(lasts(years, i, 6000.0, refill[i]));
        if (refill[i] == 0.0) continue;
        CHECK_FALSE(lasts(years, i, 6000.0, refill[i] - 1.0));
        ++refills;
    }
    CHECK(fails_with_less > 1000);
    CHECK(refills > 50);
}

TEST_CASE("a reserve that cannot be meant is refused by name", "[choice][reserve]") {
    const Years uneven{{1.0, 2.0}, {1.0}};
    CHECK_THROWS_AS(start_needed({}, 0.0), std::invalid_argument);
    CHECK_THROWS_AS(start_needed(spans(uneven), 0.0), std::invalid_argument);
    CHECK_THROWS_AS(start_needed(spans({{1.0}}), -1.0), std::invalid_argument);
    CHECK_THROWS_AS(refill_needed(spans({{1.0}}), std::nan("")), std::invalid_argument);
    const std::vector<double> one{1.0}, two{1.0, 2.0};
    CHECK_THROWS_AS(need_of({one, two, one, one, one}), std::invalid_argument);
}
