// Services of a season's list that include others of it.
#pragma once

#include <functional>

#include "service/season.h"

namespace service::load {

// The share of a point's life that is left on a day, where it can be told.
using LifeLeft = std::function<std::optional<double>(const Point&, Day)>;

// What another item includes is told with that one, and done on its day; what was folded in is handed back with the day
// of the one that includes it.
std::vector<SeasonItem> fold_covered(const Fleet& fleet, const LifeLeft& life_left, std::vector<SeasonItem>& items);

}  // namespace service::load
