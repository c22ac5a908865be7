// The files of a small estate: one van, three sites, a loader, a pump and a hoist, and a customer's call.
#pragma once

#include <string>

#include "service/fleet.h"

namespace estate {

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

}  // namespace estate
