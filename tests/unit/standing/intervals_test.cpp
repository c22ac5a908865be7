// Which interval holds: the running-in interval, conditions and what one machine does differently, limb by limb.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/standing/task_t.h"

using service::LimbKind;
using standing_test::due_day;
using test::limb;
using test::text_or_none;
using test::World;

namespace {

const std::string fresh = "in-service: {on: 2025-01-01, at: 0}";
const std::string two_meters = "meters: {engine: {unit: h}, pto: {unit: h}}\n";

World task(const std::string& keys, const std::string& machine, const std::string& meters = "") {
  return World("  t: {do: Work, " + keys + "}\n", machine, "", meters);
}

// Due usage of the limb on a meter, on the day after the machine was put to work or later.
std::string due_at(const World& world, std::string_view as_of, std::string_view meter = "engine") {
  for (const auto& limb : world.point(as_of, "t").limbs) {
    if (limb.kind == LimbKind::usage && limb.name == meter) return text_or_none(limb.due_at);
  }
  return "no such limb";
}

std::size_t limbs_of(const World& world) { return world.point("2025-01-02", "t").limbs.size(); }

}  // namespace

TEST_CASE("the running-in interval replaces only the limbs that it names, and only once") {
  World world = task("every: {hours: 250, months: 12}, first: {hours: 50}", fresh);
  CHECK(due_at(world, "2025-01-02") == "50");
  CHECK(due_day(world, "2025-01-02") == "2026-01-01");
  CHECK(limbs_of(world) == 2);
  world.done("t", "2025-02-01", "48");
  CHECK(due_at(world, "2025-02-01") == "298");  // 48 + 250
  world.done("t", "2025-06-01", "290");
  CHECK(due_at(world, "2025-06-01") == "540");
}

TEST_CASE("the running-in interval may add a limb that the others do not have") {
  World world = task("every: {hours: 250}, first: {days: 30}", fresh);
  CHECK(due_at(world, "2025-01-02") == "250");
  CHECK(due_day(world, "2025-01-02") == "2025-01-31");
  world.done("t", "2025-01-31", "20");
  CHECK(world.point("2025-01-31", "t").limbs.size() == 1);
}

TEST_CASE("a machine bought used has no running-in interval") {
  World world = task("every: {hours: 250}, first: {hours: 50}", "bought: {on: 2025-01-01, at: 1000}");
  world.done("t", "2025-02-01", "1010");
  CHECK(due_at(world, "2025-02-01") == "1260");
}

TEST_CASE("a condition that the machine carries replaces the limbs that it names") {
  const std::string keys = "every: {hours: 250, months: 12}, in: {dusty: {hours: 125}}";
  const World dusty = task(keys, fresh + ", conditions: [dusty]");
  CHECK(due_at(dusty, "2025-01-02") == "125");
  CHECK(due_day(dusty, "2025-01-02") == "2026-01-01");
  const World clean = task(keys, fresh);
  CHECK(due_at(clean, "2025-01-02") == "250");
}

TEST_CASE("what a machine does differently is applied after its conditions") {
  const World world = task("every: {hours: 250, months: 12}, in: {dusty: {hours: 125, months: 6}}",
                           fresh + ", conditions: [dusty], change: {t: {every: {hours: 200}}}");
  CHECK(due_at(world, "2025-01-02") == "200");
  CHECK(due_day(world, "2025-01-02") == "2025-07-01");  // the months of the condition stay
}

TEST_CASE("a usage limb replaces only the one on the same meter") {
  const std::string keys = "every: {usage: {engine: 250, pto: 400}}, in: {dusty: {usage: {pto: 300}}}";
  const World dusty = task(keys, fresh + ", conditions: [dusty]", two_meters);
  CHECK(due_at(dusty, "2025-01-02") == "250");
  CHECK(due_at(dusty, "2025-01-02", "pto") == "300");
  const World changed = task(keys, fresh + ", change: {t: {every: {usage: {engine: 200}}}}", two_meters);
  CHECK(due_at(changed, "2025-01-02") == "200");
  CHECK(due_at(changed, "2025-01-02", "pto") == "400");
  CHECK(limbs_of(changed) == 2);
}

TEST_CASE("hours and the usage of the first hour meter are the same limb") {
  const World world = task("every: {hours: 250}", fresh + ", change: {t: {every: {usage: {engine: 200}}}}");
  CHECK(due_at(world, "2025-01-02") == "200");
  CHECK(limbs_of(world) == 1);
}

TEST_CASE("a calendar limb in another unit replaces the calendar limb") {
  const World world = task("every: {hours: 250, months: 12}", fresh + ", change: {t: {every: {weeks: 10}}}");
  CHECK(due_day(world, "2025-01-02") == "2025-03-12");  // 70 days: 31 January is the 30th, 28 February the 58th
  CHECK(limbs_of(world) == 2);
}

TEST_CASE("a changes limb replaces only the one on the same task") {
  const World world(
      "  a: {do: A, every: {hours: 100}}\n"
      "  b: {do: B, every: {hours: 100}}\n"
      "  t: {do: Work, every: {changes: {a: 3, b: 5}}}\n",
      fresh + ", change: {t: {every: {changes: {a: 2}}}}");
  std::string counts;
  for (const auto& limb : world.point("2025-01-02", "t").limbs) {
    counts += limb.name + " " + std::to_string(limb.limit_count) + " ";
  }
  CHECK(counts == "a 2 b 5 ");
}

TEST_CASE("during running-in the first interval wins over conditions and what is different") {
  World world = task("every: {hours: 250}, first: {hours: 50}, in: {dusty: {hours: 125}}",
                     fresh + ", conditions: [dusty], change: {t: {every: {hours: 30}}}");
  CHECK(due_at(world, "2025-01-02") == "50");
  world.done("t", "2025-02-01", "50");
  CHECK(due_at(world, "2025-02-01") == "80");  // 50 + 30
}

TEST_CASE("where first names one limb, the others follow conditions and what is different during running-in too") {
  World world = task("every: {hours: 250, months: 12}, first: {hours: 50}, in: {dusty: {months: 6}}",
                     fresh + ", conditions: [dusty]");
  CHECK(due_at(world, "2025-01-02") == "50");
  CHECK(due_day(world, "2025-01-02") == "2025-07-01");
}

TEST_CASE("what is different may name the first interval itself") {
  World world = task("every: {hours: 250}, first: {hours: 50}",
                     fresh + ", change: {t: {first: {hours: 80}, every: {hours: 200}}}");
  CHECK(due_at(world, "2025-01-02") == "80");
  world.done("t", "2025-02-01", "50");
  CHECK(due_at(world, "2025-02-01") == "250");  // 50 + 200
}

TEST_CASE("of several matching conditions the shorter interval holds") {
  const std::string keys = "every: {hours: 250}, in: {dusty: {hours: 125}, wet: {hours: 100}, stony: {hours: 50}}";
  CHECK(due_at(task(keys, fresh + ", conditions: [dusty, wet]"), "2025-01-02") == "100");
  CHECK(due_at(task(keys, fresh + ", conditions: [wet, dusty]"), "2025-01-02") == "100");
  CHECK(due_at(task(keys, fresh + ", conditions: [dusty]"), "2025-01-02") == "125");
}

TEST_CASE("several conditions are weighed limb by limb") {
  const World world = task("every: {hours: 250, months: 12}, in: {dusty: {hours: 125}, wet: {hours: 150, months: 6}}",
                           fresh + ", conditions: [dusty, wet]");
  CHECK(due_at(world, "2025-01-02") == "125");
  CHECK(due_day(world, "2025-01-02") == "2025-07-01");
}

TEST_CASE("of conditions in different units the one due first holds, counted from the same day") {
  World world = task("every: {months: 12}, in: {dusty: {days: 30}, wet: {months: 1}}",
                     "bought: 2024-01-01, conditions: [dusty, wet]");
  world.done("t", "2026-02-01");
  CHECK(due_day(world, "2026-02-02") == "2026-03-01");  // a month is 28 days
  world.done("t", "2026-03-01");
  CHECK(due_day(world, "2026-03-02") == "2026-03-31");  // a month is 31 days, so 30 days are first
}

TEST_CASE("a condition longer than the plain interval still replaces it") {
  const World world = task("every: {hours: 250}, in: {clean-fuel: {hours: 500}}", fresh + ", conditions: [clean-fuel]");
  CHECK(due_at(world, "2025-01-02") == "500");
}

TEST_CASE("one machine's own grace and positions replace those of the schedule") {
  World world = task("every: {hours: 250}, grace: 10%, positions: [left, right]",
                     fresh + ", change: {t: {grace: {hours: 5}, positions: [front, rear]}}");
  CHECK(service::to_text(limb(world.point("2025-01-02", "t", "front"), LimbKind::usage).grace) == "5");
  CHECK(world.due("2025-01-02").points.size() == 2);
}
