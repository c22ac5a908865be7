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

// Of the machines that are not in use, those that are so; and why.
SaidLines machines_that(const std::vector<service::MachineUse>& not_in_use, service::UseKind kind);

// A part of an answer that names the machines out of use, for its beginning; empty where there are none.
std::string out_of_use_first(const std::vector<service::MachineUse>& not_in_use, const Look& look);

// Whose gap it is, and what to do about it.
SaidLines::value_type line_of(const service::GapLine& line);
SaidLines::value_type line_of(const service::SeenSign& seen);

}  // namespace cli
