// The due list as events: which, when, under which names, and which calendar is the newer one.
#include "service/calendar.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "standing/kept_lines.h"
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

TEST_CASE("the day on which a machine is back says what is to be seen to before") {
  test::World world(
      "  oil: {do: Oil, every: {months: 6}}\n  guard: {do: Guard, every: {months: 8}, safety: true}\n"
      "  belt: {do: Belt, every: {signs: [squeal]}}\n  filter: {do: Filter, every: {months: 30}}\n",
      "in-service: {on: 2025-01-10, at: 0}");
  world.state(service::FactKind::laid_up, "2025-08-01", "2025-12-01");
  world.sign("squeal", "2025-07-30");
  world.sign("a knock below", "2025-07-31");
  const auto back_in = [](const Asked& asked) {
    const auto& events = asked.calendar.events;
    const auto found = std::find_if(events.begin(), events.end(),
                                    [](const CalendarEvent& event) { return event.kind == EventKind::not_in_use; });
    REQUIRE((found != events.end()));
    std::string told = service::to_text(found->on) + ':';
    for (const service::Point* point : found->before_back) told += ' ' + point->name;
    for (const service::SeenSign* seen : found->seen_before_back) told += ", " + seen->sign;
    for (const service::Point* point : found->due_by_then) told += "; due by then: " + point->name;
    return told;
  };
  // The guard is due on 2025-09-10, and never waits; the filter comes in 2027.
  CHECK(back_in(asked(world, "2025-09-01")) == "2025-12-01: oil belt, a knock below; due by then: guard");
  CHECK(back_in(asked(world, "2025-09-10")) == "2025-12-01: oil belt guard, a knock below");
}

TEST_CASE("what comes due while a machine stands, or on the day it is back, is named on that day") {
  // Due on 2025-10-10, 2025-12-01 and 2025-12-02.
  test::World world(
      "  a: {do: A, every: {months: 9}}\n  b: {do: B, every: {days: 325}}\n  c: {do: C, every: {days: 326}}\n",
      "in-service: {on: 2025-01-10, at: 0}");
  const auto due_by_then = [](const Calendar& calendar) {
    std::string told;
    for (const CalendarEvent& event : calendar.events) {
      if (event.kind != EventKind::not_in_use) continue;
      for (const service::Point* point : event.due_by_then) told += point->name;
    }
    return told;
  };
  world.state(service::FactKind::laid_up, "2025-08-01", "2025-12-01");
  const Asked until = asked(world, "2025-09-01");
  CHECK(due_by_then(until.calendar) == "ab");
  // Out of use, or without a day, nobody knows when it is back.
  world.state(service::FactKind::laid_up, "2025-08-02");
  CHECK(due_by_then(asked(world, "2025-09-01").calendar).empty());
  world.state(service::FactKind::laid_up, "2025-08-03", "2025-12-01");
  world.state(service::FactKind::out_of_use, "2025-08-04");
  CHECK(due_by_then(asked(world, "2025-09-01").calendar).empty());
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
  CHECK(version(one, "2026-01-07").sequence == version(one, "2026-01-06").sequence + 50'000);
  CHECK(version(one, "2026-01-07").changed > version(one, "2026-01-06").changed);
  CHECK(version(one, "2026-01-04").sequence == version({}, "2026-01-04").sequence);  // not there yet
  // A day is above the one before, however many facts a backup has lost.
  const std::vector<service::Fact> many(60'000, fact("2026-01-05", 1'767'600'000'000));
  CHECK(version({}, "2026-01-07").sequence > version(many, "2026-01-06").sequence);
  CHECK(version({}, "2199-12-31").sequence == 2'147'483'647);  // the highest that calendars have
  CHECK(version({}, "1990-01-01").sequence == 0);
  CHECK(version({}, "1960-01-01").changed == 0);
}

namespace {

constexpr const char* one_task = "  oil: {do: Oil, every: {months: 12}}\n";
constexpr const char* longer = "  oil: {do: Oil, every: {months: 24}}\n";

test::World serviced(const char* tasks) {
  test::World world(tasks, "bought: {on: 2020-01-01, at: 0}");
  world.done("oil", "2026-01-05");
  return world;
}

// As it is handed out and remembered; of `oil`.
struct Out {
  service::Day on;
  std::int64_t sequence = 0;
  std::int64_t changed = 0;
  friend bool operator==(const Out&, const Out&) = default;
};

class Publisher {
 public:
  Out publish(const test::World& world, std::string_view as_of, std::size_t facts) {
    Asked now = asked(world, as_of, std::vector<service::Fact>(facts, fact("2026-01-05", 1'767'600'000'000)));
    numbers_ = service::number_events(now.calendar, numbers_);
    // As it is kept in a file.
    const auto kept = service::parse_event_numbers(to_text(numbers_));
    REQUIRE_MESSAGE(bool(kept), kept.problem);
    CHECK(bool(*kept == numbers_));
    const CalendarEvent* oil = of(now.calendar, "oil");
    REQUIRE(oil != nullptr);
    return {oil->on, oil->sequence, oil->changed};
  }
  const service::EventNumbers& numbers() const { return numbers_; }

 private:
  service::EventNumbers numbers_;
};

}  // namespace

TEST_CASE("an event that moved has a higher number and a later stamp, whatever moved it") {
  const test::World before = serviced(one_task);
  const test::World after = serviced(longer);
  Publisher publisher;
  const Out first = publisher.publish(before, "2026-03-01", 10);
  CHECK(bool(publisher.publish(before, "2026-03-01", 10) == first));  // asked again
  // Its interval was edited on the same day, and back.
  const Out edited = publisher.publish(after, "2026-03-01", 10);
  CHECK(edited.on > first.on);
  CHECK(edited.sequence > first.sequence);
  CHECK(edited.changed / 1000 > first.changed / 1000);
  CHECK(bool(publisher.publish(after, "2026-03-01", 10) == edited));
  const Out back = publisher.publish(before, "2026-03-01", 10);
  CHECK(bool(back.on == first.on));
  CHECK(back.sequence > edited.sequence);
  CHECK(back.changed / 1000 > edited.changed / 1000);
  // A backup that has lost facts: nothing falls, and what moved rises.
  const Out restored = publisher.publish(before, "2026-03-01", 4);
  CHECK(bool(restored == back));
  const Out moved = publisher.publish(after, "2026-03-01", 4);
  CHECK(moved.sequence > back.sequence);
  CHECK(moved.changed > back.changed);
  // The next day all are newer, with the facts lost; and a clock that was ahead for a day takes nothing back.
  const Out next = publisher.publish(after, "2026-03-02", 4);
  CHECK(next.sequence > moved.sequence);
  CHECK(next.changed >= moved.changed);
  const Out ahead = publisher.publish(after, "2026-05-01", 4);
  const Out again = publisher.publish(after, "2026-03-03", 4);
  CHECK(again.sequence >= ahead.sequence);
  CHECK(publisher.publish(before, "2026-03-03", 4).sequence > again.sequence);
}

TEST_CASE("an event that moved within its day has a higher number and a later stamp") {
  const test::World world = serviced(one_task);
  service::EventNumbers numbers;
  const auto publish = [&](const std::string& hours) {
    Asked now = asked(world, "2026-03-01");
    now.calendar.events.back().hours = hours;
    numbers = service::number_events(now.calendar, numbers);
    const auto kept = service::parse_event_numbers(to_text(numbers));
    REQUIRE_MESSAGE(bool(kept), kept.problem);
    CHECK(bool(*kept == numbers));
    return std::pair{now.calendar.events.back().sequence, now.calendar.events.back().changed};
  };
  const auto morning = publish("van 480-540");
  CHECK(bool(publish("van 480-540") == morning));
  const auto noon = publish("van 700-760");
  CHECK(noon.first > morning.first);
  CHECK(noon.second / 1000 > morning.second / 1000);
  const auto another = publish("fitter 700-760");
  CHECK(another.first > noon.first);
  CHECK(bool(publish("fitter 700-760") == another));
}

TEST_CASE("numbers that an earlier program kept, without hours, still hold") {
  const test::World world = serviced(one_task);
  Publisher publisher;
  publisher.publish(world, "2026-03-01", 10);
  std::string text = "events as handed out, 1\n";
  for (const auto& [uid, event] : publisher.numbers()) {
    text += uid + '\t' + service::to_text(event.on) + '\t' + std::to_string(event.sequence) + '\t' +
            std::to_string(event.changed) + '\n';
  }
  const auto kept = service::parse_event_numbers(service::sealed(text));
  REQUIRE_MESSAGE(bool(kept), kept.problem);
  CHECK(bool(*kept == publisher.numbers()));
}

TEST_CASE("what is kept of numbers is what can still be fallen behind, other scopes' too") {
  const test::World world = serviced(two_tasks);
  Publisher publisher;
  publisher.publish(world, "2026-03-01", 10);
  const std::size_t all = publisher.numbers().size();
  CHECK(all > 2);
  // A calendar of less on the same day forgets nothing; one of the next day keeps its own alone.
  Asked summary = asked(world, "2026-03-01");
  summary.calendar.events.resize(1);
  CHECK(service::number_events(summary.calendar, publisher.numbers()).size() == all);
  Asked tomorrow = asked(world, "2026-03-02");
  tomorrow.calendar.events.resize(1);
  CHECK(service::number_events(tomorrow.calendar, publisher.numbers()).size() == 1);
}

TEST_CASE("numbers that were kept and are damaged are a problem and nothing else") {
  const test::World world = serviced(one_task);
  Publisher publisher;
  publisher.publish(world, "2026-03-01", 10);
  const std::string kept = to_text(publisher.numbers());
  CHECK(bool(service::parse_event_numbers(kept)));
  for (std::size_t length = 0; length < kept.size(); ++length) {
    CHECK_FALSE(bool(service::parse_event_numbers(kept.substr(0, length))));
  }
  std::string spoilt = kept;
  spoilt[kept.find("2026")] = '3';
  CHECK(service::parse_event_numbers(spoilt).problem == "is damaged");
  CHECK(service::parse_event_numbers("something else\n").problem == "is not what this program keeps");
}

TEST_CASE("one thing is on one day under one name in the due list's calendar and in the overdue list's") {
  test::World world(two_tasks, "bought: {on: 2025-01-10, at: 0}");
  world.done("oil", "2024-12-01");  // nobody knows at what
  world.done("tyre", "2020-01-01", "", "left");
  const Asked due = asked(world, "2025-06-01");
  const Calendar overdue = service::overdue_calendar(due.list, {});
  int shared = 0;
  for (const CalendarEvent& event : overdue.events) {
    const auto same = std::find_if(due.calendar.events.begin(), due.calendar.events.end(),
                                   [&](const CalendarEvent& other) { return other.uid == event.uid; });
    if (same == due.calendar.events.end()) continue;
    ++shared;
    CHECK(bool(same->on == event.on));
  }
  CHECK(shared > 2);
}

TEST_CASE("what is put off or laid up is counted as that, as in a mail") {
  using service::CalendarCount;
  using service::Counted;
  test::World world(one_task, "bought: {on: 2020-01-01, at: 0}");
  const auto counts = [&](std::string_view as_of) { return asked(world, as_of).calendar.counts; };
  world.done("oil", "2026-01-05");
  world.put_off("oil", "2027-01-06", "2027-01-20");
  CHECK(bool(counts("2027-01-10") == std::vector<CalendarCount>{{Counted::put_off, 1}}));
  CHECK(bool(counts("2027-01-20") == std::vector<CalendarCount>{{Counted::overdue, 1}}));
  world.state(service::FactKind::laid_up, "2027-01-21");
  CHECK(bool(counts("2027-01-21") == std::vector<CalendarCount>{{Counted::laid_up, 1}}));
}

TEST_CASE("what forbids to run a machine is counted as that, and what comes beside it") {
  using service::CalendarCount;
  using service::Counted;
  test::World world(
      "  h: {do: Hoses, every: {years: 2, signs: [leak]}, safety: true}\n  o: {do: Oil, every: {years: 1}}\n",
      "in-service: 2026-01-01");
  world.sign("leak", "2026-02-10");
  const service::Calendar calendar = asked(world, "2026-02-10").calendar;
  // As the due list has it, which counts the machine by itself too.
  CHECK(bool(calendar.counts == std::vector<CalendarCount>{{Counted::not_to_run, 1}, {Counted::due, 1}}));
  CHECK(bool(calendar.ahead == std::vector<CalendarCount>{{Counted::later, 1}}));
  const DueList list = world.due("2026-02-10");
  const service::Calendar overdue = service::overdue_calendar(list, {});
  CHECK(bool(overdue.counts == std::vector<CalendarCount>{{Counted::not_to_run, 1}}));
  REQUIRE(overdue.events.size() == 2);
  CHECK(bool(overdue.events[1].heading == service::OverdueHeading::do_not_run));
}

TEST_CASE("a calendar that takes another's place has a higher number and a later stamp") {
  const service::CalendarVersion version{100, 5000};
  CHECK(service::version_after(version, 99).sequence == 100);
  CHECK(service::version_after(version, 99).changed == 5000);
  CHECK(service::version_after(version, 100).sequence == 101);
  CHECK(service::version_after(version, 100).changed == 6000);
  CHECK(service::version_after(version, 104).sequence == 105);
  CHECK(service::version_after(version, 2'147'483'647).sequence == 2'147'483'647);
}

TEST_CASE("nor is what nobody knows of a machine that is laid up to be found out today") {
  using service::CalendarCount;
  using service::Counted;
  test::World world(one_task, "bought: {on: 2020-01-01, at: 0}");
  world.state(service::FactKind::laid_up, "2026-02-01");
  const DueList list = world.due("2026-02-01");
  const auto counts = asked(world, "2026-02-01").calendar.counts;
  CHECK(bool(counts == service::overdue_calendar(list, {}).counts));
  CHECK(std::count(counts.begin(), counts.end(), CalendarCount{Counted::laid_up, 1}) == 1);
}

TEST_CASE("what needs doing and what is not known is counted, and nothing where there is neither") {
  using service::CalendarCount;
  using service::Counted;
  test::World world(one_task, "bought: {on: 2020-01-01, at: 0}");
  const auto counts = [&](std::string_view as_of) { return asked(world, as_of).calendar.counts; };
  CHECK(bool(counts("2026-02-01") == std::vector<CalendarCount>{{Counted::find_out, 1}}));
  world.done("oil", "2026-01-05");
  CHECK(counts("2026-02-01").empty());
  CHECK(bool(counts("2027-01-05") == std::vector<CalendarCount>{{Counted::due, 1}}));
  world.sign("odd noise", "2027-01-05");
  world.state(service::FactKind::out_of_use, "2027-01-05");
  CHECK(bool(counts("2027-01-06") ==
             std::vector<CalendarCount>{{Counted::not_to_run, 1}, {Counted::overdue, 1}, {Counted::seen, 1}}));
  const DueList list = world.due("2027-01-06");
  CHECK(bool(service::overdue_calendar(list, {}).counts ==
             std::vector<CalendarCount>{{Counted::not_to_run, 1}, {Counted::overdue, 1}, {Counted::seen, 1}}));
}
