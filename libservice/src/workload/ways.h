// The ways in which use may go on, drawn once each for every machine, and sums over them.
#pragma once

#include <array>
#include <cstdint>

#include "service/workload.h"

namespace service::load {

inline constexpr std::size_t ways = 200;

using Ways = std::array<std::int64_t, ways>;

// `unit`: what one of the result is worth in the sums.
Spread spread_of(const Ways& sums, double unit);

}  // namespace service::load
