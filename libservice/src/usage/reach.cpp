#include <algorithm>
#include <cmath>

#include "service/usage.h"
#include "usage/constants.h"

namespace service {

std::optional<Day> first_day_with(const ReachOdds& odds, Probability level, Day from, Day to) {
  if (to < from) return std::nullopt;
  struct Known {
    Day day;
    double odds;
    bool asked;
  };
  Known below{from - std::chrono::days{1}, 0, false};  // too small then, or nobody asks
  Known at{to + std::chrono::days{1}, 1, false};       // if ever, then here
  const auto ask = [&](Day day) {
    const Known known{std::clamp(day, below.day + std::chrono::days{1}, at.day - std::chrono::days{1}), 0, true};
    const Probability by = odds.by(known.day);
    Known& side = by >= level ? at : below;
    side = known;
    side.odds = by.value;
  };
  int asked = 0;
  int step = usage::constants.first_search_days;
  bool halve = false;
  for (int days = days_between(below.day, at.day); days > 1; days = days_between(below.day, at.day)) {
    if (++asked == 2) {
      // Mostly that is the day, and the one before tells.
      ask(at.asked ? at.day - std::chrono::days{1} : below.day + std::chrono::days{1});
    } else if (asked <= usage::constants.guessed_days) {
      // The odds are costly, and know best where they come to it.
      ask(odds.likely(level).value_or(to));
    } else if (!below.asked || !at.asked) {
      // Out in growing steps, then in between.
      ask(at.asked ? at.day - std::chrono::days{step} : below.day + std::chrono::days{step});
      step *= usage::constants.search_growth;
    } else {
      // On the line between the two, and by halves where that does not help.
      const double part = halve || at.odds <= below.odds ? 0.5 : (level.value - below.odds) / (at.odds - below.odds);
      ask(below.day + std::chrono::days{static_cast<int>(std::lround(part * days))});
      halve = !halve && days_between(below.day, at.day) > days / 2;
    }
  }
  return at.asked ? std::optional{at.day} : std::nullopt;
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
