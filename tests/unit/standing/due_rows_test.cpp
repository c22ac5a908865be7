// Which points an answer shows and how many it leaves out; and the mailed list, heading by heading.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "support/world.h"

using namespace service;
using test::World;

namespace {

// Machine `m` with a point for each reason to be shown or left out, and two machines of which nothing is known.
World all_kinds() {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nmachines:\n"
      "  m: {schedule: kind, bought: 2020-01-01}\n"
      "  ghost: {schedule: short}\n"
      "  shade: {schedule: short}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  quiet: {do: Quiet, every: {months: 12}}\n"
      "  calm: {do: Calm, every: {months: 14}}\n"
      "  partly: {do: Partly, every: {hours: 100, months: 60}}\n"
      "  waiting: {do: Waiting, every: {months: 13}}\n"
      "  soon: {do: Soon, every: {months: 2}}\n"
      "  never: {do: Never, every: {months: 12}}\n"
      "  past: {do: Past, every: {months: 1}}\n"
      "  past-and-waiting: {do: Both, every: {months: 1}}\n";
  files.texts["schedules/short.yaml"] =
      "schedule: short\ntasks:\n  one: {do: One, every: {months: 1}}\n"
      "  two: {do: Two, every: {months: 2}}\n";
  World world(files);
  for (const char* task : {"quiet", "calm", "partly", "waiting", "soon", "past", "past-and-waiting"}) {
    const bool past = std::string_view(task).starts_with("past");
    world.done(task, past ? "2025-01-01" : "2026-01-10");
  }
  world.put_off("waiting", "2026-02-01", "2026-12-01");
  world.put_off("past-and-waiting", "2026-02-01", "2026-12-01");
  return world;
}

using Names = std::vector<std::string>;

Names names(const DueRows& rows) {
  Names all;
  for (const Point* point : rows.points) all.push_back(point->machine->key + " " + point->name);
  return all;
}

}  // namespace

TEST_CASE("what comes later is left out and counted, but for points with something unknown or put off") {
  const World world = all_kinds();
  const DueList list = world.due("2026-02-15");
  const DueRows rows = rows_of(list, {});
  CHECK((names(rows) == Names{"m past", "m past-and-waiting", "m soon", "m partly", "m waiting"}));
  CHECK(rows.later == 2);
  CHECK(rows.left_off == 0);
  CHECK(rows.anything_due);

  const DueRows all = rows_of(list, {.later = true});
  CHECK((names(all) == Names{"m past", "m past-and-waiting", "m soon", "m quiet", "m calm", "m partly", "m waiting"}));
  CHECK(all.later == 0);
}

TEST_CASE("the counts are of all points, whatever is shown") {
  const World world = all_kinds();
  const DueList list = world.due("2026-02-15");
  const std::map<Standing, int> expected{
      {Standing::overdue, 2}, {Standing::coming, 1}, {Standing::later, 4}, {Standing::no_record, 5}};
  CHECK((rows_of(list, {}).counts == expected));
  CHECK((rows_of(list, {.later = true, .each_without_record = true, .first = 1}).counts == expected));
}

TEST_CASE("a line stands for the points without record of a machine, unless each is asked for") {
  const World world = all_kinds();
  const DueList list = world.due("2026-02-15");
  CHECK(list.points.size() == 12);
  const DueRows rows = rows_of(list, {.each_without_record = true});
  CHECK((names(rows) == Names{"m past", "m past-and-waiting", "m never", "ghost one", "ghost two", "shade one",
                              "shade two", "m soon", "m partly", "m waiting"}));
  CHECK(rows.later == 2);
  CHECK(rows.no_record.empty());
  CHECK(gaps_beside(list, rows.no_record).size() == list.gaps.size());

  const DueRows lines = rows_of(list, {});
  std::string told;
  for (const NoRecord& line : lines.no_record) {
    told += line.machine->key + ':' + std::to_string(line.points.size()) + (line.nothing_recorded ? "!" : "") + ' ';
  }
  CHECK(told == "m:1 ghost:2! shade:2! ");
  // What the line says is not said again as a gap.
  for (const Gap* gap : gaps_beside(list, lines.no_record)) CHECK(gap->kind != GapKind::nothing_recorded);
  CHECK(gaps_beside(list, lines.no_record).size() + 2 == list.gaps.size());
}

TEST_CASE("the safety tasks of such a line are named, and what is put off stays by itself") {
  World world(
      "  brakes: {do: Brakes, every: {months: 12}, safety: true}\n  oil: {do: Oil, every: {months: 12}}\n"
      "  belt: {do: Belt, every: {months: 12}}\n",
      "bought: 2020-01-01");
  world.put_off("oil", "2026-02-01", "2026-12-01");
  const DueList list = world.due("2026-02-15");
  const DueRows rows = rows_of(list, {});
  CHECK((names(rows) == Names{"m oil"}));
  REQUIRE(rows.no_record.size() == 1);
  CHECK(rows.no_record[0].points.size() == 2);
  REQUIRE(rows.no_record[0].safety().size() == 1);
  CHECK(rows.no_record[0].safety()[0]->name == "brakes");
}

TEST_CASE("behind the first ones of each standing the others are cut off and counted") {
  const World world = all_kinds();
  const DueList list = world.due("2026-02-15");
  const auto cut = [&](std::size_t first, bool later) {
    const DueRows rows = rows_of(list, {.later = later, .first = first});
    return std::to_string(rows.points.size()) + " shown, " + std::to_string(rows.left_off) + " left off, " +
           std::to_string(rows.later) + " later";
  };
  CHECK(cut(1, false) == "3 shown, 2 left off, 2 later");  // one overdue, one coming, one later that waits
  CHECK(cut(2, false) == "5 shown, 0 left off, 2 later");
  CHECK(cut(7, false) == "5 shown, 0 left off, 2 later");
  CHECK(cut(0, false) == "0 shown, 5 left off, 2 later");
  CHECK(cut(1, true) == "3 shown, 4 left off, 0 later");
  CHECK(rows_of(list, {.first = 1}).no_record.size() == 3);  // never cut: it may be all that is said of a machine
  CHECK(rows_of(list, {.first = 0}).anything_due);           // what is cut off is due all the same
}

TEST_CASE("a check that is owed is shown until it is done, however far its day is") {
  World world(
      "  oil: {do: Oil, every: {hours: 250}, follow-up: {leaks: {do: Look, within: {months: 3}}}}\n"
      "  belt: {do: Belt, every: {hours: 300}}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  world.reading("2026-01-10", "100");
  world.done("oil", "2026-01-10", "100");
  const DueList owed = world.due("2026-01-12");
  DueRows rows = rows_of(owed, {});
  REQUIRE((names(rows) == Names{"m oil/leaks"}));
  CHECK((rows.points.front()->standing == Standing::later));  // it stands as it did
  CHECK_FALSE(rows.anything_due);
  CHECK(rows.later == 2);
  CHECK_FALSE(needs_doing(owed));
  world.done("oil/leaks", "2026-01-11");
  const DueList checked = world.due("2026-01-12");
  CHECK(rows_of(checked, {}).points.empty());
}

TEST_CASE("nothing but later points is nothing due") {
  World world("  quiet: {do: Quiet, every: {months: 12}}\n  waiting: {do: Waiting, every: {months: 13}}\n",
              "bought: 2020-01-01");
  world.done("quiet", "2026-01-10");
  world.done("waiting", "2026-01-10");
  world.put_off("waiting", "2026-02-01", "2026-12-01");
  const DueList list = world.due("2026-02-15");
  const DueRows rows = rows_of(list, {.later = true});
  CHECK(rows.points.size() == 2);
  CHECK_FALSE(rows.anything_due);
}

TEST_CASE("the mailed list in blocks is the mailed list, each heading once and none empty") {
  World world = all_kinds();
  const auto told = [&] {
    const DueList list = world.due("2026-02-15");
    const auto entries = overdue_list(list);
    std::string headings;
    std::size_t at = 0;
    std::optional<OverdueHeading> before;
    for (const OverdueBlock& block : overdue_blocks(list)) {
      headings += (headings.empty() ? "" : " ") + std::string(to_text(block.heading)) + ":" +
                  std::to_string(block.entries.size());
      CHECK((!before || *before < block.heading));
      before = block.heading;
      CHECK_FALSE(block.entries.empty());
      for (const OverdueEntry& entry : block.entries) {
        REQUIRE(at < entries.size());
        CHECK(entry.heading == block.heading);
        CHECK(entries[at].heading == entry.heading);
        CHECK(entries[at].point == entry.point);
        CHECK(entries[at].gap == entry.gap);
        CHECK(entries[at].use == entry.use);
        ++at;
      }
    }
    CHECK(at == entries.size());
    return headings;
  };
  // To find out: two machines with their two points each, the meter of `m`, which nobody ever read, and its `never` and
  // `partly`.
  CHECK(told() == "overdue:1 find-out:9 put-off:1");
  world.state(FactKind::out_of_use, "2026-02-10");
  CHECK(told() == "out-of-use:1 overdue:1 find-out:9 put-off:1");
  const World quiet("  t: {do: Work, every: {months: 12}}\n", "in-service: 2026-01-01");
  CHECK(overdue_blocks(quiet.due("2026-02-15")).empty());
}
