#include "entry/ended_doubts.h"

#include <algorithm>

namespace service {

bool is_doubted(const DueList& list, const FactId& value) {
  return std::any_of(list.gaps.begin(), list.gaps.end(),
                     [&](const Gap& gap) { return gap.kind == GapKind::doubtful && gap.facts.front() == value; });
}

std::vector<EndedDoubt> ended_doubts(const DueList& before, const DueList& after, const Snapshot& is) {
  std::vector<EndedDoubt> ended;
  for (const Gap& gap : before.gaps) {
    if (gap.kind != GapKind::doubtful || is_doubted(after, gap.facts.front())) continue;
    const Machine* machine = is.fleet().machine(gap.machine);
    const Meter* meter = machine == nullptr ? nullptr : machine->meter(gap.meter);
    const auto facts = is.facts_of(gap.machine);
    const auto value =
        std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.id == gap.facts.front(); });
    if (meter == nullptr || value == facts.end()) continue;
    const auto shown = value->at ? value->at : value->last;
    if (shown) ended.push_back({gap.machine, meter->name, meter->unit, value->id, value->on.first, *shown});
  }
  return ended;
}

}  // namespace service
