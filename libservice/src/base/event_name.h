// Names of events in calendars.
#pragma once

#include <string>
#include <vector>

namespace service {

// The same for the same texts, and another one for others.
std::string event_name_of(const std::vector<std::string>& parts);

}  // namespace service
