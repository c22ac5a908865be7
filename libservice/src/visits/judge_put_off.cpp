// What is not made this week, and why.
#include <fmt/format.h>

#include <algorithm>

#include "visits/judge_parts.h"
#include "visits/judge_words.h"

namespace service::visits {
namespace {

bool promised_to(const Week& week, std::size_t visit, std::size_t crew_day) {
  const auto promise = promise_of(week, visit);
  return promise && crew_day_of(week, promise->first, promise->second) == crew_day;
}

// Of the visits that the plan makes on that crew-day those that are promised to it, in the plan's order.
std::vector<std::size_t> kept_promises(const Week& week, const std::vector<JudgedRound>& rounds, std::size_t crew_day) {
  std::vector<std::size_t> kept;
  for (const JudgedRound& round : rounds) {
    if (round.crew_day != crew_day) continue;
    for (const WayStop& stop : round.way.stops) {
      if (stop.visit && promised_to(week, *stop.visit, crew_day)) kept.push_back(*stop.visit);
    }
  }
  return kept;
}

}  // namespace

PutOffReason reason_by_rules(const Week& week, std::size_t visit) {
  bool able = false;
  bool open = false;
  bool possible = false;
  for (std::size_t d = 0; d < week.crew_days.size() && !possible; ++d) {
    if (!lacks(*week.crew_days[d].crew, week.visits[visit]).empty()) continue;
    able = true;
    if (week.visits[visit].options[d].spans.empty()) continue;
    open = true;
    possible = fits(week, d, {visit});
  }
  if (!able) return PutOffReason::not_qualified;
  if (!open) return PutOffReason::closed;
  if (!possible) return PutOffReason::unreachable;
  return promise_of(week, visit) ? PutOffReason::promise_broken : PutOffReason::dearer;
}

Faults::Cause judge_put_off(const Week& week, const GivenPutOff& given, std::size_t visit, const std::string& where,
                            Faults& faults) {
  const Visit& of = week.visits[visit];
  if (given.safety && *given.safety != of.safety) {
    faults.add(PlanRule::safety, where,
               of.safety ? "says it is not for safety; it is" : "says it is for safety; it is not");
  }
  if (given.reason) {
    const auto is = to_text(reason_by_rules(week, visit));
    if (*given.reason != is) {
      faults.add(PlanRule::reason, where, fmt::format("says {}; it is {}", cleaned(*given.reason), is));
    }
  }
  if (given.until && *given.until != week.later) {
    faults.add(PlanRule::figure, where,
               fmt::format("is put off until {}; what is not made this week waits until {}", to_text(*given.until),
                           to_text(week.later)));
  }
  if (!given.cost || *given.cost == week.visits[visit].put_off) return std::nullopt;
  return faults.add(PlanRule::figure, where,
                    fmt::format("costs {}; until {} it is {}", money_words(*given.cost), to_text(week.later),
                                money_words(week.visits[visit].put_off)));
}

void judge_broken(const Week& week, const std::vector<JudgedRound>& rounds, std::size_t visit, const std::string& where,
                  Faults& faults) {
  const auto promise = promise_of(week, visit);
  if (!promise || !can_keep(week, visit, *promise)) return;
  const auto day = *crew_day_of(week, promise->first, promise->second);
  const auto kept = kept_promises(week, rounds, day);
  for (std::size_t at = 0; at <= kept.size(); ++at) {
    auto with = kept;
    with.insert(with.begin() + static_cast<std::ptrdiff_t>(at), visit);
    if (!fits(week, day, with)) continue;
    faults.add(PlanRule::promised, where,
               fmt::format("was promised to {} on {}, where it is possible", promise->first, to_text(promise->second)));
    return;
  }
}

}  // namespace service::visits
