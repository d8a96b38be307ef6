// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>
#include <random>
#include <stdexcept>

#include "seasonrisk/random/draws.hpp"

namespace seasonrisk {

/// One address of one history as a uniform random bit generator, for Boost.Random's distributions: words 0-3
/// of the block, then of the next `index` (the low 15 bits of word 0). Only for draws whose number is not
/// known beforehand (counts); everything else has a word of its own.
class AddressEngine {
public:
    using result_type = std::uint32_t;
    static constexpr result_type min() { return 0; }
    static constexpr result_type max() { return std::numeric_limits<result_type>::max(); }

    /// \pre the index bits of `address` are 0
    AddressEngine(std::uint64_t key, const Address& address, std::uint64_t history)
        : key_(key), address_(address), history_(history) {}

    /// \throws std::out_of_range after the last of 4 x 2^15 words
    result_type operator()() {
        if (word_ == 4) {
            if (index_ + 1 == k_blocks) throw std::out_of_range("AddressEngine: all 131072 words of this address are used");
            ++index_;
            word_ = 0;
        }
        if (word_ == 0) {
            Address block = address_;
            block.word0 |= index_;
            words_ = philox(counter_of(block, history_), key_);
        }
        return words_.w[word_++];
    }

private:
    static constexpr std::uint32_t k_blocks = 1u << 15;
    std::uint64_t key_;
    Address address_;
    std::uint64_t history_;
    Words words_{};
    std::uint32_t index_ = 0;
    unsigned word_ = 0;
};

static_assert(std::uniform_random_bit_generator<AddressEngine>);

}  // namespace seasonrisk
