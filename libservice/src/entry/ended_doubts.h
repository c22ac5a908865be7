// Values of the book that were hard to believe until something was entered, and are not any more.
#pragma once

#include <vector>

#include "service/entry.h"

namespace service {

// Whether a list says of a value that it is hard to believe.
bool is_doubted(const DueList& list, const FactId& value);

// In the order of the list before. A value that was struck is not among them: it does not count any more.
std::vector<EndedDoubt> ended_doubts(const DueList& before, const DueList& after, const Snapshot& is);

}  // namespace service
