// The due list as events: which, when, under which names, and which calendar is the newer one.
#include "service/calendar.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "support/world.h"

using service::Calendar;
using service::CalendarEvent;
using service::DueList;
using service::EventKind;
using test::day;

namespace {

constexpr const char* two_tasks =
    "  oil: {do: Oil, every: {hours: 250, months: 12}}\n  tyre: {do: Tyre, every: {months: 24}, positions: [left, "
    "right]}\n"
    "  belt: {do: Belt, every: {signs: [squeal]}}\n";

struct Asked {
  DueList list;
  Calendar calendar;
};

// In the world as it is.
Asked asked(const test::World& world, std::string_view as_of, const std::vector<service::Fact>& book = {}) {
  Asked asked{world.due(as_of), {}};
  asked.calendar = service::due_calendar(asked.list, service::rows_of(asked.list, {true, false}),
                                         service::version_of(book, day(as_of)));
  return asked;
}

const CalendarEvent* of(const Calendar& calendar, std::string_view task, std::string_view position = "") {
  const auto found = std::find_if(calendar.events.begin(), calendar.events.end(), [&](const CalendarEvent& event) {
    return event.kind == EventKind::point && event.point->name == task && event.point->position == position;
  });
  return found == calendar.events.end() ? nullptr : &*found;
}

service::Fact fact(std::string_view on, std::int64_t entered) {
  service::Fact fact;
  fact.kind = service::FactKind::reading;
  fact.on = test::span(on);
  fact.entered = entered;
  return fact;
}

}  // namespace

TEST_CASE("what needs doing is an event of today, all else of its day") {
  test::World world(two_tasks, "in-service: {on: 2025-01-10, at: 0}");
  world.reading("2025-06-01", "100");
  const Asked early = asked(world, "2025-06-01");
  const CalendarEvent* tyre = of(early.calendar, "tyre", "left");
  REQUIRE(tyre != nullptr);
  CHECK(tyre->on == day("2027-01-10"));
  CHECK(of(early.calendar, "tyre", "right")->uid != tyre->uid);
  CHECK(of(early.calendar, "belt") == nullptr);  // nobody saw it squeal: quiet
  CHECK(early.calendar.events.front().kind == EventKind::summary);
  CHECK(early.calendar.events.front().on == day("2025-06-01"));
  const Asked late = asked(world, "2026-03-01");
  REQUIRE(of(late.calendar, "oil") != nullptr);
  CHECK(of(late.calendar, "oil")->on == day("2026-03-01"));  // overdue since January
  CHECK(of(late.calendar, "oil")->uid == of(early.calendar, "oil")->uid);
  // Its next interval is another event.
  world.done("oil", "2026-03-01");
  const Asked after = asked(world, "2026-03-02");
  CHECK(of(after.calendar, "oil")->uid != of(late.calendar, "oil")->uid);
  CHECK(of(after.calendar, "oil")->on > day("2026-03-02"));
}

TEST_CASE("no two events have one name") {
  test::World world(two_tasks, "in-service: {on: 2025-01-10, at: 0}");
  const Asked all = asked(world, "2026-03-01");
  std::set<std::string> uids;
  for (const CalendarEvent& event : all.calendar.events) uids.insert(event.uid);
  CHECK(uids.size() == all.calendar.events.size());
  CHECK(uids.size() > 2);
}

TEST_CASE("what is not known is an event of today") {
  test::World world(two_tasks, "bought: {on: 2025-01-10, at: 0}");
  const Asked all = asked(world, "2026-03-01");
  std::map<EventKind, int> kinds;
  for (const CalendarEvent& event : all.calendar.events) {
    ++kinds[event.kind];
    CHECK(event.on == day("2026-03-01"));
  }
  CHECK(kinds[EventKind::no_record] == 1);
  // Each by itself.
  const DueList list = world.due("2026-03-01");
  const Calendar each = service::due_calendar(list, service::rows_of(list, {true, true}), {});
  REQUIRE(of(each, "oil") != nullptr);
  CHECK(of(each, "oil")->on == day("2026-03-01"));
}

TEST_CASE("a limb that is not known is an event of today beside that of the due day") {
  test::World world(two_tasks, "bought: {on: 2025-01-10, at: 0}");
  world.done("oil", "2024-12-01");  // nobody knows at what
  const Asked all = asked(world, "2025-06-01");
  REQUIRE(of(all.calendar, "oil") != nullptr);
  REQUIRE_FALSE(of(all.calendar, "oil")->point->unknown.empty());
  CHECK(of(all.calendar, "oil")->on == day("2025-12-01"));
  const auto asks = [](const CalendarEvent& event) { return event.kind == EventKind::find_out; };
  const auto& events = all.calendar.events;
  const auto find_out = std::find_if(events.begin(), events.end(), asks);
  const bool found = find_out != events.end();
  REQUIRE(found);
  CHECK(find_out->on == day("2025-06-01"));
  CHECK(find_out->uid != of(all.calendar, "oil")->uid);
}

TEST_CASE("the version rises with facts and days, and never falls") {
  const auto version = [](const std::vector<service::Fact>& book, std::string_view as_of) {
    return service::version_of(book, day(as_of));
  };
  const std::vector<service::Fact> one{fact("2026-01-05", 1'767'600'000'000)};
  std::vector<service::Fact> two = one;
  two.push_back(fact("2026-01-04", 1'767'700'000'000));
  CHECK(version(two, "2026-01-06").sequence == version(one, "2026-01-06").sequence + 1);
  CHECK(version(two, "2026-01-06").changed >= version(one, "2026-01-06").changed);
  CHECK(version(one, "2026-01-07").sequence == version(one, "2026-01-06").sequence + 1);
  CHECK(version(one, "2026-01-07").changed > version(one, "2026-01-06").changed);
  CHECK(version(one, "2026-01-04").sequence == version({}, "2026-01-04").sequence);  // not there yet
  CHECK(version({}, "1990-01-01").sequence == 0);
  CHECK(version({}, "1960-01-01").changed == 0);
}
