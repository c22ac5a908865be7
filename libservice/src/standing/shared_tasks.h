// The tasks of one machine after the other, worked out once for all of a schedule that hold alike.
#pragma once

#include <map>
#include <memory>
#include <string_view>
#include <vector>

#include "service/snapshot.h"

namespace service {

// The fleet must outlive it. One thread at a time.
class SharedTasks {
 public:
  explicit SharedTasks(const Fleet& fleet) : fleet_(fleet) {}

  std::shared_ptr<const std::vector<MachineTask>> of(const Machine& machine);

 private:
  struct Known {
    const Machine* machine;  // the first for which they were worked out
    std::shared_ptr<const std::vector<MachineTask>> tasks;
  };

  const Fleet& fleet_;
  std::map<std::string_view, std::vector<Known>> by_schedule_;
};

}  // namespace service
