// The events of a due list or an overdue list in words, as a calendar of RFC 5545.
#pragma once

#include <string>

#include "service/calendar.h"

namespace cli {

// What the calendar holds: `called` for its name, by which people know it again, and `what` for its summary. `command`:
// how printed commands begin (`Look`).
std::string calendar_as_ics(const service::Calendar& calendar, const service::DueList& list, const std::string& called,
                            const std::string& what, const std::string& counts, const std::string& command);

}  // namespace cli
