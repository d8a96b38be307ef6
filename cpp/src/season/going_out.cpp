// SPDX-License-Identifier: MIT
#include "seasonrisk/season/going_out.hpp"

#include "seasonrisk/season/prices.hpp"

namespace seasonrisk {
namespace {

/// Soak factor of the pots that would be hauled today.
double soak_factor(const FisheryWork& fishery, std::size_t n, int i) {
    const SoakState& soak = fishery.soak[n];
    if (!soak.soaks) return 1.0;
    double full = 0.0;
    const double days = rotation_days(fishery.gear.in_water[i], fishery.one_over_hauls[i]);
    for (int j = 1; j <= fishery.gear.rotation_slots; ++j) {
        // The night's filling of a day of plain hauling is still to come, with the catch.
        const double empty = soak.empty[j][i] * (fishery.gear.soaked_tonight ? 1.0 : soak.empty_after_a_night[i]);
        const double apart = std::abs(days - j);
        full += (apart < 1.0 ? 1.0 - apart : 0.0) * (1.0 - empty);
    }
    return full * soak.one_over_usual[i];
}

}  // namespace

Lanes not_worth_it(const PreparedPlan& ready, const Workspace& work, const Day& day, std::size_t b, std::size_t f) {
    const BoatWork& boat = work.boat[b];
    const FisheryWork& fishery = boat.fishery[f];
    const auto& plan = work.plan;
    Lanes stays(0.0);
    for (int i = 0; i < k_lanes; ++i) {
        if (fishery.gear.setting_days_left[i] > 0.0) continue;  // gear is set whatever the day would bring
        const double most = plan.boat[b].fishery[f].hauls_per_day[i];
        const bool all_of_them = fishery.prepared->pots && fishery.gear.in_water[i] < most;
        const double hauls = (all_of_them ? fishery.gear.in_water[i] : most) * boat.hauls_factor[i];
        double sales = 0.0;
        double selling = 0.0;
        for (std::size_t n = 0; n < fishery.soak.size(); ++n) {
            const std::size_t k = fishery.prepared->species[n];
            const double caught = hauls * fishery.per_haul_now[n][i] * soak_factor(fishery, n, i);
            for (const std::size_t g : ready.goods_of[k]) {
                for (std::size_t o = 0; o < work.outlet.size(); ++o) {
                    if (work.outlet[o].base_price[g] == nullptr || !is_open(ready.plan.outlet[o], day)) continue;
                    const double units = caught * work.goods[g].share[i];
                    sales += units * work.outlet[o].price_now[g][i];
                    selling += units * plan.outlet[o].cost_per_unit[i];
                    break;
                }
            }
        }
        const double fuel_and_bait = boat.rates.fuel_a_day_out[i] + hauls * boat.rates.trip_a_haul[i];
        double crew = 0.0;
        for (std::size_t h = 0; h < boat.hand.size(); ++h) {
            const PayKind pay = plan.boat[b].crew[h].pay;
            const double left = sales - fuel_and_bait;
            crew += boat.hand[h].rate[i] * (pay == PayKind::day_wage ? 1.0 - boat.hand[h].absent_today[i] : pay == PayKind::share_of_sales ? sales : left > 0.0 ? left : 0.0);
        }
        const double leaves = sales * (1.0 - plan.prices.levy_fraction[i]) - selling - fuel_and_bait - boat.rates.costs_a_day_out[i] - crew;
        stays[i] = leaves < (*plan.boat[b].stay_in_below)[i] ? 1.0 : 0.0;
    }
    return stays;
}

}  // namespace seasonrisk
