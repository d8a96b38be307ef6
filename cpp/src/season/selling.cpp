// SPDX-License-Identifier: MIT
#include "seasonrisk/season/selling.hpp"

namespace seasonrisk {

Lanes demand_today(BatchAddress at_batch, const Day& day, std::size_t outlet, std::uint32_t block, const Lanes& mean, const std::optional<Lanes>& sd) {
    const Address address = on_day(day.slot, Purpose::demand, {0, static_cast<std::uint32_t>(outlet), block});
    const Lanes uniforms = uniforms_at(at_batch.draw, at_batch.key, address, at_batch.first_history);
    Lanes counts;
    for (int i = 0; i < k_lanes; ++i) counts[i] = demand_count(mean[i], sd ? (*sd)[i] : 0.0, uniforms[i]);
    return counts;
}

}  // namespace seasonrisk
