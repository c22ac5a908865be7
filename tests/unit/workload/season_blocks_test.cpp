// The blocks of a season's list: which machines are on it, and where each of their points stands.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "service/season.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::text_or_none;
using test::World;

namespace {

const std::string harvest = "seasons: {harvest: {from: 08-01, to: 09-20}}\n";

SeasonPlan plan_of(const World& world, std::string_view as_of, const Forecaster& forecaster = straight_line()) {
  const auto snapshot = world.snapshot(as_of);
  return season_plan(snapshot, {snapshot.fleet().season("harvest")}, forecaster);
}

std::vector<std::string> names(const std::vector<SeasonItem>& items) {
  std::vector<std::string> all;
  for (const SeasonItem& item : items) all.push_back(item.point.name + (item.again() ? " again" : ""));
  return all;
}

std::vector<std::string> machines(const std::vector<SeasonItem>& items) {
  std::vector<std::string> all;
  for (const SeasonItem& item : items) all.push_back(item.point.machine->key);
  return all;
}

// Machines of one kind, each with a task that is due every six months.
World fleet_of(const std::string& text) {
  FleetFiles files;
  files.texts["fleet.yaml"] = "fleet: Test\n" + harvest + "machines:\n" + text;
  files.texts["schedules/kind.yaml"] = "schedule: kind\ntasks:\n  look: {do: Look, every: {months: 6}}\n";
  files.texts["schedules/cart.yaml"] = "schedule: cart\ntasks:\n  look: {do: Look, every: {months: 6}}\n";
  return World(files);
}

Fact& about(Fact& fact, const char* machine) {
  fact.machine = machine;
  return fact;
}

// Twelve years read on the first of each month; so many hours in a month of the season, and in another one.
void read(World& world, const char* machine, int in_season, int beside) {
  int usage = 0;
  for (int month = 0; month <= 48; ++month) {
    const auto date = std::chrono::year{2022} / std::chrono::month{6} / 1 + std::chrono::months{month};
    about(world.reading(to_text(Day{std::chrono::sys_days{date}}), std::to_string(usage)), machine);
    const auto number = static_cast<unsigned>(date.month());
    usage += number == 8 || number == 9 ? in_season : beside;
  }
}

}  // namespace

TEST_CASE(
    "a machine works in a season that its owner names, or in which it runs at least half as much as in an even year") {
  World world = fleet_of(
      "  named: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 100, harvest: 5}}\n"
      "  none: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 600, harvest: 0}}\n"
      "  even: {schedule: kind, in-service: {on: 2022-06-01, at: 0}}\n"
      "  winter: {schedule: kind, in-service: {on: 2022-06-01, at: 0}}\n"
      "  cart: {schedule: cart, in-service: 2022-06-01}\n"
      "  nobody: {schedule: cart}\n");
  read(world, "named", 0, 60);
  read(world, "none", 0, 60);
  read(world, "even", 60, 60);
  read(world, "winter", 4, 60);
  for (const char* machine : {"named", "none", "even", "winter", "cart"}) {
    about(world.done("look", "2026-01-10"), machine);  // due on 10 July
  }
  const auto snapshot = world.snapshot("2026-06-15");
  const auto plan = plan_of(world, "2026-06-15", learnt_from(snapshot));
  // Of the cart nobody can tell, so it is taken to work; so is a machine of which nothing is known at all.
  CHECK((machines(plan.beforehand) == std::vector<std::string>{"cart", "even", "named"}));
  REQUIRE(plan.find_out.size() == 1);
  CHECK(plan.find_out[0].machine->key == "nobody");
  REQUIRE(plan.others.size() == 2);
  CHECK(plan.others[0].machine->key == "none");
  CHECK(plan.others[1].machine->key == "winter");
}

TEST_CASE("of machines that do not work in the season it is counted what is overdue, due, without record or unknown") {
  World world(
      "  late: {do: Late, every: {months: 6}}\n"
      "  today: {do: Today, every: {months: 6}}\n"
      "  never: {do: Never, every: {months: 6}}\n"
      "  half: {do: Half, every: {usage: {engine: 9000, screen: 90}}}\n"
      "  fine: {do: Fine, every: {months: 60}}\n",
      "bought: {on: 2022-06-01, at: 0}, expect: {per-year: 100, harvest: 0}", harvest,
      "meters: {engine: {unit: h}, screen: {unit: h}}\n");
  int usage = 0;
  for (int month = 0; month <= 48; ++month) {
    const auto date = std::chrono::year{2022} / std::chrono::month{6} / 1 + std::chrono::months{month};
    world.reading(to_text(Day{std::chrono::sys_days{date}}), std::to_string(usage), "engine");
    usage += static_cast<unsigned>(date.month()) % 12 < 3 ? 60 : 0;
  }
  world.done("late", "2025-11-15");
  world.done("today", "2025-12-15");
  world.done("half", "2026-01-01", "660", "", "engine");
  world.done("fine", "2026-01-01");
  const auto snapshot = world.snapshot("2026-06-15");
  const auto plan = plan_of(world, "2026-06-15", learnt_from(snapshot));
  CHECK(plan.beforehand.empty());
  CHECK(plan.have_ready.empty());
  CHECK(plan.find_out.empty());
  CHECK(plan.not_before_end.empty());
  REQUIRE(plan.others.size() == 1);
  CHECK(plan.others[0].overdue == 1);
  CHECK(plan.others[0].due == 1);
  CHECK(plan.others[0].no_record == 1);
  CHECK(plan.others[0].unknown == 1);
}

TEST_CASE("a machine that is out of use, or not back before the season ends, is named and has no work") {
  for (const auto& [kind, until, works] :
       {std::tuple{FactKind::out_of_use, "", false}, std::tuple{FactKind::laid_up, "", false},
        std::tuple{FactKind::laid_up, "2026-09-21", false}, std::tuple{FactKind::laid_up, "2026-09-20", true},
        std::tuple{FactKind::laid_up, "2026-07-10", true}}) {
    CAPTURE(std::string(until));
    World world("  look: {do: Look, every: {months: 6}, safety: true}\n", "in-service: {on: 2025-01-01, at: 0}",
                harvest);
    world.done("look", "2025-06-01");
    world.state(kind, "2026-05-01", until);
    const auto plan = plan_of(world, "2026-06-15");
    CHECK(plan.not_in_use.size() == 1);
    CHECK(plan.others.empty());
    REQUIRE(plan.beforehand.size() == (works ? 1 : 0));
    // It is done on the last day before it is back, at the latest the day before the season.
    if (works) CHECK(plan.beforehand[0].do_by == std::min(day(until) - std::chrono::days{1}, day("2026-07-31")));
    if (works) CHECK(plan.beforehand[0].while_laid_up());
    // The parts of that list agree with it.
    const auto snapshot = world.snapshot("2026-06-15");
    const auto list = parts_before(snapshot, {snapshot.fleet().season("harvest")}, straight_line());
    CHECK(list.not_in_use.size() == 1);
  }
}

TEST_CASE("what comes due while its machine is laid up is done before that is back, what comes later by its own day") {
  World world(
      "  look: {do: Look, every: {months: 6}, safety: true}\n"
      "  oil: {do: Oil, every: {months: 7}}\n"
      "  belt: {do: Belt, every: {months: 5}}\n",
      "in-service: {on: 2025-01-01, at: 0}", harvest);
  for (const char* task : {"look", "oil", "belt"}) world.done(task, "2025-12-25");
  world.state(FactKind::laid_up, "2026-05-01", "2026-07-05");
  const auto plan = plan_of(world, "2026-06-15");
  std::string told;
  for (const SeasonItem& item : plan.beforehand) {
    told += item.point.name + ' ' + to_text(item.do_by) + (item.while_laid_up() ? " before it is back; " : "; ");
  }
  CHECK(told == "belt 2026-07-04 before it is back; look 2026-07-04 before it is back; oil 2026-07-25; ");
}

TEST_CASE("what comes due in the season on a machine that is back by then is not called work before it is back") {
  World world("  oil: {do: Oil, every: {months: 1}}\n", "in-service: {on: 2025-01-01, at: 0}", harvest);
  world.done("oil", "2026-06-10");
  world.state(FactKind::laid_up, "2026-06-12", "2026-08-01");
  const auto plan = plan_of(world, "2026-06-15");
  REQUIRE(plan.beforehand.size() == 1);  // due on 2026-07-10
  CHECK(plan.beforehand[0].do_by == day("2026-07-31"));
  CHECK(plan.beforehand[0].while_laid_up());
  REQUIRE_FALSE(plan.have_ready.empty());  // done on 2026-07-31, due again on 2026-08-31
  CHECK(plan.have_ready[0].do_by == day("2026-07-31"));
  CHECK_FALSE(plan.have_ready[0].while_laid_up());
}

TEST_CASE("what comes due in the season all the same is to be had ready, and safety is done beforehand besides") {
  // At 2 h a day 100 h last 50 days, and the season 51.
  World world(
      "  oil: {do: Oil, every: {hours: 100}, takes: 30 min, parts: {filter: 1}}\n"
      "  brakes: {do: Brakes, every: {hours: 100}, safety: true, takes: 1 h, parts: {pad: 2}}\n"
      "  lift: {do: Examine, every: {hours: 100}, by-whom: competent-person, takes: 2 h}\n",
      "in-service: {on: 2025-01-01, at: 0}",
      harvest +
          "parts:\n  pad: {what: Pad, unit: piece, stock: 3, lead-time: 10 days}\n  filter: {what: Filter, unit: "
          "piece}\n");
  world.reading("2026-01-01", "730");
  world.reading("2026-06-20", "1070");
  for (const char* task : {"oil", "brakes", "lift"}) world.done(task, "2026-06-20", "1070");
  const auto plan = plan_of(world, "2026-06-21");
  // All three come due on 9 August; done on 31 July they do so again on 19 September.
  CHECK((names(plan.beforehand) == std::vector<std::string>{"brakes", "lift"}));
  for (const SeasonItem& item : plan.beforehand) {
    CHECK(item.reason == SeasonReason::safety);
    CHECK(item.do_by == day("2026-07-31"));
    CHECK(item.odds.value == 1);
    CHECK(item.odds_before.value == 0);
    CHECK(item.odds_done.value().value == 1);
    CHECK(*item.gives_up == doctest::Approx(18.0 / 100));
  }
  CHECK(plan.beforehand[0].safety);
  CHECK(plan.beforehand[1].competent_person);
  CHECK((names(plan.have_ready) == std::vector<std::string>{"brakes again", "lift again", "oil"}));
  CHECK(plan.before_sums.labour_minutes == 180);
  CHECK(plan.ready_sums.labour_minutes == 210);
  CHECK(plan.before_sums.pieces == 2);
  CHECK(plan.ready_sums.pieces == 3);
  // Four pads in all, two of them to have ready, and three are there: short on the day before the season.
  const auto pad =
      std::find_if(plan.parts.begin(), plan.parts.end(), [](const auto& need) { return need.key == "pad"; });
  REQUIRE((pad != plan.parts.end()));
  CHECK(pad->need == PartAmount::units(4));
  CHECK(pad->ready == PartAmount::units(2));
  CHECK(pad->short_by == PartAmount::units(1));
  CHECK(text_or_none(pad->order_by) == "2026-07-21");
  REQUIRE(pad->uses.size() == 2);
  CHECK_FALSE(pad->uses[0].ready);
  CHECK(pad->uses[1].ready);
}

TEST_CASE("helped by doing it early: the odds of a stop in the season at least halve") {
  // Read every month with some scatter: the odds lie between 0 and 1.
  World world("  oil: {do: Oil, every: {hours: 140}}\n", "in-service: {on: 2023-01-01, at: 0}", harvest);
  int usage = 0;
  for (int month = 1; month <= 41; ++month) {
    usage += month % 2 == 0 ? 40 : 80;
    const auto date = std::chrono::year{2023} / std::chrono::month{1} / 1 + std::chrono::months{month};
    world.reading(to_text(Day{std::chrono::sys_days{date}}), std::to_string(usage));
  }
  const auto at = [&](const char* on) {
    World copy = world;
    copy.done("oil", on);
    const auto snapshot = copy.snapshot("2026-06-02");
    return season_plan(snapshot, {snapshot.fleet().season("harvest")}, learnt_from(snapshot));
  };
  int helped = 0;
  int ready = 0;
  for (const char* on : {"2026-05-01", "2026-05-15", "2026-05-25", "2026-06-01"}) {
    CAPTURE(std::string(on));
    const auto plan = at(on);
    for (const SeasonItem& item : plan.beforehand) {
      if (item.reason != SeasonReason::helped) continue;
      ++helped;
      CHECK(item.odds_before.value < plan.threshold.value);
      CHECK(item.odds_done.value().value <= item.odds.value / 2);
    }
    for (const SeasonItem& item : plan.have_ready) {
      if (item.again()) continue;
      ++ready;
      CHECK(item.odds_before.value < plan.threshold.value);
      CHECK(item.odds_done.value().value > item.odds.value / 2);
    }
  }
  CHECK(helped + ready > 0);
}

TEST_CASE("what somebody put off is done when that ends, at the latest the day before the season") {
  const auto do_by = [&](const char* until, const char* at) {
    World world("  oil: {do: Oil, every: {hours: 100}}\n", "in-service: {on: 2025-01-01, at: 0}", harvest);
    world.reading("2025-12-31", "728");
    world.reading("2026-06-15", "1060");  // 2 h a day
    world.done("oil", "2026-01-01", "730");
    world.put_off("oil", "2026-06-15", until, at);
    const auto plan = plan_of(world, "2026-06-15");
    REQUIRE(plan.beforehand.size() == 1);
    CHECK(plan.beforehand[0].reason == SeasonReason::due);
    return plan.beforehand[0].do_by;
  };
  CHECK(do_by("2026-07-04", "") == day("2026-07-04"));
  CHECK(do_by("2026-08-20", "") == day("2026-07-31"));
  CHECK(do_by("", "1080") == day("2026-06-25"));
  CHECK(do_by("2026-06-20", "1080") == day("2026-06-20"));  // whichever comes first
}

TEST_CASE("what somebody put off beyond the season's end stands by itself, in no sums and orders") {
  const auto plan_with = [&](const char* until, const char* at = "") {
    World world(
        "  oil: {do: Oil, every: {hours: 100}, takes: 60 min, parts: {filter: 1}}\n"
        "  belt: {do: Belt, every: {months: 6}, takes: 30 min}\n",
        "in-service: {on: 2025-01-01, at: 0}", harvest);
    world.reading("2025-12-31", "728");
    world.reading("2026-06-15", "1060");  // 2 h a day
    world.done("oil", "2026-01-01", "730");
    world.done("belt", "2026-01-20");
    world.put_off("oil", "2026-06-15", until, at);
    return plan_of(world, "2026-06-15");
  };
  const auto in_time = plan_with("2026-09-20");  // on the last day it is to be done
  CHECK((names(in_time.beforehand) == std::vector<std::string>{"oil", "belt"}));
  CHECK(in_time.put_off.empty());
  const auto beyond = plan_with("2026-09-21");
  CHECK((names(beyond.beforehand) == std::vector<std::string>{"belt"}));
  CHECK(beyond.have_ready.empty());
  REQUIRE((names(beyond.put_off) == std::vector<std::string>{"oil"}));
  CHECK(beyond.put_off[0].do_by == day("2026-09-21"));
  CHECK(beyond.put_off[0].point.standing == Standing::overdue);
  CHECK(beyond.put_off[0].odds.value == doctest::Approx(1));
  CHECK(beyond.before_sums.labour_minutes == 30);
  CHECK(beyond.parts.empty());
  CHECK(in_time.parts.size() == 1);
  CHECK(plan_with("", "1270").put_off.size() == 1);  // at 2 h a day in the last days of September
  CHECK(plan_with("", "1200").put_off.empty());
  CHECK(plan_with("2026-09-21", "1200").put_off.empty());  // whichever comes first
  auto cut = plan_with("2026-09-21");
  keep_first(cut, 1);
  CHECK(cut.left_off == 0);
}

TEST_CASE("what only a sign or a measurement brings due is named among the rest, without odds") {
  World world("  hose: {do: Hose, every: {signs: [leak], measured: {wear: {above: 8, unit: mm}}}}\n",
              "in-service: {on: 2025-01-01, at: 0}", harvest);
  world.done("hose", "2026-01-01");
  world.measured("wear", "3", "2026-02-01", "mm");
  const auto plan = plan_of(world, "2026-06-15");
  CHECK(plan.find_out.empty());
  REQUIRE(plan.not_before_end.size() == 1);
  CHECK_FALSE(plan.not_before_end[0].odds.has_value());
}

TEST_CASE("what somebody saw is told, and counted for a machine that does not work in the season") {
  World world("  look: {do: Look, every: {months: 60}}\n",
              "in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 100, harvest: 0}", harvest);
  int usage = 0;
  for (int month = 0; month <= 48; ++month) {
    const auto date = std::chrono::year{2022} / std::chrono::month{6} / 1 + std::chrono::months{month};
    world.reading(to_text(Day{std::chrono::sys_days{date}}), std::to_string(usage));
    usage += static_cast<unsigned>(date.month()) % 12 < 3 ? 60 : 0;
  }
  world.sign("odd noise", "2026-06-10");
  const auto snapshot = world.snapshot("2026-06-15");
  const auto plan = plan_of(world, "2026-06-15", learnt_from(snapshot));
  REQUIRE(plan.seen.size() == 1);
  CHECK(plan.seen[0].sign == "odd noise");
  REQUIRE(plan.others.size() == 1);
  CHECK(plan.others[0].seen == 1);
}

TEST_CASE(
    "what is overdue comes first, then what is due; within these safety, and a list that is cut counts all of it") {
  World world(
      "  late: {do: Late, every: {months: 6}}\n"
      "  today: {do: Today, every: {months: 6}}\n"
      "  soon: {do: Soon, every: {months: 6}}\n"
      "  rope: {do: Rope, every: {months: 6}, safety: true}\n",
      "in-service: {on: 2025-01-01, at: 0}", harvest);
  world.done("late", "2025-11-15");
  world.done("today", "2025-12-15");
  world.done("soon", "2026-01-05");
  world.done("rope", "2026-01-20");
  auto plan = plan_of(world, "2026-06-15");
  CHECK((names(plan.beforehand) == std::vector<std::string>{"late", "today", "rope", "soon"}));
  CHECK(plan.before_sums.never_wait == 1);
  keep_first(plan, 1);
  CHECK((names(plan.beforehand) == std::vector<std::string>{"late"}));
  CHECK(plan.before_sums.left_off == 3);
  CHECK(plan.before_sums.never_wait == 1);
}

TEST_CASE("a service that includes others keeps its own standing, and says how those stand") {
  World world(
      "  brakes: {do: Brakes, every: {months: 6}, safety: true}\n"
      "  big: {do: Big, every: {months: 8}, covers: [brakes]}\n",
      "in-service: {on: 2025-01-01, at: 0}", harvest);
  world.done("brakes", "2025-11-15");
  world.done("big", "2025-11-20");
  const auto plan = plan_of(world, "2026-06-15");
  // What never waits and is overdue has a row of its own: it may be done before the other, and alone.
  CHECK((names(plan.beforehand) == std::vector<std::string>{"brakes", "big"}));
  CHECK(plan.beforehand[0].do_by == day("2026-06-15"));
  REQUIRE(plan.beforehand[0].included_in.has_value());
  CHECK(plan.beforehand[0].included_in->task == "big");
  const SeasonItem& big = plan.beforehand[1];
  CHECK(big.point.standing != Standing::overdue);
  CHECK(big.do_by > day("2026-06-15"));
  REQUIRE(big.covered.size() == 1);
  CHECK(big.covered[0].name.task == "brakes");
  CHECK(big.covered[0].name.safety);
  CHECK(big.covered[0].own_row);
  CHECK(big.never_waits());
  CHECK_FALSE(is_safety(big.point));
  CHECK(big.covered[0].standing == Standing::overdue);
  // Somebody put the big one off: what is overdue does not wait with it.
  world.put_off("big", "2026-06-14", "2026-07-20");
  const auto later = plan_of(world, "2026-06-15");
  CHECK((names(later.beforehand) == std::vector<std::string>{"brakes", "big"}));
}

TEST_CASE("a service comes again with days of its own, as often as the season asks") {
  // At 2 h a day 40 h last 20 days, and the season 51.
  World world("  oil: {do: Oil, every: {hours: 40}, parts: {filter: 1}}\n", "in-service: {on: 2025-01-01, at: 0}",
              harvest + "parts:\n  filter: {what: Filter, unit: piece, stock: 0, lead-time: 10 days}\n");
  world.reading("2026-01-01", "730");
  world.reading("2026-07-20", "1130");
  world.done("oil", "2026-07-10", "1110");
  const auto plan = plan_of(world, "2026-07-21");
  REQUIRE((names(plan.beforehand) == std::vector<std::string>{"oil"}));
  CHECK(plan.beforehand[0].round == 1);
  CHECK(plan.beforehand[0].between.empty());
  // Done on 30 July, at 1150 h: again on 19 August and 8 September, and not a fourth time before the 21st.
  CHECK((names(plan.have_ready) == std::vector<std::string>{"oil again", "oil again"}));
  CHECK(plan.have_ready[0].round == 2);
  CHECK(plan.have_ready[1].round == 3);
  CHECK(*plan.have_ready[0].point.due_span.p50 < *plan.have_ready[1].point.due_span.p50);
  CHECK(*plan.have_ready[0].point.due_span.p50 > day("2026-08-10"));
  CHECK(*plan.have_ready[1].point.due_span.p50 <= day("2026-09-20"));
  CHECK(plan.have_ready[0].point.standing == Standing::later);
  // Three filters in all. The first cannot be there before the last day of July.
  REQUIRE(plan.parts.size() == 1);
  CHECK(plan.parts[0].need == PartAmount::units(3));
  REQUIRE(plan.beforehand[0].waits_for.size() == 1);
  CHECK(plan.beforehand[0].waits_for[0].part == "filter");
  CHECK(text_or_none(plan.beforehand[0].waits_for[0].from) == "2026-07-31");
  // What comes due in between, before the season, is counted.
  const auto early_plan = plan_of(world, "2026-07-20");
  CHECK(early_plan.beforehand[0].between.empty());
}

TEST_CASE("what comes due in the season for the first time comes again in it, too") {
  World world("  oil: {do: Oil, every: {hours: 40}, parts: {filter: 1}}\n", "in-service: {on: 2025-01-01, at: 0}",
              harvest + "parts:\n  filter: {what: Filter, unit: piece, stock: 0}\n");
  world.reading("2026-01-01", "730");
  world.reading("2026-07-29", "1148");
  world.done("oil", "2026-07-29", "1148");
  // At 2 h a day on 18 August, whatever is done before, on 7 September, and not a third time before the 21st.
  const auto plan = plan_of(world, "2026-07-30");
  CHECK(plan.beforehand.empty());
  CHECK((names(plan.have_ready) == std::vector<std::string>{"oil", "oil again"}));
  REQUIRE(plan.have_ready.size() == 2);
  CHECK(plan.have_ready[1].round == 2);
  CHECK(text_or_none(plan.have_ready[0].point.due_span.p50) == "2026-08-18");
  CHECK(text_or_none(plan.have_ready[1].point.due_span.p50) == "2026-09-07");
  CHECK(plan.parts.at(0).need == PartAmount::units(2));
}

TEST_CASE("a service stands for one round of what it includes, the nearest") {
  World world(
      "  oil: {do: Oil, every: {hours: 40}, parts: {filter: 1}}\n"
      "  big: {do: Big, every: {hours: 100}, covers: [oil], parts: {filter: 1}}\n",
      "in-service: {on: 2025-01-01, at: 0}", harvest + "parts:\n  filter: {what: Filter, unit: piece, stock: 0}\n");
  world.reading("2026-01-01", "730");
  world.done("big", "2026-07-01", "1092");
  world.done("oil", "2026-07-10", "1110");
  world.reading("2026-07-20", "1130");
  // The oil on 30 July, again on 19 August and 8 September; the big service on 20 August.
  const auto plan = plan_of(world, "2026-07-21");
  CHECK((names(plan.beforehand) == std::vector<std::string>{"oil"}));
  CHECK((names(plan.have_ready) == std::vector<std::string>{"big", "oil again"}));
  REQUIRE(plan.have_ready.size() == 2);
  REQUIRE(plan.have_ready[0].covered.size() == 1);
  CHECK(plan.have_ready[1].round == 3);
  CHECK(plan.parts.at(0).need == PartAmount::units(3));
}

TEST_CASE("a check is not done before the work that it looks at") {
  World world(
      "  belt: {do: Belt, every: {months: 60}, safety: true, "
      "follow-up: {tension: {do: Tension, within: {hours: 40}}}}\n",
      "in-service: {on: 2025-01-01, at: 0}", harvest);
  world.reading("2026-01-01", "730");
  world.reading("2026-07-19", "1128");
  world.done("belt", "2026-07-20", "1130");
  // At 2 h a day it comes due on 9 August, in the season, whether or not somebody looks before.
  const auto plan = plan_of(world, "2026-07-21");
  CHECK(plan.beforehand.empty());
  CHECK((names(plan.have_ready) == std::vector<std::string>{"belt/tension"}));
  World once("  belt: {do: Belt, every: {months: 6}, follow-up: {tension: {do: Tension, within: {hours: 40}}}}\n",
             "in-service: {on: 2025-01-01, at: 0}", harvest);
  once.done("belt", "2026-01-20");
  const auto before = plan_of(once, "2026-06-15");
  REQUIRE(before.beforehand.size() == 1);
  REQUIRE(before.beforehand[0].checks.size() == 1);
  CHECK(before.beforehand[0].checks[0]->name == "tension");
}

TEST_CASE("sums say where two people count twice, and of how much safety too little is known") {
  World world(
      "  brakes: {do: Brakes, every: {months: 6}, safety: true, takes: 30 min}\n"
      "  rope: {do: Rope, every: {hours: 90}, safety: true}\n"
      "  exam: {do: Examine, every: {months: 6}, by-whom: competent-person}\n"
      "  belt: {do: Belt, every: {months: 6}}\n",
      "bought: {on: 2025-01-01, at: 100}", harvest);
  const auto nothing_done = plan_of(world, "2026-06-15");
  CHECK(nothing_done.find_out.size() == 4);
  CHECK(nothing_done.find_out_never_wait == 3);
  CHECK(nothing_done.at_work == 1);
  CHECK(nothing_done.others.empty());
  world.done("brakes", "2026-01-01");
  const auto plan = plan_of(world, "2026-06-15");
  CHECK(plan.find_out_never_wait == 2);
  CHECK_FALSE(plan.before_sums.several_people);
  World two("  drum: {do: Drum, every: {months: 6}, takes: 2 h, people: 2}\n", "in-service: {on: 2025-01-01, at: 0}",
            harvest);
  CHECK(plan_of(two, "2026-06-15").before_sums.several_people);
  CHECK(plan_of(two, "2026-06-15").before_sums.labour_minutes == 240);
}

TEST_CASE("what never waits and is due has a row of its own beside the service that includes it, and counts once") {
  // The brakes are overdue; the belt and the big service, whose filter takes two weeks, come in July.
  World late(
      "  big: {do: Big service, every: {months: 12}, takes: 4 h, parts: {filter: 1}, covers: [brakes, belt]}\n"
      "  brakes: {do: Brakes, every: {months: 6}, safety: true, takes: 45 min, parts: {pad: 2}}\n"
      "  belt: {do: Belt, every: {months: 6}, takes: 30 min, parts: {belt: 1}}\n",
      "in-service: {on: 2025-01-01, at: 0}", harvest + "parts:\n  filter: {stock: 0, lead-time: 14 days}\n");
  late.done("big", "2025-07-10");
  late.done("brakes", "2025-12-01");
  late.done("belt", "2026-01-05");
  const auto plan = plan_of(late, "2026-06-15");
  REQUIRE((names(plan.beforehand) == std::vector<std::string>{"brakes", "big"}));
  const SeasonItem& brakes = plan.beforehand[0];
  const SeasonItem& big = plan.beforehand[1];
  CHECK((brakes.point.standing == Standing::overdue));
  CHECK((brakes.group() == SeasonGroup::overdue));
  CHECK(brakes.do_by == day("2026-06-15"));
  REQUIRE(brakes.included_in.has_value());
  CHECK(brakes.included_in->task == "big");
  CHECK(brakes.waits_for.empty());
  REQUIRE(big.covered.size() == 2);
  CHECK(big.covered[0].name.task == "brakes");
  CHECK(big.covered[0].own_row);
  CHECK_FALSE(big.covered[1].own_row);
  CHECK((big.worst == Standing::coming));  // the brakes are told by themselves
  CHECK((big.group() == SeasonGroup::never_waits));
  CHECK(big.do_by == day("2026-07-05"));  // with the belt, and not drawn to today
  CHECK(big.waits_for.empty());
  CHECK(plan.before_sums.points == 1);
  CHECK(plan.before_sums.never_wait == 1);
  CHECK(plan.before_sums.labour_minutes == 240);
  CHECK(plan.before_sums.pieces == 1);
  REQUIRE(plan.parts.size() == 1);
  CHECK(plan.parts[0].key == "filter");
}
