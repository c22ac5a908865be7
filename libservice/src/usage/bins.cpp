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

}  // namespace

BinWalk::BinWalk(Day day) : day_(day), number_(day_in_year(std::chrono::year_month_day{day})) { find_leap_day(); }

void BinWalk::find_leap_day() {
  const auto year = std::chrono::year_month_day{day_}.year();
  leap_day_ = year.is_leap() ? Day{std::chrono::sys_days{year / 2 / 29}} : Day::min();
}

int BinWalk::days_left() const {
  constexpr int with_leap_day = 11;  // of the bins
  const bool one_more = bin() == with_leap_day && day_ < leap_day_;
  return (bin() + 1) * bin_days - number_ + (one_more ? 1 : 0);
}

void BinWalk::next_bin() {
  day_ += std::chrono::days{days_left()};
  number_ = (bin() + 1) * bin_days;
  if (number_ == bin_count * bin_days) {
    number_ = 0;
    find_leap_day();
  }
}

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
  int left = days_between(from, to) + 1;
  if (left <= 0) return days;
  days.reserve(static_cast<std::size_t>(left / bin_days) + 2);
  for (BinWalk walk(from); left > 0; walk.next_bin()) {
    const int taken = std::min(left, walk.days_left());
    days.push_back({walk.bin(), static_cast<double>(taken)});
    left -= taken;
  }
  days.front().days -= 0.5;
  if (from < to) days.back().days -= 0.5;
  return days;
}

double exposure(const Profile& profile, const std::vector<BinDays>& days) {
  double sum = 0;
  for (const auto& [bin, count] : days) sum += profile[static_cast<std::size_t>(bin)] * count;
  return sum;
}

RunningExposure::RunningExposure(const Profile& profile, Day from, Day to)
    : profile_(profile), from_(from), last_(std::max(1, days_between(from, to) + 1)) {}

void RunningExposure::sum_up(std::size_t place) const {
  constexpr std::size_t some_more = 64;
  const std::size_t size = std::min(place + some_more, static_cast<std::size_t>(last_)) + 1;
  if (ends_.empty()) {
    ends_.reserve(static_cast<std::size_t>(last_) + 1);
    ends_.push_back(0);
  }
  double sum = ends_.back();
  std::size_t place_now = ends_.size();
  BinWalk walk(from_ + std::chrono::days{static_cast<int>(place_now) - 1});
  ends_.resize(size);
  for (; place_now < size; walk.next_bin()) {
    const double each = profile_[static_cast<std::size_t>(walk.bin())];
    const std::size_t end = std::min(size, place_now + static_cast<std::size_t>(walk.days_left()));
    for (; place_now < end; ++place_now) ends_[place_now] = sum += each;
  }
}

}  // namespace service::usage
