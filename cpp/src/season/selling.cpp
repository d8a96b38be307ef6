// SPDX-License-Identifier: MIT
#include "seasonrisk/season/selling.hpp"

namespace seasonrisk {

Lanes demand_today(BatchAddress at_batch, const Day& day, std::size_t outlet, std::uint32_t block, const Lanes& mean, const std::optional<Lanes>& sd) {
    Lanes counts;
    for (int i = 0; i < k_lanes; ++i) {
        const std::uint64_t history = at_batch.first_history + static_cast<std::uint64_t>(i);
        const Address address = on_day(day.slot, Purpose::demand, {0, static_cast<std::uint32_t>(outlet), block});
        counts[i] = demand_count(mean[i], sd ? (*sd)[i] : 0.0, uniform_at(at_batch.key, address, history));
    }
    return counts;
}

}  // namespace seasonrisk
