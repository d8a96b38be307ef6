// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/boat_plan.hpp"
#include "seasonrisk/plan/catch_plan.hpp"
#include "seasonrisk/plan/lender_plan.hpp"
#include "seasonrisk/plan/money_plan.hpp"
#include "seasonrisk/plan/season_plan.hpp"
#include "seasonrisk/plan/selling_plan.hpp"

/// \file
/// The plan: everything the owner tells, as plain values. Each section lists its own keys once, in
/// `fields`; the reader, the rule book, guesses, `describe` and the batch all walk that one list.
///
/// `N` is how a number is held: `Number` as written (known or guess), `Lanes` as drawn for a batch.
///
/// A visitor has these members, called with the key, the value and what is known of it:
///   number(key, N&, Rule, Need)            number(key, std::optional<N>&, Rule)
///   months(key, Months<N>&, Rule, Need)    by_name(key, ByName<N>&, Rule, Need, names_from)
///   size(key, EventSize&, Rule, Need)      text(key, std::string&, Need, meaning)
///   prose(key, std::string&, Need, meaning)   a text of several sentences
///   date(key, std::optional<Date>&, Need, meaning)      whole(key, int&, lowest, highest, Need, meaning)
///   whole(key, std::optional<int>&, lowest, highest, meaning)
///   flag(key, bool&, meaning)              word(key, E&, {words...}, Need, meaning)
///   texts(key, vector<string>&, Need, meaning)    weekdays(...)   month_list(...)   one_month(...)
///   days_off(key, vector<DayOff>&)         day_costs(key, vector<NamedAmount<N>>&, Rule)
///   section(key, S&, Need)  section(key, optional<S>&)  list(key, vector<S>&, Need)
///   total_or_each(key, TotalOrEach<N>&, Rule, names_from)
///   changes(key, Deed, Need)   something a choice or a stress does, kept as TOML
///   sources(key, vector<Source>&)
namespace seasonrisk {

/// What a key of a choice does to the plan.
enum class Deed { set, add, take_out, spend };

/// A named change to the plan; what it does is kept as TOML and applied by `apply_choice`.
struct Choice {
    std::string name{};
    std::string why{};
    bool operator==(const Choice&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what is changed, in a few words");
        visit.text("why", s.why, Need::optional, "why it is worth looking at");
        visit.changes("set", Deed::set, Need::optional);
        visit.changes("add_boat", Deed::add, Need::optional);
        visit.changes("add_loan", Deed::add, Need::optional);
        visit.changes("add_asset", Deed::add, Need::optional);
        visit.changes("remove", Deed::take_out, Need::optional);
        visit.changes("spend_now", Deed::spend, Need::optional);
    }
};

/// A change for the worse that a lender is shown, under the same luck; never one of the choices.
struct Stress {
    std::string name{};
    std::string why{};
    bool operator==(const Stress&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what goes wrong, in a few words");
        visit.text("why", s.why, Need::optional, "why it is worth looking at");
        visit.changes("set", Deed::set, Need::required);
    }
};

template <class N>
struct PlanOf;

/// What a choice must remember: the plan before choices. Crowding is counted against its pots, gear loss and the
/// usual landing are those of its seasons.
struct Base {
    std::shared_ptr<const PlanOf<Number>> before{};  ///< none: this plan is its own base
    bool operator==(const Base& other) const;
};

template <class N>
struct PlanOf {
    int plan = 1;  ///< version of the plan format
    Business<N> business{};
    Growth<N> growth{};
    SeasonDates<N> season{};
    Ending<N> ending{};
    std::vector<FamilyDate> family_date{};
    Weather<N> weather{};
    std::vector<Species<N>> species{};
    Together<N> together{};
    std::vector<Outlet<N>> outlet{};
    std::vector<Order<N>> order{};
    std::vector<Holding<N>> holding{};
    std::vector<Limit<N>> limit{};
    std::vector<Shock<N>> shock{};
    Prices<N> prices{};
    std::vector<Input<N>> input{};
    std::vector<Boat<N>> boat{};
    std::vector<Standing<N>> standing{};
    std::vector<Loan<N>> loan{};
    std::vector<Asset<N>> asset{};
    Household<N> household{};
    std::optional<SkipperHealth<N>> skipper{};
    std::vector<Suppose<N>> suppose{};
    std::vector<Choice> choice{};
    std::vector<Stress> stress{};
    std::vector<PastYear<N>> past_year{};
    std::optional<Note<N>> note{};
    std::vector<Source> sources{};
    Base base{};
    bool operator==(const PlanOf&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.whole("plan", s.plan, 1, 1, Need::required, "version of the plan format");
        visit.section("business", s.business, Need::required);
        visit.section("growth", s.growth, Need::optional);
        visit.section("season", s.season, Need::required);
        visit.section("ending", s.ending, Need::optional);
        visit.list("family_date", s.family_date, Need::optional);
        visit.section("weather", s.weather, Need::required);
        visit.list("species", s.species, Need::required);
        visit.section("together", s.together, Need::optional);
        visit.list("outlet", s.outlet, Need::required);
        visit.list("order", s.order, Need::optional);
        visit.list("holding", s.holding, Need::optional);
        visit.list("limit", s.limit, Need::optional);
        visit.list("shock", s.shock, Need::optional);
        visit.section("prices", s.prices, Need::required);
        visit.list("input", s.input, Need::optional);
        visit.list("boat", s.boat, Need::required);
        visit.list("standing", s.standing, Need::optional);
        visit.list("loan", s.loan, Need::optional);
        visit.list("asset", s.asset, Need::optional);
        visit.section("household", s.household, Need::optional);
        visit.section("skipper", s.skipper);
        visit.list("suppose", s.suppose, Need::optional);
        visit.list("choice", s.choice, Need::optional);
        visit.list("stress", s.stress, Need::optional);
        visit.list("past_year", s.past_year, Need::optional);
        visit.section("note", s.note);
        visit.sources("sources", s.sources);
    }
};

/// The plan as the owner wrote it.
using Plan = PlanOf<Number>;

inline bool Base::operator==(const Base& other) const {
    return before == other.before || (before && other.before && *before == *other.before);
}

/// The plan before choices: `plan` itself unless it is a choice.
inline const Plan& before_choices(const Plan& plan) { return plan.base.before ? *plan.base.before : plan; }

/// What a choice made from `plan` must remember of it.
inline Base base_of(const Plan& plan) {
    return plan.base.before ? plan.base : Base{std::make_shared<const Plan>(plan)};
}

}  // namespace seasonrisk
