// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <functional>
#include <stop_token>
#include <string>
#include <vector>

#include "seasonrisk/ensemble/outcomes.hpp"
#include "seasonrisk/plan/finding.hpp"
#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// Which of the three copies of the season is run. All give the same bits.
enum class Instructions { best, baseline, avx2, avx512 };
inline constexpr const char* k_instruction_words[] = {"best", "baseline", "avx2", "avx512"};

/// What this machine can run; `best` resolved.
Instructions best_instructions();

struct RunOptions {
    std::uint64_t histories = 10'000;
    std::uint64_t key = 0;
    std::uint64_t first_history = 0;             ///< run histories first_history, first_history + 1, ...
    std::uint32_t luck_family = 0;               ///< another family: other luck for the same guesses (random/address.hpp)
    int threads = 0;                             ///< 0 = as many as the machine lets this process use
    std::vector<std::string> keep{};             ///< column names; empty = the usual ones; {"all"} = all
    Instructions instructions = Instructions::best;
    std::uint64_t histories_per_chunk = 1024;    ///< a multiple of the batch; results do not depend on it
    double memory_limit_bytes = 4e9;
    double time_limit_s = 3600.0;
    std::stop_token stop{};                      ///< looked at before every batch
};

/// Memory and time a run would take, before it is run. Time is measured on a few batches of the plan itself.
struct RunCost {
    double memory_bytes = 0.0;
    double seconds = 0.0;
};
RunCost cost_of_run(const Plan& plan, const RunOptions& options);

/// Refused before it starts: too large, with the way out named.
struct RunTooLarge : Error {
    using Error::Error;
};

/// Simulate `options.histories` histories of the plan.
/// Results are a function of (plan, key, history, luck family) alone: not of threads, chunks or instruction set.
/// After a stop the completed prefix comes back, equal to a shorter run (`histories() < histories_asked`).
/// `progress(done)` is called from the calling thread about every 50 ms; when it throws, the run stops,
/// the workers are joined and the exception passes on.
/// \throws PlanError, std::invalid_argument (no histories, unknown column, no such luck family), RunTooLarge
Outcomes simulate(const Plan& plan, const RunOptions& options,
                  const std::function<void(std::uint64_t done)>& progress = {});

/// One history, day by day: the same bits as that history of a run with the same key.
struct DayTable {
    std::vector<ColumnInfo> columns{};            ///< "out", "weather_bad", "hauls", "catch.lobster", "cash" ...
    std::vector<Date> dates{};                    ///< every day of the money year
    std::vector<std::string> why{};               ///< "hauled", "setting", "weather", "rest day", ... "" outside the season
    std::vector<std::vector<double>> values{};    ///< [column][day]
};
DayTable replay(const Plan& plan, std::uint64_t key, std::uint64_t history);

}  // namespace seasonrisk
