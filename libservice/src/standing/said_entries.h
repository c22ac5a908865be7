// Entries of the overdue list as they are remembered between two messages.
#pragma once

#include "service/overdue_news.h"

namespace service {

SaidEntry said_of(const OverdueEntry& entry, Day as_of);

// Over by twice what was last said, in any limb. One that was not over then is over now: that is worse as well.
bool worse_than_said(const SaidEntry& now, const SaidEntry& before);

}  // namespace service
