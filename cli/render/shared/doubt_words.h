// How an answer begins that rests on readings which nobody should trust yet.
#pragma once

#include <string>
#include <string_view>

#include "service/reading_doubts.h"

namespace cli {

// `Look first at the meter of tractor-drill: its last reading is hard to believe, and rows and orders rest on it.`
// `what`: what rests on it. Empty where there are none.
std::string doubt_words(const service::ReadingDoubts& doubts, std::string_view what);

}  // namespace cli
