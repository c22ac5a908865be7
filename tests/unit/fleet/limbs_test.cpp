// Tasks and their limbs, and what holds between limbs, meters and tasks.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "service/fleet.h"
#include "unit/fleet/texts.h"

namespace {

using namespace service;
using fleet_texts::codes_of;
using fleet_texts::fleet_of;
using fleet_texts::words;

const Task& only_task(const Fleet& fleet) {
  REQUIRE(fleet.schedules.size() == 1);
  REQUIRE(fleet.schedules[0].tasks.size() >= 1);
  return fleet.schedules[0].tasks[0];
}

Fleet with_task(std::string_view body) {
  return fleet_of(fleet_texts::one_machine, fleet_texts::one_task + std::string(body));
}

}  // namespace

TEST_CASE("every kind of limb is read, in the order written") {
  struct Row {
    std::string_view every;
    std::string_view expected;
  };
  const Row rows[] = {
      {"{hours: 250}", "hours 250"},
      {"{hours: 12.5, months: 12}", "hours 12.5, 12 months"},
      {"{months: 12, hours: 250}", "12 months, hours 250"},
      {"{usage: {separator: 300, engine: 500.25}}", "separator 300, engine 500.25"},
      {"{days: 1}", "1 day"},
      {"{weeks: 5200}", "5200 weeks"},
      {"{years: 2}", "2 years"},
      {"{changes: {seal: 3}}", "3 of seal"},
      {"{measured: {restriction: {above: 25, unit: inH2O}}}", "restriction above 25 inH2O"},
      {"{measured: {tread: {unit: mm, below: -1.25}}}", "tread below -1.25 mm"},
      {"{signs: [leak, hard-start]}", "signs leak hard-start"},
      {"{season: {harvest: 14 days before}}", "14 before harvest"},
      {"{season: {harvest: 2 weeks before, winter: 0 days before}}", "14 before harvest, 0 before winter"},
      {"{season: {harvest: 1 day before}, signs: [leak], hours: 010}", "1 before harvest, signs leak, hours 10"},
  };
  for (const Row& row : rows) {
    const std::string every(row.every);
    CAPTURE(every);
    const Fleet fleet = fleet_of(
        "fleet: Test farm\n"
        "seasons: {harvest: {from: 08-01, to: 09-20}, winter: {from: 11-15, to: 02-28}}\n"
        "machines: {pump: {schedule: pump, meters: {engine: {unit: h}, separator: {unit: h}}}}\n",
        "schedule: pump\ntasks:\n  gland: {do: Repack, every: " + every +
            "}\n  seal: {do: Replace, every: {years: 2}}\n");
    CHECK(words(fleet.schedules[0].tasks[0].every) == std::string(row.expected));
  }
}

TEST_CASE("the rest of a task is read") {
  const Fleet fleet = with_task(
      "    first: {months: 1}\n"
      "    in: {dusty: {hours: 125}, wet: {months: 3}}\n"
      "    grace: {hours: 10.5, usage: {engine: 4}, weeks: 2, changes: 1}\n"
      "    safety: true\n"
      "    counts-from: earlier\n"
      "    until: month-end\n"
      "    covers: [seal]\n"
      "    positions: [front-left, FR, nozzle 3]\n"
      "    takes: 1 h 30 min\n"
      "    late: 380\n"
      "    needs: [lifting, gas]\n"
      "    people: 2\n"
      "    by-whom: competent-person\n"
      "    tools: [Hook, 'Packing #8']\n"
      "    steps: [Stop the pump, Take the key]\n"
      "    notes: |\n"
      "      From the manual.\n"
      "      Two lines.\n"
      "  seal: {do: Replace the seal, every: {years: 2}}\n");
  const Task& task = only_task(fleet);
  CHECK(words(task.first) == "1 month");
  REQUIRE(task.in.size() == 2);
  CHECK(task.in[0].first == "dusty");
  CHECK(words(task.in[0].second) == "hours 125");
  CHECK(task.in[1].first == "wet");
  REQUIRE(task.grace.has_value());
  CHECK(task.grace->hours.value_or(Amount{}).hundredths == 1050);
  CHECK(task.grace->usage.at("engine").hundredths == 400);
  CHECK(task.grace->days.value_or(0) == 14);
  CHECK(task.grace->changes.value_or(0) == 1);
  CHECK(task.grace->percent_hundredths.has_value() == false);
  CHECK(task.safety);
  CHECK(static_cast<int>(task.counts_from) == static_cast<int>(CountsFrom::earlier));
  CHECK(task.until_month_end);
  REQUIRE(task.covers.size() == 1);
  CHECK(task.covers[0] == "seal");
  REQUIRE(task.positions.size() == 3);
  CHECK(task.positions[2] == "nozzle 3");
  CHECK(task.takes.value_or(std::chrono::minutes{0}).count() == 90);
  CHECK(task.late.value_or(service::Money{}).hundredths == 38000);
  CHECK(task.needs.size() == 2);
  CHECK(task.people == 2);
  CHECK(task.competent_person);
  REQUIRE(task.tools.size() == 2);
  CHECK(task.tools[1] == "Packing #8");
  CHECK(task.steps.size() == 2);
  CHECK(task.notes == "From the manual.\nTwo lines.\n");
}

TEST_CASE("a check names tools of its own") {
  const Fleet fleet =
      with_task("    tools: [pan]\n    follow-up: {look: {do: Look, within: {hours: 1}, tools: [lamp, card]}}\n");
  const Task& task = only_task(fleet);
  REQUIRE(task.follow_ups.size() == 1);
  REQUIRE(task.follow_ups.front().tools.size() == 2);
  CHECK(task.follow_ups.front().tools[1] == "card");
}

TEST_CASE("grace is a percentage or units") {
  CHECK(only_task(with_task("    grace: 10%\n")).grace->percent_hundredths.value_or(0) == 1000);
  CHECK(only_task(with_task("    grace: 2.25%\n")).grace->percent_hundredths.value_or(0) == 225);
  CHECK(only_task(with_task("    grace: 0%\n")).grace->percent_hundredths.value_or(-1) == 0);
  CHECK(only_task(with_task("    grace: {days: 14}\n")).grace->days.value_or(0) == 14);
  CHECK(codes_of(fleet_texts::one_machine, fleet_texts::one_task + "    grace: 100.01%\n") == "out-of-range");
  CHECK(codes_of(fleet_texts::one_machine, fleet_texts::one_task + "    grace: {days: 1, weeks: 1}\n") ==
        "two-calendar-units");
  CHECK(codes_of(fleet_texts::one_machine, fleet_texts::one_task + "    grace: {usage: {engin: 1}}\n") ==
        "unknown-meter");
}

TEST_CASE("values at and beyond their limits") {
  struct Row {
    std::string_view every;
    std::string_view codes;
  };
  const Row rows[] = {
      {"{months: 1200}", ""},
      {"{months: 1201}", "out-of-range"},
      {"{years: 100}", ""},
      {"{years: 101}", "out-of-range"},
      {"{days: 36525}", ""},
      {"{days: 36526}", "out-of-range"},
      {"{weeks: 5200}", ""},
      {"{weeks: 5201}", "out-of-range"},
      {"{hours: 0.01}", ""},
      {"{hours: 0}", "out-of-range"},
      {"{hours: -1}", "bad-number"},
      {"{hours: 1e3}", "bad-number"},
      {"{hours: 0x10}", "bad-number"},
      {"{hours: .nan}", "bad-number"},
      {"{months: 1.5}", "bad-number"},
      {"{months: ~}", "empty-value"},
      {"{hours: 1_000}", "bad-number"},
      {"{usage: {}}", "no-limb"},
      {"{signs: []}", "no-limb"},
      {"{changes: {}}", "no-limb"},
      {"{changes: {seal: 0}}", "out-of-range"},
      {"{season: {harvest: 364 days before}}", ""},
      {"{season: {harvest: 365 days before}}", "out-of-range"},
      {"{season: {harvest: 52 weeks before}}", ""},
      {"{season: {harvest: 14 days}}", "bad-number-of-days"},
      {"{measured: {tread: {above: 1, below: 2, unit: mm}}}", "above-or-below"},
      {"{measured: {tread: {below: 2}}}", "missing-key"},
      {"[250, 500]", "not-a-map"},
  };
  for (const Row& row : rows) {
    const std::string every(row.every);
    CAPTURE(every);
    CHECK(
        codes_of("fleet: Test farm\nseasons: {harvest: {from: 08-01, to: 09-20}}\nmachines: {pump: {schedule: pump}}\n",
                 "schedule: pump\ntasks:\n  gland: {do: Repack, every: " + every +
                     "}\n  seal: {do: Replace, every: {years: 2}}\n") == std::string(row.codes));
  }
}

TEST_CASE("limbs are tried on each machine that follows the schedule") {
  const std::string three =
      "fleet: Test farm\nmachines:\n  a: {schedule: pump}\n  b: {schedule: pump, meters: {water: {unit: m3}}}\n"
      "  c: {schedule: pump, meters: {}, change: {gland: {every: {usage: {water: 5}}}}}\n";
  CHECK(codes_of(three, fleet_texts::one_task) == "unknown-meter");
  CHECK(codes_of(three, "schedule: pump\ntasks: {gland: {do: Repack, every: {hours: 250}}}\n") ==
        "unknown-meter no-hour-meter");
  CHECK(codes_of(fleet_texts::machine_with("meters: {water: {unit: m3}, engine: {unit: h}}"),
                 "schedule: pump\ntasks: {gland: {do: Repack, every: {hours: 250, usage: {water: 5}}}}\n") == "");
  CHECK(codes_of(fleet_texts::machine_with("in-service: {on: 2011, at: 5}\n    meters: {}"), fleet_texts::one_task) ==
        "unknown-meter");
}

TEST_CASE("a ring of covers is reported wherever it is, and a chain is not one") {
  const auto chain = [](std::string_view last) {
    return "schedule: pump\ntasks:\n  a: {do: A, every: {days: 1}, covers: [b, c]}\n  b: {do: B, every: {days: 1}, "
           "covers: [c]}\n"
           "  c: {do: C, every: {days: 1}" +
           std::string(last) + "}\n";
  };
  CHECK(codes_of(fleet_texts::one_machine, chain("")) == "");
  CHECK(codes_of(fleet_texts::one_machine, chain(", covers: [c]")) == "ring-of-covers");
  CHECK(codes_of(fleet_texts::one_machine, chain(", covers: [b]")) == "ring-of-covers");
  CHECK(codes_of(fleet_texts::one_machine, chain(", covers: [d]")) == "unknown-task");
}

TEST_CASE("names that could never be meant are refused") {
  const auto with_task = [](const std::string& lines) {
    return "schedule: pump\ntasks:\n  gland:\n    do: Repack the gland\n    " + lines + "\n";
  };
  using fleet_texts::codes_of;
  CHECK(codes_of(fleet_texts::one_machine, with_task("every: {usage: {\"\": 300}}")) == "bad-name");
  CHECK(codes_of(fleet_texts::one_machine, with_task("every: {months: 6}\n    positions: [\"a\\nb\"]")) ==
        "bad-position");
  CHECK(codes_of(fleet_texts::one_machine, with_task("every: {measured: {wear: {above: 1, unit: \"m\\nm\"}}}")) ==
        "control-character");
  for (const char* name : {"per-year", "2026-08-01"}) {
    CAPTURE(name);
    CHECK(codes_of(fleet_texts::one_machine + "seasons: {" + name + ": {from: 08-01, to: 09-20}}\n",
                   fleet_texts::one_task) == "bad-name");
  }
}

TEST_CASE("the hint inside of `within:` names what can stand there") {
  const std::string schedule =
      "schedule: pump\ntasks:\n  gland:\n    do: Repack the gland\n    every: {months: 6}\n"
      "    follow-up: {look: {do: Look, within: {hour: 1, miles: 2}}}\n";
  try {
    fleet_texts::fleet_of(fleet_texts::one_machine, schedule);
    FAIL("it was taken");
  } catch (const service::Failure& failure) {
    CHECK(failure.diagnostics().at(0).hint == "did you mean `hours`?");
    CHECK(failure.diagnostics().at(1).hint.find("measured") == std::string::npos);
    CHECK(failure.diagnostics().at(1).hint.find("weeks") != std::string::npos);
  }
}
