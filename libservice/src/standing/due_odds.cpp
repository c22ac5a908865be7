#include "standing/due_odds.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace service {
namespace {

// Between the days that are known the odds rise evenly; before p10 there are none, after p90 they soon come to 1.
double odds_of(const DueSpan& span, Day day) {
  constexpr std::array<double, 3> shares{0.1, 0.5, 0.9};
  const std::array<std::optional<Day>, 3> days{span.p10, span.p50, span.p90};
  if (span.p10 && span.p10 == span.p90) return day < *span.p10 ? 0 : 1;  // for certain
  double odds = 0;
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (!days[i]) return odds;
    if (day < *days[i]) {
      if (i == 0) return 0;
      const int whole = days_between(*days[i - 1], *days[i]);
      return shares[i - 1] + (shares[i] - shares[i - 1]) * days_between(*days[i - 1], day) / whole;
    }
    odds = shares[i];
  }
  const int tail = std::max(1, days_between(*days[1], *days[2]) / 4);
  return std::min(1.0, odds + 0.1 * days_between(*days[2], day) / tail);
}

}  // namespace

DueOdds::DueOdds(const Point& point, const MachineView& view)
    : from_(view.as_of), to_(add_months(view.as_of, horizon_months)) {
  for (const LimbStanding& limb : point.limbs) {
    if (limb.state != LimbState::not_reached) continue;
    if (limb.kind == LimbKind::calendar || limb.kind == LimbKind::season) {
      if (limb.due_on && (!cap_ || *limb.due_on < *cap_)) cap_ = limb.due_on;
    } else if (limb.kind == LimbKind::usage && limb.due_at) {
      if (auto odds = view.ahead.find(limb.name)->second->odds(*limb.due_at, limb.every)) {
        usage_.push_back(std::move(odds));
      }
    } else if (limb.kind == LimbKind::changes && limb.expected) {
      changes_.push_back(*limb.expected);
    }
  }
}

Probability DueOdds::by(Day day) const {
  if (cap_ && day >= *cap_) return Probability{1};
  double not_yet = 1;
  for (const auto& odds : usage_) not_yet *= 1 - odds->by(day).value;
  for (const DueSpan& span : changes_) not_yet *= 1 - odds_of(span, day);
  // Sums of odds may miss 1 by a rounding, and one tenth: 1 - (1 - 0.1) is less than that.
  constexpr double digits = 1e12;
  return Probability{std::clamp(std::round((1 - not_yet) * digits) / digits, 0.0, 1.0)};
}

// Two that race may come to even odds together, though neither does.
bool DueOdds::may_be_even(Day day) const {
  const bool capped = cap_ && day >= *cap_;
  if (usage_.empty() && changes_.empty()) return capped;
  return capped || usage_.size() != 1 || !changes_.empty() || usage_.front()->may_be_even(day);
}

std::optional<Day> DueOdds::likely(Probability level) const {
  std::optional<Day> likely = cap_;
  for (const auto& odds : usage_) {
    const auto own = odds->likely(level);
    if (own && (!likely || *own < *likely)) likely = own;
  }
  return likely;
}

DueSpan DueOdds::span() const {
  if (!known()) return {};
  if (usage_.empty() && changes_.empty()) return {cap_, cap_, cap_};
  const Day to = cap_ ? std::min(to_, *cap_) : to_;
  // A calendar limb names its day however far it is; odds are asked no further than the end of the horizon.
  DueSpan span;
  span.p10 = first_day_with(*this, Probability{0.1}, from_, to);
  if (span.p10) span.p50 = first_day_with(*this, Probability{0.5}, *span.p10, to);
  if (span.p50) span.p90 = first_day_with(*this, Probability{0.9}, *span.p50, to);
  for (auto* const day : {&span.p10, &span.p50, &span.p90}) {
    if (!*day) *day = cap_;
  }
  return span;
}

}  // namespace service
