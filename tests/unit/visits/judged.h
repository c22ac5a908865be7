// Plans as somebody hands them in, and what a judge says of them.
#pragma once

#include "unit/visits/estate.h"

namespace estate {

// The worked example with every field.
inline service::GivenPlan worked_plan() {
  return as_given(by_hand(Estate().usual().week(), {{"loader"}, {"pump", "call c-01"}}));
}

// No more than has to be said.
inline service::GivenPlan bare(const service::GivenPlan& plan) {
  service::GivenPlan rest;
  for (const service::GivenRound& round : plan.rounds) {
    service::GivenRound& kept = rest.rounds.emplace_back();
    kept.crew = round.crew;
    kept.on = round.on;
    for (const service::GivenStop& stop : round.stops) kept.stops.emplace_back().visit = stop.visit;
  }
  for (const service::GivenPutOff& out : plan.put_off) rest.put_off.emplace_back().visit = out.visit;
  return rest;
}

// "drive van 2026-05-04 loader; figure plan".
inline std::string rules_of(const service::PlanJudgement& judgement) {
  std::string text;
  for (const service::PlanFault& fault : judgement.faults) {
    text += (text.empty() ? "" : "; ") + std::string(to_text(fault.rule)) + ' ' + fault.where;
  }
  return text;
}

// With what is said of each, a line each.
inline std::string said_in(const service::PlanJudgement& judgement) {
  std::string text;
  for (const service::PlanFault& fault : judgement.faults) {
    text += (text.empty() ? "" : "\n") + std::string(to_text(fault.rule)) + ' ' + fault.where + ": " + fault.says;
  }
  return text;
}

inline std::string with(std::string text, std::string_view old, std::string_view fresh) {
  const auto at = text.find(old);
  REQUIRE((at != std::string::npos));
  return text.replace(at, old.size(), fresh);
}

}  // namespace estate
