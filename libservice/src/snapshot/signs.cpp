// The signs on which a machine's tasks come due, and names that are near to one.
#include <algorithm>

#include "service/snapshot.h"

namespace service {

std::vector<ListedSign> listed_signs(const Fleet& fleet, const Machine& machine) {
  std::vector<ListedSign> signs;
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    const bool safety = task.task->safety || task.task->competent_person;
    for (const auto* choices : {&task.every, &task.first}) {
      for (const LimbChoice& choice : *choices) {
        const auto* limb = std::get_if<SignLimb>(&choice.candidates.front());
        if (limb == nullptr) continue;
        for (const std::string& name : limb->signs) {
          const auto known =
              std::find_if(signs.begin(), signs.end(), [&](const auto& sign) { return sign.name == name; });
          if (known == signs.end()) {
            signs.push_back({name, safety});
          } else {
            known->safety = known->safety || safety;
          }
        }
      }
    }
  }
  std::sort(signs.begin(), signs.end(), [](const ListedSign& a, const ListedSign& b) { return a.name < b.name; });
  return signs;
}

std::optional<std::string> near_sign(const Fleet& fleet, const Machine& machine, std::string_view written) {
  std::vector<std::string> names;
  for (const ListedSign& sign : listed_signs(fleet, machine)) names.push_back(sign.name);
  const auto is_listed = [&](std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  if (is_listed(written)) return std::nullopt;
  for (std::string_view rest = written; !rest.empty();) {
    const std::string_view word = rest.substr(0, rest.find(' '));
    if (is_listed(word)) return std::string(word);
    rest.remove_prefix(std::min(rest.size(), word.size() + 1));
  }
  const auto near = nearest(written, names);
  if (near.empty()) return std::nullopt;
  return near.front();
}

}  // namespace service
