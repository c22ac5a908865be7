// The events of a due list or an overdue list in words, as a calendar of RFC 5545.
#pragma once

#include <string>

#include "service/calendar.h"

namespace cli {

// `what`: what the calendar holds, for its name and its summary. `command`: how printed commands begin (`Look`).
std::string calendar_as_ics(const service::Calendar& calendar, const service::DueList& list, const std::string& what,
                            const std::string& counts, const std::string& command);

}  // namespace cli
