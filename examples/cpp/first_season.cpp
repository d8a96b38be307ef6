// SPDX-License-Identifier: MIT
// The season of a plan file from C++ alone: read, simulate, and say how often the boat reaches each rung.
//   first_season examples/plans/one_boat.toml
#include <cstdlib>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <sstream>
#include <string>

#include <seasonrisk/ensemble/simulate.hpp>
#include <seasonrisk/plan/read_plan.hpp>
#include <seasonrisk/summary/summary.hpp>

namespace {

std::string text_of(const std::string& file_name) {
    std::ifstream file(file_name);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

void print_rung(const seasonrisk::Outcomes& run, const std::string& column, const std::string& words) {
    const seasonrisk::Estimate cleared = seasonrisk::chance(run.column(column));
    const seasonrisk::Estimate short_by = seasonrisk::shortfall_when_missed(run.column(column));
    std::cout << std::left << std::setw(34) << words << std::right << std::fixed << std::setprecision(1) << std::setw(6)
              << 100.0 * cleared.value << " in 100 (error " << 100.0 * cleared.standard_error << ")";
    if (short_by.n > 0) std::cout << "; else short by " << std::setprecision(0) << short_by.value << " on average";
    std::cout << '\n';
}

}  // namespace

int main(int argument_count, char** arguments) {
    if (argument_count != 2) {
        std::cerr << "usage: first_season PLAN.toml\n";
        return EXIT_FAILURE;
    }
    const seasonrisk::PlanReading reading = seasonrisk::read_plan(text_of(arguments[1]), arguments[1]);
    for (const seasonrisk::Finding& finding : reading.findings) std::cerr << seasonrisk::to_text(finding) << '\n';
    if (!reading.ok()) return 2;

    seasonrisk::RunOptions options;
    options.histories = 100'000;
    options.key = 7;
    const seasonrisk::Outcomes run = seasonrisk::simulate(reading.plan, options);

    std::cout << run.histories() << " seasons of " << reading.plan.business.name << " in " << std::setprecision(2) << run.seconds << " s\n";
    print_rung(run, "running", "covers its running costs");
    print_rung(run, "standing", "and its standing costs");
    print_rung(run, "loan", "and the loan");
    print_rung(run, "household", "and the household");
    print_rung(run, "cash_room", "stays inside the overdraft");
    return EXIT_SUCCESS;
}
