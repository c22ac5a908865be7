#include <fmt/format.h>

#include "service/season.h"

namespace service {

SeasonDays season_days(const Season& season, std::optional<int> year, Day as_of) {
  if (year) {
    const SeasonDays days = days_of(season, *year);
    if (days.to > add_months(as_of, horizon_months)) {
      throw Failure(FailureKind::usage, {"season-too-far",
                                         fmt::format("the season `{}` of {} ends more than five years from now",
                                                     cleaned(season.key), *year),
                                         "nothing is said of use beyond five years"});
    }
    if (days.to >= as_of) return days;
    throw Failure(FailureKind::usage,
                  {"season-over",
                   fmt::format("the season `{}` of {} was over on {}", cleaned(season.key), *year, to_text(days.to)),
                   "",
                   std::nullopt,
                   Severity::error,
                   {{CureKind::next_season}}});
  }
  int next = static_cast<int>(std::chrono::year_month_day{as_of}.year()) - 1;
  while (days_of(season, next).to < as_of) ++next;
  return days_of(season, next);
}

}  // namespace service
