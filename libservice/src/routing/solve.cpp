#include "routing/solve.h"

#include <algorithm>

#include "routing/generation.h"
#include "routing/heuristic.h"
#include "routing/kinds.h"
#include "routing/one_round.h"
#include "routing/timing.h"
#include "routing/weights.h"

namespace service::routing {
namespace {

constexpr std::size_t steps_a_job = 400;  // of the search: few jobs need few
constexpr std::uint64_t seed = 20;

Budget times(const Budget& once, int how_often) {
  const auto t = static_cast<std::size_t>(std::max(1, how_often));
  return {once.search_steps * t, once.passes * t, once.most_labels * t, once.listed_labels * t,
          once.choosing_steps * t};
}

}  // namespace

Solution solve(const Problem& problem, const Effort& effort, const Budget& once) {
  const Weights weights = weights_of(problem);
  const std::vector<ShiftKind> kinds = kinds_of(problem, weights);
  Pence skipped = 0;
  for (const Job& job : problem.jobs) skipped += weights.of_skipping(job);

  Solution solution;
  const std::function<bool()> stop = [&] {
    if (!solution.stopped && effort.stop && effort.stop()) solution.stopped = true;
    return solution.stopped;
  };
  std::size_t told = 0;
  const auto take = [&](const Standing& standing) {
    solution.plan = standing.plan;
    solution.value = value_of(problem, standing.plan);
    const bool any = standing.done || standing.proven_mills > nothing_proven;
    const Pence proven = standing.done ? standing.value : any ? whole_up(standing.proven_mills) : 0;
    solution.bound = any ? std::min(weights.value_of(std::max<Pence>(0, proven + skipped)), solution.value) : Value{};
    solution.proven = standing.done;
  };
  const std::function<void(const Standing&)> tell = [&](const Standing& standing) {
    take(standing);
    if (effort.progress) effort.progress(++told, 0, solution.value, solution.bound);
  };

  Standing standing;
  const std::size_t steps = std::min(once.search_steps, steps_a_job * problem.jobs.size());
  standing.plan = search(problem, weights, Plan(problem.shifts.size()), {steps, seed, false, stop});
  standing.value = weights.of(value_of(problem, standing.plan)) - skipped;
  tell(standing);
  if (problem.shifts.size() == 1 && !stop()) {
    if (auto route = best_round(problem, kinds.front())) {
      standing.plan = {std::move(*route)};
      standing.value = weights.of(value_of(problem, standing.plan)) - skipped;
      standing.done = true;
      take(standing);
      return solution;
    }
  }
  standing = Generation(problem, weights, kinds, once, stop, tell).run(std::move(standing));
  // More effort comes behind the usual one, from the best plan so far: it finds nothing worse than less of it does.
  if (effort.times > 1 && !standing.done && !stop()) {
    const Budget more = times(once, effort.times);
    const std::size_t more_steps = steps * static_cast<std::size_t>(effort.times);
    Plan plan = search(problem, weights, standing.plan, {more_steps, seed + 1, true, stop});
    const Pence value = weights.of(value_of(problem, plan)) - skipped;
    if (value < standing.value) {
      standing.plan = std::move(plan);
      standing.value = value;
      standing.done = whole_up(standing.proven_mills) >= value;
      tell(standing);
    }
    if (!standing.done && !stop()) {
      standing = Generation(problem, weights, kinds, more, stop, tell).run(std::move(standing));
    }
  }
  take(standing);
  return solution;
}

}  // namespace service::routing
