// Which services stock does not cover, and when what is ordered can be there: asked by all that tell it.
#pragma once

#include <optional>
#include <vector>

#include "service/part_lack.h"
#include "service/workload.h"

namespace service::load {

struct Lacking {
  const PartUse* use = nullptr;
  PartAmount amount;  // of it that stock does not cover
  std::vector<KeptFor> kept_for = {};
};

// Of a need with the uses of the whole fleet: the likely ones that find less in stock than they take, by their day.
std::vector<Lacking> lacking_of(const PartNeed& need);

// From which day on it can be there, where that is too late for the first of them.
std::optional<Day> late_until(const PartNeed& need);

// Of work on a day that lacks so much of it. `need` is counted.
PartLack lack_of(const PartNeed& need, const Lacking& lacking, Day on, Day as_of);

}  // namespace service::load
