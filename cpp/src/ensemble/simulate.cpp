// SPDX-License-Identifier: MIT
#include "seasonrisk/ensemble/simulate.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "batches.hpp"
#include "seasonrisk/random/draws.hpp"

namespace seasonrisk {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) { return std::chrono::duration<double>(Clock::now() - start).count(); }

/// Seconds a batch takes: the better of a few, for the first meets cold caches.
double seconds_a_batch(const PreparedPlan& ready, Workspace& work, SimulateBatch simulate_batch, const RunOptions& options) {
    double best = 1e9;
    for (std::uint64_t trial = 0; trial < 3; ++trial) {
        const auto start = Clock::now();
        simulate_batch(ready, work, {options.key, with_luck_family(options.first_history + trial * k_lanes, options.luck_family)}, nullptr);
        best = std::min(best, seconds_since(start));
    }
    return best;
}

/// A plan simulated as it stands.
class PlainWorker : public BatchWorker {
public:
    PlainWorker(const PreparedPlan& ready, const RunOptions& options, SimulateBatch simulate_batch, const std::vector<std::size_t>& kept, Outcomes& outcomes)
        : ready_(ready), options_(options), simulate_batch_(simulate_batch), kept_(kept), outcomes_(outcomes), work_(ready),
          sources_(column_sources(ready, work_)) {}

    void simulate(std::uint64_t first, std::uint64_t count) override {
        simulate_batch_(ready_, work_, {options_.key, with_luck_family(options_.first_history + first, options_.luck_family)}, nullptr);
        for (std::size_t c = 0; c < kept_.size(); ++c) std::copy_n(sources_[kept_[c]].lanes->v, count, outcomes_.writable(c) + first);
    }

private:
    const PreparedPlan& ready_;
    const RunOptions& options_;
    SimulateBatch simulate_batch_;
    const std::vector<std::size_t>& kept_;
    Outcomes& outcomes_;
    Workspace work_;
    std::vector<ColumnSource> sources_;
};

}  // namespace

RunCost cost_of_run(const Plan& plan, const RunOptions& options) {
    check_options(options);
    const PreparedPlan ready = prepare(plan);
    Workspace work(ready);
    const std::size_t columns = kept_columns(column_sources(ready, work), options.keep).size();
    const int threads = options.threads > 0 ? options.threads : usable_cores();
    const double batches = std::ceil(static_cast<double>(options.histories) / k_lanes);
    const double a_batch = seconds_a_batch(ready, work, batch_for(resolve(options.instructions)), options);
    return {bytes_of(options.histories, columns), batches * a_batch / std::min(threads, usable_cores())};
}

Outcomes simulate(const Plan& plan, const RunOptions& options, const std::function<void(std::uint64_t)>& progress) {
    const auto start = Clock::now();
    check_options(options);
    const Instructions instructions = resolve(options.instructions);
    refuse_if_too_large(cost_of_run(plan, options), options);
    const PreparedPlan ready = prepare(plan);

    std::vector<ColumnInfo> columns;
    std::vector<std::size_t> kept;
    {
        Workspace work(ready);
        const std::vector<ColumnSource> sources = column_sources(ready, work);
        kept = kept_columns(sources, options.keep);
        for (const std::size_t c : kept) columns.push_back(sources[c].info);
    }
    Outcomes outcomes(std::move(columns), options.histories);
    const auto worker = [&] { return std::make_unique<PlainWorker>(ready, options, batch_for(instructions), kept, outcomes); };
    const BatchesDone done = simulate_batches(options, worker, progress);
    note_run(outcomes, options, instructions, done, seconds_since(start));
    return outcomes;
}

}  // namespace seasonrisk
