// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// Something that is sold by itself: a grade of a species, or a species that has no grades.
struct Good {
    std::string name{};
    std::string path{};       ///< of its section: "species.0.grade.1", or "species.0" when it has no grades
    std::size_t species = 0;  ///< number of its species
    bool is_grade = false;
};

/// All goods of the plan in its order: species by species, the grades of each in order.
std::vector<Good> goods_of(const Plan& plan);

/// Does the outlet have a price for it: one of its own, or that of its species?
bool takes(const Outlet<Number>& outlet, const Good& good, const Plan& plan);

std::vector<std::string> names_of(const std::vector<Good>& goods);

}  // namespace seasonrisk
