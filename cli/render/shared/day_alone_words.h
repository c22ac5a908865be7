// What a crew's day has to hold for work that fits into none, so that it can be added up.
#pragma once

#include <optional>
#include <string>

#include "service/day_alone.h"

namespace cli {

// `4 h of work, 10 min of set-up, 46 min of driving there and back and a meal of 30 min; Van can be away for 8 h on
// 2026-05-04, and Holm is open 08:00-12:00 and 13:00-17:00`.
std::string day_alone_words(const std::optional<service::DayAlone>& day, const service::Site& site, int work_minutes);

}  // namespace cli
