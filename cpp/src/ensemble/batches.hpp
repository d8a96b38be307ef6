// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "columns.hpp"
#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/season/simulate_batch.hpp"

/// \file
/// What every kind of run does alike: its options, the copy of the season for this machine, its threads.
namespace seasonrisk {

using SimulateBatch = void (*)(const PreparedPlan&, Workspace&, BatchAddress, EndingsBeside*);

SimulateBatch batch_for(Instructions instructions);
/// What was asked for, or the best there is. \throws std::invalid_argument when this machine has none of it
Instructions resolve(Instructions asked);

/// Cores this process may use, which in a container can be fewer than the machine's.
int usable_cores();

/// Places of the columns asked for. \throws std::invalid_argument for an unknown name
std::vector<std::size_t> kept_columns(const std::vector<ColumnSource>& sources, const std::vector<std::string>& keep);

/// \throws std::invalid_argument for an option outside its range
void check_options(const RunOptions& options);

/// \throws RunTooLarge with the way out
void refuse_if_too_large(const RunCost& cost, const RunOptions& options);

double bytes_of(std::uint64_t histories, std::size_t columns);

/// What one thread has: it simulates a batch of histories, `first` counted from the run's first, and keeps `count` of them.
struct BatchWorker {
    virtual ~BatchWorker() = default;
    virtual void simulate(std::uint64_t first, std::uint64_t count) = 0;
};

/// How far a run came.
struct BatchesDone {
    std::uint64_t histories = 0;  ///< completed, from the first on
    int threads = 1;
};

/// All histories of the options, in chunks over threads, each with a worker of its own; stop and progress as `simulate`.
BatchesDone simulate_batches(const RunOptions& options, const std::function<std::unique_ptr<BatchWorker>()>& make_worker,
                             const std::function<void(std::uint64_t done)>& progress);

/// How the run was made, noted with what came of it.
void note_run(Outcomes& outcomes, const RunOptions& options, Instructions instructions, BatchesDone done, double seconds);

}  // namespace seasonrisk
