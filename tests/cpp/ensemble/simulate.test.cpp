// SPDX-License-Identifier: MIT
#include <cstdint>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.hpp"
#include "hash_of.hpp"
#include "invented_plan.hpp"

#include "seasonrisk/ensemble/simulate.hpp"

using Catch::Matchers::StartsWith;
using namespace seasonrisk;
using namespace seasonrisk::tests;

namespace {

RunOptions all_columns(std::uint64_t histories) {
    RunOptions options;
    options.histories = histories;
    options.key = 20270602;
    options.keep = {"all"};
    options.threads = 1;
    return options;
}

/// Instruction sets that this machine has.
std::vector<Instructions> instruction_sets(const Plan& plan) {
    std::vector<Instructions> sets;
    for (const Instructions set : {Instructions::baseline, Instructions::avx2, Instructions::avx512}) {
        RunOptions options = all_columns(1);
        options.instructions = set;
        try {
            simulate(plan, options);
            sets.push_back(set);
        } catch (const std::invalid_argument& problem) {
            CHECK_THAT(problem.what(), StartsWith("instructions="));
        }
    }
    return sets;
}

}  // namespace

// Source of all tests in this file: the engine's own promise (a result is a function of plan, key and history
// alone), compared bit by bit; common practice for reproducible simulation.

TEST_CASE("instruction set, threads and chunks leave every bit as it is", "[ensemble]") {
    const Plan plan = invented_plan();
    RunOptions options = all_columns(3'000);  // not whole batches, not whole chunks
    options.instructions = Instructions::baseline;
    const std::uint64_t expected = hash_of(simulate(plan, options));

    for (const Instructions set : instruction_sets(plan)) {
        for (const int threads : {1, 2, 7}) {
            for (const std::uint64_t chunk : {32u, 1024u, 4096u}) {
                options.instructions = set;
                options.threads = threads;
                options.histories_per_chunk = chunk;
                CAPTURE(k_instruction_words[static_cast<std::size_t>(set)], threads, chunk);
                CHECK(hash_of(simulate(plan, options)) == expected);
            }
        }
    }

    // Negative control: the hash sees another key, and one history less.
    options.key += 1;
    CHECK(hash_of(simulate(plan, options)) != expected);
    options.key -= 1;
    options.histories -= 1;
    CHECK(hash_of(simulate(plan, options)) != expected);
}

TEST_CASE("a history is the same wherever its run begins", "[ensemble]") {
    const Plan plan = invented_plan();
    const Outcomes from_first = simulate(plan, all_columns(107));
    RunOptions options = all_columns(100);
    options.first_history = 7;  // other lanes of other batches

    const Outcomes from_eighth = simulate(plan, options);

    for (const ColumnInfo& info : from_first.columns()) {
        INFO(info.name);
        CHECK(same_bits(from_first.column(info.name).subspan(7), from_eighth.column(info.name)));
    }
    CHECK_FALSE(same_bits(from_first.column("household").subspan(6, 100), from_eighth.column("household")));
}

TEST_CASE("histories beyond the first 2^32 are histories of their own", "[ensemble]") {
    const Plan plan = invented_plan();
    const Outcomes first = simulate(plan, all_columns(64));
    RunOptions options = all_columns(64);
    options.first_history = std::uint64_t{1} << 32;

    CHECK_FALSE(same_bits(first.column("household"), simulate(plan, options).column("household")));
}

TEST_CASE("a stopped run gives the histories it completed, equal to a shorter run", "[ensemble]") {
    const Plan plan = invented_plan();
    for (const int threads : {1, 2}) {
        std::stop_source stop;
        RunOptions options = all_columns(2'000'000);
        options.keep = {"household", "days_fished"};
        options.threads = threads;
        options.stop = stop.get_token();

        const Outcomes stopped = simulate(plan, options, [&](std::uint64_t done) {
            if (done > 320) stop.request_stop();
        });

        CAPTURE(threads, stopped.histories());
        REQUIRE(stopped.histories() > 0);
        REQUIRE(stopped.histories() < stopped.histories_asked);
        CHECK(stopped.histories_asked == 2'000'000);
        options.histories = stopped.histories();
        options.stop = {};
        const Outcomes shorter = simulate(plan, options);
        for (const char* name : {"household", "days_fished"}) CHECK(same_bits(stopped.column(name), shorter.column(name)));
    }
}

TEST_CASE("a run that is stopped before it begins has no histories", "[ensemble]") {
    std::stop_source stop;
    stop.request_stop();
    RunOptions options = all_columns(1'000);
    options.stop = stop.get_token();

    CHECK(simulate(invented_plan(), options).histories() == 0);
}

TEST_CASE("what a progress callback throws comes out of the run", "[ensemble]") {
    RunOptions options = all_columns(2'000'000);
    options.keep = {"household"};
    options.threads = 2;

    CHECK_THROWS_AS(simulate(invented_plan(), options, [](std::uint64_t) { throw std::domain_error("enough"); }), std::domain_error);
}

TEST_CASE("a run that cannot be is refused before it starts", "[ensemble]") {
    const Plan plan = invented_plan();
    const auto refused = [&](auto change) {
        RunOptions options = all_columns(1'000);
        change(options);
        return simulate(plan, options).histories();
    };
    CHECK_THROWS_WITH(refused([](RunOptions& o) { o.histories = 0; }), StartsWith("histories=0"));
    CHECK_THROWS_WITH(refused([](RunOptions& o) { o.first_history = std::uint64_t{1} << 48; }), StartsWith("histories=1000"));
    CHECK_THROWS_WITH(refused([](RunOptions& o) { o.histories = UINT64_MAX; }), StartsWith("histories=18446744073709551615"));
    CHECK_THROWS_WITH(refused([](RunOptions& o) { o.keep = {"household", "profit"}; }), StartsWith("keep=profit"));
    CHECK_THROWS_WITH(refused([](RunOptions& o) { o.threads = -1; }), StartsWith("threads=-1"));
    CHECK_THROWS_WITH(refused([](RunOptions& o) { o.histories_per_chunk = 100; }), StartsWith("histories_per_chunk=100"));
    CHECK_THROWS_AS(refused([](RunOptions& o) { o.histories = std::uint64_t{1} << 31; }), RunTooLarge);
    CHECK_THROWS_AS(refused([](RunOptions& o) { o.histories = std::uint64_t{1} << 47; }), RunTooLarge);
    CHECK_THROWS_AS(refused([](RunOptions& o) { o.memory_limit_bytes = 1e5; }), RunTooLarge);
    CHECK_THROWS_AS(refused([](RunOptions& o) { o.time_limit_s = 1e-9; }), RunTooLarge);
    CHECK(refused([](RunOptions&) {}) == 1'000);
}
