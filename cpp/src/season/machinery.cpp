// SPDX-License-Identifier: MIT
#include "seasonrisk/season/machinery.hpp"

#include <algorithm>
#include <bit>
#include <span>

namespace seasonrisk {
namespace {

Who who_of(std::size_t b, const Mishap& mishap) { return {static_cast<std::uint32_t>(b), static_cast<std::uint32_t>(mishap.kind)}; }
std::uint64_t history_of(BatchAddress at_batch, const Mishap& mishap) { return at_batch.first_history + static_cast<std::uint64_t>(mishap.lane); }

/// What each mishap costs and how many days it takes. `day` is day `today`.
void size_mishaps(const PreparedPlan& ready, BatchAddress at_batch, const Day& day, int today, std::size_t b, std::vector<Mishap>& mishaps) {
    constexpr std::size_t at_once = k_most_quantiles / 2;
    alignas(64) double normals[2 * at_once];
    double* rows[k_most_rows];
    for (int row = 0; row < k_most_rows; ++row) rows[row] = normals + row * k_lanes;
    for (std::size_t first = 0; first < mishaps.size(); first += at_once) {
        const std::span<Mishap> some(mishaps.data() + first, std::min(at_once, mishaps.size() - first));
        double* uniform = normals;
        for (const Mishap& mishap : some) {
            const DaySlot slot = (&day + (mishap.today - today))->slot;
            for (const Purpose size : {Purpose::repair_size, Purpose::days_lost_size})
                *uniform++ = uniform_at(at_batch.key, on_day(slot, size, who_of(b, mishap)), history_of(at_batch, mishap));
        }
        const int used = static_cast<int>((2 * some.size() + k_lanes - 1) / k_lanes);
        std::fill(uniform, normals + used * k_lanes, 0.5);
        at_batch.to_normals(rows, used);
        const double* normal = normals;
        for (Mishap& mishap : some) {
            const PreparedBreakdown& sizes = ready.boat[b].breakdowns[static_cast<std::size_t>(mishap.kind)];
            mishap.repair = at(sizes.repair, *normal++);
            mishap.days_lost = at(sizes.days_lost, *normal++);
        }
    }
}

/// A boat's mishaps of these days, by day, kind and lane, without their sizes. The first is day `today`.
void find_mishaps(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, std::span<const Day> days, int today, std::size_t b) {
    BoatWork& boat = work.boat[b];
    const std::size_t kinds = boat.breakdown.size();
    constexpr std::size_t words = k_days_in_block / 2;  // of `below`, for a block
    std::vector<std::uint64_t>& below = work.draws.below;
    below.clear();
    for (std::size_t n = 0; n < days.size(); ++n) {
        if (n > 0 && word_of(days[n].slot) != 0) continue;  // one block for the days of its group
        for (std::size_t kind = 0; kind < kinds; ++kind) {
            Lanes four_days[k_days_in_block];
            const Who who{static_cast<std::uint32_t>(b), static_cast<std::uint32_t>(kind)};
            at_batch.draw(four_days->v, at_batch.key, on_day(group_of(days[n].slot), Purpose::breakdown_happens, who), at_batch.first_history);
            below.resize(below.size() + words);
            at_batch.lanes_below(four_days->v, boat.breakdown[kind].odds_a_day_out.v, k_days_in_block, &below[below.size() - words]);
        }
    }
    const std::uint64_t* of_group = below.data();
    for (std::size_t n = 0; n < days.size(); ++n) {
        const unsigned word = word_of(days[n].slot);
        if (n > 0 && word == 0) of_group += words * kinds;
        if (days[n].nobody_goes() || !(days[n].in_season || ready.gear_in)) continue;
        for (std::size_t kind = 0; kind < kinds; ++kind) {
            auto struck = static_cast<std::uint32_t>(of_group[words * kind + word / 2] >> (word % 2 * k_lanes));
            for (; struck != 0; struck &= struck - 1)
                boat.mishaps.push_back({today + static_cast<int>(n), static_cast<int>(kind), std::countr_zero(struck)});
        }
    }
}

}  // namespace

void foresee_mishaps(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today) {
    const std::size_t left = static_cast<std::size_t>(&calendar.days.back() + 1 - &day);
    std::size_t ahead = std::min<std::size_t>(left, day.in_season ? 64 : 8);  // after the season gear comes in within days
    while (ahead < left && word_of((&day + ahead)->slot) != 0) ++ahead;       // whole blocks: none is drawn twice
    const std::span<const Day> days(&day, ahead);
    work.mishaps_until = today + static_cast<int>(days.size());
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        BoatWork& boat = work.boat[b];
        boat.mishaps.clear();
        boat.next_mishap = 0;
        if (!fishes_this_year(boat)) continue;
        find_mishaps(ready, work, at_batch, days, today, b);
        size_mishaps(ready, at_batch, day, today, b, boat.mishaps);
    }
}

bool strikes(const Workspace& work, BatchAddress at_batch, const Day& day, std::size_t b, const Mishap& mishap) {
    const BoatWork& boat = work.boat[b];
    if (boat.out[mishap.lane] == 0.0) return false;
    const auto kind = static_cast<std::size_t>(mishap.kind);
    if (!boat.prepared->breakdowns[kind].wears) return true;
    const Address happens = on_day(group_of(day.slot), Purpose::breakdown_happens, who_of(b, mishap));
    const double uniform = uniform_at(at_batch.key, happens, history_of(at_batch, mishap), word_of(day.slot));
    return uniform < worn_odds(work.plan.boat[b].breakdown[kind], boat.breakdown[kind].hours, mishap.lane);
}

void repair_one(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t b, const Mishap& mishap) {
    const int lane = mishap.lane;
    const auto kind = static_cast<std::size_t>(mishap.kind);
    const double repair = mishap.repair;
    const auto& boat = work.plan.boat[b];
    BoatWork& state = work.boat[b];
    BreakdownWork& event = state.breakdown[kind];
    const double days_lost = mishap.days_lost > event.days_saved[lane] ? mishap.days_lost - event.days_saved[lane] : 0.0;
    event.events[lane] += 1.0;
    if (boat.breakdown[kind].resets_hours) event.hours[lane] = 0.0;
    work.earned.repairs[lane] += repair;
    state.year.repairs[lane] += repair;
    work.cash.balance[lane] -= repair;
    const double last_day_lost = today + days_lost;
    if (last_day_lost > state.down_until[lane]) state.down_until[lane] = last_day_lost;
    const double owner_back = today + boat.owner_days_per_breakdown[lane];
    if (ready.boat[b].takes_owner_after && owner_back > work.owner.busy_until[lane]) work.owner.busy_until[lane] = owner_back;

    if (!boat.insurance || boat.breakdown[kind].claimable_odds[lane] <= 0.0) return;
    const double accepted = uniform_at(at_batch.key, on_day(day.slot, Purpose::claim_accepted, who_of(b, mishap)), history_of(at_batch, mishap));
    const double above_deductible = repair - boat.insurance->deductible[lane];
    if (accepted < boat.breakdown[kind].claimable_odds[lane] && above_deductible > 0.0) {
        work.claims_paid[lane] += 1.0;
        work.earned.claims[lane] += above_deductible;
        state.year.claims[lane] += above_deductible;
        const int row = row_of(work.cash, today, boat.insurance->claim_paid_after_days[lane]);
        work.cash.incoming[static_cast<std::size_t>(row)][lane] += above_deductible;
    }
}

}  // namespace seasonrisk
