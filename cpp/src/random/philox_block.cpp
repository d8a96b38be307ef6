// SPDX-License-Identifier: MIT
#include "seasonrisk/random/philox_block.hpp"

#include <cstring>

#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/random/philox.hpp"

#if defined(__x86_64__)
#include <immintrin.h>
#endif

namespace seasonrisk {

/// One history after the other: for any machine, and for a batch whose histories do not share their high words.
static void draw_block_one_by_one(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {
    for (int i = 0; i < k_lanes; ++i) {
        const Words words = philox(counter_of(address, first_history + static_cast<std::uint64_t>(i)), key);
        for (int word = 0; word < 4; ++word) out[word * k_lanes + i] = to_uniform(words.w[word]);
    }
}

#if defined(__x86_64__)

namespace {

constexpr std::uint64_t k_low_half = 0xffffffffu;

/// The low word alone differs from history to history, and it takes two rounds to reach the other three: until
/// then half of each round is the same in all of them. This is that half, worked out once for a block.
struct SharedRounds {
    std::uint32_t key0[k_philox_rounds], key1[k_philox_rounds];
    std::uint64_t x0_after_1, x0_after_2, x1_after_2, x2_after_2;  ///< to be mixed with the history's own part

    SharedRounds(std::uint64_t key, const Words& start) {
        for (std::uint32_t round = 0; round < k_philox_rounds; ++round) {
            key0[round] = static_cast<std::uint32_t>(key) + round * k_philox_key_step[0];
            key1[round] = static_cast<std::uint32_t>(key >> 32) + round * k_philox_key_step[1];
        }
        const std::uint64_t p0 = std::uint64_t{k_philox_multiply[0]} * start.w[0];
        const std::uint64_t p1 = k_philox_multiply[1] * ((p0 >> 32) ^ start.w[3] ^ key1[0]);
        x0_after_1 = start.w[1] ^ key0[0];
        x0_after_2 = (p1 >> 32) ^ key0[1];
        x1_after_2 = p1 & k_low_half;
        x2_after_2 = (p0 & k_low_half) ^ key1[1];
    }
};

}  // namespace

// One body for three instruction sets. A template cannot take its target from an argument, so this is a macro. Every
// word rides in the low half of a 64-bit place; the product reads low halves only, so high halves may hold
// anything until the end. A word w below the exponent of 2^20 is the double 2^20 + w / 2^32.
#define SEASONRISK_DRAW_BLOCK(NAME, TARGET, BYTES, TOGETHER, INTRINSIC, PRODUCT)                              \
    TARGET void NAME(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {   \
        typedef std::uint64_t Whole __attribute__((vector_size(BYTES)));                                      \
        typedef double Real __attribute__((vector_size(BYTES)));                                              \
        constexpr int width = BYTES / 8;                                                                      \
        if ((first_history & k_low_half) + (k_lanes - 1) > k_low_half) {                                      \
            draw_block_one_by_one(out, key, address, first_history);                                          \
            return;                                                                                           \
        }                                                                                                     \
        SharedRounds shared(key, counter_of(address, first_history));                                         \
        asm("" : "+m"(shared)); /* read from memory, a word all places share costs no step of its own */      \
        const Whole multiply0 = Whole{} + k_philox_multiply[0];                                               \
        const Whole multiply1 = Whole{} + k_philox_multiply[1];                                               \
        Whole step{};                                                                                         \
        for (int i = 0; i < width; ++i) step[i] = static_cast<std::uint64_t>(i);                              \
        for (int lane = 0; lane < k_lanes; lane += width * TOGETHER) {                                        \
            Whole x0[TOGETHER], x1[TOGETHER], x2[TOGETHER], x3[TOGETHER];                                     \
            _Pragma("GCC unroll 8") for (int g = 0; g < TOGETHER; ++g) {                                      \
                const Whole history = step + (first_history + static_cast<std::uint64_t>(lane + g * width));  \
                const Whole p1 = reinterpret_cast<Whole>(                                                     \
                    PRODUCT(reinterpret_cast<INTRINSIC>(history), reinterpret_cast<INTRINSIC>(multiply1)));   \
                const Whole mixed = (p1 >> 32) ^ shared.x0_after_1;                                           \
                const Whole p0 = reinterpret_cast<Whole>(                                                     \
                    PRODUCT(reinterpret_cast<INTRINSIC>(mixed), reinterpret_cast<INTRINSIC>(multiply0)));     \
                x0[g] = p1 ^ shared.x0_after_2;                                                               \
                x1[g] = Whole{} + shared.x1_after_2;                                                          \
                x2[g] = (p0 >> 32) ^ shared.x2_after_2;                                                       \
                x3[g] = p0;                                                                                   \
            }                                                                                                 \
            _Pragma("GCC unroll 8") for (int round = 2; round < k_philox_rounds; ++round) {                   \
                _Pragma("GCC unroll 8") for (int g = 0; g < TOGETHER; ++g) {                                  \
                    const Whole p0 = reinterpret_cast<Whole>(                                                 \
                        PRODUCT(reinterpret_cast<INTRINSIC>(x0[g]), reinterpret_cast<INTRINSIC>(multiply0))); \
                    const Whole p1 = reinterpret_cast<Whole>(                                                 \
                        PRODUCT(reinterpret_cast<INTRINSIC>(x2[g]), reinterpret_cast<INTRINSIC>(multiply1))); \
                    x0[g] = (p1 >> 32) ^ x1[g] ^ std::uint64_t{shared.key0[round]};                           \
                    x2[g] = (p0 >> 32) ^ x3[g] ^ std::uint64_t{shared.key1[round]};                           \
                    x1[g] = p1;                                                                               \
                    x3[g] = p0;                                                                               \
                }                                                                                             \
            }                                                                                                 \
            _Pragma("GCC unroll 8") for (int g = 0; g < TOGETHER; ++g) {                                      \
                const Whole words[4] = {x0[g], x1[g], x2[g], x3[g]};                                          \
                _Pragma("GCC unroll 4") for (int word = 0; word < 4; ++word) {                                \
                    const Whole bits = (words[word] & k_low_half) | 0x4130000000000000u;                      \
                    const Real uniform = reinterpret_cast<Real>(bits) - (0x1p20 - 0x1p-33);                   \
                    std::memcpy(out + word * k_lanes + lane + g * width, &uniform, sizeof uniform);           \
                }                                                                                             \
            }                                                                                                 \
        }                                                                                                     \
    }

// g++ 12 warns about its own header's plain _mm512_mul_epu32 (uninitialised); a full mask is the same instruction.
[[gnu::always_inline, gnu::target("avx512f")]] static inline __m512i multiply_512(__m512i a, __m512i b) {
    return _mm512_maskz_mul_epu32(0xff, a, b);
}

SEASONRISK_DRAW_BLOCK(draw_block_baseline, , 16, 4, __m128i, _mm_mul_epu32)
SEASONRISK_DRAW_BLOCK(draw_block_avx2, [[gnu::target("avx2")]], 32, 8, __m256i, _mm256_mul_epu32)
SEASONRISK_DRAW_BLOCK(draw_block_avx512, [[gnu::target("avx512f")]], 64, 4, __m512i, multiply_512)
#undef SEASONRISK_DRAW_BLOCK

#else

void draw_block_baseline(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {
    draw_block_one_by_one(out, key, address, first_history);
}
void draw_block_avx2(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {
    draw_block_baseline(out, key, address, first_history);
}
void draw_block_avx512(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {
    draw_block_baseline(out, key, address, first_history);
}

#endif

}  // namespace seasonrisk
