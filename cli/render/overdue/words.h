// What the headings of the overdue list are called.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "service/due_list.h"

namespace cli {

std::string_view title_of(service::OverdueHeading heading);        // above the entries: `Find out`
std::string_view short_title_of(service::OverdueHeading heading);  // in a line of counts: `find out`

// `6 overdue`, `1 meter to read`.
std::string counted_under(service::OverdueHeading heading, std::size_t lines);

}  // namespace cli
