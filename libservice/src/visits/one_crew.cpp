#include "visits/one_crew.h"

#include <algorithm>
#include <optional>
#include <set>

#include "routing/timing.h"

namespace service::visits {
namespace {

using routing::Plan;
using routing::Route;

class OneCrew {
 public:
  OneCrew(const Week& week, const WeekProblem& of, Plan plan) : week_(week), of_(of), plan_(std::move(plan)) {}

  Plan run() {
    while (meetings(plan_) > 0 && gather_some()) {
    }
    return std::move(plan_);
  }

 private:
  const Machine* machine(int job) const { return week_.visits[of_.visits[static_cast<std::size_t>(job)]].machine; }
  Day on(std::size_t shift) const { return week_.crew_days[shift].on; }

  // How many crews too many there are, at each machine on each day.
  std::size_t meetings(const Plan& plan) const {
    std::set<std::pair<const Machine*, std::size_t>> by_round;
    std::set<std::pair<const Machine*, Day>> by_day;
    for (std::size_t shift = 0; shift < plan.size(); ++shift) {
      for (const int job : plan[shift]) {
        if (machine(job) == nullptr) continue;
        by_round.emplace(machine(job), shift);
        by_day.emplace(machine(job), on(shift));
      }
    }
    return by_round.size() - by_day.size();
  }

  bool gather_some() {
    for (std::size_t from = 0; from < plan_.size(); ++from) {
      for (std::size_t to = 0; to < plan_.size(); ++to) {
        if (from != to && on(from) == on(to) && gather(from, to)) return true;
      }
    }
    return false;
  }

  // A visit to a machine at which both are goes from one round to the other; where that has no time for it, in exchange
  // for another one.
  bool gather(std::size_t from, std::size_t to) {
    for (const int job : Route(plan_[from])) {
      const auto there = [&](int other) { return machine(other) == machine(job); };
      if (machine(job) == nullptr || std::none_of(plan_[to].begin(), plan_[to].end(), there)) continue;
      if (!may(to, job)) continue;
      const Route rest = without(plan_[from], job);
      const bool goes = rest.empty() || times_of(of_.problem, of_.problem.shifts[from], rest);
      if (goes && taken(from, to, rest, with(to, plan_[to], job))) return true;
      for (const int other : Route(plan_[to])) {
        if (there(other) || !may(from, other)) continue;
        if (taken(from, to, with(from, rest, other), with(to, without(plan_[to], other), job))) return true;
      }
    }
    return false;
  }

  bool may(std::size_t shift, int job) const {
    return of_.problem.shifts[shift].options[static_cast<std::size_t>(job)].possible;
  }

  static Route without(Route route, int job) {
    std::erase(route, job);
    return route;
  }

  std::optional<Route> with(std::size_t shift, const Route& route, int job) const {
    return with_job(of_.problem, of_.problem.shifts[shift], route, job);
  }

  bool taken(std::size_t from, std::size_t to, const std::optional<Route>& left, const std::optional<Route>& gone) {
    if (!left || !gone) return false;
    Plan next = plan_;
    next[from] = *left;
    next[to] = *gone;
    if (value_of(of_.problem, next) > value_of(of_.problem, plan_) || meetings(next) >= meetings(plan_)) return false;
    plan_ = std::move(next);
    return true;
  }

  const Week& week_;
  const WeekProblem& of_;
  Plan plan_;
};

}  // namespace

Plan with_one_crew(const Week& week, const WeekProblem& of, Plan plan) {
  return OneCrew(week, of, std::move(plan)).run();
}

}  // namespace service::visits
