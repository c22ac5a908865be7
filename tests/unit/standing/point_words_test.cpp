// Small questions about a point: which standing is worse, which limb tells most, whether its day is sure, its label.
#include <doctest/doctest.h>

#include <array>

#include "support/world.h"

using namespace service;
using test::day;
using test::World;

TEST_CASE("worst first: overdue, due, no record, coming, later") {
  constexpr std::array order{Standing::overdue, Standing::due, Standing::no_record, Standing::coming, Standing::later};
  for (std::size_t a = 0; a < order.size(); ++a) {
    for (std::size_t b = 0; b < order.size(); ++b) {
      CAPTURE(a);
      CAPTURE(b);
      CHECK(worse(order.at(a), order.at(b)) == (a < b));
    }
  }
}

TEST_CASE("a point is labelled by its task, and by its position where it has one") {
  CHECK(point_label("engine-oil", "") == "engine-oil");
  CHECK(point_label("tyre", "front-left") == "tyre@front-left");
  CHECK(point_label("engine-oil/check-leaks", "left") == "engine-oil/check-leaks@left");
}

TEST_CASE("the limb that tells most of a kind is the ruling one, else the first") {
  Point point;
  for (const char* meter : {"engine", "road"}) {
    LimbStanding limb;
    limb.name = meter;
    point.limbs.push_back(limb);
  }
  LimbStanding calendar;
  calendar.kind = LimbKind::calendar;
  point.limbs.push_back(calendar);
  REQUIRE(limb_of(point, LimbKind::usage) != nullptr);
  CHECK(limb_of(point, LimbKind::usage)->name == "engine");
  point.ruled_by = 1;
  CHECK(limb_of(point, LimbKind::usage)->name == "road");
  CHECK(limb_of(point, LimbKind::calendar) == &point.limbs[2]);
  point.ruled_by = 2;
  CHECK(limb_of(point, LimbKind::usage)->name == "engine");
  CHECK(limb_of(point, LimbKind::sign) == nullptr);
}

TEST_CASE("a due day is expected where it lies ahead and may be another one") {
  Point point;
  point.standing = Standing::later;
  CHECK_FALSE(is_expected(point));  // no day at all
  point.due_on = day("2026-06-01");
  point.due_span = {day("2026-06-01"), day("2026-06-01"), day("2026-06-01")};
  CHECK_FALSE(is_expected(point));  // a calendar names it
  point.due_span = {day("2026-05-01"), day("2026-06-01"), day("2026-07-01")};
  CHECK(is_expected(point));
  point.due_span.p90.reset();  // beyond five years
  CHECK(is_expected(point));

  // Reached by facts: it lies behind, whatever else is filled in.
  LimbStanding limb;
  limb.state = LimbState::due;
  point.limbs = {limb};
  point.ruled_by = 0;
  CHECK_FALSE(is_expected(point));
}

TEST_CASE("of a world: what is certain, expected, and reached") {
  World world(
      "  month: {do: Month, every: {months: 6}}\n"
      "  hours: {do: Hours, every: {hours: 100}}\n"
      "  past: {do: Past, every: {hours: 100}}\n",
      "in-service: {on: 2024-01-01, at: 0}");
  int used = 0;
  for (int month = 1; month <= 24; ++month) {
    used += month % 3 == 0 ? 70 : 20;
    world.reading(to_text(add_months(day("2024-01-01"), month)), std::to_string(used));
  }
  world.done("month", "2026-01-01");
  world.done("hours", "2026-01-01");
  const Snapshot snapshot = world.snapshot("2026-01-10");
  const DueList list = due_list(snapshot, day("2026-02-10"));
  REQUIRE(list.points.size() == 3);
  for (const Point& point : list.points) {
    CAPTURE(point.name);
    CHECK(is_expected(point) == (point.name == "hours"));
  }
}

TEST_CASE("an estimate counts from a reading before the fitting only where that has no value and no reading since") {
  World world("  t: {do: Work, every: {hours: 10}}\n", "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.reading("2026-01-01", "1365");
  world.done("t", "2026-01-20");
  const auto from = [&](std::string_view as_of) {
    const DueList list = world.due(as_of);
    REQUIRE(list.points.front().limbs.front().estimated_left.has_value());
    return test::text_or_none(estimated_from(list.points.front().limbs.front(), list.points.front()));
  };
  CHECK(bool(world.due("2026-02-06").points.front().fitted->basis == Basis::last_known));
  CHECK(from("2026-02-06") == "2026-01-01");
  world.reading("2026-01-20", "1384");
  CHECK(from("2026-02-06") == "none");
}
