// What is said of readings which nobody should trust yet: how an answer begins that rests on them, and at the meter.
#pragma once

#include <string>
#include <string_view>

#include "service/due_list.h"
#include "service/reading_doubts.h"

namespace cli {

// `Look first at the meter of tractor-drill: its last reading is hard to believe, and rows and orders rest on it.`
// `what`: what rests on it. Empty where there are none.
std::string doubt_words(const service::ReadingDoubts& doubts, std::string_view what);

// At a meter whose value is hard to believe, for whoever stands before it: what to do where it shows less, for that is
// refused as long as the value stands. Empty of any other gap.
std::string if_it_shows_less(const service::Gap& gap, const std::string& command);

}  // namespace cli
