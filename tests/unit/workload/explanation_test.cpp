// One standing taken apart: the facts that it rests on, why a limb rules, and where its span ends.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "service/explain.h"
#include "support/world.h"

namespace doctest {

template <>
struct StringMaker<service::Ruling> {
  static String convert(service::Ruling ruling) { return std::to_string(static_cast<int>(ruling)).c_str(); }
};

}  // namespace doctest

using namespace service;
using test::amount;
using test::day;
using test::text_or_none;
using test::World;

namespace {

struct Told {
  Explanations all;  // keeps the fleet, into which the points point
  Explanation one;
};

Told explained(const World& world, std::string_view as_of, std::string_view task = "t") {
  Told told{explain(world.snapshot(as_of), task, "", straight_line()), {}};
  REQUIRE(told.all.points.size() == 1);
  told.one = told.all.points.front();
  return told;
}

bool rests_on(const Explanation& explanation, const FactId& id) {
  return std::any_of(explanation.facts.begin(), explanation.facts.end(),
                     [&](const ExplainedFact& each) { return each.fact.id == id; });
}

// Work every 600 h or 12 months, done on 2026-01-01 at 0.
World every_600_hours() {
  World world("  t: {do: Work, every: {hours: 600, months: 12}}\n", "in-service: {on: 2025-12-01, at: 0}");
  world.done("t", "2026-01-01", "0");
  return world;
}

// Two hours a day for a year, up to 2026-01-01, and the task done then.
World two_hours_a_day(const std::string& every) {
  World world("  t: {do: Work, every: " + every + "}\n", "in-service: {on: 2025-01-01, at: 0}");
  world.reading("2026-01-01", "730");
  world.done("t", "2026-01-01", "730");
  return world;
}

}  // namespace

TEST_CASE("after a contradiction the standing rests on the reading that holds, and says so") {
  World world = every_600_hours();
  const FactId higher = world.reading("2026-02-10", "500").id;
  const FactId lower = world.reading("2026-03-10", "450").id;
  const Told told = explained(world, "2026-03-12");
  const Explanation& why = told.one;
  const LimbStanding& hours = test::limb(why.point, LimbKind::usage);
  REQUIRE(hours.known.has_value());
  CHECK(hours.known->usage == amount("500"));
  CHECK(hours.known->day == day("2026-02-10"));
  REQUIRE(hours.known->fact.has_value());
  CHECK(*hours.known->fact == higher);
  CHECK(text_or_none(hours.used) == "500");
  CHECK(text_or_none(hours.left) == "100");
  CHECK(rests_on(why, higher));
  CHECK_FALSE(rests_on(why, lower));

  // The gap names both, and it goes with the reading that is struck.
  REQUIRE(told.all.gaps.size() == 1);
  CHECK(told.all.gaps[0].kind == GapKind::contradiction);
  CHECK(told.all.gaps[0].facts.size() == 2);
  world.strike(higher);
  const Told struck = explained(world, "2026-03-12");
  CHECK(struck.all.gaps.empty());
  CHECK(text_or_none(test::limb(struck.one.point, LimbKind::usage).used) == "450");
  CHECK(rests_on(struck.one, lower));
}

TEST_CASE("a later reading above both is the one that holds") {
  World world = every_600_hours();
  world.reading("2026-02-10", "500");
  world.reading("2026-03-10", "450");
  const FactId newest = world.reading("2026-03-11", "510").id;
  const Told told = explained(world, "2026-03-12");
  const LimbStanding& hours = test::limb(told.one.point, LimbKind::usage);
  CHECK(*hours.known->fact == newest);
  CHECK(hours.known->usage == amount("510"));
  CHECK(rests_on(told.one, newest));
}

TEST_CASE("facts are told once, the fitting first, with their usage where the meter showed another value") {
  World world("  t: {do: Work, every: {hours: 600, months: 12}}\n", "in-service: {on: 2025-12-01, at: 0}");
  world.reading("2026-01-20", "300");
  world.meter_change("2026-02-01", "320", "0");
  const FactId done = world.done("t", "2026-02-20", "40").id;  // 320 before the change, and 40
  const Told told = explained(world, "2026-02-25");
  REQUIRE(told.one.facts.size() == 1);  // the fitting is also the last value of the meter
  CHECK(told.one.facts[0].fact.id == done);
  CHECK(text_or_none(told.one.facts[0].usage) == "360");
  const FactId later = world.reading("2026-03-01", "50").id;
  const FactId put_off = world.put_off("t", "2026-03-02", "2026-06-01").id;
  const Told more = explained(world, "2026-03-03");
  REQUIRE(more.one.facts.size() == 3);
  CHECK(more.one.facts[0].fact.id == done);
  CHECK(more.one.facts[1].fact.id == later);
  CHECK(text_or_none(more.one.facts[1].usage) == "370");
  CHECK(more.one.facts[2].fact.id == put_off);
  CHECK_FALSE(more.one.facts[2].usage.has_value());
}

TEST_CASE("why a limb rules") {
  const World bought("  t: {do: Work, every: {months: 12}}\n", "bought: 2025-01-01");
  CHECK(explained(bought, "2026-01-02").one.ruling == Ruling::nothing_reckoned);
  CHECK(explained(two_hours_a_day("{months: 12}"), "2026-01-02").one.ruling == Ruling::alone);
  CHECK(explained(two_hours_a_day("{hours: 600, months: 12}"), "2026-01-02").one.ruling == Ruling::ends_first);

  World both = two_hours_a_day("{hours: 600, months: 2}");
  both.reading("2026-03-20", "1400");
  CHECK(explained(both, "2026-03-20").one.ruling == Ruling::reached_first);  // 670 of 600 h, and 1 March

  World hours = two_hours_a_day("{hours: 600, months: 12}");
  hours.reading("2026-03-20", "1400");
  CHECK(explained(hours, "2026-03-20").one.ruling == Ruling::furthest);

  // Overdue is further than due: 10 h of grace hold the hours, and no grace the months.
  World graced("  t: {do: Work, every: {hours: 600, months: 2}, grace: {hours: 10}}\n",
               "in-service: {on: 2025-01-01, at: 0}");
  graced.reading("2026-01-01", "730");
  graced.done("t", "2026-01-01", "730");
  graced.reading("2026-03-20", "1335");
  const Told told = explained(graced, "2026-03-20");
  CHECK(told.one.ruling == Ruling::furthest);
  CHECK(test::limb(told.one.point, LimbKind::usage).state == LimbState::due);
  CHECK(told.one.point.limbs[*told.one.point.ruled_by].kind == LimbKind::calendar);
}

TEST_CASE("the span ends certainly where its late end is a day that the calendar names") {
  // At two hours a day 600 h are used on the 300th day, 2026-10-28.
  CHECK(explained(two_hours_a_day("{hours: 600, months: 6}"), "2026-01-02").one.ends_certainly);
  const Told by_use = explained(two_hours_a_day("{hours: 600, months: 12}"), "2026-01-02");
  CHECK_FALSE(by_use.one.ends_certainly);
  CHECK(text_or_none(by_use.one.point.due_on) == "2026-10-28");
  CHECK_FALSE(explained(two_hours_a_day("{hours: 600}"), "2026-01-02").one.ends_certainly);
  // Reached: there is no span ahead to end.
  CHECK_FALSE(explained(two_hours_a_day("{months: 1}"), "2026-03-02").one.ends_certainly);
}

TEST_CASE("a service that includes this one is named as such, and the first interval as the first") {
  World world(
      "  small: {do: Small, every: {months: 6}, first: {months: 1}}\n"
      "  big: {do: Big, every: {months: 12}, covers: [small]}\n",
      "in-service: 2026-01-01");
  const Told first = explained(world, "2026-01-10", "small");
  CHECK(first.one.running_in);
  CHECK_FALSE(first.one.by_covering);
  CHECK(first.one.facts.empty());
  const FactId big = world.done("big", "2026-01-20").id;
  const Told covered = explained(world, "2026-01-25", "small");
  CHECK_FALSE(covered.one.running_in);
  CHECK(covered.one.by_covering);
  CHECK(rests_on(covered.one, big));
  CHECK_FALSE(explained(world, "2026-01-25", "big").one.by_covering);
}

TEST_CASE("each change that is counted is among the facts") {
  World world(
      "  t: {do: Work, every: {changes: {outer: 3}}}\n"
      "  outer: {do: Outer, every: {months: 6}}\n"
      "  big: {do: Big, every: {years: 2}, covers: [outer]}\n",
      "bought: 2020-01-01");
  world.done("outer", "2024-01-01");
  const FactId fitted = world.done("t", "2024-06-01").id;
  const FactId first = world.done("outer", "2024-09-01").id;
  const FactId by_covering = world.done("big", "2025-02-01").id;
  const Told told = explained(world, "2026-01-01");
  const LimbStanding& changes = test::limb(told.one.point, LimbKind::changes);
  CHECK(changes.count.value_or(0) == 2);
  CHECK((changes.changes == std::vector<FactId>{first, by_covering}));
  REQUIRE(told.one.facts.size() == 3);
  CHECK(told.one.facts.front().fact.id == fitted);
  CHECK(rests_on(told.one, first));
  CHECK(rests_on(told.one, by_covering));
}

TEST_CASE("each time that a sign was seen is among the facts, so that it can be struck") {
  World world("  t: {do: Work, every: {months: 12, signs: [leak]}}\n", "in-service: {on: 2025-12-01, at: 0}");
  const FactId before = world.sign("leak", "2025-12-15").id;
  world.done("t", "2026-01-01", "0");
  const FactId first = world.sign("leak", "2026-02-01").id;
  const FactId second = world.sign("leak", "2026-02-03").id;
  const FactId third = world.sign("leak", "2026-02-04").id;
  const Told told = explained(world, "2026-02-05");
  for (const FactId& id : {first, second, third}) CHECK(rests_on(told.one, id));
  CHECK_FALSE(rests_on(told.one, before));  // that service answered it
}
