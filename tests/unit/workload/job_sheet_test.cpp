// The job sheet: what is to be done and what is not, in which order, what goes with what, what it takes.
#include "service/job_sheet.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "service/minding.h"
#include "unit/workload/job_sheets.h"

using namespace sheet_test;

TEST_CASE("what is due is done, what comes only when asked, what is put off not") {
  World world(task("oil") + "  belt: {do: Do it, every: {months: 8}}\n" + task("filter"), put_in_service);
  world.put_off("filter", "2025-07-02", "2025-12-01");
  const auto sheet = sheet_of(world, "2025-08-20", "", true);
  const auto& page = sheet.pages.front();
  CHECK(names(page.tasks) == "oil");
  CHECK(names(page.put_off) == "filter");
  const auto later = sheet_of(world, "2025-08-20", "2025-09-01", true);
  CHECK(names(later.pages.front().tasks) == "oil, belt");
  const auto short_of_it = sheet_of(world, "2025-08-20", "2025-08-31", true);
  CHECK(names(short_of_it.pages.front().tasks) == "oil");
}

TEST_CASE("tasks stand in the order of what they do to the machine") {
  World world(task("exam", "by-whom: competent-person, cautions: [engine-running]") +
                  task("stops", "safety: true, cautions: [engine-running]") +
                  task("oil", "cautions: [hot-fluid, engine-running]") + task("starts", "cautions: [engine-running]") +
                  task("filter", "cautions: [engine-running, hot-surface]") +
                  task("pins", "safety: true, cautions: [engine-running], fluids: {grease: 1 kg}") +
                  task("coolant", "cautions: [hot-fluid, pressure-cap]") +
                  task("fuel", "cautions: [fuel-vapour, engine-running]") + task("seal") +
                  task("fork", "safety: true") + task("chaff", "cautions: [fuel-vapour]") +
                  task("wiring", "needs: [cold-engine]") + task("big", "covers: [grease], cautions: [hot-fluid]") +
                  task("grease") + "  hose: {do: Do it, every: {months: 60, signs: [leak]}, cautions: [hot-fluid]}\n",
              put_in_service);

  const auto quiet = sheet_of(world, "2025-08-01", "", true);
  CHECK(names(quiet.pages.front().tasks) ==
        "chaff, wiring, fork, seal, coolant, fuel, filter, pins, starts, big, oil, stops, exam");
  std::vector<std::string> stages;
  for (const SheetTask& task : quiet.pages.front().tasks) stages.emplace_back(to_text(task.stage));
  CHECK(joined(stages) ==
        "cold, cold, still, still, from-cold, from-cold, running, running, running, warm, warm, trial, running");
  std::vector<std::string> cold_again;
  for (const SheetTask& task : quiet.pages.front().tasks) {
    if (task.cold_again) cold_again.push_back(task.name);
  }
  CHECK(joined(cold_again) == "wiring, coolant, fuel");

  // What a sign was seen of comes first, whatever it does.
  world.sign("leak", "2025-07-20");
  const auto seen = sheet_of(world, "2025-08-01", "", true);
  REQUIRE(seen.pages.front().tasks.size() == 14);
  CHECK(seen.pages.front().tasks.front().name == "hose");
  CHECK(seen.pages.front().tasks.front().sign_seen);
  CHECK(seen.pages.front().tasks.front().unsafe);
  CHECK(seen.pages.front().tasks[1].name == "chaff");
  CHECK(seen.pages.front().tasks[1].cold_again);
  CHECK_FALSE(seen.pages.front().tasks[1].unsafe);
}

TEST_CASE("a competent person's work that opens the machine stands before what tries it, an examination behind all") {
  const std::string competent = "by-whom: competent-person, cautions: [fuel-vapour, engine-running]";
  World world(task("stops", "safety: true, cautions: [engine-running]") + task("burner", "safety: true, " + competent) +
                  task("belts", "cautions: [engine-running]") +
                  task("valve", "by-whom: competent-person, cautions: [engine-running], parts: {valve: 1}") +
                  task("exam", "by-whom: competent-person, cautions: [engine-running]") +
                  task("look", "by-whom: competent-person"),
              put_in_service);
  const auto page = page_of(world, "2025-08-01");
  CHECK(names(page->tasks) == "burner, valve, belts, stops, look, exam");
  std::vector<std::string> examined;
  for (const SheetTask& task : page->tasks) {
    if (task.examines()) examined.push_back(task.name);
  }
  CHECK(joined(examined) == "look, exam");
}

TEST_CASE("overdue work for safety comes first of its stage") {
  World world(task("seal") + task("pins", "safety: true") + "  fork: {do: It, safety: true, every: {months: 4}}\n",
              put_in_service);
  CHECK(names(page_of(world, "2025-07-01")->tasks) == "fork, pins, seal");
}

TEST_CASE("what was found worn or failed is work to do, whether it is due or not, and is written down as mended") {
  World world(
      "  brakes: {do: It, safety: true, every: {months: 60}, positions: [left, right], steps: [Jack up], takes: "
      "30 min, tools: [jack], cautions: [engine-running]}\n" +
          task("seal"),
      put_in_service);
  world.done("brakes", "2025-07-20", "", "left").found = Found::failed;
  const auto page = page_of(world, "2025-07-21", "");
  REQUIRE(names(page->tasks) == "brakes, seal");
  const SheetTask& brakes = page->tasks.front();
  CHECK(names(brakes.points) == "brakes@left");
  CHECK(brakes.points.front()->standing == Standing::later);
  CHECK(brakes.run_rule == RunRule::once_mended);
  REQUIRE(brakes.found_bad.size() == 1);
  CHECK(page->tasks.back().found_bad.empty());
  CHECK(page->labour.minutes == 30);
  CHECK(joined(page->labour.tools) == "jack");
  REQUIRE(page->entries.size() == 2);
  CHECK(names(page->entries.front().points) == "brakes@left");
  CHECK(page->entries.front().mends);
  CHECK_FALSE(page->entries.back().mends);
  world.done("brakes", "2025-07-21", "", "left");
  const auto mended = page_of(world, "2025-07-21");
  CHECK(names(mended->tasks) == "seal");
  CHECK_FALSE(mended->not_to_run);

  // A whole that includes it mends it too.
  World whole(task("big", "covers: [brakes]") + "  brakes: {do: It, safety: true, every: {months: 60}}\n",
              put_in_service);
  whole.done("brakes", "2025-07-20").found = Found::worn;
  const auto both = page_of(whole, "2025-08-01");
  REQUIRE(names(both->tasks) == "big");
  CHECK(both->tasks.front().found_bad.size() == 1);
  CHECK(both->tasks.front().unsafe);
}

TEST_CASE("what is for safety and without record is looked at first") {
  World world(task("brakes", "safety: true") + task("seal"), "bought: 2025-01-01");
  world.done("seal", "2025-01-20");
  const auto page = page_of(world, "2025-08-01");
  CHECK(names(page->tasks) == "seal");
  CHECK(names(page->look_first()) == "brakes");
  world.done("brakes", "2025-07-20");
  CHECK(page_of(world, "2025-08-01")->look_first().empty());
  // What is not for safety is not.
  CHECK(page_of(World(task("seal"), "bought: 2025-01-01"), "2025-08-01")->look_first().empty());
}

TEST_CASE("what is measured again, and a check that is owed, carry the cautions, tools and people of their tasks") {
  World world(
      "  nozzle: {do: Renew, every: {months: 60, measured: {flow: {above: 10, unit: mm}}}, people: 2, needs: "
      "[spraying], "
      "takes: 40 min, tools: [jug], cautions: [overhead-lines, spray-residue], positions: [left, right]}\n"
      "  oil: {do: Do it, every: {hours: 250}, tools: [pan, wrench, lamp], cautions: [hot-fluid], follow-up: "
      "{look: {do: Look, within: {hours: 10}, takes: 10 min, tools: [lamp]}, "
      "feel: {do: Feel, within: {hours: 10}}}}\n",
      put_in_service, "", hours);
  world.measured("flow", "9", "2025-01-20", "mm", "left");
  world.done("oil", "2025-02-01", "100");
  world.reading("2025-02-02", "105");
  const auto page = page_of(world, "2025-02-03");
  CHECK(page->tasks.empty());
  REQUIRE(names(page->measure_again) == "nozzle");
  CHECK(page->measure_again.front().people == 2);
  CHECK(joined(page->measure_again.front().needs) == "spraying");
  CHECK(page->measure_again.front().measures.size() == 1);
  REQUIRE(names(page->checks_owed) == "oil/look, oil/feel");
  CHECK(joined(page->checks_owed[0].tools) == "lamp");
  CHECK(joined(page->checks_owed[1].tools) == "pan, wrench, lamp");  // it says none of its own
  CHECK(page->labour.people == 2);
  CHECK(page->labour.minutes == 10);
  CHECK(joined(page->labour.no_time) == "oil/feel");
  CHECK(joined(page->labour.tools) == "lamp, pan, wrench, jug");
  std::vector<std::string> cautions;
  for (const SheetCaution& caution : page->cautions)
    cautions.push_back(caution.written + " at " + joined(caution.tasks));
  CHECK(joined(cautions) == "hot-fluid at oil/look, oil/feel, spray-residue at nozzle, overhead-lines at nozzle");
  world.reading("2025-02-10", "112");
  const auto due = page_of(world, "2025-02-10");
  REQUIRE(names(due->tasks) == "oil/look, oil/feel");
  CHECK(joined(due->tasks.front().tools) == "lamp");
}

TEST_CASE("time is said there and of all people, a competent person's apart with his tools") {
  World world(task("gland", "takes: 90 min, people: 2, tools: [hook]") + task("seal", "takes: 10 min, tools: [Hook]") +
                  task("exam", "by-whom: competent-person, takes: 2 h, tools: [weights]"),
              put_in_service);
  const auto page = page_of(world, "2025-08-01");
  CHECK(page->labour.minutes == 100);
  CHECK(page->labour.labour_minutes == 190);
  CHECK(page->labour.people == 2);
  CHECK(joined(page->labour.tools) == "hook");
  CHECK(joined(page->labour.tasks) == "gland, seal");
  CHECK(page->competent.minutes == 120);
  CHECK(page->competent.people == 1);
  CHECK(joined(page->competent.tools) == "weights");
  CHECK(joined(page->competent.tasks) == "exam");
}

TEST_CASE("steps that the whole repeats word for word are ticked there alone, the others are not lost") {
  World world(task("brakes", "steps: [Wheels off, Look, Wheels on, Try it]") + task("oil", "steps: [Drain, Run it]") +
                  task("big", "covers: [brakes, oil], steps: [Wheels off, Look, Wheels on, Drain, Run warm, Try it]"),
              put_in_service);
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(names(page->tasks) == "big");
  std::vector<std::string> steps;
  for (const SheetStep& step : page->tasks.front().steps) {
    steps.push_back((step.of == nullptr ? "" : step.of->name + ": ") + step.text);
  }
  CHECK(joined(steps) == "brakes: Wheels off, brakes: Look, brakes: Wheels on, oil: Drain, Run warm, brakes: Try it");
  REQUIRE(page->tasks.front().included.size() == 2);
  CHECK(page->tasks.front().included[0].steps.empty());
  CHECK(joined(page->tasks.front().included[1].steps) == "Run it");
}

TEST_CASE("a task that includes others stands for them") {
  World world(task("small",
                   "takes: 10 min, parts: {seal: 2}, tools: [pliers, Lamp], cautions: [sharp-edges], "
                   "follow-up: {look: {do: Look, within: {hours: 1}, takes: 5 min}}") +
                  task("safe", "safety: true, needs: [lifting]") +
                  task("big",
                       "covers: [small, safe], takes: 2 h, people: 2, parts: {kit: 1}, fluids: {oil: 3.5 L}, "
                       "tools: [lamp, hoist], notes: from the manual"),
              put_in_service, "", hours);
  const auto sheet = sheet_of(world, "2025-08-01", "", true);
  const auto& page = sheet.pages.front();
  REQUIRE(names(page.tasks) == "big");
  const SheetTask& big = page.tasks.front();
  REQUIRE(big.included.size() == 2);
  CHECK(big.included[0].task->name == "small");
  CHECK(names(big.included[0].points) == "small");
  CHECK(big.safety);
  CHECK(joined(big.needs) == "lifting");
  CHECK(big.notes == "from the manual");
  REQUIRE(big.checks.size() == 1);
  CHECK(big.checks.front().task->name == "small");
  // Its own time and parts stand for all of them; tools are of all, each once.
  CHECK(page.labour.minutes == 120);
  CHECK(page.labour.labour_minutes == 240);
  CHECK(page.check_minutes == 5);
  CHECK(page.labour.people == 2);
  REQUIRE(page.parts.size() == 2);
  CHECK(page.parts[0].key == "kit");
  CHECK(page.parts[1].key == "oil");
  CHECK(page.parts[1].fluid);
  CHECK(joined(page.labour.tools) == "lamp, hoist, pliers");
  REQUIRE(page.cautions.size() == 1);
  CHECK(page.cautions.front().written == "sharp-edges");
  CHECK(joined(page.cautions.front().tasks) == "big");
}

TEST_CASE(
    "what is due does not wait with one that is put off, and still goes with one that is due later on the sheet") {
  World world(task("small") + task("big", "covers: [small]"), put_in_service);
  world.put_off("big", "2025-07-02", "2025-12-01");
  const auto page = page_of(world, "2025-08-01");
  CHECK(names(page->tasks) == "small");
  CHECK(names(page->put_off) == "big");
  World alone(task("small") + "  big: {do: Do it, every: {months: 8}, covers: [small]}\n", put_in_service);
  CHECK(names(page_of(alone, "2025-08-25", "2025-09-02")->tasks) == "big");
  CHECK(names(page_of(alone, "2025-08-25")->tasks) == "small");
}

TEST_CASE("positions are one task, and each takes its time and parts") {
  World world(task("tyre", "positions: [front, rear], takes: 20 min, parts: {valve: 1}, fluids: {paste: 0.25 kg}"),
              put_in_service);
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(page->tasks.size() == 1);
  CHECK(names(page->tasks.front().points) == "tyre@front, tyre@rear");
  CHECK(page->labour.minutes == 40);
  REQUIRE(page->parts.size() == 2);
  CHECK(to_text(page->parts[0].amount) == "2");
  CHECK(to_text(page->parts[1].amount) == "0.5");
}

TEST_CASE("a check that is owed is done, waits its hour, or is asked for anew") {
  const std::string tasks =
      "  oil: {do: Do it, every: {hours: 250}, follow-up: {look: {do: Look, within: {hours: 10}}}}\n";
  World world(tasks, put_in_service, "", hours);
  world.done("oil", "2025-02-01", "100");
  world.reading("2025-02-02", "105");
  const auto owed = sheet_of(world, "2025-02-03", "", true);
  CHECK(owed.pages.front().tasks.empty());
  CHECK(names(owed.pages.front().checks_owed) == "oil/look");
  world.reading("2025-02-10", "112");
  const auto due = sheet_of(world, "2025-02-10", "", true);
  REQUIRE(names(due.pages.front().tasks) == "oil/look");
  CHECK(due.pages.front().tasks.front().check != nullptr);
  CHECK(due.pages.front().checks_owed.empty());
  world.reading("2025-06-10", "360");
  const auto again = sheet_of(world, "2025-06-10", "", true);
  REQUIRE(names(again.pages.front().tasks) == "oil");
  CHECK(names(again.pages.front().tasks.front().renewed_checks) == "oil/look");
  CHECK(again.pages.front().checks_owed.empty());
}

TEST_CASE("cautions stand once, in the order of the catalogue, a schedule's own behind them") {
  World world(task("one", "cautions: [battery, Mind the step, hot-fluid]") + task("two", "cautions: [hot-fluid]"),
              put_in_service);
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(page->cautions.size() == 3);
  CHECK(page->cautions[0].written == "hot-fluid");
  CHECK(joined(page->cautions[0].tasks) == "one, two");
  CHECK(page->cautions[1].written == "battery");
  CHECK(page->cautions[2].written == "Mind the step");
  CHECK_FALSE(page->locked_off);
  World automatic(task("one", "cautions: [automatic-start]"), put_in_service);
  CHECK(page_of(automatic, "2025-08-01")->locked_off);
}

TEST_CASE("a machine without work has no sheet unless it is named, and nothing of it is lost") {
  World world("  oil: {do: Do it, every: {hours: 250}}\n", "bought: {on: 2025-01-01, at: 4000}", "", hours);
  const auto all = sheet_of(world, "2025-02-01");
  CHECK(all.pages.empty());
  REQUIRE(all.others.size() == 1);
  CHECK(names(all.others.front().find_out) == "oil");
  CHECK_FALSE(all.gaps.empty());
  CHECK_FALSE(all.has_work());
  const auto named = sheet_of(world, "2025-02-01", "", true);
  CHECK(named.pages.size() == 1);
  CHECK(named.others.empty());
  CHECK_FALSE(named.pages.front().gaps.empty());
}

TEST_CASE("a meter is shown as it stands on the machine") {
  World world(task("oil"), put_in_service, "", hours);
  world.reading("2025-02-01", "300");
  world.meter_change("2025-03-01", "320", "5");
  world.reading("2025-04-01", "40");
  const auto sheet = sheet_of(world, "2025-08-01");
  const auto& meters = sheet.pages.front().meters;
  REQUIRE(meters.size() == 1);
  CHECK(test::text_or_none(meters.front().shown) == "40");
  CHECK(test::text_or_none(meters.front().on) == "2025-04-01");
}

TEST_CASE("a label is blank, and says when it comes round where that counts from the work itself") {
  World world(
      "  oil: {do: Do it, every: {hours: 250, months: 6}, first: {hours: 50}, fluids: {oil: 3 L}}\n"
      "  drift: {do: Do it, every: {hours: 250, months: 6}, counts-from: due, parts: {belt: 1}}\n"
      "  year: {do: Do it, every: {months: 6}, until: month-end, parts: {belt: 1}}\n"
      "  look: {do: Do it, every: {months: 6}}\n",
      put_in_service, "", hours);
  world.reading("2025-07-01", "10");
  const auto sheet = sheet_of(world, "2025-08-15");
  const auto& tasks = sheet.pages.front().tasks;
  REQUIRE(tasks.size() == 4);
  const auto find = [&](std::string_view name) {
    return *std::find_if(tasks.begin(), tasks.end(), [&](const SheetTask& task) { return task.name == name; });
  };
  const SheetTask oil = find("oil");
  REQUIRE(oil.label.has_value());
  CHECK_FALSE(oil.label->on.has_value());
  CHECK_FALSE(oil.label->at.has_value());
  CHECK(oil.label->unit == "h");
  REQUIRE(oil.again.has_value());
  REQUIRE(oil.again->uses.size() == 1);
  CHECK(to_text(oil.again->uses.front().more) == "250");
  CHECK(oil.again->uses.front().meter.empty());
  CHECK(test::text_or_none(oil.again->on) == "2026-02-15");
  CHECK(find("drift").label.has_value());
  CHECK_FALSE(find("drift").again.has_value());
  REQUIRE(find("year").again.has_value());
  CHECK(find("year").again->uses.empty());
  CHECK(test::text_or_none(find("year").again->on) == "2026-02-28");
  CHECK_FALSE(find("look").label.has_value());
}

TEST_CASE("what may keep a machine out of use stands first") {
  World world(task("oil") + "  fork: {do: Measure it, safety: true, every: {months: 4}}\n" +
                  task("test", "cautions: [engine-running]"),
              put_in_service);
  const auto before = page_of(world, "2025-08-01");
  CHECK_FALSE(before->not_to_run);
  CHECK_FALSE(before->tasks.front().unsafe);
  world.state(FactKind::out_of_use, "2025-07-20");
  const auto out = page_of(world, "2025-08-01");
  CHECK(names(out->tasks) == "fork, oil, test");
  CHECK(out->tasks.front().unsafe);
  CHECK_FALSE(out->tasks[1].unsafe);
  // That it is overdue does not say that it is why, nor that it mends it.
  CHECK(run_rules(out->tasks) == "fork at-rest, oil at-rest, test not-at-all");
}

TEST_CASE("what was found worn is about its own task, and carries its cautions alone") {
  World world(task("oil", "cautions: [hot-fluid]") + task("fork", "safety: true, cautions: [sharp-edges]"),
              put_in_service);
  world.done("fork", "2025-02-01").found = Found::worn;
  world.done("oil", "2025-02-01");
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(page->seen.size() == 1);
  REQUIRE(names(page->tasks) == "fork, oil");
  CHECK(page->tasks.front().unsafe);
  CHECK(page->not_to_run);
  CHECK(run_rules(page->tasks) == "fork at-rest, oil after-mending");
  std::string at_seen;
  for (const SheetCaution& caution : page->cautions) at_seen += caution.at_seen ? caution.written + ", " : "";
  CHECK(at_seen == "sharp-edges, ");
}

TEST_CASE("a sign of which no task says what it is about carries the cautions of all of them") {
  World world(task("belt", "cautions: [shafts-and-belts, hot-fluid]") +
                  task("hose", "cautions: [fluid-under-pressure, shafts-and-belts]"),
              put_in_service);
  world.done("belt", "2025-06-30");
  world.done("hose", "2025-06-30");
  world.sign("leak", "2025-07-20");
  const auto page = page_of(world, "2025-08-01");
  std::vector<std::string> written;
  for (const SheetCaution& caution : page->cautions) {
    CHECK(caution.at_seen);
    CHECK(caution.tasks.empty());
    written.push_back(caution.written);
  }
  CHECK(joined(written) == "fluid-under-pressure, hot-fluid, shafts-and-belts");
  CHECK(joined(cautions_of(world.fleet(), *page->seen.front())) == joined(written));

  World plain(task("look"), put_in_service);
  plain.done("look", "2025-06-30");
  plain.sign("leak", "2025-07-20");
  const auto none = page_of(plain, "2025-08-01");
  REQUIRE(none->cautions.size() == 1);
  CHECK(none->cautions.front().written == never_by_hand());
}

TEST_CASE("what is measured has a blank, at the task and where it is near its limit") {
  World world(
      "  fork: {do: Measure it, safety: true, every: {months: 6, measured: {wear: {above: 10, unit: mm}}}, "
      "positions: [left, right]}\n" +
          task("big", "covers: [small]") +
          "  small: {do: It, every: {months: 5, measured: {play: {above: 2, unit: mm}}}}\n",
      put_in_service);
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(names(page->tasks) == "fork, big");
  REQUIRE(page->tasks[0].measures.size() == 2);
  CHECK(page->tasks[0].measures[0].limb->name == "wear");
  CHECK(page->tasks[0].measures[1].point->position == "right");
  REQUIRE(page->tasks[1].measures.size() == 1);
  CHECK(page->tasks[1].measures.front().limb->name == "play");
  CHECK(page->measure_again.empty());
}

TEST_CASE("services are written down in one go where the same may be said of them") {
  World world(
      "  oil: {do: It, every: {hours: 100}, fluids: {oil: 3 L}}\n  filter: {do: It, every: {hours: 100}, parts: {f: "
      "1}}\n"
      "  belts: {do: It, every: {usage: {separator: 50}, months: 6}, parts: {b: 1}}\n"
      "  look: {do: It, every: {months: 6}}\n"
      "  exam: {do: It, every: {months: 6}, by-whom: competent-person}\n",
      put_in_service, "", "meters: {engine: {unit: h}, separator: {unit: h}}\n");
  world.reading("2025-07-30", "120");
  const auto page = page_of(world, "2025-08-01");
  std::vector<std::string> said;
  for (const SheetEntry& entry : page->entries) {
    said.push_back(names(entry.points) + " of " + entry.meter->name + (entry.puts_in_new ? " new" : " looked") +
                   (entry.competent_person ? " competent" : ""));
  }
  CHECK(joined(said) ==
        "oil, filter of engine new, belts of separator new, look of engine looked, exam of engine looked competent");
}

TEST_CASE("a label names each meter but the first, and every way in which it comes round") {
  World world(
      "  belts: {do: It, every: {usage: {separator: 300, engine: 400}, months: 6, changes: {oil: 3}, season: {harvest: "
      "14 "
      "days before}}, parts: {b: 1}}\n  oil: {do: It, every: {months: 60}}\n",
      put_in_service, "seasons: {harvest: {from: 08-01, to: 09-15}}\n",
      "meters: {engine: {unit: h}, separator: {unit: h}}\n");
  const auto page = page_of(world, "2025-07-05");
  const SheetTask& belts = page->tasks.front();
  REQUIRE(belts.name == "belts");
  REQUIRE(belts.label.has_value());
  CHECK(belts.label->meter == "separator");
  REQUIRE(belts.again.has_value());
  REQUIRE(belts.again->uses.size() == 2);
  CHECK(belts.again->uses[0].meter == "separator");
  CHECK(belts.again->uses[1].meter.empty());
  REQUIRE(belts.again->changes.size() == 1);
  CHECK(belts.again->changes.front().count == 3);
  REQUIRE(belts.again->seasons.size() == 1);
  CHECK(belts.again->seasons.front().lead_days == 14);
}

TEST_CASE("a task says which work for safety in it is overdue") {
  World world(task("big", "covers: [brakes, lamp]") + "  brakes: {do: It, safety: true, every: {months: 5}}\n" +
                  "  lamp: {do: It, every: {months: 5}}\n",
              put_in_service);
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(names(page->tasks) == "big");
  CHECK(names(page->tasks.front().overdue_safety) == "brakes");
  // It may be done, and written down, alone.
  REQUIRE(page->alone.size() == 1);
  CHECK(names(page->alone.front().points) == "brakes");
}

TEST_CASE("a machine with a check owed has a page, and one of which nothing is known says so") {
  World world("  oil: {do: Do it, every: {hours: 250}, follow-up: {look: {do: Look, within: {hours: 10}}}}\n",
              put_in_service, "", hours);
  world.done("oil", "2025-02-01", "100");
  world.reading("2025-02-02", "105");
  const auto owed = sheet_of(world, "2025-02-03");
  REQUIRE(owed.pages.size() == 1);
  CHECK(owed.pages.front().tasks.empty());
  CHECK(names(owed.pages.front().checks_owed) == "oil/look");
  CHECK_FALSE(owed.pages.front().nothing_known);
  World nothing("  oil: {do: Do it, every: {hours: 250}}\n", "bought: {on: 2025-01-01, at: 4000}", "", hours);
  CHECK(page_of(nothing, "2025-02-01")->nothing_known);
}

TEST_CASE("a doubt stands at the meter that it is about") {
  World world("  oil: {do: Do it, every: {hours: 250}}\n", put_in_service, "",
              "meters: {engine: {unit: h}, road: {unit: km}}\n");
  world.reading("2025-02-01", "300");
  const auto page = page_of(world, "2025-08-01");
  REQUIRE(page->meters.size() == 2);
  REQUIRE(page->meters[0].gaps.size() == 1);
  CHECK(page->meters[0].gaps.front()->kind == GapKind::stale);
  CHECK(page->meters[0].gaps.front()->meter == "engine");
}

TEST_CASE("a machine's own notes and times stand in the place of its schedule's") {
  World world(task("oil", "takes: 30 min, notes: the schedule's"),
              put_in_service + ", change: {oil: {takes: 45 min, notes: its own}}");
  const auto page = page_of(world, "2025-08-01");
  CHECK(page->tasks.front().notes == "its own");
  CHECK(page->labour.minutes == 45);
}

TEST_CASE("a reading round names every meter, site by site") {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nsites: {hill: {name: Hill}, mere: {name: Mere}}\nmachines:\n"
      "  a: {schedule: kind, site: mere, in-service: {on: 2025-01-01, at: 7}}\n"
      "  b: {schedule: kind, site: hill, in-service: {on: 2025-01-01, at: 0}}\n"
      "  c: {schedule: kind, in-service: {on: 2025-01-01, at: 0}}\n"
      "  d: {schedule: cart, site: hill, in-service: 2025-01-01}\n"
      "  e: {schedule: kind, site: hill, in-service: {on: 2025-01-01, at: 0}, left: 2025-01-20}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\nmeters: {engine: {unit: h}, road: {unit: km}}\ntasks:\n  oil: {do: Do it, every: {hours: 9}}\n";
  files.texts["schedules/cart.yaml"] = "schedule: cart\nmeters: {}\ntasks:\n  look: {do: Do it, every: {months: 6}}\n";
  const World world(files);
  const auto round = reading_round(world.snapshot("2025-02-01"));
  REQUIRE(round.sites.size() == 3);
  CHECK(round.sites[0].site->key == "hill");
  CHECK(round.sites[0].machines.front().machine->key == "b");
  CHECK(round.sites[1].site->key == "mere");
  CHECK(test::text_or_none(round.sites[1].machines.front().meters.front().shown) == "7");
  CHECK(round.sites[2].site == nullptr);
  CHECK(round.meters() == 6);
  REQUIRE(round.without_meters.size() == 1);
  CHECK(round.without_meters.front()->key == "d");
}

TEST_CASE("a reading round says of each machine why nobody may run it") {
  World world("  hose: {do: It, safety: true, every: {months: 60, signs: [leak]}}\n", put_in_service, "", hours);
  const auto ban = [&] { return reading_round(world.snapshot("2025-08-01")).sites.front().machines.front().ban; };
  CHECK_FALSE(ban().has_value());
  world.sign("leak", "2025-07-20");
  REQUIRE(ban().has_value());
  CHECK(ban()->points.size() == 1);
  CHECK_FALSE(ban()->out_of_use());
}

TEST_CASE("a reading round and a list of blanks say of each machine what was seen of it") {
  World world("  hose: {do: It, every: {months: 60}}\n", "", "", hours);
  world.sign("steering loose", "2025-07-20");
  const auto round = reading_round(world.snapshot("2025-08-01"));
  const auto& machine = round.sites.front().machines.front();
  REQUIRE(machine.seen.size() == 1);
  CHECK(machine.seen[0]->sign == "steering loose");
  CHECK_FALSE(machine.ban.has_value());
  const DueList list = world.due("2025-08-01");
  const auto asked = find_out(list);
  REQUIRE(asked.size() == 1);
  REQUIRE(asked[0].seen.size() == 1);
  CHECK(asked[0].seen[0] == &list.seen[0]);
}

TEST_CASE("what a sheet tells beside what is due has the day that every answer gives it") {
  World world(
      "  brakes: {do: Try the brakes, every: {months: 12}, safety: true}\n"
      "  oil: {do: Oil, every: {months: 12}, follow-up: {look: {do: Look, within: {days: 90}}}}\n"
      "  filter: {do: Filter, every: {months: 12}}\n"
      "  tyre: {do: Tyre, every: {months: 12, measured: {tread: {below: 15, unit: mm}}}}\n",
      put_in_service);
  world.done("brakes", "2026-06-10").found = Found::failed;
  world.done("oil", "2026-06-01");
  world.done("filter", "2026-06-01");
  world.put_off("filter", "2026-06-02", "2027-07-01");
  world.done("tyre", "2026-06-01");
  world.measured("tread", "16", "2026-06-02", "mm");
  const DueList all = world.due("2026-06-15");
  for (const char* within : {"", "2026-07-15"}) {
    CAPTURE(within);
    const OnePage page = page_of(world, "2026-06-15", within);
    std::vector<const Point*> told = page->put_off;
    for (const SheetTask& task : page->tasks) told.insert(told.end(), task.points.begin(), task.points.end());
    for (const auto* looks : {&page->checks_owed, &page->measure_again}) {
      for (const SheetLook& look : *looks) told.insert(told.end(), look.points.begin(), look.points.end());
    }
    CHECK(told.size() == 4);
    for (const Point* point : told) {
      CAPTURE(point->name);
      const auto same = std::find_if(all.points.begin(), all.points.end(),
                                     [&](const Point& each) { return each.name == point->name; });
      REQUIRE(bool(same != all.points.end()));
      CHECK(point->due_on.has_value());
      CHECK(bool(point->due_on == same->due_on));
      CHECK(bool(point->due_span.p90 == same->due_span.p90));
    }
  }
}
