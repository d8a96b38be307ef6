// SPDX-License-Identifier: MIT
#include "seasonrisk/random/draws.hpp"

#include <array>
#include <bit>
#include <chrono>
#include <set>
#include <vector>

#include "catch.hpp"

using namespace seasonrisk;

// Source throughout: the layout stated in address.hpp.
namespace {

constexpr std::uint64_t k_key = 2027;

std::array<std::uint32_t, 4> counter(const Address& address, std::uint64_t history) {
    return std::to_array(counter_of(address, history).w);
}

}  // namespace

TEST_CASE("a word becomes the midpoint of its interval, never 0 or 1", "[random]") {
    REQUIRE(to_uniform(0) == 0x1p-33);
    REQUIRE(to_uniform(0x80000000u) == 0.5 + 0x1p-33);
    REQUIRE(to_uniform(0xffffffffu) == 1.0 - 0x1p-33);
}

TEST_CASE("every part of an address can be read back from its counter", "[random]") {
    const std::chrono::sys_days date{std::chrono::year{2028} / 12 / 31};  // a leap year's day 365, counted from 0
    Address address = on_day(day_slot(date), Purpose::repair_size, {3, 200, 17});
    address.family = static_cast<std::uint32_t>(Family::guess);
    address.inner = 4095;

    const auto word = counter(address, 0x0000'abcd'1234'5678u);

    REQUIRE(word[0] >> 24 == (2028u & 255u));
    REQUIRE((word[0] >> 15 & 511u) == 365u);
    REQUIRE((word[0] & 0x7fffu) == 0u);
    REQUIRE(word[1] >> 24 == static_cast<std::uint32_t>(Purpose::repair_size));
    REQUIRE((word[1] >> 16 & 255u) == 3u);
    REQUIRE((word[1] >> 8 & 255u) == 200u);
    REQUIRE((word[1] & 255u) == 17u);
    REQUIRE(word[2] == 0x12345678u);
    REQUIRE(word[3] >> 16 == 0xabcdu);
    REQUIRE((word[3] >> 12 & 15u) == 1u);
    REQUIRE((word[3] & 4095u) == 4095u);
}

TEST_CASE("no two draws share a counter", "[random]") {
    using std::chrono::days;
    std::set<std::array<std::uint32_t, 4>> seen;
    std::size_t asked = 0;
    const auto add = [&](const Address& address) {
        for (const std::uint64_t history : {std::uint64_t{0}, std::uint64_t{5}, (std::uint64_t{1} << 32) + 5}) {
            seen.insert(counter(address, history));
            ++asked;
        }
    };
    const Purpose daily[] = {Purpose::weather_day,       Purpose::ground_day,  Purpose::boat_day,
                             Purpose::breakdown_happens, Purpose::repair_size, Purpose::days_lost_size,
                             Purpose::claim_accepted};
    const std::chrono::sys_days start{std::chrono::year{2027} / 1 / 1};

    for (int day = 0; day < 3 * 365; ++day) {
        const DaySlot slot = day_slot(start + days{day});
        for (const Purpose purpose : daily) {
            for (std::uint32_t boat = 0; boat < 2; ++boat) {
                for (std::uint32_t item = 0; item < 3; ++item) add(on_day(slot, purpose, {boat, item, 0}));
            }
        }
    }
    for (int year = 2027; year < 2030; ++year) {
        for (const Purpose purpose : {Purpose::year_weather, Purpose::year_catch_species, Purpose::total_loss}) {
            for (std::uint32_t item = 0; item < 3; ++item) add(in_year(year, purpose, {0, item, 0}));
        }
    }
    // A guess's hash may be any word, that of a weather day's purpose too: the family keeps them apart.
    add(of_guess(pack_purpose(Purpose::weather_day, {})));
    add(of_guess(0x811c9dc5u));

    REQUIRE(seen.size() == asked);
}

TEST_CASE("a day's word is its place in its group of four, wherever the season starts", "[random]") {
    const std::chrono::sys_days new_year{std::chrono::year{2027} / 1 / 1};
    std::set<std::pair<std::uint32_t, std::uint32_t>> places;
    for (int day = 0; day < 365; ++day) {
        const DaySlot slot = day_slot(new_year + std::chrono::days{day});
        REQUIRE(group_of(slot).day_of_year + word_of(slot) == static_cast<std::uint32_t>(day));
        REQUIRE(word_of(slot) < k_days_in_block);
        places.insert({group_of(slot).day_of_year, word_of(slot)});
    }
    REQUIRE(places.size() == 365);
}

TEST_CASE("histories beyond 2^32, other seeds, other families meet other draws", "[random]") {
    const Address day = on_day({235, 152}, Purpose::weather_day);
    Address guess = day;
    guess.family = static_cast<std::uint32_t>(Family::guess);
    Address inner = day;
    inner.inner = 1;
    const double here = uniform_at(k_key, day, 5);

    REQUIRE(uniform_at(k_key, day, 5) == here);
    REQUIRE(uniform_at(k_key, day, (std::uint64_t{1} << 32) + 5) != here);
    REQUIRE(uniform_at(k_key + (std::uint64_t{1} << 32), day, 5) != here);
    REQUIRE(uniform_at(k_key, guess, 5) != here);
    REQUIRE(uniform_at(k_key, inner, 5) != here);
    REQUIRE(uniform_at(k_key, day, 5, 1) != here);
}

TEST_CASE("a batch of uniforms and of normals has the bits of single draws", "[random]") {
    const Address address = in_year(2027, Purpose::year_fuel);
    for (const std::uint64_t first : {std::uint64_t{0}, std::uint64_t{7}, (std::uint64_t{1} << 32) - 3}) {
        CAPTURE(first);
        const Lanes uniforms = uniforms_at(draw_block_baseline, k_key, address, first);
        const Lanes normals = normals_at(draw_block_baseline, normal_rows_baseline, k_key, address, first);

        for (int i = 0; i < k_lanes; ++i) {
            const std::uint64_t history = first + static_cast<std::uint64_t>(i);
            REQUIRE(uniforms[i] == uniform_at(k_key, address, history));
            REQUIRE(normals[i] == normal_at(k_key, address, history));
        }
    }
}

TEST_CASE("each instruction set's normals have the bits of one quantile after the other", "[random]") {
    // An identity: no outside source. From one row to the most, apart from each other; row 3 is all tails.
    struct Path {
        const char* name;
        OnRows to_normals;
    };
    std::vector<Path> paths = {{"baseline", normal_rows_baseline}};
#if defined(__x86_64__)
    if (__builtin_cpu_supports("avx2")) paths.push_back({"avx2", normal_rows_avx2});
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512bw") && __builtin_cpu_supports("avx512vl"))
        paths.push_back({"avx512", normal_rows_avx512});
#endif
    for (const auto& [name, to_normals] : paths) {
        for (int n = 1; n <= k_most_rows; ++n) {
            CAPTURE(name, n);
            std::vector<Lanes> values(2 * k_most_rows);
            std::vector<double*> rows;
            for (int row = 0; row < n; ++row) {
                Lanes& value = values[static_cast<std::size_t>(2 * row)];
                value = uniforms_at(draw_block_baseline, k_key, in_year(n, Purpose::year_fuel, {0, static_cast<std::uint32_t>(row)}), 0);
                for (int i = 0; row == 3 && i < k_lanes; ++i) value[i] = i % 2 == 0 ? 0.05 * value[i] : 1.0 - 0.05 * value[i];
                rows.push_back(value.v);
            }
            const std::vector<Lanes> before = values;
            to_normals(rows.data(), n);

            int different = 0;
            for (int row = 0; row < n; ++row) {
                const auto at = static_cast<std::size_t>(2 * row);
                for (int i = 0; i < k_lanes; ++i)
                    different += std::bit_cast<std::uint64_t>(values[at][i]) != std::bit_cast<std::uint64_t>(normal_quantile(before[at][i]));
            }
            REQUIRE(different == 0);
        }
    }
}
