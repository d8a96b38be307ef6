// SPDX-License-Identifier: MIT
// Microseconds of processor time a history by instruction set, what a second thread brings, and where the time goes.
// Every figure is the median of rounds in which all variants take turns, every ratio the median of ratios within a
// round: what else the machine does in the meantime hits all of them alike.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <exception>
#include <fstream>
#include <functional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/plan/read_plan.hpp"
#include "steps_alone.hpp"

namespace {

using namespace seasonrisk;
using Clock = std::chrono::steady_clock;

struct Kind {
    Instructions instructions;
    const char* name;
    bench::BlocksAlone draws_alone, normals_alone;
    bench::ExpAlone exp_alone;
};
constexpr Kind k_kinds[] = {
    {Instructions::baseline, "baseline", bench::draws_alone_baseline, bench::normals_alone_baseline, bench::exp_alone_baseline},
    {Instructions::avx2, "avx2", bench::draws_alone_avx2, bench::normals_alone_avx2, bench::exp_alone_avx2},
    {Instructions::avx512, "avx512", bench::draws_alone_avx512, bench::normals_alone_avx512, bench::exp_alone_avx512},
};

/// The steps a history's time is laid to, in the order of the printed columns.
constexpr const char* k_steps[] = {"draws", "normals", "exp", "walk-up demand", "the steps of the day"};

/// One thing to time, and its microseconds a history, one for each round: by the processor's clock and by the wall's.
struct Variant {
    std::function<void()> run;
    std::vector<double> us{};
    std::vector<double> wall_us{};
};

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double median_ratio(const std::vector<double>& above, const std::vector<double>& below) {
    std::vector<double> ratios;
    for (std::size_t round = 0; round < above.size(); ++round) ratios.push_back(above[round] / below[round]);
    return median(std::move(ratios));
}

Plan plan_from(const std::string& path) {
    std::ifstream file(path);
    if (!file) throw Error(path + ": cannot be read");
    std::ostringstream text;
    text << file.rdbuf();
    PlanReading reading = read_plan(text.str(), path);
    if (!reading.ok()) throw PlanError(reading.findings);
    return std::move(reading.plan);
}

void simulate_once(const Plan& plan, std::uint64_t histories, Instructions instructions, int threads) {
    RunOptions options;
    options.histories = histories;
    options.key = 7;
    options.instructions = instructions;
    options.threads = threads;
    simulate(plan, options);
}

bool machine_has(const Plan& plan, Instructions instructions) {
    try {
        simulate_once(plan, 1, instructions, 1);
        return true;
    } catch (const std::invalid_argument&) {
        return false;
    }
}

/// The variants of one instruction set, in this order: the history, its draws, its normals with their draws, its
/// exponentials, its walk-up demand.
constexpr std::size_t k_variants = 5;

/// Shares of a history's time, in the order of `k_steps`.
std::vector<double> shares_of(const Variant* variants) {
    const auto share = [&](std::size_t v) { return median_ratio(variants[v].us, variants[0].us); };
    const double draws = share(1), normals = share(2) - share(1), exp = share(3), demand = share(4);
    return {draws, normals, exp, demand, 1.0 - draws - normals - exp - demand};
}

void take_turns(std::vector<Variant>& variants, double histories, int rounds) {
    for (int round = 0; round < rounds; ++round) {
        for (Variant& variant : variants) {
            const auto start = Clock::now();
            const std::clock_t cpu_start = std::clock();
            variant.run();
            variant.us.push_back(1e6 * static_cast<double>(std::clock() - cpu_start) / CLOCKS_PER_SEC / histories);
            variant.wall_us.push_back(std::chrono::duration<double, std::micro>(Clock::now() - start).count() / histories);
        }
    }
}

void bench_plan(const std::string& path, std::uint64_t histories, int rounds) {
    const Plan plan = plan_from(path);
    const PreparedPlan ready = prepare(plan);
    const std::vector<bench::BlockTaken> blocks = bench::blocks_of_a_batch(ready);
    const std::vector<bench::DemandTaken> demands = bench::demands_of_a_batch(ready, blocks);
    const int exponentials = bench::exponentials_of_a_batch(ready);
    const int boat_days = bench::boat_days(ready);
    const std::uint64_t batches = histories / k_lanes;

    std::vector<Kind> kinds;
    for (const Kind& kind : k_kinds) {
        if (machine_has(plan, kind.instructions)) kinds.push_back(kind);
    }
    volatile double kept = 0.0;  // a result nobody reads may be left out by the compiler
    std::vector<Variant> variants;
    for (const Kind& kind : kinds) {
        variants.push_back({[&plan, histories, kind] { simulate_once(plan, histories, kind.instructions, 1); }});
        variants.push_back({[&blocks, &kept, batches, kind] { kept = kind.draws_alone(blocks, batches); }});
        variants.push_back({[&blocks, &kept, batches, kind] { kept = kind.normals_alone(blocks, batches); }});
        variants.push_back({[&kept, exponentials, batches, kind] { kept = kind.exp_alone(exponentials, batches); }});
        variants.push_back({[&demands, &kept, batches] { kept = bench::demand_alone(demands, batches); }});
    }
    variants.push_back({[&plan, histories] { simulate_once(plan, histories, Instructions::best, 2); }});
    take_turns(variants, static_cast<double>(histories), rounds);

    std::printf("%s: money years %zu, boat-days %d; a history takes %zu blocks of draws and %d exponentials\n", path.c_str(), ready.years.size(), boat_days, blocks.size(), exponentials);
    std::printf("%llu histories a run, median of %d rounds, processor time\n\n", static_cast<unsigned long long>(histories), rounds);
    std::printf("one thread   us a history  us a boat-day  times baseline  draws normals    exp demand   rest  most goes to\n");
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        const Variant* const of_kind = &variants[k_variants * k];
        const double us = median(of_kind->us);
        const std::vector<double> shares = shares_of(of_kind);
        std::printf("%-10s %14.2f %14.4f %15.2f", kinds[k].name, us, us / boat_days, median_ratio(variants[0].us, of_kind->us));
        for (const double share : shares) std::printf(" %5.0f%%", 100.0 * share);
        std::printf("  %s\n", k_steps[std::ranges::max_element(shares) - shares.begin()]);
    }
    const auto best = static_cast<std::size_t>(std::ranges::find(kinds, best_instructions(), &Kind::instructions) - kinds.begin());
    std::printf("\ntwo threads, %s: %.2f us a history by the wall's clock, %.2f times one thread\n\n", kinds[best].name,
                median(variants.back().wall_us), median_ratio(variants[k_variants * best].wall_us, variants.back().wall_us));
}

}  // namespace

int main(int argument_count, char** arguments) {
    const std::string examples = SEASONRISK_SOURCE_DIR "/examples/plans/";
    const std::vector<std::string> paths = argument_count > 1 ? std::vector<std::string>{arguments[1]}
        : std::vector<std::string>{examples + "one_boat.toml", examples + "two_boats_whelk.toml", examples + "crab_by_the_bushel.toml"};
    const long histories = argument_count > 2 ? std::atol(arguments[2]) : 20'000;
    const int rounds = argument_count > 3 ? std::atoi(arguments[3]) : 9;
    if (argument_count > 4 || histories < 1'000 || rounds < 1) {
        std::fprintf(stderr, "usage: seasonrisk_bench [plan.toml [histories a run, 1000 or more [rounds]]]\n");
        return EXIT_FAILURE;
    }
    try {
        for (const std::string& path : paths) bench_plan(path, static_cast<std::uint64_t>(histories), rounds);
    } catch (const std::exception& problem) {
        std::fprintf(stderr, "%s\n", problem.what());
        return EXIT_FAILURE;
    }
    return EXIT_SUCCESS;
}
