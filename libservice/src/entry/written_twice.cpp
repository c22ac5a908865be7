// Services that somebody most likely wrote down twice.
#include <algorithm>
#include <map>
#include <optional>

#include "service/entry.h"
#include "service/usage.h"

namespace service {
namespace {

// How near two services of a task must be to be taken for one. Common practice, no source.
struct Nearness {
  int days = 3;
  std::optional<int> shortest_days;     // of its calendar limbs
  const UsageLimb* shortest = nullptr;  // the usage limb a tenth of which is near; lives as long as the task asked
};

int days_in(const CalendarSpan& span) {
  const Day any = day_of(2001, 1, 1);
  return days_between(any, after(any, span));
}

Nearness nearness_of(const MachineTask& task) {
  Nearness near;
  for (const auto* choices : {&task.every, &task.first}) {
    for (const LimbChoice& choice : *choices) {
      for (const Limb& limb : choice.candidates) {
        if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
          if (near.shortest == nullptr || usage->every < near.shortest->every) near.shortest = usage;
        } else if (const auto* calendar = std::get_if<CalendarLimb>(&limb)) {
          const int every = days_in(calendar->every);
          near.days = std::min(near.days, every / 2);
          near.shortest_days = std::min(near.shortest_days.value_or(every), every);
        }
      }
    }
  }
  return near;
}

class MachineBook {
 public:
  MachineBook(const Snapshot& snapshot, const Machine& machine)
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
        if (earlier != nullptr && are_near(*earlier, *of_task[i], near)) twice.push_back({*earlier, *of_task[i]});
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
    const auto before = value_of(earlier, near);
    const auto after = value_of(later, near);
    const int days = days_between(earlier.on.first, later.on.first);
    // Two values that lie apart say that the machine worked in between, and it may well have been done again. So it may
    // where the machine hardly works, and most of a calendar interval lies between.
    const bool by_calendar = near.shortest_days && 2 * days > *near.shortest_days;
    if (before && after) return !by_calendar && 10 * (*after - *before).hundredths <= near.shortest->every.hundredths;
    return days <= near.days;
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

std::vector<WrittenTwice> written_twice(const Snapshot& snapshot) {
  std::vector<WrittenTwice> twice;
  for (const Machine& machine : snapshot.fleet().machines) {
    if (snapshot.scope().holds(machine.key)) MachineBook(snapshot, machine).find(twice);
  }
  return twice;
}

}  // namespace service
