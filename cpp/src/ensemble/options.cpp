// SPDX-License-Identifier: MIT
#include <algorithm>
#include <stdexcept>
#include <thread>

#if defined(__linux__)
#include <sched.h>
#endif

#include "batches.hpp"
#include "seasonrisk/random/draws.hpp"

namespace seasonrisk {
namespace {

bool machine_has(Instructions instructions) {
#if defined(__x86_64__)
    if (instructions == Instructions::avx2) return __builtin_cpu_supports("avx2") != 0;
    if (instructions == Instructions::avx512) {
        return __builtin_cpu_supports("avx512f") != 0 && __builtin_cpu_supports("avx512dq") != 0
            && __builtin_cpu_supports("avx512bw") != 0 && __builtin_cpu_supports("avx512vl") != 0;
    }
#endif
    return instructions == Instructions::baseline || instructions == Instructions::best;
}

std::string short_number(double value) {
    std::string text = std::to_string(value);
    return text.substr(0, text.find('.') + 2);
}

}  // namespace

SimulateBatch batch_for(Instructions instructions) {
    switch (instructions) {
        case Instructions::avx512: return simulate_batch_avx512;
        case Instructions::avx2: return simulate_batch_avx2;
        case Instructions::baseline: case Instructions::best: break;
    }
    return simulate_batch_baseline;
}

Instructions resolve(Instructions asked) {
    if (asked == Instructions::best) return best_instructions();
    if (!machine_has(asked)) {
        throw std::invalid_argument(std::string("instructions=") + k_instruction_words[static_cast<std::size_t>(asked)] + ": this machine has none; use \"best\"");
    }
    return asked;
}

int usable_cores() {
#if defined(__linux__)
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) == 0) return std::max(1, CPU_COUNT(&set));
#endif
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

Instructions best_instructions() {
    if (machine_has(Instructions::avx512)) return Instructions::avx512;
    return machine_has(Instructions::avx2) ? Instructions::avx2 : Instructions::baseline;
}

std::vector<std::size_t> kept_columns(const std::vector<ColumnSource>& sources, const std::vector<std::string>& keep) {
    std::vector<std::size_t> kept;
    const bool all = std::ranges::find(keep, "all") != keep.end();
    for (const std::string& name : keep) {
        const bool known = name == "all" || std::ranges::any_of(sources, [&](const ColumnSource& s) { return s.info.name == name; });
        if (!known) throw std::invalid_argument("keep=" + name + ": no such column; columns_of(plan) lists them");
    }
    for (std::size_t c = 0; c < sources.size(); ++c) {
        const bool asked = all || (keep.empty() ? sources[c].info.usual : std::ranges::find(keep, sources[c].info.name) != keep.end());
        if (asked) kept.push_back(c);
    }
    return kept;
}

void check_options(const RunOptions& options) {
    constexpr std::uint64_t most = std::uint64_t{1} << k_history_bits;
    if (options.histories == 0) throw std::invalid_argument("histories=0: must be 1 or more");
    if (options.histories > most || options.first_history > most - options.histories) {
        throw std::invalid_argument("histories=" + std::to_string(options.histories) + ": there are 2^48 histories to a key");
    }
    if (options.luck_family >= k_families || options.luck_family == static_cast<std::uint32_t>(Family::guess)) {
        throw std::invalid_argument("luck_family=" + std::to_string(options.luck_family) + ": must be 0 (the usual luck) or 2 to 15; 1 is the family of the guesses");
    }
    if (options.threads < 0) throw std::invalid_argument("threads=" + std::to_string(options.threads) + ": must be 0 (all) or more");
    if (options.histories_per_chunk == 0 || options.histories_per_chunk % k_lanes != 0) {
        throw std::invalid_argument("histories_per_chunk=" + std::to_string(options.histories_per_chunk) + ": must be a multiple of " + std::to_string(k_lanes));
    }
}

double bytes_of(std::uint64_t histories, std::size_t columns) { return static_cast<double>(histories) * static_cast<double>(columns) * sizeof(double); }

void refuse_if_too_large(const RunCost& cost, const RunOptions& options) {
    if (cost.memory_bytes > options.memory_limit_bytes) {
        throw RunTooLarge("histories=" + std::to_string(options.histories) + ": would keep " + short_number(cost.memory_bytes / 1e9)
                          + " GB, above the limit of " + short_number(options.memory_limit_bytes / 1e9)
                          + " GB; ask for fewer histories (100,000 are enough for chances to a point), keep fewer columns, or raise the memory limit");
    }
    if (cost.seconds > options.time_limit_s) {
        throw RunTooLarge("histories=" + std::to_string(options.histories) + ": would take about " + short_number(cost.seconds)
                          + " s, above the limit of " + short_number(options.time_limit_s) + " s; ask for fewer histories or raise the time limit");
    }
}

}  // namespace seasonrisk
