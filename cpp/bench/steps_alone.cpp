// SPDX-License-Identifier: MIT
#include "steps_alone.hpp"

#include <algorithm>
#include <bit>
#include <map>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/market.hpp"
#include "seasonrisk/season/simulate_batch.hpp"

namespace seasonrisk::bench {
namespace {

std::vector<BlockTaken>* noted = nullptr;  // a DrawBlock is a plain function, so what it notes stands here

void note_and_draw(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {
    noted->push_back({address});
    draw_block_baseline(out, key, address, first_history);
}

struct LooksAway : DayWatcher {
    void end_of_day(const Day&, int, const Workspace&) override {}
};

bool is_guess(const Address& address) { return address.family == static_cast<std::uint32_t>(Family::guess); }
Purpose purpose_of(const Address& address) { return static_cast<Purpose>(address.word1 >> 24); }
bool is_daily(const Address& address) {
    return !is_guess(address) && (purpose_of(address) == Purpose::ground_day || purpose_of(address) == Purpose::boat_day);
}

/// Rows of a block that become normals; `days_out` has the days of each group of four on which a boat may go out.
unsigned normal_rows(const Address& address, const std::map<std::uint32_t, unsigned>& days_out) {
    constexpr unsigned first_row = 1u;
    constexpr unsigned all_rows = 15u;
    if (is_guess(address)) return first_row;
    switch (purpose_of(address)) {
        case Purpose::ground_day: return all_rows;
        case Purpose::boat_day: return days_out.at(address.word0);
        case Purpose::year_weather: case Purpose::year_catch_common: case Purpose::year_catch_species: case Purpose::year_price_common:
        case Purpose::year_price_species: case Purpose::year_fuel: case Purpose::year_bait: case Purpose::year_grade:
        case Purpose::price_week: case Purpose::gear_loss_month: return first_row;
        default: return 0;
    }
}

bool is_yearly(const Address& address) {
    if (is_guess(address)) return false;
    switch (purpose_of(address)) {
        case Purpose::year_weather: case Purpose::year_catch_common: case Purpose::year_price_common: case Purpose::year_fuel:
        case Purpose::year_bait: case Purpose::year_catch_species: case Purpose::year_price_species: return true;
        default: return false;
    }
}

/// The daily draws of a group of four days go through in one call; so do guesses, what every year draws, and the weeks
/// until the season's last.
bool in_one_call(const Address& a, const Address& b) {
    if (is_daily(a) && is_daily(b)) return a.word0 == b.word0;
    if (is_guess(a) || is_guess(b)) return is_guess(a) && is_guess(b);
    if (is_yearly(a) && is_yearly(b)) return a.word0 == b.word0;
    return purpose_of(a) == Purpose::price_week && purpose_of(b) == Purpose::price_week;
}

/// A uniform that is not wanted as a normal gives way to the next block, and so do the unread words of a single draw.
template <bool normals>
double blocks_alone(DrawBlock draw, OnRows to_normals, const std::vector<BlockTaken>& blocks, std::uint64_t batches) {
    constexpr int words = static_cast<int>(k_days_in_block);
    alignas(64) double waiting[(k_most_rows + 1) * words * k_lanes];
    double* wanted[k_most_rows + words];
    double sum = 0.0;
    for (std::uint64_t batch = 0; batch < batches; ++batch) {
        double* next = waiting;
        int rows = 0;
        for (const BlockTaken& block : blocks) {
            draw(next, 7, block.address, batch * k_lanes);
            sum += next[0];
            if (!normals || block.normals == 0) continue;
            for (int word = 0; word < words; ++word) {
                if ((block.normals >> word & 1u) != 0) wanted[rows++] = next + word * k_lanes;
            }
            next += (block.normals > 1u ? words : 1) * k_lanes;
            if (!block.ends_call) continue;
            to_normals(wanted, rows);
            sum += wanted[0][0];
            next = waiting;
            rows = 0;
        }
    }
    return sum;
}

/// As the day takes them: a few rows in a call.
double exp_alone(OnRows to_exp, int exponentials, std::uint64_t batches) {
    constexpr int at_once = 2;
    Lanes luck[at_once];
    double* rows[at_once] = {luck[0].v, luck[1].v};
    double sum = 0.0;
    for (std::uint64_t batch = 0; batch < batches; ++batch) {
        for (int taken = 0; taken < exponentials; taken += at_once) {
            for (Lanes& row : luck) {
                for (int i = 0; i < k_lanes; ++i) row[i] = 0.02 * i - 0.3;
            }
            to_exp(rows, std::min(at_once, exponentials - taken));
            sum += luck[0][0];
        }
    }
    return sum;
}

}  // namespace

std::vector<BlockTaken> blocks_of_a_batch(const PreparedPlan& ready) {
    std::vector<BlockTaken> blocks;
    noted = &blocks;
    Workspace work(ready);
    LooksAway nobody;
    simulate_batch_watched(ready, work, {7, 0, note_and_draw}, nobody);
    noted = nullptr;

    std::map<std::uint32_t, unsigned> days_out;
    for (const bool in_season : {true, false}) {  // a group at an end of the season is drawn for its season days
        for (const Calendar& year : ready.years) {
            for (const Day& day : year.days) {
                if (day.in_season == in_season) days_out.emplace(on_day(group_of(day.slot), Purpose::boat_day).word0, day.boat_days);
            }
        }
    }
    BlockTaken* last = nullptr;  // the last block of the call that is being filled
    int rows = 0;
    for (BlockTaken& block : blocks) {
        block.normals = normal_rows(block.address, days_out);
        if (block.normals == 0) continue;
        const int more = std::popcount(block.normals);
        if (last != nullptr && (!in_one_call(last->address, block.address) || rows + more > k_most_rows)) {
            last->ends_call = true;
            rows = 0;
        }
        rows += more;
        last = &block;
    }
    if (last != nullptr) last->ends_call = true;
    return blocks;
}

int exponentials_of_a_batch(const PreparedPlan& ready) {
    // One for each boat and species with luck of the day, on each day it may be out; one for each weekly price.
    int a_day_out = 0;
    for (const PreparedBoat& boat : ready.boat) {
        for (const std::size_t k : boat.fishery[0].species) a_day_out += ready.ground_moves[k] || ready.boat_moves[k] ? 1 : 0;
    }
    int count = 0;
    for (const Calendar& year : ready.years) {
        for (const Day& day : year.days) {
            if (!day.in_season) continue;
            if (!day.nobody_goes()) count += a_day_out;
            for (const bool moves : ready.price_moves_weekly) count += day.monday && moves ? 1 : 0;
        }
    }
    return count;
}

std::vector<DemandTaken> demands_of_a_batch(const PreparedPlan& ready, const std::vector<BlockTaken>& blocks) {
    std::vector<DemandTaken> demands;
    for (const BlockTaken& block : blocks) {
        if (is_guess(block.address) || purpose_of(block.address) != Purpose::demand) continue;
        const Outlet<Number>& outlet = ready.plan.outlet[block.address.word1 >> 8 & 255u];
        const std::uint32_t place = block.address.word1 & 255u;
        const auto& demand = outlet.demand_per_open_day;
        const Number& mean = place == 0 ? *demand.total : demand.each[place - 1].second;
        demands.push_back({mean.typical, outlet.demand_sd ? outlet.demand_sd->typical : 0.0});
    }
    return demands;
}

int boat_days(const PreparedPlan& ready) {
    int count = 0;
    for (const PreparedBoat& boat : ready.boat) {
        for (std::size_t y = 0; y < ready.years.size(); ++y) {
            for (const Day& day : ready.years[y].days) {
                const auto worked = [&](const PreparedFishery& fishery) { return fishery.from[y] <= day.date && day.date <= fishery.to[y]; };
                count += day.in_season && !day.nobody_goes() && std::ranges::any_of(boat.fishery, worked) ? 1 : 0;
            }
        }
    }
    return count;
}

double demand_alone(const std::vector<DemandTaken>& demands, std::uint64_t batches) {
    double sum = 0.0;
    for (std::uint64_t batch = 0; batch < batches; ++batch) {
        for (const DemandTaken& demand : demands) {
            for (int i = 0; i < k_lanes; ++i) sum += demand_count(demand.mean, demand.sd, (i + 0.5) / k_lanes);
        }
    }
    return sum;
}

double draws_alone_baseline(const std::vector<BlockTaken>& blocks, std::uint64_t batches) { return blocks_alone<false>(draw_block_baseline, normal_rows_baseline, blocks, batches); }
double normals_alone_baseline(const std::vector<BlockTaken>& blocks, std::uint64_t batches) { return blocks_alone<true>(draw_block_baseline, normal_rows_baseline, blocks, batches); }
double draws_alone_avx2(const std::vector<BlockTaken>& blocks, std::uint64_t batches) { return blocks_alone<false>(draw_block_avx2, normal_rows_avx2, blocks, batches); }
double normals_alone_avx2(const std::vector<BlockTaken>& blocks, std::uint64_t batches) { return blocks_alone<true>(draw_block_avx2, normal_rows_avx2, blocks, batches); }
double draws_alone_avx512(const std::vector<BlockTaken>& blocks, std::uint64_t batches) { return blocks_alone<false>(draw_block_avx512, normal_rows_avx512, blocks, batches); }
double normals_alone_avx512(const std::vector<BlockTaken>& blocks, std::uint64_t batches) { return blocks_alone<true>(draw_block_avx512, normal_rows_avx512, blocks, batches); }

double exp_alone_baseline(int exponentials, std::uint64_t batches) { return exp_alone(exp_rows_baseline, exponentials, batches); }
double exp_alone_avx2(int exponentials, std::uint64_t batches) { return exp_alone(exp_rows_avx2, exponentials, batches); }
double exp_alone_avx512(int exponentials, std::uint64_t batches) { return exp_alone(exp_rows_avx512, exponentials, batches); }

}  // namespace seasonrisk::bench
