// SPDX-License-Identifier: MIT
#include "steps_alone.hpp"

#include <algorithm>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/simulate_batch.hpp"

namespace seasonrisk::bench {
namespace {

constexpr int k_block = static_cast<int>(k_days_in_block) * k_lanes;

std::vector<Address>* noted = nullptr;  // a DrawBlock is a plain function, so what it notes stands here

void note_and_draw(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {
    noted->push_back(address);
    draw_block_baseline(out, key, address, first_history);
}

struct LooksAway : DayWatcher {
    void end_of_day(const Day&, int, const Workspace&) override {}
};

enum class Becomes { four_normals, one_normal, uniforms };

Becomes becomes(const Address& address) {
    if (address.family == static_cast<std::uint32_t>(Family::guess)) return Becomes::one_normal;
    switch (static_cast<Purpose>(address.word1 >> 24)) {
        case Purpose::ground_day: case Purpose::boat_day: return Becomes::four_normals;
        case Purpose::weather_day: case Purpose::breakdown_happens: case Purpose::total_loss: return Becomes::uniforms;
        default: return Becomes::one_normal;
    }
}

/// As the season does it: the normals of four days in one call, when their day group is complete.
SEASONRISK_STEP double draw_alone(DrawBlock draw, const std::vector<Address>& draws, std::uint64_t batches) {
    alignas(64) double waiting[k_most_quantiles + k_block];
    double sum = 0.0;
    for (std::uint64_t batch = 0; batch < batches; ++batch) {
        int filled = 0;
        std::uint32_t slot = 0;
        for (const Address& address : draws) {
            if (filled > 0 && (address.word0 != slot || filled == k_most_quantiles)) {
                normal_quantile_many(waiting, filled);
                sum += waiting[0];
                filled = 0;
            }
            slot = address.word0;
            draw(waiting + filled, 7, address, batch * k_lanes);
            sum += waiting[filled];
            const Becomes kind = becomes(address);
            if (kind == Becomes::four_normals) filled += k_block;
            if (kind == Becomes::one_normal) normal_quantile_many(waiting + filled, k_lanes);
        }
        normal_quantile_many(waiting, filled);
        sum += waiting[0];
    }
    return sum;
}

SEASONRISK_STEP double exp_alone(int exponentials, std::uint64_t batches) {
    Lanes luck;
    Lanes sum(0.0);
    for (int i = 0; i < k_lanes; ++i) luck[i] = 0.02 * i - 0.3;
    for (std::uint64_t batch = 0; batch < batches; ++batch) {
        for (int times = 0; times < exponentials; ++times) {
            for (int i = 0; i < k_lanes; ++i) {
                sum[i] += exp(luck[i]);
                luck[i] = -luck[i];  // so that no exponential can be taken once for all
            }
        }
    }
    double total = 0.0;
    for (int i = 0; i < k_lanes; ++i) total += sum[i];
    return total;
}

}  // namespace

std::vector<Address> draws_of_a_batch(const PreparedPlan& ready) {
    std::vector<Address> draws;
    noted = &draws;
    Workspace work(ready);
    LooksAway nobody;
    simulate_batch_watched(ready, work, {7, 0, note_and_draw}, nobody);
    noted = nullptr;
    return draws;
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

[[gnu::flatten]] double draw_alone_baseline(const std::vector<Address>& draws, std::uint64_t batches) { return draw_alone(draw_block_baseline, draws, batches); }
[[gnu::flatten]] double exp_alone_baseline(int exponentials, std::uint64_t batches) { return exp_alone(exponentials, batches); }

#if defined(__x86_64__)
[[gnu::flatten, gnu::target("avx2")]] double draw_alone_avx2(const std::vector<Address>& draws, std::uint64_t batches) { return draw_alone(draw_block_avx2, draws, batches); }
[[gnu::flatten, gnu::target("avx512f,avx512dq,avx512bw,avx512vl")]] double draw_alone_avx512(const std::vector<Address>& draws, std::uint64_t batches) { return draw_alone(draw_block_avx512, draws, batches); }
[[gnu::flatten, gnu::target("avx2")]] double exp_alone_avx2(int exponentials, std::uint64_t batches) { return exp_alone(exponentials, batches); }
[[gnu::flatten, gnu::target("avx512f,avx512dq,avx512bw,avx512vl")]] double exp_alone_avx512(int exponentials, std::uint64_t batches) { return exp_alone(exponentials, batches); }
#else
double draw_alone_avx2(const std::vector<Address>& draws, std::uint64_t batches) { return draw_alone_baseline(draws, batches); }
double draw_alone_avx512(const std::vector<Address>& draws, std::uint64_t batches) { return draw_alone_baseline(draws, batches); }
double exp_alone_avx2(int exponentials, std::uint64_t batches) { return exp_alone_baseline(exponentials, batches); }
double exp_alone_avx512(int exponentials, std::uint64_t batches) { return exp_alone_baseline(exponentials, batches); }
#endif

}  // namespace seasonrisk::bench
