// Odds of a point that counts changes.
#include <doctest/doctest.h>

#include "service/due_list.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::World;

TEST_CASE("a change that a calendar names is certain from its day on") {
  World world("  oil: {do: Oil, every: {months: 6}}\n  seal: {do: Seal, every: {changes: {oil: 1}}}\n",
              "in-service: {on: 2026-01-01, at: 0}");
  const auto snapshot = world.snapshot("2026-02-01");
  const auto odds_by = [&](const char* asked) {
    const auto list = due_list(snapshot, {day("2026-03-01"), day(asked)}, straight_line());
    for (const Point& point : list.points) {
      if (point.name == "seal") return point.odds.value_or(Probability{-1}).value;
    }
    return -1.0;
  };
  CHECK(odds_by("2026-06-30") == 0);
  CHECK(odds_by("2026-07-01") == 1);
}
