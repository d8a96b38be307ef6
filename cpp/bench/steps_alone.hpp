// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "seasonrisk/random/address.hpp"
#include "seasonrisk/season/prepared_plan.hpp"

/// \file
/// The two costly steps of a season taken by themselves, as often as one batch takes them.
namespace seasonrisk::bench {

/// Every draw of one batch, in order, as the season itself asks for it. Sizes of the rare events (a repair
/// bill, days lost, a claim), drawn for one history at a time, are not among them.
std::vector<Address> draws_of_a_batch(const PreparedPlan& ready);

/// Exponentials of a batch in its day loop: one a species for each day on which the boat may go out, one for
/// each week's price. The few taken once a year or a month count with the rest.
int exponentials_of_a_batch(const PreparedPlan& ready);

/// Take them again and again for `batches` batches; the sum of all results, so that none can be left out.
using DrawAlone = double (*)(const std::vector<Address>& draws, std::uint64_t batches);
double draw_alone_baseline(const std::vector<Address>& draws, std::uint64_t batches);
double draw_alone_avx2(const std::vector<Address>& draws, std::uint64_t batches);
double draw_alone_avx512(const std::vector<Address>& draws, std::uint64_t batches);

using ExpAlone = double (*)(int exponentials, std::uint64_t batches);
double exp_alone_baseline(int exponentials, std::uint64_t batches);
double exp_alone_avx2(int exponentials, std::uint64_t batches);
double exp_alone_avx512(int exponentials, std::uint64_t batches);

}  // namespace seasonrisk::bench
