#include "standing/seen.h"

#include <algorithm>

namespace service {

std::vector<SeenSign> seen_of(const MachineView& view) {
  const auto listed = listed_signs(view.snapshot.fleet(), view.machine);
  std::vector<SeenSign> open;
  for (const Fact& fact : view.facts) {
    if (fact.kind != FactKind::sign && fact.kind != FactKind::looked_at) continue;
    const bool is_listed =
        std::any_of(listed.begin(), listed.end(), [&](const ListedSign& sign) { return sign.name == fact.name; });
    if (is_listed) continue;
    const auto at =
        std::find_if(open.begin(), open.end(), [&](const SeenSign& seen) { return seen.sign == fact.name; });
    if (fact.kind == FactKind::sign) {
      if (at == open.end()) {
        open.push_back({&view.machine, fact.name, fact.on.first, fact.id, fact.note, std::nullopt, std::nullopt});
      } else if (!fact.note.empty()) {
        at->note = fact.note;
      }
    } else if (at != open.end() && fact.found.value_or(Found::good) == Found::good) {
      open.erase(at);
    } else if (at != open.end()) {
      at->found = fact.found;
      at->looked_on = fact.on.first;
      at->note = fact.note;
    }
  }
  return open;
}

}  // namespace service
