// The day on which a part is needed, where another service includes the next one of a point.
#include <doctest/doctest.h>

#include "service/workload.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::World;

TEST_CASE("a part is needed on the day of the first service that no other one includes") {
  World world(
      "  small: {do: Small, every: {hours: 100}, parts: {filter: 1}}\n"
      "  big: {do: Big, every: {hours: 200}, covers: [small]}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  world.done("big", "2025-11-12", "630");
  world.done("small", "2026-01-01", "730");
  // At 2 h a day both come due on 20 February, when the big one serves; the small one is on its own on 11 April, and at
  // 1030 h on 31 May the big one includes it again.
  const auto list = parts_list(world.snapshot("2026-01-01"), day("2026-06-30"), straight_line());
  REQUIRE(list.needs.size() == 1);
  REQUIRE(list.needs[0].uses.size() == 1);
  CHECK(test::text_or_none(list.needs[0].uses[0].due.p50) == "2026-04-11");
  CHECK(test::text_or_none(list.needs[0].short_on) == "2026-04-11");
}
