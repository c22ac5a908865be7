// What crews always carry is counted in pieces: of what tasks pour alone, no list to load would ever be shorter for it.
#include <fmt/format.h>

#include <set>

#include "fleet/codes.h"
#include "fleet/draft.h"

namespace service::fleet {
namespace {

template <class Amounts>
void add_names(std::set<std::string>& names, const Amounts& amounts) {
  for (const auto& [name, amount] : amounts) names.insert(name);
}

}  // namespace

void check_carried(const Draft& draft, Diagnostics& diagnostics) {
  std::set<std::string> counted;
  std::set<std::string> poured;
  for (const ScheduleDraft& schedule : draft.schedules) {
    for (const TaskDraft& task : schedule.tasks) {
      add_names(counted, task.task.parts);
      add_names(poured, task.task.fluids);
    }
  }
  for (const MachineDraft& machine : draft.machines) {
    for (const ChangeDraft& change : machine.changes) {
      if (change.change.parts) add_names(counted, *change.change.parts);
      if (change.change.fluids) add_names(poured, *change.change.fluids);
    }
  }
  for (const Mention& one : draft.carried) {
    if (!poured.contains(one.name) || counted.contains(one.name)) continue;
    diagnostics.error(code::carried_fluid, one.spot,
                      fmt::format("`{}` is poured, and what a crew carries is counted in pieces", cleaned(one.name)),
                      "leave it out: what work pours is always among what is to load");
  }
}

}  // namespace service::fleet
