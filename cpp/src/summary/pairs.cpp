// SPDX-License-Identifier: MIT
#include "pairs.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "column.hpp"

namespace seasonrisk {

Pairs pairs_of(std::span<const double> base, std::span<const double> choice) {
    check_column(base);
    check_column(choice);
    if (base.size() != choice.size()) {
        throw std::invalid_argument("base has " + std::to_string(base.size()) + " histories, choice " + std::to_string(choice.size())
                                    + ": must be the same histories");
    }
    Pairs pairs;
    pairs.difference.reserve(base.size());
    double largest = 0.0;
    for (std::size_t i = 0; i < base.size(); ++i) {
        pairs.difference.push_back(choice[i] - base[i]);
        largest = std::max({largest, std::abs(base[i]), std::abs(choice[i])});
    }
    pairs.rounding = 1e-10 * largest;
    const auto [least, most] = std::ranges::minmax(pairs.difference);
    pairs.constant = base.size() > 1 && most - least <= pairs.rounding;
    pairs.none = pairs.constant && std::max(std::abs(least), std::abs(most)) <= pairs.rounding;
    return pairs;
}

}  // namespace seasonrisk
