// A figure that is an estimate is rounded once, so that it is the same number in every format: more digits would claim
// to know more.
#pragma once

#include <string>

#include "service/probability.h"

namespace cli {

double share_of(double share);  // odds and parts of a whole: four digits
inline double share_of(service::Probability odds) { return share_of(odds.value); }
double mean_of(double mean);    // hours, services, money, pieces: three
double days_of(double days);    // how far off a forecast was: two
double years_of(double years);  // two
double usage_of(double usage);  // a meter's unit: one

// Such a figure as CSV: the decimal that JSON has, without a needless `.0`.
std::string decimal(double rounded);

}  // namespace cli
