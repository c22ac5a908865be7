// What is locked off for the work of a job sheet, how long, and what is ticked behind it; work of a later day by
// itself.
#include <doctest/doctest.h>

#include "unit/workload/job_sheets.h"

using namespace sheet_test;

TEST_CASE("what is locked off stays so between the tasks, and until it is back where it must not run") {
  const std::string tasks =
      task("oil", "cautions: [automatic-start], follow-up: {look: {do: Look, within: {days: 3}}}") +
      task("test", "cautions: [electricity]");
  World world(tasks, put_in_service);
  const auto page = page_of(world, "2025-08-01");
  CHECK(page->locked_off);
  CHECK(page->power_off);
  for (const SheetAfter& after : page->afterwards) CHECK_FALSE(after.once_back);
  CHECK(kinds(page->afterwards) ==
        "tools-out, guards-on, everybody-clear, check look, power-back, automatic-start-back");
  CHECK(kinds(page_of(World(task("oil"), put_in_service), "2025-08-01")->afterwards) ==
        "tools-out, guards-on, everybody-clear");
  for (const FactKind kind : {FactKind::out_of_use, FactKind::laid_up}) {
    World stands(tasks, put_in_service);
    stands.state(kind, "2025-07-20");
    const auto armed_never = page_of(stands, "2025-08-01");
    CHECK(armed_never->stays_locked());
    CHECK(kinds(armed_never->afterwards) == "tools-out, guards-on, everybody-clear, stays-locked, check look");
    CHECK(armed_never->afterwards.back().once_back);
    // Whatever is done to it.
    const auto without_work = page_of(stands, "2025-02-01");
    World idle(tasks, put_in_service);
    idle.state(kind, "2025-01-20");
    CHECK(kinds(page_of(idle, "2025-02-01")->afterwards) == "tools-out, guards-on, everybody-clear, stays-locked");
    CHECK(kinds(without_work->afterwards) == "tools-out, guards-on, everybody-clear");
  }
}

TEST_CASE("what is put off until a day within the horizon is done then, and last") {
  World world(task("oil", "takes: 20 min, parts: {filter: 1}") + task("seal", "cautions: [hot-fluid], takes: 5 min"),
              put_in_service);
  world.put_off("oil", "2025-07-02", "2025-08-10");
  const auto today = page_of(world, "2025-08-01");
  CHECK(names(today->tasks) == "seal");
  CHECK(names(today->put_off) == "oil");
  CHECK(names(page_of(world, "2025-08-01", "2025-08-09")->tasks) == "seal");
  const auto later = page_of(world, "2025-08-01", "2025-08-10");
  REQUIRE(names(later->tasks) == "seal, oil");
  CHECK(later->put_off.empty());
  REQUIRE(later->tasks[1].waits.size() == 1);
  CHECK(later->tasks[1].waits.front().from == day("2025-08-10"));
  CHECK(later->tasks[1].is_later());
  CHECK_FALSE(later->tasks[0].is_later());
  CHECK(later->labour.minutes == 5);
  CHECK(joined(later->labour.tasks) == "seal");
  CHECK(later->later.minutes == 20);
  CHECK(joined(later->later.tasks) == "oil");
  REQUIRE(later->parts.size() == 1);
  CHECK(later->tasks[0].done_on == day("2025-08-01"));
  CHECK(later->tasks[1].done_on == day("2025-08-10"));
  REQUIRE(later->tasks[1].again.has_value());
  CHECK(test::text_or_none(later->tasks[1].again->on) == "2026-02-10");
  REQUIRE(later->entries.size() == 2);
  CHECK_FALSE(later->entries[0].wait.has_value());
  REQUIRE(later->entries[1].wait.has_value());
  CHECK(later->entries[1].wait->from == day("2025-08-10"));

  // What is due now does not wait with it.
  World whole(task("small") + task("big", "covers: [small]"), put_in_service);
  whole.put_off("big", "2025-07-02", "2025-08-10");
  CHECK(names(page_of(whole, "2025-08-01", "2025-08-20")->tasks) == "small, big");
}

TEST_CASE("work of a later day is locked off for it alone, and what goes back on does not wait for it") {
  const std::string check = ", follow-up: {look: {do: Look, within: {days: 3}, takes: 5 min}}";
  World world(task("oil", "cautions: [automatic-start, electricity], parts: {filter: 1}" + check) +
                  task("exam", "by-whom: competent-person") +
                  task("battery", "cautions: [automatic-start], parts: {battery: 1, filter: 2}" + check) +
                  task("probe", "cautions: [electricity]") + task("seal"),
              put_in_service);
  world.put_off("battery", "2025-07-02", "2025-08-20");
  world.put_off("probe", "2025-07-02", "2025-08-10");
  world.put_off("seal", "2025-07-02", "2025-08-20");
  const auto page = page_of(world, "2025-08-01", "2025-09-01");
  CHECK(names(page->tasks) == "oil, exam, probe, battery, seal");
  CHECK(page->locked_off);
  CHECK(page->power_off);
  CHECK(kinds(page->afterwards) ==
        "tools-out, guards-on, everybody-clear, check look, power-back, automatic-start-back");
  CHECK(page->check_minutes == 5);
  REQUIRE(page->later_work.size() == 2);
  CHECK(joined(page->later_work[0].tasks) == "probe");
  CHECK(page->later_work[0].wait.from == day("2025-08-10"));
  CHECK_FALSE(page->later_work[0].locked_off);
  CHECK(kinds(page->later_work[0].afterwards) == "tools-out, guards-on, everybody-clear, power-back");
  CHECK(joined(page->later_work[1].tasks) == "battery, seal");
  CHECK_FALSE(page->later_work[1].power_off);
  CHECK(kinds(page->later_work[1].afterwards) ==
        "tools-out, guards-on, everybody-clear, check look, automatic-start-back");
  // Each part is of its day.
  std::vector<std::string> parts;
  for (const SheetPart& part : page->parts) {
    parts.push_back(part.key + ' ' + to_text(part.amount) + (part.wait ? " from " + to_text(part.wait->from) : ""));
  }
  CHECK(joined(parts) == "battery 1 from 2025-08-20, filter 1, filter 2 from 2025-08-20");

  // Where nothing of the day wants it, nothing is locked off on it.
  world.done("oil", "2025-07-30");
  world.done("oil/look", "2025-07-31");
  const auto rest = page_of(world, "2025-08-04", "2025-09-01");
  CHECK(names(rest->tasks) == "exam, probe, battery, seal");
  CHECK_FALSE(rest->locked_off);
  CHECK_FALSE(rest->power_off);

  // Laid up, all stays locked off until it is back.
  world.state(FactKind::laid_up, "2025-07-31");
  const auto stands = page_of(world, "2025-08-01", "2025-09-01");
  REQUIRE(stands->later_work.size() == 2);
  CHECK(kinds(stands->later_work[1].afterwards) == "tools-out, guards-on, everybody-clear, stays-locked, check look");
}

TEST_CASE("of a task at several positions those that are put off are work of their own day") {
  World world(task("cell", "positions: [left, right], takes: 20 min, parts: {cell: 1}, cautions: [automatic-start]"),
              put_in_service);
  world.put_off("cell", "2025-07-02", "2025-08-10").position = "right";
  const auto page = page_of(world, "2025-08-01", "2025-08-20");
  REQUIRE(names(page->tasks) == "cell, cell");
  CHECK(names(page->tasks[0].points) == "cell@left");
  CHECK_FALSE(page->tasks[0].is_later());
  CHECK(names(page->tasks[1].points) == "cell@right");
  CHECK(page->tasks[1].is_later());
  CHECK(page->labour.minutes == 20);
  CHECK(page->later.minutes == 20);
  CHECK(page->parts.size() == 2);
}

TEST_CASE("what is put off until a use ends by what the meter shows, and its expected day is not in the past") {
  World world("  oil: {do: It, every: {hours: 100}}\n", put_in_service, "", hours);
  world.reading("2025-06-01", "150");
  Fact& wait = world.put_off("oil", "2025-06-01", "", "160");
  wait.meter = "engine";
  const auto page = page_of(world, "2025-07-20", "2025-08-01");
  REQUIRE(names(page->tasks) == "oil");
  REQUIRE(page->tasks.front().waits.size() == 1);
  const SheetWait& told = page->tasks.front().waits.front();
  CHECK(told.by_use);
  CHECK(told.from == day("2025-07-20"));  // its use is past by estimate, and nobody read it
  CHECK(page->tasks.front().done_on == told.from);
  REQUIRE(page->later_work.size() == 1);
  CHECK(page->later_work.front().wait.from == told.from);
  REQUIRE(page->entries.size() == 1);
  REQUIRE(page->entries.front().wait.has_value());
  CHECK(page->entries.front().wait->by_use);

  // A day that comes first ends it.
  wait.until = day("2025-07-11");
  world.reading("2025-07-01", "152");
  CHECK(page_of(world, "2025-07-10", "2025-08-01")->tasks.front().waits.front().from == day("2025-07-11"));
  CHECK_FALSE(page_of(world, "2025-07-10", "2025-08-01")->tasks.front().waits.front().by_use);
}

TEST_CASE("on a machine that nobody may run, what lets it run waits for the mending") {
  World world("  hose: {do: It, safety: true, every: {months: 60, signs: [leak]}}\n" +
                  task("oil", "cautions: [automatic-start], follow-up: {look: {do: Look, within: {days: 3}}}"),
              put_in_service);
  {
    const auto sheet = page_of(world, "2025-08-01");
    for (const SheetAfter& after : sheet->afterwards) CHECK_FALSE(after.once_mended);
  }
  world.sign("leak", "2025-07-20");
  const auto page = page_of(world, "2025-08-01");
  for (const SheetAfter& after : page->afterwards) {
    const bool runs = after.kind == AfterKind::everybody_clear || after.kind == AfterKind::check ||
                      after.kind == AfterKind::automatic_start_back;
    CHECK(after.once_mended == runs);
  }
  // Of one that stands, what is back is said instead.
  world.state(FactKind::out_of_use, "2025-07-21");
  {
    const auto sheet = page_of(world, "2025-08-01");
    for (const SheetAfter& after : sheet->afterwards) CHECK_FALSE(after.once_mended);
  }
}
