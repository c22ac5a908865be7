// The race of the limbs: where a point stands, which limb rules it, and since when.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/standing/task_t.h"

using service::LimbKind;
using service::LimbState;
using service::Standing;
using standing_test::due_at;
using standing_test::task;
using test::limb;
using test::text_or_none;
using test::told;
using test::World;

TEST_CASE("250 h or a month, fitted on the last of January: due by months on the last of February") {
  World world = task("every: {hours: 250, months: 1}");
  world.done("t", "2026-01-31", "1000");
  world.reading("2026-02-28", "1100");
  const auto point = world.point("2026-02-28", "t");
  CHECK(told(point) == "due calendar 2026-02-28");
  CHECK(limb(point, LimbKind::calendar).left_days.value_or(99) == 0);
  CHECK(text_or_none(limb(point, LimbKind::usage).left) == "150");  // 250 - 100
  CHECK(limb(point, LimbKind::usage).state == LimbState::not_reached);
  CHECK(world.point("2026-02-27", "t").standing == Standing::coming);
}

TEST_CASE("250 h or a month, fitted on the last of January: overdue by a day on the first of March") {
  World world = task("every: {hours: 250, months: 1}");
  world.done("t", "2026-01-31", "1000");
  world.reading("2026-03-01", "1100");
  const auto point = world.point("2026-03-01", "t");
  CHECK(told(point) == "overdue calendar 2026-02-28");
  CHECK(limb(point, LimbKind::calendar).left_days.value_or(99) == -1);
}

TEST_CASE("250 h or twelve months: overdue by hours with one day left on the months") {
  World world = task("every: {hours: 250, months: 12}");
  world.done("t", "2025-03-02", "1250.0");
  world.reading("2026-03-01", "1511.4");
  const auto point = world.point("2026-03-01", "t");
  // 250 of 261.4 h in 364 days: 348.1 days, so the 349th, which is 16 days before 2026-03-02 (the 365th).
  CHECK(told(point) == "overdue usage 2026-02-14");
  const auto& hours = limb(point, LimbKind::usage);
  CHECK(text_or_none(hours.every) == "250");
  CHECK(text_or_none(hours.used) == "261.4");  // 1511.4 - 1250
  CHECK(text_or_none(hours.left) == "-11.4");
  CHECK(text_or_none(hours.due_at) == "1500");
  CHECK(hours.unit == "h");
  CHECK(hours.name == "engine");
  const auto& months = limb(point, LimbKind::calendar);
  CHECK(text_or_none(months.due_on) == "2026-03-02");
  CHECK(months.left_days.value_or(99) == 1);
  CHECK(text_or_none(months.counted_from) == "2025-03-02");
}

TEST_CASE("twelve months from 29 February end on the 28th") {
  World world = task("every: {months: 12}");
  world.done("t", "2024-02-29");
  CHECK(told(world.point("2025-02-27", "t")) == "coming calendar 2025-02-28");
  CHECK(told(world.point("2025-02-28", "t")) == "due calendar 2025-02-28");
  CHECK(told(world.point("2025-03-01", "t")) == "overdue calendar 2025-02-28");
}

TEST_CASE("of a service known by its year only, the year's first day counts, and it is marked") {
  World world = task("every: {months: 24}", "bought: 2008-01-01");
  world.done("t", "2009");
  const auto point = world.point("2026-05-01", "t");
  CHECK(told(point) == "overdue calendar 2011-01-01");
  REQUIRE(point.fitted.has_value());
  CHECK(point.fitted->year_or_month_only());
  CHECK(service::to_text(point.fitted->on) == "2009");
}

TEST_CASE("ten percent of grace on 250 h: due at the limit and at the end of grace, overdue beyond") {
  struct Row {
    std::string_view now;
    Standing standing;
  };
  for (const Row& row : {Row{"1149.99", Standing::later}, Row{"1150", Standing::due}, Row{"1175", Standing::due},
                         Row{"1175.01", Standing::overdue}, Row{"1175.1", Standing::overdue}}) {
    CAPTURE(row.now);
    World world = task("every: {hours: 250}, grace: 10%");
    world.done("t", "2026-01-01", "900");
    world.reading("2026-06-01", row.now);
    const auto point = world.point("2026-06-01", "t");
    if (row.standing == Standing::later) {
      CHECK(limb(point, LimbKind::usage).state == LimbState::not_reached);
    } else {
      CHECK(point.standing == row.standing);
    }
    CHECK(service::to_text(limb(point, LimbKind::usage).grace) == "25");
  }
}

TEST_CASE("counting from the earlier, a late one eats into the next interval and an early one re-bases") {
  for (const auto& [done, next] : {std::pair{"504", "600"}, {"480", "580"}, {"500", "600"}}) {
    World world = task("every: {hours: 100}, counts-from: earlier");
    world.done("t", "2026-01-01", "400");
    CHECK(due_at(world, "2026-01-02") == "500");
    world.done("t", "2026-06-01", done);
    CHECK(due_at(world, "2026-06-02") == next);
  }
}

TEST_CASE("without grace a limit reached exactly is due and one hundredth more is overdue") {
  World world = task("every: {hours: 250}");
  world.done("t", "2026-01-01", "1000");
  world.reading("2026-03-01", "1250");
  CHECK(told(world.point("2026-03-01", "t")) == "due usage 2026-03-01");
  world.reading("2026-03-02", "1250.01");
  CHECK(told(world.point("2026-03-02", "t")) == "overdue usage 2026-03-01");
}

TEST_CASE("a limit reached long ago was reached on the first day of that usage") {
  World world = task("every: {hours: 100}");
  world.done("t", "2026-01-01", "0");
  world.reading("2026-01-31", "90");   // 3 h a day
  world.reading("2026-02-20", "130");  // 2 h a day: 100 on the fifth day
  const auto point = world.point("2026-06-01", "t");
  CHECK(told(point) == "overdue usage 2026-02-05");
}

TEST_CASE("the worst limb rules, whichever is longest past") {
  // By days long due within grace, by hours just overdue.
  World world = task("every: {hours: 100, days: 10}, grace: {days: 60}");
  world.done("t", "2026-01-01", "0");
  world.reading("2026-02-01", "100.5");
  const auto point = world.point("2026-02-01", "t");
  CHECK(limb(point, LimbKind::calendar).state == LimbState::due);
  CHECK(text_or_none(limb(point, LimbKind::calendar).due_on) == "2026-01-11");
  CHECK(told(point) == "overdue usage 2026-02-01");
}

TEST_CASE("of equal limbs the one due earliest rules") {
  World world = task("every: {hours: 100, days: 10}");
  world.done("t", "2026-01-01", "0");
  world.reading("2026-01-06", "101");  // past 100 on 6 January
  CHECK(told(world.point("2026-01-12", "t")) == "overdue usage 2026-01-06");
  World by_days = task("every: {hours: 100, days: 3}");
  by_days.done("t", "2026-01-01", "0");
  by_days.reading("2026-01-06", "101");
  CHECK(told(by_days.point("2026-01-12", "t")) == "overdue calendar 2026-01-04");
}

TEST_CASE("of limbs that are due on one day usage rules") {
  World world = task("every: {days: 10, hours: 100}");
  world.done("t", "2026-01-01", "0");
  world.reading("2026-01-11", "100");
  const auto point = world.point("2026-01-11", "t");
  CHECK(text_or_none(limb(point, LimbKind::calendar).due_on) == "2026-01-11");
  CHECK(told(point) == "due usage 2026-01-11");
}

TEST_CASE("the calendar units are days, weeks, months and years") {
  for (const auto& [every, due] : {std::pair{"days: 90", "2024-05-29"},
                                   {"weeks: 6", "2024-04-11"},
                                   {"months: 3", "2024-05-29"},
                                   {"years: 1", "2025-02-28"},
                                   {"months: 1", "2024-03-29"}}) {
    // 29 February: 90 days are 31 (March) + 30 + 29. Six weeks are 42 days: 31 and 11.
    World world = task("every: {" + std::string(every) + "}");
    world.done("t", "2024-02-29");
    CHECK(text_or_none(world.point("2024-03-01", "t").due_on) == due);
  }
}

TEST_CASE("two usage limbs race on their own meters") {
  World world("  t: {do: Work, every: {usage: {engine: 500, separator: 300}}}\n", "in-service: {on: 2025-01-01, at: 0}",
              "", "meters: {engine: {unit: h}, separator: {unit: h}}\n");
  world.reading("2026-01-01", "499");
  world.reading("2026-01-01", "301", "separator");
  const auto point = world.point("2026-01-01", "t");
  CHECK(point.standing == Standing::overdue);
  REQUIRE(point.ruled_by.has_value());
  CHECK(point.limbs[*point.ruled_by].name == "separator");
  CHECK(text_or_none(point.limbs[*point.ruled_by].left) == "-1");
}

TEST_CASE("hours without a meter are of the machine's first meter in hours") {
  World world("  t: {do: Work, every: {hours: 100}}\n", "in-service: {on: 2025-01-01, at: 0}", "",
              "meters: {odometer: {unit: km}, engine: {unit: h}}\n");
  world.reading("2026-01-01", "5000", "odometer");
  world.reading("2026-01-01", "99", "engine");
  const auto point = world.point("2026-01-01", "t");
  CHECK(limb(point, LimbKind::usage).name == "engine");
  CHECK(text_or_none(limb(point, LimbKind::usage).left) == "1");
}

TEST_CASE("usage goes on over a change of the meter") {
  World world = task("every: {hours: 250}");
  world.done("t", "2026-01-01", "4000");
  world.meter_change("2026-02-01", "4100", "0");
  world.reading("2026-03-01", "149.99");
  CHECK(limb(world.point("2026-03-01", "t"), LimbKind::usage).state == LimbState::not_reached);
  world.reading("2026-03-02", "150");
  CHECK(told(world.point("2026-03-02", "t")) == "due usage 2026-03-02");
}

TEST_CASE("what is a matter of safety has no grace, not even the fleet's") {
  World world =
      task("every: {hours: 250, months: 12}, safety: true", "bought: {on: 2020-01-01, at: 0}", "grace: 10%\n");
  world.done("t", "2025-01-01", "1000");
  world.reading("2026-01-01", "1250");
  CHECK(world.point("2026-01-01", "t").standing == Standing::due);
  CHECK(world.point("2026-01-02", "t").standing == Standing::overdue);  // by months
  world.reading("2026-01-01", "1250.01");
  CHECK(world.point("2026-01-01", "t").standing == Standing::overdue);  // by hours
}

TEST_CASE("an examination has its own grace, and never the fleet's") {
  const std::string exam = "every: {hours: 250, months: 12}, by-whom: competent-person";
  World world = task(exam, "bought: {on: 2020-01-01, at: 0}", "grace: 10%\n");
  world.done("t", "2025-01-01", "1000").by = "Inspector";
  CHECK(world.point("2026-01-01", "t").standing == Standing::due);
  CHECK(world.point("2026-01-02", "t").standing == Standing::overdue);
  World own = task(exam + ", grace: {days: 3}", "bought: {on: 2020-01-01, at: 0}", "grace: {hours: 50, days: 30}\n");
  own.done("t", "2025-01-01", "1000").by = "Inspector";
  CHECK(own.point("2026-01-04", "t").standing == Standing::due);
  CHECK(own.point("2026-01-05", "t").standing == Standing::overdue);
  CHECK(service::to_text(limb(own.point("2026-01-05", "t"), LimbKind::usage).grace) == "0");
  World here = task(exam, "bought: {on: 2020-01-01, at: 0}, change: {t: {grace: {days: 2}}}", "grace: 10%\n");
  here.done("t", "2025-01-01", "1000").by = "Inspector";
  CHECK(here.point("2026-01-03", "t").standing == Standing::due);
  CHECK(here.point("2026-01-04", "t").standing == Standing::overdue);
}

TEST_CASE("a delay of an examination that came with another copy of the book has no effect") {
  World world = task("every: {months: 12}, by-whom: competent-person", "bought: {on: 2020-01-01, at: 0}");
  world.done("t", "2025-01-01", "1000").by = "Inspector";
  world.put_off("t", "2026-01-02", "2026-06-01");
  CHECK_FALSE(world.point("2026-01-05", "t").put_off.has_value());
}

TEST_CASE("the fleet's grace holds where the task has none of its own") {
  World world = task("every: {hours: 250}", "bought: {on: 2020-01-01, at: 0}", "grace: 10%\n");
  world.done("t", "2025-01-01", "1000");
  world.reading("2026-01-01", "1275");
  CHECK(world.point("2026-01-01", "t").standing == Standing::due);
  World own = task("every: {hours: 250}, grace: {hours: 10}", "bought: {on: 2020-01-01, at: 0}", "grace: 10%\n");
  own.done("t", "2025-01-01", "1000");
  own.reading("2026-01-01", "1260.01");
  CHECK(own.point("2026-01-01", "t").standing == Standing::overdue);
}
