// The words in which a judge names figures.
#pragma once

#include <string>
#include <vector>

#include "service/fleet.h"

namespace service::visits {

std::string clock_words(int minute);                          // `08:05`; `00:40 the next day`
std::string duration_words(int minutes);                      // `50 min`, `8 h`, `8 h 20 min`
std::string money_words(Money money);                         // `35.70`
std::string km_words(int tenths);                             // `18.2 km`
std::string span_words(const std::vector<ClockSpan>& spans);  // `08:00-12:00 and 13:00-17:00`

// `a, b and c`; `otherwise` of none.
std::string listed(const std::vector<std::string>& names, std::string_view otherwise);

}  // namespace service::visits
