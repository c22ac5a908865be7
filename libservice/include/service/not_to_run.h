// Which machines of an answer nobody may run: those out of use, and those of which something forbids it (`run_ban.h`).
// Whatever else is told of such a machine, each of its rows says so: who reads one row alone must not start it.
#pragma once

#include <vector>

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

// Points into the fleet of the list of which it is made, and is no part of that list.
class NotToRun {
 public:
  NotToRun() = default;
  explicit NotToRun(const DueList& list);

  bool holds(const Machine& machine) const;

  // In the order of the fleet file.
  const std::vector<const Machine*>& machines() const { return machines_; }

 private:
  std::vector<const Machine*> machines_;
};

}  // namespace service

#pragma GCC visibility pop
