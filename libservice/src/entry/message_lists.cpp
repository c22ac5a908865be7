#include "entry/message_lists.h"

#include <utility>
#include <vector>

#include "service/due_list.h"

namespace service::entry {

ListsOf::Names ListsOf::names_on(const std::string& machine, const std::vector<Fact>& facts) const {
  const Snapshot snapshot(fleet_, Extract{facts, known_.read, known_.newest}, today_, day_is_given_,
                          Scope{std::vector{machine}});
  const DueList list = due_list(snapshot, {today_, {}, Detail::standings});
  Names names;
  for (const OverdueEntry& entry : overdue_list(list)) {
    if (entry.point != nullptr) {
      names[entry.point->name + '@' + entry.point->position] = never_waits(*entry.point);
    } else if (entry.gap != nullptr && (entry.gap->kind == GapKind::doubtful || ends_by_reading(entry.gap->kind))) {
      names[std::string("?") + std::string(to_text(entry.gap->kind)) + ' ' + entry.gap->meter] = false;
    }
  }
  return names;
}

TakesOff ListsOf::taken_off_by(const Fact& reading, const Stamp& stamp) {
  auto judged = judge(*fleet_, known_.facts, {{reading, false, std::nullopt}}, stamp, today_);
  TakesOff off;
  if (judged.accepted.empty()) return off;
  const auto [before, is_first] = before_.try_emplace(reading.machine);
  if (is_first) before->second = names_on(reading.machine, known_.facts);
  if (before->second.empty()) return off;
  std::vector<Fact> facts = known_.facts;
  facts.insert(facts.end(), judged.accepted.begin(), judged.accepted.end());
  const Names after = names_on(reading.machine, facts);
  for (const auto& [name, safety] : before->second) {
    if (after.contains(name)) continue;
    off.any = true;
    off.safety = off.safety || safety;
  }
  return off;
}

}  // namespace service::entry
