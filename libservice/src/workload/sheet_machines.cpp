#include "workload/sheet_machines.h"

#include "service/usage.h"

namespace service::load {

std::vector<SheetMeter> meters_of(const Snapshot& snapshot, const Machine& machine, const std::vector<Gap>& gaps) {
  const Histories histories = meter_histories(snapshot, machine);
  std::vector<SheetMeter> meters;
  for (const Meter& meter : machine.meters) {
    SheetMeter entry{&meter, std::nullopt, std::nullopt};
    for (const Gap& gap : gaps) {
      if (gap.machine == machine.key && gap.meter == meter.name) entry.gaps.push_back(&gap);
    }
    const auto history = histories.find(meter.name);
    if (history != histories.end() && history->second.last_known()) {
      const KnownUsage& last = *history->second.last_known();
      entry.shown = history->second.shown_at(last.usage);
      entry.on = last.day;
    }
    meters.push_back(entry);
  }
  return meters;
}

std::vector<const Machine*> by_site(const Fleet& fleet, const Scope& scope, Day on) {
  std::vector<const Machine*> machines;
  const auto add = [&](std::string_view site) {
    for (const Machine& machine : fleet.machines) {
      if (machine.site == site && scope.holds(machine.key) && kept_on(machine, on)) machines.push_back(&machine);
    }
  };
  for (const Site& site : fleet.sites) add(site.key);
  add("");
  return machines;
}

}  // namespace service::load
