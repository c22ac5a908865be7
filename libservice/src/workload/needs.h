// Uses of parts held against what is in stock.
#pragma once

#include "service/workload.h"

namespace service::load {

struct Use {
  std::string key;
  bool fluid = false;
  std::string unit;  // of a fluid
  PartUse use;
};

void add_uses(std::vector<Use>& uses, const Resources& resources, const PartUse& as);

// By part; what is short first, by the day to order by, then the others by name.
std::vector<PartNeed> needs_of(const Snapshot& snapshot, std::vector<Use> uses);

}  // namespace service::load
