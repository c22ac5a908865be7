// A machine that stands all through a season has no work on its list, and what it would take is told all the same.
#include <doctest/doctest.h>

#include <string>

#include "service/season.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::text_or_none;
using test::World;

namespace {

// Two machines alike; the one called combine names the season.
World two_machines() {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\n"
      "seasons: {harvest: {from: 08-01, to: 09-20}}\n"
      "parts:\n  belt: {stock: 1, lead-time: 35 days}\n"
      "machines:\n"
      "  cart: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 60, harvest: 50}}\n"
      "  combine: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 60, harvest: 50}}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  belt: {do: Belt, every: {months: 12}, takes: 3 h, people: 2, parts: {belt: 1}}\n"
      "  brakes: {do: Brakes, every: {months: 60}, safety: true, takes: 30 min}\n";
  World world(files);
  for (const char* machine : {"cart", "combine"}) {
    world.done("belt", "2025-07-10").machine = machine;  // due on 10 July
    world.done("brakes", "2026-05-01").machine = machine;
  }
  return world;
}

SeasonPlan plan_of(const World& world, const Scope& scope = {}) {
  const auto snapshot = world.snapshot("2026-06-15", scope);
  return season_plan(snapshot, {snapshot.fleet().season("harvest")}, straight_line());
}

}  // namespace

TEST_CASE("of a machine out of use the season tells what it would take, in no sum of the list") {
  World world = two_machines();
  CHECK(plan_of(world).absent.empty());
  CHECK(plan_of(world).before_sums.points == 2);
  world.state(FactKind::out_of_use, "2026-06-10").machine = "combine";
  const SeasonPlan plan = plan_of(world);
  CHECK(plan.before_sums.points == 1);
  REQUIRE(plan.absent.size() == 1);
  const SeasonAbsent& combine = plan.absent[0];
  CHECK(combine.machine->key == "combine");
  CHECK(combine.state.kind == UseKind::out_of_use);
  REQUIRE(combine.items.size() == 1);
  CHECK(combine.items[0].point.name == "belt");
  CHECK(to_text(combine.items[0].do_by) == "2026-07-10");
  CHECK(combine.sums.points == 1);
  CHECK(combine.sums.labour_minutes == 360);
  CHECK(combine.sums.pieces == 1);
  // The belt in stock is the cart's, so another is to be ordered, ten days before now.
  REQUIRE(plan.parts.size() == 1);
  CHECK_FALSE(plan.parts[0].is_short());
  REQUIRE(combine.orders.size() == 1);
  CHECK(to_text(combine.orders[0].buy) == "1");
  CHECK(text_or_none(combine.orders[0].order_by) == "2026-06-15");
  CHECK(combine.orders[0].late_days == 10);
  CHECK(days_missed(plan, combine.state) == 51);
}

TEST_CASE("likewise of one that is laid up beyond the season, and not of one that is back in it") {
  World world = two_machines();
  Fact& laid_up = world.state(FactKind::laid_up, "2026-06-10");
  laid_up.machine = "combine";
  CHECK(plan_of(world).absent.size() == 1);
  World back = two_machines();
  back.state(FactKind::laid_up, "2026-06-10", "2026-09-01").machine = "combine";
  const SeasonPlan plan = plan_of(back);
  CHECK(plan.absent.empty());
  REQUIRE(plan.not_in_use.size() == 1);
  CHECK(days_missed(plan, plan.not_in_use[0].state) == 31);
  World early = two_machines();
  early.state(FactKind::laid_up, "2026-06-10", "2026-07-01").machine = "combine";
  CHECK(days_missed(plan_of(early), plan_of(early).not_in_use[0].state) == 0);
}

TEST_CASE("a machine that was not asked about is not told") {
  World world = two_machines();
  world.state(FactKind::out_of_use, "2026-06-10").machine = "combine";
  CHECK(plan_of(world, Scope{std::vector<std::string>{"cart"}}).absent.empty());
  const SeasonPlan plan = plan_of(world);
  REQUIRE(plan.absent.size() == 1);
  CHECK(plan.absent[0].machine->key == "combine");
}

TEST_CASE("of what is not known about it the number is told") {
  World unknown("  belt: {do: Belt, every: {months: 12}}\n", "expect: {per-year: 60, harvest: 50}",
                "seasons: {harvest: {from: 08-01, to: 09-20}}\n");
  unknown.state(FactKind::out_of_use, "2026-06-10");
  const auto snapshot = unknown.snapshot("2026-06-15");
  const SeasonPlan plan = season_plan(snapshot, {snapshot.fleet().season("harvest")}, straight_line());
  REQUIRE(plan.absent.size() == 1);
  CHECK(plan.absent[0].items.empty());
  CHECK(plan.absent[0].find_out == 1);
}
