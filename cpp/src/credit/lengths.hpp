// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>

namespace seasonrisk {

/// \throws std::invalid_argument, naming the column, unless it has as many histories as the first
inline void check_length(const char* name, std::size_t length, std::size_t histories) {
    if (length != histories) throw std::invalid_argument(std::string(name) + ": has " + std::to_string(length) + " histories, not " + std::to_string(histories));
}

}  // namespace seasonrisk
