// What a season's list says beside its rows, line by line.
#pragma once

#include <string>
#include <vector>

#include "render/shared/point_rows.h"
#include "service/season.h"

namespace cli {

// What is not likely to come due before its end: the likeliest first, with odds; those under 1 % together.
std::vector<std::string> rest_lines(const service::SeasonPlan& plan);

// Points and machines of which too little is known.
SaidLines find_out_lines(const service::SeasonPlan& plan, const Look& look);

// `pump-trailer 1 overdue and 2 without record`.
std::string other_words(const service::OtherMachine& other);

// Why each is laid up, the due list tells.
SaidLines laid_up_lines(const service::SeasonPlan& plan);

}  // namespace cli
