// Entries of the overdue list as they are remembered between two messages.
#pragma once

#include "service/overdue_news.h"

namespace service {

SaidEntry said_of(const OverdueEntry& entry, Day as_of);

// The limbs that are over by twice what was last said; one that was not over then and is now is worse as well. Empty
// where it is no worse. `now` is said of the entry, of which `before` was.
std::vector<Further> further(const OverdueEntry& entry, const SaidEntry& now, const SaidEntry& before);

}  // namespace service
