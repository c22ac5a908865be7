// What must not wait of an overdue list, as the head of a message has it.
#pragma once

#include <vector>

#include "service/overdue_news.h"

namespace service {

// It forbids to run its machine.
bool forbids_running(const OverdueEntry& entry);

// `is_back`: its machine is back in use.
bool must_not_wait(const OverdueEntry& entry, bool is_back);

// Of entries that must not wait, in the order of the list: `OverdueNews::first`.
std::vector<UrgentLine> urgent_lines(const std::vector<OverdueEntry>& urgent, const NotToRun& not_to_run,
                                     const Fleet& fleet);

}  // namespace service
