// SPDX-License-Identifier: MIT
#include "columns.hpp"

#include "seasonrisk/ensemble/outcomes.hpp"

namespace seasonrisk {
namespace {

enum class Keep { usual, asked };

struct Listing {
    std::vector<ColumnSource> columns{};
    void add(const char* unit, std::string name, const Lanes& lanes, std::string meaning, Keep keep = Keep::asked) {
        columns.push_back({{std::move(name), unit, std::move(meaning), keep == Keep::usual}, &lanes});
    }
    void money(std::string name, const Lanes& lanes, std::string meaning, Keep keep = Keep::asked) {
        add("money", std::move(name), lanes, std::move(meaning), keep);
    }
};

void list_earned(Listing& list, const EarnedBook& book) {
    constexpr Keep usual = Keep::usual;
    list.money("running", book.running, "sales less running costs", usual);
    list.money("standing", book.standing, "running, less standing costs and inputs", usual);
    list.money("loan", book.loan, "standing, less loan payments and overdraft interest", usual);
    list.money("household", book.household, "loan, less tax and draw, plus other income", usual);
    list.money("sales", book.sales, "sales of the catch", usual);
    list.money("fuel", book.fuel, "fuel burned", usual);
    list.money("bait", book.bait, "bait used", usual);
    list.money("day_costs", book.day_costs, "costs of each day out");
    list.money("crew_pay", book.crew_pay, "pay of all hands", usual);
    list.money("selling_costs", book.selling_costs, "levy and cost of selling");
    list.money("repairs", book.repairs, "repair bills before claims", usual);
    list.money("claims", book.claims, "insurer's part of repairs", usual);
    list.money("pots_lost_cost", book.pots_lost_cost, "pots lost, at the cost of a new one", usual);
    list.money("standing_costs", book.standing_costs, "bills owed whether the boat fishes or not, premium among them");
    list.money("inputs", book.inputs, "bought ahead of the season");
    list.money("loan_payments", book.loan_payments, "interest and principal");
    list.money("loan_interest", book.loan_interest, "interest part of the loan payments");
    list.money("overdraft_interest", book.overdraft_interest, "interest on what was overdrawn");
    list.money("tax", book.tax, "tax on the year, paid in the next");
    list.money("draw", book.draw, "taken for the household");
    list.money("other_income", book.other_income, "other income of the household");
}

void list_cash(Listing& list, const CashBook& cash, const Calendar& calendar) {
    constexpr Keep usual = Keep::usual;
    list.money("closing_cash", cash.closing, "in the account at the end of the money year", usual);
    list.money("lowest_cash", cash.lowest, "lowest month-end balance", usual);
    list.add("month of the money year, 0 first", "lowest_cash_month", cash.lowest_month, "month whose end is lowest", usual);
    list.money("cash_room", cash.room, "lowest month end above the end of the overdraft; cash holds when 0 or more", usual);
    list.money("end_position", cash.end_position, "closing cash and what is owed to us, less what is owed by us and the loans");
    list.money("owed_to_us", cash.owed_to_us, "sold or claimed, not yet paid at the end");
    list.money("owed_by_us", cash.owed_by_us, "tax of the year, and pots to be replaced next season");
    list.money("loan_balance", cash.loan_balance, "still owed on loans at the end");
    for (std::size_t month = 0; month < 12; ++month) {
        list.money("cash." + calendar.money_months[month], cash.month_end[month], "balance at the end of " + calendar.money_months[month], usual);
    }
}

void list_days(Listing& list, const DayState& day, const GearState& gear) {
    constexpr Keep usual = Keep::usual;
    list.add("days", "days_fished", day.days_fished, "days out with the gear, setting days among them", usual);
    list.add("days", "days_setting", day.days_setting, "days out to set the gear");
    list.add("days", "days_rest", day.days_rest, "season days lost to rest days");
    list.add("days", "days_off", day.days_off, "season days off");
    list.add("days", "days_broken_down", day.days_broken_down, "season days lost to breakdowns", usual);
    list.add("days", "days_weather", day.days_weather, "season days lost to weather", usual);
    list.add("days", "bad_weather_days", day.bad_weather_days, "season days with weather too bad, whatever else held the boat");
    list.add("pot-hauls", "hauls", day.hauls, "pots hauled");
    list.add("pots", "pots_lost", gear.lost, "pots lost");
    list.add("pots", "pots_left", gear.in_water, "pots in the water at the season's end");
    list.add("claims", "claims_paid", day.claims_paid, "claims that paid something");
    list.add("1 or 0", "total_loss", day.total_loss, "the boat is lost this year; every other figure goes on as if afloat");
}

}  // namespace

std::vector<ColumnSource> column_sources(const PreparedPlan& ready, const Workspace& work) {
    Listing list;
    list_earned(list, work.earned);
    list_cash(list, work.cash, ready.calendar);
    list_days(list, work.day, work.gear);
    const Boat<Number>& boat = ready.plan.boat[0];
    for (std::size_t kind = 0; kind < boat.breakdown.size(); ++kind) {
        list.add("events", "breakdowns." + boat.breakdown[kind].kind, work.breakdown[kind].events, "breakdowns of this kind");
    }
    for (std::size_t k = 0; k < ready.plan.species.size(); ++k) {
        const Species<Number>& species = ready.plan.species[k];
        list.add(species.unit.c_str(), "catch." + species.name, work.species[k].fish.caught, "catch of the season");
    }
    for (std::size_t hand = 0; hand < boat.crew.size(); ++hand) {
        list.money("crew_pay." + boat.crew[hand].name, work.hand_pay[hand], "pay of this hand");
    }
    return list.columns;
}

std::vector<ColumnInfo> columns_of(const Plan& plan) {
    const PreparedPlan ready = prepare(plan);
    const Workspace work(ready);
    std::vector<ColumnInfo> columns;
    for (const ColumnSource& source : column_sources(ready, work)) columns.push_back(source.info);
    return columns;
}

}  // namespace seasonrisk
