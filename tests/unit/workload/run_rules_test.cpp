// What each task of a job sheet says of running a machine that nobody may run, or that is laid up.
#include <doctest/doctest.h>

#include "service/run_ban.h"
#include "unit/workload/job_sheets.h"

using namespace sheet_test;

TEST_CASE("a sign of work for safety forbids to run the machine, any other sign does not") {
  const std::string brakes =
      "  brakes: {do: Do it, safety: true, every: {months: 60, signs: [pull]}, cautions: [engine-running]}\n";
  World world(task("seal") + brakes + "  gland: {do: Do it, every: {months: 60, signs: [drip]}}\n" +
                  task("exam", "by-whom: competent-person"),
              put_in_service);
  world.sign("drip", "2025-07-20");
  const auto drips = page_of(world, "2025-08-01");
  CHECK_FALSE(drips->not_to_run);
  CHECK(run_rules(drips->tasks) == "gland free, seal free, exam free");

  // The repair is run for its own steps; what stands before it leaves them out, and what follows it is free.
  world.sign("pull", "2025-07-20");
  const auto pulls = page_of(world, "2025-08-01");
  CHECK(pulls->not_to_run);
  CHECK(names(pulls->forbidden_by) == "brakes");
  CHECK(run_rules(pulls->tasks) == "gland at-rest, brakes once-mended, seal free, exam free");
  REQUIRE(pulls->forbidden_by.size() == 1);
  CHECK(forbids_running(*pulls->forbidden_by.front()));
  CHECK_FALSE(forbids_running(*pulls->tasks[0].points.front()));

  // One that runs nothing allows nothing, and neither does one with another repair to come.
  World still("  fork: {do: It, safety: true, every: {months: 60, signs: [bend]}}\n" + brakes + task("seal"),
              put_in_service);
  still.sign("bend", "2025-07-20");
  CHECK(run_rules(page_of(still, "2025-08-01")->tasks) == "fork at-rest, seal free");
  still.sign("pull", "2025-07-20");
  CHECK(run_rules(page_of(still, "2025-08-01")->tasks) == "fork at-rest, brakes once-mended, seal free");
  World two("  hose: {do: It, safety: true, every: {months: 60, signs: [leak]}, cautions: [engine-running]}\n" + brakes,
            put_in_service);
  two.sign("leak", "2025-07-20");
  two.sign("pull", "2025-07-20");
  CHECK(run_rules(page_of(two, "2025-08-01")->tasks) == "hose not-at-all, brakes once-mended");

  // What comes before the repair leaves out the steps that run it.
  World examined(task("seal") +
                     "  exam: {do: Do it, by-whom: competent-person, every: {months: 60, signs: [crack]}, "
                     "cautions: [engine-running]}\n",
                 put_in_service);
  examined.sign("crack", "2025-07-20");
  CHECK(run_rules(page_of(examined, "2025-08-01")->tasks) == "seal at-rest, exam once-mended");
}

TEST_CASE("what nobody has looked at forbids nothing yet, found bad it forbids until it is good") {
  World strange(task("test", "cautions: [engine-running]") + task("seal"), put_in_service);
  strange.sign("rattle", "2025-07-20");
  const auto seen = page_of(strange, "2025-08-01");
  REQUIRE(seen->seen.size() == 1);
  CHECK_FALSE(seen->not_to_run);
  CHECK_FALSE(forbids_running(*seen->seen.front()));
  Fact look;
  look.kind = FactKind::looked_at;
  look.on = day("2025-07-21");
  look.name = "rattle";
  look.found = Found::failed;
  look.note = "loose";
  strange.add(look);
  const auto bad = page_of(strange, "2025-08-01");
  CHECK(bad->not_to_run);
  CHECK(bad->forbidden_by_seen.size() == 1);
  CHECK(run_rules(bad->tasks) == "seal at-rest, test not-at-all");
}

TEST_CASE("work for safety at or past its limit forbids to run the machine, other values do not") {
  const std::string measured = "every: {months: 60, measured: {wear: {above: 10, unit: mm}}}";
  World world("  fork: {do: It, safety: true, " + measured + ", positions: [left, right]}\n" + task("seal"),
              put_in_service);
  world.measured("wear", "9.9", "2025-07-20", "mm", "left");
  CHECK_FALSE(page_of(world, "2025-08-01")->not_to_run);
  world.measured("wear", "10", "2025-07-21", "mm", "left");
  const auto page = page_of(world, "2025-08-01");
  CHECK(page->not_to_run);
  REQUIRE(names(page->forbidden_by) == "fork@left");
  REQUIRE(forbidding_limbs(*page->forbidden_by.front()).size() == 1);
  CHECK(forbidding_limbs(*page->forbidden_by.front()).front()->name == "wear");
  CHECK(run_rules(page->tasks) == "fork at-rest, seal free");
  CHECK(page->tasks.front().unsafe);

  // Back in use, it stays forbidden until it is renewed.
  world.state(FactKind::out_of_use, "2025-07-22");
  world.state(FactKind::back, "2025-07-23");
  CHECK(page_of(world, "2025-08-01")->not_to_run);
  world.done("fork", "2025-07-24", "", "left");
  CHECK_FALSE(page_of(world, "2025-08-01")->not_to_run);

  World other("  plate: {do: It, " + measured + "}\n", put_in_service);
  other.measured("wear", "11", "2025-07-20", "mm");
  CHECK_FALSE(page_of(other, "2025-08-01")->not_to_run);
}

TEST_CASE("laid up, what runs it says to put back first what the lay-up took off") {
  const std::string tasks =
      task("test", "cautions: [engine-running]") + task("seal") +
      "  oil: {do: It, every: {months: 60}, follow-up: {look: {do: Look, within: {days: 90}}}}\n" +
      "  drive: {do: It, every: {months: 60, measured: {play: {above: 10, unit: mm}}}, cautions: "
      "[engine-running]}\n";
  World world(tasks, put_in_service);
  world.done("oil", "2025-07-01");
  world.measured("play", "9", "2025-07-01", "mm");
  CHECK(run_rules(page_of(world, "2025-08-01")->tasks) == "seal free, test free");
  world.state(FactKind::laid_up, "2025-07-20");
  const auto page = page_of(world, "2025-08-01");
  CHECK_FALSE(page->not_to_run);
  CHECK(run_rules(page->tasks) == "seal free, test once-put-back");
  REQUIRE(page->checks_owed.size() == 1);
  CHECK(page->checks_owed.front().run_rule == RunRule::once_put_back);
  REQUIRE(page->measure_again.size() == 1);
  CHECK(page->measure_again.front().run_rule == RunRule::once_put_back);
  CHECK(run_rules(page_of(world, "2025-10-10")->tasks) == "seal free, oil/look once-put-back, test once-put-back");

  // With a sign of work for safety no step runs it, mended or not.
  World unsafe("  brakes: {do: It, safety: true, every: {months: 60, signs: [pull]}, cautions: [engine-running]}\n" +
                   task("seal"),
               put_in_service);
  unsafe.sign("pull", "2025-07-10");
  unsafe.state(FactKind::laid_up, "2025-07-20");
  CHECK(run_rules(page_of(unsafe, "2025-08-01")->tasks) == "brakes not-at-all, seal at-rest");
}

TEST_CASE("out of use, every task leaves out what runs it, and no repair allows it") {
  World unsafe(task("test", "cautions: [engine-running]") + task("seal"), put_in_service);
  unsafe.state(FactKind::out_of_use, "2025-07-20");
  const auto out = page_of(unsafe, "2025-08-01");
  CHECK(out->out_of_use());
  CHECK(out->not_to_run);
  CHECK(run_rules(out->tasks) == "seal at-rest, test not-at-all");

  World worn(
      task("seal") + "  fork: {do: It, safety: true, every: {months: 60, measured: {wear: {above: 10, unit: mm}}}}\n",
      put_in_service);
  worn.measured("wear", "11", "2025-07-20", "mm");
  worn.state(FactKind::out_of_use, "2025-07-20");
  CHECK(run_rules(page_of(worn, "2025-08-01")->tasks) == "fork at-rest, seal at-rest");

  // It wins over a sign.
  World leaks(
      task("seal") + "  hose: {do: It, safety: true, every: {months: 60, signs: [leak]}, cautions: [engine-running]}\n",
      put_in_service);
  leaks.sign("leak", "2025-07-20");
  CHECK(run_rules(page_of(leaks, "2025-08-01")->tasks) == "hose once-mended, seal free");
  leaks.state(FactKind::out_of_use, "2025-07-20");
  CHECK(run_rules(page_of(leaks, "2025-08-01")->tasks) == "hose not-at-all, seal at-rest");
}

TEST_CASE("what drains warm or is begun cold runs it, whether its cautions say so or not, and so does a check") {
  const std::string follow = "follow-up: {look: {do: Look, within: {days: 3}}}";
  World world(task("oil", "cautions: [hot-fluid]") + task("coolant", "cautions: [hot-fluid, pressure-cap]") +
                  task("big", "covers: [small]") + task("small", "cautions: [hot-fluid]") + task("seal") +
                  "  belt: {do: It, every: {months: 60}, " + follow + "}\n",
              put_in_service);
  world.done("belt", "2025-07-25");
  const auto runs = [&] {
    const auto page = page_of(world, "2025-08-01");
    std::vector<std::string> all;
    for (const SheetTask& task : page->tasks) {
      if (task.runs) all.push_back(task.name);
      CHECK_FALSE(task.says_running);
    }
    return joined(all);
  };
  CHECK(runs() == "big, belt/look, coolant, oil");
  world.state(FactKind::laid_up, "2025-07-30");
  CHECK(run_rules(page_of(world, "2025-08-01")->tasks) ==
        "big once-put-back, seal free, belt/look once-put-back, coolant once-put-back, oil once-put-back");
}

TEST_CASE("while something forbids to run it, what stands behind the repair is run only once all is mended") {
  const std::string limit = "every: {months: 60, measured: {wear: {above: 10, unit: mm}}}";
  World world(
      "  hose: {do: It, safety: true, every: {months: 60, signs: [leak]}, cautions: [hot-fluid]}\n"
      "  fork: {do: It, safety: true, positions: [left, right], " +
          limit + "}\n" + "  brakes: {do: It, safety: true, every: {months: 60}, cautions: [engine-running]}\n" +
          task("oil", "cautions: [hot-fluid]") + task("seal") +
          task("exam", "by-whom: competent-person, cautions: [engine-running]"),
      put_in_service);
  CHECK(page_of(world, "2025-08-01")->to_mend.empty());
  world.sign("leak", "2025-07-20");
  const auto leaks = page_of(world, "2025-08-01");
  CHECK(joined(leaks->to_mend_names()) == "hose");
  CHECK(run_rules(leaks->tasks) == "hose not-at-all, seal free, oil after-mending, exam after-mending");

  // Each cause is named, once, and whoever mends one does not run it with the others.
  world.measured("wear", "11", "2025-07-21", "mm", "left");
  world.done("brakes", "2025-07-22").found = Found::failed;
  world.done("fork", "2025-07-22", "", "left").found = Found::worn;
  world.measured("wear", "11", "2025-07-23", "mm", "left");
  const auto all = page_of(world, "2025-08-01");
  CHECK(joined(all->to_mend_names()) == "hose, fork@left, brakes");
  CHECK(run_rules(all->tasks) ==
        "fork at-rest, hose not-at-all, brakes once-mended, seal free, oil after-mending, exam after-mending");

  // Of what no task of the page mends nobody knows when it is: nothing is run.
  world.sign("rattle", "2025-07-24");
  Fact look;
  look.kind = FactKind::looked_at;
  look.on = day("2025-07-25");
  look.name = "rattle";
  look.found = Found::worn;
  look.note = "loose";
  world.add(look);
  const auto none = page_of(world, "2025-08-01");
  CHECK(joined(none->to_mend_names()) == "hose, fork@left, brakes, rattle");
  // Both the value and what the check found are told of the one fork.
  std::string told;
  for (const WaitsToMend& one : none->to_mend) {
    told += (told.empty() ? "" : ", ") + one.task + (one.measured() ? " measured" : one.limb != nullptr ? " sign" : "");
  }
  CHECK(told == "hose sign, fork measured, brakes, fork, ");
  CHECK(run_rules(none->tasks) ==
        "fork at-rest, hose not-at-all, brakes not-at-all, seal at-rest, oil not-at-all, exam not-at-all");
}

TEST_CASE("a check and a measurement wait for the mending too where they want it run") {
  World world(
      "  hose: {do: It, safety: true, every: {months: 60, signs: [leak]}}\n"
      "  oil: {do: It, every: {months: 60}, follow-up: {look: {do: Look, within: {days: 90}}}}\n"
      "  drive: {do: It, every: {months: 60, measured: {play: {above: 10, unit: mm}}}, cautions: "
      "[engine-running]}\n"
      "  pin: {do: It, every: {months: 60, measured: {gap: {above: 10, unit: mm}}}}\n",
      put_in_service);
  world.done("oil", "2025-07-01");
  world.measured("play", "9", "2025-07-01", "mm");
  world.measured("gap", "9", "2025-07-01", "mm");
  world.sign("leak", "2025-07-20");
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(page->checks_owed.size() == 1);
  CHECK(page->checks_owed.front().run_rule == RunRule::after_mending);
  REQUIRE(names(page->measure_again) == "drive, pin");
  CHECK(page->measure_again[0].run_rule == RunRule::after_mending);
  CHECK(page->measure_again[1].run_rule == RunRule::free);
}

TEST_CASE("what never waits and is overdue is told at the head, but for what forbids to run it") {
  World world(
      "  brakes: {do: It, safety: true, every: {months: 5, signs: [pull]}}\n"
      "  exam: {do: It, by-whom: competent-person, every: {months: 5}}\n" +
          task("big", "covers: [pins]") + "  pins: {do: It, safety: true, every: {months: 5}}\n" +
          "  lamp: {do: It, every: {months: 5}}\n  stops: {do: It, safety: true, every: {months: 7}}\n",
      put_in_service);
  const auto page = page_of(world, "2025-08-01");
  CHECK(names(page->overdue_safety) == "brakes, exam, pins");
  CHECK_FALSE(page->not_to_run);
  world.sign("pull", "2025-07-20");
  const auto pulls = page_of(world, "2025-08-01");
  CHECK(names(pulls->overdue_safety) == "exam, pins");
  CHECK(names(pulls->forbidden_by) == "brakes");
}
