// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include <algorithm>
#include <iterator>

#include "array.hpp"
#include "interrupt.hpp"
#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/ensemble/simulate_endings.hpp"

namespace seasonrisk::python {
namespace {

Instructions to_instructions(const std::string& word) {
    const auto* const found = std::ranges::find(k_instruction_words, word);
    if (found == std::end(k_instruction_words)) {
        throw std::invalid_argument("instructions=" + word + ": must be \"best\", \"baseline\", \"avx2\" or \"avx512\"");
    }
    return static_cast<Instructions>(found - std::begin(k_instruction_words));
}

Outcomes simulate_watched(const Plan& plan, RunOptions options, InterruptWatch& watch) {
    options.stop = watch.stop_token();
    const py::gil_scoped_release no_gil;
    return simulate(plan, options, [&watch](std::uint64_t done) { watch(done); });
}

py::dict to_dict(DayTable table) {
    std::vector<std::int64_t> days;  // since 1970-01-01, as NumPy counts dates
    for (const Date date : table.dates) days.push_back(date.time_since_epoch().count());
    py::dict columns;
    for (std::size_t c = 0; c < table.columns.size(); ++c) columns[to_str(table.columns[c].name)] = owning_array(std::move(table.values[c]));
    py::dict result;
    result["days"] = owning_array(std::move(days));
    result["why"] = std::move(table.why);
    result["columns"] = std::move(columns);
    result["info"] = std::move(table.columns);
    return result;
}

void bind_outcomes(py::module_& module) {
    py::class_<ColumnInfo>(module, "ColumnInfo")
        .def_readonly("name", &ColumnInfo::name)
        .def_readonly("unit", &ColumnInfo::unit)
        .def_readonly("meaning", &ColumnInfo::meaning)
        .def_readonly("usual", &ColumnInfo::usual);

    py::class_<Outcomes>(module, "Outcomes")
        .def_property_readonly("columns", [](const Outcomes& o) { return o.columns(); })
        .def_property_readonly("histories", &Outcomes::histories)
        .def_readonly("histories_asked", &Outcomes::histories_asked)
        .def_readonly("threads", &Outcomes::threads)
        .def_readonly("instructions", &Outcomes::instructions)
        .def_readonly("seconds", &Outcomes::seconds)
        .def("column", [](const py::object& self, const std::string& name) {
            return read_only_view(self.cast<const Outcomes&>().column(name), self);
        }, py::arg("name"));
}

void bind_options(py::module_& module) {
    py::class_<RunOptions>(module, "RunOptions")
        .def(py::init([](std::uint64_t histories, std::uint64_t key, int threads, std::vector<std::string> keep, const std::string& instructions,
                         double memory_limit_bytes, double time_limit_s, std::uint32_t luck_family) {
            RunOptions options;
            options.histories = histories;
            options.key = key;
            options.threads = threads;
            options.keep = std::move(keep);
            options.instructions = to_instructions(instructions);
            options.memory_limit_bytes = memory_limit_bytes;
            options.time_limit_s = time_limit_s;
            options.luck_family = luck_family;
            return options;
        }), py::kw_only(), py::arg("histories"), py::arg("key"), py::arg("threads"), py::arg("keep"), py::arg("instructions"),
            py::arg("memory_limit_bytes"), py::arg("time_limit_s"), py::arg("luck_family"))
        .def_readonly("key", &RunOptions::key);

    py::class_<RunCost>(module, "RunCost")
        .def_readonly("memory_bytes", &RunCost::memory_bytes)
        .def_readonly("seconds", &RunCost::seconds);
}

}  // namespace

void bind_ensemble(py::module_& module) {
    bind_outcomes(module);
    bind_options(module);
    module.attr("stream_version") = k_stream_version;

    module.def("best_instructions", [] { return k_instruction_words[static_cast<std::size_t>(best_instructions())]; });
    module.def("columns_of", &columns_of, py::arg("plan"));
    module.def("cost_of_run", &cost_of_run, py::arg("plan"), py::arg("options"), py::call_guard<py::gil_scoped_release>());

    module.def("simulate", [](const Plan& plan, const RunOptions& options, py::object progress, bool return_on_interrupt) {
        InterruptWatch watch(std::move(progress), return_on_interrupt ? OnInterrupt::give_what_is_done : OnInterrupt::raise);
        Outcomes outcomes = simulate_watched(plan, options, watch);
        watch.look_once_more();
        return outcomes;
    }, py::arg("plan"), py::arg("options"), py::arg("progress").none(true), py::arg("return_on_interrupt"));

    module.def("simulate_endings", [](const Plan& plan, const std::vector<int>& stops, const RunOptions& options, py::object progress) {
        std::vector<Date> dates;  // told in days since 1970-01-01, as NumPy counts them
        for (const int stop : stops) dates.emplace_back(std::chrono::days{stop});
        InterruptWatch watch(std::move(progress), OnInterrupt::raise);
        RunOptions watched = options;
        watched.stop = watch.stop_token();
        std::vector<Outcomes> outcomes;
        {
            const py::gil_scoped_release no_gil;
            outcomes = simulate_endings(plan, dates, watched, [&watch](std::uint64_t done) { watch(done); });
        }
        watch.look_once_more();
        return outcomes;
    }, py::arg("plan"), py::arg("stops"), py::arg("options"), py::arg("progress").none(true));

    module.def("replay", [](const Plan& plan, std::uint64_t key, std::uint64_t history) { return to_dict(replay(plan, key, history)); },
               py::arg("plan"), py::arg("key"), py::arg("history"));
}

}  // namespace seasonrisk::python
