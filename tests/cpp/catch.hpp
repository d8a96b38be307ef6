// SPDX-License-Identifier: MIT
#pragma once

// Debian 12 brings Catch2 2.13; newer systems bring 3. Both have all that the tests use.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;  // where 2.13 has it
#else
#include <catch2/catch.hpp>
#endif
