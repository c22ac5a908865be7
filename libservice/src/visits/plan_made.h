// A plan with all its figures, from what was solved.
#pragma once

#include "routing/solve.h"
#include "service/rounds.h"
#include "visits/problem_of.h"

namespace service::visits {

RoundsPlan plan_of(Week week, const WeekProblem& of, const routing::Solution& solution);

// What a value of the problem is, together with the visits that cannot be made.
PlanValue value_of(const Week& week, const routing::Value& value);

// (total - bound) / total in millionths, a half up; nothing where there is nothing to pay.
std::int64_t gap_millionths(Money total, Money bound);

}  // namespace service::visits
