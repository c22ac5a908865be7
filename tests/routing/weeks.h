// Invented weeks of calls, of any size: sites on a map, gates that shut over noon, calls that were promised for a time.
#pragma once

#include <cstdint>

#include "routing/problem.h"

namespace test {

using namespace service::routing;

struct WeekSize {
  int crews = 1;
  int days = 5;
  int visits = 20;
  bool short_calls = false;  // of 10 to 30 minutes, else of 40 minutes to more than three hours
};

Problem invented_week(const WeekSize& size, std::uint64_t seed);

}  // namespace test
