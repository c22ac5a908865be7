// On which days to go to each site. The figures are worked out by hand: a trip to Holm costs 61.09 and one to Beck
// 62.18, as in the week of the same estate.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>
#include <random>
#include <set>
#include <tuple>

#include "service/visits.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::Estate;
using estate::names_of;
using estate::Texts;
using test::day;

namespace {

VisitsPlan plan_of(const Estate& place, std::string_view to = "2026-05-17", std::string_view as_of = "2026-05-03",
                   const std::vector<std::string>& without = {}) {
  DueAsk ask{day(to)};
  ask.detail = Detail::coming;
  auto list = std::make_shared<DueList>(due_list(place.world.snapshot(as_of), ask, straight_line()));
  return plan_visits(std::move(list), {day(to), without});
}

// `holm 05-04 van: engine-oil first-day, brakes early`
std::string text_of(const VisitsPlan& plan) {
  std::string text;
  for (const SiteVisit& visit : plan.visits) {
    text += (text.empty() ? "" : "; ") + visit.site->key + ' ' + to_text(visit.on).substr(5) + ' ' + visit.crew->key;
    for (const TripTask& task : visit.tasks) {
      text += (&task == &visit.tasks.front() ? ": " : ", ") + task.point->name + ' ' + std::string(to_text(task.why));
    }
  }
  return text;
}

std::string not_possible_of(const VisitsPlan& plan) {
  std::string text;
  for (const NotPossible& one : plan.not_possible) {
    text += (text.empty() ? "" : ", ") + one.point->name + ' ' + std::string(to_text(one.reason));
  }
  return text;
}

std::string not_planned_of(const VisitsPlan& plan) {
  std::string text;
  for (const NotPlanned& one : plan.not_planned) {
    text += (text.empty() ? "" : ", ") + one.point.task + ' ' + std::string(to_text(one.reason));
  }
  return text;
}

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  REQUIRE(text.find(what) != std::string::npos);
  return text.replace(text.find(what), what.size(), with);
}

// Every sum of a plan, reckoned anew.
void check_sums(const VisitsPlan& plan) {
  Money trips;
  Money early;
  Money late;
  for (const SiteVisit& visit : plan.visits) {
    trips = trips + visit.trip_cost;
    Money of_visit_early;
    Money of_visit_late;
    for (const TripTask& task : visit.tasks) {
      of_visit_early = of_visit_early + task.early;
      of_visit_late = of_visit_late + task.late;
      CHECK(task.early_days - task.late_days == (*task.point->due_on - visit.on).count());
    }
    CHECK(of_visit_early == visit.early);
    CHECK(of_visit_late == visit.late);
    early = early + visit.early;
    late = late + visit.late;
    CHECK(visit.on >= plan.from);
    CHECK(visit.on <= plan.to);
  }
  CHECK(plan.trips == trips);
  CHECK(plan.early == early);
  CHECK(plan.late == late);
  CHECK(plan.total == trips + early + late);
  CHECK(plan.bound <= plan.total);
  CHECK(plan.exact == (plan.bound == plan.total));
  CHECK((plan.on_own_days.total >= plan.total || plan.on_own_days.behind));
  CHECK(plan.on_own_days.trips <= plan.on_own_days.total);
}

// Nothing else is due.
Texts loader_alone() {
  Texts texts;
  texts.machines = "  loader: {name: Loader, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  return texts;
}

// Big covers the brakes.
Texts covering() {
  Texts texts = loader_alone();
  texts.tractor =
      "  big: {do: Do all, every: {months: 12}, takes: 2 h, covers: [brakes], parts: {kit: 1}}\n"
      "  brakes: {do: Look at the brakes, every: {months: 6}, takes: 40 min, parts: {pad: 2}}\n";
  return texts;
}

}  // namespace

TEST_CASE("what is due soon goes along with what is overdue") {
  const VisitsPlan plan = plan_of(Estate().usual());
  CHECK(text_of(plan) == "holm 05-04 van: engine-oil first-day, brakes early; beck 05-05 van: gland first-day");
  check_sums(plan);
  CHECK(plan.from == day("2026-05-03"));
  CHECK(plan.to == day("2026-05-17"));
  CHECK(plan.trips.hundredths == 6109 + 6218);
  CHECK(plan.late.hundredths == 56 + 300);
  CHECK(plan.early.hundredths == 32);  // 29.33 x 2 / 181
  CHECK(plan.total.hundredths == 12715);
  CHECK(plan.bound == plan.total);
  CHECK(plan.exact);
  // The brakes a week later, on the first day on which the van works again: 61.09 and 1.64 more, less 0.32.
  CHECK(plan.on_own_days.visits == 3);
  CHECK(plan.on_own_days.trips.hundredths == 2 * 6109 + 6218);
  CHECK(plan.on_own_days.total.hundredths == 6109 + 56 + 6109 + 164 + 6218 + 300);

  const SiteVisit& holm = plan.visits.front();
  CHECK(holm.drive_minutes == 46);
  CHECK(holm.tenths_of_km == 364);
  CHECK(holm.set_up_minutes == 10);
  CHECK(holm.work_minutes == 90);
  CHECK_FALSE(holm.safety);
  REQUIRE(holm.parts.size() == 1);
  CHECK(holm.parts.front().first == "oil-filter-a");
  REQUIRE(holm.fluids.size() == 1);
  CHECK(holm.fluids.front().second.amount == PartAmount{1150});
  CHECK((holm.cautions == std::vector<std::string>{"hot-fluid"}));
  CHECK(holm.tasks[0].late_days == 14);
  CHECK(holm.tasks[1].early_days == 2);
  CHECK(holm.tasks[1].own_day == day("2026-05-11"));
  CHECK(holm.tasks[1].own_cost.hundredths == 6109 + 164);

  CHECK(not_possible_of(plan) == "relief not-qualified");
  CHECK((plan.not_possible.front().lacking == std::vector<std::string>{"pressure"}));
  CHECK(names_of(plan.no_record) == "hoist rope");
  CHECK(plan.no_time.empty());
  CHECK(plan.no_price.empty());
}

TEST_CASE("a trip is saved where the life that is given up is cheaper, and made where it is not") {
  Texts texts = loader_alone();
  texts.tractor =
      "  filters: {do: Change them, every: {months: 12}, takes: 10 min, fluids: {engine-oil-15w40: 2000 L}}\n"
      "  brakes: {do: Look at the brakes, every: {months: 6}, takes: 40 min, late: 3000}\n";
  Estate place(texts);
  place.done("loader", "filters", "2025-05-15").done("loader", "brakes", "2025-11-05");
  // 8207.33 for a year: 22.49 for each day, so ten of them are dearer than a trip; so are late brakes.
  CHECK(text_of(plan_of(place)) == "holm 05-05 van: brakes due-day; holm 05-15 van: filters due-day");
  CHECK(plan_of(place).total.hundredths == 2 * 6109);
  texts.tractor = replaced(texts.tractor, "2000 L", "20 L");
  Estate cheap(texts);
  cheap.done("loader", "filters", "2025-05-15").done("loader", "brakes", "2025-11-05");
  const VisitsPlan plan = plan_of(cheap);
  REQUIRE(plan.visits.size() == 1);
  check_sums(plan);
}

TEST_CASE("work for safety is never put later than the first day on which somebody can go") {
  Texts texts = loader_alone();
  texts.tractor =
      "  filters: {do: Change them, every: {months: 12}, takes: 10 min, fluids: {engine-oil-15w40: 2000 L}}\n"
      "  brakes: {do: Look at the brakes, every: {months: 6}, takes: 40 min, late: 0}\n";
  const auto done = [](Estate place) {
    place.done("loader", "filters", "2025-05-15").done("loader", "brakes", "2025-11-07");
    return plan_of(place);
  };
  // Waiting costs nothing.
  CHECK(text_of(done(Estate(texts))) == "holm 05-15 van: brakes late, filters due-day");
  texts.tractor = replaced(texts.tractor, "late: 0", "late: 0, safety: true");
  const VisitsPlan plan = done(Estate(texts));
  CHECK(text_of(plan) == "holm 05-11 van: brakes first-day; holm 05-15 van: filters due-day");
  CHECK(plan.visits.front().safety);
  CHECK_FALSE(plan.visits.back().safety);
}

TEST_CASE("where nobody can go any more from the due day on, work is done before") {
  Texts texts;
  texts.machines = "  pump: {name: Pump, schedule: pump, site: beck, in-service: {on: 2021-03-01, at: 0}}\n";
  texts.sites = replaced(texts.sites, "closed: [2026-05-04, harvest]", "closed: [2026-05-12, 2026-05-13]");
  texts.pump = "  gland: {do: Repack it, every: {months: 6}, takes: 40 min, safety: true}\n";
  Estate place(texts);
  place.done("pump", "gland", "2025-11-12");
  CHECK(text_of(plan_of(place, "2026-05-13")) == "beck 05-11 van: gland last-day");
  // A day early gives up less than two days late would lose.
  CHECK(text_of(plan_of(place, "2026-05-14")) == "beck 05-11 van: gland likely-day");
}

TEST_CASE("one trip for the brakes and the big service that includes them, or two") {
  Estate place(covering());
  place.done("loader", "brakes", "2025-11-04").done("loader", "big", "2025-05-15");
  // Eleven days early, the big service gives up 88.00 x 11 / 365; the brakes eleven days late would lose 3.67.
  const VisitsPlan plan = plan_of(place);
  CHECK(text_of(plan) == "holm 05-04 van: brakes included, big early");
  CHECK(plan.total.hundredths == 6109 + 265);
  CHECK(plan.visits.front().work_minutes == 120);
  REQUIRE(plan.visits.front().parts.size() == 1);  // none for the brakes by themselves
  CHECK(plan.visits.front().parts.front().first == "kit");
  CHECK(plan.visits.front().tasks.front().with->name == "big");
  CHECK((plan.no_price == std::vector<std::string>{"kit", "pad"}));
  check_sums(plan);

  // Trips that cost nothing: each on its day, with its own time.
  Texts at_home = covering();
  at_home.crews = replaced(at_home.crews, "start: workshop", "start: holm");
  Estate home(at_home);
  home.done("loader", "brakes", "2025-11-04").done("loader", "big", "2025-05-15");
  const VisitsPlan two = plan_of(home);
  CHECK(text_of(two) == "holm 05-04 van: brakes due-day; holm 05-15 van: big due-day");
  CHECK(two.total.hundredths == 0);
  CHECK(two.visits.front().work_minutes == 40);
  CHECK(two.visits.back().work_minutes == 120);
}

TEST_CASE("what was included is not done again some days later") {
  Texts at_home = covering();
  at_home.crews = replaced(at_home.crews, "start: workshop", "start: holm");
  Estate place(at_home);
  place.done("loader", "big", "2025-05-04").done("loader", "brakes", "2025-11-15");
  const VisitsPlan plan = plan_of(place);
  CHECK(text_of(plan) == "holm 05-04 van: big due-day, brakes included");
  CHECK(plan.total.hundredths == 178);  // 29.33 x 11 / 181: trips are free, and yet there is one
  CHECK(plan.on_own_days.total == plan.total);
}

TEST_CASE("what is put off waits until then, and no longer than it must") {
  Estate place;
  place.usual();
  place.world.put_off("gland", "2026-05-01", "2026-05-12").machine = "pump";
  CHECK(text_of(plan_of(place)) == "holm 05-04 van: engine-oil first-day, brakes early; beck 05-12 van: gland put-off");
  CHECK(text_of(plan_of(place, "2026-05-11")) == "holm 05-04 van: engine-oil first-day, brakes early");
  CHECK(not_planned_of(plan_of(place, "2026-05-11")) == "gland put-off");
}

TEST_CASE("machines that stand are not planned, and that is said") {
  Estate place;
  place.usual();
  place.world.state(FactKind::laid_up, "2026-04-01").machine = "loader";
  place.world.state(FactKind::out_of_use, "2026-04-01").machine = "pump";
  const VisitsPlan plan = plan_of(place);
  CHECK(plan.visits.empty());
  CHECK(plan.total == Money{});
  CHECK(plan.exact);
  std::set<std::string> reasons;
  for (const NotPlanned& one : plan.not_planned)
    reasons.insert(one.point.task + ' ' + std::string(to_text(one.reason)));
  CHECK((reasons ==
         std::set<std::string>{"engine-oil laid-up", "brakes laid-up", "gland out-of-use", "relief out-of-use"}));
}

TEST_CASE("a machine that is back within the span is visited then, and for what never waits before") {
  Texts texts;
  texts.tractor += "  horn: {do: Try the horn, every: {months: 12}, takes: 10 min, safety: true, late: 365}\n";
  Estate place(texts);
  place.usual().done("loader", "horn", "2025-04-20");
  place.world.state(FactKind::laid_up, "2026-04-01", "2026-05-12").machine = "loader";
  const VisitsPlan plan = plan_of(place);
  CHECK(not_planned_of(plan).empty());
  std::set<std::string> told;
  for (const SiteVisit& visit : plan.visits) {
    for (const TripTask& task : visit.tasks) {
      if (task.point->machine->key != "loader") continue;
      told.insert(task.point->name + ' ' + to_text(visit.on) + ' ' + std::string(to_text(task.why)));
      CHECK((task.point->name == "horn") == (visit.on < day("2026-05-12")));
      if (task.point->name == "horn") CHECK(task.late == Money{});
    }
  }
  CHECK(told.contains("horn 2026-05-11 laid-up"));
  CHECK(told.contains("engine-oil 2026-05-12 laid-up"));
}

TEST_CASE("a machine that leaves is visited before, and not for what comes due after") {
  Texts texts;
  texts.machines = replaced(texts.machines, "2020-03-01, at: 0}", "2020-03-01, at: 0}, left: 2026-05-05");
  const VisitsPlan plan = plan_of(Estate(texts).usual());
  CHECK(text_of(plan) == "holm 05-04 van: engine-oil first-day; beck 05-05 van: gland first-day");
  CHECK(not_planned_of(plan) == "brakes left");
  texts.machines = replaced(texts.machines, "left: 2026-05-05", "left: 2026-05-04");
  CHECK(not_possible_of(plan_of(Estate(texts).usual())) == "engine-oil no-crew, relief not-qualified");
}

TEST_CASE("a day that holds more work than a crew has hours is split") {
  Texts texts = loader_alone();
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 200 min}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 200 min}\n";
  Estate place(texts);
  place.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-10-20");
  const VisitsPlan plan = plan_of(place);
  check_sums(plan);
  REQUIRE(plan.visits.size() == 2);
  CHECK(plan.visits[0].on == day("2026-05-04"));
  CHECK(plan.visits[1].on == day("2026-05-05"));
  CHECK(plan.visits[0].work_minutes == 200);
  CHECK(plan.visits[1].work_minutes == 200);
  CHECK(plan.visits[1].tasks.front().why == TripReason::day_full);
  CHECK((plan.visits[1].tasks.front().full_day == day("2026-05-04")));
  CHECK((plan.visits[1].tasks.front().full_by == TimeLimit::opening));  // not in one stay before noon
  CHECK(plan.bound == plan.total);  // two trips at least, for there is not time for both on one

  // Longer than any day: nobody can do it.
  texts.tractor = replaced(texts.tractor, "200 min", "7 h");
  Estate longer(texts);
  longer.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-10-20");
  CHECK(not_possible_of(plan_of(longer)) == "engine-oil unreachable");
  CHECK((plan_of(longer).not_possible.front().limit == TimeLimit::opening));
  CHECK(plan_of(longer).not_possible.front().longest_stay == 230);
  CHECK(text_of(plan_of(longer)) == "holm 05-04 van: brakes first-day");
}

TEST_CASE("two crews share a day that is too long for one") {
  Texts texts = loader_alone();
  texts.crews += "  lorry: {start: workshop, hours: {mon: \"07:30-16:00\"}}\n";
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 200 min}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 200 min}\n";
  Estate place(texts);
  place.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-10-20");
  const VisitsPlan plan = plan_of(place);
  check_sums(plan);
  REQUIRE(plan.visits.size() == 2);
  CHECK(plan.visits[0].on == day("2026-05-04"));
  CHECK(plan.visits[1].on == day("2026-05-04"));
  CHECK(plan.visits[0].crew->key == "van");
  CHECK(plan.visits[1].crew->key == "lorry");
}

TEST_CASE("one crew does all of a site, but where work for safety would have to wait for it") {
  Texts texts;
  texts.crews += "  lorry: {start: workshop, hours: {fri: \"07:30-16:00\"}, qualified-for: [pressure]}\n";
  CHECK(text_of(plan_of(Estate(texts).usual())) ==
        "holm 05-04 van: engine-oil first-day, brakes early; beck 05-08 lorry: gland late, relief first-day");
  texts.pump = replaced(texts.pump, "late: 380", "late: 380, safety: true");
  CHECK(text_of(plan_of(Estate(texts).usual())) ==
        "holm 05-04 van: engine-oil first-day, brakes early; beck 05-05 van: gland first-day; "
        "beck 05-08 lorry: relief first-day");
}

// The gland is for safety, the seal dear, and only the lorry, on Fridays, may test the relief valve.
Texts van_and_lorry() {
  Texts texts;
  texts.machines = "  pump: {name: Pump, schedule: pump, site: beck, in-service: {on: 2021-03-01, at: 0}}\n";
  texts.crews += "  lorry: {start: workshop, hours: {fri: \"07:30-16:00\"}, qualified-for: [pressure]}\n";
  texts.pump =
      "  gland: {do: Repack it, every: {months: 6}, takes: 40 min, safety: true}\n"
      "  seal: {do: Renew it, every: {months: 6}, takes: 40 min, fluids: {engine-oil-15w40: 2000 L}}\n"
      "  relief: {do: Test it, every: {months: 12}, takes: 50 min, needs: [pressure]}\n";
  return texts;
}

Estate gland_seal_and_relief(const Texts& texts) {
  Estate place(texts);
  place.done("pump", "gland", "2025-11-05").done("pump", "seal", "2025-11-15").done("pump", "relief", "2025-05-15");
  return place;
}

TEST_CASE("crews that are planned apart share a trip where one of them is there anyway") {
  const VisitsPlan plan = plan_of(gland_seal_and_relief(van_and_lorry()));
  check_sums(plan);
  CHECK(text_of(plan) == "beck 05-05 van: gland due-day; beck 05-15 lorry: seal due-day, relief due-day");
  CHECK(plan.total.hundredths == 2 * 6218);
  CHECK(plan.exact);
  CHECK(plan.visits.back().work_minutes == 90);
  CHECK(plan.visits.back().trip_cost.hundredths == 6218);
  CHECK(plan.on_own_days.visits == 2);
  CHECK(plan.on_own_days.total == plan.total);
}

TEST_CASE("a crew that is there anyway takes no more than it has hours for") {
  Texts texts = van_and_lorry();
  texts.pump = replaced(texts.pump, "takes: 50 min", "takes: 7 h");
  const VisitsPlan plan = plan_of(gland_seal_and_relief(texts));
  check_sums(plan);
  CHECK(text_of(plan) ==
        "beck 05-05 van: gland due-day; beck 05-15 van: seal due-day; beck 05-15 lorry: relief due-day");
  CHECK(plan.total.hundredths == 3 * 6218);
  CHECK(plan.exact);  // whoever tests the valve has no hours for the seal
}

TEST_CASE("work that has no room beside other work is not possible, and nothing is proven of it") {
  Texts texts = loader_alone();
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 200 min, parts: {oil-filter-a: 500}}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 200 min}\n";
  Estate place(texts);
  place.done("loader", "engine-oil", "2025-05-04").done("loader", "brakes", "2025-11-04");
  const VisitsPlan plan = plan_of(place, "2026-05-04");
  check_sums(plan);
  CHECK(text_of(plan) == "holm 05-04 van: engine-oil due-day");
  CHECK(not_possible_of(plan) == "brakes unreachable");
  CHECK(plan.not_possible.front().days_full);
  CHECK(plan.total.hundredths == 6109);
  CHECK(plan.bound == plan.total);
}

TEST_CASE("a list that does not reach, and a span that is over, are refused") {
  const Estate place;
  auto list =
      std::make_shared<DueList>(due_list(place.world.snapshot("2026-05-03"), {day("2026-05-10")}, straight_line()));
  CHECK_THROWS_AS(plan_visits(list, {day("2026-05-11")}), const Failure&);
  CHECK_THROWS_AS(plan_visits(list, {day("2026-05-02")}), const Failure&);
  CHECK_THROWS_AS(plan_visits(list, VisitsAsk{day("2026-05-10"), {"vann"}}), const Failure&);
  CHECK_NOTHROW(plan_visits(list, {day("2026-05-10")}));
}

TEST_CASE("of any fleet each service is done once, sums add up, and own days are never cheaper") {
  std::mt19937_64 engine(8128);
  const auto roll = [&](int from, int to) {
    return from + static_cast<int>(engine() % static_cast<std::uint64_t>(to - from + 1));
  };
  int open_ends = 0;
  int saved = 0;
  int compared = 0;
#ifdef __SANITIZE_ADDRESS__  // each step is watched
  constexpr int worlds = 20;
#else
  constexpr int worlds = 60;
#endif
  for (int world = 0; world < worlds; ++world) {
    CAPTURE(world);
    Texts texts;
    texts.crews +=
        "  lorry: {start: workshop, hours: {tue: \"08:00-12:00\", fri: \"08:00-16:00\"}, "
        "qualified-for: [pressure]}\n";
    texts.tractor = "";
    const int tasks = roll(1, 8);
    for (int i = 0; i < tasks; ++i) {
      const std::string name = "t" + std::to_string(i);
      texts.tractor += "  " + name + ": {do: It, every: {months: " + std::to_string(roll(1, 12)) +
                       "}, takes: " + std::to_string(roll(5, 200)) + " min" +
                       (roll(0, 4) == 0 ? ", safety: true" : "") + (roll(0, 4) == 0 ? ", needs: [pressure]" : "") +
                       (i > 0 && roll(0, 2) == 0 ? ", covers: [t" + std::to_string(i - 1) + "]" : "") +
                       (roll(0, 2) == 0 ? ", parts: {oil-filter-a: " + std::to_string(roll(1, 40)) + "}" : "") + "}\n";
    }
    texts.machines += "  second: {name: Second, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
    Estate place(texts);
    for (const char* machine : {"loader", "second"}) {
      for (int i = 0; i < tasks; ++i) {
        place.done(machine, "t" + std::to_string(i), to_text(day("2026-05-03") - std::chrono::days{roll(1, 380)}));
      }
    }
    const VisitsPlan plan = plan_of(place, "2026-07-26");
    check_sums(plan);
    std::multiset<const Point*> seen;
    std::set<std::tuple<const Site*, Day, const Crew*>> crew_days;
    for (const SiteVisit& visit : plan.visits) {
      CHECK(crew_days.insert({visit.site, visit.on, visit.crew}).second);
      const auto weekday = static_cast<Weekday>(std::chrono::weekday{visit.on}.iso_encoding() - 1);
      const ClockSpan hours = visit.crew->hours.at(weekday).front();
      CHECK(visit.drive_minutes + visit.set_up_minutes + visit.work_minutes <= hours.to - hours.from);
      for (const TripTask& task : visit.tasks) seen.insert(task.point);
    }
    for (const NotPossible& one : plan.not_possible) seen.insert(one.point);
    for (const Point& point : plan.list->points) {
      const bool wanted = point.standing != Standing::no_record && point.due_on && *point.due_on <= plan.to;
      CHECK(seen.count(&point) == (wanted ? 1 : 0));
    }
    // Who goes without the van has a plan for both as well, unless what never waits has to wait for the lorry.
    const VisitsPlan lorry = plan_of(place, "2026-07-26", "2026-05-03", {"van"});
    const auto waits = [](const Point& point) { return !never_waits(point); };
    if (lorry.not_possible.empty() && std::all_of(plan.list->points.begin(), plan.list->points.end(), waits)) {
      CHECK(plan.bound <= lorry.total);
      ++compared;
    }
    if (!plan.exact) ++open_ends;
    if (plan.on_own_days.total > plan.total) ++saved;
  }
  CHECK(open_ends > 0);
  CHECK(saved * 3 > worlds);
  CHECK(compared * 12 > worlds);
}

TEST_CASE("of each task is told the cheapest of all other trips that could do it") {
  Texts texts = loader_alone();
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 2 h, late: 100}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 2 h, safety: true, late: 100}\n"
      "  hoses: {do: Look, every: {months: 6}, takes: 90 min, late: 100}\n";
  Estate place(texts);
  // The brakes and the hoses are late, the oil comes due on the 15th; not all of it fits before noon.
  place.done("loader", "engine-oil", "2025-05-15").done("loader", "brakes", "2025-10-20");
  place.done("loader", "hoses", "2025-10-20");
  const VisitsPlan plan = plan_of(place);
  check_sums(plan);
  REQUIRE(plan.visits.size() == 2);
  CHECK(text_of(plan) == "holm 05-04 van: brakes first-day, hoses first-day; holm 05-15 van: engine-oil due-day");
  // A day early, with a trip of its own: 88.00 / 365 and 61.09.
  const auto& oil = plan.visits[1].tasks.front().next_best;
  REQUIRE(oil.has_value());
  CHECK(oil->on == day("2026-05-14"));
  CHECK_FALSE(oil->made);
  CHECK(oil->cost.hundredths == 6109 + 24);
  // With the oil: 100 x (2 x 182 x 12 + 25 x 25 - 13 x 13) / (3 x 182 x 182).
  const auto& hoses = plan.visits[0].tasks.back().next_best;
  REQUIRE(hoses.has_value());
  CHECK(hoses->on == day("2026-05-15"));
  CHECK(hoses->made);
  CHECK(hoses->cost.hundredths == 485);
  CHECK(hoses->crew->key == "van");
  // Work for safety goes nowhere later.
  CHECK_FALSE(plan.visits[0].tasks.front().next_best.has_value());
}
