// Entries of the overdue list as they are remembered between two messages.
#pragma once

#include "service/overdue_news.h"

namespace service {

SaidEntry said_of(const OverdueEntry& entry, Day as_of);

// Where a limb is over by twice what was last said, or was not over then and is now: these limbs, and those that were
// over then and still are. Empty where it is no worse. `now` is said of the entry, of which `before` was.
std::vector<Further> further(const OverdueEntry& entry, const SaidEntry& now, const SaidEntry& before);

// What came to an entry since it was told, under the same heading.
struct SinceTold {
  const Sighting* seen_again = nullptr;  // the last time; points into what was seen
  bool looked = false;
  std::vector<UseReason> reasons;
};

// Nothing where it is another sign of the same name, or a machine that was back between.
SinceTold since_told(const OverdueEntry& entry, const SaidEntry& before);

}  // namespace service
