// What stands under one heading of the overdue list, kind by kind.
#pragma once

#include <vector>

#include "service/due_list.h"

namespace cli {

struct BlockParts {
  std::vector<const service::MachineUse*> machines;
  std::vector<const service::SeenSign*> seen;
  std::vector<const service::Gap*> gaps;  // but for those that a line of `no_record` tells
  std::vector<const service::Point*> points;
  std::vector<service::NoRecord> no_record;
};

BlockParts parts_of(const service::OverdueBlock& block, const service::DueList& list);

}  // namespace cli
