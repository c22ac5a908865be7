#include "entry/first_values.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

#include "entry/added_ids.h"
#include "service/usage.h"

namespace service {
namespace {

// Common practice, no source: the figures are ours. A decimal point left out makes ten times of a value; that of a
// machine half as old as the oldest of its kind is then five times what that one has run. Three leaves room for more,
// and for machines that are older than all others of the book.
constexpr std::int64_t far_more = 3;
constexpr std::chrono::hours by_day_and_night{24 * 3652};  // ten years of it, where no other of the kind was read

struct Used {
  const Machine* machine = nullptr;
  Amount usage;
};

// Of each kind and meter the two machines that have run most: one of them is another than the one asked about. A file
// may bring a fleet of first values, so a kind is gone through once.
class MostUsed {
 public:
  explicit MostUsed(const Snapshot& snapshot) : snapshot_(snapshot) {}

  Used but(const Machine& machine, const Meter& meter) {
    const auto [at, is_new] = most_.try_emplace({machine.schedule, meter.name, meter.unit});
    if (is_new) at->second = most_of(machine.schedule, meter);
    const auto& [most, next] = at->second;
    return most.machine == &machine ? next : most;
  }

 private:
  using Two = std::pair<Used, Used>;

  Two most_of(const std::string& schedule, const Meter& meter) const {
    Two most;
    for (const Machine& machine : snapshot_.fleet().machines) {
      const Meter* same = machine.schedule == schedule ? machine.meter(meter.name) : nullptr;
      if (same == nullptr || same->unit != meter.unit) continue;
      const MeterHistory history(machine, *same, snapshot_.facts_of(machine.key));
      if (!history.read() || !history.last_known()) continue;
      const Used used{&machine, history.last_known()->usage};
      if (most.first.machine == nullptr || used.usage > most.first.usage) {
        most = {used, most.first};
      } else if (most.second.machine == nullptr || used.usage > most.second.usage) {
        most.second = used;
      }
    }
    return most;
  }

  const Snapshot& snapshot_;
  std::map<std::tuple<std::string, std::string, std::string>, Two> most_;
};

// The value that an added fact shows, where nothing else was known of the meter; null where there is none.
const Fact* first_shown(const Entered& entered, const Machine& machine, const Meter& meter, const AddedIds& added) {
  const auto events = meter_events(machine, meter, entered.is->facts_of(machine.key));
  const bool all_new = std::all_of(events.begin(), events.end(), [&](const MeterEvent& event) {
    return event.fact != nullptr && added.contains(event.fact->id);
  });
  if (events.empty() || !all_new || events.front().fresh) return nullptr;
  return events.front().fact;
}

bool is_high(Amount shown, const Used& most, const Meter& meter) {
  if (most.machine != nullptr && most.usage > Amount{}) return shown.hundredths > far_more * most.usage.hundredths;
  return meter.unit == "h" && shown > on_hour_meter(by_day_and_night);
}

}  // namespace

std::vector<HighFirstValue> high_first_values(const Entered& entered) {
  std::vector<HighFirstValue> high;
  const AddedIds added(entered.added);
  MostUsed most_used(*entered.is);
  for (const std::string& key : entered.machines) {
    const Machine* machine = entered.is->fleet().machine(key);
    if (machine == nullptr) continue;
    for (const Meter& meter : machine->meters) {
      const Fact* first = first_shown(entered, *machine, meter, added);
      if (first == nullptr || first->sure) continue;
      const Used most = most_used.but(*machine, meter);
      if (!is_high(*first->at, most, meter)) continue;
      HighFirstValue value{key, meter.name, meter.unit, first->id, first->on.first, *first->at, {}, {}};
      if (most.machine != nullptr) {
        value.most_used = most.machine->key;
        value.most = most.usage;
      }
      high.push_back(std::move(value));
    }
  }
  return high;
}

}  // namespace service
