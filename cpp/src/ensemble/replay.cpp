// SPDX-License-Identifier: MIT
#include <array>

#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/season/simulate_batch.hpp"

namespace seasonrisk {
namespace {

/// Writes one history's day, every day, into a table. With several boats each has columns of its own.
class DiaryOfOneHistory : public DayWatcher {
public:
    explicit DiaryOfOneHistory(const PreparedPlan& ready) : ready_(ready), before_(ready.boats()) {
        const auto column = [this](const std::string& unit, std::string name, std::string meaning) {
            table.columns.push_back({std::move(name), unit, std::move(meaning), true});
        };
        column("1 or 0", "weather_bad", "too bad to fish for the first boat");
        for (std::size_t b = 0; b < ready.boats(); ++b) {
            const std::string suffix = ready.boats() > 1 ? "." + ready.plan.boat[b].name : "";
            column("1 or 0", "out" + suffix, "out with the gear");
            column("pot-hauls", "hauls" + suffix, "pots hauled");
            column("pots", "pots_in_water" + suffix, "pots in the water at the day's end");
            column("money", "sales" + suffix, "sold today of this boat's catch");
            column("money", "fuel" + suffix, "fuel burned today");
            column("money", "bait" + suffix, "bait used today");
            for (const auto& species : ready.plan.species) column(species.unit, "catch." + species.name + suffix, "landed today");
        }
        column("money", "repairs", "repair bills of today, before claims");
        column("money", "pots_lost_cost", "pots lost today, at the cost of a new one");
        column("money", "crew_pay", "paid to the crew today");
        column("money", "cash", "in the account at the day's end");
        for (std::size_t o = 0; o < ready.plan.outlet.size(); ++o) {
            for (std::size_t g = 0; g < ready.goods.size(); ++g) {
                if (ready.price_place[o][g] < 0) continue;
                const std::string suffix = ready.plan.outlet.size() > 1 ? "." + ready.plan.outlet[o].name : "";
                column("money a " + ready.goods[g].unit, "price." + ready.goods[g].name + suffix, "price today");
            }
        }
        table.values.resize(table.columns.size());
    }

    void end_of_day(const Day& day, int, const Workspace& work) override {
        table.dates.push_back(day.date);
        std::size_t c = 0;
        const auto put = [&](double value) { table.values[c++].push_back(value); };
        put(day.in_season ? work.boat[0].weather.bad[k_lane] : 0.0);
        std::string why;
        double pots_lost_cost = 0.0;
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            const BoatWork& boat = work.boat[b];
            const std::string of_boat = why_of(day, boat.year, boat, before_[b]);
            if (!why.empty() && !of_boat.empty()) why.append("; ");
            if (work.boat.size() > 1 && !of_boat.empty()) why.append(ready_.plan.boat[b].name).append(1, ':').append(1, ' ');
            why.append(of_boat);
            const bool tried = boat.tried && work.told_today;
            const auto if_tried = [&](double value) { return tried ? value : 0.0; };
            double hauls = 0.0;
            double in_water = 0.0;
            double lost = 0.0;
            for (const FisheryWork& fishery : boat.fishery) {
                hauls += if_tried(fishery.gear.hauls_today[k_lane]);
                in_water += fishery.worked_before && fishery.prepared->pots ? fishery.gear.in_water[k_lane] : 0.0;
                lost += fishery.gear.lost[k_lane];
            }
            Yesterday& before = before_[b];
            const double bare = since(boat.year.hauls_without_bait[k_lane], before.bare);
            put(if_tried(boat.out[k_lane]));
            put(hauls);
            put(in_water);
            put(since(boat.year.sales[k_lane], before.sales));
            // With nothing but breakdowns and weather, days lost to weather are counted at the year's end only.
            const bool counts_weather = boat.prepared->more_causes && ready_.turns_back;
            const double turned_back = counts_weather ? since(boat.year.days_weather[k_lane], before.weather) * work.plan.weather.turned_back_fraction[k_lane] : 0.0;
            put((if_tried(boat.out[k_lane]) + turned_back) * boat.rates.fuel_a_day_out[k_lane] + hauls * boat.rates.fuel_a_haul[k_lane]);
            put((hauls - bare) * boat.rates.bait_a_haul[k_lane]);
            for (const BoatSpecies& species : boat.species) put(if_tried(species.caught_today[k_lane]));
            const auto& loss = work.plan.boat[b].gear_loss;
            pots_lost_cost += loss ? since(lost, before.lost) * loss->pot_cost[k_lane] : 0.0;
        }
        table.why.push_back(why);
        put(since(work.earned.repairs[k_lane], repairs_));
        put(pots_lost_cost);
        put(since(work.earned.crew_pay[k_lane], crew_pay_));
        put(work.cash.balance[k_lane]);
        for (std::size_t o = 0; o < work.outlet.size(); ++o) {
            for (std::size_t g = 0; g < ready_.goods.size(); ++g) {
                if (ready_.price_place[o][g] >= 0) put(day.in_season ? work.outlet[o].price_now[g][k_lane] : 0.0);
            }
        }
    }

    DayTable table{};

private:
    static constexpr int k_lane = 0;  // the replayed history is the first of its batch

    struct Yesterday {
        double sales = 0.0, lost = 0.0, bare = 0.0, lifted = 0.0, weather = 0.0;
        std::array<double, 8> counts{};
    };

    /// What a total of the year has grown by; a new year begins it again.
    static double since(double total, double& yesterday) {
        const double today = total < yesterday ? total : total - yesterday;
        yesterday = total;
        return today;
    }

    /// What held the boat back is the count that has grown; with breakdowns and weather alone the rest is weather.
    std::string why_of(const Day& day, const BoatYear& year, const BoatWork& boat, Yesterday& before) const {
        std::string cause = "weather";
        for (std::size_t n = 0; n < k_causes; ++n) {
            if (since((year.*k_counts[n])[k_lane], before.counts[n]) > 0.0) cause = k_words[n];
        }
        const bool lifted = since(year.days_gear_in[k_lane], before.lifted) > 0.0;
        if (lifted) return "gear in";
        if (!day.in_season) return "";
        if (day.rest_day) return "rest day";
        if (day.day_off) return "day off";
        if (boat.out[k_lane] == 0.0) return cause;
        for (const FisheryWork& fishery : boat.fishery) {
            if (fishery.hauling[k_lane] != 0.0) return "hauled";
        }
        return "setting";
    }

    static constexpr std::size_t k_causes = 8;
    static constexpr Lanes BoatYear::*k_counts[k_causes] = {&BoatYear::days_ashore, &BoatYear::days_laid_up, &BoatYear::days_broken_down,
                                                           &BoatYear::days_no_skipper, &BoatYear::days_no_crew, &BoatYear::days_limit,
                                                           &BoatYear::days_weather, &BoatYear::days_stayed_in};
    static constexpr const char* k_words[k_causes] = {"gear ashore", "laid up", "broken down", "no skipper", "no crew", "limit reached", "weather", "stayed in"};

    const PreparedPlan& ready_;
    std::vector<Yesterday> before_;
    double repairs_ = 0.0, crew_pay_ = 0.0;
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
