// Services to come, where use is certain: held against the day-by-day life of the same machine, in which every day's
// due list is asked and every due point is written down as done.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "service/workload.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::World;

namespace {

// `2026-03-01 oil`, sorted.
using Diary = std::vector<std::string>;

std::string entry(Day on, const std::string& name, const std::string& position) {
  return to_text(on) + ' ' + name + (position.empty() ? "" : '@' + position);
}

Diary outlook_of(const World& world, std::string_view as_of, std::string_view to) {
  const Snapshot snapshot = world.snapshot(as_of);
  const Outlook outlook(snapshot, *snapshot.fleet().machine("m"), straight_line());
  Diary diary;
  for (const ComingService& service : outlook.draw(1, day(to))) {
    const OutlookPoint& point = outlook.points()[service.point];
    diary.push_back(entry(service.day, point.name, point.position));
  }
  std::sort(diary.begin(), diary.end());
  return diary;
}

int covered_by(const Schedule& schedule, const std::string& task) {
  int count = 0;
  for (const Task& other : schedule.tasks) {
    const auto names = counted_as(schedule, other.name);
    if (other.name != task && std::find(names.begin(), names.end(), task) != names.end()) ++count;
  }
  return count;
}

// The machine runs on exactly as the straight line from its last reading says, is read every evening, and what is due
// is done the same evening, the tasks that include most first.
Diary lived(World world, std::string_view as_of, std::string_view to) {
  std::vector<std::unique_ptr<const UsageAhead>> lines;
  const Snapshot start = world.snapshot(as_of);
  const Machine& machine = *start.fleet().machine("m");
  const auto histories = meter_histories(start, machine);
  for (const Meter& meter : machine.meters) {
    lines.push_back(straight_line()(
        {start.fleet(), machine, meter, histories.at(meter.name), use_state(start, machine), start.as_of()}));
  }
  Diary diary;
  for (Day today = day(as_of); today <= day(to); today += std::chrono::days{1}) {
    const std::string text = to_text(today);
    for (std::size_t i = 0; i < machine.meters.size(); ++i) {
      const auto usage = lines[i]->on(today, Quantile::p50);
      if (usage) world.reading(text, to_text(*usage), machine.meters[i].name);
    }
    for (;;) {
      const auto list = due_list(world.snapshot(text), {today, {}}, straight_line());
      const Point* next = nullptr;
      const auto rank = [&](const Point& point) {
        return point.follow_up != nullptr ? -1 : covered_by(start.fleet().schedule_of(machine), point.name);
      };
      for (const Point& point : list.points) {
        const bool due = (point.standing == Standing::overdue || point.standing == Standing::due) && !point.put_off;
        // What was done today is not done again today, however small its interval.
        const std::string line = entry(today, point.name, point.position);
        if (!due || std::find(diary.begin(), diary.end(), line) != diary.end()) continue;
        if (next == nullptr || rank(point) > rank(*next)) next = &point;
      }
      if (next == nullptr) break;
      diary.push_back(entry(today, next->name, next->position));
      world.done(next->name, text, "", next->position);
    }
  }
  std::sort(diary.begin(), diary.end());
  return diary;
}

void same(const World& world, std::string_view as_of, std::string_view to, std::size_t at_least) {
  const Diary expected = lived(world, as_of, to);
  const Diary got = outlook_of(world, as_of, to);
  CHECK(expected.size() >= at_least);
  std::string missing;
  std::string surplus;
  for (const std::string& line : expected) {
    if (std::count(got.begin(), got.end(), line) == 0) missing += line + '\n';
  }
  for (const std::string& line : got) {
    if (std::count(expected.begin(), expected.end(), line) == 0) surplus += line + '\n';
  }
  CHECK(missing.empty());
  CHECK(surplus.empty());
  if (!missing.empty() || !surplus.empty()) MESSAGE("missing:\n" << missing << "surplus:\n" << surplus);
  CHECK(got.size() == expected.size());
}

// Two hours a day, known for a year.
void run_on(World& world, const std::string& first = "2025-01-01") {
  world.reading(first, "0");
  world.reading("2026-01-01", std::to_string(2 * days_between(day(first), day("2026-01-01"))));
}

}  // namespace

TEST_CASE("hours and months, whichever comes first, again and again") {
  World world(
      "  oil: {do: Oil, every: {hours: 250, months: 3}}\n"
      "  air: {do: Air, every: {hours: 333}}\n"
      "  belt: {do: Belt, every: {months: 1}}\n"
      "  tyre: {do: Tyre, every: {weeks: 10}, positions: [left, right]}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  run_on(world);
  world.done("oil", "2025-12-01", "668");
  world.done("air", "2025-11-01", "608");
  world.done("belt", "2025-10-31", "606");
  world.done("tyre", "2025-12-20", "", "left");
  same(world, "2026-01-01", "2026-12-31", 29);
}

TEST_CASE("an interval counts from the due point or from when it was done") {
  for (const char* from : {"done", "due", "earlier"}) {
    CAPTURE(std::string(from));
    World world(std::string("  oil: {do: Oil, every: {hours: 100, months: 2}, grace: 10%, counts-from: ") + from +
                    "}\n  exam: {do: Exam, every: {months: 5}, until: month-end, counts-from: " + from +
                    "}\n  chain: {do: Chain, every: {months: 1}, counts-from: " + from + "}\n",
                "in-service: {on: 2025-01-01, at: 0}");
    run_on(world);
    world.done("oil", "2025-12-01", "661");
    world.done("exam", "2025-09-30");
    world.done("chain", "2025-12-31");
    same(world, "2026-01-01", "2026-12-31", 20);
  }
}

TEST_CASE("a service of one task serves what it covers, and a limb counts another task's changes") {
  World world(
      "  small: {do: Small, every: {hours: 100}}\n"
      "  big: {do: Big, every: {hours: 400}, covers: [small]}\n"
      "  whole: {do: Whole, every: {months: 9}, covers: [big]}\n"
      "  inner: {do: Inner, every: {changes: {small: 3}, years: 2}}\n"
      "  outer: {do: Outer, every: {changes: {inner: 2}}}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  run_on(world);
  world.done("whole", "2025-11-11", "628");
  world.done("inner", "2025-11-11", "628");
  world.done("outer", "2025-11-11", "628");
  same(world, "2026-01-01", "2026-12-31", 11);
}

TEST_CASE("running-in, checks that follow, seasons and two meters") {
  World world(
      "  oil: {do: Oil, every: {hours: 250}, first: {hours: 50}, follow-up: {leaks: {do: Look, within: {hours: 1}}, "
      "again: {do: Look again, within: {days: 30}}}}\n"
      "  drum: {do: Drum, every: {usage: {separator: 90}, season: {harvest: 14 days before}}}\n",
      "in-service: {on: 2025-12-10, at: 0}", "seasons: {harvest: {from: 08-01, to: 09-20}}\n",
      "meters: {engine: {unit: h}, separator: {unit: h}}\n");
  world.reading("2026-01-10", "40", "engine");
  world.reading("2026-01-10", "15.5", "separator");
  same(world, "2026-01-10", "2026-12-31", 8);
}

TEST_CASE("a machine laid up until a day is served when it is back") {
  World world("  oil: {do: Oil, every: {hours: 250, months: 6}}\n", "in-service: {on: 2025-01-01, at: 0}");
  run_on(world);
  world.done("oil", "2025-09-01", "486");
  world.state(FactKind::laid_up, "2026-01-01", "2026-05-01");
  const Diary diary = outlook_of(world, "2026-01-15", "2026-12-31");
  REQUIRE(diary.size() == 2);
  CHECK(diary[0] == "2026-05-01 oil");
  CHECK(diary[1] == "2026-09-03 oil");  // 250 h at 2 h a day
  World other("  oil: {do: Oil, every: {hours: 250, months: 6}}\n", "in-service: {on: 2025-01-01, at: 0}");
  run_on(other);
  other.state(FactKind::out_of_use, "2026-01-01");
  CHECK(outlook_of(other, "2026-01-15", "2026-12-31").empty());
}

TEST_CASE("what was put off is done when that ends") {
  World world("  oil: {do: Oil, every: {months: 6}}\n", "in-service: {on: 2025-01-01, at: 0}");
  run_on(world);
  world.done("oil", "2025-06-01");
  world.put_off("oil", "2026-01-01", "2026-03-15");
  CHECK((outlook_of(world, "2026-01-15", "2026-12-31") == Diary{"2026-03-15 oil", "2026-09-15 oil"}));
}

TEST_CASE("what is put off before it comes due is done when that ends, and never before it comes due") {
  const auto diary = [](const char* until, const char* at = "") {
    World world("  oil: {do: Oil, every: {months: 6}}\n", "in-service: {on: 2025-01-01, at: 0}");
    run_on(world);
    world.done("oil", "2025-11-01");
    world.put_off("oil", "2026-01-01", until, at);
    return outlook_of(world, "2026-01-15", "2026-12-31");
  };
  CHECK((diary("2026-07-15") == Diary{"2026-07-15 oil"}));
  CHECK((diary("2026-04-01") == Diary{"2026-05-01 oil", "2026-11-01 oil"}));
  World covered(
      "  oil: {do: Oil, every: {months: 6}}\n"
      "  big: {do: Big, every: {months: 12}, covers: [oil]}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  run_on(covered);
  covered.done("oil", "2025-11-01");
  covered.done("big", "2025-03-01");
  covered.put_off("oil", "2026-01-01", "2026-12-01");
  // The big service ends the delay: half a year later it is done again.
  CHECK((outlook_of(covered, "2026-01-15", "2026-10-01") == Diary{"2026-03-01 big", "2026-09-01 oil"}));
}
