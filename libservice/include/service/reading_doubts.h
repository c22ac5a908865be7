// On whose readings an answer rests that nobody should trust yet: figures and orders change with them.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

struct ReadingDoubts {
  std::vector<std::string> machines;  // whose newest readings are hard to believe, or contradict each other
  std::size_t elsewhere = 0;          // others, which the answer does not name
  bool doubtful = false;              // some are hard to believe
  bool contradict = false;            // some contradict each other

  bool any() const { return !machines.empty() || elsewhere > 0; }
};

// Of these gaps.
ReadingDoubts reading_doubts(const std::vector<Gap>& gaps);

// Takes the machines out that are among them and not to be named, but not that there are any.
void leave_unnamed(ReadingDoubts& doubts, const std::vector<std::string>& machines);

}  // namespace service

#pragma GCC visibility pop
