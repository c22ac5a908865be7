// How the work of a job sheet is written down: what was renewed with what it measures then.
#include <doctest/doctest.h>

#include "unit/workload/job_sheets.h"

using namespace sheet_test;

TEST_CASE("what is past its limit is written down when it is renewed, with its new value") {
  const std::string limit = "months: 6, measured: {wear: {above: 10, unit: mm}}}";
  World world("  fork: {do: It, safety: true, positions: [left, right], every: {" + limit + "}\n" +
                  "  filter: {do: It, parts: {f: 1}, every: {" + limit + "}\n",
              put_in_service);
  world.measured("wear", "11", "2025-07-01", "mm", "left");
  world.measured("wear", "11", "2025-07-01", "mm");
  world.measured("wear", "4", "2025-07-02", "mm", "right");
  const auto page = page_of(world, "2025-08-01");
  std::vector<std::string> said;
  for (const SheetEntry& entry : page->entries) {
    said.push_back(names(entry.points) + (entry.past_limit ? " past" : "") + (entry.puts_in_new ? " new" : ""));
    CHECK(entry.measures.size() == (entry.past_limit ? entry.points.size() : 0));
  }
  // A new element puts its own value right.
  CHECK(joined(said) == "fork@left past, fork@right, filter new");
}

TEST_CASE("a whole that includes what is past its limit is written down like that") {
  World world(task("big", "covers: [fork], parts: {kit: 1}") +
                  "  fork: {do: It, safety: true, every: {months: 5, measured: {wear: {above: 10, unit: mm}}}}\n",
              put_in_service);
  world.measured("wear", "11", "2025-07-01", "mm");
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(page->entries.size() == 1);
  CHECK(page->entries.front().past_limit);
  REQUIRE(page->alone.size() == 1);
  CHECK(page->alone.front().past_limit);
}

TEST_CASE("what is to be measured again has the same day, whatever is asked for beside it") {
  World world("  fork: {do: It, every: {months: 12, measured: {wear: {above: 10, unit: mm}}}}\n" + task("seal"),
              put_in_service);
  world.measured("wear", "9", "2025-07-01", "mm");
  for (const char* within : {"", "2025-09-01"}) {
    const auto page = page_of(world, "2025-08-01", within);
    REQUIRE(names(page->measure_again) == "fork");
    CHECK(test::text_or_none(page->measure_again.front().points.front()->due_on) == "2026-01-01");
  }
}

TEST_CASE(
    "what lifts a ban is written down apart, whether it puts in new parts or not, and a sign is said as at its task") {
  const std::string signs = "months: 6, signs: [pull]}";
  World world("  brakes: {do: It, safety: true, every: {" + signs + "}\n" +
                  "  pads: {do: It, safety: true, parts: {p: 1}, every: {" + signs + "}\n" +
                  "  horn: {do: It, every: {" + signs + "}\n" + "  oil: {do: It, parts: {f: 1}, every: {months: 6}}\n",
              put_in_service);
  CHECK_FALSE(page_of(world, "2025-08-01")->entries.front().sign_seen);
  world.sign("pull", "2025-07-01");
  const auto page = page_of(world, "2025-08-01");
  std::vector<std::string> said;
  for (const SheetEntry& entry : page->entries) {
    said.push_back(names(entry.points) + (entry.sign_seen ? " seen" : "") + (entry.lifts_ban ? " bans" : "") +
                   (entry.puts_in_new ? " new" : ""));
  }
  CHECK(joined(said) == "brakes seen bans, pads seen bans new, horn seen, oil new");
  for (const auto& task : page->tasks) CHECK(task.sign_seen == (task.name != "oil"));
}
