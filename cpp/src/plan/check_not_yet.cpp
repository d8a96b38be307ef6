// SPDX-License-Identifier: MIT
#include "checks.hpp"

namespace seasonrisk {
namespace {

/// Walks the keys that the reader knows and the engine does not simulate yet: any use of one is an error.
struct NotYet {
    Notebook& book;

    void number(const std::string& path, const Number& value, double neutral = 0.0) {
        if (value.is_guess || value.typical != neutral) book.not_yet(path, "");
    }
    void used(const std::string& path, bool is_used) {
        if (is_used) book.not_yet(path, "");
    }
};

void look_at_boat(const std::string& path, const Boat<Number>& boat, NotYet& look) {
    look.number(path + ".ground_share", boat.ground_share, 1.0);
    look.used(path + ".fish_from", boat.fish_from.has_value());
    look.number(path + ".skipper_gap_odds_per_year", boat.skipper_gap_odds_per_year);
    look.number(path + ".owner_days_per_month", boat.owner_days_per_month);
    look.number(path + ".owner_days_per_breakdown", boat.owner_days_per_breakdown);
    look.used(path + ".stay_in_below", boat.stay_in_below.has_value());
    look.used(path + ".spare.0", !boat.spare.empty());
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        const std::string at = numbered(path + ".fishery", f);
        look.number(at + ".spare", boat.fishery[f].spare);
        look.used(at + ".from", boat.fishery[f].from.has_value());
        look.used(at + ".to", boat.fishery[f].to.has_value());
        look.number(at + ".switch_cost", boat.fishery[f].switch_cost);
    }
    for (std::size_t c = 0; c < boat.crew.size(); ++c)
        look.number(numbered(path + ".crew", c) + ".no_show_fraction", boat.crew[c].no_show_fraction);
    for (std::size_t k = 0; k < boat.breakdown.size(); ++k)
        look.number(numbered(path + ".breakdown", k) + ".wear_shape", boat.breakdown[k].wear_shape, 1.0);
    if (boat.insurance) look.used(path + ".insurance.gear_covered", boat.insurance->gear_covered);
    if (boat.gear_loss) look.number(path + ".gear_loss.storm_odds_per_season", boat.gear_loss->storm_odds_per_season);
}

void look_at_outlet(const std::string& path, const Outlet<Number>& outlet, NotYet& look) {
    look.used(path + ".daily_limit", !outlet.daily_limit.empty());
    look.used(path + ".open_days", !outlet.open_days.empty());
    look.used(path + ".demand_per_open_day", !outlet.demand_per_open_day.empty());
    look.number(path + ".cost_per_open_day", outlet.cost_per_open_day);
    look.number(path + ".hours_per_open_day", outlet.hours_per_open_day);
    look.number(path + ".own_landings_flexibility", outlet.own_landings_flexibility);
    look.number(path + ".missed_settlement_odds_per_year", outlet.missed_settlement_odds_per_year);
}

}  // namespace

void check_not_yet(const Plan& plan, Notebook& book) {
    NotYet look{book};
    look.used("business.years", plan.business.years > 1);
    look.used("growth", plan.growth != Growth<Number>{});
    look.used("season.stop_on", plan.season.stop_on.has_value());
    look.used("ending", plan.ending != Ending<Number>{});
    look.used("family_date.0", !plan.family_date.empty());
    look.number("weather.turned_back_fraction", plan.weather.turned_back_fraction);
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        look.used(numbered("species", k) + ".last_year_fraction", plan.species[k].last_year_fraction.has_value());
        look.used(numbered("species", k) + ".grade.0", !plan.species[k].grade.empty());
    }
    for (std::size_t o = 0; o < plan.outlet.size(); ++o) look_at_outlet(numbered("outlet", o), plan.outlet[o], look);
    look.used("order.0", !plan.order.empty());
    look.used("holding.0", !plan.holding.empty());
    look.used("limit.0", !plan.limit.empty());
    look.used("shock.0", !plan.shock.empty());
    for (std::size_t n = 0; n < plan.input.size(); ++n)
        look.number(numbered("input", n) + ".used_per_haul", plan.input[n].used_per_haul);
    for (std::size_t b = 0; b < plan.boat.size(); ++b) look_at_boat(numbered("boat", b), plan.boat[b], look);
    for (std::size_t n = 0; n < plan.loan.size(); ++n)
        look.number(numbered("loan", n) + ".interest_only_months", plan.loan[n].interest_only_months);
    look.used("asset.0", !plan.asset.empty());
    look.used("skipper", plan.skipper.has_value());
}

}  // namespace seasonrisk
