// Visits that cannot be made, whatever is planned.
#include <algorithm>
#include <numeric>

#include "routing/timing.h"
#include "visits/crew_days.h"
#include "visits/problem_of.h"
#include "visits/trips.h"
#include "visits/visits_made.h"
#include "visits/week_parts.h"

namespace service::visits {
namespace {

std::optional<PutOffReason> reason_of(const Week& week, std::size_t visit) {
  const Visit& of = week.visits[visit];
  const auto open = [&](Day on) {
    for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
      if (week.crew_days[d].on == on && !of.options[d].spans.empty()) return true;
    }
    return false;
  };
  if (const auto reason = why_nobody_can(week.crew_days, needs_of(of), of.days, open)) return reason;
  const auto fits = fits_alone(week, visit);
  if (std::find(fits.begin(), fits.end(), true) == fits.end()) return PutOffReason::unreachable;
  return std::nullopt;
}

}  // namespace

void take_out_without_way(Week& week) {
  std::erase_if(week.visits, [&](const Visit& visit) {
    if (cheapest_trip(*week.fleet, week.crew_days, *visit.site)) return false;
    if (visit.call != nullptr) {
      week.not_planned.push_back({{visit.machine, "", "", visit.safety, false}, visit.call, NotPlannedReason::no_way});
    }
    for (const Point* point : visit.points) {
      week.not_planned.push_back({service::name_of(*point), nullptr, NotPlannedReason::no_way});
    }
    return true;
  });
}

std::vector<bool> fits_alone(const Week& week, std::size_t visit) {
  const WeekProblem alone = problem_of(week, {visit});
  std::vector<bool> fits;
  for (const routing::Shift& shift : alone.problem.shifts) {
    fits.push_back(routing::times_of(alone.problem, shift, {0}).has_value());
  }
  return fits;
}

void fill_impossible(Week& week) {
  for (std::size_t i = 0; i < week.visits.size(); ++i) {
    Visit& visit = week.visits[i];
    visit.promised.reset();
    visit.but_for_promise.reset();
    visit.impossible = reason_of(week, i);
  }
}

void keep_promises(Week& week) {
  for (std::size_t number = 0; number < week.visits.size(); ++number) {
    const auto& promise = week.visits[number].came_from;
    if (!promise || !promise->promised) continue;
    if (week.visits[number].impossible) {  // on any day, and so on that one
      week.visits[number].impossible = PutOffReason::promise_broken;
      continue;
    }
    const auto day = std::find_if(week.crew_days.begin(), week.crew_days.end(), [&](const CrewDay& one) {
      return one.crew->key == promise->crew && one.on == promise->on;
    });
    const auto at = static_cast<std::size_t>(day - week.crew_days.begin());
    const auto fits = fits_alone(week, number);
    if (day == week.crew_days.end() || !fits[at]) {
      week.visits[number].impossible = PutOffReason::promise_broken;
      const auto other = std::find(fits.begin(), fits.end(), true);
      if (other != fits.end()) week.visits[number].but_for_promise = static_cast<std::size_t>(other - fits.begin());
    } else {
      week.visits[number].promised = at;
    }
    for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
      if (d != at) week.visits[number].options[d].possible = false;
    }
  }
}

}  // namespace service::visits
