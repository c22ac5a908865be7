// A second opinion on small problems: every way to spend a day, and every plan.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <utility>

#include "routing/problem.h"

namespace test {

using namespace service::routing;

// Earliest coming back, then latest leaving, by trying every minute of leaving and of starting each stay.
std::optional<std::pair<Minute, Minute>> back_and_leaving(const Problem& problem, const Shift& shift,
                                                          const Route& route);

// The value of the best plan, by trying every order of every choice of jobs in every shift. `possible` says whether a
// round can be done.
using Possible = std::function<bool(const Shift&, const Route&)>;
Value best_value(const Problem& problem, const Possible& possible);

// A small problem with everything in it that makes them hard: travel that is neither symmetric nor direct, gates that
// shut over noon, set-ups, meals, duty, loads, ranks, jobs that some shifts cannot do.
struct Size {
  int jobs = 7;
  int shifts = 2;
};
Problem random_problem(std::uint64_t seed, const Size& most);

}  // namespace test
