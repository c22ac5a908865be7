#include "service/near_safety.h"

#include <algorithm>

namespace service {

bool may_be_of_safety(const Fleet& fleet, const Machine& machine, std::string_view sign) {
  const auto near = near_name(fleet, machine, FactKind::sign, sign);
  if (!near || near->measured) return false;
  const auto signs = listed_signs(fleet, machine);
  return std::any_of(signs.begin(), signs.end(), [&](const ListedSign& one) {
    const bool meant =
        one.name == near->name || std::find(near->also.begin(), near->also.end(), one.name) != near->also.end();
    return one.safety && meant;
  });
}

}  // namespace service
