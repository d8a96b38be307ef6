// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/due.hpp"
#include "seasonrisk/season/prices.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// The end of a money year and of a history: the four rungs, what is owed both ways, what is left.
namespace seasonrisk {

/// What was not added up day by day follows from days out, hauls, sales and pots lost.
SEASONRISK_STEP void total_the_boat(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, std::size_t b) {
    BoatWork& boat = work.boat[b];
    BoatYear& year = boat.year;
    const BoatRates& rates = boat.rates;
    EarnedBook& book = work.earned;
    if (!ready.boat[b].more_causes) {
        const double days_meant = calendar.season_days - calendar.rest_days - calendar.days_off;
        SEASONRISK_EACH_LANE year.days_weather[i] = days_meant - year.days_fished[i] - year.days_broken_down[i];
        year.days_out = year.days_fished;
    }
    SEASONRISK_EACH_LANE {
        year.fuel[i] = year.days_out[i] * rates.fuel_a_day_out[i] + year.hauls[i] * rates.fuel_a_haul[i];
        year.bait[i] = (year.hauls[i] - year.hauls_without_bait[i]) * rates.bait_a_haul[i];
        year.day_costs[i] = year.days_out[i] * rates.costs_a_day_out[i];
        book.fuel[i] += year.fuel[i];
        book.bait[i] += year.bait[i];
        book.day_costs[i] += year.day_costs[i];
    }
    if (ready.turns_back) {
        SEASONRISK_EACH_LANE {
            const double turned_back = year.days_weather[i] * work.plan.weather.turned_back_fraction[i] * rates.fuel_a_day_out[i];
            year.fuel[i] += turned_back;
            book.fuel[i] += turned_back;
        }
    }
    if (ready.sells_simply) {
        const Lanes& levy = work.plan.prices.levy_fraction;
        const Lanes& cost_per_unit = work.plan.outlet[0].cost_per_unit;
        SEASONRISK_EACH_LANE {
            book.sales[i] += year.sales[i];
            year.selling_costs[i] = levy[i] * year.sales[i] + cost_per_unit[i] * year.units[i];
            book.selling_costs[i] += year.selling_costs[i];
        }
    }
    if (ready.boat[b].owners) {
        SEASONRISK_EACH_LANE work.hours[i] += year.days_out[i] * work.plan.boat[b].hours_per_day[i];
    }
    for (const FisheryWork& fishery : boat.fishery) {
        add(year.pots_lost, fishery.gear.lost);
        if (!fishery.prepared->pots) continue;
        add(year.pots_left, fishery.gear.in_water);
        add(year.pots_left, fishery.gear.lifted);
        if (!fishery.prepared->loses_gear) continue;
        const Lanes& pot_cost = work.plan.boat[b].gear_loss->pot_cost;
        SEASONRISK_EACH_LANE {
            const double cost = fishery.gear.lost[i] * pot_cost[i];
            book.pots_lost_cost[i] += cost;
            year.pots_lost_cost[i] += cost;
            work.cash.pots_to_replace[i] += fishery.prepared->pots_dwindle ? cost : 0.0;
        }
    }
}

/// What a boat leaves once her own costs and bills are paid, and once the payments of loans secured on her are.
SEASONRISK_STEP void find_contribution(BoatYear& year) {
    SEASONRISK_EACH_LANE {
        year.contribution[i] = year.sales[i] - year.fuel[i] - year.bait[i] - year.day_costs[i] - year.crew_pay[i] - year.selling_costs[i]
                             - year.repairs[i] + year.claims[i] - year.pots_lost_cost[i] - year.switch_costs[i] - year.rehire[i]
                             - year.standing_costs[i] - year.inputs[i];
        year.after_own_loan[i] = year.contribution[i] - year.loan_payments[i];
    }
}

/// Several boats added up. Days, hauls and pots are sums; the boat that is lost is counted as one of them.
SEASONRISK_STEP void total_the_fleet(Workspace& work) {
    if (work.boat.size() < 2) return;
    work.fleet = BoatYear{};
    for (Lanes& caught : work.fleet_catch) caught = Lanes(0.0);
    constexpr std::size_t fields = sizeof(BoatYear) / sizeof(Lanes);
    static_assert(sizeof(BoatYear) == fields * sizeof(Lanes), "a boat's year holds nothing but lanes");
    for (BoatWork& boat : work.boat) {
        Lanes* sum = &work.fleet.days_fished;  // the first of them
        const Lanes* of_boat = &boat.year.days_fished;
        for (std::size_t f = 0; f < fields; ++f) add(sum[f], of_boat[f]);
        for (std::size_t k = 0; k < work.fleet_catch.size(); ++k) add(work.fleet_catch[k], boat.species[k].caught);
    }
}

/// The year's tax is paid in equal parts in the tax months of the next money year.
SEASONRISK_STEP void lay_out_tax(const PreparedPlan& ready, Workspace& work, const Calendar& calendar) {
    const std::vector<unsigned>& months = ready.plan.household.tax_months;
    if (months.empty() || calendar.year + 1 == static_cast<int>(ready.years.size())) return;
    BooksYear next = books_year(calendar);
    next.first += 12;
    for (const unsigned month : months) {
        SEASONRISK_EACH_LANE work.cash.due[next.month(month)][i] += work.earned.tax[i] / static_cast<double>(months.size());
    }
}

SEASONRISK_STEP void close_the_year(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar) {
    if (ready.sells_simply) {
        for (std::size_t g = 0; g < work.goods.size(); ++g) {
            for (const BoatWork& boat : work.boat) {
                const Lanes& caught = boat.species[ready.goods[g].species].caught;
                SEASONRISK_EACH_LANE work.outlet[0].sold[g][i] += caught[i] * work.goods[g].share[i];
            }
        }
    }
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        total_the_boat(ready, work, calendar, b);
        find_contribution(work.boat[b].year);
        if (!ready.boat[b].may_be_lost) continue;
        const Lanes uniforms = uniforms_at(at_batch.draw, at_batch.key,
                                           in_year(calendar.season_year, Purpose::total_loss, {static_cast<std::uint32_t>(b)}), at_batch.first_history);
        const Lanes& odds = work.plan.boat[b].insurance->total_loss_odds_per_year;
        SEASONRISK_EACH_LANE work.boat[b].year.total_loss[i] = uniforms[i] < odds[i] ? 1.0 : 0.0;
    }
    total_the_fleet(work);
    climb_rungs(work.earned, work.plan.household.tax_fraction, work.plan.household.wear_allowance, work.cash.loss_forward);
    lay_out_tax(ready, work, calendar);
    Lanes& loan_balance = work.cash.loan_balance_of_year[static_cast<std::size_t>(calendar.year)];
    loan_balance = Lanes(0.0);
    for (const LoanWork& loan : work.loan) add(loan_balance, loan.owed);
    add(work.hours_so_far, work.hours);
    add(work.loan_so_far, work.earned.loan);

    YearTally& tally = work.tally;
    if (tally.by_year.empty()) return;
    const auto y = static_cast<std::size_t>(calendar.year);
    for (std::size_t n = 0; n < tally.sources.size(); ++n) {
        const Lanes& value = *tally.sources[n];
        tally.by_year[y][n] = value;
        if (y == 0) tally.total[n] = value;
        else add(tally.total[n], value);
    }
}

/// An asset's worth on a day: worn straight from cost to resale; nothing before it is bought.
SEASONRISK_STEP Lanes worth_of(const Asset<Lanes>& asset, Date on) {
    Lanes worth(0.0);
    if (on <= *asset.bought) return worth;
    const double age_years = static_cast<double>((on - *asset.bought).count()) / 365.25;
    SEASONRISK_EACH_LANE worth[i] = worn_value(asset.cost[i], asset.resale[i], asset.life_years[i], age_years);
    return worth;
}

/// What is left when the last money year is over.
SEASONRISK_STEP void close_the_history(const PreparedPlan& ready, Workspace& work) {
    CashBook& cash = work.cash;
    cash.owed_to_us = cash.incoming.back();
    cash.incoming.back() = Lanes(0.0);
    cash.assets = Lanes(0.0);
    cash.loan_balance = cash.loan_balance_of_year.back();
    cash.shortfall = Lanes(0.0);
    for (const Lanes& shortfall : cash.shortfall_of_year) {
        SEASONRISK_EACH_LANE cash.shortfall[i] = shortfall[i] > cash.shortfall[i] ? shortfall[i] : cash.shortfall[i];
    }
    const Day& last = ready.years.back().days.back();
    for (const Asset<Lanes>& asset : work.plan.asset) add(cash.assets, worth_of(asset, last.date + std::chrono::days{1}));
    if (work.store_holds) {
        for (std::size_t g = 0; g < work.goods.size(); ++g) {
            if (!ready.goods[g].holding) continue;
            Lanes lowest(0.0);
            bool first = true;
            for (const OutletWork& outlet : work.outlet) {
                if (outlet.base_price[g] == nullptr) continue;
                SEASONRISK_EACH_LANE lowest[i] = first || outlet.price_now[g][i] < lowest[i] ? outlet.price_now[g][i] : lowest[i];
                first = false;
            }
            const Lanes& fraction = work.plan.holding[*ready.goods[g].holding].forced_price_fraction;
            SEASONRISK_EACH_LANE cash.assets[i] += work.goods[g].held[i] * fraction[i] * lowest[i];
        }
    }
    SEASONRISK_EACH_LANE {
        cash.owed_by_us[i] = work.earned.tax[i] + cash.pots_to_replace[i];
        cash.end_position[i] = cash.balance[i] + cash.owed_to_us[i] + cash.assets[i] - cash.owed_by_us[i] - cash.loan_balance[i];
    }
    SEASONRISK_EACH_LANE work.left_per_hour[i] = work.hours_so_far[i] > 0.0 ? work.loan_so_far[i] / work.hours_so_far[i] : 0.0;
}

}  // namespace seasonrisk
