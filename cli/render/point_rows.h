// Rows of service points: the part that the due list and the overdue list share.
#pragma once

#include <string>
#include <vector>

#include "service/standing.h"
#include "terminal/look.h"

namespace cli {

// Each point as a row or a block of lines, whichever fits the columns; all of them line up.
std::string point_rows(const std::vector<const service::Point*>& points, service::Day as_of, const Look& look);

// Lines of machines with something to say about each: gaps, states.
std::string said_rows(const std::vector<std::pair<std::string, std::string>>& rows, const Look& look);

}  // namespace cli
