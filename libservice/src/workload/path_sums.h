// Sums over the sample paths of use, which are drawn of every machine.
#pragma once

#include <array>
#include <cstdint>

#include "service/workload.h"

namespace service::load {

inline constexpr std::size_t sample_paths = 200;

using PathSums = std::array<std::int64_t, sample_paths>;

// `unit`: what one of the result is worth in the sums.
Spread spread_of(const PathSums& sums, double unit);

}  // namespace service::load
