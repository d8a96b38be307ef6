// SPDX-License-Identifier: MIT
#include "batches.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <stdexcept>
#include <thread>

namespace seasonrisk {
namespace {

/// A run under way: what its threads share.
struct Run {
    const RunOptions& options;
    const std::function<std::unique_ptr<BatchWorker>()>& make_worker;
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

void simulate_chunk(Run& run, BatchWorker& worker, std::uint64_t chunk) {
    const std::uint64_t begin = chunk * run.options.histories_per_chunk;
    const std::uint64_t end = std::min(begin + run.options.histories_per_chunk, run.options.histories);
    for (std::uint64_t first = begin; first < end; first += k_lanes) {
        if (run.stopping()) return;
        const std::uint64_t count = std::min<std::uint64_t>(k_lanes, end - first);
        worker.simulate(first, count);
        run.done_in_chunk[chunk] += count;
        run.done.fetch_add(count, std::memory_order_relaxed);
    }
}

void work_through_chunks(Run& run) {
    try {
        const std::unique_ptr<BatchWorker> worker = run.make_worker();
        const std::uint64_t chunks = run.done_in_chunk.size();
        for (std::uint64_t chunk = run.next_chunk++; chunk < chunks && !run.stopping(); chunk = run.next_chunk++) {
            simulate_chunk(run, *worker, chunk);
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

BatchesDone simulate_batches(const RunOptions& options, const std::function<std::unique_ptr<BatchWorker>()>& make_worker,
                             const std::function<void(std::uint64_t)>& progress) {
    Run run{options, make_worker};
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
    return {completed_prefix(run), threads};
}

void note_run(Outcomes& outcomes, const RunOptions& options, Instructions instructions, BatchesDone done, double seconds) {
    outcomes.keep_prefix(done.histories);
    outcomes.key = options.key;
    outcomes.histories_asked = options.histories;
    outcomes.threads = done.threads;
    outcomes.instructions = k_instruction_words[static_cast<std::size_t>(instructions)];
    outcomes.seconds = seconds;
}

}  // namespace seasonrisk
