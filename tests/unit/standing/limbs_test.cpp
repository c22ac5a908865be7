// The limbs that are no plain interval: changes of another task, a measured limit, a sign, a season, and month's ends.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "support/world.h"

using service::LimbKind;
using service::LimbState;
using service::Standing;
using test::limb;
using test::text_or_none;
using test::told;
using test::World;

namespace {

const std::string harvest = "seasons: {harvest: {from: 08-01, to: 09-20}, winter: {from: 11-15, to: 02-10}}\n";

World task(const std::string& keys, const std::string& more = "") {
  return World("  t: {do: Work, " + keys + "}\n", "bought: {on: 2020-01-01, at: 0}", more);
}

// `inner` after three changes of `outer`.
World inner(const std::string& keys = "", const std::string& outer = "") {
  return World("  outer: {do: Outer element, every: {hours: 250}" + outer + "}\n" +
                   "  inner: {do: Inner element, every: {changes: {outer: 3}}" + keys + "}\n",
               "in-service: {on: 2020-01-01, at: 0}");
}

}  // namespace

TEST_CASE("a changes limb is due at the n-th change and overdue beyond it") {
  World world = inner();
  world.done("inner", "2021-01-01");
  world.done("outer", "2021-02-01");
  world.done("outer", "2021-03-01");
  CHECK(limb(world.point("2021-03-01", "inner"), LimbKind::changes).state == LimbState::not_reached);
  CHECK(limb(world.point("2021-03-01", "inner"), LimbKind::changes).count.value_or(99) == 2);
  world.done("outer", "2021-04-01");
  CHECK(told(world.point("2021-04-01", "inner")) == "due changes 2021-04-01");
  world.done("outer", "2021-05-01");
  CHECK(told(world.point("2021-05-01", "inner")) == "overdue changes 2021-04-01");
}

TEST_CASE("the inner element is due with every third change of the outer one") {
  // Common practice, no source.
  World world = inner();
  world.done("inner", "2020-12-01");
  for (int n = 1; n <= 7; ++n) {
    CAPTURE(n);
    const std::string today = "2021-0" + std::to_string(n) + "-01";
    world.done("outer", today);
    const bool due = world.point(today, "inner").standing == Standing::due;
    CHECK(due == (n % 3 == 0));
    if (due) world.done("inner", today);
  }
}

TEST_CASE("a changes limb counts days after the day this was fitted") {
  World world = inner();
  world.done("outer", "2021-01-01");
  world.done("inner", "2021-01-01");
  world.done("outer", "2021-01-01");  // both on one day, the outer one with the inner
  world.done("outer", "2021-02-01");
  world.done("outer", "2021-03-01");
  world.done("outer", "2021-03-01");  // entered twice
  CHECK(limb(world.point("2021-03-02", "inner"), LimbKind::changes).count.value_or(99) == 2);
}

TEST_CASE("a change at any position is that day's change") {
  World world = inner("", ", positions: [left, right]");
  world.done("inner", "2021-01-01");
  world.done("outer", "2021-02-01", "", "left");
  world.done("outer", "2021-02-01", "", "right");
  world.done("outer", "2021-03-01", "", "left");
  CHECK(limb(world.point("2021-03-02", "inner"), LimbKind::changes).count.value_or(99) == 2);
  world.done("outer", "2021-04-01", "", "right");
  CHECK(world.point("2021-04-02", "inner").standing == Standing::due);
}

TEST_CASE("percent grace of a changes limb rounds down") {
  World half = inner(", grace: 50%");   // half of 3 is 1
  World third = inner(", grace: 33%");  // 0.99 is none
  for (World* world : {&half, &third}) {
    world->done("inner", "2021-01-01");
    for (const std::string_view on : {"2021-02-01", "2021-03-01", "2021-04-01", "2021-05-01"}) world->done("outer", on);
  }
  CHECK(half.point("2021-05-01", "inner").standing == Standing::due);
  CHECK(limb(half.point("2021-05-01", "inner"), LimbKind::changes).grace_count == 1);
  CHECK(third.point("2021-05-01", "inner").standing == Standing::overdue);
  half.done("outer", "2021-06-01");
  CHECK(half.point("2021-06-01", "inner").standing == Standing::overdue);
}

TEST_CASE("a task done as part of another counts as a change") {
  World world(
      "  big: {do: Big service, every: {hours: 500}, covers: [outer]}\n"
      "  outer: {do: Outer, every: {hours: 250}}\n"
      "  inner: {do: Inner, every: {changes: {outer: 2}}}\n",
      "in-service: {on: 2020-01-01, at: 0}");
  world.done("inner", "2021-01-01");
  world.done("outer", "2021-02-01");
  world.done("big", "2021-03-01");
  CHECK(told(world.point("2021-03-01", "inner")) == "due changes 2021-03-01");
}

TEST_CASE("what is measured is due at its limit and overdue beyond it") {
  for (const auto& [value, standing] :
       {std::pair{"24.999999", Standing::later}, {"25", Standing::due}, {"25.000001", Standing::overdue}}) {
    CAPTURE(std::string(value));
    World world = task("every: {years: 10, measured: {restriction: {above: 25, unit: inH2O}}}");
    world.done("t", "2026-01-01");
    world.measured("restriction", value, "2026-02-01", "inH2O");
    CHECK(world.point("2026-02-01", "t").standing == standing);
  }
}

TEST_CASE("what wears away is due at its limit and overdue below it") {
  for (const auto& [value, standing] :
       {std::pair{"3.1", Standing::later}, {"3", Standing::due}, {"2.9", Standing::overdue}}) {
    CAPTURE(std::string(value));
    World world = task("every: {years: 10, measured: {tread: {below: 3, unit: mm}}}");
    world.done("t", "2026-01-01");
    world.measured("tread", value, "2026-02-01", "mm");
    CHECK(world.point("2026-02-01", "t").standing == standing);
  }
}

TEST_CASE("the latest measurement since fitted decides") {
  World world = task("every: {years: 10, measured: {restriction: {above: 25, unit: inH2O}}}");
  world.measured("restriction", "30", "2025-12-01", "inH2O");
  world.done("t", "2026-01-01");
  CHECK(world.point("2026-01-02", "t").standing == Standing::later);  // 30 was the old element
  world.measured("restriction", "26", "2026-02-01", "inH2O");
  CHECK(told(world.point("2026-02-01", "t")) == "overdue measured 2026-02-01");
  world.measured("restriction", "12", "2026-02-02", "inH2O");
  const auto point = world.point("2026-02-02", "t");
  CHECK(point.standing == Standing::later);
  CHECK(text_or_none(limb(point, LimbKind::measured).noticed_on) == "2026-02-02");
}

TEST_CASE("a sign is due on the day it is seen and overdue after that day and its grace") {
  World world = task("every: {years: 10, signs: [leak, hard-start]}");
  world.done("t", "2026-01-01");
  world.sign("smoke", "2026-01-05");  // not one of them
  CHECK(world.point("2026-01-05", "t").standing == Standing::later);
  world.sign("hard-start", "2026-02-01");
  const auto point = world.point("2026-02-01", "t");
  CHECK(told(point) == "due sign 2026-02-01");
  CHECK(limb(point, LimbKind::sign).seen == "hard-start");
  CHECK(told(world.point("2026-02-02", "t")) == "overdue sign 2026-02-01");
  World graced = task("every: {years: 10, signs: [leak]}, grace: {days: 3}");
  graced.done("t", "2026-01-01");
  graced.sign("leak", "2026-02-01");
  CHECK(graced.point("2026-02-04", "t").standing == Standing::due);
  CHECK(graced.point("2026-02-05", "t").standing == Standing::overdue);
}

TEST_CASE("a sign counts from the first time it was seen and ends with the service") {
  World world = task("every: {years: 10, signs: [leak]}, grace: {days: 3}");
  world.sign("leak", "2025-12-30");
  world.done("t", "2026-01-01");
  CHECK(world.point("2026-01-02", "t").standing == Standing::later);
  world.sign("leak", "2026-02-01");
  world.sign("leak", "2026-02-05");  // seen again: no fresh grace
  CHECK(told(world.point("2026-02-05", "t")) == "overdue sign 2026-02-01");
  world.done("t", "2026-02-06");
  CHECK(world.point("2026-02-07", "t").standing == Standing::later);
}

TEST_CASE("on the day of a service, what was entered before it is over and what was entered after it counts") {
  World world = task("every: {years: 10, signs: [leak], measured: {tread: {below: 3, unit: mm}}}");
  world.sign("leak", "2026-01-01");
  world.measured("tread", "2", "2026-01-01", "mm");
  world.done("t", "2026-01-01");
  CHECK(world.point("2026-01-02", "t").standing == Standing::later);
  World leaks = world;
  leaks.sign("leak", "2026-01-01");
  CHECK(told(leaks.point("2026-01-02", "t")) == "overdue sign 2026-01-01");
  World worn = world;
  worn.measured("tread", "2", "2026-01-01", "mm");
  CHECK(told(worn.point("2026-01-02", "t")) == "overdue measured 2026-01-01");
}

TEST_CASE("a season limb is due so many days before the season's start and overdue after") {
  World world = task("every: {season: {harvest: 14 days before}}", harvest);
  world.done("t", "2025-07-01");  // served the season of 2025
  // 1 August less 14 days is 18 July.
  CHECK(told(world.point("2026-07-17", "t")) == "coming season 2026-07-18");
  CHECK(told(world.point("2026-07-18", "t")) == "due season 2026-07-18");
  CHECK(told(world.point("2026-07-19", "t")) == "overdue season 2026-07-18");
  CHECK(limb(world.point("2026-07-17", "t"), LimbKind::season).left_days.value_or(99) == 1);
  World graced = task("every: {season: {harvest: 14 days before}}, grace: {days: 5}", harvest);
  graced.done("t", "2025-07-01");
  CHECK(graced.point("2026-07-23", "t").standing == Standing::due);
  CHECK(graced.point("2026-07-24", "t").standing == Standing::overdue);
}

TEST_CASE("what was done since the last season ended serves the coming one") {
  // The season ends on 20 September, that day included.
  for (const auto& [done, due] : {std::pair{"2025-09-21", "2027-07-18"},
                                  {"2026-01-10", "2027-07-18"},
                                  {"2026-07-18", "2027-07-18"},
                                  {"2025-09-20", "2026-07-18"},
                                  {"2025-08-15", "2026-07-18"}}) {
    World world = task("every: {season: {harvest: 14 days before}}", harvest);
    world.done("t", done);
    CHECK(text_or_none(limb(world.point("2026-07-18", "t"), LimbKind::season).due_on) == due);
  }
}

TEST_CASE("a season may run over New Year") {
  World world = task("every: {season: {winter: 10 days before}}", harvest);
  world.done("t", "2026-02-11");  // the day after the season ended
  CHECK(text_or_none(limb(world.point("2026-06-01", "t"), LimbKind::season).due_on) == "2027-11-05");
  World during = task("every: {season: {winter: 10 days before}}", harvest);
  during.done("t", "2026-01-20");
  CHECK(text_or_none(limb(during.point("2026-06-01", "t"), LimbKind::season).due_on) == "2026-11-05");
}

TEST_CASE("the fleet's grace is not for signs") {
  World world = task("every: {years: 10, signs: [leak]}", "grace: {days: 3}\n");
  world.done("t", "2026-01-01");
  world.sign("leak", "2026-02-01");
  CHECK(world.point("2026-02-01", "t").standing == Standing::due);
  CHECK(world.point("2026-02-02", "t").standing == Standing::overdue);
}

TEST_CASE("percent grace gives nothing to measured, sign and season limbs") {
  World measured = task("every: {years: 10, measured: {restriction: {above: 20, unit: kPa}}}, grace: 50%");
  measured.done("t", "2026-01-01");
  measured.measured("restriction", "20.1", "2026-02-01", "kPa");
  CHECK(measured.point("2026-02-01", "t").standing == Standing::overdue);
  World sign = task("every: {years: 10, signs: [leak]}, grace: 50%");
  sign.done("t", "2026-01-01");
  sign.sign("leak", "2026-02-01");
  CHECK(sign.point("2026-02-02", "t").standing == Standing::overdue);
  World season = task("every: {season: {harvest: 14 days before}}, grace: 50%", harvest);
  season.done("t", "2025-07-01");
  CHECK(season.point("2026-07-19", "t").standing == Standing::overdue);
}

TEST_CASE("percent grace of a calendar limb is whole days of that interval, rounded down") {
  struct Row {
    std::string_view every;
    std::string_view done;
    int grace;
  };
  for (const Row& row : {Row{"months: 6", "2026-01-01", 18},    // 181 days
                         Row{"months: 1", "2026-01-31", 2},     // 28 days
                         Row{"months: 12", "2024-02-01", 36},   // 366 days
                         Row{"days: 9", "2026-01-01", 0},       // 0.9
                         Row{"weeks: 10", "2026-01-01", 7}}) {  // 70 days
    CAPTURE(row.every);
    World world = task("every: {" + std::string(row.every) + "}, grace: 10%");
    world.done("t", row.done);
    const auto point = world.point("2026-02-01", "t");
    CHECK(limb(point, LimbKind::calendar).grace_days == row.grace);
    REQUIRE(point.due_on.has_value());
    const auto last = *point.due_on + std::chrono::days{row.grace};
    CHECK(world.point(service::to_text(last), "t").standing == Standing::due);
    CHECK(world.point(service::to_text(last + std::chrono::days{1}), "t").standing == Standing::overdue);
  }
}

TEST_CASE("with the month's end, percent grace is of the interval as written, after the month's end") {
  World days = task("every: {days: 100}, until: month-end, grace: 10%");
  days.done("t", "2026-01-01");  // 100 days are 11 April, so 30 April, and 10 days
  CHECK(told(days.point("2026-04-30", "t")) == "due calendar 2026-04-30");
  CHECK(days.point("2026-05-10", "t").standing == Standing::due);
  CHECK(days.point("2026-05-11", "t").standing == Standing::overdue);
  World year = task("every: {months: 12}, until: month-end, grace: 10%");
  year.done("t", "2025-03-02");  // until 31 March, and 36 of the 365 days to 2 March: 6 May
  CHECK(year.point("2026-05-06", "t").standing == Standing::due);
  CHECK(year.point("2026-05-07", "t").standing == Standing::overdue);
}

TEST_CASE("the month's end leaves the hours of the task alone") {
  World world = task("every: {hours: 100, months: 1}, until: month-end");
  world.done("t", "2026-01-10", "0");
  world.reading("2026-02-01", "101");
  const auto point = world.point("2026-02-01", "t");
  CHECK(point.standing == Standing::overdue);
  CHECK(text_or_none(limb(point, LimbKind::calendar).due_on) == "2026-02-28");
}
