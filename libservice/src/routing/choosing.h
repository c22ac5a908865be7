// Which of the listed rounds together are best, exactly: branch and bound over the linear program of those rounds.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "routing/kinds.h"
#include "routing/master.h"
#include "routing/pricing.h"

namespace service::routing {

struct Chosen {
  std::optional<std::vector<Column>> rounds;  // none: nothing better
  bool all = false;                           // every choice was looked at or could be dropped
};

// `listed`: by kind. A choice is better where its cost is below `better_than`; costs are less what skipping the jobs
// costs. A step is a round of a linear program that is solved.
Chosen choose(std::size_t jobs, const std::vector<ShiftKind>& kinds, const std::vector<Listed>& listed,
              const std::vector<Triple>& triples, Pence better_than, std::size_t most_steps,
              const std::function<bool()>& stop);

}  // namespace service::routing
