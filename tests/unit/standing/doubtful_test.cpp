// Which points rest on a reading that is hard to believe; what bars are drawn of, known and by estimate.
#include <doctest/doctest.h>

#include "support/world.h"

using namespace service;
using test::World;

namespace {

const std::string tasks =
    "  oil: {do: Oil, every: {hours: 5000, months: 24}}\n"
    "  belt: {do: Belt, every: {months: 24}}\n";

World with_a_slip() {
  World world(tasks, "in-service: {on: 2025-01-01, at: 0}");
  world.reading("2026-01-01", "730");
  world.reading("2026-01-03", "790");  // 20 h a day
  return world;
}

}  // namespace

TEST_CASE("what counts by a meter whose newest value is hard to believe says so, and nothing else does") {
  World world = with_a_slip();
  CHECK(world.point("2026-01-10", "oil").doubtful);
  CHECK_FALSE(world.point("2026-01-10", "belt").doubtful);
  CHECK_FALSE(world.point("2026-01-02", "oil").doubtful);  // before it
  CHECK(rest_on_doubt(world.due("2026-01-10").gaps));
  CHECK_FALSE(rest_on_doubt(world.due("2026-01-02").gaps));
  World sure = world;
  sure.reading("2026-01-03", "790").sure = true;
  CHECK_FALSE(sure.point("2026-01-10", "oil").doubtful);
  // A service after it takes its usage from it.
  world.done("oil", "2026-01-05");
  CHECK(world.point("2026-01-10", "oil").doubtful);
  world.reading("2026-01-20", "820");  // above it, and not doubtful itself
  CHECK_FALSE(world.point("2026-01-20", "oil").doubtful);
}

TEST_CASE("readings that contradict each other put in doubt what was fitted before them") {
  World world(tasks, "in-service: {on: 2025-01-01, at: 0}");
  world.reading("2026-01-01", "730");
  world.reading("2026-01-20", "600");  // as a merge can bring them together
  CHECK(world.point("2026-02-01", "oil").doubtful);
  world.done("oil", "2026-01-25");
  CHECK_FALSE(world.point("2026-02-01", "oil").doubtful);
}

TEST_CASE("the share of an interval that is used is told as it is known, and beside it by today's estimate") {
  World world("  oil: {do: Oil, every: {hours: 100}}\n", "in-service: {on: 2025-01-01, at: 0}");
  world.reading("2026-01-01", "730");
  world.done("oil", "2026-01-01", "730");
  world.reading("2026-02-01", "792");
  const auto of = [&](const char* as_of) { return world.point(as_of, "oil").limbs.front(); };
  CHECK(share_used(of("2026-02-01"), test::day("2026-02-01")).value_or(0) == doctest::Approx(0.62));
  CHECK_FALSE(share_estimated(of("2026-02-01")).has_value());
  // Due by estimate: what is known is not drawn as if it had come to the end.
  const LimbStanding later = of("2026-03-01");
  CHECK(later.by_estimate);
  CHECK(share_used(later, test::day("2026-03-01")).value_or(0) == doctest::Approx(0.62));
  CHECK(share_estimated(later).value_or(0) > 1);
}
