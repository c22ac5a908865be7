// The plan of a week.
#include "routing/solve.h"
#include "service/rounds.h"
#include "visits/plan_made.h"
#include "visits/problem_of.h"

namespace service {

RoundsPlan plan_rounds(Week week, const Effort& effort) {
  const visits::WeekProblem of = visits::problem_of(week);
  StoppedBy stopped = StoppedBy::nothing;
  routing::Effort steps;
  steps.times = effort.times;
  if (effort.stop) {
    steps.stop = [&] {
      if (stopped == StoppedBy::nothing) stopped = effort.stop();
      return stopped != StoppedBy::nothing;
    };
  }
  if (effort.progress) {
    steps.progress = [&](std::size_t done, std::size_t all, const routing::Value& value, const routing::Value& bound) {
      effort.progress({done, all, visits::value_of(week, value), visits::value_of(week, bound)});
    };
  }
  const routing::Solution solution = routing::solve(of.problem, steps);
  RoundsPlan plan = visits::plan_of(std::move(week), of, solution);
  if (solution.stopped) plan.stopped = stopped;
  return plan;
}

}  // namespace service
