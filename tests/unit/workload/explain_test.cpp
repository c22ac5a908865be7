// A standing taken apart, where the question is about several machines.
#include "service/explain.h"

#include <doctest/doctest.h>

#include "support/world.h"

using namespace service;
using test::World;

TEST_CASE("each machine is explained by its own meters and its own seasons' odds") {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\n"
      "seasons: {harvest: {from: 08-01, to: 09-20}}\n"
      "machines:\n"
      "  a: {schedule: lift, in-service: {on: 2025-01-01, at: 0}}\n"
      "  b: {schedule: pump, in-service: {on: 2025-01-01, at: 0}}\n";
  files.texts["schedules/lift.yaml"] =
      "schedule: lift\nmeters: {mast: {unit: h}}\ntasks:\n  oil: {do: Oil, every: {hours: 800}}\n";
  files.texts["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {shaft: {unit: h}}\ntasks:\n  oil: {do: Oil, every: {hours: 2000}}\n";
  World world(files);
  for (const char* machine : {"a", "b"}) world.reading("2026-01-01", "730").machine = machine;
  const auto answer = explain(world.snapshot("2026-01-10"), "oil", "", straight_line());
  REQUIRE(answer.points.size() == 2);
  for (const Explanation& point : answer.points) {
    const bool lift = point.point.machine->key == "a";
    REQUIRE(point.use.size() == 1);
    CHECK(point.use[0].meter == (lift ? "mast" : "shaft"));
    REQUIRE(point.seasons.size() == 1);
    CHECK(point.seasons[0].odds.value == (lift ? 1 : 0));
  }
}

TEST_CASE(
    "the odds of a season come with what they rest on: use by its end, and past seasons by the readings around them") {
  World world("  oil: {do: Oil, every: {hours: 100}}\n", "in-service: {on: 2023-01-01, at: 0}",
              "seasons: {harvest: {from: 08-01, to: 09-20}}\n");
  world.reading("2023-07-10", "10");
  world.reading("2023-09-25", "90");  // 27 days beside the season
  world.reading("2024-05-01", "95");
  world.reading("2024-10-01", "180");  // 92 days before it
  world.reading("2025-08-01", "200");
  world.reading("2025-09-20", "275");  // none
  world.done("oil", "2025-10-01", "275");
  world.reading("2026-06-01", "280");
  const auto answer = explain(world.snapshot("2026-06-01"), "oil", "", straight_line());
  REQUIRE(answer.points.size() == 1);
  REQUIRE(answer.points[0].seasons.size() == 1);
  REQUIRE(answer.points[0].seasons[0].use.size() == 1);
  const SeasonUse& use = answer.points[0].seasons[0].use[0];
  CHECK(use.due_at == test::amount("375"));
  CHECK(use.at_end.day == test::day("2026-09-20"));
  CHECK(use.at_end.p50 > test::amount("280"));
  REQUIRE(use.past.size() == 2);
  CHECK(use.past[0].year == 2023);
  CHECK(use.past[0].use == test::amount("80"));
  CHECK(use.past[1].year == 2025);
  CHECK(use.past[1].use == test::amount("75"));
}
