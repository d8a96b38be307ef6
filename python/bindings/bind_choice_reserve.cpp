// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include <optional>
#include <span>
#include <vector>

#include "array.hpp"
#include "seasonrisk/choice/reserve.hpp"

namespace seasonrisk::python {
namespace {

std::vector<std::span<const double>> spans_of(const std::vector<ColumnArray>& years) {
    std::vector<std::span<const double>> spans;
    for (const ColumnArray& year : years) spans.push_back(span_of(year));
    return spans;
}

}  // namespace

void bind_choice_reserve(py::module_& module) {
    module.def("need_of", [](const ColumnArray& repairs, const std::optional<ColumnArray>& claims, const ColumnArray& contribution,
                             const ColumnArray& days_broken_down, const ColumnArray& days_left) {
        const std::span<const double> paid_back = claims ? span_of(*claims) : std::span<const double>{};
        return owning_array(need_of({span_of(repairs), paid_back, span_of(contribution), span_of(days_broken_down), span_of(days_left)}));
    }, py::kw_only(), py::arg("repairs"), py::arg("claims").none(true), py::arg("contribution"), py::arg("days_broken_down"), py::arg("days_left"));

    module.def("start_needed", [](const std::vector<ColumnArray>& needs_by_year, double refill_a_year) {
        return owning_array(start_needed(spans_of(needs_by_year), refill_a_year));
    }, py::arg("needs_by_year"), py::arg("refill_a_year"));

    module.def("refill_needed", [](const std::vector<ColumnArray>& needs_by_year, double start) {
        return owning_array(refill_needed(spans_of(needs_by_year), start));
    }, py::arg("needs_by_year"), py::arg("start"));
}

}  // namespace seasonrisk::python
