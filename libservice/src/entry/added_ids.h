// Which facts are among those that were added: a file adds thousands, and thousands of times it is asked.
#pragma once

#include <vector>

#include "service/record.h"

namespace service {

class AddedIds {
 public:
  explicit AddedIds(const std::vector<Fact>& added);

  bool contains(const FactId& id) const;

 private:
  std::vector<FactId> ids_;  // in order
};

}  // namespace service
