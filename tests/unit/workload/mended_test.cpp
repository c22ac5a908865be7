// What was found worn or failed and waits to be mended is work, whenever its point comes due.
#include <doctest/doctest.h>

#include <algorithm>

#include "service/minding.h"
#include "service/report.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::text_or_none;
using test::World;

namespace {

// Brakes are looked at each year and put in nothing new, so found failed they are as bad as before.
World failed_brakes(const std::string& more = "") {
  World world(
      "  brakes: {do: Try the brakes, every: {months: 12}, safety: true, takes: 45 min}\n"
      "  oil: {do: Oil, every: {months: 12}, takes: 1 h}\n" +
          more,
      "in-service: {on: 2020-01-01, at: 0}, expect: {per-year: 100, harvest: 50}",
      "seasons: {harvest: {from: 08-01, to: 09-20}}\n");
  world.done("oil", "2026-06-01");
  world.done("brakes", "2026-06-10").found = Found::failed;
  return world;
}

SeasonPlan plan_of(const World& world, std::string_view as_of = "2026-06-15") {
  const auto snapshot = world.snapshot(as_of);
  return season_plan(snapshot, {snapshot.fleet().season("harvest")}, straight_line());
}

}  // namespace

TEST_CASE("what was found failed stands first before a season, with its time, and not among what comes later") {
  const World world = failed_brakes();
  CHECK(test::told(world.point("2026-06-15", "brakes")) == "later calendar 2027-06-10");
  const SeasonPlan plan = plan_of(world);
  REQUIRE(plan.beforehand.size() == 1);
  const SeasonItem& brakes = plan.beforehand[0];
  CHECK(brakes.point.name == "brakes");
  CHECK(brakes.reason == SeasonReason::mend);
  CHECK(brakes.group() == SeasonGroup::mend);
  CHECK(to_text(brakes.do_by) == "2026-06-15");
  CHECK(text_or_none(brakes.point.due_span.p50) == "2027-06-10");  // as every other answer says it
  CHECK(brakes.odds.value == 1);
  CHECK(brakes.gives_up.value_or(1) == 0);
  REQUIRE(brakes.to_mend.size() == 1);
  CHECK(brakes.to_mend[0].sign == "brakes found failed");
  CHECK(plan.before_sums.labour_minutes == 45);
  REQUIRE(plan.not_before_end.size() == 1);
  CHECK(plan.not_before_end[0].point.name == "oil");
}

TEST_CASE("found good, it is no work any more") {
  World world = failed_brakes();
  world.done("brakes", "2026-06-14").found = Found::good;
  const SeasonPlan plan = plan_of(world);
  CHECK(plan.beforehand.empty());
  CHECK(plan.not_before_end.size() == 2);
}

TEST_CASE("on a machine that is laid up it is mended before that goes back to work") {
  World world = failed_brakes();
  world.state(FactKind::laid_up, "2026-06-12", "2026-07-10");
  const SeasonPlan plan = plan_of(world);
  REQUIRE(plan.beforehand.size() == 1);
  CHECK(to_text(plan.beforehand[0].do_by) == "2026-07-09");
}

TEST_CASE("what is to be mended does not wait with a service that comes later, and has a row beside one that is due") {
  World world = failed_brakes("  big-service: {do: All of it, every: {months: 12}, takes: 6 h, covers: [brakes]}\n");
  world.done("big-service", "2025-07-20");  // due before the season
  world.done("brakes", "2026-06-11").found = Found::failed;
  const SeasonPlan later = plan_of(world);
  REQUIRE(later.beforehand.size() == 2);
  CHECK(later.beforehand[0].point.name == "brakes");
  CHECK_FALSE(later.beforehand[0].included_in.has_value());
  CHECK(later.before_sums.labour_minutes == 45 + 360);
  const SeasonPlan due = plan_of(world, "2026-07-21");
  REQUIRE(due.beforehand.size() == 2);
  CHECK(due.beforehand[0].point.name == "brakes");
  CHECK(due.beforehand[0].included_in.has_value());
  CHECK(due.before_sums.labour_minutes == 360);
}

TEST_CASE("workload and parts take its mending once, today") {
  World world(
      "  brakes: {do: Try the brakes, every: {months: 12}, safety: true, takes: 45 min}\n"
      "  whole: {do: All, every: {months: 24}, takes: 2 h, covers: [brakes], parts: {pads: 1}}\n",
      "in-service: {on: 2020-01-01, at: 0}", "parts: {pads: {stock: 0}}\n");
  world.done("whole", "2026-06-10");
  const auto hours = [&](std::string_view to) {
    return workload(world.snapshot("2026-06-15"), day(to), Step::month, straight_line()).labour_hours.mean;
  };
  CHECK(hours("2026-06-30") == 0);
  world.done("brakes", "2026-06-11").found = Found::failed;
  CHECK(hours("2026-06-15") == doctest::Approx(0.75));
  CHECK(hours("2026-12-31") == doctest::Approx(0.75));
  // The whole of it, found failed, takes its parts again, though it comes due in two years.
  CHECK(parts_list(world.snapshot("2026-06-15"), day("2026-07-15"), straight_line()).needs.empty());
  world.done("whole", "2026-06-12").found = Found::failed;
  const auto parts = parts_list(world.snapshot("2026-06-15"), day("2026-07-15"), straight_line());
  REQUIRE(parts.needs.size() == 1);
  REQUIRE(parts.needs[0].uses.size() == 1);
  CHECK(text_or_none(parts.needs[0].uses[0].done.p10) == "2026-06-15");
  CHECK(text_or_none(parts.needs[0].uses[0].due.p50) == "2028-06-12");
}

TEST_CASE("the page of a machine names what is to be mended, whenever it comes due") {
  const World world = failed_brakes();
  const auto snapshot = world.snapshot("2026-06-15");
  const Report told =
      report(snapshot, world.facts(), {day("2026-07-15"), day("2026-09-15"), day("2027-06-15")}, straight_line());
  const auto pages = pages_of(told);
  REQUIRE(pages.size() == 1);
  REQUIRE(pages[0].to_mend.size() == 1);
  CHECK(pages[0].to_mend[0]->name == "brakes");
  CHECK(pages[0].points.size() > 1);
}
