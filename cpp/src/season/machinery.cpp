// SPDX-License-Identifier: MIT
#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/at_sea.hpp"

namespace seasonrisk {

void repair_one(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t kind, int lane) {
    const std::uint64_t history = at_batch.first_history + static_cast<std::uint64_t>(lane);
    const Who who{0, static_cast<std::uint32_t>(kind)};
    const double repair = at(ready.breakdowns[kind].repair, normal_at(at_batch.key, on_day(day.slot, Purpose::repair_size, who), history));
    const double days_lost = at(ready.breakdowns[kind].days_lost, normal_at(at_batch.key, on_day(day.slot, Purpose::days_lost_size, who), history));

    work.breakdown[kind].events[lane] += 1.0;
    work.earned.repairs[lane] += repair;
    work.cash.balance[lane] -= repair;
    const double last_day_lost = today + days_lost;
    if (last_day_lost > work.day.down_until[lane]) work.day.down_until[lane] = last_day_lost;

    const auto& boat = work.plan.boat[0];
    if (!boat.insurance || boat.breakdown[kind].claimable_odds[lane] <= 0.0) return;
    const double accepted = uniform_at(at_batch.key, on_day(day.slot, Purpose::claim_accepted, who), history);
    const double above_deductible = repair - boat.insurance->deductible[lane];
    if (accepted < boat.breakdown[kind].claimable_odds[lane] && above_deductible > 0.0) {
        work.day.claims_paid[lane] += 1.0;
        work.earned.claims[lane] += above_deductible;
        const int row = row_of(work.cash, today, boat.insurance->claim_paid_after_days[lane]);
        work.cash.incoming[static_cast<std::size_t>(row)][lane] += above_deductible;
    }
}

}  // namespace seasonrisk
