// SPDX-License-Identifier: MIT
#pragma once

/// \file
/// The only way the bindings include pybind11: a type caster that some files see and others do not would break
/// the one-definition rule.
#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <string>

namespace seasonrisk::python {

namespace py = pybind11;

void bind_plan(py::module_& module);
void bind_ensemble(py::module_& module);
void bind_summary(py::module_& module);
void bind_choice_compare(py::module_& module);
void bind_choice_drivers(py::module_& module);
void bind_choice_break_even(py::module_& module);
void bind_choice_reserve(py::module_& module);
void bind_credit(py::module_& module);

/// Text of ours as a Python str; a name cut in the middle of a letter gives a replacement mark, not an error.
inline py::str to_str(const std::string& text) {
    PyObject* decoded = PyUnicode_DecodeUTF8(text.data(), static_cast<Py_ssize_t>(text.size()), "replace");
    if (decoded == nullptr) throw py::error_already_set();
    return py::reinterpret_steal<py::str>(decoded);
}

}  // namespace seasonrisk::python
