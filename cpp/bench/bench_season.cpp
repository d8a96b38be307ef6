// SPDX-License-Identifier: MIT
// Microseconds a season by instruction set, what a second thread brings, and where the time goes. Every figure
// is the median of rounds in which all variants take turns, every ratio the median of ratios within a round:
// what else the machine does in the meantime hits all of them alike.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
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
    bench::DrawAlone draw_alone;
    bench::ExpAlone exp_alone;
};
constexpr Kind k_kinds[] = {
    {Instructions::baseline, "baseline", bench::draw_alone_baseline, bench::exp_alone_baseline},
    {Instructions::avx2, "avx2", bench::draw_alone_avx2, bench::exp_alone_avx2},
    {Instructions::avx512, "avx512", bench::draw_alone_avx512, bench::exp_alone_avx512},
};

/// One thing to time, and its microseconds a season, one for each round.
struct Variant {
    std::function<void()> run;
    std::vector<double> us_a_season{};
};

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double median_ratio(const Variant& above, const Variant& below) {
    std::vector<double> ratios;
    for (std::size_t round = 0; round < above.us_a_season.size(); ++round) ratios.push_back(above.us_a_season[round] / below.us_a_season[round]);
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

void simulate_once(const Plan& plan, std::uint64_t seasons, Instructions instructions, int threads) {
    RunOptions options;
    options.histories = seasons;
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

void bench_plan(const std::string& path, std::uint64_t seasons, int rounds) {
    const Plan plan = plan_from(path);
    const PreparedPlan ready = prepare(plan);
    const std::vector<Address> draws = bench::draws_of_a_batch(ready);
    const int exponentials = bench::exponentials_of_a_batch(ready);
    const std::uint64_t batches = seasons / k_lanes;

    std::vector<Kind> kinds;
    for (const Kind& kind : k_kinds) {
        if (machine_has(plan, kind.instructions)) kinds.push_back(kind);
    }
    volatile double kept = 0.0;  // a result nobody reads may be left out by the compiler
    std::vector<Variant> variants;  // per kind: the season, its draws, its exponentials; last: the best on two threads
    for (const Kind& kind : kinds) {
        variants.push_back({[&plan, seasons, kind] { simulate_once(plan, seasons, kind.instructions, 1); }});
        variants.push_back({[&draws, &kept, batches, kind] { kept = kind.draw_alone(draws, batches); }});
        variants.push_back({[&kept, exponentials, batches, kind] { kept = kind.exp_alone(exponentials, batches); }});
    }
    variants.push_back({[&plan, seasons] { simulate_once(plan, seasons, Instructions::best, 2); }});

    for (int round = 0; round < rounds; ++round) {
        for (Variant& variant : variants) {
            const auto start = Clock::now();
            variant.run();
            variant.us_a_season.push_back(std::chrono::duration<double, std::micro>(Clock::now() - start).count() / static_cast<double>(seasons));
        }
    }

    std::printf("%s: %d season days, %zu blocks of draws and %d exponentials a season\n", path.c_str(), ready.first_year().season_days, draws.size(), exponentials);
    std::printf("%llu seasons a run, median of %d rounds\n\n", static_cast<unsigned long long>(seasons), rounds);
    std::printf("one thread   us a season   times baseline    draws      exp     rest\n");
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        const Variant& season = variants[3 * k];
        const double draw_share = median_ratio(variants[3 * k + 1], season);
        const double exp_share = median_ratio(variants[3 * k + 2], season);
        std::printf("%-10s %13.2f %16.2f %7.0f%% %7.0f%% %7.0f%%\n", kinds[k].name, median(season.us_a_season), median_ratio(variants[0], season),
                    100.0 * draw_share, 100.0 * exp_share, 100.0 * (1.0 - draw_share - exp_share));
    }
    const auto best = std::ranges::find(kinds, best_instructions(), &Kind::instructions) - kinds.begin();
    std::printf("\ntwo threads, %s: %.2f us a season, %.2f times one thread\n", kinds[static_cast<std::size_t>(best)].name,
                median(variants.back().us_a_season), median_ratio(variants[3 * static_cast<std::size_t>(best)], variants.back()));
}

}  // namespace

int main(int argument_count, char** arguments) {
    const std::string path = argument_count > 1 ? arguments[1] : SEASONRISK_SOURCE_DIR "/examples/plans/one_boat.toml";
    const long seasons = argument_count > 2 ? std::atol(arguments[2]) : 100'000;
    const int rounds = argument_count > 3 ? std::atoi(arguments[3]) : 9;
    if (argument_count > 4 || seasons < 1'000 || rounds < 1) {
        std::fprintf(stderr, "usage: seasonrisk_bench [plan.toml [seasons a run, 1000 or more [rounds]]]\n");
        return EXIT_FAILURE;
    }
    try {
        bench_plan(path, static_cast<std::uint64_t>(seasons), rounds);
    } catch (const std::exception& problem) {
        std::fprintf(stderr, "%s\n", problem.what());
        return EXIT_FAILURE;
    }
    return EXIT_SUCCESS;
}
