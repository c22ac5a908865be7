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

// Of the visits that the plan makes on that crew-day those that no other work may push out, and the others.
struct DayWork {
  std::vector<std::size_t> first;
  std::vector<std::string> beside;
};

DayWork work_of(const Week& week, const std::vector<JudgedRound>& rounds, std::size_t crew_day) {
  DayWork work;
  for (const JudgedRound& round : rounds) {
    if (round.crew_day != crew_day) continue;
    for (const WayStop& stop : round.way.stops) {
      if (!stop.visit) continue;
      const Visit& visit = week.visits[*stop.visit];
      if (visit.safety || promised_to(week, *stop.visit, crew_day)) {
        work.first.push_back(*stop.visit);
      } else {
        work.beside.push_back(cleaned(visit.name));
      }
    }
  }
  return work;
}

// At some place of their order.
bool fits_among(const Week& week, std::size_t crew_day, const std::vector<std::size_t>& others, std::size_t visit) {
  for (std::size_t at = 0; at <= others.size(); ++at) {
    auto with = others;
    with.insert(with.begin() + static_cast<std::ptrdiff_t>(at), visit);
    if (fits(week, crew_day, with)) return true;
  }
  return false;
}

}  // namespace

PutOffReason reason_but_for_promise(const Week& week, std::size_t visit) {
  bool able = false;
  bool then = !week.visits[visit].days;  // a day on which it may be done; of what no day is left for, the day is over
  bool open = false;
  bool possible = false;
  for (std::size_t d = 0; d < week.crew_days.size() && !possible; ++d) {
    if (!lacks(*week.crew_days[d].crew, week.visits[visit]).empty()) continue;
    able = true;
    const auto& days = week.visits[visit].days;
    then = then || (week.crew_days[d].on >= days->first && week.crew_days[d].on <= days->second);
    if (week.visits[visit].options[d].spans.empty()) continue;
    open = true;
    possible = fits(week, d, {visit});
  }
  if (!able) return PutOffReason::not_qualified;
  if (!then) return PutOffReason::no_crew;
  if (!open) return PutOffReason::closed;
  return possible ? PutOffReason::dearer : PutOffReason::unreachable;
}

PutOffReason reason_by_rules(const Week& week, std::size_t visit) {
  return promise_of(week, visit) ? PutOffReason::promise_broken : reason_but_for_promise(week, visit);
}

Faults::Cause judge_put_off(const Week& week, const GivenPutOff& given, std::size_t visit, const std::string& where,
                            Faults& faults) {
  const Visit& of = week.visits[visit];
  if (given.safety && *given.safety != of.safety) {
    faults.add(PlanRule::safety, where,
               of.safety ? "says it is not for safety; it is" : "says it is for safety; it is not");
  }
  judge_marks(week, given, visit, where, faults);
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
  return faults.add_money({}, where,
                          fmt::format("costs {}; until {} it is {}", money_words(*given.cost), to_text(week.later),
                                      money_words(week.visits[visit].put_off)));
}

void judge_broken(const Week& week, const std::vector<JudgedRound>& rounds, std::size_t visit, const std::string& where,
                  Faults& faults) {
  const auto promise = promise_of(week, visit);
  if (!promise || !can_keep(week, visit, *promise)) return;
  const auto day = *crew_day_of(week, promise->first, promise->second);
  const auto kept = kept_promises(week, rounds, day);
  if (!fits_among(week, day, kept, visit)) return;
  faults.add(PlanRule::promised, where,
             fmt::format("was promised to {} on {}, where it is possible", promise->first, to_text(promise->second)));
}

void judge_safety(const Week& week, const std::vector<JudgedRound>& rounds, std::size_t visit, const std::string& where,
                  Faults& faults) {
  if (!week.visits[visit].safety || reason_by_rules(week, visit) != PutOffReason::dearer) return;
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    const CrewDay& day = week.crew_days[d];
    if (!lacks(*day.crew, week.visits[visit]).empty() || week.visits[visit].options[d].spans.empty()) continue;
    const DayWork work = work_of(week, rounds, d);
    if (!fits_among(week, d, work.first, visit)) continue;
    faults.add(PlanRule::safety, where,
               fmt::format("is work for safety, which is left out only where nothing else is possible: {} can do it on "
                           "{}{}",
                           day.crew->key, to_text(day.on),
                           work.beside.empty() ? "" : ", if need be instead of " + listed(work.beside, "nothing")));
    return;
  }
}

}  // namespace service::visits
