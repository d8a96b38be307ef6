// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "seasonrisk/random/address.hpp"
#include "seasonrisk/season/prepared_plan.hpp"

/// \file
/// The costly steps of a history taken by themselves, as often as one batch takes them.
namespace seasonrisk::bench {

/// A block of draws, and which of its four rows the season turns into normals, one bit each: on rest days nobody
/// reads the boat's luck, and a draw by itself is one row.
struct BlockTaken {
    Address address{};
    unsigned normals = 0;
    bool ends_call = false;   ///< the rows wanted so far become normals in one call, as in the season
};

/// Every block of one batch, in order, as the season itself asks for it. Sizes of the rare events (a repair
/// bill, days lost, a claim), drawn for one history at a time, are not among them.
std::vector<BlockTaken> blocks_of_a_batch(const PreparedPlan& ready);

/// Exponentials of a batch in its day loop: one a species for each day on which the boat may go out, one for
/// each week's price. The few taken once a year or a month count with the rest.
int exponentials_of_a_batch(const PreparedPlan& ready);

/// Walk-up customers' mean and spread for each count that a batch takes, guesses at their typical value.
struct DemandTaken {
    double mean = 0.0;
    double sd = 0.0;
};
std::vector<DemandTaken> demands_of_a_batch(const PreparedPlan& ready, const std::vector<BlockTaken>& blocks);

/// Season days on which a boat may go out, added up over boats and years.
int boat_days(const PreparedPlan& ready);

/// Take them again and again for `batches` batches; the sum of all results, so that none can be left out.
/// `draws_alone` leaves the uniforms as they are.
using BlocksAlone = double (*)(const std::vector<BlockTaken>& blocks, std::uint64_t batches);
double draws_alone_baseline(const std::vector<BlockTaken>& blocks, std::uint64_t batches);
double draws_alone_avx2(const std::vector<BlockTaken>& blocks, std::uint64_t batches);
double draws_alone_avx512(const std::vector<BlockTaken>& blocks, std::uint64_t batches);
double normals_alone_baseline(const std::vector<BlockTaken>& blocks, std::uint64_t batches);
double normals_alone_avx2(const std::vector<BlockTaken>& blocks, std::uint64_t batches);
double normals_alone_avx512(const std::vector<BlockTaken>& blocks, std::uint64_t batches);

using ExpAlone = double (*)(int exponentials, std::uint64_t batches);
double exp_alone_baseline(int exponentials, std::uint64_t batches);
double exp_alone_avx2(int exponentials, std::uint64_t batches);
double exp_alone_avx512(int exponentials, std::uint64_t batches);

/// The same code for every instruction set.
double demand_alone(const std::vector<DemandTaken>& demands, std::uint64_t batches);

}  // namespace seasonrisk::bench
