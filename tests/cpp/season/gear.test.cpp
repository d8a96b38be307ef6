// SPDX-License-Identifier: MIT
#include "seasonrisk/season/gear.hpp"

#include <cmath>
#include <deque>
#include <random>
#include <vector>

#include "catch.hpp"

using namespace seasonrisk;

namespace {

/// Independent check: every pot by itself, hauled in turn, with the night it was last hauled.
std::vector<double> factors_pot_by_pot(int pots, int hauls, double tau, double usual, const std::vector<bool>& fished) {
    std::deque<int> last_hauled(static_cast<std::size_t>(pots), -1);  // set the day before day 0
    std::vector<double> factors;
    for (int day = 0; day < static_cast<int>(fished.size()); ++day) {
        if (!fished[static_cast<std::size_t>(day)]) {
            factors.push_back(0.0);
            continue;
        }
        double full = 0.0;
        for (int h = 0; h < hauls; ++h) {
            full += 1.0 - std::exp(-(day - last_hauled.front()) / tau);
            last_hauled.pop_front();
            last_hauled.push_back(day);
        }
        factors.push_back(full / hauls / (1.0 - std::exp(-usual / tau)));
    }
    return factors;
}

std::vector<double> factors_by_groups(double pots, double hauls, double tau, double usual, const std::vector<bool>& fished) {
    GearState gear;
    gear.in_water = Lanes(pots);
    gear.rotation_slots = rotation_groups(gear.in_water, Lanes(1.0 / hauls));
    weigh_rotation(gear, Lanes(1.0 / hauls));
    SoakState soak;
    soak.empty_after_a_night = Lanes(std::exp(-1.0 / tau));
    soak.one_over_usual = Lanes(1.0 / (1.0 - std::exp(-usual / tau)));
    set_all_today(soak, Lanes(1.0), gear.rotation_slots);
    std::vector<double> factors;
    for (const bool out : fished) {
        soak_a_night(soak, gear.rotation_slots);
        find_soak_factor(soak, gear);
        factors.push_back(out ? soak.factor[0] : 0.0);
        haul_and_shift(soak, Lanes(out ? 1.0 : 0.0), gear.rotation_slots);
    }
    return factors;
}

/// The tempting mistake: blend the nights of the two groups, then take one factor.
std::vector<double> factors_by_blended_nights(double pots, double hauls, double tau, double usual, const std::vector<bool>& fished) {
    const double rotation = pots / hauls;
    const int whole = static_cast<int>(rotation);
    std::vector<int> fished_days(static_cast<std::size_t>(whole) + 2, -1);
    std::vector<double> factors;
    for (int day = 0; day < static_cast<int>(fished.size()); ++day) {
        if (!fished[static_cast<std::size_t>(day)]) {
            factors.push_back(0.0);
            continue;
        }
        const std::size_t n = fished_days.size();
        const double nights = (1.0 - (rotation - whole)) * (day - fished_days[n - static_cast<std::size_t>(whole)])
                            + (rotation - whole) * (day - fished_days[n - static_cast<std::size_t>(whole) - 1]);
        factors.push_back((1.0 - std::exp(-nights / tau)) / (1.0 - std::exp(-usual / tau)));
        fished_days.push_back(day);
    }
    return factors;
}

std::vector<bool> days_with_spells() {
    std::mt19937 words(20270601);  // the test's own luck, any will do
    std::vector<bool> fished;
    for (int day = 0; day < 183; ++day) fished.push_back(day % 7 != 6 && words() % 100 >= 30 && !(day >= 60 && day < 74));
    return fished;
}

double largest_gap(const std::vector<double>& a, const std::vector<double>& b) {
    double gap = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (b[i] > 0.0) gap = std::max(gap, std::abs(a[i] / b[i] - 1.0));
    }
    return gap;
}

}  // namespace

TEST_CASE("soak by groups equals moving every pot one by one", "[season]") {
    const std::vector<bool> fished = days_with_spells();
    for (const auto& [pots, hauls] : {std::pair{420, 220}, std::pair{500, 340}, std::pair{660, 220}, std::pair{200, 200}}) {
        CAPTURE(pots, hauls);
        const auto one_by_one = factors_pot_by_pot(pots, hauls, 1.5, 2.0, fished);

        CHECK(largest_gap(factors_by_groups(pots, hauls, 1.5, 2.0, fished), one_by_one) < 1e-12);
    }
}

TEST_CASE("blending the nights instead of the factors is far off on some days", "[season]") {
    const std::vector<bool> fished = days_with_spells();
    for (const auto& [pots, hauls] : {std::pair{420, 220}, std::pair{500, 340}}) {
        const auto one_by_one = factors_pot_by_pot(pots, hauls, 1.5, 2.0, fished);

        CHECK(largest_gap(factors_by_blended_nights(pots, hauls, 1.5, 2.0, fished), one_by_one) > 0.02);
    }
}

TEST_CASE("pots that can all be hauled in a day are hauled once a day", "[season]") {
    CHECK(rotation_days(150.0, 1.0 / 200.0) == 1.0);
    CHECK(rotation_groups(Lanes(150.0), Lanes(1.0 / 200.0)) == 1);
}

TEST_CASE("gear goes in by equal parts on the setting days and none is hauled meanwhile", "[season]") {
    GearState gear;
    gear.in_water = Lanes(0.0);
    gear.setting_days_left = Lanes(3.0);
    Lanes setting, all_set;

    set_gear(gear, Lanes(1.0), Lanes(420.0), Lanes(3.0), setting, all_set);
    CHECK(gear.in_water[0] == 140.0);
    CHECK(setting[0] == 1.0);
    CHECK(all_set[0] == 0.0);
    set_gear(gear, Lanes(0.0), Lanes(420.0), Lanes(3.0), setting, all_set);  // a day ashore sets nothing
    CHECK(gear.in_water[0] == 140.0);
    set_gear(gear, Lanes(1.0), Lanes(420.0), Lanes(3.0), setting, all_set);
    set_gear(gear, Lanes(1.0), Lanes(420.0), Lanes(3.0), setting, all_set);
    CHECK(gear.in_water[0] == 420.0);
    CHECK(all_set[0] == 1.0);
    set_gear(gear, Lanes(1.0), Lanes(420.0), Lanes(3.0), setting, all_set);
    CHECK(setting[0] == 0.0);
    CHECK_FALSE(any_above_zero(gear.setting_days_left));
}

TEST_CASE("a month's loss has the spread of strings lost or not", "[season]") {
    // Hand-made: 400 pots in strings of 4, 31 days at 0.0007: Q = 1 - 0.9993^31, variance P Q (1-Q) 4.
    const double odds = 1.0 - std::pow(0.9993, 31);
    const double cv_squared = 400.0 * odds * (1.0 - odds) * 4.0 / (400.0 * odds * 400.0 * odds);

    CHECK(std::abs(log_sd_of_month_loss(0.0007, 31.0, 400.0, 4.0) - std::sqrt(std::log1p(cv_squared))) < 1e-10);
    CHECK(log_sd_of_month_loss(0.0, 31.0, 400.0, 4.0) == 0.0);
}
