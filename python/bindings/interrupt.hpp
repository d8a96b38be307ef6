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
        look_for_signals();
        if (!progress_.is_none()) progress_(done);
    }

    /// \pre the GIL is held
    void look_for_signals() {
        if (PyErr_CheckSignals() == 0) return;
        if (on_interrupt_ == OnInterrupt::raise || PyErr_ExceptionMatches(PyExc_KeyboardInterrupt) == 0) throw py::error_already_set();
        PyErr_Clear();
        stop_.request_stop();
    }

private:
    py::object progress_;
    OnInterrupt on_interrupt_;
    std::stop_source stop_{};
};

}  // namespace seasonrisk::python
