// SPDX-License-Identifier: MIT
#pragma once

#include "pybind.hpp"

#include <cstdint>
#include <stop_token>

namespace seasonrisk::python {

/// What is to happen when the user presses Ctrl-C while seasons are simulated.
enum class OnInterrupt { raise, give_what_is_done };

/// Called by the engine about every 50 ms from the calling thread, which holds no GIL: looks for Ctrl-C and tells
/// the user's `progress`. Python is entered here and nowhere else during a run.
class InterruptWatch {
public:
    InterruptWatch(py::object progress, OnInterrupt on_interrupt) : progress_(std::move(progress)), on_interrupt_(on_interrupt) {}

    std::stop_token stop_token() const { return stop_.get_token(); }

    void operator()(std::uint64_t done) {
        const py::gil_scoped_acquire gil;
        look([&] { if (!progress_.is_none()) progress_(done); });
    }

    /// A last look, for a Ctrl-C after the engine's last call.
    /// \pre the GIL is held
    void look_once_more() {
        look([] {});
    }

private:
    void look(const auto& then_do) {
        try {
            if (PyErr_CheckSignals() != 0) throw py::error_already_set();
            then_do();  // Ctrl-C may come in here, too
        } catch (const py::error_already_set& error) {
            if (on_interrupt_ == OnInterrupt::raise || !error.matches(PyExc_KeyboardInterrupt)) throw;
            stop_.request_stop();
        }
    }

    py::object progress_;
    OnInterrupt on_interrupt_;
    std::stop_source stop_{};
};

}  // namespace seasonrisk::python
