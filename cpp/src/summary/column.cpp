// SPDX-License-Identifier: MIT
#include "column.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>

namespace seasonrisk {

void check_column(std::span<const double> values) {
    if (values.empty()) throw std::invalid_argument("values: no histories; at least one is needed");
    const auto bad = std::ranges::find_if_not(values, [](double value) { return std::isfinite(value); });
    if (bad == values.end()) return;
    throw std::invalid_argument("values[" + std::to_string(bad - values.begin()) + "]=" + std::to_string(*bad) + ": must be a finite number");
}

void check_finite(const char* name, double value) {
    if (!std::isfinite(value)) throw std::invalid_argument(std::string(name) + "=" + std::to_string(value) + ": must be a finite number");
}

bool all_equal(std::span<const double> values) {
    return values.size() > 1 && std::ranges::adjacent_find(values, std::ranges::not_equal_to{}) == values.end();
}

}  // namespace seasonrisk
