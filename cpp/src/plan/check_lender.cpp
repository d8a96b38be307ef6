// SPDX-License-Identifier: MIT
#include <set>

#include "checks.hpp"
#include "dates.hpp"
#include "seasonrisk/plan/guesses.hpp"
#include "visitor.hpp"

namespace seasonrisk {
namespace {

/// Every number of a plan by its path, sizes of events among them.
class PathLister : public PathVisitor<PathLister> {
public:
    std::set<std::string> paths{};

    void size(const char* key, const EventSize&, auto&&...) { put(path_of(key)); }
    /// The path, and each section around it.
    void put(std::string path) {
        for (;;) {
            paths.insert(path);
            const std::size_t dot = path.rfind('.');
            if (dot == std::string::npos) return;
            path.resize(dot);
        }
    }
};

void check_past_years(const Plan& plan, Notebook& book) {
    std::set<int> seen;
    for (std::size_t n = 0; n < plan.past_year.size(); ++n) {
        const auto& past = plan.past_year[n];
        const std::string path = numbered("past_year", n);
        if (!seen.insert(past.year).second)
            book.error(path + ".year", std::to_string(past.year), "stands twice; each year has one [[past_year]]");
        if (past == PastYear<Number>{.year = past.year})
            book.error(path, "", "says nothing of the year", "give sales, days_fished or a cost");
        if (!has_walkable_season(plan)) continue;
        const std::chrono::year_month_day start{season_of(plan).first};
        const int last = static_cast<int>(start.year()) + plan.business.years - 1;
        if (past.year > last && past.year <= 2150)
            book.error(path + ".year", std::to_string(past.year), "must be no later than the plan's last season, " + std::to_string(last));
    }
}

/// What happened has one number.
void check_actuals(const Plan& plan, Notebook& book) {
    for (const Guess& guess : guesses_of(plan)) {
        if (guess.path.starts_with("past_year.") || guess.path.starts_with("note."))
            book.error(guess.path, "", "must be one number, not a guess", guess.path.starts_with("past") ? "it is what happened" : "");
    }
}

/// Sources are told of the plan before choices: a choice may take out what one of them speaks of.
void check_sources(const Plan& plan, Notebook& book) {
    if (plan.sources.empty()) return;
    const Plan& before = before_choices(plan);
    PathLister lister;
    Plan::fields(before, lister);
    for (const PlanEntry& entry : numbers_of(before)) lister.put(entry.path);
    const std::vector<std::string> known(lister.paths.begin(), lister.paths.end());
    for (const Source& source : plan.sources) {
        if (!lister.paths.contains(source.path))
            book.error("sources." + source.path, "", "leads to no number of the plan", did_you_mean(nearest_word(source.path, known)));
    }
}

}  // namespace

void check_lender(const Plan& plan, Notebook& book) {
    check_past_years(plan, book);
    check_actuals(plan, book);
    check_sources(plan, book);
}

}  // namespace seasonrisk
