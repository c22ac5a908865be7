// What is said of the day on which a point comes due.
#include "service/forecast.h"

#include <doctest/doctest.h>

#include "support/world.h"

using namespace service;
using test::day;
using test::World;

TEST_CASE("a day is certain only where nothing can bring the point due sooner") {
  Point point;
  point.due_span = {day("2026-05-01"), day("2026-05-01"), day("2026-05-01")};
  LimbStanding calendar;
  calendar.kind = LimbKind::calendar;
  calendar.state = LimbState::not_reached;
  calendar.due_on = day("2026-05-01");
  point.limbs = {calendar};
  CHECK(day_kind(point) == DayKind::certain);
  for (const LimbKind kind : {LimbKind::usage, LimbKind::changes}) {
    LimbStanding other;
    other.kind = kind;
    other.state = LimbState::unknown;
    point.limbs = {calendar, other};
    CHECK(day_kind(point) == DayKind::at_latest);
    point.limbs[1].state = LimbState::not_reached;
    point.limbs[1].due_on = day("2026-07-01");
    CHECK(day_kind(point) == DayKind::certain);
  }
}

TEST_CASE("a change that a calendar names is certain from its day on") {
  World world("  oil: {do: Oil, every: {months: 6}}\n  seal: {do: Seal, every: {changes: {oil: 1}}}\n",
              "in-service: {on: 2026-01-01, at: 0}");
  const auto snapshot = world.snapshot("2026-02-01");
  const auto odds_by = [&](const char* asked) {
    const auto list = due_list(snapshot, {day("2026-03-01"), day(asked)}, straight_line());
    for (const Point& point : list.points) {
      if (point.name == "seal") return point.odds.value_or(Probability{-1}).value;
    }
    return -1.0;
  };
  CHECK(odds_by("2026-06-30") == 0);
  CHECK(odds_by("2026-07-01") == 1);
}
