// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include "array.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk::python {

void bind_summary(py::module_& module) {
    py::class_<Estimate>(module, "Estimate")
        .def_readonly("value", &Estimate::value)
        .def_readonly("standard_error", &Estimate::standard_error)
        .def_readonly("low", &Estimate::low)
        .def_readonly("high", &Estimate::high)
        .def_readonly("n", &Estimate::n)
        .def_readonly("exact", &Estimate::exact);

    module.def("chance", [](const ColumnArray& values, double at_least) { return chance(span_of(values), at_least); }, column_arg(), py::arg("at_least"));
    module.def("mean", [](const ColumnArray& values) { return mean(span_of(values)); }, column_arg());
    module.def("standard_deviation", [](const ColumnArray& values) { return standard_deviation(span_of(values)); }, column_arg());
    module.def("quantile", [](const ColumnArray& values, double level) { return quantile(span_of(values), level); }, column_arg(), py::arg("level"));
    module.def("shortfall_when_missed", [](const ColumnArray& values, double target) { return shortfall_when_missed(span_of(values), target); }, column_arg(), py::arg("target"));
    module.def("worst_share_mean", [](const ColumnArray& values, double share) { return worst_share_mean(span_of(values), share); }, column_arg(), py::arg("share"));
}

}  // namespace seasonrisk::python
