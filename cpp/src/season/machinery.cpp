// SPDX-License-Identifier: MIT
#include "seasonrisk/season/machinery.hpp"

namespace seasonrisk {

void repair_one(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t b, std::size_t kind, int lane) {
    const std::uint64_t history = at_batch.first_history + static_cast<std::uint64_t>(lane);
    const Who who{static_cast<std::uint32_t>(b), static_cast<std::uint32_t>(kind)};
    const PreparedBreakdown& sizes = ready.boat[b].breakdowns[kind];
    const double repair = at(sizes.repair, normal_at(at_batch.key, on_day(day.slot, Purpose::repair_size, who), history));
    double days_lost = at(sizes.days_lost, normal_at(at_batch.key, on_day(day.slot, Purpose::days_lost_size, who), history));

    const auto& boat = work.plan.boat[b];
    BoatWork& state = work.boat[b];
    BreakdownWork& event = state.breakdown[kind];
    days_lost = days_lost > event.days_saved[lane] ? days_lost - event.days_saved[lane] : 0.0;
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
    const double accepted = uniform_at(at_batch.key, on_day(day.slot, Purpose::claim_accepted, who), history);
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
