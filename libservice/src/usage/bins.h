// The year in 73 bins of five days, in which a season profile is kept. 29 February shares the bin of the 28th.
#pragma once

#include <array>
#include <vector>

#include "service/base.h"

namespace service::usage {

inline constexpr int bin_count = 73;
inline constexpr int bin_days = 5;
inline constexpr double year_days = 365.25;

int bin_of(Day day);

// Use in each bin as a multiple of the year's mean: the mean of all bins is 1.
using Profile = std::array<double, bin_count>;

Profile flat_profile();
void make_mean_one(Profile& profile);

// Some days of one bin.
struct BinDays {
  int bin = 0;
  double days = 0;
};

// The days from one reading to the next by bin, in the order of time. The first and the last day count half, so that
// they add up to the days between.
std::vector<BinDays> days_by_bin(Day from, Day to);

// Sum of a profile over the days from one reading to the next: how many mean days they count for.
double exposure(const Profile& profile, const std::vector<BinDays>& days);

// The profile summed up day by day, so that the exposure of any span inside is one subtraction. Days outside count as
// the nearest inside.
class RunningExposure {
 public:
  RunningExposure() = default;
  RunningExposure(const Profile& profile, Day from, Day to);

  // Mean days from the middle of one day, when a meter is read, to the middle of another.
  double between(Day from, Day to) const {
    return (ends_[at(to)] + ends_[at(to) - 1] - ends_[at(from)] - ends_[at(from) - 1]) / 2;
  }

  // To the end of the other, when all of its use is in.
  double to_end(Day from, Day to) const { return ends_[at(to)] - (ends_[at(from)] + ends_[at(from) - 1]) / 2; }

 private:
  std::size_t at(Day day) const;

  Day from_{};
  std::vector<double> ends_;  // by the end of each day, the first value that of the day before
};

}  // namespace service::usage
