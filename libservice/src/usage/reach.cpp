#include <algorithm>
#include <cmath>

#include "service/usage.h"
#include "usage/constants.h"

namespace service {

std::optional<Day> first_day_with(const ReachOdds& odds, Probability level, Day from, Day to) {
  if (to < from) return std::nullopt;
  // Out from the likely day in growing steps, then in between: the odds are costly, and mostly turn within a few weeks.
  const Day guess = std::clamp(odds.likely().value_or(to), from, to);
  struct Known {
    Day day;
    double odds;
  };
  Known below{from - std::chrono::days{1}, 0};  // too small then, or nobody asks
  Known at{guess, odds.by(guess).value};
  const auto enough = [&](const Known& known) { return Probability{known.odds} >= level; };
  int step = usage::constants.first_search_days;
  if (enough(at)) {
    for (; at.day > from; step *= usage::constants.search_growth) {
      const Day day = std::max(from, at.day - std::chrono::days{step});
      const Known earlier{day, odds.by(day).value};
      (enough(earlier) ? at : below) = earlier;
      if (!enough(earlier)) break;
    }
  } else {
    while (!enough(at)) {
      below = at;
      if (at.day == to) return std::nullopt;
      const Day day = std::min(to, at.day + std::chrono::days{step});
      at = {day, odds.by(day).value};
      step *= usage::constants.search_growth;
    }
  }
  // On the line between the two, and by halves where that does not help.
  for (bool halve = false; days_between(below.day, at.day) > 1;) {
    const int days = days_between(below.day, at.day);
    const double part = halve || at.odds <= below.odds ? 0.5 : (level.value - below.odds) / (at.odds - below.odds);
    const int to_there = std::clamp(static_cast<int>(std::lround(part * days)), 1, days - 1);
    const Day day = below.day + std::chrono::days{to_there};
    const Known middle{day, odds.by(day).value};
    (enough(middle) ? at : below) = middle;
    halve = !halve && days_between(below.day, at.day) > days / 2;
  }
  return at.day;
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
  // The first of the days in between on which `on` has come to it.
  const std::int64_t grown = (*at - *(at - 1)).hundredths;
  const std::int64_t wanted = (2 * (level - *(at - 1)).hundredths - 1) * step_;
  const auto days = static_cast<int>((wanted + 2 * grown - 1) / (2 * grown));
  return from_ + std::chrono::days{static_cast<int>(at - usage_.begin() - 1) * step_ + days};
}

}  // namespace service
