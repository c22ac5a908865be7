// Services that somebody most likely wrote down twice.
#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "service/entry.h"
#include "service/in_scope.h"
#include "service/usage.h"

namespace service {
namespace {

// How near two services of a task must be to be taken for one. Common practice, no source.
struct Nearness {
  int days = 3;                         // at most, or half the shortest calendar limb
  std::optional<int> shortest_days;     // of its calendar limbs
  const UsageLimb* shortest = nullptr;  // the usage limb a tenth of which is near; lives as long as the task asked
  std::vector<std::string> signs;       // on which it comes due
};

int days_in(const CalendarSpan& span) {
  const Day any = day_of(2001, 1, 1);
  return days_between(any, after(any, span));
}

Nearness nearness_of(const MachineTask& task) {
  Nearness near;
  // The running-in interval ends with the first service, so between two of them it is never the one that holds.
  for (const LimbChoice& choice : task.every) {
    for (const Limb& limb : choice.candidates) {
      if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
        if (near.shortest == nullptr || usage->every < near.shortest->every) near.shortest = usage;
      } else if (const auto* calendar = std::get_if<CalendarLimb>(&limb)) {
        const int every = days_in(calendar->every);
        near.days = std::min(near.days, every / 2);
        near.shortest_days = std::min(near.shortest_days.value_or(every), every);
      } else if (const auto* sign = std::get_if<SignLimb>(&limb)) {
        near.signs.insert(near.signs.end(), sign->signs.begin(), sign->signs.end());
      }
    }
  }
  return near;
}

// One that came between was seen after the first service, and the second answers it.
bool sign_between(std::span<const Fact> facts, const Fact& one, const Fact& other, const Nearness& near) {
  const auto of = [&](const Fact& fact) {
    return std::find_if(facts.begin(), facts.end(), [&](const Fact& known) { return known.id == fact.id; });
  };
  return std::any_of(of(one), of(other), [&](const Fact& fact) {
    return fact.kind == FactKind::sign &&
           std::find(near.signs.begin(), near.signs.end(), fact.name) != near.signs.end();
  });
}

// The one that was entered first comes first; by days it may be the later.
WrittenTwice as_entered(const Fact& one, const Fact& other) {
  const bool in_order = std::tie(one.entered, one.id) < std::tie(other.entered, other.id);
  return in_order ? WrittenTwice{one, other} : WrittenTwice{other, one};
}

class MachineServices {
 public:
  MachineServices(const Snapshot& snapshot, const Machine& machine)
      : fleet_(snapshot.fleet()), machine_(machine), facts_(snapshot.facts_of(machine.key)) {
    if (!facts_.empty()) histories_ = meter_histories(snapshot, machine);
  }

  void find(std::vector<WrittenTwice>& twice) const {
    std::map<std::string_view, std::vector<const Fact*>> services;
    for (const Fact& fact : facts_) {
      if (fact.kind == FactKind::service && fact.on.whole_day()) services[fact.task].push_back(&fact);
    }
    for (const auto& [name, of_task] : services) {
      const auto task = task_of(fleet_, machine_, name);
      if (!task) continue;  // a check, or a task that is gone from the schedule
      const Nearness near = nearness_of(*task);
      for (std::size_t i = 1; i < of_task.size(); ++i) {
        const Fact* const earlier = last_at_same_position(of_task, i);
        if (earlier == nullptr || !are_near(*earlier, *of_task[i], near)) continue;
        if (!sign_between(facts_, *earlier, *of_task[i], near)) twice.push_back(as_entered(*earlier, *of_task[i]));
      }
    }
  }

 private:
  static const Fact* last_at_same_position(const std::vector<const Fact*>& services, std::size_t before) {
    for (std::size_t i = before; i-- > 0;) {
      const std::string& one = services[i]->position;
      const std::string& other = services[before]->position;
      if (one == other || one.empty() || other.empty()) return services[i];
    }
    return nullptr;
  }

  bool are_near(const Fact& earlier, const Fact& later, const Nearness& near) const {
    const int days = days_between(earlier.on.first, later.on.first);
    const auto before = value_of(earlier, near);
    const auto after = value_of(later, near);
    if (!before || !after) return days <= near.days;
    const std::int64_t used = (*after - *before).hundredths;
    const std::int64_t every = near.shortest->every.hundredths;
    // Where most of an interval lies between, by use or by the calendar (a machine that hardly works is serviced all
    // the same), it may well have been done again.
    const bool by_calendar = near.shortest_days && 2 * days > *near.shortest_days;
    return (days <= near.days && 2 * used < every) || (!by_calendar && 10 * used <= every);
  }

  // The use at which it was done, where somebody read the meter that counts for the task.
  std::optional<Amount> value_of(const Fact& service, const Nearness& near) const {
    if (near.shortest == nullptr || !service.at) return std::nullopt;
    const Meter* meter = near.shortest->meter ? machine_.meter(*near.shortest->meter) : machine_.first_meter();
    if (meter == nullptr || !shown_by(service, machine_, *meter)) return std::nullopt;
    return histories_.at(meter->name).usage_of(service.id);
  }

  const Fleet& fleet_;
  const Machine& machine_;
  std::span<const Fact> facts_;
  Histories histories_;
};

}  // namespace

const Fact* WrittenTwice::spare() const {
  if (!at_one_position()) return &later;
  const Fact& narrow = earlier.position.empty() ? later : earlier;
  // Of another day, the one of all positions says of that one when it was done last.
  return same_day() || &narrow == &later ? &narrow : nullptr;
}

std::vector<WrittenTwice> written_twice(const Snapshot& snapshot) {
  std::vector<WrittenTwice> twice;
  const InScope scope(snapshot.scope());
  for (const Machine& machine : snapshot.fleet().machines) {
    if (scope.holds(machine.key)) MachineServices(snapshot, machine).find(twice);
  }
  return twice;
}

}  // namespace service
