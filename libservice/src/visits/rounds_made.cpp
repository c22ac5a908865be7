#include "visits/rounds_made.h"

#include "routing/timing.h"
#include "visits/round_order.h"

namespace service::visits {

std::optional<Round> round_of(const Week& week, const WeekProblem& of, std::size_t crew_day,
                              const routing::Route& route) {
  const routing::Shift& shift = of.problem.shifts[crew_day];
  const auto times = routing::times_of(of.problem, shift, route);
  if (!times) return std::nullopt;
  const Fleet& fleet = *week.fleet;
  const Crew& crew = *week.crew_days[crew_day].crew;
  Round round;
  round.crew_day = crew_day;
  round.leaves = times->leaves;
  round.back = times->back;
  round.drive_minutes = times->driving;
  round.set_up_minutes = times->set_up;
  round.work_minutes = times->work;
  round.cost = {routing::travel_of(of.problem, shift, route)};
  const Site* before = fleet.site(crew.start);
  for (std::size_t i = 0; i < route.size(); ++i) {
    const std::size_t number = of.visits[static_cast<std::size_t>(route[i])];
    const Visit& visit = week.visits[number];
    const routing::StopTimes& at = times->stops[i];
    RoundStop stop;
    stop.visit = number;
    stop.leg = *leg_of(fleet, crew, *before, *visit.site);
    stop.arrives = at.arrives;
    stop.starts = at.starts;
    stop.ends = at.ends;
    stop.set_up_minutes = at.set_up;
    stop.work_minutes = visit.work_minutes;
    stop.waiting = week.visits[number].options[crew_day].waiting;
    stop.promised = week.visits[number].promised.has_value();
    round.tenths_of_km += stop.leg.tenths_of_km;
    round.stops.push_back(stop);
    before = visit.site;
  }
  round.meal_before_work = routing::meal_before_work(shift, *times);
  for (const routing::MealPiece& piece : routing::meal_of(shift, *times)) {
    round.meal.push_back({round.stops[piece.stop].visit, piece.minutes});
  }
  round.in_two_goes = in_two_goes(week, of, route);
  round.home = *leg_of(fleet, crew, *before, *fleet.site(crew.end));
  round.tenths_of_km += round.home.tenths_of_km;
  return round;
}

}  // namespace service::visits
