// What is not known of a machine, so that an empty list is never taken for an all-clear.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

std::vector<Gap> gaps_of(const MachineView& view, const std::vector<Point>& points);

// Facts that are gaps themselves, so that whoever leaves facts out leaves these in. Of a task or check that is no
// longer listed:
class ListedTasks {
 public:
  explicit ListedTasks(const std::vector<MachineTask>& tasks);
  bool holds(const Fact& fact) const;  // also a fact about no task

 private:
  std::set<std::string> names_;
};

// Of days on which the machine was not the owner's.
bool is_after_it_left(const Machine& machine, const Fact& fact);
bool is_before_it_was_new(const Machine& machine, const Fact& fact);

}  // namespace service
