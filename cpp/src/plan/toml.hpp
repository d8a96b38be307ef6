// SPDX-License-Identifier: MIT
#pragma once

#include <stdexcept>

/// \file
/// The one way to include toml++. Version 3.3 meets some broken texts ("[.]") with an assertion, which ends the
/// program, or with nothing where assertions are off. Here the text's fault becomes an exception in every build.
namespace seasonrisk {

struct TomlLost : std::logic_error {
    TomlLost() : std::logic_error("the TOML reader lost its way in this text") {}
};

[[noreturn]] inline void toml_lost() { throw TomlLost(); }

}  // namespace seasonrisk

#pragma push_macro("NDEBUG")
#undef NDEBUG
#define TOML_ASSERT(expr) ((expr) ? void(0) : seasonrisk::toml_lost())
#include <toml++/toml.h>
#pragma pop_macro("NDEBUG")
