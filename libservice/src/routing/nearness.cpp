#include "routing/nearness.h"

#include <algorithm>
#include <numeric>

namespace service::routing {

std::vector<std::vector<int>> nearest_jobs(const Problem& problem) {
  std::vector<std::vector<int>> nearest(problem.jobs.size());
  if (problem.profiles.empty()) return nearest;
  const Profile& profile = problem.profiles.front();
  for (std::size_t j = 0; j < nearest.size(); ++j) {
    const auto cost = [&](int job) {
      return profile.leg(problem.jobs[j].place, problem.jobs[static_cast<std::size_t>(job)].place).cost;
    };
    nearest[j].resize(nearest.size());
    std::iota(nearest[j].begin(), nearest[j].end(), 0);
    std::stable_sort(nearest[j].begin(), nearest[j].end(), [&](int a, int b) { return cost(a) < cost(b); });
  }
  return nearest;
}

}  // namespace service::routing
