// The tasks of a machine as they hold for it, and whose service counts as whose.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "support/world.h"

using test::World;

namespace {

std::string sorted(std::vector<std::string> names) {
  std::sort(names.begin(), names.end());
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : " ") + name;
  return text;
}

std::string counted_as(const World& world, std::string_view task) {
  return sorted(service::counted_as(*world.fleet().schedule("kind"), task));
}

}  // namespace

TEST_CASE("a task counts as done with itself and with all that cover it, directly or not") {
  const World world(
      "  big: {do: A, every: {years: 2}, covers: [middle, side]}\n"
      "  middle: {do: B, every: {years: 1}, covers: [small]}\n"
      "  side: {do: C, every: {years: 1}}\n"
      "  small: {do: D, every: {months: 6}}\n");
  CHECK(counted_as(world, "small") == "big middle small");
  CHECK(counted_as(world, "middle") == "big middle");
  CHECK(counted_as(world, "side") == "big side");
  CHECK(counted_as(world, "big") == "big");
}

TEST_CASE("what two tasks cover counts with both, once each") {
  const World world(
      "  top: {do: A, every: {years: 2}, covers: [left, right]}\n"
      "  left: {do: B, every: {years: 1}, covers: [low]}\n"
      "  right: {do: C, every: {years: 1}, covers: [low]}\n"
      "  low: {do: D, every: {months: 6}}\n");
  CHECK(counted_as(world, "low") == "left low right top");
}

TEST_CASE("an examination by a competent person may cover one of its kind and ordinary tasks") {
  const World world(
      "  full: {do: A, every: {years: 2}, by-whom: competent-person, covers: [exam, grease]}\n"
      "  exam: {do: B, every: {years: 1}, by-whom: competent-person}\n"
      "  grease: {do: C, every: {months: 1}}\n");
  CHECK(counted_as(world, "exam") == "exam full");
  CHECK(counted_as(world, "grease") == "full grease");
}

TEST_CASE("an ordinary task never stands in for an examination, directly or not") {
  const std::string exam = "  exam: {do: Examine, every: {years: 1}, by-whom: competent-person}\n";
  const World direct(
      "  big: {do: A, every: {years: 1}, covers: [exam, grease]}\n"
      "  grease: {do: B, every: {months: 1}}\n" +
      exam);
  CHECK(counted_as(direct, "exam") == "exam");
  CHECK(counted_as(direct, "grease") == "big grease");
  World through(
      "  big: {do: A, every: {years: 1}, covers: [middle]}\n"
      "  middle: {do: A, every: {years: 1}, covers: [exam]}\n" +
          exam,
      "bought: 2020-01-01");
  CHECK(counted_as(through, "exam") == "exam");
  through.done("big", "2026-01-01");
  CHECK(through.point("2026-01-02", "middle").standing == service::Standing::later);
  CHECK(through.point("2026-01-02", "exam").standing == service::Standing::no_record);
}

TEST_CASE("the tasks of a machine are those of its schedule, in its order") {
  const World world("  z: {do: Z, every: {hours: 10}}\n  a: {do: A, every: {hours: 20}}\n");
  const auto tasks = service::tasks_of(world.fleet(), *world.fleet().machine("m"));
  REQUIRE(tasks.size() == 2);
  CHECK(tasks[0].task->name == "z");
  CHECK(tasks[1].task->name == "a");
  CHECK(service::task_of(world.fleet(), *world.fleet().machine("m"), "a").has_value());
  CHECK_FALSE(service::task_of(world.fleet(), *world.fleet().machine("m"), "b").has_value());
}

TEST_CASE("a task knows all tasks whose service counts as one of it") {
  const World world("  a: {do: A, every: {hours: 10}}\n  b: {do: B, every: {hours: 20}, covers: [a]}\n");
  for (const auto& task : service::tasks_of(world.fleet(), *world.fleet().machine("m"))) {
    CHECK(sorted(task.served_by) == counted_as(world, task.task->name));
  }
}

TEST_CASE("tasks hold alike for machines that differ in nothing that bears on them") {
  service::Machine one;
  one.key = "one";
  one.meters = {{"engine", "h", std::nullopt}};
  service::Machine other = one;
  other.key = "other";
  other.start.kind = service::StartKind::bought;
  other.meters.front().rolls_over_at = service::Amount{1'000'000};
  CHECK(service::tasks_alike(one, other));
  const auto alike_with = [&](auto differ) {
    service::Machine changed = other;
    differ(changed);
    return service::tasks_alike(one, changed) || service::tasks_alike(changed, one);
  };
  CHECK_FALSE(alike_with([](service::Machine& machine) { machine.conditions = {"dusty"}; }));
  CHECK_FALSE(alike_with([](service::Machine& machine) { machine.meters.front().name = "motor"; }));
  CHECK_FALSE(alike_with([](service::Machine& machine) { machine.meters.front().unit = "km"; }));
  CHECK_FALSE(alike_with([](service::Machine& machine) { machine.meters.clear(); }));
  CHECK_FALSE(alike_with([](service::Machine& machine) { machine.change.emplace_back(); }));
  one.change.emplace_back();
  CHECK_FALSE(service::tasks_alike(one, one));  // like no other
}

TEST_CASE("a limb of hours names the machine's first meter in hours") {
  const World world("  t: {do: T, every: {hours: 10}}\n", "", "", "meters: {km: {unit: km}, engine: {unit: h}}\n");
  const auto task = service::task_of(world.fleet(), *world.fleet().machine("m"), "t");
  REQUIRE(task.has_value());
  REQUIRE(task->every.size() == 1);
  REQUIRE(task->every.front().candidates.size() == 1);
  const auto* usage = std::get_if<service::UsageLimb>(&task->every.front().candidates.front());
  REQUIRE(usage != nullptr);
  CHECK(usage->meter.value_or("none") == "engine");
  CHECK(task->first.size() == 1);  // the same where there is no running-in interval
}

TEST_CASE("what is a matter of safety has no grace and takes none of the fleet's") {
  const World world("  brakes: {do: B, every: {months: 12}, safety: true}\n  oil: {do: O, every: {months: 12}}\n", "",
                    "grace: {days: 14}\n");
  const auto& machine = *world.fleet().machine("m");
  CHECK_FALSE(service::task_of(world.fleet(), machine, "brakes")->grace.days.has_value());
  CHECK(service::task_of(world.fleet(), machine, "oil")->grace.days.value_or(0) == 14);
}

TEST_CASE("grace is the task's own unit by unit, and the fleet's where the task names none") {
  const World world("  t: {do: T, every: {hours: 100, months: 12}, grace: {hours: 5}}\n", "",
                    "grace: {hours: 9, days: 14}\n");
  const auto task = service::task_of(world.fleet(), *world.fleet().machine("m"), "t");
  REQUIRE(task.has_value());
  REQUIRE(task->grace.hours.has_value());
  CHECK(service::to_text(*task->grace.hours) == "5");
  CHECK(task->grace.days.value_or(0) == 14);
}
