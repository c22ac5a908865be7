// Which facts are a service of a point.
#include <doctest/doctest.h>

#include <string>

#include "support/world.h"

using test::World;

namespace {

const std::string tasks =
    "  big: {do: Big, every: {months: 12}, covers: [middle, filter]}\n"
    "  middle: {do: Middle, every: {months: 6}, covers: [small]}\n"
    "  small: {do: Small, every: {months: 3}, follow-up: {look: {do: Look, within: {days: 1}}}}\n"
    "  filter: {do: Filter, every: {months: 3}, positions: [left, right]}\n"
    "  exam: {do: Exam, every: {months: 12}, by-whom: competent-person}\n";

std::string told(const std::vector<service::ServiceDay>& days) {
  std::string text;
  for (const service::ServiceDay& day : days) {
    text += (text.empty() ? "" : ", ") + service::to_text(day.day()) + ' ' + day.spoken_for().task + ' ' +
            std::to_string(day.facts.size());
  }
  return text;
}

std::string services(const World& world, std::string_view task, std::string_view position = "") {
  const auto snapshot = world.snapshot("2026-01-01");
  return told(service::services_of(snapshot.facts_of("m"), *snapshot.fleet().schedule("kind"), task, position));
}

}  // namespace

TEST_CASE("a service of a point is one of its task or of a task that covers it, directly or not") {
  World world(tasks);
  world.done("small", "2025-01-01");
  world.done("middle", "2025-02-01");
  world.done("big", "2025-03-01");
  world.done("exam", "2025-04-01").by = "a person";
  world.reading("2025-05-01", "100");
  CHECK(services(world, "small") == "2025-01-01 small 1, 2025-02-01 middle 1, 2025-03-01 big 1");
  CHECK(services(world, "middle") == "2025-02-01 middle 1, 2025-03-01 big 1");
  CHECK(services(world, "big") == "2025-03-01 big 1");
  CHECK(services(world, "exam") == "2025-04-01 exam 1");
}

TEST_CASE("several services of a day are one, and the last entered speaks for it") {
  World world(tasks);
  world.done("middle", "2025-02-01");
  world.done("small", "2025-01-01");
  world.done("small", "2025-02-01");
  world.done("big", "2025-02-01");
  CHECK(services(world, "small") == "2025-01-01 small 1, 2025-02-01 big 3");
}

TEST_CASE("a service that names no position counts at all of them, and one that does at its own alone") {
  World world(tasks);
  world.done("filter", "2025-01-01", "", "left");
  world.done("filter", "2025-02-01");
  world.done("filter", "2025-03-01", "", "right");
  world.done("big", "2025-04-01");
  CHECK(services(world, "filter", "left") == "2025-01-01 filter 1, 2025-02-01 filter 1, 2025-04-01 big 1");
  CHECK(services(world, "filter", "right") == "2025-02-01 filter 1, 2025-03-01 filter 1, 2025-04-01 big 1");
  CHECK(services(world, "filter") == "2025-01-01 filter 1, 2025-02-01 filter 1, 2025-03-01 filter 1, 2025-04-01 big 1");
}

TEST_CASE("a check is recorded under its own name, and its task's services are no checks") {
  World world(tasks);
  world.done("small", "2025-01-01");
  world.done("small/look", "2025-01-02");
  world.done("big", "2025-02-01");
  const auto snapshot = world.snapshot("2026-01-01");
  CHECK(told(service::checks_of(snapshot.facts_of("m"), "small/look", "")) == "2025-01-02 small/look 1");
  CHECK(services(world, "small") == "2025-01-01 small 1, 2025-02-01 big 1");
}
