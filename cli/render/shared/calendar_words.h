// The events of a due list or an overdue list in words, as a calendar of RFC 5545.
#pragma once

#include <string>
#include <vector>

#include "service/calendar.h"

namespace cli {

// `1 out of use, 8 overdue, 7 due`; empty where there are none.
std::string counts_in_words(const std::vector<service::CalendarCount>& counts);

struct CalendarTexts {
  std::string called;   // its name, by which people know it again
  std::string nothing;  // its summary where it counts nothing
  std::string counts;   // a sentence on what it holds
};

// `command`: how printed commands begin (`Look`).
std::string calendar_as_ics(const service::Calendar& calendar, const service::DueList& list, const CalendarTexts& texts,
                            const std::string& command);

}  // namespace cli
