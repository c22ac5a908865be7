// What a fleet says, read to the right values.
#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"
#include "unit/fleet/texts.h"

namespace {

using namespace service;
using fleet_texts::codes_of;
using fleet_texts::fleet_of;
using fleet_texts::words;

}  // namespace

TEST_CASE("a start is a day or a day with a meter value") {
  struct Row {
    std::string_view written;
    int kind;
    std::string_view on;
    std::string_view at;
  };
  const Row rows[] = {
      {"in-service: 2011-03-01", 1, "2011-03-01", "0"},
      {"in-service: {on: 2011, at: 12.5}", 1, "2011", "12.5"},
      {"in-service: {on: 2011-03}", 1, "2011-03", "0"},
      {"bought: 2020-05-01", 2, "2020-05-01", "none"},
      {"bought: {on: 2020-05-01, at: 4100}", 2, "2020-05-01", "4100"},
      {"serial: 77-1", 0, "1970-01-01", "none"},
  };
  for (const Row& row : rows) {
    const std::string written(row.written);
    CAPTURE(written);
    const Machine machine = fleet_of(fleet_texts::machine_with(written), fleet_texts::one_task).machines.at(0);
    CHECK(static_cast<int>(machine.start.kind) == row.kind);
    CHECK(to_text(machine.start.on) == std::string(row.on));
    CHECK((machine.start.at ? to_text(*machine.start.at) : "none") == std::string(row.at));
  }
}

TEST_CASE("a machine has its own meters, else those of its schedule, else an hour meter") {
  const std::string own =
      fleet_texts::machine_with("meters: {separator: {unit: h}, engine: {unit: h}, bales: {unit: bales}}");
  const Machine machine = fleet_of(own, fleet_texts::one_task).machines.at(0);
  REQUIRE(machine.meters.size() == 3);
  CHECK(machine.first_meter()->name == "separator");
  CHECK(machine.first_hour_meter()->name == "separator");
  CHECK(machine.meter("bales")->unit == "bales");
  CHECK((machine.meter("bale") == nullptr));

  const Machine usual = fleet_of(fleet_texts::one_machine, fleet_texts::one_task).machines.at(0);
  REQUIRE(usual.meters.size() == 1);
  CHECK(usual.meters[0].name == "engine");
  CHECK(usual.meters[0].unit == "h");

  const Machine of_schedule =
      fleet_of(fleet_texts::one_machine,
               "schedule: pump\nmeters: {water: {unit: m3}}\ntasks: {gland: {do: Repack, every: {days: 9}}}\n")
          .machines.at(0);
  REQUIRE(of_schedule.meters.size() == 1);
  CHECK(of_schedule.meters[0].name == "water");
  CHECK((of_schedule.first_hour_meter() == nullptr));

  const Machine without = fleet_of(fleet_texts::machine_with("meters: {}"), fleet_texts::one_task).machines.at(0);
  CHECK(without.meters.empty());
  CHECK((without.first_meter() == nullptr));
}

TEST_CASE("changes of a machine keep apart what is written and what is not") {
  const Fleet fleet = fleet_of(
      fleet_texts::machine_with("change: {gland: {first: {hours: 20}, grace: 5%, positions: [a, b], takes: 1 h, "
                                "parts: {}, fluids: {grease: 0.2 kg}, notes: Odd one}}"),
      fleet_texts::one_task);
  REQUIRE(fleet.machines[0].change.size() == 1);
  const TaskChange& change = fleet.machines[0].change[0];
  CHECK(change.every.empty());
  CHECK(words(change.first) == "hours 20");
  CHECK(change.grace->percent_hundredths.value_or(0) == 500);
  CHECK(change.positions->size() == 2);
  CHECK(change.takes->count() == 60);
  CHECK(change.parts->empty());
  CHECK(change.fluids->at(0).second.unit == "kg");
  CHECK(change.notes.value_or("") == "Odd one");
}

TEST_CASE("sites, crews, travel, costs, parts and calls are read") {
  FleetFiles files = fleet_texts::files_of(R"(fleet: Test farm
currency: GBP
stale-after: 8 weeks
sites:
  workshop: {at: [54.100, -3.200], contact: "Ask at the house"}
  holm: {name: Holm, set-up: 10 min, open: {mon-fri: ["13:00-17:00", "08:00-12:00"], sat: "08:00-12:00"}}
  beck: {closed: [2026-05-04, harvest], access: Gate code, customer: Beck farm}
seasons: {harvest: {from: 08-01, to: 09-20}}
crews:
  van:
    start: workshop
    hours: {mon-thu: "07:30-16:00", fri: "07:30-13:00"}
    duty: 8 h
    qualified-for: [lifting]
    carries: {packing-8: 1.5}
    off: [2026-05-06, 2026-05-07]
    people: 2
    speed: 45.5 km/h
    per-hour: 40
    per-km: 0.45
  second: {name: Second van, start: workshop, end: holm, hours: {sun-tue: "09:00-12:00"}, meal: 30 min}
travel: {road-factor: 1.25, speed: 48 km/h, table: legs.csv}
costs: {hour: 44, km: 0.55, late: 300%, later-trip: 50%}
parts:
  packing-8: {number: 0012, what: Packing, unit: m, pack: 5, price: 14.20, lead-time: 3 weeks, stock: 2, supplier: Mill}
machines: {pump: {schedule: pump, site: beck, left: 2030-01-01}}
calls:
  c-01: {site: beck, do: Hydraulic leak, takes: 60 min, wait: 20, by: 2026-05-08, between: ["08:00-12:30"]}
  c-02:
    {machine: pump, do: Look, takes: 1 h, from: 2026-05-08, by: 2026-05-08, between: "08:00-09:00", safety: true,
     needs: [gas]}
)",
                                           fleet_texts::one_task + "    parts: {packing-8: 0.5}\n");
  files.texts.emplace("legs.csv", "from,to,minutes,km\nholm,beck,12,7.5\n");
  const Fleet fleet = read_fleet(files);
  CHECK(fleet.currency == "GBP");
  CHECK(fleet.stale_after_days == 56);
  CHECK(fleet.sites[0].name == "workshop");
  CHECK(fleet.sites[0].at->longitude == -3'200'000);
  const Site& holm = *fleet.site("holm");
  CHECK(holm.set_up.count() == 10);
  REQUIRE(holm.open.has_value());
  CHECK(holm.open->size() == 6);
  CHECK(holm.open->at(Weekday::wednesday).at(0).from == 8 * 60);
  CHECK(holm.open->at(Weekday::wednesday).at(1).to == 17 * 60);
  CHECK(holm.open->at(Weekday::saturday).size() == 1);
  const Site& beck = *fleet.site("beck");
  CHECK(to_text(beck.closed_on.at(0)) == "2026-05-04");
  CHECK(beck.closed_in.at(0) == "harvest");
  CHECK(beck.customer == "Beck farm");
  const Crew& van = fleet.crews.at(0);
  CHECK(van.name == "van");
  CHECK(van.end == "workshop");
  CHECK(van.hours.size() == 5);
  CHECK(van.hours.at(Weekday::friday).at(0).to == 13 * 60);
  CHECK(van.duty->count() == 480);
  CHECK(van.off.size() == 2);
  CHECK(van.people == 2);
  REQUIRE(van.carries.size() == 1);
  CHECK(van.carries[0].first == "packing-8");
  CHECK(to_text(van.carries[0].second) == "1.5");
  CHECK(to_text(*van.speed) == "45.5");
  CHECK(to_text(*van.per_km) == "0.45");
  const Crew& second = fleet.crews.at(1);
  CHECK(second.end == "holm");
  CHECK(second.meal.count() == 30);
  CHECK(second.hours.count(Weekday::sunday) + second.hours.count(Weekday::monday) +
            second.hours.count(Weekday::tuesday) ==
        3);
  CHECK(second.hours.size() == 3);
  REQUIRE(fleet.travel.has_value());
  CHECK(to_text(fleet.travel->road_factor) == "1.25");
  CHECK(to_text(fleet.travel->speed) == "48");
  CHECK(fleet.travel->table == "legs.csv");
  CHECK(fleet.travel->rows.size() == 1);
  CHECK(to_text(*fleet.costs.km) == "0.55");
  CHECK(fleet.costs.late_percent.value_or(0) == 300);
  CHECK(fleet.costs.later_trip_percent.value_or(0) == 50);
  const Part& part = fleet.parts.at(0);
  CHECK(part.number == "0012");
  CHECK(part.lead_days.value_or(0) == 21);
  CHECK(to_text(*part.price) == "14.2");
  CHECK(to_text(*part.stock) == "2");
  CHECK(part.supplier == "Mill");
  const Call& call = fleet.calls.at(0);
  CHECK(call.site == "beck");
  CHECK(call.takes.count() == 60);
  CHECK(to_text(*call.wait) == "20");
  CHECK(call.between.at(0).to == 12 * 60 + 30);
  CHECK(fleet.calls.at(1).safety);
  CHECK(fleet.calls.at(1).needs.at(0) == "gas");
  CHECK(to_text(*fleet.machines.at(0).left) == "2030-01-01");
  CHECK(fleet.remarks.empty());
}

TEST_CASE("order is the order in which things were written") {
  const Fleet fleet = fleet_of(
      "fleet: Test farm\nsites: {zoo: {}, abbey: {}, mill: {}}\nmachines:\n  zeta: {schedule: pump}\n  alpha: "
      "{schedule: pump}\n",
      "schedule: pump\ntasks:\n  zinc: {do: Z, every: {days: 1}}\n  anode: {do: A, every: {days: 1}}\n",
      "schedule,machine\npump,mid\npump,beta\n");
  std::string order;
  for (const Site& site : fleet.sites) order += site.key + ' ';
  for (const Machine& machine : fleet.machines) order += machine.key + ' ';
  for (const Task& task : fleet.schedules[0].tasks) order += task.name + ' ';
  CHECK(order == "zoo abbey mill zeta alpha mid beta zinc anode ");
}

TEST_CASE("look-ups follow a fleet that was copied or changed by hand") {
  Fleet fleet = fleet_of(fleet_texts::one_machine, fleet_texts::one_task);
  Fleet copy = fleet;
  copy.machines[0].key = "dryer";
  CHECK((copy.machine("pump") == nullptr));
  copy.machines.push_back(fleet.machines[0]);
  CHECK((copy.machine("pump") == &copy.machines[1]));
  CHECK((copy.machine("dryer") == &copy.machines[0]));
  CHECK((fleet.machine("pump") == &fleet.machines[0]));
  Fleet by_hand;
  by_hand.machines.push_back(fleet.machines[0]);
  CHECK((by_hand.machine("pump") == &by_hand.machines[0]));
  CHECK_THROWS_AS(by_hand.schedule_of(by_hand.machines[0]), Failure);
}

TEST_CASE("one broken file does not bring down complaints about what is in it") {
  CHECK(codes_of(fleet_texts::one_machine, "schedule: pump\ntasks: [\n") == "bad-yaml");
  CHECK(codes_of("fleet: [\n", fleet_texts::one_task, "machine,schedule,site\npump,pump,yard\n") == "bad-yaml");
  CHECK(codes_of("fleet: Test farm\nsites: 5\nmachines: {pump: {schedule: pump, site: yard}}\n",
                 fleet_texts::one_task) == "not-a-map");
}
