// The year in 73 bins of five days, in which a season profile is kept. 29 February shares the bin of the 28th.
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "service/base.h"

namespace service::usage {

inline constexpr int bin_count = 73;
inline constexpr int bin_days = 5;
inline constexpr double year_days = 365.25;

int bin_of(Day day);

// Days one after the other with their bins, without taking each apart.
class BinWalk {
 public:
  explicit BinWalk(Day day);

  int bin() const { return number_ / bin_days; }
  int days_left() const;  // in its bin, with this one

  void next() {
    day_ += std::chrono::days{1};
    if (day_ == leap_day_) return;
    if (++number_ == bin_count * bin_days) {
      number_ = 0;
      find_leap_day();
    }
  }
  void next_bin();

 private:
  void find_leap_day();

  Day day_;
  int number_;                 // in the year; the leap day has that of the day before
  Day leap_day_ = Day::min();  // of this year, where it has one
};

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
// the nearest inside. It is summed up as far as it is asked: mostly far less than to the end. One thread at a time. The
// profile outlives it.
class RunningExposure {
 public:
  RunningExposure(const Profile& profile, Day from, Day to);

  // Mean days from the middle of one day, when a meter is read, to the middle of another.
  double between(Day from, Day to) const {
    const std::size_t begin = at(from);
    const std::size_t end = at(to);
    return (ends_[end] + ends_[end - 1] - ends_[begin] - ends_[begin - 1]) / 2;
  }

  // To the end of the other, when all of its use is in.
  double to_end(Day from, Day to) const {
    const std::size_t begin = at(from);
    const std::size_t end = at(to);
    return ends_[end] - (ends_[begin] + ends_[begin - 1]) / 2;
  }

 private:
  std::size_t at(Day day) const {
    const auto place = static_cast<std::size_t>(std::clamp(days_between(from_, day) + 1, 1, last_));
    if (place >= ends_.size()) sum_up(place);
    return place;
  }
  void sum_up(std::size_t place) const;

  const Profile& profile_;
  Day from_;
  int last_;                          // place
  mutable std::vector<double> ends_;  // by the end of each day, the first value that of the day before
};

}  // namespace service::usage
