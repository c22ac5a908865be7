#include "workload/path_sums.h"

#include <algorithm>
#include <numeric>

namespace service::load {

Spread spread_of(const PathSums& sums, double unit) {
  PathSums sorted = sums;
  std::sort(sorted.begin(), sorted.end());
  // The smallest value that the share of sample paths does not exceed.
  const auto at = [&](std::size_t percent) {
    return static_cast<double>(sorted[(sample_paths * percent + 99) / 100 - 1]) / unit;
  };
  const auto sum = std::accumulate(sorted.begin(), sorted.end(), std::int64_t{0});
  return {static_cast<double>(sum) / unit / static_cast<double>(sample_paths), at(10), at(50), at(90)};
}

}  // namespace service::load
