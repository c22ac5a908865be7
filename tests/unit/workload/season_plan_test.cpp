// Which list of a season's plan a point stands on, where odds, facts and estimates pull apart.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "service/season.h"
#include "support/told_ahead.h"
#include "support/world.h"

using namespace service;
using test::amount;
using test::day;
using test::World;

namespace {

const std::string harvest = "seasons: {harvest: {from: 08-01, to: 09-20}}\n";

SeasonPlan plan_of(const Snapshot& snapshot, const Forecaster& forecaster) {
  return season_plan(snapshot, {snapshot.fleet().season("harvest")}, forecaster);
}

std::vector<std::string> names(const std::vector<SeasonItem>& items) {
  std::vector<std::string> all;
  for (const SeasonItem& item : items) all.push_back(item.point.name);
  return all;
}

}  // namespace

TEST_CASE("what is due by estimate is done beforehand, today, however little the silence of the record leaves of it") {
  World world("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2025-01-01, at: 0}", harvest);
  world.reading("2026-01-01", "240");
  const auto snapshot = world.snapshot("2026-03-01");
  for (const double silent : {0.001, 0.1}) {
    const auto plan = plan_of(snapshot, test::told_ahead({amount("260"), Probability{0.6}, Probability{silent}}));
    CHECK(plan.not_before_end.empty());
    REQUIRE(plan.beforehand.size() == 1);
    CHECK(plan.beforehand[0].point.by_estimate);
    CHECK(plan.beforehand[0].do_by == day("2026-03-01"));
  }
}

TEST_CASE("something unknown beside it hides neither what is due by estimate nor safety") {
  World world(
      "  oil: {do: Oil, every: {usage: {engine: 250, screen: 90}}}\n"
      "  brakes: {do: Brakes, every: {usage: {engine: 500, screen: 90}}, safety: true}\n"
      "  belt: {do: Belt, every: {usage: {engine: 500, screen: 90}}}\n",
      "bought: {on: 2025-01-01, at: 0}", harvest, "meters: {engine: {unit: h}, screen: {unit: h}}\n");
  for (const char* task : {"oil", "brakes", "belt"}) world.done(task, "2025-01-02", "1", "", "engine");
  world.reading("2026-01-01", "240", "engine");
  const auto plan =
      plan_of(world.snapshot("2026-03-01"), test::told_ahead({amount("260"), Probability{0.6}, Probability{0.05}}));
  CHECK((names(plan.beforehand) == std::vector<std::string>{"oil", "brakes"}));
  // All three are to be found out; of the belt, odds that leave a limb out say nothing.
  CHECK(plan.find_out.size() == 3);
  CHECK(plan.not_before_end.empty());
}

TEST_CASE("what is due stays on the list where the one that includes it goes with a big service that does not") {
  World world(
      "  small: {do: Small, every: {hours: 100}}\n"
      "  middle: {do: Middle, every: {hours: 500}, covers: [small]}\n"
      "  big: {do: Big, every: {hours: 650}, covers: [middle]}\n",
      "in-service: {on: 2025-01-01, at: 0}", harvest);
  for (const char* task : {"small", "middle", "big"}) world.done(task, "2025-10-02", "548");
  world.reading("2026-01-01", "730");
  // On 1 March some 300 h are used: small is overdue, and the big one has more than half its life before it.
  const auto plan = plan_of(world.snapshot("2026-03-01"), straight_line());
  CHECK((names(plan.beforehand) == std::vector<std::string>{"small", "big"}));
  REQUIRE(plan.beforehand.size() == 2);
  REQUIRE(plan.beforehand[1].covered.size() == 1);
  CHECK(plan.beforehand[1].covered[0].name.task == "middle");
}
