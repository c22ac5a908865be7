// What is done at one machine on one day by one crew, where that costs nothing: whoever meets another crew at a machine
// has to agree with it who locks it off.
#pragma once

#include "routing/problem.h"
#include "visits/problem_of.h"

namespace service::visits {

// The same plan, or one of no greater value in which fewer crews meet at a machine.
routing::Plan with_one_crew(const Week& week, const WeekProblem& of, routing::Plan plan);

}  // namespace service::visits
