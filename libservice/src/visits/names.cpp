// The words of a week in data.
#include "service/rounds.h"
#include "service/visits.h"

namespace service {

std::string_view to_text(NotPlannedReason reason) {
  switch (reason) {
    case NotPlannedReason::put_off:
      return "put-off";
    case NotPlannedReason::laid_up:
      return "laid-up";
    case NotPlannedReason::out_of_use:
      return "out-of-use";
    case NotPlannedReason::left:
      return "left";
    case NotPlannedReason::no_site:
      return "no-site";
    case NotPlannedReason::no_way:
      return "no-way";
  }
  return "";
}

std::string_view to_text(PutOffReason reason) {
  switch (reason) {
    case PutOffReason::not_qualified:
      return "not-qualified";
    case PutOffReason::no_crew:
      return "no-crew";
    case PutOffReason::closed:
      return "closed";
    case PutOffReason::unreachable:
      return "unreachable";
    case PutOffReason::promise_broken:
      return "promise-broken";
    case PutOffReason::dearer:
      return "dearer";
  }
  return "";
}

std::string_view to_text(PlanRule rule) {
  switch (rule) {
    case PlanRule::unknown_visit:
      return "unknown-visit";
    case PlanRule::twice:
      return "twice";
    case PlanRule::left_out:
      return "left-out";
    case PlanRule::off_day:
      return "off-day";
    case PlanRule::hours:
      return "hours";
    case PlanRule::duty:
      return "duty";
    case PlanRule::meal:
      return "meal";
    case PlanRule::qualified:
      return "qualified";
    case PlanRule::closed:
      return "closed";
    case PlanRule::drive:
      return "drive";
    case PlanRule::stay:
      return "stay";
    case PlanRule::tasks:
      return "tasks";
    case PlanRule::figure:
      return "figure";
    case PlanRule::safety:
      return "safety";
    case PlanRule::reason:
      return "reason";
    case PlanRule::bound:
      return "bound";
    case PlanRule::promised:
      return "promised";
    case PlanRule::form:
      return "form";
  }
  return "";
}

std::string_view to_text(TripReason reason) {
  switch (reason) {
    case TripReason::included:
      return "included";
    case TripReason::day_full:
      return "day-full";
    case TripReason::due_day:
      return "due-day";
    case TripReason::put_off:
      return "put-off";
    case TripReason::laid_up:
      return "laid-up";
    case TripReason::first_day:
      return "first-day";
    case TripReason::last_day:
      return "last-day";
    case TripReason::likely_day:
      return "likely-day";
    case TripReason::early:
      return "early";
    case TripReason::late:
      return "late";
  }
  return "";
}

std::string_view to_text(TimeLimit limit) {
  switch (limit) {
    case TimeLimit::hours:
      return "hours";
    case TimeLimit::opening:
      return "opening";
  }
  return "";
}

}  // namespace service
