// SPDX-License-Identifier: MIT
#pragma once

#include "pybind.hpp"

#include "seasonrisk/plan/guesses.hpp"

namespace seasonrisk::python {

enum class ValueKind { number, size, text, date, whole, flag, list };
inline constexpr const char* k_kind_words[] = {"number", "size", "text", "date", "whole", "flag", "list"};

/// One key of a plan with its value as a Python object: a float, or a tuple (low, typical, high) when it is a guess
/// or the size of an event; a str, date, int, bool or list for the other kinds.
struct PlanValue {
    std::string path{};
    ValueKind kind = ValueKind::number;
    py::object value{};
    EventSize points{};  ///< of a number or a size
    Rule rule{};
    std::string meaning{};

    /// \throws std::invalid_argument unless the value is a number or a size
    Spread spread() const;
};

/// Every key of the plan that has a value, defaults included, in the order of the plan.
std::vector<PlanValue> values_of(const Plan& plan);

}  // namespace seasonrisk::python
