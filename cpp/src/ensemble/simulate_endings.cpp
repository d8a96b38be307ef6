// SPDX-License-Identifier: MIT
#include "seasonrisk/ensemble/simulate_endings.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <stdexcept>

#include "batches.hpp"
#include "seasonrisk/plan/check_plan.hpp"
#include "seasonrisk/random/draws.hpp"

namespace seasonrisk {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) { return std::chrono::duration<double>(Clock::now() - start).count(); }

/// One season with its endings beside it.
class EndingsWorker : public BatchWorker {
public:
    EndingsWorker(const PreparedPlan& ready, const std::vector<Date>& stops, const RunOptions& options, SimulateBatch simulate_batch,
                  const std::vector<std::size_t>& kept, std::vector<Outcomes>& outcomes)
        : ready_(ready), options_(options), simulate_batch_(simulate_batch), kept_(kept), outcomes_(outcomes), work_(ready_), endings_(ready_, stops),
          sources_(column_sources(ready_, endings_.beside)) {
        endings_.told = [this](std::size_t ending) {
            for (std::size_t c = 0; c < kept_.size(); ++c)
                std::copy_n(sources_[kept_[c]].lanes->v, count_, outcomes_[ending].writable(c) + first_);
        };
    }

    void simulate(std::uint64_t first, std::uint64_t count) override {
        first_ = first;
        count_ = count;
        simulate_batch_(ready_, work_, {options_.key, with_luck_family(options_.first_history + first, options_.luck_family)}, &endings_);
    }

private:
    PreparedPlan ready_;  // its own: it is turned from stop to stop
    const RunOptions& options_;
    SimulateBatch simulate_batch_;
    const std::vector<std::size_t>& kept_;
    std::vector<Outcomes>& outcomes_;
    Workspace work_;
    EndingsBeside endings_;
    std::vector<ColumnSource> sources_;
    std::uint64_t first_ = 0;
    std::uint64_t count_ = 0;
};

/// Memory of all endings together, and the time of a batch with all of them beside it.
RunCost cost_of_endings(const PreparedPlan& ready, const std::vector<Date>& stops, const RunOptions& options,
                        SimulateBatch simulate_batch, const std::vector<std::size_t>& kept, const std::vector<ColumnInfo>& columns) {
    RunOptions few = options;
    few.histories = 3 * k_lanes;
    few.histories_per_chunk = k_lanes;
    few.threads = 1;
    std::vector<Outcomes> thrown_away;
    for (std::size_t n = 0; n < stops.size(); ++n) thrown_away.emplace_back(columns, few.histories);
    EndingsWorker worker(ready, stops, few, simulate_batch, kept, thrown_away);
    double a_batch = 1e9;
    for (std::uint64_t trial = 0; trial < 3; ++trial) {
        const auto start = Clock::now();
        worker.simulate(trial * k_lanes, k_lanes);
        a_batch = std::min(a_batch, seconds_since(start));
    }
    const int threads = std::min(options.threads > 0 ? options.threads : usable_cores(), usable_cores());
    const double batches = std::ceil(static_cast<double>(options.histories) / k_lanes);
    return {bytes_of(options.histories, kept.size() * stops.size()), batches * a_batch / threads};
}

std::vector<Outcomes> simulate_each(const Plan& plan, const std::vector<Date>& stops, const RunOptions& options,
                                    const std::function<void(std::uint64_t)>& progress) {
    RunOptions each = options;
    each.memory_limit_bytes = options.memory_limit_bytes / static_cast<double>(stops.size());
    each.time_limit_s = options.time_limit_s / static_cast<double>(stops.size());
    std::vector<Outcomes> found;
    std::uint64_t completed = options.histories;
    for (std::size_t n = 0; n < stops.size() && completed == options.histories; ++n) {
        const auto of_all = [&](std::uint64_t done) { progress((n * options.histories + done) / stops.size()); };
        found.push_back(simulate(with_stop(plan, stops[n]), each, progress ? of_all : std::function<void(std::uint64_t)>{}));
        completed = found.back().histories();
    }
    if (completed == options.histories) return found;
    // Stopped: what an ending that was not reached would have given is not known for any history.
    if (found.size() < stops.size()) completed = 0;
    while (found.size() < stops.size()) found.emplace_back(found.front().columns(), options.histories);
    for (Outcomes& each_stop : found) each_stop.keep_prefix(completed);
    return found;
}

}  // namespace

Plan with_stop(const Plan& plan, Date stop) {
    Plan choice = plan;
    choice.base = base_of(plan);
    choice.season.stop_on = stop;
    return choice;
}

std::vector<Outcomes> simulate_endings(const Plan& plan, const std::vector<Date>& stops, const RunOptions& options,
                                       const std::function<void(std::uint64_t)>& progress) {
    const auto start = Clock::now();
    check_options(options);
    if (stops.empty()) throw std::invalid_argument("stops: must name one last day or more");
    for (const Date stop : stops) require_sound(with_stop(plan, stop));
    if (plan.business.years > 1) return simulate_each(plan, stops, options, progress);

    const Instructions instructions = resolve(options.instructions);
    const PreparedPlan ready = prepare(with_stop(plan, *plan.season.end));
    std::vector<ColumnInfo> columns;
    std::vector<std::size_t> kept;
    {
        Workspace work(ready);
        const std::vector<ColumnSource> sources = column_sources(ready, work);
        kept = kept_columns(sources, options.keep);
        for (const std::size_t c : kept) columns.push_back(sources[c].info);
    }
    const SimulateBatch simulate_batch = batch_for(instructions);
    refuse_if_too_large(cost_of_endings(ready, stops, options, simulate_batch, kept, columns), options);
    std::vector<Outcomes> outcomes;
    for (std::size_t n = 0; n < stops.size(); ++n) outcomes.emplace_back(columns, options.histories);
    const auto worker = [&] { return std::make_unique<EndingsWorker>(ready, stops, options, simulate_batch, kept, outcomes); };
    const BatchesDone done = simulate_batches(options, worker, progress);
    for (Outcomes& each : outcomes) note_run(each, options, instructions, done, seconds_since(start));
    return outcomes;
}

}  // namespace seasonrisk
