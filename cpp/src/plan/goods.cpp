// SPDX-License-Identifier: MIT
#include "goods.hpp"

#include <algorithm>

#include "words.hpp"

namespace seasonrisk {

std::vector<Good> goods_of(const Plan& plan) {
    std::vector<Good> goods;
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const auto& species = plan.species[k];
        if (species.grade.empty()) goods.push_back({species.name, numbered("species", k), k, false});
        for (std::size_t g = 0; g < species.grade.size(); ++g)
            goods.push_back({species.grade[g].name, numbered(numbered("species", k) + ".grade", g), k, true});
    }
    return goods;
}

bool takes(const Outlet<Number>& outlet, const Good& good, const Plan& plan) {
    const std::string& species = plan.species[good.species].name;
    return std::ranges::any_of(outlet.price.items, [&](const auto& price) {
        return !price.first.empty() && (price.first == good.name || price.first == species);
    });
}

std::vector<std::string> names_of(const std::vector<Good>& goods) {
    std::vector<std::string> names;
    for (const Good& good : goods) names.push_back(good.name);
    return names;
}

}  // namespace seasonrisk
