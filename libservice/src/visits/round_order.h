// The order of a round, where several cost the same: at each machine in one go, and the meal behind the first work.
#pragma once

#include <compare>
#include <vector>

#include "visits/problem_of.h"

namespace service::visits {

// What a crew would rather not have, the worse first. Smaller is better.
struct OrderFaults {
  std::size_t goes_too_many = 0;  // at machines that the round came to before
  bool meal_before_work = false;
  friend auto operator<=>(const OrderFaults&, const OrderFaults&) = default;
};

// Of a route for which there are times.
OrderFaults faults_of(const Week& week, const WeekProblem& of, std::size_t shift, const routing::Route& route);

// Machines that it stops at, leaves for another stop, and stops at again; by their first stop.
std::vector<const Machine*> in_two_goes(const Week& week, const WeekProblem& of, const routing::Route& route);

// The plan with the order of each round so good in this as one stop that is moved, or the way round, makes it for
// nothing: no money, and no coming back later.
routing::Plan with_good_order(const Week& week, const WeekProblem& of, routing::Plan plan);

}  // namespace service::visits
