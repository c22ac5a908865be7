#include "visits/safety_first.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "routing/timing.h"

namespace service::visits {
namespace {

using routing::Plan;
using routing::Rank;
using routing::Route;

class SafetyFirst {
 public:
  SafetyFirst(const routing::Problem& problem, Plan plan) : problem_(problem), plan_(std::move(plan)) {}

  Plan run() {
    for (std::size_t j = 0; j < problem_.jobs.size(); ++j) {
      const int job = static_cast<int>(j);
      if (rank(job) == Rank::safety && is_skipped(job)) put_in(job);
    }
    return std::move(plan_);
  }

 private:
  Rank rank(int job) const { return problem_.jobs[static_cast<std::size_t>(job)].rank; }

  bool is_skipped(int job) const {
    return std::none_of(plan_.begin(), plan_.end(),
                        [&](const Route& route) { return std::find(route.begin(), route.end(), job) != route.end(); });
  }

  void put_in(int job) {
    for (std::size_t shift = 0; shift < plan_.size(); ++shift) {
      Route first = plan_[shift];
      std::erase_if(first, [&](int other) { return rank(other) == Rank::money; });
      auto with = longer_by(shift, first, job);
      if (!with) continue;
      for (const int other : plan_[shift]) {
        if (rank(other) != Rank::money) continue;
        if (auto longer = longer_by(shift, *with, other)) with = std::move(longer);
      }
      plan_[shift] = std::move(*with);
      return;
    }
  }

  std::optional<Route> longer_by(std::size_t number, const Route& route, int job) const {
    const routing::Shift& shift = problem_.shifts[number];
    if (!shift.options[static_cast<std::size_t>(job)].possible) return std::nullopt;
    return with_job(problem_, shift, route, job);
  }

  const routing::Problem& problem_;
  Plan plan_;
};

}  // namespace

Plan with_safety_first(const routing::Problem& problem, Plan plan) {
  return SafetyFirst(problem, std::move(plan)).run();
}

}  // namespace service::visits
