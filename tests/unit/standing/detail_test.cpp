// How much is reckoned ahead: less of it leaves days out, and changes nothing that is said.
#include <doctest/doctest.h>

#include <string>

#include "support/world.h"

using namespace service;
using test::day;
using test::World;

namespace {

// Two hours a day up to 2026-01-01, and asked on the day after: `past` was due on 2025-11-01; `about` is past its one
// hour by the estimate of that day; `hours` comes 20 days after the last reading, `month` 31, `later` 181, `far` 365.
World world_of() {
  World world(
      "  far: {do: Far, every: {hours: 730}}\n"
      "  later: {do: Later, every: {months: 6}}\n"
      "  month: {do: Month, every: {months: 1}}\n"
      "  hours: {do: Hours, every: {hours: 40}}\n"
      "  about: {do: About, every: {hours: 1}}\n"
      "  past: {do: Past, every: {months: 1}}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  world.done("past", "2025-10-01");
  world.reading("2026-01-01", "730");
  for (const char* task : {"far", "later", "month", "hours", "about"}) world.done(task, "2026-01-01", "730");
  return world;
}

// Each point as `told`, and the middle of its span.
std::string told_all(const World& world, Detail detail, std::optional<Day> odds_by = {}) {
  const auto list = due_list(world.snapshot("2026-01-02"), {day("2026-01-25"), odds_by, detail}, straight_line());
  std::string all;
  for (const char* name : {"past", "about", "hours", "month", "later", "far"}) {
    for (const Point& point : list.points) {
      if (point.name != name) continue;
      all += std::string(name) + ": " + test::told(point);
      if (point.odds) all += *point.odds > service::Probability{0.5} ? " likely" : " unlikely";
      all += "\n";
    }
  }
  return all;
}

}  // namespace

TEST_CASE("everything: the days of all points") {
  CHECK(told_all(world_of(), Detail::everything) ==
        "past: overdue calendar 2025-11-01\n"
        "about: due by-estimate usage 2026-01-02\n"
        "hours: coming usage 2026-01-21\n"
        "month: later calendar 2026-02-01\n"
        "later: later calendar 2026-07-01\n"
        "far: later usage 2027-01-01\n");
}

TEST_CASE("coming: no days of what comes after the horizon, and the same of everything else") {
  CHECK(told_all(world_of(), Detail::coming) ==
        "past: overdue calendar 2025-11-01\n"
        "about: due by-estimate usage 2026-01-02\n"
        "hours: coming usage 2026-01-21\n"
        "month: later\n"
        "later: later\n"
        "far: later\n");
}

TEST_CASE("standings: no days ahead but of what the overdue list shows, and nothing is coming") {
  const World world = world_of();
  CHECK(told_all(world, Detail::standings) ==
        "past: overdue calendar 2025-11-01\n"
        "about: due by-estimate usage 2026-01-02\n"
        "hours: later\n"
        "month: later\n"
        "later: later\n"
        "far: later\n");
  // Odds are no days: they are told where they are asked for.
  CHECK(told_all(world, Detail::standings, day("2026-01-25")) ==
        "past: overdue calendar 2025-11-01 likely\n"
        "about: due by-estimate usage 2026-01-02 likely\n"
        "hours: later likely\n"
        "month: later unlikely\n"
        "later: later unlikely\n"
        "far: later unlikely\n");
}

TEST_CASE("what somebody put off keeps its day at every detail, for the overdue list shows it") {
  World world = world_of();
  world.put_off("later", "2026-01-01", "2026-12-01");
  for (const Detail detail : {Detail::standings, Detail::coming, Detail::everything}) {
    CHECK(told_all(world, detail).find("later: later calendar 2026-07-01\n") != std::string::npos);
  }
}
