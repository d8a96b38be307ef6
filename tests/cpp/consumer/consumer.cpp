// SPDX-License-Identifier: MIT
// Reads the plan named on the command line, simulates it with the installed library, and asks two things that
// hold for any run: the chance is a share, and the same luck gives the same season.
#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>

#include <seasonrisk/ensemble/simulate.hpp>
#include <seasonrisk/plan/read_plan.hpp>
#include <seasonrisk/summary/summary.hpp>

int main(int argument_count, char** arguments) {
    if (argument_count != 2) {
        std::cerr << "usage: consumer plan.toml\n";
        return EXIT_FAILURE;
    }
    std::ifstream file(arguments[1]);
    std::ostringstream text;
    text << file.rdbuf();

    const seasonrisk::PlanReading reading = seasonrisk::read_plan(text.str(), arguments[1]);
    for (const seasonrisk::Finding& finding : reading.findings) std::cerr << seasonrisk::to_text(finding) << '\n';
    if (!reading.ok()) return EXIT_FAILURE;

    seasonrisk::RunOptions options;
    options.histories = 1'000;
    options.key = 7;
    const seasonrisk::Outcomes run = seasonrisk::simulate(reading.plan, options);
    options.threads = 1;
    const seasonrisk::Outcomes again = seasonrisk::simulate(reading.plan, options);

    const seasonrisk::Estimate chance = seasonrisk::chance(run.column("household"));
    const bool is_share = chance.value >= 0.0 && chance.value <= 1.0 && chance.n == options.histories;
    const bool same_luck = std::ranges::equal(run.column("household"), again.column("household"));
    std::cout << "chance to pay its way and the household: " << chance.value << '\n';
    return is_share && same_luck ? EXIT_SUCCESS : EXIT_FAILURE;
}
