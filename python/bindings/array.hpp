// SPDX-License-Identifier: MIT
#pragma once

#include "pybind.hpp"

#include <memory>
#include <span>
#include <stdexcept>
#include <vector>

namespace seasonrisk::python {

/// A column of outcomes as it is handed in: float64, contiguous, never converted (bind with `noconvert`).
using ColumnArray = py::array_t<double, py::array::c_style>;

inline py::arg column_arg() { return py::arg("values").noconvert(); }

/// \throws std::invalid_argument unless the array has one dimension
inline std::span<const double> span_of(const ColumnArray& values) {
    if (values.ndim() != 1) throw std::invalid_argument("values: must have one dimension, not " + std::to_string(values.ndim()));
    return {values.data(), static_cast<std::size_t>(values.size())};
}

/// The engine's own memory as a read-only array that keeps `owner` alive.
inline py::array read_only_view(std::span<const double> values, const py::object& owner) {
    py::array_t<double> view(static_cast<py::ssize_t>(values.size()), values.data(), owner);
    view.attr("setflags")(py::arg("write") = false);
    return view;
}

/// Values moved, not copied, into an array that owns them.
template <class T>
py::array_t<T> owning_array(std::vector<T> values) {
    auto owned = std::make_unique<std::vector<T>>(std::move(values));
    const std::vector<T>& kept = *owned;
    const py::capsule owner(owned.get(), [](void* pointer) { delete static_cast<std::vector<T>*>(pointer); });
    owned.release();  // only now: the capsule exists and frees it
    return py::array_t<T>(static_cast<py::ssize_t>(kept.size()), kept.data(), owner);
}

}  // namespace seasonrisk::python
