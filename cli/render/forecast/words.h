// Use of a meter, now and ahead, in words.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "service/forecast.h"

namespace cli {

std::string name_of(const service::MeterAhead& meter);  // `combine`, of several meters `combine separator`

double units(service::Amount amount);
std::string whole_units(service::Amount amount);

// `2163 h (2151 to 2180)`, as the meter shows it.
std::string span_words(const service::UsageSpan& span, const std::string& unit);

// Where the meter was changed or went round it shows less than the machine has run.
bool shows_less(const service::MeterAhead& meter);

// What is known and expected of it: a name and what it says; what has no name stands alone. `command`: how printed
// commands begin.
std::vector<std::pair<std::string, std::string>> meter_lines(const service::MeterForecast& forecast,
                                                             const std::string& command);

}  // namespace cli
