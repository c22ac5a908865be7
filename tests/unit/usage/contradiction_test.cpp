// Readings that cannot all be true, as a merge of two books may bring them: the higher usage holds and both are named.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/usage/known.h"

using service::Contradiction;
using service::FactId;
using service::MeterHistory;
using test::day;
using test::World;
using usage_test::bought;
using usage_test::history;
using usage_test::known;

TEST_CASE("a reading lower than the one before puts the meter in doubt and the higher usage holds") {
  World world = bought();
  world.reading("2024-01-01", "100");
  const FactId higher = world.reading("2024-01-05", "150").id;
  const FactId lower = world.reading("2024-01-10", "120").id;
  CHECK(known(world, "2024-01-10") == "150");
  const auto contradictions = history(world).contradictions();
  REQUIRE(contradictions.size() == 1);
  const Contradiction& contradiction = contradictions.front();
  CHECK(contradiction.day == day("2024-01-10"));
  CHECK(service::to_text(contradiction.said) == "120");
  CHECK(service::to_text(contradiction.held) == "150");
  REQUIRE(contradiction.later.has_value());
  REQUIRE(contradiction.earlier.has_value());
  CHECK(*contradiction.later == lower);
  CHECK(*contradiction.earlier == higher);
}

TEST_CASE("the contradiction is gone when either of the two is struck") {
  for (const bool strike_higher : {true, false}) {
    CAPTURE(strike_higher);
    World world = bought();
    world.reading("2024-01-01", "100");
    const FactId higher = world.reading("2024-01-05", "150").id;
    const FactId lower = world.reading("2024-01-10", "120").id;
    world.strike(strike_higher ? higher : lower);
    CHECK(history(world).contradictions().empty());
    CHECK(known(world, "2024-01-10") == (strike_higher ? "120" : "150"));
  }
}

TEST_CASE("a lower reading of the same day is a contradiction too") {
  World world = bought();
  const FactId higher = world.reading("2024-01-05", "150").id;
  const FactId lower = world.reading("2024-01-05", "120").id;
  CHECK(known(world, "2024-01-05") == "150");
  REQUIRE(history(world).contradictions().size() == 1);
  CHECK(*history(world).contradictions().front().later == lower);
  CHECK(*history(world).contradictions().front().earlier == higher);
}

TEST_CASE("a reading below the value at which the machine was bought contradicts no other fact") {
  World world = bought("bought: {on: 2024-01-01, at: 500}");
  const FactId lower = world.reading("2024-02-01", "400").id;
  CHECK(known(world, "2024-02-01") == "500");
  REQUIRE(history(world).contradictions().size() == 1);
  CHECK(*history(world).contradictions().front().later == lower);
  CHECK_FALSE(history(world).contradictions().front().earlier.has_value());
}

TEST_CASE("usage never falls, whatever the readings say") {
  World world = bought();
  for (const std::string_view value : {"100", "300", "120", "310", "90", "305", "400"}) {
    const auto next = day("2024-01-01") + std::chrono::days{10 * static_cast<int>(world.facts().size())};
    world.reading(service::to_text(next), value);
  }
  const MeterHistory meter = history(world);
  REQUIRE(meter.knots().size() >= 2);
  for (std::size_t i = 1; i < meter.knots().size(); ++i) {
    CHECK(meter.knots()[i - 1].day < meter.knots()[i].day);
    CHECK(meter.knots()[i - 1].usage <= meter.knots()[i].usage);
  }
  CHECK(meter.contradictions().size() == 3);  // 120 after 300, 90 and 305 after 310
  CHECK(known(world, "2024-03-01") == "400");
}

TEST_CASE("a contradiction that arose after the day asked about is not there yet") {
  World world = bought();
  world.reading("2024-01-05", "150");
  world.reading("2024-01-10", "120");
  CHECK(history(world, "2024-01-09").contradictions().empty());
  CHECK(history(world, "2024-01-10").contradictions().size() == 1);
}

TEST_CASE("two copies that each recorded the same roll-over on another day are in doubt") {
  // 9990 on 1 January; one copy has the roll-over and 5 on the 3rd, the other the same and 8 on the 4th. Together they
  // say 10005 on the 3rd and 20008 on the 4th: 10003 h in a day and a night.
  World world("  t: {do: T, every: {hours: 250}}\n", "bought: {on: 2020-01-01, at: 9000}");
  world.reading("2026-01-01", "9990");
  world.meter_change("2026-01-03", "10000", "0");
  world.reading("2026-01-03", "5");
  world.meter_change("2026-01-04", "10000", "0");
  world.reading("2026-01-04", "8");
  REQUIRE(history(world).contradictions().size() >= 1);
  CHECK(service::to_text(history(world).contradictions().front().day) == "2026-01-04");
  CHECK(test::told(world.point("2026-01-05", "t")).starts_with("no-record"));
}
