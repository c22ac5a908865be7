// The list that is mailed every morning, whose silence must be safe, and whether anything needs doing.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "support/world.h"

using service::FactKind;
using service::OverdueHeading;
using test::World;

namespace {

std::string_view text(OverdueHeading heading) {
  switch (heading) {
    case OverdueHeading::out_of_use:
      return "out-of-use";
    case OverdueHeading::do_not_run:
      return "do-not-run";
    case OverdueHeading::overdue:
      return "overdue";
    case OverdueHeading::seen:
      return "seen";
    case OverdueHeading::read_the_meter:
      return "read-the-meter";
    case OverdueHeading::find_out:
      return "find-out";
    case OverdueHeading::put_off:
      return "put-off";
    case OverdueHeading::laid_up:
      return "laid-up";
  }
  return "?";
}

// "overdue t, find-out gap": heading and point, machine or gap, in the order of the list.
std::string entries(const World& world, std::string_view as_of) {
  const auto list = world.due(as_of);
  std::string all;
  for (const auto& entry : service::overdue_list(list)) {
    if (!all.empty()) all += ", ";
    all += std::string(text(entry.heading)) + " ";
    if (entry.point != nullptr) all += entry.point->name;
    if (entry.gap != nullptr) all += "gap " + std::string(service::to_text(entry.gap->kind));
    if (entry.use != nullptr) all += "machine " + entry.use->machine->key;
  }
  return all;
}

bool needs_doing(const World& world, std::string_view as_of) { return service::needs_doing(world.due(as_of)); }

// By months alone, and the meter read a few days ago.
World by_months(const std::string& tasks) {
  World world(tasks, "bought: {on: 2020-01-01, at: 0}");
  world.reading("2026-02-01", "100");
  return world;
}

// 1 h a day since 2025-01-01 at 1000, last read 2026-01-20 at 1384. Done at 1300, so the limit is 1400: 2026-02-05.
World by_hours(const std::string& keys = "") {
  World world("  t: {do: Work, every: {hours: 100}" + keys + "}\n", "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.done("t", "2025-10-28", "1300");
  world.reading("2026-01-20", "1384");
  return world;
}

}  // namespace

TEST_CASE("silence where all is well and all is known") {
  World world = by_months("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2026-01-01");
  CHECK(entries(world, "2026-02-10").empty());
  CHECK_FALSE(needs_doing(world, "2026-02-10"));
}

TEST_CASE("what is due or coming is not on the overdue list, and only what is due needs doing") {
  World world = by_months("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2025-02-10");
  CHECK(world.point("2026-02-09", "t").standing == service::Standing::coming);
  CHECK_FALSE(needs_doing(world, "2026-02-09"));
  CHECK(world.point("2026-02-10", "t").standing == service::Standing::due);
  CHECK(needs_doing(world, "2026-02-10"));
  CHECK(entries(world, "2026-02-10").empty());
  CHECK(entries(world, "2026-02-11") == "overdue t");
  CHECK(needs_doing(world, "2026-02-11"));
}

TEST_CASE("by estimate past grace asks to read the meter, by estimate within grace does not") {
  const World world = by_hours(", grace: 10%");  // up to 1410, expected on 2026-02-15
  CHECK(entries(world, "2026-02-15").empty());
  CHECK(needs_doing(world, "2026-02-15"));
  CHECK(entries(world, "2026-02-16") == "read-the-meter t");
  CHECK(entries(by_hours(), "2026-02-06") == "read-the-meter t");
}

TEST_CASE("reached by facts and within grace, it is held against today's estimate as well") {
  // Grace 10 h: up to 1410. Read at 1405, 9.97 h in ten days on.
  World world = by_hours(", grace: 10%");
  world.reading("2026-02-10", "1405");
  REQUIRE(world.point("2026-02-10", "t").standing == service::Standing::due);
  CHECK_FALSE(world.point("2026-02-10", "t").by_estimate);
  CHECK(entries(world, "2026-02-15").empty());
  CHECK(entries(world, "2026-02-16") == "read-the-meter t");
  const auto point = world.point("2026-02-16", "t");
  CHECK(point.past_grace_by_estimate);
  CHECK_FALSE(point.by_estimate);  // facts have brought it there
  CHECK(point.standing == service::Standing::due);
  // A reading within grace answers it; one beyond makes it overdue.
  world.reading("2026-02-16", "1409");
  CHECK(entries(world, "2026-02-16").empty());
  world.reading("2026-02-17", "1410.1");
  CHECK(entries(world, "2026-02-17") == "overdue t");
  CHECK_FALSE(world.point("2026-02-17", "t").past_grace_by_estimate);
}

TEST_CASE("for safety there is no grace: read just where it falls due, the estimate of the next day is past it") {
  World world = by_hours(", safety: true");
  world.reading("2026-02-05", "1400");
  REQUIRE(world.point("2026-02-05", "t").standing == service::Standing::due);
  CHECK(entries(world, "2026-02-05").empty());
  CHECK(entries(world, "2026-02-07") == "read-the-meter t");
  CHECK(entries(by_hours(", safety: true"), "2026-02-06") == "read-the-meter t");
}

TEST_CASE("by estimate past grace asks to read the meter also where another limb is due by facts") {
  World world("  t: {do: Work, every: {hours: 100, days: 100}, grace: {days: 60}}\n",
              "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.done("t", "2025-10-28", "1300");  // the days are up on 2026-02-05, their grace on 2026-04-06
  world.reading("2026-01-20", "1384");    // the hours, without grace, are expected to be up on 2026-02-05
  REQUIRE(world.point("2026-03-01", "t").standing == service::Standing::due);
  CHECK(entries(world, "2026-03-01") == "read-the-meter t");
}

TEST_CASE("no record, an unknown limb and a stale meter are each to be found out") {
  const World none = by_months("  t: {do: Work, every: {months: 12}}\n");
  CHECK(entries(none, "2026-02-10") == "find-out t");
  CHECK(needs_doing(none, "2026-02-10"));
  // The months are known and fine, the hours at the service are not.
  World unknown("  t: {do: Work, every: {hours: 250, months: 24}}\n", "bought: 2020-01-01");
  unknown.done("t", "2026-01-01");
  unknown.reading("2026-02-01", "100");
  CHECK(unknown.point("2026-02-10", "t").standing == service::Standing::later);
  CHECK(entries(unknown, "2026-02-10") == "find-out t");
  CHECK(needs_doing(unknown, "2026-02-10"));
  World stale = by_months("  t: {do: Work, every: {hours: 10000}}\n");
  stale.done("t", "2026-02-01");
  CHECK(entries(stale, "2026-04-02").empty());  // 60 days
  CHECK(entries(stale, "2026-04-03") == "find-out gap stale");
  CHECK(needs_doing(stale, "2026-04-03"));
}

TEST_CASE("a point that is overdue by one limb and unknown by another is overdue, and not lost among the unknown") {
  World world("  t: {do: Work, every: {hours: 250, months: 12}}\n", "bought: 2020-01-01");
  world.done("t", "2024-01-01");
  world.reading("2026-02-01", "100");
  CHECK(entries(world, "2026-02-10").starts_with("overdue t"));
}

TEST_CASE("what is put off is under its own heading until it is not, and still needs doing") {
  World world = by_months("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2025-02-01");
  world.put_off("t", "2026-02-05", "2026-02-20");
  CHECK(entries(world, "2026-02-04") == "overdue t");
  CHECK(entries(world, "2026-02-10") == "put-off t");
  CHECK(needs_doing(world, "2026-02-10"));
  CHECK(entries(world, "2026-02-21") == "overdue t");
}

TEST_CASE("what is not overdue is not on the list for having been put off") {
  World world = by_months("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2026-01-01");
  world.put_off("t", "2026-02-05", "2027-02-20");
  CHECK(entries(world, "2026-02-10").empty());
}

TEST_CASE("what is overdue on a machine laid up waits before it goes back to work") {
  World world = by_months("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2025-02-01");
  world.state(FactKind::laid_up, "2026-02-05", "2026-03-15");
  CHECK(entries(world, "2026-02-10").find("laid-up t") != std::string::npos);
  CHECK(entries(world, "2026-02-10").find("overdue t") == std::string::npos);
  CHECK(entries(world, "2026-03-14").find("laid-up t") != std::string::npos);
  CHECK(entries(world, "2026-03-15") == "overdue t");  // back on that day
}

TEST_CASE("a machine out of use is first on the list, though nothing else is wrong") {
  World world = by_months("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2026-01-01");
  world.state(FactKind::out_of_use, "2026-02-05");
  CHECK(entries(world, "2026-02-10").starts_with("out-of-use machine m"));
  world.state(FactKind::back, "2026-02-11");
  CHECK(entries(world, "2026-02-11").empty());
}

TEST_CASE("what is overdue on a machine out of use is not hidden") {
  World world = by_months("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2025-01-01");
  world.state(FactKind::out_of_use, "2026-02-05");
  const std::string all = entries(world, "2026-02-10");
  CHECK(all.starts_with("out-of-use machine m"));
  CHECK(all.find(" t") != std::string::npos);
}

TEST_CASE("the headings come in their order") {
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nmachines:\n"
      "  resting: {schedule: kind, bought: {on: 2020-01-01, at: 0}}\n"
      "  used: {schedule: kind, bought: {on: 2020-01-01, at: 0}}\n"
      "  unsafe: {schedule: small, bought: {on: 2020-01-01, at: 0}}\n";
  files.texts["schedules/small.yaml"] = "schedule: small\ntasks:\n  year: {do: A, every: {years: 9}}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  waits: {do: A, every: {months: 1}}\n"
      "  never: {do: B, every: {months: 1}}\n"
      "  guess: {do: C, every: {hours: 100}}\n"
      "  late: {do: D, every: {months: 1}}\n";
  World world(files);
  const auto add = [&](FactKind kind, const std::string& machine, std::string_view on, const std::string& task,
                       std::string_view at, std::string_view until) {
    service::Fact fact;
    fact.kind = kind;
    fact.machine = machine;
    fact.on = test::day(on);
    fact.task = task;
    if (!at.empty()) fact.at = test::amount(at);
    if (!until.empty()) fact.until = test::day(until);
    world.add(fact);
  };
  add(FactKind::reading, "unsafe", "2026-02-01", "", "10", "");
  add(FactKind::service, "unsafe", "2026-01-01", "year", "", "");
  add(FactKind::out_of_use, "unsafe", "2026-02-01", "", "", "");
  add(FactKind::reading, "used", "2025-01-01", "", "1000", "");
  add(FactKind::service, "used", "2025-10-28", "guess", "1300", "");
  add(FactKind::reading, "used", "2026-01-20", "", "1384", "");
  add(FactKind::service, "used", "2025-12-01", "waits", "", "");
  add(FactKind::service, "used", "2025-12-01", "late", "", "");
  add(FactKind::put_off, "used", "2026-02-01", "waits", "", "2026-06-01");
  for (const std::string task : {"waits", "never", "guess", "late"}) {
    add(FactKind::service, "resting", "2025-12-01", task, "500", "");
  }
  add(FactKind::laid_up, "resting", "2025-12-02", "", "", "");
  CHECK(entries(world, "2026-02-10") ==
        "out-of-use machine unsafe, overdue late, read-the-meter guess, find-out never, put-off waits, "
        "laid-up waits, laid-up never, laid-up late");
}

TEST_CASE("what forbids to run a machine is on the list, though it is due and not overdue") {
  World world = by_months(
      "  tyre: {do: Tyre, every: {months: 12, measured: {tread: {below: 15, unit: mm}}}, safety: true}\n"
      "  hoses: {do: Hoses, every: {years: 20, signs: [leak]}, safety: true}\n"
      "  oil: {do: Oil, every: {months: 12, signs: [smell]}, grace: {days: 5}}\n");
  for (const char* task : {"tyre", "hoses", "oil"}) world.done(task, "2026-01-01");
  CHECK(entries(world, "2026-02-02").empty());
  world.measured("tread", "15", "2026-02-02", "mm");
  world.sign("smell", "2026-02-03");  // of what may wait: it forbids nothing
  world.sign("leak", "2026-02-03");
  CHECK(entries(world, "2026-02-02") == "do-not-run tyre");
  CHECK(entries(world, "2026-02-03") == "do-not-run tyre, do-not-run hoses");
  CHECK(entries(world, "2026-02-04") == "do-not-run tyre, overdue hoses");  // once, where it stands anyhow
  CHECK(entries(world, "2026-02-07") == "do-not-run tyre, overdue hoses");
  world.state(FactKind::laid_up, "2026-02-08");
  CHECK(entries(world, "2026-02-08") == "laid-up hoses, laid-up tyre");
}

TEST_CASE("a machine of which nothing is recorded is on the list once") {
  const World world(
      "  a: {do: A, every: {months: 1}}\n  b: {do: B, every: {months: 1}}\n  c: {do: C, every: {hours: 9}}\n");
  CHECK(entries(world, "2026-02-10").find("nothing-recorded") != std::string::npos);
  CHECK(needs_doing(world, "2026-02-10"));
}

TEST_CASE("contradictions, unlisted machines and unread meters break the silence") {
  World contradicting = by_months("  t: {do: Work, every: {months: 12}}\n");
  contradicting.done("t", "2026-01-01");
  contradicting.reading("2026-02-02", "90");
  CHECK(entries(contradicting, "2026-02-10") == "find-out gap contradiction");
  World ghost = by_months("  t: {do: Work, every: {months: 12}}\n");
  ghost.done("t", "2026-01-01");
  service::Fact fact;
  fact.kind = FactKind::reading;
  fact.machine = "ghost";
  fact.on = test::day("2026-01-02");
  fact.at = test::amount("5");
  ghost.add(fact);
  CHECK(entries(ghost, "2026-02-10") == "find-out gap unlisted");
  CHECK(needs_doing(ghost, "2026-02-10"));
}
