#include "entry/added_ids.h"

#include <algorithm>

namespace service {

AddedIds::AddedIds(const std::vector<Fact>& added) {
  ids_.reserve(added.size());
  for (const Fact& fact : added) ids_.push_back(fact.id);
  if (!std::is_sorted(ids_.begin(), ids_.end())) std::sort(ids_.begin(), ids_.end());
}

bool AddedIds::contains(const FactId& id) const { return std::binary_search(ids_.begin(), ids_.end(), id); }

}  // namespace service
