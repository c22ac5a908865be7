// What is left of the work for safety at a machine that somebody goes to, in words.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "service/safety_left.h"

namespace cli {

// `exam: not this week: keep it out of use until it is done`, `brakes: no record: ...`; a line each, tasks of which the
// same is said in one. `not_made`: `not this week`.
std::vector<std::string> safety_left_lines(const std::vector<service::SafetyLeft>& left, service::Day as_of,
                                           std::string_view not_made);

// The same of one.
std::string safety_left_words(const service::SafetyLeft& left, service::Day as_of, std::string_view not_made);

}  // namespace cli
