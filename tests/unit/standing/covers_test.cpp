// Points that hang together: positions, tasks that cover others, and the checks owed after a task.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "unit/standing/task_t.h"

using service::LimbKind;
using service::Standing;
using standing_test::fitted_on;
using test::limb;
using test::text_or_none;
using test::told;
using test::World;

namespace {

const std::string fresh = "in-service: {on: 2025-01-01, at: 0}";

const std::string nested =
    "  two-years: {do: Big, every: {months: 24}, covers: [year]}\n"
    "  year: {do: Middle, every: {months: 12}, covers: [half]}\n"
    "  half: {do: Small, every: {months: 6}}\n";

const std::string checked =
    "  oil:\n"
    "    do: Change oil\n"
    "    every: {hours: 250}\n"
    "    follow-up: {leaks: {do: Look for leaks, within: {hours: 1}}, torque: {do: Torque, within: {hours: 10, days: "
    "7}}}\n";

int points_named(const World& world, std::string_view as_of, std::string_view name) {
  const auto list = world.due(as_of);
  return static_cast<int>(std::count_if(list.points.begin(), list.points.end(),
                                        [&](const service::Point& point) { return point.name == name; }));
}

}  // namespace

TEST_CASE("each position is a point of its own") {
  World world("  tyre: {do: Tyre, every: {months: 60}, positions: [left, right]}\n", "bought: 2020-01-01");
  world.done("tyre", "2024-01-01", "", "left");
  CHECK(points_named(world, "2024-02-01", "tyre") == 2);
  CHECK(fitted_on(world, "2024-02-01", "tyre", "left") == "2024-01-01");
  CHECK(world.point("2024-02-01", "tyre", "right").standing == Standing::no_record);
}

TEST_CASE("a service that names no position is of all of them") {
  World world("  tyre: {do: Tyre, every: {months: 60}, positions: [left, right]}\n", "bought: 2020-01-01");
  world.done("tyre", "2023-01-01", "", "left");
  world.done("tyre", "2024-01-01");
  CHECK(fitted_on(world, "2024-02-01", "tyre", "left") == "2024-01-01");
  CHECK(fitted_on(world, "2024-02-01", "tyre", "right") == "2024-01-01");
}

TEST_CASE("a measurement at one position is of that position") {
  World world(
      "  tyre: {do: Tyre, every: {years: 10, measured: {tread: {below: 3, unit: mm}}}, positions: [left, right]}\n",
      fresh);
  world.measured("tread", "2", "2025-06-01", "mm", "left");
  CHECK(world.point("2025-06-01", "tyre", "left").standing == Standing::overdue);
  CHECK(world.point("2025-06-01", "tyre", "right").standing == Standing::later);
}

TEST_CASE("a task counts as done with one that covers it, and so on down") {
  World world(nested, "bought: 2020-01-01");
  world.done("two-years", "2024-01-01");
  for (const std::string_view name : {"two-years", "year", "half"}) {
    CHECK(fitted_on(world, "2024-02-01", name) == "2024-01-01");
  }
  CHECK(world.point("2024-02-01", "half").fitted->task == "two-years");
  CHECK(text_or_none(world.point("2024-02-01", "half").due_on) == "2024-07-01");
}

TEST_CASE("a task never counts as done with one that it covers") {
  World world(nested, "bought: 2020-01-01");
  world.done("two-years", "2024-01-01");
  world.done("year", "2025-01-01");
  world.done("half", "2025-07-01");
  CHECK(fitted_on(world, "2025-08-01", "two-years") == "2024-01-01");
  CHECK(fitted_on(world, "2025-08-01", "year") == "2025-01-01");
  CHECK(fitted_on(world, "2025-08-01", "half") == "2025-07-01");
}

TEST_CASE("tasks that cover each other in a ring are a mistake of the fleet") {
  std::string code;
  try {
    const World world(
        "  a: {do: A, every: {months: 1}, covers: [b]}\n"
        "  b: {do: B, every: {months: 1}, covers: [c]}\n"
        "  c: {do: C, every: {months: 1}, covers: [a]}\n");
  } catch (const service::Failure& failure) {
    code = failure.kind() == service::FailureKind::bad_fleet ? "bad fleet" : "other kind";
  }
  CHECK(code == "bad fleet");
}

TEST_CASE("a covering service is a service of every position") {
  World world(
      "  all: {do: All, every: {months: 24}, covers: [nozzle]}\n"
      "  nozzle: {do: Nozzle, every: {months: 12}, positions: ['1', '2']}\n",
      "bought: 2020-01-01");
  world.done("all", "2024-01-01");
  CHECK(fitted_on(world, "2024-02-01", "nozzle", "1") == "2024-01-01");
  CHECK(fitted_on(world, "2024-02-01", "nozzle", "2") == "2024-01-01");
}

TEST_CASE("a check is owed after its task is done, and not before") {
  World world(checked, fresh);
  CHECK_FALSE(world.has_point("2025-02-01", "oil/leaks"));
  world.done("oil", "2025-02-01", "100");
  const auto leaks = world.point("2025-02-01", "oil/leaks");
  CHECK(text_or_none(limb(leaks, LimbKind::usage).due_at) == "101");
  CHECK(leaks.follow_up != nullptr);
  CHECK(leaks.task->name == "oil");
  const auto torque = world.point("2025-02-01", "oil/torque");
  CHECK(text_or_none(limb(torque, LimbKind::usage).due_at) == "110");
  CHECK(text_or_none(limb(torque, LimbKind::calendar).due_on) == "2025-02-08");
}

TEST_CASE("a check has a standing of its own by the usage since the task was done") {
  World world(checked, fresh);
  world.done("oil", "2025-02-01", "100");
  world.reading("2025-02-02", "101");
  CHECK(told(world.point("2025-02-02", "oil/leaks")) == "due usage 2025-02-02");
  world.reading("2025-02-03", "102");
  CHECK(told(world.point("2025-02-03", "oil/leaks")) == "overdue usage 2025-02-02");
  CHECK(told(world.point("2025-02-09", "oil/torque")) == "overdue calendar 2025-02-08");
  CHECK(world.point("2025-02-09", "oil").standing == Standing::later);
}

TEST_CASE("a check takes the fleet's grace in percent, and no other") {
  const std::string oil =
      "  oil:\n    do: Oil\n    every: {hours: 250}\n    grace: {hours: 30, days: 30}\n"
      "    follow-up: {torque: {do: Torque, within: {hours: 10, days: 10}}}\n";
  World units(oil, fresh, "grace: {hours: 5, days: 5}\n");
  units.done("oil", "2025-02-01", "100");
  CHECK(units.point("2025-02-11", "oil/torque").standing == Standing::due);
  CHECK(units.point("2025-02-12", "oil/torque").standing == Standing::overdue);
  CHECK(service::to_text(limb(units.point("2025-02-12", "oil/torque"), LimbKind::usage).grace) == "0");
  World percent(oil, fresh, "grace: 20%\n");
  percent.done("oil", "2025-02-01", "100");
  CHECK(percent.point("2025-02-13", "oil/torque").standing == Standing::due);
  CHECK(percent.point("2025-02-14", "oil/torque").standing == Standing::overdue);
  CHECK(service::to_text(limb(percent.point("2025-02-12", "oil/torque"), LimbKind::usage).grace) == "2");
}

TEST_CASE("a check is owed once, and the other checks stay owed") {
  World world(checked, fresh);
  world.done("oil", "2025-02-01", "100");
  world.done("oil/leaks", "2025-02-02", "101");
  CHECK_FALSE(world.has_point("2025-02-02", "oil/leaks"));
  CHECK_FALSE(world.has_point("2026-02-02", "oil/leaks"));
  CHECK(world.has_point("2025-02-02", "oil/torque"));
}

TEST_CASE("a check done on the day of its task is done") {
  World world(checked, fresh);
  world.done("oil", "2025-02-01", "100");
  world.done("oil/leaks", "2025-02-01");
  world.done("oil/torque", "2025-02-01");
  CHECK_FALSE(world.has_point("2025-03-01", "oil/leaks"));
  CHECK_FALSE(world.has_point("2025-03-01", "oil/torque"));
}

TEST_CASE("the next service of a task retires the checks of the last one and owes them anew") {
  World world(checked, fresh);
  world.done("oil", "2025-02-01", "100");
  world.done("oil/leaks", "2025-02-02", "101");
  world.done("oil", "2025-08-01", "340");
  CHECK(points_named(world, "2025-08-01", "oil/torque") == 1);
  CHECK(text_or_none(limb(world.point("2025-08-01", "oil/torque"), LimbKind::usage).due_at) == "350");
  CHECK(text_or_none(limb(world.point("2025-08-01", "oil/leaks"), LimbKind::usage).due_at) == "341");
}

TEST_CASE("striking the service of the task takes its checks away") {
  World world(checked, fresh);
  const service::FactId done = world.done("oil", "2025-02-01", "100").id;
  CHECK(world.has_point("2025-02-01", "oil/leaks"));
  world.strike(done);
  CHECK_FALSE(world.has_point("2025-02-01", "oil/leaks"));
}

TEST_CASE("a check after a task with positions is owed at the position that was done") {
  World world(
      "  wheel:\n    do: Change wheel\n    every: {years: 5}\n    positions: [left, right]\n"
      "    follow-up: {torque: {do: Torque, within: {hours: 10}}}\n",
      fresh);
  world.done("wheel", "2025-02-01", "100", "left");
  CHECK(points_named(world, "2025-02-01", "wheel/torque") == 1);
  CHECK(text_or_none(limb(world.point("2025-02-01", "wheel/torque", "left"), LimbKind::usage).due_at) == "110");
}

TEST_CASE("a service told of later owes its checks only where safety hangs on them") {
  for (const bool safety : {false, true}) {
    CAPTURE(safety);
    World world(std::string("  wheel:\n    do: Change wheel\n    every: {years: 5}\n") +
                    (safety ? "    safety: true\n" : "") + "    follow-up: {torque: {do: Torque, within: {days: 7}}}\n",
                fresh);
    world.done("wheel", "2025-02-01").history = true;
    CHECK(world.has_point("2025-06-01", "wheel/torque") == safety);
    CHECK(world.point("2025-06-01", "wheel").checks_not_asked == !safety);
    CHECK(world.point("2025-06-01", "wheel").standing == Standing::later);  // it counts as any other
    world.done("wheel", "2025-07-01");
    CHECK(world.has_point("2025-07-01", "wheel/torque"));
    CHECK_FALSE(world.point("2025-07-01", "wheel").checks_not_asked);
    world.done("wheel", "2025-07-01").history = true;  // the same one, told again from an old list
    CHECK(world.has_point("2025-07-01", "wheel/torque"));
  }
}
