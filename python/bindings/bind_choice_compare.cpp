// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include "array.hpp"
#include "seasonrisk/choice/caution.hpp"
#include "seasonrisk/choice/compare.hpp"
#include "seasonrisk/summary/difference.hpp"

namespace seasonrisk::python {
namespace {

py::arg base_arg() { return py::arg("base").noconvert(); }
py::arg choice_arg() { return py::arg("choice").noconvert(); }

/// The arrays stay alive as long as the dict that holds them.
NamedColumns named_columns(const py::dict& columns) {
    NamedColumns named;
    for (const auto& [name, values] : columns) named.emplace_back(name.cast<std::string>(), span_of(values.cast<ColumnArray>()));
    return named;
}

void bind_differences(py::module_& module) {
    module.def("mean_difference", [](const ColumnArray& base, const ColumnArray& choice) { return mean_difference(span_of(base), span_of(choice)); }, base_arg(), choice_arg());
    module.def("chance_difference", [](const ColumnArray& base, const ColumnArray& choice, double at_least) {
        return chance_difference(span_of(base), span_of(choice), at_least);
    }, base_arg(), choice_arg(), py::arg("at_least"));
    module.def("quantile_difference", [](const ColumnArray& base, const ColumnArray& choice, double level) {
        return quantile_difference(span_of(base), span_of(choice), level);
    }, base_arg(), choice_arg(), py::arg("level"));
    module.def("worst_share_difference", [](const ColumnArray& base, const ColumnArray& choice, double share) {
        return worst_share_difference(span_of(base), span_of(choice), share);
    }, base_arg(), choice_arg(), py::arg("share"));
    module.def("ratio_of_means", [](const ColumnArray& top, const ColumnArray& bottom) { return ratio_of_means(span_of(top), span_of(bottom)); },
               py::arg("top").noconvert(), py::arg("bottom").noconvert());
    module.def("histories_to_tell", [](double standard_error, std::uint64_t n, double amount) {
        Estimate difference;
        difference.standard_error = standard_error;
        difference.n = n;
        return histories_to_tell(difference, amount);
    }, py::arg("standard_error"), py::arg("n"), py::arg("amount"));
}

void bind_comparison(py::module_& module) {
    py::class_<RungChange>(module, "RungChange")
        .def_readonly("base_chance", &RungChange::base_chance)
        .def_readonly("choice_chance", &RungChange::choice_chance)
        .def_readonly("mean", &RungChange::mean)
        .def_readonly("chance", &RungChange::chance)
        .def_readonly("gained", &RungChange::gained)
        .def_readonly("lost", &RungChange::lost)
        .def_readonly("better", &RungChange::better)
        .def_readonly("worse", &RungChange::worse)
        .def_readonly("bad", &RungChange::bad)
        .def_readonly("middling", &RungChange::middling)
        .def_readonly("good", &RungChange::good)
        .def_readonly("worst_tenth", &RungChange::worst_tenth);

    py::class_<TwoBadYears>(module, "TwoBadYears")
        .def_readonly("base", &TwoBadYears::base)
        .def_readonly("choice", &TwoBadYears::choice)
        .def_readonly("difference", &TwoBadYears::difference);

    py::class_<Comparison>(module, "Comparison")
        .def_readonly("rungs", &Comparison::rungs)
        .def_readonly("end_position", &Comparison::end_position)
        .def_readonly("two_bad_years", &Comparison::two_bad_years)
        .def_readonly("steps", &Comparison::steps);

    module.def("compare", [](const py::dict& base, const py::dict& choice) { return compare(named_columns(base), named_columns(choice)); },
               py::arg("base"), py::arg("choice"));
    module.def("money_steps", [] {
        py::list steps;
        for (const MoneyStep& step : k_money_steps) steps.append(py::make_tuple(std::string(step.column), std::string(step.rung), step.sign));
        return steps;
    });
}

void bind_caution(py::module_& module) {
    module.def("tolerance_of", &tolerance_of, py::arg("largest_loss"));
    module.def("certainty_equivalent", [](const ColumnArray& values, double tolerance) { return certainty_equivalent(span_of(values), tolerance); },
               column_arg(), py::arg("tolerance"));
    module.def("certainty_equivalent_difference", [](const ColumnArray& base, const ColumnArray& choice, double tolerance) {
        return certainty_equivalent_difference(span_of(base), span_of(choice), tolerance);
    }, base_arg(), choice_arg(), py::arg("tolerance"));
}

}  // namespace

void bind_choice_compare(py::module_& module) {
    bind_differences(module);
    bind_comparison(module);
    bind_caution(module);
}

}  // namespace seasonrisk::python
