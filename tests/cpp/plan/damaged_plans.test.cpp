// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstdlib>
#include <random>
#include <sstream>

#include "catch.hpp"
#include "plan_files.hpp"
#include "seasonrisk/plan/check_plan.hpp"

using namespace plan_tests;
using namespace seasonrisk;

// Source of all three: common practice. Whatever happens to a file on its way, the reader either reads a plan
// that the rule book has no error against, or explains itself; it never crashes and never throws.
namespace {

/// What is wrong with the way this text was read; empty when nothing is.
std::string complaint_about_reading(const std::string& text, const std::vector<Change>& changes = {}) {
    const PlanReading reading = read_plan(text, "plan.toml", changes);
    const auto lines = 1 + std::ranges::count(text, '\n');
    for (const Finding& finding : reading.findings) {
        if (finding.message.empty()) return "a finding without a message at " + finding.path;
        if (finding.line < 0 || finding.line > lines) return "a line outside the file: " + to_text(finding);
        if (finding.file != "plan.toml") return "a finding without its file: " + to_text(finding);
    }
    if (!reading.ok()) return "";
    for (const Finding& finding : check_plan(reading.plan)) {
        if (finding.severity == Severity::error) return "read as sound, but " + to_text(finding);
    }
    return "";
}

/// A few thousand in each test run; more on request, for a long night.
int damages() {
    const char* asked = std::getenv("SEASONRISK_TEST_DAMAGES");
    return asked == nullptr ? 3000 : std::atoi(asked);
}

}  // namespace

TEST_CASE("a plan with any one line taken out reads or explains itself", "[plan]") {
    for (const std::string& sound : {sound_text(), business_text()}) {
        std::vector<std::string> lines;
        std::istringstream in(sound);
        for (std::string line; std::getline(in, line);) lines.push_back(line);
        for (std::size_t out = 0; out < lines.size(); ++out) {
            std::string text;
            for (std::size_t n = 0; n < lines.size(); ++n) text += n == out ? "" : lines[n] + "\n";
            INFO("without line " << out + 1 << ": " << lines[out]);
            CHECK(complaint_about_reading(text).empty());
        }
    }
}

TEST_CASE("a plan with bytes changed, cut or doubled reads or explains itself", "[plan]") {
    const std::string sounds[2] = {sound_text(), business_text()};
    std::mt19937_64 random(20270601);
    const auto below = [&](std::size_t count) { return static_cast<std::size_t>(random() % count); };
    int read = 0;
    for (int damage = 0; damage < damages(); ++damage) {
        std::string text = sounds[damage % 2];
        for (std::size_t hits = 1 + below(3); hits > 0; --hits) {
            const std::size_t at = below(text.size());
            switch (below(4)) {
                case 0:
                    text[at] = static_cast<char>(random() & 0xff);
                    break;  // any byte
                case 1:
                    text[at] = "0123456789.-[]{}\"=,\n"[below(20)];
                    break;  // one that TOML knows
                case 2:
                    text.erase(at, below(20));
                    break;
                default:
                    text.insert(below(text.size()), text.substr(at, below(40)));
                    break;
            }
        }
        const std::string complaint = complaint_about_reading(text);
        read += complaint.empty() && read_plan(text, "plan.toml").ok() ? 1 : 0;
        INFO("damage " << damage << "\n" << text);
        if (!complaint.empty()) FAIL(complaint);
    }
    CHECK(read > 0);          // the damage is not always fatal,
    CHECK(read < damages());  // and often is
}

TEST_CASE("changes of any path and value read or explain themselves", "[plan]") {
    const std::vector<std::string> steps = {"boat",   "0",       "1",        "-1",       "99999999999", "fishery",
                                            "count",  "species", "per_haul", "low",      "set",         "",
                                            "choice", "season",  "start",    "together", "price",       "lobster",
                                            "outlet", "input",   "growth",   "plan"};
    const std::vector<std::string> values = {
        "1",          "-1", "nan",         "inf", "\"x\"",
        "true",       "[]", "[1, 2]",      "{}",  "{ low = 1, typical = 2, high = 3 }",
        "2027-06-01", "",   "1\nplan = 2", "[[",  "'\xff'",
        "1e400"};
    const std::string sound = sound_text();
    std::mt19937_64 random(20271130);
    int refused = 0;
    const int tries = damages() / 3;
    for (int damage = 0; damage < tries; ++damage) {
        std::string path;
        for (std::size_t step = 0; step <= random() % 5; ++step)
            path += (step == 0 ? "" : ".") + steps[random() % steps.size()];
        const Change change{path, values[random() % values.size()]};
        const std::string complaint = complaint_about_reading(sound, {change});
        INFO(change.path << " = " << change.value);
        if (!complaint.empty()) FAIL(complaint);
        refused += read_plan(sound, "plan.toml", {change}).ok() ? 0 : 1;
    }
    CHECK(refused > tries / 2);  // most of these lead nowhere
    CHECK(refused < tries);      // and some are changes one could make
}
