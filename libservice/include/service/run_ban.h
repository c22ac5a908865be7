// Whether anybody may run a machine. Nobody may while it is out of use (`UseState`), nor while what is for safety
// showed a sign that nobody has found good since. Other signs forbid nothing.
#pragma once

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

// A listed sign of a point that never waits was seen, and nobody has found it good since: its machine is not run before
// that is mended.
bool forbids_running(const Point& point);

// The same of what was kept as seen: found worn or failed at work for safety, or found so by whoever looked at a sign
// of which no task says what it is about.
bool forbids_running(const SeenSign& seen);

}  // namespace service

#pragma GCC visibility pop
