// A profile summed up day by day, as far as it is asked, against each day taken apart.
#include <doctest/doctest.h>

#include <vector>

#include "support/world.h"
#include "usage/bins.h"

using namespace service;
using test::day;

TEST_CASE("running sums of a profile are those of its days") {
  usage::Profile profile;
  for (int b = 0; b < usage::bin_count; ++b) profile[static_cast<std::size_t>(b)] = 0.1 + (b * 37 % 73) / 50.0;
  // Over two leap days, begun beside one, on one, in the middle of a bin and at the end of a year.
  for (const char* first : {"2023-12-29", "2024-02-28", "2024-02-29", "2024-03-01", "2025-06-13", "2027-12-31"}) {
    CAPTURE(first);
    const Day from = day(first);
    constexpr int days = 1700;
    std::vector<double> ends{0};  // by the end of each day
    for (int i = 0; i < days; ++i) {
      const int bin = usage::bin_of(from + std::chrono::days{i});
      ends.push_back(ends.back() + profile[static_cast<std::size_t>(bin)]);
    }
    for (const int step : {1, 3, 64, 65, 400}) {
      const usage::RunningExposure exposure(profile, from, from + std::chrono::days{days - 1});
      for (int i = 0; i < days; i += step) {
        const auto k = static_cast<std::size_t>(i);
        const Day on = from + std::chrono::days{i};
        CHECK(exposure.to_end(from, on) == ends[k + 1] - (ends[1] + ends[0]) / 2);
        CHECK(exposure.between(from, on) == (ends[k + 1] + ends[k] - ends[1] - ends[0]) / 2);
      }
    }
  }
}
