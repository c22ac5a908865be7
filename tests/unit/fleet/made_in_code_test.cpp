// A fleet filled in by a program goes through the checks of one that was read: the same mistakes, under the same codes.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <memory>
#include <string>
#include <vector>

#include "service/due_list.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

using namespace service;

namespace {

// pump-1 and pump-2 follow the schedule `pump`.
Fleet two_pumps() {
  Fleet fleet;
  fleet.name = "Two pumps";
  fleet.sites.emplace_back();
  fleet.sites[0].key = "yard";
  fleet.sites[0].name = "Yard";
  fleet.seasons = {{"harvest", {8, 1}, {9, 20}}};
  Task oil;
  oil.name = "oil";
  oil.doing = "Change the oil";
  oil.every = {UsageLimb{std::nullopt, Amount::units(250)}, CalendarLimb{{CalendarUnit::months, 12}}};
  Task filter;
  filter.name = "filter";
  filter.doing = "Change the filter";
  filter.every = {ChangesLimb{"oil", 2}};
  filter.covers = {"oil"};
  fleet.schedules = {{"pump", {{"engine", "h", std::nullopt}}, {oil, filter}}};
  for (const char* key : {"pump-1", "pump-2"}) {
    Machine machine;
    machine.key = key;
    machine.schedule = "pump";
    machine.site = "yard";
    machine.start = {StartKind::in_service, day_of(2020, 3, 1), std::nullopt};
    fleet.machines.push_back(machine);
  }
  return fleet;
}

Call call_for(const std::string& machine) {
  Call call;
  call.key = "leak";
  call.machine = machine;
  call.doing = "Stop the leak";
  return call;
}

const std::string two_pumps_file = R"(fleet: Two pumps
sites: {yard: {name: Yard}}
seasons: {harvest: {from: 08-01, to: 09-20}}
machines:
  pump-1: {schedule: pump, site: yard, in-service: 2020-03-01}
  pump-2: {schedule: pump, site: yard, in-service: 2020-03-01}
)";
const std::string pump_file = R"(schedule: pump
meters: {engine: {unit: h}}
tasks:
  oil: {do: Change the oil, every: {hours: 250, months: 12}}
  filter: {do: Change the filter, every: {changes: {oil: 2}}, covers: [oil]}
)";

std::vector<Diagnostic> mistakes_of(const std::function<void()>& make) {
  try {
    make();
  } catch (const Failure& failure) {
    CHECK((failure.kind() == FailureKind::bad_fleet));
    return failure.diagnostics();
  }
  return {};
}

// With a blank between; "" where there are none.
std::string codes_of(const std::vector<Diagnostic>& mistakes) {
  std::string codes;
  for (const Diagnostic& mistake : mistakes) codes += (codes.empty() ? "" : " ") + mistake.code;
  return codes;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

// One mistake, made both ways. In the files `from` becomes `to`.
struct Mistake {
  std::string code;
  std::function<void(Fleet&)> in_code;
  std::string from;
  std::string to;
  std::string message_begins;
};

Task& oil_of(Fleet& fleet) { return fleet.schedules[0].tasks[0]; }
Task& filter_of(Fleet& fleet) { return fleet.schedules[0].tasks[1]; }

const std::vector<Mistake>& mistakes_both_ways() {
  static const std::vector<Mistake> all = {
      {"unknown-schedule", [](Fleet& f) { f.machines[1].schedule = "pomp"; }, "pump-2: {schedule: pump",
       "pump-2: {schedule: pomp", "the machine `pump-2`: there is no schedule `pomp`"},
      {"unknown-site", [](Fleet& f) { f.machines[0].site = "yrad"; }, "pump-1: {schedule: pump, site: yard",
       "pump-1: {schedule: pump, site: yrad", "the machine `pump-1`: there is no site `yrad`"},
      {"unknown-season",
       [](Fleet& f) {
         oil_of(f).every.push_back(SeasonLimb{"sowing", 14});
       },
       "months: 12}", "months: 12, season: {sowing: 14 days before}}",
       "the task `oil` of the schedule `pump`: there is no season"},
      {"unknown-season",
       [](Fleet& f) {
         f.machines[0].expect.by_season = {{"sowing", Amount::units(5)}};
       },
       "in-service: 2020-03-01}", "in-service: 2020-03-01, expect: {sowing: 5}}", "the machine `pump-1`: there is no"},
      {"unknown-season", [](Fleet& f) { f.sites[0].closed_in = {"sowing"}; }, "{name: Yard}",
       "{name: Yard, closed: [sowing]}", "the site `yard`: there is no season `sowing`"},
      {"unknown-machine", [](Fleet& f) { f.calls = {call_for("pump-3")}; },
       "machines:", "calls: {leak: {machine: pump-3, do: Stop the leak, takes: 1 h}}\nmachines:",
       "the call `leak`: there is no machine `pump-3`"},
      {"site-or-machine", [](Fleet& f) { f.calls = {call_for("")}; },
       "machines:", "calls: {leak: {do: Stop the leak, takes: 1 h}}\nmachines:", "the call `leak`: "},
      {"unknown-task", [](Fleet& f) { filter_of(f).covers = {"oyl"}; }, "covers: [oil]", "covers: [oyl]",
       "the task `filter` of the schedule `pump`: there is no task"},
      {"unknown-task",
       [](Fleet& f) {
         filter_of(f).every = {ChangesLimb{"oyl", 2}};
       },
       "{oil: 2}", "{oyl: 2}", "the task `filter` of the schedule `pump`: there is no task"},
      {"unknown-task",
       [](Fleet& f) {
         TaskChange change;
         change.task = "oyl";
         change.takes = std::chrono::minutes{5};
         f.machines[1].change = {change};
       },
       "pump-2: {", "pump-2: {change: {oyl: {takes: 5 min}}, ", "the task `oyl` of the machine `pump-2`: there is no"},
      {"changes-of-itself",
       [](Fleet& f) {
         filter_of(f).every = {ChangesLimb{"filter", 2}};
       },
       "{oil: 2}", "{filter: 2}", "the task `filter` of the schedule `pump`: "},
      {"ring-of-covers", [](Fleet& f) { oil_of(f).covers = {"filter"}; }, "months: 12}",
       "months: 12}, covers: [filter]", "the task `filter` of the schedule `pump`: tasks cover each other in a ring"},
      {"unknown-meter",
       [](Fleet& f) {
         oil_of(f).every = {UsageLimb{"bales", Amount::units(250)}};
       },
       "{hours: 250, months: 12}", "{usage: {bales: 250}}",
       "the task `oil` of the schedule `pump`: the machine `pump-1` has no meter `bales`"},
      {"no-hour-meter",
       [](Fleet& f) {
         f.machines[1].meters = {{"way", "km", std::nullopt}};
       },
       "pump-2: {", "pump-2: {meters: {way: {unit: km}}, ",
       "the task `oil` of the schedule `pump`: the machine `pump-2`"},
      {"same-meter-twice",
       [](Fleet& f) {
         oil_of(f).every.push_back(UsageLimb{"engine", Amount::units(300)});
       },
       "months: 12}", "usage: {engine: 300}}", "the task `oil` of the schedule `pump`: two limits"},
      {"unknown-meter",
       [](Fleet& f) {
         f.grace.usage = {{"bales", Amount::units(1)}};
       },
       "sites:", "grace: {usage: {bales: 1}}\nsites:", "the fleet: no machine has a meter `bales`"},
      {"left-before-start", [](Fleet& f) { f.machines[1].left = day_of(2019, 1, 1); }, "pump-2: {",
       "pump-2: {left: 2019-01-01, ", "the machine `pump-2`: "},
      {"seasons-above-year",
       [](Fleet& f) {
         f.machines[1].expect = {Amount::units(100), {{"harvest", Amount::units(101)}}};
       },
       "pump-2: {", "pump-2: {expect: {per-year: 100, harvest: 101}, ",
       "the machine `pump-2`: the seasons come to 101"},
      {"duplicate-key", [](Fleet& f) { f.sites.push_back(f.sites[0]); }, "{yard: {name: Yard}}",
       "{yard: {name: Yard}, yard: {name: Yard}}", "the fleet: the site `yard` is given twice"},
      {"bad-name", [](Fleet& f) { f.seasons[0].key = "Harvest"; }, "harvest:", "Harvest:", "the fleet: "},
      {"bad-position", [](Fleet& f) { oil_of(f).positions = {"front/left"}; }, "months: 12}",
       "months: 12}, positions: [front/left]", "the task `oil` of the schedule `pump`: "},
      {"out-of-range",
       [](Fleet& f) {
         oil_of(f).every = {UsageLimb{std::nullopt, Amount{}}};
       },
       "{hours: 250, months: 12}", "{hours: 0}", "the task `oil` of the schedule `pump`: the usage limb of `every`"},
      {"out-of-range",
       [](Fleet& f) {
         oil_of(f).every = {CalendarLimb{{CalendarUnit::months, 1201}}};
       },
       "{hours: 250, months: 12}", "{months: 1201}", "the task `oil` of the schedule `pump`: the calendar limb"},
      {"no-limb", [](Fleet& f) { oil_of(f).every.clear(); }, "{hours: 250, months: 12}", "{}",
       "the task `oil` of the schedule `pump`: `every` names no limb"},
      {"wrong-limb",
       [](Fleet& f) {
         oil_of(f).follow_ups = {{"look", "Look for leaks", {SignLimb{{"leak"}}}, std::nullopt, {}}};
       },
       "months: 12}", "months: 12}, follow-up: {look: {do: Look for leaks, within: {signs: [leak]}}}",
       "the task `oil` of the schedule `pump`: a sign limb"},
  };
  return all;
}

}  // namespace

TEST_CASE("the same mistake has the same code in a fleet from files and in one made in code") {
  for (const Mistake& mistake : mistakes_both_ways()) {
    CAPTURE(mistake.code);
    CAPTURE(mistake.to);
    Fleet fleet = two_pumps();
    mistake.in_code(fleet);
    const auto in_code = mistakes_of([&] { checked(fleet); });
    FleetFiles files{{}, {{"fleet.yaml", two_pumps_file}, {"schedules/pump.yaml", pump_file}}};
    std::string& text =
        files.texts[two_pumps_file.find(mistake.from) != std::string::npos ? "fleet.yaml" : "schedules/pump.yaml"];
    text = replaced(text, mistake.from, mistake.to);
    CHECK(codes_of(in_code) == mistake.code);
    CHECK(codes_of(mistakes_of([&] { read_fleet(files); })) == mistake.code);
    for (const Diagnostic& one : in_code) {
      CHECK_FALSE(one.place.has_value());
      CHECK(one.message.substr(0, mistake.message_begins.size()) == mistake.message_begins);
      CHECK_FALSE(one.hint.empty());
    }
  }
}

TEST_CASE("all mistakes are told at once") {
  Fleet fleet = two_pumps();
  fleet.machines[0].site = "yrad";
  fleet.machines[1].schedule = "pomp";
  filter_of(fleet).covers = {"oyl"};
  CHECK(mistakes_of([&] { checked(fleet); }).size() == 3);
}

TEST_CASE("a machine is listed once, and a fleet has machines and schedules have tasks") {
  Fleet fleet = two_pumps();
  fleet.machines[1].key = "pump-1";
  const auto twice = mistakes_of([&] { checked(fleet); });
  REQUIRE(codes_of(twice) == "duplicate-machine");
  CHECK(twice[0].message == "the machine `pump-1`: the machine `pump-1` is listed already");
  fleet.machines.clear();
  CHECK(codes_of(mistakes_of([&] { checked(fleet); })) == "no-machines");
  fleet = two_pumps();
  fleet.schedules.push_back({"empty", {}, {}});
  CHECK(codes_of(mistakes_of([&] { checked(fleet); })) == "no-tasks");
}

TEST_CASE("what a reader fills in is filled in") {
  const Fleet fleet = checked(two_pumps());
  REQUIRE((fleet.machine("pump-2") != nullptr));
  const Machine& pump = *fleet.machine("pump-2");
  CHECK(pump.name == "pump-2");
  REQUIRE(pump.meters.size() == 1);
  CHECK(pump.meters[0].name == "engine");
  REQUIRE(pump.start.at.has_value());
  CHECK(pump.start.at->hundredths == 0);
  CHECK((fleet.index != nullptr));
  CHECK((&fleet.schedule_of(pump) == &fleet.schedules[0]));
}

TEST_CASE("what is odd is remarked on by both ways") {
  Fleet fleet = two_pumps();
  fleet.machines[0].conditions = {"dusty"};
  const Fleet made = checked(fleet);
  REQUIRE(made.remarks.size() == 1);
  CHECK(made.remarks[0].code == "condition-unused");
  CHECK(checked(made).remarks.size() == 1);  // not added to those that were there
}

namespace {

// Every point of the sample on a day, as text: what a fleet answers.
std::vector<std::string> answers_of(const Fleet& asked, const std::string& facts) {
  const auto fleet = std::make_shared<const Fleet>(asked);
  const Day today = day_of(2026, 6, 15);
  std::vector<Proposal> proposals;
  for (const FactRow& row : read_facts(facts, "facts.csv").rows) proposals.push_back({row.fact, false, std::nullopt});
  REQUIRE(proposals.size() > 500);
  const Judgement judged = judge(*fleet, {}, proposals, {make_command_id(1, {}), 1, {}, {}}, today);
  REQUIRE(judged.refused.empty());
  const auto list = due_list(Snapshot(fleet, whole_book(judged.accepted), today, true), today + std::chrono::days{30});
  std::vector<std::string> answers;
  const auto text_of = [](const std::optional<Day>& day) { return day ? to_text(*day) : "?"; };
  for (const Point& point : list.points) {
    answers.push_back(point.machine->name + ' ' + point.name + '@' + point.position + ' ' +
                      std::string(to_text(point.standing)) + ' ' + text_of(point.due_on) + ' ' +
                      text_of(point.due_span.p10) + ' ' + text_of(point.due_span.p90));
  }
  for (const Gap& gap : list.gaps) answers.push_back(gap.say);
  for (const Diagnostic& remark : fleet->remarks) answers.push_back(remark.code);
  return answers;
}

}  // namespace

TEST_CASE("the sample without its index and places passes, and answers the same") {
  const std::filesystem::path folder = std::filesystem::path(SOURCE_DIR) / "sample-fleet";
  std::ifstream file(folder / "facts.csv", std::ios::binary);
  const std::string facts{std::istreambuf_iterator<char>(file), {}};
  const Fleet read = read_fleet(load_fleet_files(folder));
  Fleet stripped = read;
  stripped.index.reset();
  stripped.remarks.clear();
  for (Schedule& schedule : stripped.schedules) {
    for (Task& task : schedule.tasks) task.place = {};
  }
  for (Machine& machine : stripped.machines) {
    machine.place = {};
    // What the reader took from the schedule is taken from it again.
    const auto& own = machine.meters;
    const auto& general = read.schedule_of(machine).meters;
    const bool same =
        std::equal(own.begin(), own.end(), general.begin(), general.end(), [](const auto& a, const auto& b) {
          return a.name == b.name && a.unit == b.unit && a.rolls_over_at == b.rolls_over_at;
        });
    if (same) machine.meters.clear();
  }
  const Fleet again = checked(stripped);
  CHECK(again.machines.size() == read.machines.size());
  CHECK((again.index != nullptr));
  const auto before = answers_of(read, facts);
  const auto after = answers_of(again, facts);
  REQUIRE(after.size() == before.size());
  for (std::size_t i = 0; i < before.size(); ++i) CHECK(after[i] == before[i]);
}
