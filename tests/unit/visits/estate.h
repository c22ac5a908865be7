// A week at a small estate: one van, three sites, a loader, a pump and a hoist, and a customer's call.
#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <string_view>

#include "routing/timing.h"
#include "service/rounds.h"
#include "support/world.h"
#include "visits/plan_made.h"
#include "visits/problem_of.h"

namespace estate {

using service::Day;
using test::day;

// Texts that a test replaces before the fleet is read.
struct Texts {
  std::string sites =
      "  workshop: {name: Workshop, at: [54.100, 3.200]}\n"
      "  holm: {name: Holm, at: [54.190, 3.350], set-up: 10 min, open: {mon-fri: [\"08:00-12:00\", \"13:00-17:00\"]}}\n"
      "  beck: {name: Beck, at: [54.020, 3.050], set-up: 15 min, closed: [2026-05-04, harvest]}\n";
  std::string seasons = "{harvest: {from: 08-01, to: 09-20}}";
  std::string crews =
      "  van: {name: Van, start: workshop, hours: {mon-thu: \"07:30-16:00\", fri: \"07:30-13:00\"}, duty: 8 h, "
      "qualified-for: [lifting], off: [2026-05-06, 2026-05-07, 2026-05-08]}\n";
  std::string travel = "{road-factor: 1.3, speed: 48 km/h}";
  std::string costs = "{hour: 44, km: 0.55}";
  std::string calls =
      "  c-01: {site: beck, do: Hydraulic leak, takes: 60 min, wait: 20, by: 2026-05-08, between: [\"08:00-12:30\"]}\n";
  std::string machines =
      "  loader: {name: Loader, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n"
      "  pump: {name: Pump, schedule: pump, site: beck, in-service: {on: 2021-03-01, at: 0}}\n"
      "  hoist: {name: Hoist, schedule: hoist, site: holm, bought: {on: 2026-03-20, at: 0}}\n";
  std::string tractor =
      "  engine-oil: {do: Change the oil, every: {months: 12}, takes: 50 min, parts: {oil-filter-a: 1}, "
      "fluids: {engine-oil-15w40: 11.5 L}, cautions: [hot-fluid]}\n"
      "  brakes: {do: Look at the brakes, every: {months: 6}, takes: 40 min}\n";
  std::string pump =
      "  gland: {do: Repack the gland, every: {months: 6}, takes: 40 min, late: 380}\n"
      "  relief: {do: Test the relief valve, every: {months: 12}, takes: 50 min, late: 900, needs: [pressure]}\n";
  std::string table = {};  // of ways; empty: none
};

inline service::FleetFiles files_of(const Texts& texts) {
  service::FleetFiles files;
  files.texts["fleet.yaml"] = "fleet: Skarvey estate\ncurrency: GBP\nsites:\n" + texts.sites +
                              "seasons: " + texts.seasons + "\ncrews:\n" + texts.crews + "travel: " + texts.travel +
                              "\ncosts: " + texts.costs +
                              "\nparts: {oil-filter-a: {price: 14.20}, engine-oil-15w40: {price: 4.10}}\nmachines:\n" +
                              texts.machines + (texts.calls.empty() ? "" : "calls:\n" + texts.calls);
  files.texts["schedules/tractor.yaml"] = "schedule: tractor\ntasks:\n" + texts.tractor;
  files.texts["schedules/pump.yaml"] = "schedule: pump\ntasks:\n" + texts.pump;
  files.texts["schedules/hoist.yaml"] =
      "schedule: hoist\ntasks:\n  rope: {do: Look at the rope, every: {months: 12}, takes: 30 min}\n";
  if (!texts.table.empty()) files.texts["travel.csv"] = texts.table;
  return files;
}

// The estate with what was done at it.
class Estate {
 public:
  explicit Estate(const Texts& texts = {}) : world(files_of(texts)) {}

  Estate& done(std::string_view machine, std::string_view task, std::string_view on) {
    world.done(task, on).machine = machine;
    return *this;
  }
  // As the worked example has it.
  Estate& usual() {
    done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-06");
    return done("pump", "gland", "2025-10-20").done("pump", "relief", "2025-05-01");
  }

  service::Week week(service::WeekAsk ask, std::string_view as_of = "2026-05-03") const {
    const auto snapshot = world.snapshot(as_of);
    auto list = std::make_shared<service::DueList>(
        service::due_list(snapshot, {service::week_horizon(world.fleet(), ask)}, service::straight_line()));
    return service::week_of_work(snapshot, std::move(list), ask);
  }
  service::Week week(std::string_view from = "2026-05-04") const { return week(service::WeekAsk{day(from)}); }

  test::World world;
};

inline std::size_t visit_named(const service::Week& week, std::string_view name) {
  const auto found = std::find_if(week.visits.begin(), week.visits.end(),
                                  [&](const service::Visit& visit) { return visit.name == name; });
  REQUIRE_MESSAGE((found != week.visits.end()), std::string(name));
  return static_cast<std::size_t>(found - week.visits.begin());
}

inline std::string names_of(const service::Week& week) {
  std::string names;
  for (const service::Visit& visit : week.visits) names += (names.empty() ? "" : ", ") + visit.name;
  return names;
}

inline std::string names_of(const std::vector<service::PointName>& points) {
  std::string names;
  for (const service::PointName& point : points) {
    names += (names.empty() ? "" : ", ") + point.machine->key + ' ' + service::point_label(point.task, point.position);
  }
  return names;
}

// The plan with these visits on these crew-days, in that order; all others are not made. As if it were the best.
inline service::RoundsPlan by_hand(const service::Week& week,
                                   const std::vector<std::vector<std::string_view>>& routes) {
  const auto of = service::visits::problem_of(week);
  service::routing::Solution solution;
  solution.plan.resize(week.crew_days.size());
  for (std::size_t d = 0; d < routes.size(); ++d) {
    for (const std::string_view name : routes[d]) {
      const auto job = std::find(of.visits.begin(), of.visits.end(), visit_named(week, name));
      REQUIRE((job != of.visits.end()));
      solution.plan[d].push_back(static_cast<int>(job - of.visits.begin()));
    }
  }
  solution.value = service::routing::value_of(of.problem, solution.plan);
  solution.bound = solution.value;
  return service::visits::plan_of(week, of, solution);
}

inline std::string clock(int minutes) {
  const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
  return two(minutes / 60) + ':' + two(minutes % 60);
}

}  // namespace estate
