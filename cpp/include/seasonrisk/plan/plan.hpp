// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/number.hpp"
#include "seasonrisk/plan/rules.hpp"

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
///   date(key, std::optional<Date>&, Need, meaning)      whole(key, int&, lowest, highest, meaning)
///   flag(key, bool&, meaning)              word(key, E&, {words...}, Need, meaning)
///   texts(key, vector<string>&, Need, meaning)    weekdays(...)   month_list(...)   one_month(...)
///   days_off(key, vector<DayOff>&)         day_costs(key, vector<NamedAmount<N>>&, Rule)
///   section(key, S&, Need)  section(key, optional<S>&)  list(key, vector<S>&, Need)
///   later(key)           known to the design, not simulated yet: any use is an error
///   later(key, neutral)  the same, but the value that means "nothing" is accepted
namespace seasonrisk {

enum class Need { optional, required };

/// How a hand is paid; what comes off before the share is said in the name.
enum class PayKind { share_of_sales, share_after_bait_and_fuel, day_wage };
inline constexpr const char* k_pay_words[] = {"share of sales", "share after bait and fuel", "day wage"};

enum class ReplaceWhen { at_once, next_season };
inline constexpr const char* k_replace_words[] = {"at once", "next season"};

enum class Skipper { owner, hired };
inline constexpr const char* k_skipper_words[] = {"owner", "hired"};

enum class Gear { pots, trotline };
inline constexpr const char* k_gear_words[] = {"pots", "trotline"};

enum class LoanPay { monthly };
inline constexpr const char* k_loan_pay_words[] = {"monthly"};

/// A run of days on which nobody means to fish.
struct DayOff {
    Date from{};
    Date to{};  ///< included
    std::string why{};
    bool operator==(const DayOff&) const = default;
};

template <class N>
struct NamedAmount {
    std::string name{};
    N amount{};
    bool operator==(const NamedAmount&) const = default;
};

template <class N>
struct Business {
    std::string name{};
    std::string money{};
    std::optional<Date> books_start{};
    int years = 1;
    N opening_cash{};
    N overdraft_limit{};
    N overdraft_rate_fraction{};
    bool operator==(const Business&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "name of the business, invented or real");
        visit.text("money", s.money, Need::required, "three letters of the currency, such as GBP");
        visit.date("books_start", s.books_start, Need::optional,
                   "first day of the money year; left out, the first of the month three months before the season");
        visit.whole("years", s.years, 1, 1, "years in a history; more than one comes later");
        visit.number("opening_cash", s.opening_cash, rules::any_sign("money", "in the account on the first day of the money year"), Need::required);
        visit.number("overdraft_limit", s.overdraft_limit, rules::amount("money", "how far the account may go below zero"), Need::optional);
        visit.number("overdraft_rate_fraction", s.overdraft_rate_fraction, rules::fraction("a year", "overdraft interest a year on what is overdrawn"), Need::optional);
    }
};

template <class N>
struct SeasonDates {
    std::optional<Date> start{};
    std::optional<Date> end{};
    std::vector<unsigned> rest_days{};  ///< ISO: 1 = Monday ... 7 = Sunday
    std::vector<DayOff> days_off{};
    bool operator==(const SeasonDates&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.date("start", s.start, Need::required, "first day of the season");
        visit.date("end", s.end, Need::required, "last day of the season, included");
        visit.weekdays("rest_days", s.rest_days, "days of the week on which the boat never goes");
        visit.days_off("days_off", s.days_off);
        visit.later("stop_on");
    }
};

template <class N>
struct Weather {
    Months<N> unfishable_fraction{};
    N persistence{};
    N year_sd{};
    bool operator==(const Weather&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.months("unfishable_fraction", s.unfishable_fraction, rules::fraction("of days", "share of the month's days too bad to fish"), Need::required);
        visit.number("persistence", s.persistence, rules::persistence("how strongly today's weather follows yesterday's"), Need::optional);
        visit.number("year_sd", s.year_sd, Rule{0.0, 3.0, false, false, Scale::above_bound, "on the logit scale", "how much bad weather differs from year to year"}, Need::optional);
        visit.later("turned_back_fraction", 0.0);
    }
};

template <class N>
struct Species {
    std::string name{};
    std::string unit{};
    N per_haul{};
    Months<N> month_shape{};
    std::optional<N> usual_soak_nights{};
    std::optional<N> soak_time_constant_nights{};
    N year_sd{};
    N year_carry{};
    N day_sd{};
    N day_persistence{};
    N boat_day_sd{};
    bool operator==(const Species&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what is caught");
        visit.text("unit", s.unit, Need::required, "unit it is weighed or counted in, such as kg");
        visit.number("per_haul", s.per_haul, rules::amount("units a pot-haul", "season mean catch of one pot hauled after the usual soak"), Need::required);
        visit.months("month_shape", s.month_shape, rules::amount("times the mean", "how the month compares with the season mean"), Need::optional);
        visit.number("usual_soak_nights", s.usual_soak_nights, rules::positive("nights", "soak that per_haul was recorded at"));
        visit.number("soak_time_constant_nights", s.soak_time_constant_nights, rules::positive("nights", "how slowly a pot fills: 63 in 100 of its most after this many nights"));
        visit.number("year_sd", s.year_sd, rules::log_sd("how much a year's catch differs from the middle year"), Need::optional);
        visit.number("year_carry", s.year_carry, rules::correlation("how much of this year's catch level is left next year"), Need::optional);
        visit.later("last_year_fraction");
        visit.number("day_sd", s.day_sd, rules::log_sd("how much a day's catch on the ground differs"), Need::optional);
        visit.number("day_persistence", s.day_persistence, rules::persistence("how strongly a day's catch follows the day before"), Need::optional);
        visit.number("boat_day_sd", s.boat_day_sd, rules::log_sd("the boat's own luck of the day"), Need::optional);
        visit.later("grade");
    }
};

template <class N>
struct Together {
    N species_year_correlation{};
    N price_catch_correlation{};
    N weather_catch_correlation{};
    bool operator==(const Together&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("species_year_correlation", s.species_year_correlation, rules::correlation("good years of one species with good years of another"), Need::optional);
        visit.number("price_catch_correlation", s.price_catch_correlation, rules::correlation("a year of good catch with a year of good price; usually below 0"), Need::optional);
        visit.number("weather_catch_correlation", s.weather_catch_correlation, rules::correlation("a year of bad weather with a year of good catch"), Need::optional);
    }
};

template <class N>
struct Outlet {
    std::string name{};
    ByName<N> price{};
    Months<N> month_factor{};
    N year_sd{};
    N year_carry{};
    N week_sd{};
    N week_persistence{};
    N cost_per_unit{};
    N paid_after_days{};
    bool operator==(const Outlet&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "who buys");
        visit.by_name("price", s.price, rules::amount("money a unit", "usual price paid"), Need::required, "species");
        visit.months("month_factor", s.month_factor, rules::amount("times the price", "how the month's price compares"), Need::optional);
        visit.number("year_sd", s.year_sd, rules::log_sd("how much a year's price differs"), Need::optional);
        visit.number("year_carry", s.year_carry, rules::correlation("how much of this year's price level is left next year"), Need::optional);
        visit.number("week_sd", s.week_sd, rules::log_sd("how much a week's price differs"), Need::optional);
        visit.number("week_persistence", s.week_persistence, rules::persistence("how strongly a week's price follows the week before"), Need::optional);
        visit.later("daily_limit");
        visit.later("open_days");
        visit.later("demand_per_open_day");
        visit.later("demand_sd");
        visit.later("cost_per_open_day", 0.0);
        visit.later("hours_per_open_day", 0.0);
        visit.number("cost_per_unit", s.cost_per_unit, rules::amount("money a unit", "cost of selling one unit"), Need::optional);
        visit.later("own_landings_flexibility", 0.0);
        visit.number("paid_after_days", s.paid_after_days, rules::days("days", "days from the sale to the money"), Need::optional);
        visit.later("missed_settlement_odds_per_year", 0.0);
    }
};

template <class N>
struct Prices {
    N fuel_per_l{};
    N bait_per_haul{};
    N fuel_year_sd{};
    N fuel_year_carry{};
    N bait_year_sd{};
    N bait_year_carry{};
    N levy_fraction{};
    bool operator==(const Prices&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("fuel_per_l", s.fuel_per_l, rules::amount("money a litre", "fuel price"), Need::required);
        visit.number("bait_per_haul", s.bait_per_haul, rules::amount("money a pot-haul", "bait for one pot"), Need::required);
        visit.number("fuel_year_sd", s.fuel_year_sd, rules::log_sd("how much a year's fuel price differs"), Need::optional);
        visit.number("fuel_year_carry", s.fuel_year_carry, rules::correlation("how much of this year's fuel price is left next year"), Need::optional);
        visit.number("bait_year_sd", s.bait_year_sd, rules::log_sd("how much a year's bait price differs"), Need::optional);
        visit.number("bait_year_carry", s.bait_year_carry, rules::correlation("how much of this year's bait price is left next year"), Need::optional);
        visit.number("levy_fraction", s.levy_fraction, rules::fraction("of sales", "levy taken from sales"), Need::optional);
    }
};

/// Something bought ahead of the season; a standing cost.
template <class N>
struct Input {
    std::string name{};
    std::optional<N> quantity{};
    std::optional<N> quantity_per_pot{};
    N unit_cost{};
    unsigned pay_month = 0;  ///< 1 = January
    bool operator==(const Input&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what is bought");
        visit.number("quantity", s.quantity, rules::amount("units", "how many are bought"));
        visit.number("quantity_per_pot", s.quantity_per_pot, rules::amount("units a pot", "how many are bought for each pot"));
        visit.number("unit_cost", s.unit_cost, rules::amount("money a unit", "cost of one"), Need::required);
        visit.one_month("pay_month", s.pay_month, Need::required, "month the bill is paid");
        visit.later("used_per_haul", 0.0);
        visit.later("spoil_fraction", 0.0);
    }
};

template <class N>
struct Fishery {
    Gear gear = Gear::pots;
    N count{};
    N hauls_per_day{};
    N elasticity{1.0};
    std::vector<std::string> species{};
    N setting_days{};
    bool operator==(const Fishery&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.word("gear", s.gear, k_gear_words, Need::required, "kind of gear; trotline comes later");
        visit.number("count", s.count, rules::positive("pots", "pots set this season"), Need::required);
        visit.later("spare", 0.0);
        visit.number("hauls_per_day", s.hauls_per_day, rules::positive("pots a day", "pots the crew hauls in a day"), Need::required);
        visit.number("elasticity", s.elasticity, Rule{0.0, 1.0, true, false, Scale::between, "", "catch grows as pots to this power; 1 = no crowding"}, Need::optional);
        visit.later("from");
        visit.later("to");
        visit.texts("species", s.species, Need::required, "names of the species it catches");
        visit.number("setting_days", s.setting_days, rules::days("days", "days it takes to set all the gear"), Need::optional);
        visit.later("switch_cost", 0.0);
    }
};

template <class N>
struct Crew {
    std::string name{};
    PayKind pay = PayKind::share_of_sales;
    std::optional<N> share_fraction{};
    std::optional<N> per_day{};
    bool operator==(const Crew&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "who, or which berth");
        visit.word("pay", s.pay, k_pay_words, Need::required, "how the hand is paid");
        visit.number("share_fraction", s.share_fraction, rules::fraction("of the sum shared", "the hand's share"));
        visit.number("per_day", s.per_day, rules::amount("money a day", "wage for a day out"));
        visit.later("no_show_fraction", 0.0);
        visit.later("alone_hauls_fraction");
    }
};

template <class N>
struct Breakdown {
    std::string kind{};
    N per_100_days{};
    EventSize repair{};
    EventSize days_lost{};
    N claimable_odds{};
    bool operator==(const Breakdown&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("kind", s.kind, Need::required, "small, big, engine ...");
        visit.number("per_100_days", s.per_100_days, rules::amount("events in 100 days out", "how often it happens"), Need::required);
        visit.size("repair", s.repair, rules::amount("money", "bill of one event"), Need::required);
        visit.size("days_lost", s.days_lost, rules::days("days", "calendar days lost after one event"), Need::required);
        visit.number("claimable_odds", s.claimable_odds, rules::fraction("of events", "odds that the policy answers for one event"), Need::optional);
        visit.later("wear_shape", 1.0);
        visit.later("hours", nullptr);                 // any value is harmless while wear_shape is 1
        visit.later("wear_reference_hours", nullptr);
        visit.later("resets_hours", nullptr);
    }
};

template <class N>
struct GearLoss {
    N season_fraction{};
    std::optional<N> pots_per_string{};
    N pot_cost{};
    ReplaceWhen replace = ReplaceWhen::at_once;
    bool operator==(const GearLoss&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("season_fraction", s.season_fraction, Rule{0.0, 1.0, false, true, Scale::between, "of pots", "share of the pots lost in a whole season"}, Need::required);
        visit.number("pots_per_string", s.pots_per_string, rules::positive("pots", "pots lost together; left out, loss is steady"));
        visit.number("pot_cost", s.pot_cost, rules::amount("money a pot", "cost of a new pot with rope and buoy share"), Need::required);
        visit.later("prepare_hours_per_pot", 0.0);
        visit.word("replace", s.replace, k_replace_words, Need::required, "when a lost pot is replaced");
        visit.later("storm_odds_per_season", 0.0);
        visit.later("storm_loss_fraction", nullptr);   // any value is harmless while storms have odds 0
    }
};

template <class N>
struct Insurance {
    N hull_value{};
    N premium{};
    unsigned pay_month = 0;  ///< 1 = January
    N deductible{};
    N total_loss_odds_per_year{};
    N claim_paid_after_days{};
    bool operator==(const Insurance&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("hull_value", s.hull_value, rules::amount("money", "insured value of the boat"), Need::required);
        visit.number("premium", s.premium, rules::amount("money a year", "premium"), Need::required);
        visit.one_month("pay_month", s.pay_month, Need::required, "month the premium is paid");
        visit.number("deductible", s.deductible, rules::amount("money an event", "the owner's part of each claim"), Need::required);
        visit.later("storm_deductible_fraction", 0.0);
        visit.later("gear_covered", false);
        visit.number("total_loss_odds_per_year", s.total_loss_odds_per_year, rules::fraction("a year", "odds of losing the boat; shown on its own line"), Need::optional);
        visit.number("claim_paid_after_days", s.claim_paid_after_days, rules::days("days", "days from the event to the insurer's money"), Need::optional);
    }
};

/// A bill that is owed whether the boat fishes or not.
template <class N>
struct Standing {
    std::string name{};
    std::optional<N> amount{};
    std::optional<N> amount_per_pot{};
    unsigned month = 0;  ///< 1 = January; 0 when `every_month`
    bool every_month = false;
    bool operator==(const Standing&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what the bill is for");
        visit.number("amount", s.amount, rules::amount("money", "the bill; in each month when every_month is true"));
        visit.number("amount_per_pot", s.amount_per_pot, rules::amount("money a pot", "the bill for each pot set"));
        visit.one_month("month", s.month, Need::optional, "month it is paid");
        visit.flag("every_month", s.every_month, "the same amount in every month");
    }
};

template <class N>
struct Boat {
    std::string name{};
    Skipper skipper = Skipper::owner;
    N fuel_l_per_day_out{};
    N fuel_l_per_100_hauls{};
    N catching_power{1.0};
    N weather_odds_multiplier{1.0};
    std::vector<NamedAmount<N>> day_costs{};
    std::vector<Fishery<N>> fishery{};
    std::vector<Crew<N>> crew{};
    std::vector<Breakdown<N>> breakdown{};
    std::optional<GearLoss<N>> gear_loss{};
    std::optional<Insurance<N>> insurance{};
    std::vector<Standing<N>> standing{};
    bool operator==(const Boat&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "name of the boat");
        visit.word("skipper", s.skipper, k_skipper_words, Need::required, "owner, or hired (comes later)");
        visit.number("fuel_l_per_day_out", s.fuel_l_per_day_out, rules::amount("litres a day out", "fuel to the grounds and back"), Need::required);
        visit.number("fuel_l_per_100_hauls", s.fuel_l_per_100_hauls, rules::amount("litres a 100 hauls", "fuel while hauling"), Need::optional);
        visit.number("catching_power", s.catching_power, rules::positive("times", "this boat's catch against the stated catch per haul"), Need::optional);
        visit.later("ground_share", 1.0);
        visit.number("weather_odds_multiplier", s.weather_odds_multiplier, rules::positive("times", "odds of a day too bad for this boat, against the stated ones"), Need::optional);
        visit.later("hours_per_day", nullptr);
        visit.day_costs("day_costs", s.day_costs, rules::amount("money a day out", "cost of each day out"));
        visit.later("fish_from");
        visit.later("skipper_gap_odds_per_year", 0.0);
        visit.later("skipper_gap_weeks", nullptr);
        visit.later("owner_days_per_month", 0.0);
        visit.later("owner_days_per_breakdown", 0.0);
        visit.later("stay_in_below");
        visit.list("fishery", s.fishery, Need::required);
        visit.list("crew", s.crew, Need::optional);
        visit.list("breakdown", s.breakdown, Need::optional);
        visit.later("spare");
        visit.section("gear_loss", s.gear_loss);
        visit.section("insurance", s.insurance);
        visit.list("standing", s.standing, Need::optional);
    }
};

template <class N>
struct Loan {
    std::string name{};
    N balance{};
    N rate_fraction{};
    N years_left{};
    LoanPay pay = LoanPay::monthly;
    std::vector<unsigned> months{};  ///< named payment months, 1 = January; empty = monthly
    bool operator==(const Loan&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "which loan");
        visit.number("balance", s.balance, rules::amount("money", "owed on the first day of the money year"), Need::required);
        visit.number("rate_fraction", s.rate_fraction, Rule{0.0, 1.0, false, true, Scale::between, "a year", "interest rate"}, Need::required);
        visit.number("years_left", s.years_left, Rule{0.0, 60.0, true, false, Scale::above_bound, "years", "years until it is paid off"}, Need::required);
        visit.word("pay", s.pay, k_loan_pay_words, Need::optional, "monthly, unless months are named");
        visit.month_list("months", s.months, "months of the payments, each the same");
        visit.later("interest_only_months", 0.0);
        visit.later("secured_on", nullptr);
    }
};

template <class N>
struct Household {
    Months<N> draw_per_month{};
    Months<N> other_income_per_month{};
    N tax_fraction{};
    N wear_allowance{};
    std::vector<unsigned> tax_months{};
    bool operator==(const Household&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.months("draw_per_month", s.draw_per_month, rules::amount("money a month", "what the household takes"), Need::optional);
        visit.months("other_income_per_month", s.other_income_per_month, rules::amount("money a month", "other income of the household"), Need::optional);
        visit.number("tax_fraction", s.tax_fraction, rules::fraction("of the taxable surplus", "tax rate; 0 if tax is not counted"), Need::optional);
        visit.number("wear_allowance", s.wear_allowance, rules::amount("money a year", "yearly allowance for wear, taken off before tax"), Need::optional);
        visit.month_list("tax_months", s.tax_months, "months of the next money year in which this year's tax is paid");
        visit.later("hours", nullptr);
    }
};

/// A named change to the plan; `set` is kept as TOML and applied by `apply_choice`.
struct Choice {
    std::string name{};
    std::string why{};
    bool operator==(const Choice&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what is changed, in a few words");
        visit.text("why", s.why, Need::optional, "why it is worth looking at");
        visit.changes("set");
        visit.later("add_boat");
        visit.later("add_loan");
        visit.later("add_asset");
        visit.later("remove");
        visit.later("spend_now");
    }
};

/// What a changed plan must remember of the plan before choices.
struct Base {
    std::vector<Number> pots{};  ///< per boat; empty = this plan is its own base
    int season_days = 0;         ///< days a pot is in the water to be lost; 0 = this plan is its own base
    bool operator==(const Base&) const = default;
};

template <class N>
struct PlanOf {
    int plan = 1;  ///< version of the plan format
    Business<N> business{};
    SeasonDates<N> season{};
    Weather<N> weather{};
    std::vector<Species<N>> species{};
    Together<N> together{};
    std::vector<Outlet<N>> outlet{};
    Prices<N> prices{};
    std::vector<Input<N>> input{};
    std::vector<Boat<N>> boat{};
    std::vector<Standing<N>> standing{};
    std::vector<Loan<N>> loan{};
    Household<N> household{};
    std::vector<Choice> choice{};
    Base base{};
    bool operator==(const PlanOf&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.whole("plan", s.plan, 1, 1, "version of the plan format");
        visit.section("business", s.business, Need::required);
        visit.later("growth");
        visit.section("season", s.season, Need::required);
        visit.later("ending");
        visit.later("family_date");
        visit.section("weather", s.weather, Need::required);
        visit.list("species", s.species, Need::required);
        visit.section("together", s.together, Need::optional);
        visit.list("outlet", s.outlet, Need::required);
        visit.later("order");
        visit.later("holding");
        visit.later("limit");
        visit.later("shock");
        visit.section("prices", s.prices, Need::required);
        visit.list("input", s.input, Need::optional);
        visit.list("boat", s.boat, Need::required);
        visit.list("standing", s.standing, Need::optional);
        visit.list("loan", s.loan, Need::optional);
        visit.later("asset");
        visit.section("household", s.household, Need::optional);
        visit.later("skipper");
        visit.list("choice", s.choice, Need::optional);
    }
};

/// The plan as the owner wrote it.
using Plan = PlanOf<Number>;

/// What a choice made from `plan` must remember of it: the base of `plan`, which is `plan` itself unless it is a
/// choice already. \pre `plan` is sound
inline Base base_of(const Plan& plan) {
    if (!plan.base.pots.empty()) return plan.base;
    Base base;
    for (const auto& boat : plan.boat) base.pots.push_back(boat.fishery.at(0).count);
    base.season_days = static_cast<int>((*plan.season.end - *plan.season.start).count()) + 1;
    return base;
}

}  // namespace seasonrisk
