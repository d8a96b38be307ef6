// SPDX-License-Identifier: MIT
#include "columns.hpp"

#include <algorithm>

#include "seasonrisk/ensemble/outcomes.hpp"

namespace seasonrisk {
namespace {

enum class Keep { usual, asked };

/// Lists columns. A yearly quantity of a history of several years is its sum over the years, and stands once more
/// for each year under "<name>.<year of the season>".
class Listing {
public:
    Listing(const PreparedPlan& ready, YearTally& tally) : ready_(ready), tally_(tally) {
        tally_ = {};
    }

    void yearly(const char* unit, std::string name, const Lanes& lanes, std::string meaning, Keep keep = Keep::asked) {
        found_.push_back({{std::move(name), unit, std::move(meaning), keep == Keep::usual}, &lanes});
        is_yearly_.push_back(true);
    }
    void yearly_money(std::string name, const Lanes& lanes, std::string meaning, Keep keep = Keep::asked) {
        yearly("money", std::move(name), lanes, std::move(meaning), keep);
    }
    void once(const char* unit, std::string name, const Lanes& lanes, std::string meaning, Keep keep = Keep::asked) {
        found_.push_back({{std::move(name), unit, std::move(meaning), keep == Keep::usual}, &lanes});
        is_yearly_.push_back(false);
    }
    void money(std::string name, const Lanes& lanes, std::string meaning, Keep keep = Keep::asked) {
        once("money", std::move(name), lanes, std::move(meaning), keep);
    }

    std::vector<ColumnSource> columns() {
        if (ready_.years.size() == 1) return std::move(found_);
        lay_out_years();
        std::vector<ColumnSource> all;
        std::size_t n = 0;
        for (std::size_t c = 0; c < found_.size(); ++c) {
            if (!is_yearly_[c]) {
                all.push_back(found_[c]);
                continue;
            }
            ColumnSource sum = found_[c];
            sum.info.meaning += "; all years together";
            sum.lanes = &tally_.total[n];
            all.push_back(std::move(sum));
            for (std::size_t y = 0; y < ready_.years.size(); ++y) {
                ColumnSource year = found_[c];
                const std::string season = std::to_string(ready_.years[y].season_year);
                year.info.name.append(1, '.').append(season);
                year.info.meaning.append("; season of ").append(season);
                year.info.usual = year.info.usual && told_by_year(found_[c].info.name);
                year.lanes = &tally_.by_year[y][n];
                all.push_back(std::move(year));
            }
            ++n;
        }
        return all;
    }

private:
    /// Of the rest the sums are enough unless they are asked for.
    static bool told_by_year(const std::string& name) {
        return name == "running" || name == "standing" || name == "loan" || name == "household" || name == "sales" || name.starts_with("family.");
    }

    void lay_out_years() {
        for (std::size_t c = 0; c < found_.size(); ++c) {
            if (is_yearly_[c]) tally_.sources.push_back(found_[c].lanes);
        }
        tally_.total.resize(tally_.sources.size());
        tally_.by_year.assign(ready_.years.size(), std::vector<Lanes>(tally_.sources.size()));
    }

    const PreparedPlan& ready_;
    YearTally& tally_;
    std::vector<ColumnSource> found_{};
    std::vector<bool> is_yearly_{};
};

void list_earned(Listing& list, const EarnedBook& book) {
    constexpr Keep usual = Keep::usual;
    list.yearly_money("running", book.running, "sales less running costs", usual);
    list.yearly_money("standing", book.standing, "running, less standing costs and inputs", usual);
    list.yearly_money("loan", book.loan, "standing, less loan payments and overdraft interest", usual);
    list.yearly_money("household", book.household, "loan, less tax and draw, plus other income", usual);
    list.yearly_money("sales", book.sales, "sales of the catch", usual);
    list.yearly_money("fuel", book.fuel, "fuel burned", usual);
    list.yearly_money("bait", book.bait, "bait used", usual);
    list.yearly_money("day_costs", book.day_costs, "costs of each day out");
    list.yearly_money("crew_pay", book.crew_pay, "pay of all hands", usual);
    list.yearly_money("selling_costs", book.selling_costs, "levy and cost of selling");
    list.yearly_money("order_shortfalls", book.order_shortfalls, "bought in or paid back for orders that were short");
    list.yearly_money("repairs", book.repairs, "repair bills before claims", usual);
    list.yearly_money("claims", book.claims, "insurer's part of repairs and of gear lost in storms", usual);
    list.yearly_money("pots_lost_cost", book.pots_lost_cost, "pots lost, at the cost of a new one", usual);
    list.yearly_money("quota_lease", book.quota_lease, "leased for landings above a limit");
    list.yearly_money("switch_costs", book.switch_costs, "changing over to another fishery");
    list.yearly_money("missed_settlements", book.missed_settlements, "sold and never paid for");
    list.yearly_money("rehire", book.rehire, "finding a new crew after an early stop");
    list.yearly_money("standing_costs", book.standing_costs, "bills owed whether the boat fishes or not, premium among them");
    list.yearly_money("inputs", book.inputs, "bought ahead of the season, spares, and what ran out");
    list.yearly_money("loan_payments", book.loan_payments, "interest and principal");
    list.yearly_money("loan_interest", book.loan_interest, "interest part of the loan payments");
    list.yearly_money("loan_principal", book.loan_principal, "principal part of the loan payments");
    list.yearly_money("loan_repaid_early", book.loan_repaid_early, "repaid on loans beside their payments; in no rung");
    list.yearly_money("overdraft_interest", book.overdraft_interest, "interest on what was overdrawn");
    list.yearly_money("tax", book.tax, "tax on the year, paid in the next");
    list.yearly_money("draw", book.draw, "taken for the household");
    list.yearly_money("other_income", book.other_income, "other income of the household");
}

void list_cash(Listing& list, const CashBook& cash, const std::vector<Calendar>& years) {
    constexpr Keep usual = Keep::usual;
    list.money("closing_cash", cash.balance, "in the account at the end of the last money year", usual);
    list.money("lowest_cash", cash.lowest, "lowest month-end balance", usual);
    list.once("month of the account, 0 first", "lowest_cash_month", cash.lowest_month, "month whose end is lowest", usual);
    list.money("cash_room", cash.room, "lowest month end above the end of the overdraft; cash holds when 0 or more", usual);
    list.money("end_position", cash.end_position, "closing cash, what is owed to us and what assets and held stock are worth, less what is owed by us and the loans");
    list.money("owed_to_us", cash.owed_to_us, "sold or claimed, not yet paid at the end");
    list.money("owed_by_us", cash.owed_by_us, "tax of the last year, and pots to be replaced next season");
    list.money("loan_balance", cash.loan_balance, "still owed on loans at the end");
    list.yearly("month ends", "missed_payments", cash.missed_payments, "month ends beyond the overdraft at which a loan payment fell due");
    list.money("shortfall", cash.shortfall, "how far the lowest month end lies beyond the overdraft; 0 when cash holds");
    for (std::size_t y = 0; years.size() > 1 && y < years.size(); ++y) {
        const std::string season = std::to_string(years[y].season_year);
        list.money("loan_balance." + season, cash.loan_balance_of_year[y], "still owed on loans at the end of the money year of season " + season);
        list.money("lowest_cash." + season, cash.lowest_of_year[y], "lowest month-end balance of the money year of season " + season);
        list.money("shortfall." + season, cash.shortfall_of_year[y], "how far that lies beyond the overdraft; 0 when cash holds all year");
    }
    list.money("assets", cash.assets, "what assets and held stock are worth at the end");
    for (const Calendar& year : years) {
        for (std::size_t month = 0; month < 12; ++month) {
            const std::string& name = year.money_months[month];
            list.money("cash." + name, cash.month_end[static_cast<std::size_t>(year.first_money_month()) + month], "balance at the end of " + name, usual);
        }
    }
}

/// Days by cause, gear and catch of one boat; `suffix` tells boats apart when there are several.
void list_boat(Listing& list, const BoatYear& year, const std::string& suffix, Keep usual, Keep when_possible) {
    const auto days = [&](const char* name, const Lanes& lanes, const char* meaning, Keep keep = Keep::asked) {
        list.yearly("days", name + suffix, lanes, meaning, keep);
    };
    days("days_fished", year.days_fished, "days out with the gear, setting days and gear-in days of the season among them", usual);
    days("days_setting", year.days_setting, "days out to set the gear");
    days("days_gear_in", year.days_gear_in, "days out to bring the gear in, also after the season");
    days("days_out", year.days_out, "days out, after the season too");
    days("days_rest", year.days_rest, "season days lost to rest days", usual);
    days("days_off", year.days_off, "season days off", usual);
    days("days_ashore", year.days_ashore, "season days with the gear ashore", when_possible);
    days("days_laid_up", year.days_laid_up, "season days lost while the owner was laid up", when_possible);
    days("days_broken_down", year.days_broken_down, "season days lost to breakdowns", usual);
    days("days_no_skipper", year.days_no_skipper, "season days without a skipper", when_possible);
    days("days_no_crew", year.days_no_crew, "season days on which no hand turned up", when_possible);
    days("days_limit", year.days_limit, "season days kept in by a limit or a closure", when_possible);
    days("days_weather", year.days_weather, "season days lost to weather", usual);
    days("days_stayed_in", year.days_stayed_in, "season days on which going out was not worth it", when_possible);
    list.yearly("pot-hauls", "hauls" + suffix, year.hauls, "pots hauled");
    list.yearly("pots", "pots_lost" + suffix, year.pots_lost, "pots lost");
    list.yearly("storms", "storms" + suffix, year.storms, "storms that took gear");
    list.yearly("1 or 0", "total_loss" + suffix, year.total_loss, "the boat is lost this year; every other figure goes on as if afloat");
}

/// Her part of the books. Inputs, orders, quota and an outlet's day are the business's and stand in no boat's part.
void list_books_of_boat(Listing& list, const BoatYear& year, const std::string& suffix) {
    list.yearly_money("sales" + suffix, year.sales, "sales of this boat's catch");
    list.yearly_money("fuel" + suffix, year.fuel, "fuel this boat burned");
    list.yearly_money("bait" + suffix, year.bait, "bait this boat used");
    list.yearly_money("day_costs" + suffix, year.day_costs, "costs of this boat's days out");
    list.yearly_money("crew_pay" + suffix, year.crew_pay, "pay of this boat's hands");
    list.yearly_money("selling_costs" + suffix, year.selling_costs, "levy and cost of selling this boat's catch");
    list.yearly_money("repairs" + suffix, year.repairs, "this boat's repair bills before claims");
    list.yearly_money("claims" + suffix, year.claims, "insurer's part of this boat's repairs and gear");
    list.yearly_money("pots_lost_cost" + suffix, year.pots_lost_cost, "this boat's pots lost, at the cost of a new one");
    list.yearly_money("switch_costs" + suffix, year.switch_costs, "this boat's changing over to another fishery");
    list.yearly_money("rehire" + suffix, year.rehire, "finding this boat a new crew after an early stop");
    list.yearly_money("standing_costs" + suffix, year.standing_costs, "this boat's own bills and premium");
    list.yearly_money("inputs" + suffix, year.inputs, "this boat's spares");
    list.yearly_money("loan_payments" + suffix, year.loan_payments, "payments of loans secured on this boat");
    list.yearly_money("contribution" + suffix, year.contribution, "this boat's sales less what is spent on her alone: running costs, own bills, spares");
    list.yearly_money("after_own_loan" + suffix, year.after_own_loan, "contribution, less payments of loans secured on this boat");
}

void list_selling(Listing& list, const PreparedPlan& ready, const Workspace& work) {
    const bool plain = ready.sells_simply;
    const Keep usual = plain ? Keep::asked : Keep::usual;
    for (std::size_t g = 0; g < ready.goods.size(); ++g) {
        const PreparedGood& good = ready.goods[g];
        for (std::size_t o = 0; o < ready.plan.outlet.size(); ++o) {
            if (ready.price_place[o][g] >= 0)
                list.yearly(good.unit.c_str(), "sold." + ready.plan.outlet[o].name + "." + good.name, work.outlet[o].sold[g], "sold to this outlet", usual);
        }
        if (plain) continue;
        if (!good.holding) {
            list.yearly(good.unit.c_str(), "unsold." + good.name, work.goods[g].unsold, "taken by no outlet and worth nothing", usual);
            continue;
        }
        list.yearly(good.unit.c_str(), "died." + good.name, work.goods[g].died, "died in store", usual);
        list.yearly(good.unit.c_str(), "forced." + good.name, work.goods[g].forced, "sold off in a hurry", usual);
        list.once(good.unit.c_str(), "held." + good.name, work.goods[g].held, "in store at the end");
    }
    for (std::size_t o = 0; !plain && o < ready.plan.outlet.size(); ++o)
        list.yearly("days", "open_days." + ready.plan.outlet[o].name, work.outlet[o].open_days, "open days of the season");
    for (std::size_t n = 0; n < ready.plan.order.size(); ++n) {
        const std::string& who = ready.plan.order[n].who;
        const OrderWork& order = work.order[n];
        const char* unit = ready.goods[order.good].unit.c_str();
        list.yearly(unit, "ordered." + who, order.ordered, "ordered by this regular");
        list.yearly(unit, "delivered." + who, order.delivered, "delivered to this regular", usual);
        list.yearly(unit, "short." + who, order.short_of, "what this regular's orders were short", usual);
        list.yearly(unit, "last_order." + who, order.last_ordered, "the year's last order");
        list.yearly("weeks", "weeks_due." + who, order.weeks_due, "weeks in which this regular's order was due");
        list.yearly("weeks", "weeks_kept." + who, order.weeks_kept, "of these weeks, those in which nothing was short");
    }
}

}  // namespace

std::vector<ColumnSource> column_sources(const PreparedPlan& ready, Workspace& work) {
    Listing list(ready, work.tally);
    list_earned(list, work.earned);
    list_cash(list, work.cash, ready.years);
    const bool more_causes = std::ranges::any_of(ready.boat, [](const PreparedBoat& boat) { return boat.more_causes; });
    list_boat(list, work.boat.size() == 1 ? work.boat[0].year : work.fleet, "", Keep::usual, more_causes ? Keep::usual : Keep::asked);
    list.once("pots", "pots_left", work.boat.size() == 1 ? work.boat[0].year.pots_left : work.fleet.pots_left, "pots in the water or brought ashore at the last season's end");
    list.yearly("days", "bad_weather_days", work.bad_weather_days, "season days with weather too bad for the first boat, whatever else held it");
    list.yearly("claims", "claims_paid", work.claims_paid, "claims that paid something");
    if (work.boat.size() > 1) list.yearly("days", "days_both", work.days_both, "season days on which two or more boats fished");
    for (std::size_t b = 0; work.boat.size() > 1 && b < work.boat.size(); ++b) {
        std::string suffix(1, '.');
        suffix.append(ready.plan.boat[b].name);
        list_boat(list, work.boat[b].year, suffix, Keep::asked, Keep::asked);
        list.once("pots", "pots_left" + suffix, work.boat[b].year.pots_left, "pots in the water or brought ashore at the last season's end");
        list_books_of_boat(list, work.boat[b].year, suffix);
    }
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        const Boat<Number>& boat = ready.plan.boat[b];
        std::string whose;
        if (work.boat.size() > 1) whose.append(boat.name).append(1, '.');
        for (std::size_t kind = 0; kind < boat.breakdown.size(); ++kind)
            list.yearly("events", "breakdowns." + whose + boat.breakdown[kind].kind, work.boat[b].breakdown[kind].events, "breakdowns of this kind");
        for (std::size_t hand = 0; hand < boat.crew.size(); ++hand)
            list.yearly_money("crew_pay." + whose + boat.crew[hand].name, work.boat[b].hand[hand].pay, "pay of this hand");
    }
    for (std::size_t k = 0; k < ready.plan.species.size(); ++k) {
        const Species<Number>& species = ready.plan.species[k];
        list.yearly(species.unit.c_str(), "catch." + species.name, work.boat.size() == 1 ? work.boat[0].species[k].caught : work.fleet_catch[k], "landed in the season");
    }
    list_selling(list, ready, work);
    for (std::size_t n = 0; n < ready.plan.family_date.size(); ++n) {
        const FamilyDate& date = ready.plan.family_date[n];
        list.yearly("1 or 0", "family." + date.name, work.family[n], date.gear_ashore ? "all gear is ashore as the day begins" : "the boats stay in that day", Keep::usual);
    }
    if (ready.counts_hours) {
        list.yearly("hours", "hours", work.hours, "hours of owner and family");
        list.once("money an hour", "left_per_hour", work.left_per_hour, "what the loan rung leaves for an hour of owner and family");
    }
    return list.columns();
}

std::vector<ColumnInfo> columns_of(const Plan& plan) {
    const PreparedPlan ready = prepare(plan);
    Workspace work(ready);
    std::vector<ColumnInfo> columns;
    for (const ColumnSource& source : column_sources(ready, work)) columns.push_back(source.info);
    return columns;
}

}  // namespace seasonrisk
