#include "visits/short_parts.h"

namespace service::visits {

ShortPart short_part(const PartNeed& need) {
  ShortPart part{need.key, need.unit, need.short_by, *need.short_on, std::nullopt};
  if (need.part != nullptr && need.part->lead_days) {
    part.there = std::max(*need.short_on, *need.order_by + std::chrono::days{*need.part->lead_days});
  }
  return part;
}

}  // namespace service::visits
