#include "usage/bins.h"

#include <algorithm>
#include <numeric>

namespace service::usage {
namespace {

// 0 for 1 January; the leap day has the number of the day before it.
int day_in_year(const std::chrono::year_month_day& day) {
  constexpr std::array<int, 12> before{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
  const auto month = static_cast<unsigned>(day.month());
  const int in_month = static_cast<int>(static_cast<unsigned>(day.day()));
  return before[month - 1] + (month == 2 ? std::min(in_month, 28) : in_month) - 1;
}

// Days one after the other with their places in the year, without taking each apart.
class DayWalk {
 public:
  explicit DayWalk(Day day) : day_(day), number_(day_in_year(std::chrono::year_month_day{day})) { find_leap_day(); }

  int bin() const { return number_ / bin_days; }

  void next() {
    day_ += std::chrono::days{1};
    if (day_ == leap_day_) return;
    if (++number_ == bin_count * bin_days) {
      number_ = 0;
      find_leap_day();
    }
  }

 private:
  void find_leap_day() {
    const auto year = std::chrono::year_month_day{day_}.year();
    leap_day_ = year.is_leap() ? Day{std::chrono::sys_days{year / 2 / 29}} : Day::min();
  }

  Day day_;
  int number_;
  Day leap_day_ = Day::min();  // of this year, where it has one
};

}  // namespace

int bin_of(Day day) { return day_in_year(std::chrono::year_month_day{day}) / bin_days; }

Profile flat_profile() {
  Profile flat;
  flat.fill(1.0);
  return flat;
}

void make_mean_one(Profile& profile) {
  const double mean = std::accumulate(profile.begin(), profile.end(), 0.0) / bin_count;
  for (double& each : profile) each /= mean;
}

std::vector<BinDays> days_by_bin(Day from, Day to) {
  std::vector<BinDays> days;
  DayWalk walk(from);
  for (Day day = from; day <= to; day += std::chrono::days{1}, walk.next()) {
    const double part = day == from || day == to ? 0.5 : 1.0;
    if (days.empty() || days.back().bin != walk.bin()) days.push_back({walk.bin(), 0});
    days.back().days += part;
  }
  return days;
}

double exposure(const Profile& profile, const std::vector<BinDays>& days) {
  double sum = 0;
  for (const auto& [bin, count] : days) sum += profile[static_cast<std::size_t>(bin)] * count;
  return sum;
}

RunningExposure::RunningExposure(const Profile& profile, Day from, Day to) : from_(from) {
  ends_.reserve(static_cast<std::size_t>(std::max(0, days_between(from, to))) + 2);
  DayWalk walk(from);
  double sum = 0;
  ends_.push_back(sum);
  for (Day day = from; day <= to; day += std::chrono::days{1}, walk.next()) {
    sum += profile[static_cast<std::size_t>(walk.bin())];
    ends_.push_back(sum);
  }
}

std::size_t RunningExposure::at(Day day) const {
  const int last = static_cast<int>(ends_.size()) - 1;
  return static_cast<std::size_t>(std::clamp(days_between(from_, day) + 1, 1, last));
}

}  // namespace service::usage
