// What somebody may see or measure: there are no odds of it, so no day is certain, and a value near its limit says so.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "support/world.h"
#include "unit/standing/task_t.h"

using namespace service;
using standing_test::task;
using test::day;
using test::told;
using test::World;

namespace {

using Names = std::vector<std::string>;

const std::string by_wear = "every: {months: 24, measured: {wear: {above: 10, unit: \"%\"}}}";

World worn(const std::string& value) {
  World world = task(by_wear);
  world.done("t", "2025-02-18");
  if (!value.empty()) world.measured("wear", value, "2025-06-01", "%");
  return world;
}

}  // namespace

TEST_CASE("a point that a sign or a value can bring due sooner says which, and its day is the latest one") {
  const Point measured = worn("").point("2026-06-15", "t");
  CHECK((measured.sooner_if == Names{"wear"}));
  CHECK(told(measured) == "later calendar 2027-02-18");
  CHECK(day_kind(measured) == DayKind::at_latest);

  World world = task("every: {months: 12, measured: {wear: {above: 10, unit: mm}}, signs: [leak, hard-start]}");
  world.done("t", "2026-01-01");
  const Point both = world.point("2026-06-15", "t");
  CHECK((both.sooner_if == Names{"wear", "leak", "hard-start"}));
  CHECK(day_kind(both) == DayKind::at_latest);

  World without = task("every: {months: 12}");
  without.done("t", "2026-01-01");
  CHECK(without.point("2026-06-15", "t").sooner_if.empty());
  CHECK(day_kind(without.point("2026-06-15", "t")) == DayKind::certain);
}

TEST_CASE("what is due, has no record, or comes due by nothing else, comes no sooner than that") {
  CHECK(worn("").point("2027-02-17", "t").sooner_if.size() == 1);
  CHECK(worn("").point("2027-02-18", "t").sooner_if.empty());  // due
  CHECK(worn("10").point("2026-06-15", "t").sooner_if.empty());
  CHECK(task(by_wear).point("2026-06-15", "t").sooner_if.empty());  // no record
  World alone = task("every: {signs: [leak]}");
  alone.done("t", "2026-01-01");
  CHECK(alone.point("2026-06-15", "t").sooner_if.empty());
  World hours = task("every: {hours: 100, signs: [leak]}");
  hours.reading("2025-01-01", "1000");
  hours.done("t", "2026-01-01", "1365");
  CHECK(hours.point("2026-01-02", "t").sooner_if.size() == 1);
  CHECK(hours.point("2026-06-15", "t").by_estimate);
  CHECK(hours.point("2026-06-15", "t").sooner_if.empty());
}

TEST_CASE("within a fifth of its limit a value is to be measured again") {
  for (const auto& [value, again] : {std::pair{"7.999999", false}, {"8", true}, {"9.9", true}, {"10", false}}) {
    CAPTURE(value);
    CHECK(worn(value).point("2026-06-15", "t").measure_again.empty() == !again);  // at 10 it is due
  }
  for (const auto& [value, again] : {std::pair{"18.000001", false}, {"18", true}, {"15.5", true}, {"14", false}}) {
    CAPTURE(value);
    World tyre = task("every: {months: 12, measured: {tread: {below: 15, unit: mm}}}");
    tyre.done("t", "2026-01-01");
    tyre.measured("tread", value, "2026-02-01", "mm");
    CHECK(tyre.point("2026-06-15", "t").measure_again.empty() == !again);
  }
  // Only the latest value since fitted counts.
  World world = worn("9");
  world.measured("wear", "3", "2025-07-01", "%");
  CHECK(world.point("2026-06-15", "t").measure_again.empty());
  world.measured("wear", "8.5", "2025-08-01", "%");
  CHECK((world.point("2026-06-15", "t").measure_again == Names{"wear"}));
  world.done("t", "2025-09-01");
  CHECK(world.point("2026-06-15", "t").measure_again.empty());
}

TEST_CASE("what is to be measured again is shown with its day, and is neither a gap nor anything due") {
  for (const auto& [value, shown] : {std::pair{"7", std::size_t{0}}, {"9", std::size_t{1}}}) {
    const World world = worn(value);
    const DueList list =
        due_list(world.snapshot("2026-06-15"), {day("2026-07-15"), {}, Detail::coming}, straight_line());
    const DueRows rows = rows_of(list, {});
    CHECK(rows.points.size() == shown);
    CHECK(rows.later == 1 - shown);
    CHECK_FALSE(rows.anything_due);
    CHECK_FALSE(needs_doing(list));
    CHECK(overdue_list(list).empty());
    if (shown == 1) CHECK(told(*rows.points.front()) == "later calendar 2027-02-18");
  }
}

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
    CHECK(unforeseen(point));
    point.limbs[1].state = LimbState::not_reached;
    CHECK(day_kind(point) == DayKind::span);  // sooner in less than one case of ten
    CHECK_FALSE(unforeseen(point));
    point.limbs[1].unforeseen = true;
    CHECK(day_kind(point) == DayKind::at_latest);
  }
}

TEST_CASE("of a machine that stands, and nobody knows until when, nothing can be said by use") {
  World world = task("every: {hours: 100, months: 6}");
  world.reading("2025-01-01", "1000");
  world.done("t", "2026-01-01", "1365");
  CHECK(day_kind(world.point("2026-01-10", "t")) == DayKind::span);
  World standing = world;
  standing.state(FactKind::out_of_use, "2026-01-05");
  CHECK(day_kind(standing.point("2026-01-10", "t")) == DayKind::at_latest);
  CHECK(unforeseen(standing.point("2026-01-10", "t")));
  World until = world;
  until.state(FactKind::laid_up, "2026-01-05", "2026-12-01");
  CHECK_FALSE(unforeseen(until.point("2026-01-10", "t")));
}
