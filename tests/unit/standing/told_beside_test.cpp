// What is told of machines about which nothing is asked: that no blank is left is no all-clear.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "service/due_list.h"
#include "support/world.h"

using service::FactKind;
using test::World;

namespace {

constexpr const char* tasks =
    "  oil: {do: Oil, every: {months: 12}}\n  gland: {do: Gland, every: {months: 36, signs: [drip]}}\n"
    "  brakes: {do: Brakes, every: {months: 36, signs: [pull]}, safety: true}\n";

World furnished(const std::string& more = "") {
  World world(tasks, "in-service: {on: 2026-01-01, at: 0}" + more);
  world.reading("2026-06-01", "10");
  return world;
}

// `m: seen odd smell; sign drip; notes ...`, whatever the list keeps.
std::string told(const World& world) {
  std::string first;
  for (const auto keep : {service::Keep::all, service::Keep::to_find_out}) {
    service::DueAsk ask{test::day("2026-06-15"), {}, service::Detail::standings};
    ask.keep = keep;
    const auto list = due_list(world.snapshot("2026-06-15"), ask);
    const auto asked = find_out(list);
    std::string text;
    for (const service::MachineQuestions& beside : told_beside(list, asked)) {
      CHECK(beside.questions.empty());
      text += beside.machine->key + ':';
      for (const auto* seen : beside.seen) text += " seen " + seen->sign;
      for (const auto* point : beside.signs) text += " sign at " + point->name;
    }
    if (keep == service::Keep::all) first = text;
    CHECK(text == first);
  }
  return first;
}

}  // namespace

TEST_CASE("of a machine that is well nothing is told") { CHECK(told(furnished()).empty()); }

TEST_CASE("what was seen is told, in whose words ever, until somebody finds it good") {
  World world = furnished();
  world.sign("odd smell", "2026-06-10");
  world.sign("drip", "2026-06-11");
  CHECK(told(world) == "m: seen odd smell sign at gland");
  world.done("gland", "2026-06-12");
  CHECK(told(world) == "m: seen odd smell");
}

TEST_CASE("a machine that nobody may run is told, and one with notes") {
  World unsafe = furnished();
  unsafe.sign("pull", "2026-06-10");
  CHECK(told(unsafe) == "m:");
  World stopped = furnished();
  stopped.state(FactKind::out_of_use, "2026-06-10");
  CHECK(told(stopped) == "m:");
  CHECK(told(furnished(", notes: the guard is off")) == "m:");
  CHECK(told(furnished(", notes: the guard is off, left: 2026-06-01")).empty());  // it is not there any more
}

TEST_CASE("a machine that stands is told") {
  World stands = furnished();
  stands.state(FactKind::laid_up, "2026-06-10");
  CHECK(told(stands) == "m:");
}

TEST_CASE("a list to find out keeps what never waits and is late, for that is no all-clear") {
  World world(tasks, "in-service: {on: 2023-01-01, at: 0}");
  world.reading("2026-06-01", "10");
  world.done("oil", "2026-06-01");
  service::DueAsk ask{test::day("2026-06-15"), {}, service::Detail::standings};
  ask.keep = service::Keep::to_find_out;
  const auto late = due_list(world.snapshot("2026-06-15"), ask);
  REQUIRE(late.points.size() == 1);
  CHECK(late.points.front().name == "brakes");
  world.done("brakes", "2026-06-02");
  CHECK(due_list(world.snapshot("2026-06-15"), ask).points.empty());
}

TEST_CASE("a machine that is asked about is told there, and where that was cut off it is told beside") {
  World world(tasks, "bought: {on: 2026-01-01, at: 0}");
  world.reading("2026-06-01", "10");
  world.sign("odd smell", "2026-06-10");
  world.sign("drip", "2026-06-11");
  const auto list = world.due("2026-06-15");
  const auto asked = find_out(list);
  REQUIRE(asked.size() == 1);
  CHECK(asked[0].seen.size() == 1);
  CHECK(asked[0].signs.size() == 1);
  CHECK(told_beside(list, asked).empty());
  CHECK(told_beside(list, {}).size() == 1);
}
