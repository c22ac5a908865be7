#include "visits/round_order.h"

#include <algorithm>
#include <optional>

#include "routing/timing.h"

namespace service::visits {
namespace {

using routing::Route;

const Machine* machine_of(const Week& week, const WeekProblem& of, int job) {
  return week.visits[of.visits[static_cast<std::size_t>(job)]].machine;
}

class GoodOrder {
 public:
  GoodOrder(const Week& week, const WeekProblem& of, std::size_t shift) : week_(week), of_(of), shift_(shift) {}

  Route of(Route route) const {
    while (true) {
      auto better = bettered(route);
      if (!better) return route;
      route = std::move(*better);
    }
  }

 private:
  const routing::Shift& shift() const { return of_.problem.shifts[shift_]; }

  std::optional<Route> bettered(const Route& route) const {
    if (route.size() < 2) return std::nullopt;
    const OrderFaults now = faults_of(week_, of_, shift_, route);
    if (now == OrderFaults{}) return std::nullopt;
    const routing::Pence travel = travel_of(of_.problem, shift(), route);
    const auto times = times_of(of_.problem, shift(), route);
    const auto is_better = [&](const Route& other) {
      if (travel_of(of_.problem, shift(), other) > travel) return false;
      const auto others = times_of(of_.problem, shift(), other);
      return others && (!times || others->back <= times->back) && faults_of(week_, of_, shift_, other) < now;
    };
    for (std::size_t from = 0; from < route.size(); ++from) {
      for (std::size_t to = 0; to < route.size(); ++to) {
        Route moved = route;
        moved.erase(moved.begin() + static_cast<std::ptrdiff_t>(from));
        moved.insert(moved.begin() + static_cast<std::ptrdiff_t>(to), route[from]);
        if (from != to && is_better(moved)) return moved;
      }
    }
    const Route back(route.rbegin(), route.rend());
    return is_better(back) ? std::optional(back) : std::nullopt;
  }

  const Week& week_;
  const WeekProblem& of_;
  std::size_t shift_;
};

}  // namespace

OrderFaults faults_of(const Week& week, const WeekProblem& of, std::size_t shift, const Route& route) {
  OrderFaults faults;
  for (std::size_t i = 1; i < route.size(); ++i) {
    const Machine* const machine = machine_of(week, of, route[i]);
    if (machine == nullptr || machine == machine_of(week, of, route[i - 1])) continue;
    for (std::size_t before = 0; before + 1 < i; ++before) {
      if (machine_of(week, of, route[before]) != machine) continue;
      ++faults.goes_too_many;
      break;
    }
  }
  const routing::Shift& of_shift = of.problem.shifts[shift];
  const auto times = times_of(of.problem, of_shift, route);
  faults.meal_before_work = times && meal_before_work(of_shift, *times);
  return faults;
}

std::vector<const Machine*> in_two_goes(const Week& week, const WeekProblem& of, const Route& route) {
  std::vector<const Machine*> machines;
  for (std::size_t i = 0; i < route.size(); ++i) {
    const Machine* const machine = machine_of(week, of, route[i]);
    if (machine == nullptr || std::find(machines.begin(), machines.end(), machine) != machines.end()) continue;
    bool left = false;
    for (std::size_t after = i + 1; after < route.size(); ++after) {
      const bool there = machine_of(week, of, route[after]) == machine;
      if (there && left) {
        machines.push_back(machine);
        break;
      }
      left = left || !there;
    }
  }
  return machines;
}

routing::Plan with_good_order(const Week& week, const WeekProblem& of, routing::Plan plan) {
  for (std::size_t shift = 0; shift < plan.size(); ++shift) {
    if (!plan[shift].empty()) plan[shift] = GoodOrder(week, of, shift).of(std::move(plan[shift]));
  }
  return plan;
}

}  // namespace service::visits
