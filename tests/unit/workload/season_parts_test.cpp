// A season's parts: the same whoever asks, and the whole fleet's figures also where only some machines are asked about.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <tuple>

#include "service/other_work.h"
#include "service/season.h"
#include "unit/entry/office.h"

using namespace service;
using test::day;
using test::text_or_none;
using test::World;

namespace {

// Two machines of a kind that need a filter each, one by 1 July and one by 20 July, and one filter is there. A third
// machine is of another kind, so that the facts of one kind are not all facts.
FleetFiles two_and_one_filter() {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\n"
      "seasons: {harvest: {from: 08-01, to: 09-20}}\n"
      "parts:\n"
      "  filter: {what: Oil filter, unit: piece, price: 10, lead-time: 30 days, stock: 1}\n"
      "machines:\n"
      "  first: {schedule: kind, in-service: 2024-01-01}\n"
      "  second: {schedule: kind, in-service: 2024-01-01}\n"
      "  shed: {schedule: other, in-service: 2024-01-01}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  oil: {do: Oil, every: {months: 12}, parts: {filter: 1}, fluids: {oil: 4 L}}\n";
  files.texts["schedules/other.yaml"] =
      "schedule: other\ntasks:\n  belt: {do: Belt, every: {months: 12}, parts: {belt: 2}}\n";
  return files;
}

World two_machines() {
  World world(two_and_one_filter());
  world.add(entry_test::done("first", "oil", "2025-07-01"));
  world.add(entry_test::done("second", "oil", "2025-07-20"));
  world.add(entry_test::done("shed", "belt", "2025-06-25"));
  return world;
}

Scope only(const std::string& machine) { return {{{machine}}}; }

SeasonAsk harvest(const Snapshot& snapshot) { return {snapshot.fleet().season("harvest")}; }

const PartNeed& need_of(const std::vector<PartNeed>& needs, std::string_view key) {
  const auto found = std::find_if(needs.begin(), needs.end(), [&](const PartNeed& need) { return need.key == key; });
  REQUIRE((found != needs.end()));
  return *found;
}

std::string figures(const PartNeed& need) {
  return need.key + (need.fluid ? " fluid" : "") + " of " + text_or_none(need.stock) + " need " + to_text(need.need) +
         " more " + to_text(need.more) + " short by " + to_text(need.short_by) + " on " + text_or_none(need.short_on) +
         " buy " + to_text(need.buy) + " order by " + text_or_none(need.order_by) + " late " +
         std::to_string(need.late_days);
}

std::string named(const PartUse& use) {
  return use.machine->key + " " + point_label(use.task, use.position) + " " + to_text(use.amount) + " " +
         text_or_none(use.done.p10);
}

std::vector<std::string> uses_of(const PartNeed& need, const Scope& scope = {}) {
  std::vector<std::string> all;
  for (const PartUse& use : need.uses) {
    if (scope.holds(use.machine->key)) all.push_back(named(use));
  }
  return all;
}

// Those that work of the season's own list takes.
std::vector<PartNeed> with_own_work(std::vector<PartNeed> needs) {
  std::erase_if(needs, for_other_work);
  return needs;
}

// What a question about one machine lists: all that it uses, in the whole fleet's figures.
void check_scoped(const std::vector<PartNeed>& whole, const std::vector<PartNeed>& scoped, const Scope& scope) {
  std::size_t used = 0;
  for (const PartNeed& need : whole) {
    const auto uses = uses_of(need, scope);
    if (uses.empty()) continue;
    ++used;
    const auto same = std::find_if(scoped.begin(), scoped.end(), [&](const PartNeed& other) {
      return std::tie(other.key, other.fluid, other.unit) == std::tie(need.key, need.fluid, need.unit);
    });
    REQUIRE((same != scoped.end()));
    CHECK(figures(*same) == figures(need));
    CHECK((uses_of(*same) == uses));
  }
  CHECK(scoped.size() == used);
}

World sample() {
  const auto files = load_fleet_files(SOURCE_DIR "/sample-fleet");
  World world(files);
  std::ifstream in(SOURCE_DIR "/sample-fleet/facts.csv", std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  for (const FactRow& row : read_facts(text, "facts.csv").rows) world.add(row.fact);
  return world;
}

template <class Ask>
std::string failure_of(Ask&& ask) {
  try {
    ask();
  } catch (const Failure& failure) {
    return std::to_string(static_cast<int>(failure.kind())) + " " + failure.diagnostics().front().code;
  }
  return "none";
}

}  // namespace

TEST_CASE("one filter for two machines: the first by day takes it, and the second makes it short") {
  const World world = two_machines();
  const Snapshot snapshot = world.snapshot("2026-06-15");
  const auto plan = season_plan(snapshot, harvest(snapshot), straight_line());
  const PartNeed& filter = need_of(plan.parts, "filter");
  // 20 July less 30 days.
  CHECK(figures(filter) == "filter of 1 need 2 more 0 short by 1 on 2026-07-20 buy 1 order by 2026-06-20 late 0");
  CHECK((uses_of(filter) == std::vector<std::string>{"first oil 1 2026-07-01", "second oil 1 2026-07-20"}));
  CHECK(plan.before_sums.pieces == 4);  // two filters, two belts
}

TEST_CASE("asked about one machine, its uses are listed and the figures stay the fleet's") {
  const World world = two_machines();
  for (const char* machine : {"first", "second"}) {
    CAPTURE(std::string(machine));
    const Snapshot snapshot = world.snapshot("2026-06-15").within(only(machine));
    const auto plan = season_plan(snapshot, harvest(snapshot), straight_line());
    REQUIRE(plan.beforehand.size() == 1);
    CHECK(plan.beforehand[0].point.machine->key == machine);
    const PartNeed& filter = need_of(plan.parts, "filter");
    CHECK(figures(filter) == "filter of 1 need 2 more 0 short by 1 on 2026-07-20 buy 1 order by 2026-06-20 late 0");
    REQUIRE(filter.uses.size() == 1);
    CHECK(filter.uses[0].machine->key == machine);
    CHECK(plan.parts.size() == 2);  // the filter and the oil, not the belt
    CHECK(plan.before_sums.pieces == 1);

    const auto list = parts_list(snapshot, day("2026-07-31"), straight_line());
    CHECK(list.scope.machines.has_value());
    CHECK(figures(need_of(list.needs, "filter")) == figures(filter));
    CHECK((uses_of(need_of(list.needs, "filter")) == uses_of(filter)));
  }
}

TEST_CASE("the day to order by is never in the past, and how late it is is said") {
  const World world = two_machines();
  const auto told = [&](std::string_view as_of) {
    const Snapshot snapshot = world.snapshot(as_of);
    const auto plan = season_plan(snapshot, harvest(snapshot), straight_line());
    const PartNeed& filter = need_of(plan.parts, "filter");
    return text_or_none(filter.order_by) + " late " + std::to_string(filter.late_days);
  };
  CHECK(told("2026-06-19") == "2026-06-20 late 0");
  CHECK(told("2026-06-20") == "2026-06-20 late 0");
  CHECK(told("2026-06-25") == "2026-06-25 late 5");
  // The second is overdue by then: it should be done today, and have been ordered 30 days ago.
  CHECK(told("2026-07-25") == "2026-07-25 late 30");
}

TEST_CASE("what was ordered too late comes before what is still to be ordered") {
  const World world = two_machines();
  const Snapshot snapshot = world.snapshot("2026-06-25");
  const auto plan = season_plan(snapshot, harvest(snapshot), straight_line());
  // Belt and oil have no lead time: on 25 June and on 1 July. The filter should have been ordered on 20 June.
  std::vector<std::string> keys;
  for (const PartNeed& need : plan.parts) keys.push_back(need.key);
  CHECK((keys == std::vector<std::string>{"filter", "belt", "oil"}));
}

TEST_CASE("a season's parts are the same in the season's list and in the list of parts before it") {
  for (const World& world : {two_machines(), sample()}) {
    const Snapshot whole = world.snapshot("2026-06-15");
    std::vector<Scope> scopes{{}};
    for (const Machine& machine : whole.fleet().machines) scopes.push_back(only(machine.key));
    const auto forecaster = straight_line();
    const auto all = parts_before(whole, harvest(whole), forecaster);
    REQUIRE_FALSE(all.needs.empty());
    for (const Scope& scope : scopes) {
      const Snapshot snapshot = whole.within(scope);
      const auto plan = season_plan(snapshot, harvest(snapshot), forecaster);
      const auto list = parts_before(snapshot, harvest(snapshot), forecaster);
      CHECK(list.before == plan.season);
      CHECK(list.to == plan.from - std::chrono::days{1});
      CHECK((list.scope.machines == scope.machines));
      const auto own = with_own_work(list.needs);
      REQUIRE(own.size() == plan.parts.size());
      for (std::size_t i = 0; i < plan.parts.size(); ++i) {
        CHECK(figures(own[i]) == figures(plan.parts[i]));
        CHECK((uses_of(own[i]) == uses_of(plan.parts[i])));
      }
      for (const PartNeed& need : plan.parts) {
        CHECK(need.is_short() == need.order_by.has_value());
        if (need.order_by) CHECK(*need.order_by >= plan.as_of);
      }
      check_scoped(all.needs, list.needs, scope);
    }
  }
}

TEST_CASE("in a list of parts, too, one machine's needs are the fleet's with its own uses") {
  const World world = sample();
  const Snapshot whole = world.snapshot("2026-06-15");
  const Day to = day("2026-09-15");
  const auto all = parts_list(whole, to, straight_line());
  CHECK_FALSE(all.scope.machines.has_value());
  for (const char* machine : {"combine", "tractor-drill"}) {
    const auto some = parts_list(whole.within(only(machine)), to, straight_line());
    check_scoped(all.needs, some.needs, only(machine));
  }
}

TEST_CASE("stock is the whole fleet's, so the facts of one kind are not enough") {
  entry_test::Office office(two_and_one_filter());
  office.enter({entry_test::done("first", "oil", "2025-07-01"), entry_test::done("second", "oil", "2025-07-20"),
                entry_test::done("shed", "belt", "2025-06-25")});
  const Snapshot kin = take_snapshot(office.fleet, office.record, day("2026-06-15"), true, only("second"));
  CHECK_FALSE(kin.holds_all());
  CHECK(failure_of([&] { season_plan(kin, harvest(kin), straight_line()); }) == "70 facts-missing");
  CHECK(failure_of([&] { parts_before(kin, harvest(kin), straight_line()); }) == "70 facts-missing");
  CHECK(failure_of([&] { parts_list(kin, day("2026-07-31"), straight_line()); }) == "70 facts-missing");

  const Snapshot all = take_fleet_snapshot(office.fleet, office.record, day("2026-06-15"), true, only("second"));
  const auto plan = season_plan(all, harvest(all), straight_line());
  CHECK(figures(need_of(plan.parts, "filter")) ==
        "filter of 1 need 2 more 0 short by 1 on 2026-07-20 buy 1 order by 2026-06-20 late 0");
}

// --- What other work takes from the same stock -------------------------------------------------------------

namespace {

// The mower works in the harvest and needs a filter by 20 July; the trailer stands in it, and has been overdue since
// 1 June; the pump comes due after the season has begun. One filter is there.
World beside_the_season() {
  FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\n"
      "seasons: {harvest: {from: 08-01, to: 09-20}}\n"
      "parts:\n"
      "  filter: {what: Oil filter, unit: piece, lead-time: 30 days, stock: 1}\n"
      "  belt: {what: Belt, unit: piece, stock: 9}\n"
      "machines:\n"
      "  mower: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 100, harvest: 60}}\n"
      "  trailer: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 600, harvest: 0}}\n"
      "  pump: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 600, harvest: 0}}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  oil: {do: Oil, every: {months: 12}, parts: {filter: 1}}\n"
      "  belt: {do: Belt, every: {months: 12}, parts: {belt: 1}}\n";
  World world(files);
  for (const char* machine : {"trailer", "pump"}) {
    int usage = 0;
    for (int month = 0; month <= 48; ++month) {
      const auto date = std::chrono::year{2022} / std::chrono::month{6} / 1 + std::chrono::months{month};
      Fact reading = entry_test::reading(machine, to_text(Day{std::chrono::sys_days{date}}), std::to_string(usage));
      world.add(reading);
      const auto number = static_cast<unsigned>(date.month());
      usage += number == 8 || number == 9 ? 0 : 60;
    }
  }
  world.add(entry_test::done("mower", "oil", "2025-07-20"));
  world.add(entry_test::done("mower", "belt", "2026-06-01"));
  world.add(entry_test::done("trailer", "oil", "2025-06-01"));
  world.add(entry_test::done("trailer", "belt", "2025-07-01"));
  world.add(entry_test::done("pump", "oil", "2025-08-02"));
  world.add(entry_test::done("pump", "belt", "2026-06-01"));
  return world;
}

}  // namespace

TEST_CASE("what machines that do not work in a season take before it begins comes out of the same stock") {
  const World world = beside_the_season();
  const Snapshot snapshot = world.snapshot("2026-06-15");
  const auto forecaster = learnt_from(snapshot);
  const auto plan = season_plan(snapshot, harvest(snapshot), forecaster);
  REQUIRE(plan.others.size() == 2);
  const std::string short_by_one =
      "filter of 1 need 2 more 0 short by 1 on 2026-07-20 buy 1 order by 2026-06-20 late 0";
  CHECK(figures(need_of(plan.parts, "filter")) == short_by_one);
  CHECK(plan.parts.size() == 1);  // no work of the season takes a belt
  CHECK(plan.before_sums.pieces == 1);
  const auto list = parts_before(snapshot, harvest(snapshot), forecaster);
  const PartNeed& filter = need_of(list.needs, "filter");
  CHECK(figures(filter) == short_by_one);
  CHECK((uses_of(filter) == std::vector<std::string>{"trailer oil 1 2026-06-15", "mower oil 1 2026-07-20"}));
  CHECK(filter.uses[0].other_work);
  CHECK_FALSE(filter.uses[1].other_work);
  CHECK_FALSE(for_other_work(filter));
  CHECK(for_other_work(need_of(list.needs, "belt")));
  CHECK((uses_of(need_of(list.needs, "belt")) == std::vector<std::string>{"trailer belt 1 2026-07-01"}));
  // As the plain list to the same day has it.
  const auto plain = parts_list(snapshot, day("2026-07-31"), forecaster);
  CHECK(figures(need_of(plain.needs, "filter")) == short_by_one);
}

TEST_CASE("asked about a machine that does not work in a season, its parts before the season are listed") {
  const World world = beside_the_season();
  const Snapshot whole = world.snapshot("2026-06-15");
  const Snapshot snapshot = whole.within(only("trailer"));
  const auto list = parts_before(snapshot, harvest(snapshot), learnt_from(whole));
  REQUIRE(list.needs.size() == 2);
  CHECK(figures(list.needs[0]) ==
        "filter of 1 need 2 more 0 short by 1 on 2026-07-20 buy 1 order by 2026-06-20 late 0");
  CHECK((uses_of(list.needs[0]) == std::vector<std::string>{"trailer oil 1 2026-06-15"}));
  CHECK(season_plan(snapshot, harvest(snapshot), learnt_from(whole)).parts.empty());
}

TEST_CASE("what is not known of machines whose parts a season does not list is no gap of its list") {
  const World world = sample();
  const Snapshot whole = world.snapshot("2026-06-15");
  const auto forecaster = learnt_from(whole);  // by whose season it does not work in the harvest
  const Snapshot snapshot = whole.within(only("pump-trailer"));
  const auto about = [](const std::vector<Gap>& gaps) {
    return std::count_if(gaps.begin(), gaps.end(), [](const Gap& gap) { return gap.machine == "tractor-drill"; });
  };
  CHECK(about(season_plan(snapshot, harvest(snapshot), forecaster).gaps) == 0);
  CHECK(about(parts_before(snapshot, harvest(snapshot), forecaster).gaps) == 1);  // both take engine oil
}

TEST_CASE("a part that is taken before the work of the season is awaited by the work that it lacks for") {
  World world = beside_the_season();
  world.add(entry_test::done("mower", "oil", "2025-06-20"));  // not the last one: nothing changes
  const auto waits = [](const World& of) {
    const Snapshot snapshot = of.snapshot("2026-07-01");
    const auto plan = season_plan(snapshot, harvest(snapshot), learnt_from(snapshot));
    for (const SeasonItem& item : plan.beforehand) {
      if (item.point.name == "oil") return item.waits_for.size();
    }
    return std::size_t{99};
  };
  CHECK(waits(world) == 1);
  world.add(entry_test::done("trailer", "oil", "2026-06-30"));
  CHECK(waits(world) == 0);
}

TEST_CASE("rounds that come in between, before the season, take from the same stock") {
  World world(
      "  oil: {do: Oil, every: {hours: 40}, parts: {filter: 1}}\n", "in-service: {on: 2025-01-01, at: 0}",
      "seasons: {harvest: {from: 08-01, to: 09-20}}\nparts:\n  filter: {what: Filter, unit: piece, stock: 0}\n");
  world.reading("2026-01-01", "730");
  world.reading("2026-06-15", "1060");  // 2 h a day
  world.done("oil", "2026-06-14", "1058");
  const Snapshot snapshot = world.snapshot("2026-06-15");
  const auto plan = season_plan(snapshot, harvest(snapshot), straight_line());
  REQUIRE(plan.beforehand.size() == 1);
  REQUIRE_FALSE(plan.beforehand[0].between.empty());
  const auto all = 1 + plan.beforehand[0].between.size() + plan.have_ready.size();
  REQUIRE(plan.parts.size() == 1);
  CHECK(plan.parts[0].need == PartAmount::units(static_cast<std::int64_t>(all)));
  CHECK(plan.before_sums.pieces == 1);
  // One row of rounds from now on: each the same service, on the same day, whoever tells it.
  std::map<int, std::string> told;
  for (const SeasonItem& item : plan.beforehand) told[item.round] = to_text(item.do_by);
  for (const SeasonBetween& once : plan.beforehand[0].between) told[once.round] = to_text(*once.due.p10);
  for (const SeasonItem& item : plan.have_ready) told[item.round] = to_text(item.do_by);
  CHECK(told.size() == all);
  CHECK(told.rbegin()->first == static_cast<int>(all));
  std::map<int, std::string> listed;
  const PartsList list = parts_before(snapshot, harvest(snapshot), straight_line());
  for (const PartUse& use : list.needs.at(0).uses) listed[use.round] = to_text(*use.done.p10);
  CHECK((listed == told));
}
