#include "visits/plan_made.h"

#include <algorithm>
#include <set>
#include <string>
#include <tuple>

#include "service/broken_promise.h"
#include "visits/crew_days.h"
#include "visits/exact.h"
#include "visits/kept_plan.h"
#include "visits/next_best.h"
#include "visits/rounds_made.h"
#include "visits/visits_made.h"

namespace service::visits {
namespace {

NotThisWeek left_out(const Week& week, const WeekProblem& of, const routing::Plan& plan, std::size_t visit) {
  NotThisWeek out;
  out.visit = visit;
  out.until = week.later;
  out.cost = week.visits[visit].put_off;
  out.reason = week.visits[visit].impossible.value_or(week.visits[visit].promised ? PutOffReason::promise_broken
                                                                                  : PutOffReason::dearer);
  if (!any_can(week.crew_days, needs_of(week.visits[visit]))) {
    out.lacking = lacking(week.crew_days, needs_of(week.visits[visit]));
  }
  if (const auto& kept = week.visits[visit].came_from; kept && kept->promised) out.promised = {kept->crew, kept->on};
  const auto job = std::find(of.visits.begin(), of.visits.end(), visit);
  if (job != of.visits.end()) out.next_best = next_best_of(of, plan, static_cast<int>(job - of.visits.begin()));
  return out;
}

void fill_rounds(RoundsPlan& plan, const WeekProblem& of, const routing::Plan& routes) {
  for (std::size_t d = 0; d < routes.size(); ++d) {
    if (routes[d].empty()) continue;
    auto round = round_of(plan.week, of, d, routes[d]);
    if (!round) {
      throw Failure(FailureKind::internal, Diagnostic{"impossible-round", "a round was planned that cannot be made",
                                                      "please report it, with the fleet's files"});
    }
    plan.travel = plan.travel + round->cost;
    for (const RoundStop& stop : round->stops) plan.waiting = plan.waiting + stop.waiting;
    plan.rounds.push_back(std::move(*round));
  }
  fill_loads(plan.week, plan.rounds);
}

void count_promises(RoundsPlan& plan) {
  const std::set<std::string> broken = broken_promises(plan);
  std::set<std::string> kept;
  for (const Round& round : plan.rounds) {
    for (const RoundStop& stop : round.stops) {
      if (!stop.promised) continue;
      const std::string& promised = plan.week.visits[stop.visit].came_from->stop;
      if (!broken.contains(promised)) kept.insert(promised);
    }
  }
  plan.promises_kept = static_cast<int>(kept.size());
  plan.promises_broken = static_cast<int>(broken.size());
}

bool was_promised(const Visit& visit) { return visit.came_from && visit.came_from->promised; }

// Broken promises first, then for safety, then dearest first, then by name.
std::vector<std::size_t> not_made(const RoundsPlan& plan) {
  const Week& week = plan.week;
  std::vector<bool> made(week.visits.size());
  for (const Round& round : plan.rounds) {
    for (const RoundStop& stop : round.stops) made[stop.visit] = true;
  }
  std::vector<std::size_t> visits;
  for (std::size_t i = 0; i < made.size(); ++i) {
    if (!made[i]) visits.push_back(i);
  }
  std::sort(visits.begin(), visits.end(), [&](std::size_t a, std::size_t b) {
    const auto rank = [&](std::size_t i) {
      const Visit& visit = week.visits[i];
      return std::tuple<bool, bool, Money, const std::string&>{!was_promised(visit), !visit.safety, -visit.put_off,
                                                               visit.name};
    };
    return rank(a) < rank(b);
  });
  return visits;
}

void fill_left_out(RoundsPlan& plan, const WeekProblem& of, const routing::Plan& routes) {
  for (const std::size_t visit : not_made(plan)) {
    plan.not_this_week.push_back(left_out(plan.week, of, routes, visit));
    plan.put_off = plan.put_off + plan.week.visits[visit].put_off;
    if (plan.week.visits[visit].safety) ++plan.value.safety_put_off;
  }
}

// Proven of plans that break as few promises; what is proven of others says nothing of those.
PlanValue bound_of(const Week& week, const routing::Solution& solution) {
  if (solution.bound.promises < solution.value.promises) return {};
  return value_of(week, solution.bound);
}

}  // namespace

PlanValue value_of(const Week& week, const routing::Value& value) {
  PlanValue whole{value.safety, Money{value.money}};
  for (std::size_t i = 0; i < week.visits.size(); ++i) {
    if (!never_made(week, i)) continue;
    whole.total = whole.total + week.visits[i].put_off;
    if (week.visits[i].safety) ++whole.safety_put_off;
  }
  return whole;
}

std::int64_t gap_millionths(Money total, Money bound) {
  if (total <= bound || total <= Money{}) return 0;
  return half_up(Wide{1'000'000} * (total - bound).hundredths, total.hundredths);
}

RoundsPlan plan_of(Week week, const WeekProblem& of, const routing::Solution& solution) {
  RoundsPlan plan;
  plan.week = std::move(week);
  fill_rounds(plan, of, solution.plan);
  fill_left_out(plan, of, solution.plan);
  plan.value.total = plan.travel + plan.waiting + plan.put_off;
  plan.bound = bound_of(plan.week, solution);
  plan.proven = plan.bound == plan.value;
  plan.gap_known = plan.bound.safety_put_off == plan.value.safety_put_off;
  if (plan.gap_known) plan.gap_millionths = gap_millionths(plan.value.total, plan.bound.total);
  plan.changes = changes_of(plan);
  count_promises(plan);
  return plan;
}

}  // namespace service::visits
