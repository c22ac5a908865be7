// Usage limbs find their meters. `hours: 250` means the first meter in h, which differs from machine to machine, so
// each limb of a schedule is tried on every machine that follows it; it is complained about once.
#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "fleet/draft.h"

namespace service::fleet {
namespace {

// A set of meters on which a schedule's limbs are tried, and whose it is.
struct Carrier {
  const std::vector<Meter>* meters;
  std::string whose;  // "the machine `pump-3`"
};

const Meter* meter_for(const MeterUse& use, const std::vector<Meter>& meters) {
  const auto found = std::find_if(meters.begin(), meters.end(), [&](const Meter& meter) {
    return use.meter.empty() ? meter.unit == "h" : meter.name == use.meter;
  });
  return found == meters.end() ? nullptr : &*found;
}

std::vector<std::string> meter_names(const std::vector<Meter>& meters) {
  std::vector<std::string> names;
  for (const Meter& meter : meters) names.push_back(meter.name);
  return names;
}

std::string meters_of(const Carrier& carrier) {
  if (carrier.meters->empty()) return fmt::format("{} has no meters", carrier.whose);
  return fmt::format("the meters of {} are {}", carrier.whose, listed(meter_names(*carrier.meters), "and"));
}

void complain_missing(const MeterUse& use, const Carrier& carrier, Diagnostics& diagnostics) {
  if (use.meter.empty()) {
    diagnostics.error(code::no_hour_meter, use.spot, fmt::format("{} has no meter in h", carrier.whose),
                      "name another meter under `usage:`, or give it a meter with `unit: h` under `meters:`");
  } else {
    diagnostics.error(code::unknown_meter, use.spot,
                      fmt::format("{} has no meter `{}`", carrier.whose, cleaned(use.meter)),
                      nearest_or(use.meter, meter_names(*carrier.meters), meters_of(carrier)));
  }
}

void check_uses(const std::vector<MeterUse>& uses, const std::vector<Carrier>& carriers, Diagnostics& diagnostics) {
  for (std::size_t i = 0; i < uses.size(); ++i) {
    const MeterUse& use = uses[i];
    for (const Carrier& carrier : carriers) {
      const Meter* const meter = meter_for(use, *carrier.meters);
      if (meter == nullptr) {
        complain_missing(use, carrier, diagnostics);
        break;
      }
      const auto end = uses.begin() + static_cast<std::ptrdiff_t>(i);
      const bool twice = std::any_of(uses.begin(), end, [&](const MeterUse& other) {
        return other.interval == use.interval && meter_for(other, *carrier.meters) == meter;
      });
      if (twice) {
        diagnostics.error(
            code::same_meter_twice, use.spot,
            fmt::format("two limits of one interval are on the meter `{}` of {}", meter->name, carrier.whose),
            "keep one of the two");
        break;
      }
    }
  }
}

using ByName = std::unordered_map<std::string, const ScheduleDraft*>;

const std::vector<Meter>* meters_of(const MachineDraft& machine, const ByName& schedules) {
  if (machine.own_meters) return &machine.machine.meters;
  const auto found = schedules.find(machine.machine.schedule);
  return found == schedules.end() ? nullptr : &found->second->schedule.meters;
}

std::string called(const MachineDraft& machine) {
  return fmt::format("the machine `{}`", cleaned(machine.machine.key));
}

void check_start(const MachineDraft& machine, const std::vector<Meter>& meters, Diagnostics& diagnostics) {
  if (!machine.start_at || !meters.empty()) return;
  diagnostics.error(code::unknown_meter, *machine.start_at,
                    fmt::format("{} has no meter that could show this", called(machine)),
                    "leave it out, or give the machine a meter under `meters:`");
}

bool exists_anywhere(const std::string& meter, const Draft& draft) {
  const auto among = [&](const std::vector<Meter>& meters) {
    return std::any_of(meters.begin(), meters.end(), [&](const Meter& one) { return one.name == meter; });
  };
  return std::any_of(draft.schedules.begin(), draft.schedules.end(),
                     [&](const ScheduleDraft& schedule) { return among(schedule.schedule.meters); }) ||
         std::any_of(draft.machines.begin(), draft.machines.end(),
                     [&](const MachineDraft& machine) { return among(machine.machine.meters); });
}

}  // namespace

void check_meters(const Draft& draft, Diagnostics& diagnostics) {
  ByName schedules;
  for (const ScheduleDraft& schedule : draft.schedules) schedules.emplace(schedule.schedule.name, &schedule);

  std::unordered_map<std::string, std::vector<Carrier>> carriers;
  std::unordered_map<std::string, bool> followed_as_it_is;
  for (const MachineDraft& machine : draft.machines) {
    const std::vector<Meter>* const meters = meters_of(machine, schedules);
    if (meters == nullptr) continue;
    check_start(machine, *meters, diagnostics);
    for (const ChangeDraft& change : machine.changes) {
      check_uses(change.limbs.meters, {{meters, called(machine)}}, diagnostics);
    }
    // Machines without meters of their own are all alike: one of them speaks for all.
    if (machine.own_meters || followed_as_it_is.emplace(machine.machine.schedule, true).second) {
      carriers[machine.machine.schedule].push_back({meters, called(machine)});
    }
  }
  for (const ScheduleDraft& schedule : draft.schedules) {
    std::vector<Carrier>& on = carriers[schedule.schedule.name];
    if (on.empty()) on.push_back({&schedule.schedule.meters, fmt::format("the schedule `{}`", schedule.schedule.name)});
    for (const TaskDraft& task : schedule.tasks) check_uses(task.limbs.meters, on, diagnostics);
  }
  for (const Mention& meter : draft.grace_meters) {
    if (exists_anywhere(meter.name, draft) || !draft.unread_schedules.empty()) continue;
    diagnostics.error(code::unknown_meter, meter.spot, fmt::format("no machine has a meter `{}`", cleaned(meter.name)),
                      "name a meter of a machine or of a schedule");
  }
}

}  // namespace service::fleet
