// A report is what each question says when it is asked alone, gathered from one snapshot.
#include "service/report.h"

#include <doctest/doctest.h>

#include "support/world.h"

using namespace service;
using test::day;
using test::text_or_none;
using test::World;

namespace {

World two_machines() {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\n"
      "sites:\n  yard: {name: Yard}\n  mere: {name: Mere}\n"
      "seasons:\n  harvest: {from: 08-01, to: 09-20}\n  pumping: {from: 11-01, to: 03-31}\n"
      "parts:\n  filter: {stock: 0, price: 10}\n"
      "machines:\n"
      "  m: {schedule: kind, site: yard, in-service: {on: 2025-01-01, at: 0}}\n"
      "  n: {schedule: kind, site: mere, in-service: {on: 2025-01-01, at: 0}}\n"
      "  sold: {schedule: kind, site: mere, in-service: {on: 2020-01-01, at: 0}, left: 2025-06-01}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 250, months: 12}, takes: 1 h, parts: {filter: 1}}\n"
      "  belt: {do: Belt, every: {months: 24}}\n";
  World world(files);
  world.reading("2026-01-01", "730");
  world.done("oil", "2026-01-10");
  world.sign("odd noise", "2026-02-01");
  world.reading("2026-01-20", "500").machine = "n";
  return world;
}

Report report_of(const World& world, std::string_view as_of, const Scope& scope = {}) {
  const Snapshot snapshot = world.snapshot(as_of, scope);
  ReportAsk ask;
  ask.due_within = day(as_of) + std::chrono::days{30};
  ask.parts_to = add_months(day(as_of), 3);
  ask.ahead_to = add_months(day(as_of), 12);
  return report(snapshot, world.facts(), ask, learnt_from(snapshot));
}

std::string at_hand(const World& world, std::string_view as_of) {
  const Season* season = season_at_hand(world.fleet(), day(as_of));
  return season == nullptr ? "none" : season->key;
}

std::string told(const DueList& list) {
  std::string text;
  for (const Point& point : list.points) text += point.machine->key + ' ' + point.name + ' ' + test::told(point) + '\n';
  return text;
}

}  // namespace

TEST_CASE("the season at hand is under way, or begins next") {
  const World world = two_machines();
  CHECK(at_hand(world, "2026-06-15") == "harvest");
  CHECK(at_hand(world, "2026-08-01") == "harvest");
  CHECK(at_hand(world, "2026-09-20") == "harvest");
  CHECK(at_hand(world, "2026-09-21") == "pumping");
  CHECK(at_hand(world, "2026-12-31") == "pumping");
  CHECK(at_hand(world, "2027-03-31") == "pumping");
  CHECK(at_hand(world, "2027-04-01") == "harvest");
  CHECK(at_hand(World("  a: {do: A, every: {months: 1}}\n"), "2026-06-15") == "none");
  // Of two under way, the one that began last; what is under way goes before what begins.
  const World both("  a: {do: A, every: {months: 1}}\n", "",
                   "seasons:\n  late: {from: 08-01, to: 08-31}\n  grazing: {from: 04-01, to: 10-31}\n"
                   "  hay: {from: 06-01, to: 07-10}\n");
  CHECK(at_hand(both, "2026-06-15") == "hay");
  CHECK(at_hand(both, "2026-07-20") == "grazing");
  CHECK(at_hand(both, "2026-03-31") == "grazing");
}

TEST_CASE("each part of a report is what the question says alone") {
  const World world = two_machines();
  const Snapshot snapshot = world.snapshot("2026-06-15");
  const auto learnt = learnt_from(snapshot);
  const Report all = report_of(world, "2026-06-15");
  CHECK(told(all.due) == told(due_list(snapshot, {day("2026-07-15")}, learnt)));
  REQUIRE(all.season.has_value());
  CHECK(all.season->season->key == "harvest");
  const auto plan = season_plan(snapshot, {&world.fleet().seasons.front()}, learnt);
  REQUIRE(all.season->beforehand.size() == plan.beforehand.size());
  CHECK(plan.beforehand.size() > 0);
  for (std::size_t i = 0; i < plan.beforehand.size(); ++i) {
    CHECK(all.season->beforehand[i].do_by == plan.beforehand[i].do_by);
    CHECK(all.season->beforehand[i].odds.value == plan.beforehand[i].odds.value);
  }
  const auto load = workload(snapshot, day("2027-06-15"), Step::month, learnt);
  CHECK(all.workload.rows.size() == 13);
  CHECK(all.workload.labour_hours.mean == load.labour_hours.mean);
  CHECK(all.workload.labour_hours.p90 == load.labour_hours.p90);
  const auto parts = parts_before(snapshot, {&world.fleet().seasons.front()}, learnt);
  REQUIRE(all.parts.needs.size() == parts.needs.size());
  CHECK(parts.needs.size() == 1);
  CHECK(all.parts.needs[0].need == parts.needs[0].need);
  CHECK(text_or_none(all.parts.needs[0].order_by) == text_or_none(parts.needs[0].order_by));
  const auto use = forecast(snapshot, day("2027-06-15"), learnt);
  REQUIRE(all.forecast.meters.size() == 2);
  CHECK(all.forecast.meters[0].ahead.ahead.back().p90 == use.meters[0].ahead.ahead.back().p90);
}

TEST_CASE("parts are for the season shown, and what comes behind its work stands apart") {
  // Oil is due every two months, so twice before the season and in it; the belt in August of next year.
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\n"
      "seasons:\n  harvest: {from: 08-01, to: 08-20}\n"
      "parts:\n  filter: {stock: 2}\n  belt: {stock: 0, lead-time: 10 days}\n"
      "machines:\n  m: {schedule: kind, in-service: {on: 2025-01-01, at: 0}}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  oil: {do: Oil, every: {months: 2}, parts: {filter: 1}}\n"
      "  belt: {do: Belt, every: {months: 24}, parts: {belt: 1}}\n";
  World world(files);
  world.done("oil", "2026-05-20");
  world.done("belt", "2024-10-01");
  Report all = report_of(world, "2026-06-15");
  const auto told = [](const PartsList& list) {
    std::string text;
    for (const PartNeed& need : list.needs) {
      text += need.key + " " + to_text(need.need) + ", short by " + to_text(need.short_by) + ", order by " +
              text_or_none(need.order_by) + "; ";
    }
    return text;
  };
  REQUIRE(all.parts.before != nullptr);
  CHECK(told(all.parts) == "filter 1, short by 0, order by none; ");
  REQUIRE(all.parts_beyond.has_value());
  // To 15 September nothing else; to the end of the year the oil of 20 September and 20 November, for which one filter
  // is left.
  CHECK(told(*all.parts_beyond) == "");
  const Snapshot snapshot = world.snapshot("2026-06-15");
  ReportAsk ask;
  ask.due_within = ask.ahead_to = day("2026-07-15");
  ask.parts_to = day("2026-12-31");
  all = report(snapshot, world.facts(), ask, learnt_from(snapshot));
  CHECK(told(all.parts) == "filter 1, short by 0, order by none; ");
  CHECK(told(*all.parts_beyond) ==
        "belt 1, short by 1, order by 2026-09-21; filter 2, short by 1, order by 2026-11-20; ");
}

TEST_CASE("what never waits and is due, or comes due within a week, must not wait") {
  World world(
      "  late: {do: Late, every: {months: 6}, safety: true}\n"
      "  today: {do: Today, every: {months: 6}, safety: true}\n"
      "  week: {do: Week, every: {months: 6}, by-whom: competent-person}\n"
      "  day-after: {do: Day after, every: {months: 6}, safety: true}\n"
      "  other: {do: Other, every: {months: 6}}\n",
      "in-service: {on: 2025-01-01, at: 0}", "grace: {days: 3}\n");
  world.done("late", "2025-12-01");
  world.done("today", "2025-12-15");
  world.done("week", "2025-12-22");
  world.done("day-after", "2025-12-23");
  world.done("other", "2025-12-15");
  const auto soon_of = [&] {
    const Report all = report_of(world, "2026-06-15");
    std::vector<std::string> tasks;
    for (const Point* point : due_soon(all)) tasks.push_back(point->name);
    return tasks;
  };
  CHECK((soon_of() == std::vector<std::string>{"today", "week"}));  // what is overdue stands on its own list
  world.state(FactKind::laid_up, "2026-06-01");
  CHECK(soon_of().empty());
}

TEST_CASE("each machine that is there has a page, with what the report says of it") {
  const World world = two_machines();
  const Report all = report_of(world, "2026-06-15");
  CHECK(text_or_none(all.known_until) == "2026-02-01");
  const auto pages = pages_of(all);
  REQUIRE(pages.size() == 2);
  CHECK(pages[0].machine->key == "m");
  CHECK(pages[1].machine->key == "n");
  CHECK(text_or_none(pages[0].known_until) == "2026-02-01");
  CHECK(text_or_none(pages[1].known_until) == "2026-01-20");
  CHECK(pages[0].points.size() == 2);
  CHECK(pages[0].seen.size() == 1);
  CHECK(pages[1].seen.empty());
  REQUIRE(pages[0].meters.size() == 1);
  CHECK(pages[0].meters[0]->ahead.machine->key == "m");
  for (const MachinePage& page : pages) {
    for (const Point* point : page.points) CHECK(point->machine == page.machine);
    for (const Gap* gap : page.gaps) CHECK(gap->machine == page.machine->key);
    CHECK(page.book->machine == page.machine->key);
  }
  CHECK(pages[0].gaps.size() + pages[1].gaps.size() > 0);  // nobody has read them for 60 days
  CHECK(pages[0].book->lines.size() == 3);
}

TEST_CASE("a report of one site has that site's machines, and the fleet's stock") {
  const World world = two_machines();
  const Report one = report_of(world, "2026-06-15", scope_of_site(world.fleet(), "mere"));
  REQUIRE(pages_of(one).size() == 1);
  CHECK(pages_of(one)[0].machine->key == "n");
  CHECK(text_or_none(one.known_until) == "2026-01-20");
  CHECK(one.due.points.size() == 2);
  REQUIRE(one.parts.needs.size() == 1);
  const Report all = report_of(world, "2026-06-15");
  CHECK(one.parts.needs[0].need == all.parts.needs[0].need);
  // No bill of others, and no word of their machines but how much is not known.
  CHECK(all.gaps_elsewhere == 0);
  CHECK(one.gaps_elsewhere > 0);
  for (const auto* gaps : {&one.season->gaps, &one.parts.gaps, &one.parts_beyond->gaps, &one.due.gaps}) {
    for (const Gap& gap : *gaps) CHECK(gap.machine == "n");
  }
  CHECK(shopping_of(all).size() == 1);
  CHECK(shopping_of(one).empty());
}

TEST_CASE("a report of nothing recorded says so") {
  const World world("  oil: {do: Oil, every: {months: 12}}\n", "bought: 2025-01-01");
  const Report none = report_of(world, "2026-06-15");
  CHECK_FALSE(none.known_until.has_value());
  CHECK_FALSE(none.season.has_value());
  REQUIRE(none.books.size() == 1);
  CHECK(none.books[0].lines.empty());
}

TEST_CASE("a book has struck facts with the reason, and no strikes unless they are asked for") {
  World world("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2025-01-01, at: 0}");
  const FactId slip = world.reading("2026-01-01", "730").id;
  world.reading("2026-02-01", "800");
  Fact& strike = world.strike(slip);
  strike.note = "misread";
  strike.origin = "strike";
  strike.entered_by = "office";
  world.reading("2026-03-01", "900");
  const Snapshot snapshot = world.snapshot("2026-02-15");
  const Books books(snapshot, world.facts());
  const Book book = books.of("m");
  REQUIRE(book.lines.size() == 2);  // what comes later is not there yet
  CHECK(book.lines[0].struck);
  CHECK(book.lines[0].struck_because == "2020-01-01 strike by office: misread");
  CHECK_FALSE(book.lines[1].struck);
  CHECK(book.lines[1].meter_unit == "h");
  CHECK(books.of("m", true).lines.size() == 3);
  CHECK(books.of("nobody").lines.empty());
}

TEST_CASE(
    "nobody may run what is out of use, nor what showed a sign of work that never waits, and all reasons are told") {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\n"
      "machines:\n"
      "  m: {schedule: kind, in-service: {on: 2025-01-01, at: 0}}\n"
      "  n: {schedule: kind, in-service: {on: 2025-01-01, at: 0}}\n"
      "  idle: {schedule: kind, in-service: {on: 2025-01-01, at: 0}}\n"
      "  well: {schedule: kind, in-service: {on: 2025-01-01, at: 0}}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  hoses: {do: Hoses, every: {months: 60, signs: [leak]}, safety: true}\n"
      "  belt: {do: Belt, every: {months: 60, signs: [squeal]}}\n";
  World world(files);
  world.sign("leak", "2026-06-01");
  world.sign("squeal", "2026-06-01").machine = "well";
  world.sign("odd noise", "2026-06-01").machine = "well";
  world.state(FactKind::out_of_use, "2026-06-02").machine = "n";
  world.sign("leak", "2026-06-03").machine = "idle";
  world.state(FactKind::laid_up, "2026-06-04", "2026-11-01").machine = "idle";
  const Report all = report_of(world, "2026-06-15");
  const auto bans = run_bans(all.due);
  REQUIRE(bans.size() == 3);
  CHECK(bans[0].machine->key == "n");
  CHECK(bans[0].out_of_use());
  CHECK(bans[0].points.empty());
  CHECK(bans[1].machine->key == "m");
  CHECK(bans[1].state == nullptr);
  REQUIRE(bans[1].points.size() == 1);
  CHECK(bans[1].points[0]->name == "hoses");
  CHECK(bans[1].forbidden_by(*bans[1].points[0]));
  CHECK(bans[2].machine->key == "idle");
  CHECK_FALSE(bans[2].out_of_use());
  CHECK(bans[2].state != nullptr);
  CHECK(bans[2].points.size() == 1);
  const auto pages = pages_of(all);
  REQUIRE(pages.size() == 4);
  CHECK(pages[0].ban.has_value());
  CHECK(pages[1].ban.has_value());
  CHECK(pages[2].ban.has_value());
  CHECK_FALSE(pages[3].ban.has_value());
}
