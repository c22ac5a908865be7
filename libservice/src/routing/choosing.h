// Which of the listed rounds together are best, exactly: a search that drops every choice whose rounds, jobs left and
// shifts unused already cost more at the prices than there is to gain.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "routing/pricing.h"

namespace service::routing {

// Of one shift, or of one of several that are alike.
struct Choice {
  std::size_t kind = 0;
  const std::vector<Found>* rounds = nullptr;
};

struct Chosen {
  std::optional<std::vector<const Found*>> rounds;  // by shift of the choices, null: unused; none: nothing better
  bool all = false;                                 // every choice was looked at or could be dropped
};

// `prices`: at which the rounds were listed. A set is better where its cost is below `better_than`. Costs are less what
// skipping the jobs costs.
Chosen choose(std::size_t jobs, const std::vector<Choice>& choices, const Prices& prices, Pence better_than,
              std::size_t most_steps, const std::function<bool()>& stop);

}  // namespace service::routing
