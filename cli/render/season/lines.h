// What a season's list says beside its rows, line by line.
#pragma once

#include <string>
#include <vector>

#include "render/shared/point_rows.h"
#include "service/season.h"

namespace cli {

// What is not likely to come due before its end, a line a machine.
struct RestLines {
  std::string heading;  // `Under 1 %`; empty: the likeliest, with their odds, and their machines in that order
  SaidLines lines;
};

std::vector<RestLines> rest_lines(const service::SeasonPlan& plan);

// What is to be known with these: what is near its limit, and what the odds leave aside.
std::vector<std::string> rest_remarks(const service::SeasonPlan& plan);

// Points and machines of which too little is known.
SaidLines find_out_lines(const service::SeasonPlan& plan, const Look& look);

// Meters of which the last reading may be wrong, as the forecast says it: odds and days rest on them.
SaidLines look_again_lines(const service::SeasonPlan& plan);

// `pump-trailer 1 overdue and 2 without record`.
std::string other_words(const service::OtherMachine& other);

// Why each is laid up, the due list tells.
SaidLines laid_up_lines(const service::SeasonPlan& plan);

}  // namespace cli
