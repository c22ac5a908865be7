// Whether anybody may run a machine. Nobody may while it is out of use (`UseState`), nor while what never waits showed
// a sign that nobody has found good since, or was measured at or past its limit. Other signs and values forbid nothing.
#pragma once

#include <vector>

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

// Of a point that never waits: its limbs of which a listed sign was seen that nobody has found good since, and those
// measured at or past their limit. Its machine is not run before that is put right. They point into the point.
std::vector<const LimbStanding*> forbidding_limbs(const Point& point);

// It has any.
bool forbids_running(const Point& point);

// The same of what was kept as seen: found worn or failed at work for safety, or found so by whoever looked at a sign
// of which no task says what it is about.
bool forbids_running(const SeenSign& seen);

}  // namespace service

#pragma GCC visibility pop
