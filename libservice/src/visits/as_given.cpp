// A plan in the form in which it is handed out and judged.
#include "service/rounds.h"

namespace service {
namespace {

GivenStop given_stop(const Week& week, const RoundStop& stop) {
  const Visit& visit = week.visits[stop.visit];
  GivenStop given;
  given.visit = visit.name;
  given.site = visit.site->key;
  given.machine = visit.machine != nullptr ? visit.machine->key : "";
  given.call = visit.call != nullptr ? visit.call->key : "";
  given.arrives = stop.arrives;
  given.starts = stop.starts;
  given.ends = stop.ends;
  given.drive_min = stop.leg.minutes;
  given.set_up_min = stop.set_up_minutes;
  given.work_min = stop.work_minutes;
  given.tenths_of_km = stop.leg.tenths_of_km;
  given.waiting = stop.waiting;
  given.tasks.emplace();
  for (const Point* point : visit.points) given.tasks->push_back({point->name, point->position});
  given.promised = stop.promised;
  return given;
}

GivenRound given_round(const Week& week, const Round& round) {
  const CrewDay& day = week.crew_days[round.crew_day];
  GivenRound given;
  given.crew = day.crew->key;
  given.on = day.on;
  given.leaves = round.leaves;
  given.back = round.back;
  given.drive_min = round.drive_minutes;
  given.set_up_min = round.set_up_minutes;
  given.work_min = round.work_minutes;
  given.tenths_of_km = round.tenths_of_km;
  given.cost = round.cost;
  given.parts = round.parts;
  given.fluids = round.fluids;
  for (const RoundStop& stop : round.stops) given.stops.push_back(given_stop(week, stop));
  return given;
}

}  // namespace

GivenPlan as_given(const RoundsPlan& plan) {
  const Week& week = plan.week;
  GivenPlan given;
  given.fleet = week.fleet->name;
  given.currency = week.fleet->currency;
  given.as_of = week.as_of;
  given.from = week.from;
  given.to = week.to;
  for (const Round& round : plan.rounds) given.rounds.push_back(given_round(week, round));
  for (const NotThisWeek& out : plan.not_this_week) {
    const Visit& visit = week.visits[out.visit];
    given.put_off.push_back({visit.name, visit.safety, std::string(to_text(out.reason)), out.until, out.cost});
  }
  given.total = plan.value.total;
  given.travel = plan.travel;
  given.waiting = plan.waiting;
  given.put_off_cost = plan.put_off;
  given.safety_put_off = plan.value.safety_put_off;
  given.bound = {plan.bound.safety_put_off, plan.bound.total};
  if (plan.gap_known) given.gap_millionths = plan.gap_millionths;
  given.proven = plan.proven;
  return given;
}

}  // namespace service
