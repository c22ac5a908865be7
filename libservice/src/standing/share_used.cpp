#include "service/standing.h"

namespace service {

std::optional<double> share_used(const LimbStanding& limb, Day as_of) {
  switch (limb.kind) {
    case LimbKind::usage: {
      if (!limb.every || limb.every->hundredths <= 0) return std::nullopt;
      const auto every = static_cast<double>(limb.every->hundredths);
      if (!limb.left) return std::nullopt;
      return 1.0 - static_cast<double>(limb.left->hundredths) / every;
    }
    case LimbKind::calendar: {
      if (!limb.counted_from || !limb.due_on) return std::nullopt;
      const int whole = days_between(*limb.counted_from, *limb.due_on);
      if (whole <= 0) return std::nullopt;
      return static_cast<double>(days_between(*limb.counted_from, as_of)) / whole;
    }
    case LimbKind::changes:
      if (!limb.count || limb.limit_count <= 0) return std::nullopt;
      return static_cast<double>(*limb.count) / limb.limit_count;
    default:
      return std::nullopt;
  }
}

std::optional<double> share_estimated(const LimbStanding& limb) {
  if (limb.kind != LimbKind::usage || !limb.every || limb.every->hundredths <= 0) return std::nullopt;
  if (!limb.estimated_left || !limb.left || *limb.estimated_left >= *limb.left) return std::nullopt;
  return 1.0 - static_cast<double>(limb.estimated_left->hundredths) / static_cast<double>(limb.every->hundredths);
}

std::optional<Day> estimated_from(const LimbStanding& limb, const Point& point) {
  if (limb.kind != LimbKind::usage || !limb.estimated_left || !limb.known || !point.fitted) return std::nullopt;
  return limb.known->day < point.fitted->on.first ? std::optional(limb.known->day) : std::nullopt;
}

}  // namespace service
