// SPDX-License-Identifier: MIT
#include <algorithm>

#include "prepare_parts.hpp"
#include "seasonrisk/season/simulate_batch.hpp"
#include "seasonrisk/season/workspace.hpp"

namespace seasonrisk {
namespace {

void list_goods(PreparedPlan& ready) {
    const Plan& plan = ready.plan;
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const Species<Number>& species = plan.species[k];
        std::vector<std::size_t>& of_species = ready.goods_of.emplace_back();
        const std::size_t count = std::max<std::size_t>(species.grade.size(), 1);
        for (std::size_t n = 0; n < count; ++n) {
            PreparedGood good;
            good.species = k;
            if (species.grade.empty()) {
                good.name = species.name;
                good.unit = species.unit;
            } else {
                good.grade = n;
                good.name = species.grade[n].name;
                good.unit = species.grade[n].sold_by.empty() ? species.unit : species.grade[n].sold_by;
            }
            const auto holding = std::ranges::find(plan.holding, good.name, &Holding<Number>::grade);
            if (holding != plan.holding.end()) good.holding = static_cast<std::size_t>(holding - plan.holding.begin());
            of_species.push_back(ready.goods.size());
            ready.goods.push_back(std::move(good));
        }
    }
}

/// The price of a good by its own name, else by that of its species.
void find_prices(PreparedPlan& ready) {
    for (const Outlet<Number>& outlet : ready.plan.outlet) {
        std::vector<int>& places = ready.price_place.emplace_back();
        const auto place_of = [&](const std::string& name) {
            const auto item = std::ranges::find(outlet.price.items, name, &std::pair<std::string, Number>::first);
            return item == outlet.price.items.end() ? -1 : static_cast<int>(item - outlet.price.items.begin());
        };
        for (const PreparedGood& good : ready.goods) {
            const int own = place_of(good.name);
            places.push_back(own >= 0 ? own : place_of(ready.plan.species[good.species].name));
        }
    }
}

bool moves_with_landings(const Outlet<Number>& outlet) {
    return outlet.own_landings_flexibility.is_guess || outlet.own_landings_flexibility.typical != 0.0;
}

/// The first buyer takes everything, any day, as much as there is, at a price that does not ask how much: whoever
/// else there is gets nothing, and costs nothing.
bool is_simple(const PreparedPlan& ready) {
    const Plan& plan = ready.plan;
    if (!plan.order.empty() || !plan.holding.empty() || !plan.limit.empty()) return false;
    const Outlet<Number>& outlet = plan.outlet[0];
    const bool costs_to_open = std::ranges::any_of(plan.outlet, [](const Outlet<Number>& each) {
        return can_be_above_zero(each.cost_per_open_day) || can_be_above_zero(each.hours_per_open_day);
    });
    const bool takes_all = std::ranges::none_of(ready.price_place[0], [](int place) { return place < 0; });
    const bool one_gear = !ready.gear_in || std::ranges::all_of(plan.boat, [](const Boat<Number>& boat) { return boat.fishery.size() == 1; });
    // The cost of selling is one of sold units, which a simple plan does not count where grades have units of their own.
    const bool by_the_unit = !can_be_above_zero(outlet.cost_per_unit)
                             || std::ranges::all_of(plan.species, [](const Species<Number>& species) { return species.grade.empty(); });
    return takes_all && one_gear && by_the_unit && !costs_to_open && outlet.daily_limit.empty() && outlet.demand_per_open_day.empty()
           && outlet.open_days.empty() && !can_be_above_zero(outlet.missed_settlement_odds_per_year) && !moves_with_landings(outlet);
}

void still(Number& number) { number = Number(0.0); }

/// Every number the plan holds, guesses at their typical value.
struct MakeCertain {
    void known(Number& number) { number = Number(number.typical); }
    void number(const char*, Number& number, auto&&...) { known(number); }
    void number(const char*, std::optional<Number>& number, auto&&...) {
        if (number) known(*number);
    }
    void months(const char*, Months<Number>& months, auto&&...) {
        for (auto& month : months.by_month) {
            if (month) known(*month);
        }
    }
    void by_name(const char*, ByName<Number>& named, auto&&...) {
        for (auto& [name, number] : named.items) known(number);
    }
    void total_or_each(const char*, TotalOrEach<Number>& numbers, auto&&...) {
        if (numbers.total) known(*numbers.total);
        for (auto& [name, number] : numbers.each) known(number);
    }
    void day_costs(const char*, std::vector<NamedAmount<Number>>& costs, auto&&...) {
        for (auto& cost : costs) known(cost.amount);
    }
    template <class T>
    void section(const char*, T& value, Need) { T::fields(value, *this); }
    template <class T>
    void section(const char*, std::optional<T>& value) {
        if (value) T::fields(*value, *this);
    }
    template <class T>
    void list(const char*, std::vector<T>& values, Need) {
        for (T& value : values) T::fields(value, *this);
    }
    void size(auto&&...) {}
    void text(auto&&...) {}
    void prose(auto&&...) {}
    void sources(auto&&...) {}
    void date(auto&&...) {}
    void whole(auto&&...) {}
    void flag(auto&&...) {}
    void word(auto&&...) {}
    void texts(auto&&...) {}
    void weekdays(auto&&...) {}
    void month_list(auto&&...) {}
    void one_month(auto&&...) {}
    void days_off(auto&&...) {}
    void changes(auto&&...) {}
};

/// The same business in a year like any other, with nothing that comes by chance or stops the boat.
Plan without_luck(Plan plan) {
    plan.base = {};
    MakeCertain certain;
    Plan::fields(plan, certain);
    for (auto& month : plan.weather.unfishable_fraction.by_month) {
        if (month) still(*month);
    }
    still(plan.weather.year_sd);
    for (Species<Number>& species : plan.species) {
        for (Number* spread : {&species.year_sd, &species.day_sd, &species.boat_day_sd}) still(*spread);
        species.last_year_fraction.reset();
        for (Grade<Number>& grade : species.grade) still(grade.year_sd);
    }
    for (Outlet<Number>& outlet : plan.outlet) {
        for (Number* odds : {&outlet.own_landings_flexibility, &outlet.missed_settlement_odds_per_year, &outlet.year_sd, &outlet.week_sd}) still(*odds);
        outlet.demand_per_open_day = {};
    }
    plan.limit.clear();
    plan.shock.clear();
    plan.suppose.clear();
    plan.sources.clear();  // they may speak of what is taken out here
    plan.order.clear();
    plan.skipper.reset();
    for (Boat<Number>& boat : plan.boat) {
        boat.breakdown.clear();
        boat.spare.clear();
        boat.gear_loss.reset();
        boat.stay_in_below.reset();
        for (Number* odds : {&boat.skipper_gap_odds_per_year, &boat.owner_days_per_month, &boat.owner_days_per_breakdown}) still(*odds);
        for (Crew<Number>& hand : boat.crew) still(hand.no_show_fraction);
    }
    return plan;
}

/// Adds up landings and fished days by month, as they come.
class CountLandings : public DayWatcher {
public:
    explicit CountLandings(const PreparedPlan& ready)
        : ready_(ready), landed(ready.goods.size(), std::vector<double>(12 * ready.years.size(), 0.0)), days(landed) {}

    void end_of_day(const Day& day, int, const Workspace& work) override {
        if (!day.in_season || !work.landing_today) return;
        for (std::size_t g = 0; g < ready_.goods.size(); ++g) {
            const std::size_t k = ready_.goods[g].species;
            double today = 0.0;
            bool fished = false;
            for (const BoatWork& boat : work.boat) {
                today += boat.species[k].caught_today[0] * work.goods[g].share[0];
                for (const FisheryWork& fishery : boat.fishery) {
                    const bool catches = std::ranges::find(fishery.prepared->species, k) != fishery.prepared->species.end();
                    fished = fished || (catches && fishery.gear.hauls_today[0] > 0.0);
                }
            }
            const auto month = static_cast<std::size_t>(12 * work.year_now + day.month);
            landed[g][month] += today;
            days[g][month] += fished ? 1.0 : 0.0;
        }
    }

private:
    const PreparedPlan& ready_;

public:
    std::vector<std::vector<double>> landed;
    std::vector<std::vector<double>> days;
};

}  // namespace

void prepare_selling(PreparedPlan& ready) {
    list_goods(ready);
    find_prices(ready);
    ready.sells_simply = is_simple(ready);
    ready.costs_per_unit = ready.sells_simply && can_be_above_zero(ready.plan.outlet.front().cost_per_unit);
    ready.idles_ashore = ready.sells_simply;  // else outlets and regulars have their own days
    for (const PreparedGood& good : ready.goods)
        ready.die_offs.push_back(good.holding && can_be_above_zero(ready.plan.holding[*good.holding].die_off_odds_per_day));
    for (const Outlet<Number>& outlet : ready.plan.outlet) ready.may_not_settle.push_back(can_be_above_zero(outlet.missed_settlement_odds_per_year));
}

void prepare_usual_landing(PreparedPlan& ready) {
    if (std::ranges::none_of(ready.plan.outlet, moves_with_landings)) return;
    const PreparedPlan quiet = prepare(without_luck(before_choices(ready.plan)));
    Workspace work(quiet);
    CountLandings count(quiet);
    simulate_batch_watched(quiet, work, {}, count);
    ready.usual_landing.assign(ready.goods.size(), std::vector<double>(12 * ready.years.size(), 0.0));
    for (std::size_t g = 0; g < ready.goods.size(); ++g) {
        const auto same = std::ranges::find(quiet.goods, ready.goods[g].name, &PreparedGood::name);
        if (same == quiet.goods.end()) continue;  // a good the plan before choices does not land: no usual landing
        const auto q = static_cast<std::size_t>(same - quiet.goods.begin());
        for (std::size_t month = 0; month < ready.usual_landing[g].size() && month < count.landed[q].size(); ++month)
            ready.usual_landing[g][month] = count.days[q][month] > 0.0 ? count.landed[q][month] / count.days[q][month] : 0.0;
    }
}

}  // namespace seasonrisk
