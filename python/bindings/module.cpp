// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/plan/finding.hpp"

#ifndef SEASONRISK_VERSION
#error "the build must define SEASONRISK_VERSION"
#endif

namespace seasonrisk::python {
namespace {

void raise(const char* type_name, const py::object& argument) {
    const py::object type = py::module_::import("seasonrisk.errors").attr(type_name);
    PyErr_SetObject(type.ptr(), type(argument).ptr());
}

/// The library's own errors as the Python classes of the same name; std::invalid_argument and
/// std::out_of_range become ValueError and IndexError by pybind11.
void translate(std::exception_ptr pointer) {
    try {
        if (pointer) std::rethrow_exception(pointer);
    } catch (const PlanError& error) {
        raise("PlanError", py::cast(error.findings));
    } catch (const RunTooLarge& error) {
        raise("RunTooLarge", to_str(error.what()));
    } catch (const Error& error) {
        raise("Error", to_str(error.what()));
    }
}

std::string compiler() {
#if defined(__clang__)
    return "clang " __clang_version__;
#elif defined(__GNUC__)
    return "g++ " __VERSION__;
#else
    return "unknown";
#endif
}

std::string flags() {
    std::string words = "C++ " + std::to_string(__cplusplus);
#if defined(__OPTIMIZE__)
    words += ", optimised";
#else
    words += ", not optimised";
#endif
#if !defined(NDEBUG)
    words += ", assertions on";
#endif
#if defined(__SANITIZE_ADDRESS__)
    words += ", address sanitizer";
#endif
    return words;
}

py::dict build_config() {
    py::dict config;
    config["version"] = SEASONRISK_VERSION;
    config["stream_version"] = k_stream_version;
    config["compiler"] = compiler();
    config["flags"] = flags();
    config["pybind11"] = PYBIND11_TOSTRING(PYBIND11_VERSION_MAJOR) "." PYBIND11_TOSTRING(PYBIND11_VERSION_MINOR) "." PYBIND11_TOSTRING(PYBIND11_VERSION_PATCH);
    config["instructions"] = k_instruction_words[static_cast<std::size_t>(best_instructions())];
    return config;
}

}  // namespace
}  // namespace seasonrisk::python

PYBIND11_MODULE(_core, module) {
    namespace python = seasonrisk::python;
    pybind11::register_local_exception_translator(&python::translate);
    python::bind_plan(module);
    python::bind_ensemble(module);
    python::bind_summary(module);
    python::bind_choice_compare(module);
    python::bind_choice_drivers(module);
    python::bind_choice_break_even(module);
    python::bind_choice_reserve(module);
    python::bind_credit(module);
    module.def("build_config", &python::build_config);
}
