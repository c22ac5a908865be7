// What the headings of the overdue list are called.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "service/overdue_news.h"

namespace cli {

std::string_view title_of(service::OverdueHeading heading);        // above the entries: `Find out`
std::string_view short_title_of(service::OverdueHeading heading);  // in a line of counts: `find out`

// Of machines, whatever forbids to run them: `3 not to be run`.
std::string not_to_run_words(std::size_t machines);

// `6 overdue`, `1 meter to read`.
std::string counted_under(service::OverdueHeading heading, std::size_t lines);

// `3 not to be run`, `6 overdue`; nothing that there is none of.
std::vector<std::string> words_of(const service::OverdueCounts& counts);

}  // namespace cli
