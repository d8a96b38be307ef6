// SPDX-License-Identifier: MIT
#include "seasonrisk/ensemble/simulate.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <stdexcept>
#include <thread>

#if defined(__linux__)
#include <sched.h>
#endif

#include "columns.hpp"
#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/simulate_batch.hpp"

namespace seasonrisk {
namespace {

using Clock = std::chrono::steady_clock;
using SimulateBatch = void (*)(const PreparedPlan&, Workspace&, BatchAddress);

double seconds_since(Clock::time_point start) { return std::chrono::duration<double>(Clock::now() - start).count(); }

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

/// Cores this process may use, which in a container can be fewer than the machine's.
int usable_cores() {
#if defined(__linux__)
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) == 0) return std::max(1, CPU_COUNT(&set));
#endif
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
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

/// Seconds a batch takes: the better of a few, for the first meets cold caches.
double seconds_a_batch(const PreparedPlan& ready, Workspace& work, SimulateBatch simulate_batch, const RunOptions& options) {
    double best = 1e9;
    for (std::uint64_t trial = 0; trial < 3; ++trial) {
        const auto start = Clock::now();
        simulate_batch(ready, work, {options.key, with_luck_family(options.first_history + trial * k_lanes, options.luck_family)});
        best = std::min(best, seconds_since(start));
    }
    return best;
}

std::string short_number(double value) {
    std::string text = std::to_string(value);
    return text.substr(0, text.find('.') + 2);
}

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

/// A run under way: what its threads share.
struct Run {
    const PreparedPlan& ready;
    const RunOptions& options;
    SimulateBatch simulate_batch;
    const std::vector<std::size_t>& kept;
    Outcomes& outcomes;
    std::stop_source stop{};
    std::atomic<std::uint64_t> next_chunk{0};
    std::atomic<std::uint64_t> done{0};
    std::vector<std::uint64_t> done_in_chunk{};   // written by the one thread that has the chunk
    std::mutex mutex{};
    std::condition_variable all_idle{};
    int busy = 0;
    std::exception_ptr failure{};

    bool stopping() const { return stop.stop_requested() || options.stop.stop_requested(); }
};

void simulate_chunk(Run& run, Workspace& work, const std::vector<ColumnSource>& sources, std::uint64_t chunk) {
    const std::uint64_t begin = chunk * run.options.histories_per_chunk;
    const std::uint64_t end = std::min(begin + run.options.histories_per_chunk, run.options.histories);
    for (std::uint64_t first = begin; first < end; first += k_lanes) {
        if (run.stopping()) return;
        run.simulate_batch(run.ready, work, {run.options.key, with_luck_family(run.options.first_history + first, run.options.luck_family)});
        const std::uint64_t count = std::min<std::uint64_t>(k_lanes, end - first);
        for (std::size_t c = 0; c < run.kept.size(); ++c) {
            std::copy_n(sources[run.kept[c]].lanes->v, count, run.outcomes.writable(c) + first);
        }
        run.done_in_chunk[chunk] += count;
        run.done.fetch_add(count, std::memory_order_relaxed);
    }
}

void work_through_chunks(Run& run) {
    try {
        Workspace work(run.ready);
        const std::vector<ColumnSource> sources = column_sources(run.ready, work);
        const std::uint64_t chunks = run.done_in_chunk.size();
        for (std::uint64_t chunk = run.next_chunk++; chunk < chunks && !run.stopping(); chunk = run.next_chunk++) {
            simulate_chunk(run, work, sources, chunk);
        }
    } catch (...) {
        const std::scoped_lock lock(run.mutex);
        if (!run.failure) run.failure = std::current_exception();
        run.stop.request_stop();
    }
    const std::scoped_lock lock(run.mutex);
    if (--run.busy == 0) run.all_idle.notify_all();
}

/// Histories from the first on that are all there.
std::uint64_t completed_prefix(const Run& run) {
    std::uint64_t prefix = 0;
    for (std::size_t chunk = 0; chunk < run.done_in_chunk.size(); ++chunk) {
        const std::uint64_t begin = chunk * run.options.histories_per_chunk;
        prefix += run.done_in_chunk[chunk];
        if (run.done_in_chunk[chunk] < std::min(run.options.histories_per_chunk, run.options.histories - begin)) break;
    }
    return prefix;
}

}  // namespace

Instructions best_instructions() {
    if (machine_has(Instructions::avx512)) return Instructions::avx512;
    return machine_has(Instructions::avx2) ? Instructions::avx2 : Instructions::baseline;
}

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

    Run run{ready, options, batch_for(instructions), kept, outcomes};
    run.done_in_chunk.assign((options.histories + options.histories_per_chunk - 1) / options.histories_per_chunk, 0);
    const auto asked = options.threads > 0 ? options.threads : usable_cores();
    const auto threads = static_cast<int>(std::min<std::uint64_t>(static_cast<std::uint64_t>(asked), run.done_in_chunk.size()));
    std::exception_ptr interruption{};
    {
        std::vector<std::jthread> workers;
        run.busy = threads;
        try {
            for (int t = 0; t < threads; ++t) workers.emplace_back([&run] { work_through_chunks(run); });
        } catch (...) {
            run.stop.request_stop();  // those that did start finish their batch, and the error goes on
            throw;
        }
        // The calling thread only waits, and every 50 ms lets the caller look at signals and show progress.
        std::unique_lock lock(run.mutex);
        while (!run.all_idle.wait_for(lock, std::chrono::milliseconds{50}, [&run] { return run.busy == 0; })) {
            if (!progress || interruption) continue;
            lock.unlock();
            try {
                progress(run.done.load(std::memory_order_relaxed));
            } catch (...) {
                interruption = std::current_exception();
                run.stop.request_stop();
            }
            lock.lock();
        }
    }
    if (run.failure) std::rethrow_exception(run.failure);
    if (interruption) std::rethrow_exception(interruption);

    outcomes.keep_prefix(completed_prefix(run));
    outcomes.key = options.key;
    outcomes.histories_asked = options.histories;
    outcomes.threads = threads;
    outcomes.instructions = k_instruction_words[static_cast<std::size_t>(instructions)];
    outcomes.seconds = seconds_since(start);
    return outcomes;
}

}  // namespace seasonrisk
