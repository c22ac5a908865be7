// Rows of service points and of machines: what lists for people share.
#pragma once

#include <string>
#include <vector>

#include "service/due_list.h"
#include "terminal/look.h"

namespace cli {

// Each point as a row or a block of lines, whichever fits the columns; all of them line up.
std::string point_rows(const std::vector<const service::Point*>& points, service::Day as_of, const Look& look);

// Machines with something to say about each: gaps, states.
using SaidLines = std::vector<std::pair<std::string, std::string>>;

std::string said_rows(const SaidLines& rows, const Look& look);

// Whose gap it is, and what to do about it.
SaidLines::value_type line_of(const service::Gap& gap);
SaidLines::value_type line_of(const service::SeenSign& seen);

}  // namespace cli
