// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/check_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "seasonrisk/math/spread.hpp"
#include "seasonrisk/plan/guesses.hpp"
#include "visitor.hpp"
#include "words.hpp"

namespace seasonrisk {
namespace {

using std::chrono::days;
using std::chrono::months;
using std::chrono::year_month_day;

/// Everything the rule book finds goes through here.
class Notebook {
public:
    std::vector<Finding> findings{};
    void error(const std::string& path, const std::string& value, std::string message, std::string hint = "") {
        findings.push_back({Severity::error, path, value, std::move(message), std::move(hint), "", 0, 0});
    }
    void warning(const std::string& path, const std::string& value, std::string message, std::string hint = "") {
        findings.push_back({Severity::warning, path, value, std::move(message), std::move(hint), "", 0, 0});
    }
    /// Known to the design, not simulated yet.
    void not_yet(const std::string& path, const std::string& what) { error(path, "", what + " is not simulated yet", "leave it out for now"); }
};

/// A derived figure, to four decimals: nobody wants seventeen digits of it.
std::string short_text(double value) { return number_text(std::round(value * 1e4) / 1e4); }

/// 15 where a fraction belongs: most likely a percentage.
std::string percent_hint(const Rule& rule, double value) {
    const bool is_fraction = rule.scale == Scale::between && rule.highest == 1.0;
    return is_fraction && value >= 2.0 && value <= 100.0 ? "did you mean " + number_text(value / 100.0) + "?" : "";
}

bool within(const Rule& rule, double value) {
    const bool above = rule.lowest_open ? value > rule.lowest : value >= rule.lowest;
    const bool below = rule.highest_open ? value < rule.highest : value <= rule.highest;
    return std::isfinite(value) && above && below && (!rule.whole || value == std::floor(value));
}

/// One key of the plan against its rule.
class RangeCheck : public PathVisitor<RangeCheck> {
public:
    explicit RangeCheck(Notebook& book) : book_(book) {}

    void text(const char* key, const std::string& value, Need need, const char*) {
        constexpr std::size_t longest = 80;
        if (need == Need::required && value.empty()) book_.error(path_of(key), "", "must not be empty");
        if (value.size() > longest) book_.error(path_of(key), value.substr(0, 20) + "...", "must be no longer than 80 letters");
        if (std::ranges::any_of(value, [](char c) { return static_cast<unsigned char>(c) < 0x20; })) book_.error(path_of(key), "", "must be on one line, without control characters");
    }
    void size(const char* key, const EventSize& size, const Rule& rule, Need) {
        // Bills of breakdowns are lopsided by nature; only a guess is asked whether its mean was meant.
        check(path_of(key), {size.low, size.typical, size.high}, size.is_spread, size.typical, rule, Lopsided::is_usual);
    }
    void check_entries(const Plan& plan) {
        for (const PlanEntry& entry : numbers_of(plan)) {
            const Number& number = entry.number;
            check(entry.path, {number.low, number.typical, number.high}, number.is_guess, number.typical, entry.rule, Lopsided::is_told);
        }
    }

private:
    struct Points { double low, typical, high; };
    enum class Lopsided { is_usual, is_told };

    void check(const std::string& path, Points points, bool spread, double known, const Rule& rule, Lopsided lopsided) {
        if (!spread) {
            if (!within(rule, known)) book_.error(path, number_text(known), allowed_text(rule), percent_hint(rule, known));
            return;
        }
        constexpr const char* names[3] = {"low", "typical", "high"};
        const double values[3] = {points.low, points.typical, points.high};
        for (int p = 0; p < 3; ++p) {
            if (within(rule, values[p])) continue;
            book_.error(path + "." + names[p], number_text(values[p]), allowed_text(rule), percent_hint(rule, values[p]));
            return;
        }
        const std::string as_written = "{ low = " + number_text(points.low) + ", typical = " + number_text(points.typical) + ", high = " + number_text(points.high) + " }";
        if (!(points.low <= points.typical && points.typical <= points.high)) {
            book_.error(path, as_written, "must rise from low to typical to high", "low is the 1-in-10 low, high the 1-in-10 high");
        } else if (points.low == points.high) {
            book_.error(path, as_written, "says low and high are the same", "write the one number alone: " + number_text(points.typical));
        } else if (rule.scale != Scale::plain && rule.scale != Scale::whole_count && points.low <= rule.lowest) {
            book_.error(path + ".low", number_text(points.low), "must be above " + number_text(rule.lowest) + ", for a guess never reaches the end of its range", "give the smallest value you would see 1 time in 10, or a single number");
        } else if (rule.scale == Scale::between && points.high >= rule.highest) {
            book_.error(path + ".high", number_text(points.high), "must be below " + number_text(rule.highest) + ", for a guess never reaches the end of its range", "give the largest value you would see 1 time in 10, or a single number");
        } else if (lopsided == Lopsided::is_told) {
            warn_if_lopsided(path, points, rule);
        }
    }

    void warn_if_lopsided(const std::string& path, Points points, const Rule& rule) {
        constexpr double most = 1.25;
        const double mean_value = mean(spread_of(Number(points.low, points.typical, points.high), rule));
        if (points.typical <= 0.0 || mean_value / points.typical <= most) return;
        book_.warning(path, "", "is lopsided: typical " + number_text(points.typical) + ", but the mean is " + short_text(mean_value),
                      "the long upper tail raises the mean; lower the high point if that is not what you mean");
    }

    Notebook& book_;
};

void check_names(const std::string& list, const auto& sections, Notebook& book, auto name_of) {
    std::set<std::string> seen;
    for (std::size_t n = 0; n < sections.size(); ++n) {
        const std::string& name = name_of(sections[n]);
        if (!name.empty() && !seen.insert(name).second) book.error(list + "." + std::to_string(n) + ".name", "\"" + name + "\"", "stands twice; each needs a name of its own");
    }
}

void check_counts(const Plan& plan, Notebook& book) {
    const auto at_most = [&](const std::string& path, std::size_t count, std::size_t most) {
        if (count > most) book.error(path, std::to_string(count), "must be no more than " + std::to_string(most) + " entries");
    };
    if (plan.species.empty()) book.error("species", "", "is missing: at least one [[species]] is needed");
    if (plan.outlet.empty()) book.error("outlet", "", "is missing: one [[outlet]] that buys is needed");
    if (plan.boat.empty()) book.error("boat", "", "is missing: one [[boat]] is needed");
    if (plan.boat.size() > 1) book.not_yet("boat.1", "a second boat");
    if (plan.outlet.size() > 1) book.not_yet("outlet.1", "a second outlet");
    at_most("species", plan.species.size(), 60);
    at_most("standing", plan.standing.size(), 200);
    at_most("input", plan.input.size(), 200);
    at_most("loan", plan.loan.size(), 50);
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        const std::string boat = "boat." + std::to_string(b);
        if (plan.boat[b].fishery.empty()) book.error(boat + ".fishery", "", "is missing: one [[boat.fishery]] is needed");
        if (plan.boat[b].fishery.size() > 1) book.not_yet(boat + ".fishery.1", "a second fishery");
        if (plan.boat[b].skipper == Skipper::hired) book.not_yet(boat + ".skipper", "a hired skipper");
        for (const auto& fishery : plan.boat[b].fishery) if (fishery.gear == Gear::trotline) book.not_yet(boat + ".fishery.0.gear", "a trotline");
        at_most(boat + ".crew", plan.boat[b].crew.size(), 20);
        at_most(boat + ".breakdown", plan.boat[b].breakdown.size(), 200);
        at_most(boat + ".standing", plan.boat[b].standing.size(), 200);
        at_most(boat + ".day_costs", plan.boat[b].day_costs.size(), 50);
        check_names(boat + ".crew", plan.boat[b].crew, book, [](const auto& hand) -> const std::string& { return hand.name; });
        check_names(boat + ".breakdown", plan.boat[b].breakdown, book, [](const auto& kind) -> const std::string& { return kind.kind; });
    }
    check_names("species", plan.species, book, [](const auto& species) -> const std::string& { return species.name; });
    check_names("choice", plan.choice, book, [](const auto& choice) -> const std::string& { return choice.name; });
}

void check_money_word(const Plan& plan, Notebook& book) {
    const std::string& money = plan.business.money;
    const bool three_capitals = money.size() == 3 && std::ranges::all_of(money, [](char c) { return c >= 'A' && c <= 'Z'; });
    if (!money.empty() && !three_capitals) book.error("business.money", "\"" + money + "\"", "must be three capital letters, such as GBP, EUR or USD");
    const Number& cash = plan.business.opening_cash;
    const Number& limit = plan.business.overdraft_limit;
    if (!cash.is_guess && !limit.is_guess && cash.typical < -limit.typical) book.warning("business.opening_cash", number_text(cash.typical), "is below the end of the overdraft on the first day");
}

void check_dates(const Plan& plan, Notebook& book) {
    const auto& season = plan.season;
    if (!season.start || !season.end) return;
    const year_month_day start_ymd{*season.start};
    if (static_cast<int>(start_ymd.year()) < 1950 || static_cast<int>(start_ymd.year()) > 2150) {
        book.error("season.start", date_text(*season.start), "must be in a year from 1950 to 2150");
        return;
    }
    if (*season.end < *season.start) {
        book.error("season.end", date_text(*season.end), "is before the season's start, " + date_text(*season.start), "a season over New Year ends in the next year");
        return;
    }
    const Date first = plan.business.books_start.value_or(Date{(start_ymd.year() / start_ymd.month() - months{3}) / 1});
    const year_month_day first_ymd{first};
    if (static_cast<unsigned>(first_ymd.day()) != 1) {
        book.error("business.books_start", date_text(first), "must be the first of a month, for bills fall on month ends");
        return;
    }
    const Date last = Date{(first_ymd.year() / first_ymd.month() + months{12}) / 1} - days{1};
    if (*season.start < first || *season.end > last) {
        book.error("season", "", "must lie inside the money year, which runs from " + date_text(first) + " to " + date_text(last),
                   plan.business.books_start ? "move business.books_start" : "give business.books_start, or a shorter season");
    }
    Date earlier_to = Date::min();
    auto off_days = season.days_off;
    for (std::size_t n = 0; n < off_days.size(); ++n) {
        const std::string path = "season.days_off." + std::to_string(n);
        if (off_days[n].to < off_days[n].from) book.error(path, "", "ends before it begins");
        else if (off_days[n].from < *season.start || off_days[n].to > *season.end) book.error(path, "", "lies outside the season, " + date_text(*season.start) + " to " + date_text(*season.end));
    }
    std::ranges::sort(off_days, {}, &DayOff::from);
    for (const DayOff& off : off_days) {
        if (off.from <= earlier_to) book.error("season.days_off", "", "has two entries that share " + date_text(off.from));
        earlier_to = std::max(earlier_to, off.to);
    }
    if (season.rest_days.size() == 7) book.error("season.rest_days", "", "leaves no day to fish");
    const auto length = static_cast<double>((*season.end - *season.start).count() + 1);
    for (const auto& boat : plan.boat) {
        for (const auto& fishery : boat.fishery) {
            if (fishery.setting_days.typical > length) book.error("boat.0.fishery.0.setting_days", number_text(fishery.setting_days.typical), "must be fewer than the season's " + number_text(length) + " days");
        }
    }
}

void check_months(const Plan& plan, Notebook& book) {
    const auto& season = plan.season;
    const auto& fractions = plan.weather.unfishable_fraction.by_month;
    const bool any = std::ranges::any_of(fractions, [](const auto& month) { return month.has_value(); });
    if (!any) book.error("weather.unfishable_fraction", "", "must name at least one month", "0.0 means every day can be fished");
    if (!season.start || !season.end || *season.end < *season.start || *season.end - *season.start > days{366}) return;
    std::set<std::size_t> in_season;
    for (Date date = *season.start; date <= *season.end; date += days{1}) in_season.insert(static_cast<unsigned>(year_month_day{date}.month()) - 1);
    const auto tell_left_out = [&](const std::string& path, const auto& by_month, const std::string& what_happens) {
        const bool given = std::ranges::any_of(by_month, [](const auto& month) { return month.has_value(); });
        if (!given) return;
        std::vector<std::string> left_out;
        for (const std::size_t m : in_season) if (!by_month[m]) left_out.emplace_back(k_month_words[m]);
        if (!left_out.empty()) book.warning(path, "", "leaves out " + join(left_out, ", ") + "; there it " + what_happens);
    };
    if (any) tell_left_out("weather.unfishable_fraction", fractions, "takes the fraction of the last month before it that has one");
    for (std::size_t k = 0; k < plan.species.size(); ++k) tell_left_out("species." + std::to_string(k) + ".month_shape", plan.species[k].month_shape.by_month, "counts as 1");
    for (std::size_t o = 0; o < plan.outlet.size(); ++o) tell_left_out("outlet." + std::to_string(o) + ".month_factor", plan.outlet[o].month_factor.by_month, "counts as 1");
}

std::vector<std::string> species_names(const Plan& plan) {
    std::vector<std::string> names;
    for (const auto& species : plan.species) names.push_back(species.name);
    return names;
}

void check_species(const Plan& plan, Notebook& book) {
    const std::vector<std::string> names = species_names(plan);
    const auto knows = [](const std::vector<std::string>& words, const std::string& word) { return std::ranges::find(words, word) != words.end(); };
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const auto& species = plan.species[k];
        const std::string path = "species." + std::to_string(k);
        if (species.usual_soak_nights.has_value() != species.soak_time_constant_nights.has_value()) {
            book.error(path + (species.usual_soak_nights ? ".usual_soak_nights" : ".soak_time_constant_nights"), "", "needs both usual_soak_nights and soak_time_constant_nights, or neither");
        }
        for (std::size_t o = 0; o < plan.outlet.size(); ++o) {
            const auto& items = plan.outlet[o].price.items;
            const bool priced = std::ranges::any_of(items, [&](const auto& item) { return item.first == species.name; });
            if (!priced) book.error("outlet." + std::to_string(o) + ".price", "", "has no price for " + species.name, "what nobody buys is worth nothing; give 0.0 if that is so");
        }
        for (std::size_t b = 0; b < plan.boat.size(); ++b) {
            if (plan.boat[b].fishery.empty()) continue;
            const auto& caught = plan.boat[b].fishery[0].species;
            if (!caught.empty() && !knows(caught, species.name)) book.error(path, "", "is caught by no fishery", "name it in boat." + std::to_string(b) + ".fishery.0.species, or leave it out");
        }
    }
    for (std::size_t o = 0; o < plan.outlet.size(); ++o) {
        for (const auto& [name, price] : plan.outlet[o].price.items) {
            if (!knows(names, name)) book.error("outlet." + std::to_string(o) + ".price." + name, "", "is the price of no species of this plan", did_you_mean(nearest_word(name, names)));
        }
    }
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        for (std::size_t f = 0; f < plan.boat[b].fishery.size(); ++f) {
            const auto& fishery = plan.boat[b].fishery[f];
            const std::string path = "boat." + std::to_string(b) + ".fishery." + std::to_string(f);
            if (fishery.species.empty()) book.error(path + ".species", "", "must name at least one species");
            std::set<std::string> seen;
            for (const std::string& name : fishery.species) {
                if (!knows(names, name)) book.error(path + ".species", "\"" + name + "\"", "is no species of this plan", did_you_mean(nearest_word(name, names)));
                if (!seen.insert(name).second) book.error(path + ".species", "\"" + name + "\"", "stands twice in the list");
            }
            constexpr double longest_rotation = 30.0;
            if (fishery.count.typical > 0.0 && fishery.hauls_per_day.typical > 0.0 && fishery.count.typical > longest_rotation * fishery.hauls_per_day.typical) {
                book.error(path + ".count", number_text(fishery.count.typical), "must be no more than 30 days of hauls", "at " + number_text(fishery.hauls_per_day.typical) + " a day most pots would never be seen again");
            }
            if (!fishery.count.is_guess && !fishery.hauls_per_day.is_guess && fishery.count.typical < fishery.hauls_per_day.typical) {
                book.warning(path + ".hauls_per_day", number_text(fishery.hauls_per_day.typical), "is more than the " + number_text(fishery.count.typical) + " pots there are; each pot is hauled once a day");
            }
        }
    }
}

void check_crew(const Plan& plan, Notebook& book) {
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        double shared[2] = {0.0, 0.0};
        for (std::size_t c = 0; c < plan.boat[b].crew.size(); ++c) {
            const auto& hand = plan.boat[b].crew[c];
            const std::string path = "boat." + std::to_string(b) + ".crew." + std::to_string(c);
            const bool wage = hand.pay == PayKind::day_wage;
            if (wage && !hand.per_day) book.error(path + ".per_day", "", "is missing: a day wage needs an amount for each day out");
            if (wage && hand.share_fraction) book.error(path + ".share_fraction", "", "has no meaning for a day wage");
            if (!wage && !hand.share_fraction) book.error(path + ".share_fraction", "", "is missing: a share needs its fraction");
            if (!wage && hand.per_day) book.error(path + ".per_day", "", "has no meaning for a share");
            if (!wage && hand.share_fraction) shared[hand.pay == PayKind::share_of_sales ? 0 : 1] += hand.share_fraction->typical;
        }
        if (shared[0] > 1.0 || shared[1] > 1.0) book.error("boat." + std::to_string(b) + ".crew", short_text(std::max(shared[0], shared[1])), "shares out more than there is; the fractions of one sum must not pass 1");
    }
}

void check_bill(const std::string& path, const Standing<Number>& bill, Notebook& book) {
    if (bill.amount.has_value() == bill.amount_per_pot.has_value()) book.error(path, "", "needs one of amount and amount_per_pot, not both");
    if ((bill.month != 0) == bill.every_month) book.error(path, "", "needs one of month = \"apr\" and every_month = true, not both");
}

void check_bills(const Plan& plan, Notebook& book) {
    for (std::size_t n = 0; n < plan.standing.size(); ++n) check_bill("standing." + std::to_string(n), plan.standing[n], book);
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        const auto& boat = plan.boat[b];
        const std::string path = "boat." + std::to_string(b);
        for (std::size_t n = 0; n < boat.standing.size(); ++n) check_bill(path + ".standing." + std::to_string(n), boat.standing[n], book);
        for (std::size_t n = 0; n < boat.breakdown.size(); ++n) {
            if (!boat.insurance && boat.breakdown[n].claimable_odds.typical > 0.0) {
                book.warning(path + ".breakdown." + std::to_string(n) + ".claimable_odds", number_text(boat.breakdown[n].claimable_odds.typical), "pays nothing, for the boat has no [boat.insurance]");
            }
        }
    }
    for (std::size_t n = 0; n < plan.input.size(); ++n) {
        if (plan.input[n].quantity.has_value() == plan.input[n].quantity_per_pot.has_value()) book.error("input." + std::to_string(n), "", "needs one of quantity and quantity_per_pot, not both");
    }
    if (plan.household.tax_fraction.typical > 0.0 && plan.household.tax_months.empty()) {
        book.error("household.tax_months", "", "is missing: say in which months of the next money year the tax is paid", "for example tax_months = [\"jan\", \"jul\"]");
    }
}

/// One carry for all of a kind: with different ones the year factors would not be what they say.
void check_same_carry(const std::string& list, const auto& sections, Notebook& book) {
    for (std::size_t n = 1; n < sections.size(); ++n) {
        if (sections[n].year_carry != sections[0].year_carry) {
            book.error(list + "." + std::to_string(n) + ".year_carry", number_text(sections[n].year_carry.typical), "must be the same for every " + list + ": " + number_text(sections[0].year_carry.typical));
        }
    }
}

void check_ties(const Plan& plan, Notebook& book) {
    check_same_carry("species", plan.species, book);
    check_same_carry("outlet", plan.outlet, book);
    const double r_s = plan.together.species_year_correlation.typical;
    const double r_wc = plan.together.weather_catch_correlation.typical;
    const double r_pc = plan.together.price_catch_correlation.typical;
    if (r_s < 0.0) book.error("together.species_year_correlation", number_text(r_s), "must be 0 or more, for all species share one common part");
    if (plan.species.size() > 1) {
        // In some history a guess of either would break the rule below, and a correlation is not clamped in silence.
        if (plan.together.species_year_correlation.is_guess) book.error("together.species_year_correlation", "", "must be a single number, not a guess, when there are several species");
        if (plan.together.weather_catch_correlation.is_guess) book.error("together.weather_catch_correlation", "", "must be a single number, not a guess, when there are several species");
    }
    if (plan.species.size() > 1 && r_s >= 0.0 && r_s < r_wc * r_wc) {
        book.error("together.species_year_correlation", number_text(r_s), "must be at least the square of weather_catch_correlation, " + short_text(r_wc * r_wc),
                   "species that all follow the weather follow each other too");
    }
    if (plan.species.empty() || plan.outlet.empty() || std::abs(r_wc) >= 1.0 || std::abs(r_pc) >= 1.0) return;
    const double phi_c = plan.species[0].year_carry.typical;
    const double phi_p = plan.outlet[0].year_carry.typical;
    const double catch_carry = phi_c / (1.0 - r_wc * r_wc);
    const double price_carry = (phi_p - r_pc * r_pc * phi_c) / (1.0 - r_pc * r_pc);
    if (std::abs(catch_carry) >= 1.0) book.error("species.0.year_carry", number_text(phi_c), "is too large beside weather_catch_correlation " + number_text(r_wc) + ": what the weather leaves would have to carry over by " + short_text(catch_carry));
    if (std::abs(price_carry) >= 1.0) book.error("outlet.0.year_carry", number_text(phi_p), "does not go with price_catch_correlation " + number_text(r_pc) + " and the catch's year_carry " + number_text(phi_c));
}

void check_hashes(const Plan& plan, Notebook& book) {
    std::map<std::uint32_t, std::string> seen;
    for (const Guess& guess : guesses_of(plan)) {
        const auto [place, fresh] = seen.emplace(guess.hash, guess.path);
        if (!fresh) book.error(guess.path, "", "would share its draws with " + place->second, "give one of the two a single number");
    }
}

}  // namespace

std::vector<Finding> check_plan(const Plan& plan) {
    Notebook book;
    RangeCheck ranges(book);
    Plan::fields(plan, ranges);
    ranges.check_entries(plan);
    check_counts(plan, book);
    check_money_word(plan, book);
    check_dates(plan, book);
    check_months(plan, book);
    check_species(plan, book);
    check_crew(plan, book);
    check_bills(plan, book);
    check_ties(plan, book);
    check_hashes(plan, book);
    if (plan.plan != 1) book.error("plan", std::to_string(plan.plan), "must be 1");
    if (plan.business.years != 1) book.not_yet("business.years", "more than one year");
    return book.findings;
}

void require_sound(const Plan& plan) {
    std::vector<Finding> findings = check_plan(plan);
    if (std::ranges::any_of(findings, [](const Finding& finding) { return finding.severity == Severity::error; })) throw PlanError(std::move(findings));
}

}  // namespace seasonrisk
