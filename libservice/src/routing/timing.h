// The times of one shift's round: whether its jobs can be done in that order, and when.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "routing/problem.h"

namespace service::routing {

struct StopTimes {
  Minute arrives = 0;
  Minute starts = 0;  // of the stay
  Minute ends = 0;
  Minute set_up = 0;  // none where the place before is the same
};

struct Times {
  Minute leaves = 0;
  Minute back = 0;
  Minute driving = 0;
  Minute set_up = 0;
  Minute work = 0;
  std::vector<StopTimes> stops;
};

// The earliest coming back, of these the latest leaving, and the latest start at each stop that both allow; but where
// they allow it, the stops before the meal so much earlier that it falls between two of them. None where the round is
// not possible. The route is not empty.
std::optional<Times> times_of(const Problem& problem, const Shift& shift, const Route& route);

// Some of the meal, before the stay at a stop.
struct MealPiece {
  std::size_t stop = 0;  // of the route
  Minute minutes = 0;
};

// Where the meal is: before one stay behind the first, if there is time for all of it, and of several nearest to the
// middle of the round; else before as few of those as it takes; what these have no time for is before the first. In
// their order; none where there is no meal.
std::vector<MealPiece> meal_of(const Shift& shift, const Times& times);

// There is no time for all of the meal but before the first stay.
bool meal_before_work(const Shift& shift, const Times& times);

// The route with one job more, at the place where its way costs least of those for which there are times.
std::optional<Route> with_job(const Problem& problem, const Shift& shift, const Route& route, int job);

// Legs and set-ups; nothing for an empty route.
Pence travel_of(const Problem& problem, const Shift& shift, const Route& route);

// Of the whole plan; the times of its rounds are not looked at.
Value value_of(const Problem& problem, const Plan& plan);

}  // namespace service::routing
