// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/money_plan.hpp"

/// \file
/// A boat: what it fishes, who works on it, what breaks, is lost and insured.
namespace seasonrisk {

template <class N>
struct Fishery {
    Gear gear = Gear::pots;
    N count{};
    N hauls_per_day{};
    N elasticity{1.0};
    std::vector<std::string> species{};
    N setting_days{};
    N spare{};
    std::optional<Date> from{};
    std::optional<Date> to{};
    N switch_cost{};
    bool operator==(const Fishery&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.word("gear", s.gear, k_gear_words, Need::required, "kind of gear: pots, or a trotline");
        visit.number("count", s.count, rules::positive("pots", "pots set this season"), Need::required);
        visit.number("spare", s.spare, rules::amount("pots", "pots ashore that take the place of lost ones at once"), Need::optional);
        visit.number("hauls_per_day", s.hauls_per_day, rules::positive("pots a day", "pots the crew hauls in a day"), Need::required);
        visit.number("elasticity", s.elasticity, Rule{0.0, 1.0, true, false, Scale::between, "", "catch grows as pots to this power; 1 = no crowding"}, Need::optional);
        visit.date("from", s.from, Need::optional, "first day of this fishery; left out, the season's first");
        visit.date("to", s.to, Need::optional, "last day of this fishery; left out, the season's last");
        visit.texts("species", s.species, Need::required, "names of the species it catches");
        visit.number("setting_days", s.setting_days, rules::days("days", "days it takes to set all the gear"), Need::optional);
        visit.number("switch_cost", s.switch_cost, rules::amount("money", "cost of changing over to it; the first fishery of a year has none"), Need::optional);
    }
};

template <class N>
struct Crew {
    std::string name{};
    PayKind pay = PayKind::share_of_sales;
    std::optional<N> share_fraction{};
    std::optional<N> per_day{};
    N no_show_fraction{};
    std::optional<N> alone_hauls_fraction{};
    bool operator==(const Crew&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "who, or which berth");
        visit.word("pay", s.pay, k_pay_words, Need::required, "how the hand is paid");
        visit.number("share_fraction", s.share_fraction, rules::fraction("of the sum shared", "the hand's share"));
        visit.number("per_day", s.per_day, rules::amount("money a day", "wage for a day out"));
        visit.number("no_show_fraction", s.no_show_fraction, rules::fraction("of days", "days on which the hand does not turn up"), Need::optional);
        visit.number("alone_hauls_fraction", s.alone_hauls_fraction, rules::fraction("of the hauls", "hauls that are left without this hand; 0: the boat stays in"));
    }
};

template <class N>
struct Breakdown {
    std::string kind{};
    N per_100_days{};
    EventSize repair{};
    EventSize days_lost{};
    N claimable_odds{};
    N wear_shape{1.0};
    N hours{};
    std::optional<N> wear_reference_hours{};
    bool resets_hours = false;
    bool operator==(const Breakdown&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("kind", s.kind, Need::required, "small, big, engine ...");
        visit.number("per_100_days", s.per_100_days, rules::amount("events in 100 days out", "how often it happens"), Need::required);
        visit.size("repair", s.repair, rules::amount("money", "bill of one event"), Need::required);
        visit.size("days_lost", s.days_lost, rules::days("days", "calendar days lost after one event"), Need::required);
        visit.number("claimable_odds", s.claimable_odds, rules::fraction("of events", "odds that the policy answers for one event"), Need::optional);
        visit.number("wear_shape", s.wear_shape, Rule{0.0, 20.0, true, false, Scale::above_bound, "", "1: the rate never changes; above 1: it grows with hours"}, Need::optional);
        visit.number("hours", s.hours, rules::amount("hours", "hours on it on the first day of the money year"), Need::optional);
        visit.number("wear_reference_hours", s.wear_reference_hours, rules::positive("hours", "hours at which per_100_days holds"));
        visit.flag("resets_hours", s.resets_hours, "a repair makes it as new");
    }
};

/// A part kept in store: it saves days at every breakdown of its kind and is never used up.
template <class N>
struct SparePart {
    std::string for_kind{};
    N cost{};
    N days_saved{};
    bool operator==(const SparePart&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("for", s.for_kind, Need::required, "kind of breakdown it is for");
        visit.number("cost", s.cost, rules::amount("money", "paid once, in the first month"), Need::required);
        visit.number("days_saved", s.days_saved, rules::days("days", "days it saves at each breakdown"), Need::required);
    }
};

template <class N>
struct GearLoss {
    N season_fraction{};
    std::optional<N> pots_per_string{};
    N pot_cost{};
    N prepare_hours_per_pot{};
    ReplaceWhen replace = ReplaceWhen::at_once;
    N storm_odds_per_season{};
    EventSize storm_loss_fraction{};
    bool operator==(const GearLoss&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("season_fraction", s.season_fraction, Rule{0.0, 1.0, false, true, Scale::between, "of pots", "share of the pots lost in a whole season"}, Need::required);
        visit.number("pots_per_string", s.pots_per_string, rules::positive("pots", "pots lost together; left out, loss is steady"));
        visit.number("pot_cost", s.pot_cost, rules::amount("money a pot", "cost of a new pot with rope and buoy share"), Need::required);
        visit.number("prepare_hours_per_pot", s.prepare_hours_per_pot, rules::amount("hours a pot", "owner's or family's hours on a pot before the season"), Need::optional);
        visit.word("replace", s.replace, k_replace_words, Need::required, "when a lost pot is replaced");
        visit.number("storm_odds_per_season", s.storm_odds_per_season, Rule{0.0, 1.0, false, true, Scale::between, "a season", "odds of a storm that takes gear"}, Need::optional);
        visit.size("storm_loss_fraction", s.storm_loss_fraction, rules::fraction("of the pots in the water", "what such a storm takes"), Need::optional);
    }
};

template <class N>
struct Insurance {
    N hull_value{};
    N premium{};
    unsigned pay_month = 0;  ///< 1 = January
    N deductible{};
    N storm_deductible_fraction{};
    bool gear_covered = false;
    N total_loss_odds_per_year{};
    N claim_paid_after_days{};
    bool operator==(const Insurance&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("hull_value", s.hull_value, rules::amount("money", "insured value of the boat"), Need::required);
        visit.number("premium", s.premium, rules::amount("money a year", "premium"), Need::required);
        visit.one_month("pay_month", s.pay_month, Need::required, "month the premium is paid");
        visit.number("deductible", s.deductible, rules::amount("money an event", "the owner's part of each claim"), Need::required);
        visit.number("storm_deductible_fraction", s.storm_deductible_fraction, rules::fraction("of the hull value", "the owner's part of a storm's claim; 0: the flat deductible"), Need::optional);
        visit.flag("gear_covered", s.gear_covered, "the policy answers for gear lost in a storm");
        visit.number("total_loss_odds_per_year", s.total_loss_odds_per_year, rules::fraction("a year", "odds of losing the boat; shown on its own line"), Need::optional);
        visit.number("claim_paid_after_days", s.claim_paid_after_days, rules::days("days", "days from the event to the insurer's money"), Need::optional);
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
    N ground_share{1.0};
    N hours_per_day{};
    std::optional<Date> fish_from{};
    N skipper_gap_odds_per_year{};
    EventSize skipper_gap_weeks{};
    N owner_days_per_month{};
    N owner_days_per_breakdown{};
    std::optional<N> stay_in_below{};
    std::vector<NamedAmount<N>> day_costs{};
    std::vector<Fishery<N>> fishery{};
    std::vector<Crew<N>> crew{};
    std::vector<Breakdown<N>> breakdown{};
    std::vector<SparePart<N>> spare{};
    std::optional<GearLoss<N>> gear_loss{};
    std::optional<Insurance<N>> insurance{};
    std::vector<Standing<N>> standing{};
    bool operator==(const Boat&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "name of the boat");
        visit.word("skipper", s.skipper, k_skipper_words, Need::required, "owner, or hired");
        visit.number("fuel_l_per_day_out", s.fuel_l_per_day_out, rules::amount("litres a day out", "fuel to the grounds and back"), Need::required);
        visit.number("fuel_l_per_100_hauls", s.fuel_l_per_100_hauls, rules::amount("litres a 100 hauls", "fuel while hauling"), Need::optional);
        visit.number("catching_power", s.catching_power, rules::positive("times", "this boat's catch against the stated catch per haul"), Need::optional);
        visit.number("ground_share", s.ground_share, Rule{0.0, 1.0, true, false, Scale::between, "times", "what is left of every boat's catch of a species on days another boat hauls it too"}, Need::optional);
        visit.number("weather_odds_multiplier", s.weather_odds_multiplier, rules::positive("times", "odds of a day too bad for this boat, against the stated ones"), Need::optional);
        visit.number("hours_per_day", s.hours_per_day, Rule{0.0, 24.0, false, false, Scale::above_bound, "hours a day out", "hours of engine and skipper on a day out"}, Need::optional);
        visit.day_costs("day_costs", s.day_costs, rules::amount("money a day out", "cost of each day out"));
        visit.date("fish_from", s.fish_from, Need::optional, "first day this boat can fish, for a boat that arrives later");
        visit.number("skipper_gap_odds_per_year", s.skipper_gap_odds_per_year, Rule{0.0, 1.0, false, true, Scale::between, "a year", "odds that the hired skipper is missing for a time"}, Need::optional);
        visit.size("skipper_gap_weeks", s.skipper_gap_weeks, rules::days("weeks", "weeks without a skipper each time", 52.0), Need::optional);
        visit.number("owner_days_per_month", s.owner_days_per_month, Rule{0.0, 28.0, false, false, Scale::above_bound, "days a month", "days this boat takes the owner off his own"}, Need::optional);
        visit.number("owner_days_per_breakdown", s.owner_days_per_breakdown, rules::days("days", "days a breakdown of this boat takes the owner off his own"), Need::optional);
        visit.number("stay_in_below", s.stay_in_below, rules::any_sign("money", "the boat stays in when an ordinary catch at today's prices would leave less than this; left out: it goes"));
        visit.list("fishery", s.fishery, Need::required);
        visit.list("crew", s.crew, Need::optional);
        visit.list("breakdown", s.breakdown, Need::optional);
        visit.list("spare", s.spare, Need::optional);
        visit.section("gear_loss", s.gear_loss);
        visit.section("insurance", s.insurance);
        visit.list("standing", s.standing, Need::optional);
    }
};

}  // namespace seasonrisk
