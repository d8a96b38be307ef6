// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include "array.hpp"
#include "seasonrisk/ensemble/spread_sources.hpp"
#include "seasonrisk/summary/spread_share.hpp"
#include "seasonrisk/summary/worth_knowing.hpp"

namespace seasonrisk::python {
namespace {

using Columns = std::vector<ColumnArray>;

std::vector<NormalInput> to_inputs(const Columns& normals, const std::vector<std::size_t>& parts, const std::vector<bool>& guesses) {
    std::vector<NormalInput> inputs;
    for (std::size_t i = 0; i < normals.size(); ++i) inputs.push_back({span_of(normals[i]), parts.at(i), guesses.at(i)});
    return inputs;
}

std::vector<EventInput> to_events(const Columns& columns, const std::vector<std::size_t>& parts) {
    std::vector<EventInput> events;
    for (std::size_t j = 0; j < columns.size(); ++j) events.push_back({span_of(columns[j]), parts.at(j)});
    return events;
}

}  // namespace

void bind_choice_drivers(py::module_& module) {
    py::class_<PartShare>(module, "PartShare")
        .def_readonly("alone", &PartShare::alone)
        .def_readonly("total", &PartShare::total)
        .def_readonly("effect", &PartShare::effect);

    py::class_<SpreadShares>(module, "SpreadShares")
        .def_readonly("guess", &SpreadShares::guess)
        .def_readonly("luck", &SpreadShares::luck)
        .def_readonly("parts", &SpreadShares::parts)
        .def_readonly("guess_pairs", &SpreadShares::guess_pairs)
        .def_readonly("luck_pairs", &SpreadShares::luck_pairs)
        .def_readonly("left", &SpreadShares::left)
        .def_readonly("terms", &SpreadShares::terms)
        .def_readonly("pairs", &SpreadShares::pairs)
        .def_readonly("pairs_left_out", &SpreadShares::pairs_left_out);

    py::class_<WorthKnowing>(module, "GuessWorth")
        .def_readonly("value", &WorthKnowing::value)
        .def_readonly("would_change", &WorthKnowing::would_change);

    module.def("spread_sources", [](const Plan& plan, std::uint64_t key, std::uint64_t histories) {
        std::vector<SpreadSource> sources;
        {
            const py::gil_scoped_release no_gil;
            sources = spread_sources(plan, key, 0, histories);
        }
        py::list told;
        for (SpreadSource& source : sources) told.append(py::make_tuple(source.part, source.is_guess, owning_array(std::move(source.normals))));
        return told;
    }, py::arg("plan"), py::arg("key"), py::arg("histories"));

    module.def("spread_shares", [](const ColumnArray& values, const Columns& normals, const std::vector<std::size_t>& parts, const std::vector<bool>& guesses,
                                   const Columns& events, const std::vector<std::size_t>& event_parts, std::size_t n_parts) {
        const auto outcome = span_of(values);
        const auto inputs = to_inputs(normals, parts, guesses);
        const auto counted = to_events(events, event_parts);
        const py::gil_scoped_release no_gil;
        return spread_shares(outcome, inputs, counted, n_parts);
    }, column_arg(), py::arg("normals"), py::arg("parts"), py::arg("guesses"), py::arg("events"), py::arg("event_parts"), py::arg("n_parts"));

    module.def("share_in_common", [](const ColumnArray& values, const ColumnArray& with_other_luck) {
        return share_in_common(span_of(values), span_of(with_other_luck));
    }, column_arg(), py::arg("with_other_luck").noconvert());

    module.def("worth_knowing", [](const Columns& outcomes, const Columns& normals, const std::vector<bool>& guesses) {
        std::vector<std::span<const double>> columns;
        for (const ColumnArray& outcome : outcomes) columns.push_back(span_of(outcome));
        const auto inputs = to_inputs(normals, std::vector<std::size_t>(normals.size()), guesses);
        const py::gil_scoped_release no_gil;
        return worth_knowing(columns, inputs);
    }, py::arg("outcomes"), py::arg("normals"), py::arg("guesses"));
}

}  // namespace seasonrisk::python
