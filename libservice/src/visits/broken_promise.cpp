#include "service/broken_promise.h"

#include <algorithm>

#include "visits/crew_days.h"
#include "visits/opening.h"
#include "visits/visits_made.h"

namespace service {
namespace {

const Crew* crew_named(const Fleet& fleet, const std::string& key) {
  const auto crew =
      std::find_if(fleet.crews.begin(), fleet.crews.end(), [&](const Crew& one) { return one.key == key; });
  return crew == fleet.crews.end() ? nullptr : &*crew;
}

bool goes(const Week& week, const Crew& crew, Day on) {
  return std::any_of(week.crew_days.begin(), week.crew_days.end(),
                     [&](const CrewDay& day) { return day.crew->key == crew.key && day.on == on; });
}

WhyBroken why_not_there(const Week& week, const Crew& crew, Day on) {
  if (on < week.from || on > week.to) return WhyBroken::not_this_week;
  if (std::find(crew.off.begin(), crew.off.end(), on) != crew.off.end()) return WhyBroken::off;
  const auto hours = crew.hours.find(visits::weekday_of(on));
  return hours == crew.hours.end() || hours->second.empty() ? WhyBroken::no_hours : WhyBroken::does_not_go;
}

bool wanted(const Visit& visit, Day on) { return visit.days && on >= visit.days->first && on <= visit.days->second; }

bool is_open(const Fleet& fleet, const Visit& visit, Day on) {
  auto open = visits::opening_on(fleet, *visit.site, on);
  if (visit.call != nullptr && !visit.call->between.empty()) open = visits::in_both(open, visit.call->between);
  return !open.empty();
}

}  // namespace

std::string_view to_text(WhyBroken why) {
  switch (why) {
    case WhyBroken::no_crew:
      return "no-crew";
    case WhyBroken::not_this_week:
      return "not-this-week";
    case WhyBroken::off:
      return "off";
    case WhyBroken::no_hours:
      return "no-hours";
    case WhyBroken::does_not_go:
      return "does-not-go";
    case WhyBroken::not_qualified:
      return "not-qualified";
    case WhyBroken::not_wanted:
      return "not-wanted";
    case WhyBroken::closed:
      return "closed";
    case WhyBroken::no_time:
      return "no-time";
    case WhyBroken::no_room:
      return "no-room";
  }
  return "";
}

PlanRule rule_of(WhyBroken why) {
  switch (why) {
    case WhyBroken::no_crew:
    case WhyBroken::not_this_week:
    case WhyBroken::off:
    case WhyBroken::no_hours:
    case WhyBroken::does_not_go:
      return PlanRule::off_day;
    case WhyBroken::not_qualified:
      return PlanRule::qualified;
    case WhyBroken::not_wanted:
    case WhyBroken::closed:
      return PlanRule::closed;
    case WhyBroken::no_time:
    case WhyBroken::no_room:
      return PlanRule::hours;
  }
  return PlanRule::promised;
}

std::optional<BrokenPromise> broken_promise(const RoundsPlan& plan, const NotThisWeek& out) {
  if (out.reason != PutOffReason::promise_broken || !out.promised) return std::nullopt;
  const Week& week = plan.week;
  const Visit& visit = week.visits[out.visit];
  const auto& [key, on] = *out.promised;
  BrokenPromise broken{WhyBroken::no_crew, key, on, {}};
  const Crew* crew = crew_named(*week.fleet, key);
  if (crew == nullptr) return broken;
  const visits::Needs needs = visits::needs_of(visit);
  if (!goes(week, *crew, on)) {
    broken.why = why_not_there(week, *crew, on);
  } else if (!visits::can(*crew, needs)) {
    broken.why = WhyBroken::not_qualified;
    CrewDay alone;
    alone.crew = crew;
    alone.on = on;
    broken.lacking = visits::lacking({alone}, needs);
  } else if (!wanted(visit, on)) {
    broken.why = WhyBroken::not_wanted;
  } else if (!is_open(*week.fleet, visit, on)) {
    broken.why = WhyBroken::closed;
  } else {
    broken.why = week.visits[out.visit].impossible ? WhyBroken::no_time : WhyBroken::no_room;
  }
  return broken;
}

std::set<std::string> broken_promises(const RoundsPlan& plan) {
  std::set<std::string> broken;
  for (const NotThisWeek& out : plan.not_this_week) {
    if (out.promised) broken.insert(plan.week.visits[out.visit].came_from->stop);
  }
  for (const PlanChange& change : plan.changes) {
    if (change.is_promise_lost()) broken.insert(change.visit);
  }
  return broken;
}

}  // namespace service
