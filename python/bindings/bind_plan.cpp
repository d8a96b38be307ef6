// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include "plan_entries.hpp"
#include "seasonrisk/plan/read_plan.hpp"

namespace seasonrisk::python {
namespace {

void bind_finding(py::module_& module) {
    py::class_<Finding>(module, "Finding")
        .def_property_readonly("severity", [](const Finding& f) { return f.severity == Severity::error ? "error" : "warning"; })
        .def_property_readonly("path", [](const Finding& f) { return to_str(f.path); })
        .def_property_readonly("value", [](const Finding& f) { return to_str(f.value); })
        .def_property_readonly("message", [](const Finding& f) { return to_str(f.message); })
        .def_property_readonly("hint", [](const Finding& f) { return to_str(f.hint); })
        .def_property_readonly("file", [](const Finding& f) { return to_str(f.file); })
        .def_readonly("line", &Finding::line)
        .def_readonly("column", &Finding::column)
        .def("__str__", [](const Finding& f) { return to_str(to_text(f)); });
}

void bind_entry(py::module_& module) {
    py::class_<PlanValue>(module, "PlanValue")
        .def_readonly("path", &PlanValue::path)
        .def_readonly("value", &PlanValue::value)
        .def_property_readonly("kind", [](const PlanValue& e) { return k_kind_words[static_cast<std::size_t>(e.kind)]; })
        .def_property_readonly("unit", [](const PlanValue& e) { return e.rule.unit; })
        .def_readonly("meaning", &PlanValue::meaning)
        .def_property_readonly("lowest", [](const PlanValue& e) { return e.rule.lowest; })
        .def_property_readonly("highest", [](const PlanValue& e) { return e.rule.highest; })
        .def_property_readonly("lowest_open", [](const PlanValue& e) { return e.rule.lowest_open; })
        .def_property_readonly("highest_open", [](const PlanValue& e) { return e.rule.highest_open; })
        .def_property_readonly("whole", [](const PlanValue& e) { return e.rule.whole; })
        .def("mean", [](const PlanValue& e) { return mean(e.spread()); })
        .def("at", [](const PlanValue& e, double z) { return at(e.spread(), z); }, py::arg("z"));
}

/// The same plan as a choice made from `base`: crowding and gear loss are counted against the pots and days of `base`.
Plan beside(Plan plan, const Plan& base) {
    plan.base = base_of(base);
    return plan;
}

/// The same plan as one of its own.
Plan on_its_own(Plan plan) {
    plan.base = {};
    return plan;
}

std::vector<Change> to_changes(const std::vector<std::pair<std::string, std::string>>& pairs) {
    std::vector<Change> changes;
    for (const auto& [path, value] : pairs) changes.push_back({path, value});
    return changes;
}

std::vector<std::pair<std::string, std::string>> to_pairs(const std::vector<Change>& changes) {
    std::vector<std::pair<std::string, std::string>> pairs;
    for (const Change& change : changes) pairs.emplace_back(change.path, change.value);
    return pairs;
}

}  // namespace

void bind_plan(py::module_& module) {
    bind_finding(module);
    bind_entry(module);

    py::class_<Plan>(module, "Plan")
        .def("__eq__", [](const Plan& a, const Plan& b) { return a == b; }, py::is_operator())
        .def("values", &values_of)
        .def("beside", &beside, py::arg("base"))
        .def("on_its_own", &on_its_own);

    py::class_<PlanReading>(module, "PlanReading")
        .def_readonly("plan", &PlanReading::plan)
        .def_readonly("findings", &PlanReading::findings)
        .def_property_readonly("ok", &PlanReading::ok);

    module.def("read_plan", [](const py::bytes& toml_text, const std::string& file_name, const std::vector<std::pair<std::string, std::string>>& changes) {
        return read_plan(static_cast<std::string_view>(toml_text), file_name, to_changes(changes));
    }, py::arg("toml_text"), py::arg("file_name"), py::arg("changes"));

    module.def("changes_of_choice", [](const py::bytes& toml_text, const std::string& choice_name) {
        return to_pairs(changes_of_choice(static_cast<std::string_view>(toml_text), choice_name));
    }, py::arg("toml_text"), py::arg("choice_name"));

    module.def("changes_of_stress", [](const py::bytes& toml_text, const std::string& stress_name) {
        return to_pairs(changes_of_stress(static_cast<std::string_view>(toml_text), stress_name));
    }, py::arg("toml_text"), py::arg("stress_name"));
}

}  // namespace seasonrisk::python
