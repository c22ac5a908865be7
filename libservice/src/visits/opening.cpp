#include "visits/opening.h"

#include <algorithm>

namespace service::visits {
namespace {

constexpr int minutes_of_a_day = 24 * 60;

// A season may have begun the year before.
bool within(const Season& season, Day day) {
  const int year = static_cast<int>(std::chrono::year_month_day{day}.year());
  for (const int begins : {year - 1, year}) {
    const SeasonDays days = days_of(season, begins);
    if (day >= days.from && day <= days.to) return true;
  }
  return false;
}

}  // namespace

Weekday weekday_of(Day day) {
  return static_cast<Weekday>(std::chrono::weekday{day}.iso_encoding() - 1);  // both begin with Monday
}

std::vector<ClockSpan> opening_on(const Fleet& fleet, const Site& site, Day day) {
  if (std::find(site.closed_on.begin(), site.closed_on.end(), day) != site.closed_on.end()) return {};
  for (const std::string& name : site.closed_in) {
    const Season* season = fleet.season(name);
    if (season != nullptr && within(*season, day)) return {};
  }
  if (!site.open) return {{0, minutes_of_a_day}};
  const auto spans = site.open->find(weekday_of(day));
  return spans == site.open->end() ? std::vector<ClockSpan>{} : spans->second;
}

std::vector<ClockSpan> in_both(const std::vector<ClockSpan>& a, const std::vector<ClockSpan>& b) {
  std::vector<ClockSpan> both;
  for (const ClockSpan& one : a) {
    for (const ClockSpan& other : b) {
      const ClockSpan span{std::max(one.from, other.from), std::min(one.to, other.to)};
      if (span.from < span.to) both.push_back(span);
    }
  }
  std::sort(both.begin(), both.end(), [](const ClockSpan& x, const ClockSpan& y) { return x.from < y.from; });
  return both;
}

}  // namespace service::visits
