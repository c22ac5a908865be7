// The job sheet says what is not in stock, by the same days as the list of parts and the list of a season.
#include <doctest/doctest.h>

#include <algorithm>

#include "service/season.h"
#include "unit/entry/office.h"
#include "unit/workload/job_sheets.h"

using namespace sheet_test;
using test::text_or_none;

namespace {

// Three machines that are due on one day each, and filters that last for the first.
World fleet_of(const std::string& parts, const std::string& more = "") {
  FleetFiles files;
  files.texts["fleet.yaml"] = "fleet: Test\nseasons: {harvest: {from: 08-01, to: 09-20}}\nparts:\n" + parts +
                              "machines:\n"
                              "  first: {schedule: kind, in-service: 2024-01-01}\n"
                              "  second: {schedule: kind, in-service: 2024-01-01}\n"
                              "  third: {schedule: kind, in-service: 2024-01-01}\n"
                              "  shed: {schedule: other, in-service: 2024-01-01}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  oil: {do: Oil, every: {months: 12}, parts: {filter: 1}, fluids: {oil: 4 L}}\n" +
      more;
  files.texts["schedules/other.yaml"] =
      "schedule: other\ntasks:\n  belt: {do: Belt, every: {months: 12}, parts: {belt: 2}}\n";
  World world(files);
  world.add(entry_test::done("first", "oil", "2025-06-20"));
  world.add(entry_test::done("second", "oil", "2025-06-25"));
  world.add(entry_test::done("third", "oil", "2025-09-01"));
  world.add(entry_test::done("shed", "belt", "2025-06-25"));
  return world;
}

const std::string one_filter = "  filter: {what: Filter, unit: piece, stock: 1, lead-time: 10 days}\n";

JobSheet sheet_for(const World& world, const std::string& machine, std::string_view as_of,
                   std::string_view within = "") {
  const Snapshot snapshot = world.snapshot(as_of).within(Scope{std::vector{machine}});
  return job_sheet(snapshot, {day(within.empty() ? as_of : within), true, day("2026-12-31")}, straight_line());
}

}  // namespace

TEST_CASE("stock is shared out over the whole fleet, and the sheet of one machine says what it lacks") {
  const World world = fleet_of(one_filter);
  const JobSheet first = sheet_for(world, "first", "2026-07-01");
  CHECK(first.pages.at(0).tasks.at(0).lacks.empty());
  CHECK_FALSE(first.pages.at(0).parts.at(0).lack.has_value());
  const JobSheet second = sheet_for(world, "second", "2026-07-01");
  const SheetTask& task = second.pages.at(0).tasks.at(0);
  REQUIRE(task.lacks.size() == 1);  // nobody lists the oil
  const PartLack& lack = task.lacks[0];
  CHECK(lack.key == "filter");
  CHECK(lack.counted);
  CHECK(lack.short_by == PartAmount::units(1));
  CHECK(text_or_none(lack.short_on) == "2026-07-01");
  CHECK(text_or_none(lack.order_by) == "2026-07-01");
  CHECK(lack.late_days == 10);
  CHECK(text_or_none(lack.there) == "2026-07-11");
  CHECK(lack.comes_late());
  const auto& parts = second.pages[0].parts;
  REQUIRE(parts.size() == 2);
  CHECK(parts[0].key == "filter");
  REQUIRE(parts[0].lack.has_value());
  CHECK(parts[0].lack->short_by == PartAmount::units(1));
  CHECK_FALSE(parts[1].lack.has_value());
}

TEST_CASE("a sheet, the list of parts and the list of a season say the same days of what is not in stock") {
  const World world = fleet_of(one_filter);
  const Snapshot snapshot = world.snapshot("2026-07-01");
  const PartsList list = parts_list(snapshot, day("2026-12-31"), straight_line());
  REQUIRE(list.needs.at(0).key == "filter");
  const SeasonPlan plan = season_plan(snapshot, {snapshot.fleet().season("harvest")}, straight_line());
  const JobSheet sheet = sheet_for(world, "second", "2026-07-01");
  const PartLack& lack = sheet.pages.at(0).tasks.at(0).lacks.at(0);
  CHECK((lack.order_by == list.needs[0].order_by));
  CHECK(lack.late_days == list.needs[0].late_days);
  CHECK((lack.short_on == list.needs[0].short_on));
  const auto item = std::find_if(plan.beforehand.begin(), plan.beforehand.end(),
                                 [](const SeasonItem& one) { return one.point.machine->key == "second"; });
  REQUIRE((item != plan.beforehand.end()));
  REQUIRE(item->waits_for.size() == 1);
  CHECK((item->waits_for[0].from == lack.there));
  CHECK(item->waits_for[0].counted);
  // What comes later can be there in time, and is ordered along with the rest.
  const JobSheet later = sheet_for(world, "third", "2026-07-01", "2026-09-30");
  const PartLack& third = later.pages.at(0).tasks.at(0).lacks.at(0);
  CHECK(text_or_none(third.short_on) == "2026-09-01");
  CHECK_FALSE(third.comes_late());
  CHECK((third.order_by == list.needs[0].order_by));
}

TEST_CASE("of a part that nobody counted nothing is claimed") {
  const World world = fleet_of("  filter: {what: Filter, unit: piece, lead-time: 10 days}\n");
  const JobSheet sheet = sheet_for(world, "first", "2026-07-01");
  const PartLack& lack = sheet.pages.at(0).tasks.at(0).lacks.at(0);
  CHECK_FALSE(lack.counted);
  CHECK_FALSE(lack.is_short());
  CHECK_FALSE(lack.order_by.has_value());
  REQUIRE(sheet.pages[0].parts.at(0).lack.has_value());
  CHECK_FALSE(sheet.pages[0].parts[0].lack->counted);
  const Snapshot snapshot = world.snapshot("2026-07-01");
  const SeasonPlan plan = season_plan(snapshot, {snapshot.fleet().season("harvest")}, straight_line());
  REQUIRE(plan.beforehand.at(0).waits_for.size() == 1);
  CHECK_FALSE(plan.beforehand[0].waits_for[0].counted);
}

TEST_CASE("work that the list of parts does not count stands behind all else of its day") {
  World world = fleet_of("  filter: {what: Filter, unit: piece, stock: 2, lead-time: 10 days}\n");
  CHECK(sheet_for(world, "second", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
  // Out of use, `first` has no service in that list; yet its sheet lists the work.
  world.add(entry_test::use(FactKind::out_of_use, "first", "2026-06-28"));
  CHECK(sheet_for(world, "second", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
  // The second filter is there: the third machine wants it in September.
  CHECK(sheet_for(world, "first", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
  Fact count;
  count.kind = FactKind::count;
  count.part = "filter";
  count.on = test::span("2026-06-30");
  count.value = *parse_measure("1");
  world.add(count);
  const JobSheet out = sheet_for(world, "first", "2026-07-01");
  REQUIRE(out.pages.at(0).tasks.size() == 1);
  const PartLack& lack = out.pages[0].tasks[0].lacks.at(0);
  CHECK(lack.short_by == PartAmount::units(1));
  CHECK(text_or_none(lack.there) == "2026-07-11");
  CHECK(sheet_for(world, "second", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
}

TEST_CASE("without a lead time nobody knows when a part can be there") {
  const World world = fleet_of("  filter: {what: Filter, unit: piece, stock: 0}\n");
  const JobSheet sheet = sheet_for(world, "first", "2026-07-01");
  const PartLack& lack = sheet.pages.at(0).tasks.at(0).lacks.at(0);
  CHECK(lack.is_short());
  CHECK_FALSE(lack.there.has_value());
  CHECK_FALSE(lack.comes_late());
}

TEST_CASE("what several tasks and positions of a page lack is added up") {
  World world =
      fleet_of("  filter: {what: Filter, unit: piece, stock: 1}\n  oil: {what: Oil, unit: L, stock: 5}\n",
               "  nozzles: {do: Nozzles, every: {months: 12}, positions: [left, right], parts: {filter: 2}}\n");
  world.add(entry_test::done("first", "nozzles", "2025-06-20"));
  const JobSheet sheet = sheet_for(world, "first", "2026-07-01");
  const auto& page = sheet.pages.at(0);
  PartAmount filters;
  for (const SheetTask& task : page.tasks) {
    for (const PartLack& lack : task.lacks) {
      if (lack.key == "filter") filters = filters + lack.short_by;
    }
  }
  CHECK(filters == PartAmount::units(4));  // five are taken
  for (const SheetPart& part : page.parts) {
    if (part.key == "filter") CHECK(part.lack->short_by == filters);
  }
}

TEST_CASE("of one day what is overdue has its turn before what is due, and what is for safety first") {
  World world = fleet_of(one_filter, "  guard: {do: Guard, every: {months: 12}, safety: true, parts: {filter: 1}}\n");
  world.add(entry_test::done("first", "oil", "2025-07-01"));
  for (const char* machine : {"first", "second", "third"}) {
    world.add(entry_test::done(machine, "guard", std::string_view(machine) == "third" ? "2025-06-29" : "2026-06-01"));
  }
  // The oil of `second` is overdue as well, and its name goes before.
  CHECK(sheet_for(world, "third", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
  const JobSheet second = sheet_for(world, "second", "2026-07-01");
  const PartLack& lack = second.pages.at(0).tasks.at(0).lacks.at(0);
  CHECK(lack.in_stock == PartAmount::units(1));
  REQUIRE(lack.kept_for.size() == 1);
  CHECK(lack.kept_for[0].machine == "third");
  CHECK(lack.kept_for[0].on == day("2026-07-01"));
  // Done there, it is kept for what is overdue, and not for what comes due that day on a machine of an earlier name.
  world.add(entry_test::done("third", "guard", "2026-07-01"));
  CHECK(sheet_for(world, "second", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
  const JobSheet first = sheet_for(world, "first", "2026-07-01");
  const auto& kept = first.pages.at(0).tasks.at(0).lacks.at(0).kept_for;
  REQUIRE(kept.size() == 1);
  CHECK(kept[0].machine == "second");
}

TEST_CASE("a machine that nobody may run takes from stock last of its day, but for what that waits for") {
  World world = fleet_of(one_filter, "  guard: {do: Guard, every: {months: 24, signs: [loose]}, safety: true}\n");
  world.add(entry_test::done("first", "oil", "2025-06-25"));
  world.add(entry_test::done("second", "oil", "2025-06-20"));
  for (const char* machine : {"first", "second"}) world.add(entry_test::done(machine, "guard", "2026-06-01"));
  CHECK_FALSE(sheet_for(world, "second", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
  Fact loose;
  loose.kind = FactKind::sign;
  loose.machine = "first";
  loose.name = "loose";
  loose.on = test::span("2026-06-20");
  world.add(loose);
  CHECK(sheet_for(world, "second", "2026-07-01").pages.at(0).tasks.at(0).lacks.empty());
}

TEST_CASE("nothing is ordered for a machine that is laid up, and its sheet says so") {
  World world = fleet_of("  filter: {what: Filter, unit: piece, stock: 0, lead-time: 10 days}\n");
  world.add(entry_test::use(FactKind::laid_up, "first", "2026-06-28"));
  const JobSheet sheet = sheet_for(world, "first", "2026-07-01");
  const PartLack& lack = sheet.pages.at(0).tasks.at(0).lacks.at(0);
  CHECK(lack.is_short());
  CHECK(lack.not_listed);
  CHECK_FALSE(lack.order_by.has_value());
  CHECK(lack.late_days == 0);
  CHECK_FALSE(sheet_for(world, "second", "2026-07-01").pages.at(0).tasks.at(0).lacks.at(0).not_listed);
}
