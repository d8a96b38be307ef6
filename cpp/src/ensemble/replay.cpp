// SPDX-License-Identifier: MIT
#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/season/simulate_batch.hpp"

namespace seasonrisk {
namespace {

/// Writes one history's day, every day, into a table.
class DiaryOfOneHistory : public DayWatcher {
public:
    DiaryOfOneHistory(const PreparedPlan& ready) : ready_(ready) {
        const auto column = [this](const char* unit, std::string name, std::string meaning) {
            table.columns.push_back({std::move(name), unit, std::move(meaning), true});
        };
        column("1 or 0", "out", "out with the gear");
        column("1 or 0", "weather_bad", "too bad to fish");
        column("pot-hauls", "hauls", "pots hauled");
        column("pots", "pots_in_water", "pots in the water at the day's end");
        column("money", "sales", "sold today");
        column("money", "fuel", "fuel burned today");
        column("money", "bait", "bait used today");
        column("money", "repairs", "repair bills of today, before claims");
        column("money", "pots_lost_cost", "pots lost today, at the cost of a new one");
        column("money", "crew_pay", "paid to the crew today");
        column("money", "cash", "in the account at the day's end");
        for (const auto& species : ready.plan.species) {
            column(species.unit.c_str(), "catch." + species.name, "landed today");
            column("money a unit", "price." + species.name, "price today");
        }
        table.values.resize(table.columns.size());
    }

    void end_of_day(const Day& day, int today, const Workspace& work) override {
        const bool tried = day.in_season && !day.rest_day && !day.day_off;
        const auto if_tried = [&](const Lanes& lanes) { return tried ? lanes[k_lane] : 0.0; };
        table.dates.push_back(day.date);
        table.why.push_back(why_of(day, today, work));
        std::size_t c = 0;
        const auto put = [&](double value) { table.values[c++].push_back(value); };
        put(if_tried(work.day.out));
        put(day.in_season ? work.weather.bad[k_lane] : 0.0);
        put(if_tried(work.gear.hauls_today));
        put(day.in_season ? work.gear.in_water[k_lane] : 0.0);
        put(if_tried(work.day.sales_today));
        put(if_tried(work.day.out) * work.rates.fuel_a_day_out[k_lane] + if_tried(work.gear.hauls_today) * work.rates.fuel_a_haul[k_lane]);
        put(if_tried(work.gear.hauls_today) * work.rates.bait_a_haul[k_lane]);
        put(since_yesterday(work.earned.repairs, repairs_));
        put(ready_.loses_gear ? since_yesterday(work.gear.lost, pots_lost_) * work.plan.boat[0].gear_loss->pot_cost[k_lane] : 0.0);
        put(since_yesterday(work.earned.crew_pay, crew_pay_));
        put(work.cash.balance[k_lane]);
        for (const SpeciesWork& species : work.species) {
            put(if_tried(species.fish.caught_today));
            put(day.in_season ? species.price_now[k_lane] : 0.0);
        }
    }

    DayTable table{};

private:
    static constexpr int k_lane = 0;  // the replayed history is the first of its batch

    static double since_yesterday(const Lanes& total, double& yesterday) {
        const double today = total[k_lane] - yesterday;
        yesterday = total[k_lane];
        return today;
    }

    std::string why_of(const Day& day, int today, const Workspace& work) const {
        if (!day.in_season) return "";
        if (day.rest_day) return "rest day";
        if (day.day_off) return "day off";
        // Only a day out can break down, so a day not out was either down already or kept in by weather.
        if (work.day.out[k_lane] == 0.0) return work.day.down_until[k_lane] >= today ? "broken down" : "weather";
        return ready_.sets_gear && work.day.hauling[k_lane] == 0.0 ? "setting" : "hauled";
    }

    const PreparedPlan& ready_;
    double repairs_ = 0.0, pots_lost_ = 0.0, crew_pay_ = 0.0;
};

}  // namespace

DayTable replay(const Plan& plan, std::uint64_t key, std::uint64_t history) {
    const PreparedPlan ready = prepare(plan);
    Workspace work(ready);
    DiaryOfOneHistory diary(ready);
    simulate_batch_watched(ready, work, {key, history}, diary);
    return std::move(diary.table);
}

}  // namespace seasonrisk
