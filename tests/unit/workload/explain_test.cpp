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
