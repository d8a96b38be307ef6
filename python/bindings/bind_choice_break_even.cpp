// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include <utility>
#include <vector>

#include "seasonrisk/choice/break_even.hpp"

namespace seasonrisk::python {

void bind_choice_break_even(py::module_& module) {
    py::class_<TriedInput>(module, "TriedInput")
        .def_readonly("input", &TriedInput::input)
        .def_readonly("estimate", &TriedInput::estimate);

    py::class_<Crossing>(module, "Crossing")
        .def_readonly("input", &Crossing::input)
        .def_readonly("low", &Crossing::low)
        .def_readonly("high", &Crossing::high)
        .def_readonly("rising", &Crossing::rising)
        .def_readonly("exact", &Crossing::exact);

    py::class_<BreakEven>(module, "BreakEven")
        .def_readonly("crossings", &BreakEven::crossings)
        .def_readonly("tried", &BreakEven::tried)
        .def_readonly("turns", &BreakEven::turns);

    // Python is called back for each input; it simulates, which lets go of the lock and listens for Ctrl-C.
    module.def("break_even", [](const py::function& estimate_at, std::vector<double> grid, double target, bool of_a_chance, double step) {
        return break_even([&estimate_at](double input) { return estimate_at(input).cast<Estimate>(); }, {std::move(grid), target, of_a_chance, step});
    }, py::arg("estimate_at"), py::kw_only(), py::arg("grid"), py::arg("target"), py::arg("of_a_chance"), py::arg("step"));
}

}  // namespace seasonrisk::python
