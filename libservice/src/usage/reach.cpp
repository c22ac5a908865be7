#include <algorithm>

#include "service/usage.h"
#include "usage/constants.h"
#include "usage/halving.h"

namespace service {

std::optional<Day> first_day_with(const ReachOdds& odds, Probability level, Day from, Day to) {
  if (to < from) return std::nullopt;
  // Out from the likely day in growing steps, then halves: the odds are costly, and mostly turn within a few weeks.
  const Day guess = std::clamp(odds.likely().value_or(to), from, to);
  Day below = from - std::chrono::days{1};  // the odds were too small then, or nobody asks
  Day at = to;
  bool reached = false;
  if (odds.by(guess) >= level) {
    at = guess;
    reached = true;
    for (int step = usage::constants.first_search_days; at > from; step *= usage::constants.search_growth) {
      const Day earlier = std::max(from, at - std::chrono::days{step});
      if (odds.by(earlier) < level) {
        below = earlier;
        break;
      }
      at = earlier;
    }
  } else {
    below = guess;
    for (int step = usage::constants.first_search_days; below < to && !reached;
         step *= usage::constants.search_growth) {
      const Day later = std::min(to, below + std::chrono::days{step});
      reached = odds.by(later) >= level;
      (reached ? at : below) = later;
    }
  }
  if (!reached) return std::nullopt;
  return usage::first_day(below, at, [&](Day day) { return odds.by(day) >= level; });
}

std::unique_ptr<const ReachOdds> UsageAhead::odds_since(Day from, Amount use) const {
  const auto then = mean(from);
  return then ? odds(*then + use, std::nullopt) : nullptr;
}

Amount UsagePath::on(Day day) const {
  const int days = days_between(from_, day);
  if (days <= 0) return usage_.front();
  const auto i = static_cast<std::size_t>(days / step_);
  if (i + 1 >= usage_.size()) return usage_.back();
  const std::int64_t part = days % step_;
  const std::int64_t grown = (usage_[i + 1] - usage_[i]).hundredths;
  return usage_[i] + Amount{(2 * part * grown + step_) / (2 * std::int64_t{step_})};
}

std::optional<Day> UsagePath::first_day_at(Amount level) const {
  const auto at = std::lower_bound(usage_.begin(), usage_.end(), level);
  if (at == usage_.end()) return std::nullopt;
  if (at == usage_.begin()) return from_;
  Day day = from_ + std::chrono::days{static_cast<int>(at - usage_.begin() - 1) * step_ + 1};
  while (on(day) < level) day += std::chrono::days{1};
  return day;
}

}  // namespace service
