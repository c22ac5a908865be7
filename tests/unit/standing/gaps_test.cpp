// What is not known is said: machines without facts, meters nobody reads, contradictions, strangers, a wrong clock.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "support/world.h"

using service::DueList;
using service::FactKind;
using service::Gap;
using service::GapKind;
using test::day;
using test::text_or_none;
using test::World;

namespace {

World hours(const std::string& start = "bought: {on: 2020-01-01, at: 0}", const std::string& more = "",
            const std::string& meters = "") {
  return World("  t: {do: Work, every: {hours: 10000}}\n", start, more, meters);
}

std::vector<Gap> gaps(const DueList& list, GapKind kind) {
  std::vector<Gap> found;
  std::copy_if(list.gaps.begin(), list.gaps.end(), std::back_inserter(found),
               [&](const Gap& gap) { return gap.kind == kind; });
  return found;
}

std::size_t count(const World& world, std::string_view as_of, GapKind kind) {
  return gaps(world.due(as_of), kind).size();
}

DueList by_the_clock(const World& world, std::string_view today, std::string_view newest) {
  const service::Snapshot snapshot(std::make_shared<const service::Fleet>(world.fleet()),
                                   {world.facts(), {}, day(newest)}, day(today), false);
  return service::due_list(snapshot, day(today) + std::chrono::days{30});
}

}  // namespace

TEST_CASE("a reading is fresh for sixty days and stale on the sixty-first") {
  World world = hours();
  world.reading("2026-01-01", "100");
  CHECK(count(world, "2026-03-02", GapKind::stale) == 0);  // 30 days of January, 28 and 2
  const auto stale = gaps(world.due("2026-03-03"), GapKind::stale);
  REQUIRE(stale.size() == 1);
  CHECK(stale.front().machine == "m");
  CHECK(stale.front().meter == "engine");
  CHECK(text_or_none(stale.front().since) == "2026-01-01");
  CHECK(stale.front().say.find("61 days") != std::string::npos);
}

TEST_CASE("the fleet says after how many days a reading is stale") {
  World world = hours("bought: {on: 2020-01-01, at: 0}", "stale-after: 90 days\n");
  world.reading("2026-01-01", "100");
  CHECK(count(world, "2026-04-01", GapKind::stale) == 0);  // 31 + 28 + 31
  CHECK(count(world, "2026-04-02", GapKind::stale) == 1);
}

TEST_CASE("the value at a service keeps a meter fresh") {
  World world = hours();
  world.reading("2026-01-01", "100");
  world.done("t", "2026-02-15", "130");
  CHECK(count(world, "2026-03-03", GapKind::stale) == 0);
}

TEST_CASE("a service without a value keeps no meter fresh") {
  World world = hours();
  world.reading("2026-01-01", "100");
  world.done("t", "2026-02-15");
  CHECK(count(world, "2026-03-03", GapKind::stale) == 1);
}

TEST_CASE("each meter grows stale by itself") {
  World world("  t: {do: Work, every: {usage: {engine: 10000, pto: 10000}}}\n", "in-service: {on: 2025-01-01, at: 0}",
              "", "meters: {engine: {unit: h}, pto: {unit: h}}\n");
  world.reading("2026-01-01", "100");
  world.reading("2026-01-01", "40", "pto");
  world.reading("2026-03-01", "120");
  const auto stale = gaps(world.due("2026-03-10"), GapKind::stale);
  REQUIRE(stale.size() == 1);
  CHECK(stale.front().meter == "pto");
}

TEST_CASE("a machine laid up is not stale while it is laid up") {
  World world = hours();
  world.reading("2026-01-01", "100");
  World laid_up = world;
  laid_up.state(FactKind::laid_up, "2026-01-10");
  CHECK(count(world, "2026-06-01", GapKind::stale) == 1);
  CHECK(count(laid_up, "2026-06-01", GapKind::stale) == 0);
  laid_up.state(FactKind::back, "2026-06-01");
  CHECK(count(laid_up, "2026-12-01", GapKind::stale) == 1);
}

TEST_CASE("a meter that nobody ever read is said") {
  World world = hours("bought: 2025-01-01");
  world.done("t", "2025-02-01");
  const auto unread = gaps(world.due("2026-01-01"), GapKind::no_reading);
  REQUIRE(unread.size() == 1);
  CHECK(unread.front().machine == "m");
  CHECK(unread.front().meter == "engine");
  CHECK(count(hours("in-service: {on: 2025-01-01, at: 5}"), "2026-01-01", GapKind::no_reading) == 1);
  world.reading("2026-01-01", "100");
  CHECK(count(world, "2026-01-01", GapKind::no_reading) == 0);
}

TEST_CASE("a machine of which nothing is recorded is one gap and one line") {
  const World world = hours("");
  const auto list = world.due("2026-01-01");
  CHECK(gaps(list, GapKind::nothing_recorded).size() == 1);
  CHECK(service::nothing_known(list, *world.fleet().machine("m")));
  // Nor does the day on which it was bought tell anything of its services.
  const World bought = hours("bought: 2025-06-01");
  CHECK(service::nothing_known(bought.due("2026-01-01"), *bought.fleet().machine("m")));
  CHECK(bought.due("2026-01-01").gaps.size() == 1);
  World one = hours("");
  one.reading("2025-12-20", "100");
  CHECK(count(one, "2026-01-01", GapKind::nothing_recorded) == 0);
  CHECK_FALSE(service::nothing_known(one.due("2026-01-01"), *one.fleet().machine("m")));
}

TEST_CASE("of a machine put in service new something is known from the first day") {
  const World world = hours("in-service: {on: 2025-12-20, at: 0}");
  const auto list = world.due("2026-01-01");
  CHECK(gaps(list, GapKind::nothing_recorded).empty());
  CHECK_FALSE(service::nothing_known(list, *world.fleet().machine("m")));
}

TEST_CASE("readings that contradict each other are a gap that names both facts") {
  World world = hours();
  const service::FactId higher = world.reading("2026-01-01", "150").id;
  const service::FactId lower = world.reading("2026-01-10", "120").id;
  const auto contradictions = gaps(world.due("2026-01-11"), GapKind::contradiction);
  REQUIRE(contradictions.size() == 1);
  CHECK(contradictions.front().machine == "m");
  const auto names = [&](const service::FactId& id) {
    return std::count(contradictions.front().facts.begin(), contradictions.front().facts.end(), id);
  };
  CHECK(names(higher) == 1);
  CHECK(names(lower) == 1);
  world.strike(lower);
  CHECK(count(world, "2026-01-11", GapKind::contradiction) == 0);
}

TEST_CASE("facts about a machine that the fleet does not list are a gap") {
  World world = hours();
  world.reading("2026-01-01", "100");
  service::Fact fact;
  fact.kind = FactKind::reading;
  fact.machine = "ghost";
  fact.on = day("2026-01-02");
  fact.at = test::amount("5");
  const service::FactId first = world.add(fact).id;
  CHECK(count(world, "2026-01-01", GapKind::unlisted) == 0);  // not there yet
  const auto unlisted = gaps(world.due("2026-01-10"), GapKind::unlisted);
  REQUIRE(unlisted.size() == 1);
  CHECK(unlisted.front().machine == "ghost");
  world.strike(first);
  CHECK(count(world, "2026-01-10", GapKind::unlisted) == 0);
}

TEST_CASE("a clock before the newest fact is a gap, and a day that was asked for is not") {
  World world = hours();
  world.reading("2026-01-05", "100");
  const auto list = by_the_clock(world, "2026-01-04", "2026-01-05");
  REQUIRE(gaps(list, GapKind::clock).size() == 1);
  CHECK(gaps(list, GapKind::clock).front().machine.empty());
  CHECK(gaps(by_the_clock(world, "2026-01-05", "2026-01-05"), GapKind::clock).empty());
  CHECK(count(world, "2026-01-04", GapKind::clock) == 0);
}

TEST_CASE("a machine that is not ours on the day has no gaps") {
  World world = hours("bought: {on: 2020-01-01, at: 0}, left: 2026-01-01");
  world.reading("2025-01-01", "100");
  CHECK(count(world, "2025-12-31", GapKind::stale) == 1);
  for (const auto& gap : world.due("2026-01-01").gaps) CHECK(gap.machine.empty());
  CHECK(world.due("2026-01-01").machines == 0);
}

TEST_CASE("a list without any machine is no all-clear") {
  World world("  t: {do: T, every: {months: 12}}\n", "in-service: {on: 2026-01-01, at: 0}");
  const auto list = world.due("2025-12-31");
  CHECK(list.points.empty());
  REQUIRE(list.gaps.size() == 1);
  CHECK(list.gaps.front().kind == service::GapKind::no_machine);
  CHECK(service::overdue_list(list).size() == 1);
  CHECK(service::needs_doing(list));
  CHECK(world.due("2026-01-01").gaps.empty());
}

TEST_CASE("a machine that is not there is told by name, with its day, where it was asked about by name") {
  World world("  t: {do: T, every: {months: 12}}\n", "in-service: {on: 2024-01-01, at: 0}, left: 2026-01-01");
  const auto gaps = [&](std::string_view as_of, const service::Scope& scope) {
    return service::fleet_gaps(world.snapshot(as_of, scope));
  };
  const service::Scope named{std::vector<std::string>{"m"}};
  REQUIRE(gaps("2026-02-01", named).size() == 1);
  const auto gone = gaps("2026-02-01", named).front();
  CHECK(gone.kind == service::GapKind::no_machine);
  CHECK(gone.machine == "m");
  CHECK((gone.since == test::day("2026-01-01")));
  CHECK(gone.say == "it is not there on 2026-02-01: it left on 2026-01-01");
  CHECK(gaps("2023-12-31", named).front().say == "it is not there on 2023-12-31: it comes on 2024-01-01");
  CHECK(gaps("2025-12-31", named).empty());
  // Of the whole fleet, or of a site, nobody asked about it by name.
  CHECK(gaps("2026-02-01", {}).front().machine.empty());
  CHECK(gaps("2026-02-01", {std::vector<std::string>{"m"}, "yard"}).front().machine.empty());
}

TEST_CASE("facts about a machine after it left are said, on whatever day, though it has no points any more") {
  World world = hours("bought: {on: 2020-01-01, at: 0}, left: 2026-03-01");
  world.reading("2026-03-01", "100");  // the last day: what it showed when it was sold
  CHECK(count(world, "2026-06-01", GapKind::outside_days) == 0);
  world.reading("2026-03-02", "101");
  world.reading("2026-04-02", "110");
  const auto found = gaps(world.due("2026-06-01"), GapKind::outside_days);
  REQUIRE(found.size() == 1);
  CHECK(found.front().machine == "m");
  CHECK(text_or_none(found.front().since) == "2026-03-02");
  CHECK(found.front().facts.size() == 2);
  CHECK(found.front().say.find("2 facts after it left on 2026-03-01") == 0);
}

TEST_CASE("facts about a machine before it went into service new are said; before it was bought they are its history") {
  World world = hours("in-service: {on: 2027-01-01, at: 0}");
  world.done("t", "2026-03-01");
  const auto found = gaps(world.due("2026-06-01"), GapKind::outside_days);
  REQUIRE(found.size() == 1);
  CHECK(found.front().say.find("1 fact before it went into service on 2027-01-01") == 0);
  World used = hours("bought: {on: 2026-05-01, at: 0}");
  used.done("t", "2026-03-01");
  CHECK(count(used, "2026-06-01", GapKind::outside_days) == 0);
}

TEST_CASE("a machine of which something is written down though it is still to come is said, new or used") {
  for (const char* start : {"bought: {on: 2062}", "in-service: {on: 2027}"}) {
    CAPTURE(start);
    World world = hours(start);
    CHECK(count(world, "2026-06-01", GapKind::outside_days) == 0);  // somebody knows that it comes
    world.reading("2026-03-01", "1200");
    const auto found = gaps(world.due("2026-06-01"), GapKind::outside_days);
    REQUIRE(found.size() == 1);
    CHECK(found.front().say.find("1 fact before it ") == 0);
    CHECK(service::needs_doing(world.due("2026-06-01")));
  }
}

TEST_CASE("example values are a gap of each machine of the schedule until the line is taken out") {
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nmachines:\n  a: {schedule: one, in-service: {on: 2026-01-01, at: 0}}\n  b: {schedule: one}\n"
      "  c: {schedule: two}\n  d: {schedule: own, in-service: {on: 2026-01-01, at: 0}}\n";
  const std::string task = "tasks:\n  t: {do: Work, every: {years: 9}}\n";
  files.texts["schedules/one.yaml"] = "schedule: one\nexample: true\n" + task;
  files.texts["schedules/two.yaml"] = "schedule: two\nexample: true\n" + task;
  files.texts["schedules/own.yaml"] = "schedule: own\nexample: false\n" + task;
  const World world(files);
  const DueList list = world.due("2026-01-10");
  const auto examples = gaps(list, GapKind::example_values);
  REQUIRE(examples.size() == 3);
  CHECK(examples[0].machine == "a");
  CHECK(examples[1].machine == "b");  // also where nothing is recorded
  CHECK(examples[2].machine == "c");
  CHECK(examples[0].say.find("schedules/one.yaml") != std::string::npos);
  CHECK(service::needs_doing(list));
  CHECK(service::to_text(GapKind::example_values) == "example-values");
  // For people one line for each schedule; all else is said of each machine.
  std::string lines;
  for (const service::GapLine& line : service::gap_lines(list.gaps)) {
    lines +=
        std::string(to_text(line.gap->kind)) + ' ' + line.gap->machine + ' ' + std::to_string(line.machines) + '\n';
  }
  CHECK(lines == "nothing-recorded b 1\nnothing-recorded c 1\nexample-values a 2\nexample-values c 1\n");
  std::size_t entries = 0;
  for (const service::OverdueEntry& entry : service::overdue_list(list)) {
    if (entry.gap != nullptr && entry.gap->kind == GapKind::example_values) ++entries;
  }
  CHECK(entries == 3);
}

TEST_CASE(
    "facts about a task that its schedule does not list are said: a file that was cut off would be an all-clear") {
  World world("  t: {do: Work, every: {months: 60}, follow-up: {look: {do: Look, within: {days: 2}}}}\n",
              "in-service: 2025-01-01");
  world.done("t", "2026-01-10");
  world.done("t/look", "2026-01-11");
  CHECK(world.due("2026-02-01").gaps.empty());
  world.done("brakes", "2026-01-12");
  world.done("brakes", "2026-01-20");
  const auto gaps = world.due("2026-02-01").gaps;
  REQUIRE(gaps.size() == 1);
  CHECK(gaps[0].kind == GapKind::unlisted);
  CHECK(gaps[0].machine == "m");
  CHECK(gaps[0].facts.size() == 2);
  CHECK(gaps[0].say.find("2 facts about brakes, which schedules/kind.yaml does not list") != std::string::npos);
}

TEST_CASE("a machine that the fleet does not list is said in every scope, for nobody can tell where it stood") {
  World world = hours();
  world.reading("2026-01-01", "100");
  world.reading("2026-01-01", "5").machine = "gone";
  const auto list = service::due_list(world.snapshot("2026-01-02").within({std::vector<std::string>{"m"}}),
                                      {day("2026-02-01"), {}}, service::straight_line());
  const auto found = gaps(list, GapKind::unlisted);
  REQUIRE(found.size() == 1);
  CHECK(found[0].machine == "gone");
  CHECK(found[0].facts.size() == 1);
}
