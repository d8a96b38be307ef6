// SPDX-License-Identifier: MIT
#pragma once

#include <bit>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/run_up.hpp"
#include "seasonrisk/season/supposed.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// Who goes out today, and why not: one cause a lost day, the first that holds (design, section 5).
namespace seasonrisk {

SEASONRISK_STEP Lanes uniforms_today(BatchAddress at_batch, const Day& day, Purpose purpose, std::size_t boat = 0, std::size_t item = 0) {
    const Who who{static_cast<std::uint32_t>(boat), static_cast<std::uint32_t>(item)};
    return uniforms_at(at_batch.draw, at_batch.key, on_day(day.slot, purpose, who), at_batch.first_history);
}

/// Of the histories in which the boat can still go, those that the cause holds back.
SEASONRISK_STEP void hold_back(Lanes& can_go, Lanes& days_lost, const Lanes& cause) {
    SEASONRISK_EACH_LANE {
        const double lost = can_go[i] * cause[i];
        days_lost[i] += lost;
        can_go[i] -= lost;
    }
}

SEASONRISK_STEP Lanes still_until(const Lanes& last_day, int today) {
    Lanes held;
    SEASONRISK_EACH_LANE held[i] = last_day[i] >= today ? 1.0 : 0.0;
    return held;
}

/// Another boat may need the owner today.
SEASONRISK_STEP void call_on_the_owner(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today) {
    if (!ready.owner_taken) return;
    work.owner.away_today = still_until(work.owner.busy_until, today);
    const std::chrono::year_month_day ymd{day.date};
    const auto days_in_month = static_cast<double>(static_cast<unsigned>((ymd.year() / ymd.month() / std::chrono::last).day()));
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        if (!ready.boat[b].takes_owner || !day.in_season) continue;
        const Lanes uniforms = uniforms_today(at_batch, day, Purpose::owner_day, b);
        const Lanes& days = work.plan.boat[b].owner_days_per_month;
        SEASONRISK_EACH_LANE work.owner.away_today[i] = uniforms[i] < days[i] / days_in_month ? 1.0 : work.owner.away_today[i];
    }
}

/// Each hand turns up or not by himself; without him fewer pots are hauled, or none.
SEASONRISK_STEP void muster_the_crew(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, std::size_t b) {
    BoatWork& boat = work.boat[b];
    if (!ready.boat[b].hands_miss) return;
    boat.hauls_factor = Lanes(1.0);
    for (std::size_t hand = 0; hand < boat.hand.size(); ++hand) {
        const auto& crew = work.plan.boat[b].crew[hand];
        if (!crew.alone_hauls_fraction) continue;
        const Lanes uniforms = uniforms_today(at_batch, day, Purpose::no_show, b, hand);
        Lanes& absent = boat.hand[hand].absent_today;
        SEASONRISK_EACH_LANE {
            absent[i] = uniforms[i] < crew.no_show_fraction[i] ? 1.0 : 0.0;
            boat.hauls_factor[i] *= absent[i] != 0.0 ? (*crew.alone_hauls_fraction)[i] : 1.0;
        }
    }
}

/// Gear that takes days to bring in: from `gear_in_days` - 1 days before the last day of fishing on, until it is in.
SEASONRISK_STEP Lanes is_coming_in(const Workspace& work, const FisheryWork& fishery, const Day& day) {
    const auto days_left = static_cast<double>((fishery.to - day.date).count());
    Lanes coming;
    SEASONRISK_EACH_LANE {
        const bool begun = work.plan.ending.gear_in_days[i] > days_left;
        coming[i] = begun && fishery.gear.gear_in_days_left[i] > 0.0 ? 1.0 : 0.0;
    }
    return coming;
}

/// Is the fishery worked on this day, as far as its dates go?
SEASONRISK_STEP bool is_worked(const FisheryWork& fishery, const Day& day) {
    return day.in_season && fishery.from <= day.date && day.date <= fishery.to;
}

/// Has the boat gear to work today, or some to bring in?
SEASONRISK_STEP bool has_work(const BoatWork& boat, const Day& day) {
    for (const FisheryWork& fishery : boat.fishery) {
        if (is_worked(fishery, day) || (fishery.comes_in && fishery.worked_before)) return true;
    }
    return false;
}

/// Without work she lies ashore in every history, and nothing else is asked: neither of her crew nor of the weather.
SEASONRISK_STEP void lie_ashore(BoatWork& boat, const Day& day) {
    if (day.in_season) add(boat.year.days_ashore, Lanes(1.0));
    boat.out = boat.sales_today = boat.units_today = Lanes(0.0);
    for (BoatSpecies& species : boat.species) species.caught_today = Lanes(0.0);
    for (FisheryWork& fishery : boat.fishery) fishery.hauling = fishery.gear.hauls_today = Lanes(0.0);
}

/// 1 where a landing limit or a closure keeps the boat of this fishery in.
SEASONRISK_STEP Lanes limits_reached(const PreparedPlan& ready, const Workspace& work, const FisheryWork* fishery, const Calendar& calendar, const Day& day) {
    Lanes closed(0.0);
    for (std::size_t s = 0; s < work.shock.size(); ++s) {
        const Shock<Number>& shock = ready.plan.shock[s];
        const auto since = static_cast<double>((day.date - years_later(*shock.from, calendar.year)).count());
        SEASONRISK_EACH_LANE {
            if (work.shock[s][i] != 0.0 && since >= 0.0 && since < work.plan.shock[s].days[i]) closed[i] = 1.0;
        }
    }
    if (fishery == nullptr || work.limit.empty()) return closed;
    Lanes all_reached(1.0);
    for (const std::size_t k : fishery->prepared->species) {
        Lanes reached(0.0);
        for (std::size_t n = 0; n < work.limit.size(); ++n) {
            if (work.limit[n].species != k || ready.plan.limit[n].over != Over::stop) continue;
            SEASONRISK_EACH_LANE reached[i] = work.limit[n].reached[i] != 0.0 ? 1.0 : reached[i];
        }
        SEASONRISK_EACH_LANE all_reached[i] *= reached[i];
    }
    SEASONRISK_EACH_LANE closed[i] = all_reached[i] != 0.0 ? 1.0 : closed[i];
    return closed;
}

/// 1 where an ordinary catch at today's prices would leave less than the owner goes out for. Bookkeeping only: it
/// knows the month, the year, the soak and the price, not the day's luck.
Lanes not_worth_it(const PreparedPlan& ready, const Workspace& work, const Day& day, std::size_t b, std::size_t f);

/// With nothing but breakdowns and weather to keep it in: one pass.
SEASONRISK_STEP void send_out_simply(BoatWork& boat, int today) {
    SEASONRISK_EACH_LANE {
        const double broken = boat.down_until[i] >= today ? 1.0 : 0.0;
        const double out = (1.0 - broken) * (1.0 - boat.weather.bad[i]);
        boat.out[i] = out;
        boat.year.days_broken_down[i] += broken;
        boat.year.days_fished[i] += out;
    }
}

/// Every cause, in order. After the season only gear that is still coming in takes the boat out, and no day is lost.
SEASONRISK_STEP void send_out(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day, int today, std::size_t b) {
    BoatWork& boat = work.boat[b];
    BoatYear& year = boat.year;
    Lanes nowhere;
    const auto tally = [&](Lanes& days_lost) -> Lanes& { return day.in_season ? days_lost : nowhere; };
    nowhere = Lanes(0.0);

    const FisheryWork* fishery = nullptr;
    std::size_t place = 0;
    boat.lifting = Lanes(0.0);
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        if (is_worked(boat.fishery[f], day)) {
            fishery = &boat.fishery[f];
            place = f;
        }
        if (boat.fishery[f].comes_in && boat.fishery[f].worked_before) boat.lifting = is_coming_in(work, boat.fishery[f], day);
    }
    Lanes can_go(1.0);
    Lanes ashore;
    SEASONRISK_EACH_LANE {
        const bool fishes = fishery != nullptr
            && (!fishery->comes_in || fishery->gear.gear_in_days_left[i] > 0.0 || work.plan.ending.gear_in_days[i] <= 0.0);
        ashore[i] = fishes || boat.lifting[i] != 0.0 ? 0.0 : 1.0;
    }
    hold_back(can_go, tally(year.days_ashore), ashore);
    if (ready.boat[b].owners && ready.owner_laid_up) hold_back(can_go, tally(year.days_laid_up), still_until(work.owner.laid_up_until, today));
    hold_back(can_go, tally(year.days_broken_down), still_until(boat.down_until, today));
    if (ready.boat[b].owners) hold_back(can_go, tally(year.days_no_skipper), work.owner.away_today);
    if (ready.boat[b].gaps) hold_back(can_go, tally(year.days_no_skipper), still_until(boat.gap_until, today));
    if (is_supposed(ready, Event::no_skipper, calendar, day, b)) hold_back(can_go, tally(year.days_no_skipper), Lanes(1.0));
    if (ready.boat[b].hands_miss) {
        Lanes nobody;
        SEASONRISK_EACH_LANE nobody[i] = boat.hauls_factor[i] <= 0.0 ? 1.0 : 0.0;
        hold_back(can_go, tally(year.days_no_crew), nobody);
    }
    if (!work.limit.empty() || !work.shock.empty()) {
        Lanes closed = limits_reached(ready, work, fishery, calendar, day);
        SEASONRISK_EACH_LANE closed[i] *= 1.0 - boat.lifting[i];
        hold_back(can_go, tally(year.days_limit), closed);
    }
    if (is_supposed(ready, Event::closure, calendar, day, b)) {
        Lanes closed;
        SEASONRISK_EACH_LANE closed[i] = 1.0 - boat.lifting[i];
        hold_back(can_go, tally(year.days_limit), closed);
    }
    const Lanes before_weather = can_go;
    hold_back(can_go, tally(year.days_weather), boat.weather.bad);
    if (ready.turns_back && day.in_season) {
        SEASONRISK_EACH_LANE
            work.cash.balance[i] -= (before_weather[i] - can_go[i]) * work.plan.weather.turned_back_fraction[i] * boat.rates.fuel_a_day_out[i];
    }
    if (work.plan.boat[b].stay_in_below && fishery != nullptr) {
        Lanes stays = not_worth_it(ready, work, day, b, place);
        SEASONRISK_EACH_LANE stays[i] *= 1.0 - boat.lifting[i];
        hold_back(can_go, tally(year.days_stayed_in), stays);
    }
    boat.out = can_go;
    SEASONRISK_EACH_LANE {
        boat.lifting[i] *= can_go[i];
        year.days_out[i] += can_go[i];
        year.days_gear_in[i] += boat.lifting[i];
    }
    if (day.in_season) add(year.days_fished, can_go);
    if (!ready.boat[b].hands_miss) return;
    for (HandWork& hand : boat.hand) {
        SEASONRISK_EACH_LANE hand.days_missed[i] += can_go[i] * hand.absent_today[i];
    }
}

/// Somebody may be missing from tomorrow on, for weeks.
SEASONRISK_STEP void keep_away(BatchAddress at_batch, const Day& day, int today, Lanes& until, const Lanes& odds_a_day, const Spread& weeks, Purpose happens, Purpose how_long, std::size_t b) {
    const Lanes uniforms = uniforms_today(at_batch, day, happens, b);
    std::uint64_t struck = 0;
    SEASONRISK_EACH_LANE struck |= until[i] < today && uniforms[i] < odds_a_day[i] ? k_lane_bits.of[i] : 0u;
    for (; struck != 0; struck &= struck - 1) {
        const int i = std::countr_zero(struck);
        const std::uint64_t history = at_batch.first_history + static_cast<std::uint64_t>(i);
        until[i] = today + 7.0 * at(weeks, normal_at(at_batch.key, on_day(day.slot, how_long, {static_cast<std::uint32_t>(b)}), history));
    }
}

/// At the day's end: does somebody fall ill, or a hired skipper go missing?
SEASONRISK_STEP void lose_people(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today) {
    if (ready.owner_laid_up)
        keep_away(at_batch, day, today, work.owner.laid_up_until, work.owner.laid_up_odds_a_day, ready.laid_up_weeks, Purpose::laid_up, Purpose::laid_up_weeks, 0);
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        if (!ready.boat[b].gaps) continue;
        keep_away(at_batch, day, today, work.boat[b].gap_until, work.boat[b].gap_odds_a_day, ready.boat[b].gap_weeks, Purpose::skipper_gap, Purpose::skipper_gap_weeks, b);
    }
}

}  // namespace seasonrisk
