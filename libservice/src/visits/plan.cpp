// The plan of a week.
#include <fmt/format.h>

#include "routing/solve.h"
#include "service/rounds.h"
#include "visits/kept_order.h"
#include "visits/one_crew.h"
#include "visits/plan_made.h"
#include "visits/problem_of.h"
#include "visits/round_order.h"
#include "visits/safety_first.h"

namespace service {
namespace {

// What has a fault by the judge's own reckoning is no plan, and is not handed out.
void insist_on_no_fault(const RoundsPlan& plan) {
  const PlanJudgement judgement = judge_plan(plan.week, as_given(plan));
  if (judgement.ok()) return;
  std::vector<Diagnostic> diagnostics;
  for (const PlanFault& fault : judgement.faults) {
    diagnostics.push_back(
        {"plan-with-fault",
         fmt::format("a plan was made that breaks a rule: {}: {}: {}", to_text(fault.rule), fault.where, fault.says),
         "please report it, with the fleet's files"});
  }
  throw Failure(FailureKind::internal, std::move(diagnostics));
}

}  // namespace

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
  routing::Solution solution = routing::solve(of.problem, steps);
  solution.plan = visits::with_one_crew(week, of, std::move(solution.plan));
  solution.plan = visits::with_safety_first(of.problem, std::move(solution.plan));
  solution.plan = visits::with_good_order(week, of, std::move(solution.plan));
  solution.plan = visits::with_kept_order(week, of, std::move(solution.plan));
  RoundsPlan plan = visits::plan_of(std::move(week), of, solution);
  plan.stopped = solution.stopped ? stopped : plan.proven ? StoppedBy::nothing : StoppedBy::effort;
  insist_on_no_fault(plan);
  return plan;
}

}  // namespace service
