// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "seasonrisk/math/lanes.hpp"

/// \file
/// What has been landed and not been sold yet.
namespace seasonrisk {

/// A good in this batch. Quantities in its sold unit, each boat's part by itself, for its crew shares it.
struct GoodWork {
    Lanes share;                    ///< sold units in a unit of the species' catch, this year
    std::vector<Lanes> landed{};    ///< per boat: today's landing, what is left of it
    Lanes landed_today;             ///< of all boats, before anything is sold
    std::vector<std::vector<Lanes>> kept{};  ///< [days since the landing][boat]
    Lanes died, forced, unsold, held;        ///< this year; held: now
};

/// Take up to `want` out of one pool (a part per boat); what is taken comes off `want`.
/// \return what was taken; `taken[b]` is each boat's part
SEASONRISK_STEP Lanes take_from(std::vector<Lanes>& pool, Lanes& want, std::vector<Lanes>& taken) {
    Lanes total(0.0);
    for (const Lanes& part : pool) {
        SEASONRISK_EACH_LANE total[i] += part[i];
    }
    Lanes sold;
    Lanes fraction;
    SEASONRISK_EACH_LANE {
        sold[i] = want[i] < total[i] ? want[i] : total[i];
        fraction[i] = total[i] > 0.0 ? sold[i] / total[i] : 0.0;
        want[i] -= sold[i];
    }
    for (std::size_t b = 0; b < pool.size(); ++b) {
        SEASONRISK_EACH_LANE {
            taken[b][i] = pool[b][i] * fraction[i];
            pool[b][i] -= taken[b][i];
        }
    }
    return sold;
}

}  // namespace seasonrisk
