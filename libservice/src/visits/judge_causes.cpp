// Which fault makes figures wrong that were right before: a plan that was changed by hand is full of those, and whoever
// changed it wants to know of the change.
#include <algorithm>

#include "visits/judge_parts.h"

namespace service::visits {
namespace {

bool has_figures(const GivenStop& stop) {
  return stop.arrives || stop.starts || stop.ends || stop.drive_min || stop.set_up_min || stop.work_min ||
         stop.tenths_of_km || stop.waiting;
}

bool has_sums(const GivenRound& round) {
  return round.drive_min || round.set_up_min || round.work_min || round.tenths_of_km || round.cost || round.parts ||
         round.fluids;
}

}  // namespace

void Faults::put_behind(Number cause, const std::function<bool(const PlanFault&, bool)>& follows) {
  std::vector<PlanFault> behind;
  std::vector<PlanFault> rest;
  std::vector<bool> money;  // of the rest
  for (Number i = 0; i < all_.size(); ++i) {
    const bool goes = i >= head_ && follows(all_[i], money_[i]);
    if (!goes) money.push_back(money_[i]);
    (goes ? behind : rest).push_back(std::move(all_[i]));
  }
  auto& follow_on = rest[cause].follow_on;  // the head stays where it is
  for (PlanFault& fault : behind) {
    auto more = std::move(fault.follow_on);
    fault.follow_on.clear();
    follow_on.push_back(std::move(fault));
    follow_on.insert(follow_on.end(), more.begin(), more.end());
  }
  all_ = std::move(rest);
  money_ = std::move(money);
}

Faults::Cause JudgedRound::cause_until(std::size_t stop) const {
  for (std::size_t i = stop + 1; i-- > 0;) {
    if (of_stops[i]) return of_stops[i];
  }
  return of_day;
}

Faults::Cause JudgedRound::first_cause() const {
  Faults::Cause first;
  const auto look = [&](const Faults::Cause& cause) {
    if (cause && (!first || *cause < *first)) first = cause;
  };
  look(of_day);
  std::for_each(of_stops.begin(), of_stops.end(), look);
  look(of_end);
  return first;
}

Faults::Cause put_in(JudgedRound& round, std::size_t until, Faults& faults) {
  const auto& stops = round.given->stops;
  for (std::size_t i = 0; i <= until && has_sums(*round.given); ++i) {
    if (has_figures(stops[i])) continue;
    round.of_stops[i] = faults.add(PlanRule::figure, round.where_of(i),
                                   "gives no figures, and those of its round are not of these stops");
    return round.of_stops[i];
  }
  return std::nullopt;
}

Faults::Cause cause_of_sums(JudgedRound& round, Faults& faults) {
  const auto cause = round.first_cause();
  return cause ? cause : put_in(round, round.given->stops.size() - 1, faults);
}

}  // namespace service::visits
