// Where the next interval starts: from when it was done, from the due point, or from whichever is earlier.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/standing/task_t.h"

using service::LimbKind;
using standing_test::due_at;
using standing_test::due_day;
using standing_test::task;
using test::limb;
using test::text_or_none;
using test::told;
using test::World;

TEST_CASE("plainly the next interval counts from when it was done, early or late") {
  for (const auto& [done, next] : {std::pair{"1200", "1450"}, {"1250", "1500"}, {"1300", "1550"}}) {
    World world = task("every: {hours: 250}, grace: {hours: 100}");
    world.done("t", "2025-01-01", "1000");
    world.done("t", "2025-06-01", done);
    CHECK(due_at(world, "2025-06-01") == next);
  }
}

TEST_CASE("done within grace of the due point on either side counts as done on it, outside from when it was done") {
  // Due at 1250 with 10 h of grace.
  for (const auto& [done, next] : {std::pair{"1239.99", "1489.99"},
                                   {"1240", "1500"},
                                   {"1250", "1500"},
                                   {"1260", "1500"},
                                   {"1260.01", "1510.01"}}) {
    World world = task("every: {hours: 250}, grace: {hours: 10}, counts-from: due");
    world.done("t", "2025-01-01", "1000");
    world.done("t", "2025-06-01", done);
    CHECK(due_at(world, "2025-06-01") == next);
  }
  // Due on 2025-04-01 with 5 days of grace.
  for (const auto& [done, next] : {std::pair{"2025-03-26", "2025-06-26"},
                                   {"2025-03-27", "2025-07-01"},
                                   {"2025-04-06", "2025-07-01"},
                                   {"2025-04-07", "2025-07-07"}}) {
    World world = task("every: {months: 3}, grace: {days: 5}, counts-from: due");
    world.done("t", "2025-01-01");
    world.done("t", done);
    CHECK(due_day(world, "2025-04-08") == next);
  }
}

TEST_CASE("the limbs count each by itself") {
  // Hours within their grace, months far outside theirs.
  World world = task("every: {hours: 250, months: 12}, grace: {hours: 10, days: 5}, counts-from: due");
  world.done("t", "2025-01-01", "1000");
  world.done("t", "2025-06-01", "1255");
  CHECK(due_at(world, "2025-06-01") == "1500");
  CHECK(due_day(world, "2025-06-01") == "2026-06-01");
}

TEST_CASE("a chain of due days is computed from its anchor and never from a clamped day") {
  World world = task("every: {months: 1}, grace: {days: 3}, counts-from: due");
  world.done("t", "2025-01-31");
  CHECK(due_day(world, "2025-02-01") == "2025-02-28");
  world.done("t", "2025-02-27");
  CHECK(due_day(world, "2025-03-01") == "2025-03-31");
  world.done("t", "2025-04-02");
  CHECK(due_day(world, "2025-04-02") == "2025-04-30");
  world.done("t", "2025-04-30");
  CHECK(due_day(world, "2025-05-01") == "2025-05-31");
}

TEST_CASE("a chain that broke starts anew from when it was done") {
  World world = task("every: {months: 1}, grace: {days: 3}, counts-from: due");
  world.done("t", "2025-01-31");
  world.done("t", "2025-03-10");  // ten days past 28 February
  CHECK(due_day(world, "2025-03-11") == "2025-04-10");
  world.done("t", "2025-04-12");
  CHECK(due_day(world, "2025-04-13") == "2025-05-10");
}

TEST_CASE("a chain starts on the day a new machine was put in service") {
  World world = task("every: {hours: 100, months: 1}, grace: {hours: 10, days: 3}, counts-from: due",
                     "in-service: {on: 2025-01-31, at: 5}");
  CHECK(due_at(world, "2025-02-01") == "105");
  CHECK(due_day(world, "2025-02-01") == "2025-02-28");
  world.done("t", "2025-02-28", "98");
  CHECK(due_at(world, "2025-03-01") == "205");
  CHECK(due_day(world, "2025-03-01") == "2025-03-31");
}

TEST_CASE("a chain of a machine bought used starts with the first service") {
  World world = task("every: {hours: 100, months: 1}, grace: {hours: 10, days: 3}, counts-from: due",
                     "bought: {on: 2024-12-15, at: 5}");
  world.done("t", "2025-01-31", "50");
  CHECK(due_at(world, "2025-02-01") == "150");
  world.done("t", "2025-02-28", "145");
  CHECK(due_at(world, "2025-03-01") == "250");
  CHECK(due_day(world, "2025-03-01") == "2025-03-31");
}

TEST_CASE("counting from the earlier, running over a whole interval restarts from when it was done") {
  // Due at 500 every 100 h.
  for (const auto& [done, next] : {std::pair{"599.99", "600"}, {"600", "700"}, {"730", "830"}}) {
    World world = task("every: {hours: 100}, counts-from: earlier");
    world.done("t", "2025-01-01", "400");
    world.done("t", "2025-06-01", done);
    CHECK(due_at(world, "2025-06-01") == next);
  }
}

TEST_CASE("the whole interval that counts is the one that follows") {
  // Run in at 50 h, then every 250 h: 200 h is far over the first interval and not over the next.
  for (const auto& [done, next] : {std::pair{"200", "300"}, {"299.99", "300"}, {"300", "550"}}) {
    World world =
        task("every: {hours: 250}, first: {hours: 50}, counts-from: earlier", "in-service: {on: 2025-01-01, at: 0}");
    world.done("t", "2025-06-01", done);
    CHECK(due_at(world, "2025-06-01") == next);
  }
}

TEST_CASE("in months the restart is where the next due day of the chain has been reached") {
  for (const auto& [done, next] : {std::pair{"2026-01-14", "2026-01-15"}, {"2026-01-15", "2027-01-15"}}) {
    World world = task("every: {months: 12}, counts-from: earlier");
    world.done("t", "2024-01-15");  // due 2025-01-15
    world.done("t", done);
    CHECK(due_day(world, "2026-01-15") == next);
  }
  // From 31 January: due 28 February, then 31 March.
  for (const auto& [done, next] :
       {std::pair{"2025-03-30", "2025-03-31"}, {"2025-03-31", "2025-04-30"}, {"2025-02-10", "2025-03-10"}}) {
    World world = task("every: {months: 1}, counts-from: earlier");
    world.done("t", "2025-01-31");
    world.done("t", done);
    CHECK(due_day(world, "2025-03-31") == next);
  }
}

TEST_CASE("used counts from fitted, what is left and the due point follow the due point") {
  World world = task("every: {hours: 100}, counts-from: earlier");
  world.done("t", "2025-01-01", "400");
  world.done("t", "2025-06-01", "504");  // four hours late
  world.reading("2025-07-01", "550");
  const auto hours = limb(world.point("2025-07-01", "t"), LimbKind::usage);
  CHECK(text_or_none(hours.used) == "46");  // 550 - 504
  CHECK(text_or_none(hours.left) == "50");  // 600 - 550
  CHECK(text_or_none(hours.due_at) == "600");
  CHECK(text_or_none(hours.fitted_at) == "504");
  CHECK(text_or_none(hours.counted_at) == "500");
  World early = task("every: {hours: 100}, grace: {hours: 10}, counts-from: due");
  early.done("t", "2025-01-01", "400");
  early.done("t", "2025-06-01", "495");  // five hours early
  early.reading("2025-07-01", "550");
  const auto after = limb(early.point("2025-07-01", "t"), LimbKind::usage);
  CHECK(text_or_none(after.used) == "55");
  CHECK(text_or_none(after.left) == "50");
  CHECK(text_or_none(after.fitted_at) == "495");
  CHECK(text_or_none(after.counted_at) == "500");
}

TEST_CASE("of a chain of months the first day is told where the days of the month differ") {
  World world = task("every: {months: 1}, grace: {days: 3}, counts-from: due");
  world.done("t", "2025-01-31");
  const auto first = limb(world.point("2025-02-01", "t"), LimbKind::calendar);
  CHECK(text_or_none(first.counted_from) == "2025-01-31");
  CHECK(text_or_none(first.chain_from) == "none");
  world.done("t", "2025-02-27");
  const auto second = limb(world.point("2025-03-01", "t"), LimbKind::calendar);
  CHECK(text_or_none(second.counted_from) == "2025-02-28");
  CHECK(text_or_none(second.chain_from) == "2025-01-31");
}

TEST_CASE("hours in grace hold for every meter in hours, and the task's before what the fleet says of one meter") {
  const std::string meters = "meters: {engine: {unit: h}, drum: {unit: h}, road: {unit: km}}\n";
  const auto grace_of = [&](const std::string& grace, const std::string& more, const std::string& meter) {
    World world("  t: {do: Work, every: {usage: {" + meter + ": 100}}" + grace + "}\n",
                "bought: {on: 2020-01-01, at: 0}", more, meters);
    world.done("t", "2026-01-01", "10", "", meter);
    return to_text(limb(world.point("2026-01-02", "t"), LimbKind::usage).grace);
  };
  CHECK(grace_of(", grace: {hours: 7}", "", "engine") == "7");
  CHECK(grace_of(", grace: {hours: 7}", "", "drum") == "7");
  CHECK(grace_of(", grace: {hours: 7}", "", "road") == "0");
  CHECK(grace_of(", grace: {hours: 7, usage: {drum: 3}}", "", "drum") == "3");
  CHECK(grace_of("", "grace: {hours: 9}\n", "drum") == "9");
  CHECK(grace_of(", grace: {hours: 7}", "grace: 10%\n", "road") == "10");
  CHECK(grace_of(", grace: {hours: 7}", "grace: {usage: {drum: 20}}\n", "drum") == "7");
  CHECK(grace_of(", grace: {days: 7}", "grace: {usage: {drum: 20}}\n", "drum") == "20");
}

TEST_CASE("a limb reached by its due point is overdue by its due point") {
  World world = task("every: {hours: 100}, counts-from: earlier");
  world.done("t", "2025-01-01", "400");
  world.done("t", "2025-06-01", "590");  // ninety hours late, so ten to go
  world.reading("2025-06-11", "600");
  CHECK(told(world.point("2025-06-11", "t")) == "due usage 2025-06-11");
  world.reading("2025-06-12", "600.5");
  CHECK(told(world.point("2025-06-12", "t")) == "overdue usage 2025-06-11");
}
