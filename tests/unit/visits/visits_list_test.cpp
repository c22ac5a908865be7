// A plan of visits as it is told: of the fleet, of a site, of some machines; cut short; and what is said beside it.
#include "service/visits_list.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "unit/visits/estate.h"

using namespace service;
using estate::Estate;
using estate::names_of;
using estate::Texts;
using test::day;

namespace {

VisitsList told_of(const Estate& place, const Scope& scope = {}, std::string_view to = "2026-05-17") {
  return visits_list(place.world.snapshot("2026-05-03"), straight_line(), {day(to)}, scope);
}

// `holm 05-04: loader engine-oil, loader brakes`
std::string text_of(const VisitsList& list) {
  std::string text;
  for (const SiteVisit& visit : list.plan.visits) {
    text += (text.empty() ? "" : "; ") + visit.site->key + ' ' + to_text(visit.on).substr(5) + ':';
    for (const TripTask& task : visit.tasks) text += ' ' + task.point->machine->key + ' ' + task.point->name + ',';
    text.pop_back();
  }
  return text;
}

Scope machines(std::vector<std::string> keys) { return {std::move(keys)}; }

// Two loaders at one site, the second with less to do.
Texts two_loaders() {
  Texts texts;
  texts.machines += "  second: {name: Second, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  return texts;
}

Estate two_served() {
  Estate place(two_loaders());
  place.usual().done("second", "engine-oil", "2026-04-20").done("second", "brakes", "2025-11-10");
  return place;
}

std::string keys_of(const std::vector<const Site*>& sites) {
  std::string keys;
  for (const Site* site : sites) keys += site->key + ' ';
  return keys;
}

}  // namespace

TEST_CASE("calls are in no visit, and named beside them") {
  Texts texts;
  texts.calls =
      "  a: {site: workshop, do: Look, takes: 10 min, safety: true}\n  b: {machine: pump, do: Look, takes: 10 min}\n"
      "  c: {site: holm, do: Look, takes: 10 min, from: 2026-05-18}\n";
  const Estate place(texts);
  const auto calls = [](const VisitsList& list) {
    std::string keys;
    for (const Call* call : list.calls) keys += call->key + ' ';
    return keys;
  };
  CHECK(calls(told_of(place)) == "a b ");
  CHECK(calls(told_of(place, machines({"pump"}))) == "b ");
  CHECK(calls(told_of(place, machines({"loader"}))) == "");
  const VisitsList workshop = told_of(place, scope_of_site(place.world.fleet(), "workshop"));
  CHECK(calls(workshop) == "a ");
  CHECK(needs_doing(workshop));
  REQUIRE(workshop.asked->gaps.size() == 1);
  CHECK(workshop.asked->gaps[0].say == "the fleet lists no machine at workshop");
}

TEST_CASE("of a site is planned and told what is its own") {
  const Estate place = two_served();
  const VisitsList all = told_of(place);
  CHECK(text_of(all) == "holm 05-04: loader engine-oil, loader brakes, second brakes; beck 05-05: pump gland");
  CHECK(all.visits == 2);
  CHECK(all.tasks == 4);
  CHECK(all.sites.empty());
  const VisitsList holm = told_of(place, scope_of_site(place.world.fleet(), "holm"));
  CHECK(text_of(holm) == "holm 05-04: loader engine-oil, loader brakes, second brakes");
  CHECK(keys_of(holm.sites) == "holm ");
  CHECK(holm.plan.trips.hundredths == 6109);
  CHECK(holm.plan.not_possible.empty());
  CHECK(all.plan.not_possible.size() == 1);
  CHECK(names_of(holm.plan.no_record) == "hoist rope");
  for (const Gap& gap : holm.asked->gaps) CHECK(gap.machine != "pump");
}

TEST_CASE("of a machine are told the visits to it, whole, out of the plan of its site") {
  const Estate place = two_served();
  const VisitsList second = told_of(place, machines({"second"}));
  CHECK(text_of(second) == "holm 05-04: loader engine-oil, loader brakes, second brakes");
  CHECK(keys_of(second.sites) == "holm ");
  CHECK(second.plan.total == told_of(place, scope_of_site(place.world.fleet(), "holm")).plan.total);
  CHECK(second.plan.no_record.empty());  // the hoist's
  for (const Gap& gap : second.asked->gaps) CHECK(gap.machine == "second");
  // Its parts, with all that is done on that day.
  CHECK(second.plan.visits.front().parts.size() == 1);

  const VisitsList hoist = told_of(place, machines({"hoist"}));
  CHECK(hoist.told == 0);
  CHECK(hoist.visits == 1);
  CHECK(names_of(hoist.plan.no_record) == "hoist rope");
  const VisitsList both = told_of(place, machines({"pump", "second"}));
  CHECK(keys_of(both.sites) == "holm beck ");
  CHECK(both.told == 2);
  CHECK(both.plan.not_possible.size() == 1);
}

TEST_CASE("a machine at no site is told to have none") {
  Texts texts;
  texts.machines += "  stray: {name: Stray, schedule: tractor, in-service: {on: 2020-03-01, at: 0}}\n";
  Estate place(texts);
  place.usual().done("stray", "engine-oil", "2025-04-20").done("stray", "brakes", "2026-04-20");
  const VisitsList stray = told_of(place, machines({"stray"}));
  CHECK(stray.sites.empty());
  CHECK(stray.plan.visits.empty());
  REQUIRE(stray.plan.not_planned.size() == 1);
  CHECK((stray.plan.not_planned.front().reason == NotPlannedReason::no_site));
  CHECK(needs_doing(stray));
}

TEST_CASE("a plan is cut by visits and rows, its sums stay, and what never waits is not cut") {
  Texts texts;
  texts.pump +=
      "  valve: {do: Test the valve, every: {months: 12}, takes: 50 min, needs: [pressure]}\n"
      "  wall: {do: Examine the wall, every: {months: 12}, takes: 50 min, needs: [pressure], safety: true}\n";
  Estate place(texts);
  place.usual().done("pump", "valve", "2025-05-02").done("pump", "wall", "2025-05-03");
  VisitsList list = told_of(place);
  const Money total = list.plan.total;
  REQUIRE(list.plan.visits.size() == 2);
  REQUIRE(list.plan.not_possible.size() == 3);
  keep_first(list, 1);
  CHECK(list.plan.visits.size() == 1);
  CHECK(list.plan.not_possible.size() == 2);  // the wall, and the first of the others
  CHECK(list.left_off == 2);
  CHECK(list.told == 2);
  CHECK(list.plan.total == total);
}

TEST_CASE("work that has its day is no reason to see to anything, and work that has none is") {
  Estate place(estate::loader_alone());
  place.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-06");
  CHECK_FALSE(told_of(place).plan.visits.empty());
  CHECK_FALSE(needs_doing(told_of(place)));
  place.world.put_off("engine-oil", "2026-05-01", "2026-08-01").machine = "loader";
  CHECK(needs_doing(told_of(place)));
}

TEST_CASE("what is seen of a machine is told at the visit, with the cautions of all that it may be about") {
  Texts texts = two_loaders();
  texts.tractor += "  belt: {do: Renew the belt, every: {months: 60}, cautions: [shafts-and-belts]}\n";
  Estate place(texts);
  place.usual().done("second", "brakes", "2025-11-10").world.sign("odd noise", "2026-05-01").machine = "second";
  const VisitsList list = told_of(place, machines({"second"}));
  REQUIRE(list.plan.visits.size() == 1);
  const SiteVisit& visit = list.plan.visits.front();
  REQUIRE(visit.seen.size() == 1);
  CHECK(visit.seen.front()->sign == "odd noise");
  CHECK(std::count(visit.cautions.begin(), visit.cautions.end(), "shafts-and-belts") == 1);
  CHECK(list.seen.size() == 1);
  // Also where only the other machine of the site was asked about, for whoever goes there meets both; not elsewhere.
  CHECK(told_of(place, machines({"loader"})).seen.size() == 1);
  CHECK(told_of(place, machines({"pump"})).seen.empty());
}

TEST_CASE("what comes round again in the span is planned once, and named") {
  Texts texts;
  texts.tractor += "  grease: {do: Grease it, every: {weeks: 3}, takes: 10 min}\n";
  Estate place(texts);
  place.usual().done("loader", "grease", "2026-04-20");
  CHECK(told_of(place).again.empty());
  const VisitsList list = told_of(place, {}, "2026-06-28");
  CHECK(names_of(list.again) == "loader grease");
  int times = 0;
  for (const SiteVisit& visit : list.plan.visits) {
    for (const TripTask& task : visit.tasks) times += task.point->name == "grease" ? 1 : 0;
  }
  CHECK(times == 1);
}

TEST_CASE("a crew with more trips on a day than it has hours is named, with both") {
  Texts texts;
  texts.tractor = "  engine-oil: {do: Change it, every: {months: 12}, takes: 220 min}\n";
  texts.pump = "  gland: {do: Repack it, every: {months: 6}, takes: 4 h}\n";
  texts.sites.replace(texts.sites.find("closed: [2026-05-04, harvest]"), 29, "closed: [harvest]");
  Estate place(texts);
  place.done("loader", "engine-oil", "2025-04-20").done("pump", "gland", "2025-10-20");
  const VisitsList list = told_of(place);
  CHECK(text_of(list) == "holm 05-04: loader engine-oil; beck 05-04: pump gland");
  REQUIRE(list.crowded.size() == 1);
  const CrowdedDay& crowded = list.crowded.front();
  CHECK(crowded.crew->key == "van");
  CHECK(crowded.on == day("2026-05-04"));
  CHECK(keys_of(crowded.sites) == "holm beck ");
  CHECK(crowded.trips == 2);
  CHECK(crowded.minutes == 46 + 10 + 220 + 44 + 15 + 240);
  CHECK(crowded.has_minutes == 480);
  CHECK(told_of(two_served()).crowded.empty());
  // Of one site nobody knows where else the crew is wanted.
  CHECK(told_of(place, scope_of_site(place.world.fleet(), "beck")).crowded.empty());
}

TEST_CASE("work for safety after its due day keeps its machine out of use until then") {
  Texts texts;
  texts.tractor += "  horn: {do: Try the horn, every: {months: 6}, takes: 5 min, safety: true}\n";
  texts.pump += "  wall: {do: Examine it, every: {months: 12}, needs: [pressure], safety: true}\n";
  Estate place(texts);
  place.usual().done("loader", "horn", "2025-10-20").done("pump", "wall", "2025-05-10");
  const VisitsList list = told_of(place);
  int kept = 0;
  for (const TripTask& task : list.plan.visits.front().tasks) {
    CHECK(keep_out_of_use(task) == (task.point->name == "horn"));
    kept += keep_out_of_use(task) ? 1 : 0;
  }
  CHECK(kept == 1);
  REQUIRE(list.plan.not_possible.size() == 2);
  for (const NotPossible& out : list.plan.not_possible) CHECK(keep_out_of_use(out) == (out.point->name == "wall"));
}

TEST_CASE("what a task takes is its own, and nothing where another includes it") {
  Texts texts;
  texts.tractor =
      "  big: {do: Do all, every: {months: 12}, takes: 2 h, covers: [brakes], parts: {kit: 1}}\n"
      "  brakes: {do: Look at the brakes, every: {months: 6}, takes: 40 min, parts: {pad: 2}}\n";
  Estate place(texts);
  place.done("loader", "brakes", "2025-11-04").done("loader", "big", "2025-05-15");
  const VisitsList list = told_of(place, machines({"loader"}));
  REQUIRE(list.plan.visits.size() == 1);
  const auto& tasks = list.plan.visits.front().tasks;
  REQUIRE(tasks.size() == 2);
  CHECK(takes_of(tasks[0]).time->count() == 0);
  CHECK(takes_of(tasks[0]).parts.empty());
  CHECK(takes_of(tasks[1]).time->count() == 120);
  CHECK(takes_of(tasks[1]).parts.size() == 1);
}

TEST_CASE("what the visits load is taken from stock in the order of the plan") {
  VisitsList list = told_of(two_served());
  PartsList parts;
  parts.as_of = day("2026-05-03");
  Part known;
  known.lead_days = 5;
  parts.needs = {estate::need_of_filters(known, 0, "2026-05-04")};
  hold_against_stock(list, parts);
  std::vector<std::pair<const SiteVisit*, const TripTask*>> takers;
  for (const SiteVisit& visit : list.plan.visits) {
    for (const TripTask& task : visit.tasks) {
      if (takes_of(task).parts.empty()) {
        CHECK(lacks_of(list, task).empty());
        continue;
      }
      takers.emplace_back(&visit, &task);
      REQUIRE(lacks_of(list, task).size() == 1);
      CHECK(lacks_of(list, task)[0].short_by == PartAmount::units(1));
      CHECK((lacks_of(list, task)[0].short_on == visit.on));
    }
  }
  REQUIRE(!takers.empty());
  REQUIRE(list.short_parts.size() == 1);
  CHECK(list.short_parts[0].short_by == PartAmount::units(static_cast<std::int64_t>(takers.size())));
  CHECK(list.short_parts[0].short_on == takers.front().first->on);
  CHECK(lacks_of(list, *takers.front().first).size() == 1);
  // What is there goes to the first.
  parts.needs.front().stock = PartAmount::units(1);
  hold_against_stock(list, parts);
  CHECK(lacks_of(list, *takers.front().second).empty());
  CHECK(list.short_parts.size() == (takers.size() > 1 ? 1 : 0));
  parts.needs.front().stock = PartAmount::units(static_cast<std::int64_t>(takers.size()));
  hold_against_stock(list, parts);
  CHECK(list.short_parts.empty());
}

TEST_CASE("of a machine that is laid up is told that, and not that it is not known when its work comes due") {
  Texts texts;
  texts.tractor =
      "  engine-oil: {do: Change the oil, every: {hours: 500, months: 24}, takes: 50 min}\n"
      "  filter: {do: Renew it, every: {changes: {engine-oil: 3}, months: 4}, takes: 10 min}\n"
      "meters: {engine: {unit: h}}\n";
  Estate place(texts);
  place.done("loader", "engine-oil", "2026-01-10").done("loader", "filter", "2026-01-10");
  for (const auto& [on, shown] : {std::pair{"2026-01-10", "100"}, std::pair{"2026-04-10", "190"}}) {
    place.world.reading(on, shown).machine = "loader";
  }
  Fact laid_up;
  laid_up.kind = FactKind::laid_up;
  laid_up.machine = "loader";
  laid_up.on = test::span("2026-05-01");
  place.world.add(laid_up);
  const VisitsList list = told_of(place);
  const auto& points = list.plan.list->points;
  const auto oil =
      std::find_if(points.begin(), points.end(), [](const Point& point) { return point.name == "engine-oil"; });
  REQUIRE((oil != points.end()));
  CHECK(unforeseen(*oil));
  CHECK(oil->due_on.has_value());
  for (const PointName& point : list.plan.unknown) CHECK(point.machine->key != "loader");
}

TEST_CASE("of a machine at which two crews work on one day each is told of the other, also where one is cut") {
  Texts texts;
  texts.machines = "  pump: {name: Pump, schedule: pump, site: beck, in-service: {on: 2021-03-01, at: 0}}\n";
  texts.pump =
      "  gland: {do: Repack it, every: {months: 6}, takes: 6 h, safety: true, needs: [lifting]}\n"
      "  relief: {do: Test it, every: {months: 12}, takes: 50 min, safety: true, needs: [pressure]}\n";
  texts.crews += "  lorry: {start: workshop, hours: {tue: \"07:30-16:00\"}, qualified-for: [pressure]}\n";
  Estate place(texts);
  place.done("pump", "gland", "2025-10-20").done("pump", "relief", "2025-05-01");
  VisitsList list = told_of(place);
  REQUIRE(list.plan.visits.size() == 2);
  for (const SiteVisit& visit : list.plan.visits) {
    CHECK(visit.on == day("2026-05-05"));
    REQUIRE(visit.shared.size() == 1);
    CHECK(visit.shared[0].machine->key == "pump");
    REQUIRE(visit.shared[0].others.size() == 1);
    CHECK(visit.shared[0].others[0] != visit.crew);
  }
  keep_first(list, 1);
  REQUIRE(list.plan.visits.size() == 1);
  CHECK(list.plan.visits[0].shared.size() == 1);
  for (const SiteVisit& visit : told_of(two_served()).plan.visits) CHECK(visit.shared.empty());
}

namespace {

// What is lacking where no filter is in stock: the second trip is to load one and does not find it.
LackingWork without_filters(VisitsList& list) {
  const Part filter;
  PartsList parts;
  parts.as_of = day("2026-05-03");
  parts.needs.push_back(estate::need_of_filters(filter, 0, "2026-05-05"));
  hold_against_stock(list, parts);
  CHECK(lacks_of(list, list.plan.visits[0]).empty());
  CHECK(lacks_of(list, list.plan.visits[1]).size() == 1);
  return lacking_work(list.loads);
}

}  // namespace

TEST_CASE("what a trip uses of what a crew always carries is to load with its next one") {
  Texts texts;
  texts.pump.replace(texts.pump.find("late: 380"), 9, "late: 380, parts: {oil-filter-a: 1}");
  texts.crews.replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 1}, duty");
  Estate place(texts);
  place.usual();
  VisitsList list = told_of(place);
  REQUIRE(list.plan.visits.size() == 2);
  CHECK(list.carried);
  // The loader's filter is on board; the pump's is beside it again, for it is loaded before.
  CHECK(list.plan.visits[0].parts.empty());
  REQUIRE(list.plan.visits[1].parts.size() == 1);
  CHECK(list.plan.visits[1].parts[0].second == PartAmount::units(1));
  CHECK((list.plan.visits[1].fills_up == list.plan.visits[1].parts));
  // Of one site alone: the same trip with the same load.
  const VisitsList beck = told_of(place, scope_of_site(place.world.fleet(), "beck"));
  REQUIRE(beck.plan.visits.size() == 1);
  CHECK((beck.plan.visits[0].fills_up == list.plan.visits[1].fills_up));
  // Nobody has one for the pump where there is none to fill up with.
  CHECK(without_filters(list).visits == 1);
}

TEST_CASE("what fills up a van is held against stock with the trip that loads it, and no work waits for it") {
  Texts texts;
  texts.crews.replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 1}, duty");
  Estate place(texts);
  place.usual();
  VisitsList list = told_of(place);
  REQUIRE(list.plan.visits.size() == 2);
  CHECK((list.plan.visits[1].fills_up == list.plan.visits[1].parts));
  std::size_t filling_up = 0;
  for (const PlannedLoad& load : list.loads) {
    if (load.what != LoadFor::filling_up) continue;
    ++filling_up;
    CHECK(load.told);
    CHECK((load.on == list.plan.visits[1].on));
  }
  CHECK(filling_up == 1);
  const LackingWork work = without_filters(list);
  CHECK(work.visits == 0);
  CHECK(work.fills_up_late);
}
