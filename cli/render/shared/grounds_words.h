// What a forecast of use rests on, in words.
#pragma once

#include <string>

#include "service/usage.h"

namespace cli {

// `88 % of it in August and September`, `spread over the year`: months with half as much again as the mean.
std::string busy_months(const service::Grounds& grounds);

// `from 8.2 years of readings and 2 other machines of its kind; its owner says how much a year`.
std::string words_of(const service::Grounds& grounds, const std::string& unit);

}  // namespace cli
