// SPDX-License-Identifier: MIT
#pragma once

#include <bit>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/going_out.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// What breaks, and what the sea takes of the gear.
namespace seasonrisk {

/// Breakdowns of the next weeks that strike if the boat is out: their days and sizes depend on nothing that happens
/// until then, and worked out one by one on their days they would hold up every step of the day.
void foresee_mishaps(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today);

/// Does it strike where the boat is out? What wears has its own odds, asked only where the year's most would strike.
bool strikes(const Workspace& work, BatchAddress at_batch, const Day& day, std::size_t b, const Mishap& mishap);

/// Repair, days lost and claim of one event in one history.
void repair_one(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t b, const Mishap& mishap);

/// The odds of a day out, by the hours on it.
SEASONRISK_STEP double worn_odds(const Breakdown<Lanes>& kind, const Lanes& hours, int i) {
    const double shape = kind.wear_shape[i] - 1.0;
    const double wear = hours[i] > 0.0 ? power(hours[i] / (*kind.wear_reference_hours)[i], shape) : shape > 0.0 ? 0.0 : shape < 0.0 ? 1e300 : 1.0;
    return 1.0 - exp(-kind.per_100_days[i] / 100.0 * wear);
}

/// No day of a year that begins with these hours can have more: what grows with the hours has them at its end, and a
/// little is added for rounding. What shrinks with them has no such end, for a repair may set them back.
SEASONRISK_STEP Lanes most_worn_odds(const Breakdown<Lanes>& kind, const Lanes& hours, const Lanes& hours_per_day) {
    constexpr double days = 366.0;
    Lanes at_most;
    SEASONRISK_EACH_LANE at_most[i] = hours[i] + days * hours_per_day[i];
    Lanes odds;
    SEASONRISK_EACH_LANE {
        const double then = worn_odds(kind, at_most, i);
        odds[i] = kind.wear_shape[i] < 1.0 ? 1.0 : then * (1.0 + 1e-9) + 1e-12;
    }
    return odds;
}

/// On a day out, after its catch: each kind strikes by itself.
SEASONRISK_STEP void break_down(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t b) {
    BoatWork& boat = work.boat[b];
    if (!boat.tried) return;
    std::size_t& next = boat.next_mishap;
    std::size_t first = next;
    for (; next < boat.mishaps.size() && boat.mishaps[next].today <= today; ++next) {
        Mishap& mishap = boat.mishaps[next];
        if (mishap.today < today) first = next + 1;  // the boat did not try to go out on that day
        else mishap.happens = strikes(work, at_batch, day, b, mishap);
    }
    for (std::size_t kind = 0; kind < boat.breakdown.size(); ++kind) {
        if (!boat.prepared->breakdowns[kind].wears) continue;
        const Lanes& hours = work.plan.boat[b].hours_per_day;
        SEASONRISK_EACH_LANE boat.breakdown[kind].hours[i] += boat.out[i] * hours[i];
    }
    for (std::size_t n = first; n < next; ++n) {
        if (boat.mishaps[n].happens) repair_one(ready, work, at_batch, day, today, b, boat.mishaps[n]);
    }
}

/// The share of the pots a day takes this month.
SEASONRISK_STEP void settle_gear_loss(Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, std::size_t b, std::size_t f) {
    const auto& loss = *work.plan.boat[b].gear_loss;
    FisheryWork& fishery = work.boat[b].fishery[f];
    const Lanes& odds = fishery.daily_loss_odds;
    Lanes luck(1.0);
    if (loss.pots_per_string) {
        const std::chrono::year_month_day ymd{day.date};
        const DaySlot month = day_slot(Date{ymd.year() / ymd.month() / 1});
        const Lanes z = normals_at(at_batch.draw, at_batch.to_normals, at_batch.key, on_day(month, Purpose::gear_loss_month, {static_cast<std::uint32_t>(b)}), at_batch.first_history);
        const double days = fishery.prepared->days_in_month[static_cast<std::size_t>(calendar.year)][static_cast<std::size_t>(day.month)];
        SEASONRISK_EACH_LANE {
            const double sd = log_sd_of_month_loss(odds[i], days, work.plan.boat[b].fishery[f].count[i], (*loss.pots_per_string)[i]);
            luck[i] = exp(sd * z[i] - 0.5 * sd * sd);
        }
    }
    SEASONRISK_EACH_LANE fishery.loss_today[i] = odds[i] * luck[i] < 1.0 ? odds[i] * luck[i] : 1.0;
}

/// Pots are gone: paid for now and replaced, or missing until next season but for the spare ones.
SEASONRISK_STEP void lose_pots(Workspace& work, FisheryWork& fishery, const Lanes& lost, const Lanes& pot_cost) {
    GearState& gear = fishery.gear;
    add(gear.lost, lost);
    if (!fishery.prepared->pots_dwindle) {
        SEASONRISK_EACH_LANE work.cash.balance[i] -= lost[i] * pot_cost[i];
        return;
    }
    if (!gear.has_spare) {
        SEASONRISK_EACH_LANE gear.in_water[i] -= lost[i];
        return;
    }
    SEASONRISK_EACH_LANE {
        const double from_spare = lost[i] < gear.spare[i] ? lost[i] : gear.spare[i];
        gear.spare[i] -= from_spare;
        gear.in_water[i] -= lost[i] - from_spare;
    }
}

/// A storm takes its share of what the day's steady loss has left; one uniform for the harbour.
SEASONRISK_STEP void meet_the_storm(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t b, std::size_t f, const Lanes& storm, const Lanes& left) {
    BoatWork& boat = work.boat[b];
    FisheryWork& fishery = boat.fishery[f];
    const auto& loss = *work.plan.boat[b].gear_loss;
    const auto& insurance = work.plan.boat[b].insurance;
    std::uint64_t struck = 0;
    SEASONRISK_EACH_LANE struck |= boat.weather.bad[i] != 0.0 && storm[i] < boat.rates.storm_odds[i] && left[i] > 0.0 ? k_lane_bits.of[i] : 0u;
    if (struck == 0) return;
    Lanes lost(0.0);
    for (; struck != 0; struck &= struck - 1) {
        const int i = std::countr_zero(struck);
        const std::uint64_t history = at_batch.first_history + static_cast<std::uint64_t>(i);
        const double share = at(ready.boat[b].storm_loss, normal_at(at_batch.key, on_day(day.slot, Purpose::storm_loss, {static_cast<std::uint32_t>(b)}), history));
        lost[i] = left[i] * share;
        boat.year.storms[i] += 1.0;
        if (!insurance || !insurance->gear_covered) continue;
        const double own_part = insurance->storm_deductible_fraction[i] > 0.0 ? insurance->storm_deductible_fraction[i] * insurance->hull_value[i] : insurance->deductible[i];
        const double claim = lost[i] * loss.pot_cost[i] - own_part;
        if (claim <= 0.0) continue;
        work.claims_paid[i] += 1.0;
        work.earned.claims[i] += claim;
        boat.year.claims[i] += claim;
        work.cash.incoming[static_cast<std::size_t>(row_of(work.cash, today, insurance->claim_paid_after_days[i]))][i] += claim;
    }
    lose_pots(work, fishery, lost, loss.pot_cost);
}

SEASONRISK_STEP void lose_gear(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today, std::size_t b, std::size_t f, const Lanes& storm) {
    BoatWork& boat = work.boat[b];
    FisheryWork& fishery = boat.fishery[f];
    if (!fishery.prepared->loses_gear) return;
    if (day.first_of_month || day.date == fishery.from) settle_gear_loss(work, at_batch, calendar, day, b, f);
    GearState& gear = fishery.gear;
    const Lanes& pot_cost = work.plan.boat[b].gear_loss->pot_cost;
    Lanes left;
    if (ready.boat[b].meets_storms) {
        SEASONRISK_EACH_LANE left[i] = gear.in_water[i] * (1.0 - fishery.loss_today[i]);
    }
    if (!fishery.prepared->pots_dwindle) {
        SEASONRISK_EACH_LANE {
            const double lost = gear.in_water[i] * fishery.loss_today[i];
            gear.lost[i] += lost;
            work.cash.balance[i] -= lost * pot_cost[i];
        }
    } else {
        Lanes lost;
        SEASONRISK_EACH_LANE lost[i] = gear.in_water[i] * fishery.loss_today[i];
        lose_pots(work, fishery, lost, pot_cost);
    }
    if (ready.boat[b].meets_storms) meet_the_storm(ready, work, at_batch, day, today, b, f, storm, left);
}

SEASONRISK_STEP void lose_gear_of_all(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today) {
    Lanes storm;
    if (ready.storms) storm = uniforms_at(at_batch.draw, at_batch.key, on_day(day.slot, Purpose::storm), at_batch.first_history);
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        for (std::size_t f = 0; f < work.boat[b].fishery.size(); ++f) {
            FisheryWork& fishery = work.boat[b].fishery[f];
            if (!fishery.worked_before) continue;
            if (day.date <= fishery.last) lose_gear(ready, work, at_batch, calendar, day, today, b, f, storm);
            if (day.date != fishery.to) continue;
            // Worked for the last time: but for gear that takes days to come in, it is ashore.
            SEASONRISK_EACH_LANE {
                const double ashore = fishery.gear.gear_in_days_left[i] > 0.0 ? 0.0 : fishery.gear.in_water[i];
                fishery.gear.lifted[i] += ashore;
                fishery.gear.in_water[i] -= ashore;
            }
        }
    }
}

}  // namespace seasonrisk
