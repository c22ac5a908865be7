#include "routing/weights.h"

#include <algorithm>

namespace service::routing {
namespace {

// The dearest way into each place, set-up included, over all profiles.
Pence dearest_way_to(const Problem& problem, int place) {
  Pence dearest = 0;
  for (const Profile& profile : problem.profiles) {
    Pence way = 0;
    for (int from = 0; from < profile.places; ++from) way = std::max(way, profile.leg(from, place).cost);
    dearest = std::max(dearest, way + profile.set_ups[static_cast<std::size_t>(place)].cost);
  }
  return dearest;
}

}  // namespace

Pence Weights::of_skipping(const Job& job) const {
  if (job.rank == Rank::promise) return promise + job.skip;
  return job.rank == Rank::safety ? safety + job.skip : job.skip;
}

Value Weights::value_of(Pence number) const {
  if (number <= 0) return {};
  const Pence below_promises = number % promise;
  return {static_cast<int>(number / promise), static_cast<int>(below_promises / safety), below_promises % safety};
}

Weights weights_of(const Problem& problem) {
  Weights weights;
  // Each job is gone to at most once in a plan, and each shift goes home at most once.
  std::vector<Pence> dearest(static_cast<std::size_t>(problem.profiles.empty() ? 0 : problem.profiles.front().places));
  for (std::size_t place = 0; place < dearest.size(); ++place) {
    dearest[place] = dearest_way_to(problem, static_cast<int>(place));
  }
  Pence money = 0;
  int safety_jobs = 0;
  for (std::size_t j = 0; j < problem.jobs.size(); ++j) {
    const Job& job = problem.jobs[j];
    Pence most = job.skip;
    for (const Shift& shift : problem.shifts) {
      if (shift.options[j].possible) most = std::max(most, shift.options[j].cost);
    }
    money += most + dearest[static_cast<std::size_t>(job.place)];
    safety_jobs += job.rank == Rank::safety;
  }
  for (const Shift& shift : problem.shifts) money += dearest[static_cast<std::size_t>(shift.end)];
  weights.safety = 1 + money;
  weights.promise = weights.safety * (safety_jobs + 1);
  return weights;
}

}  // namespace service::routing
