// Names of machines that differ by what may be a word of its own: `traktor 1 0` is traktor-1, or traktor-10.
#pragma once

#include <cstddef>

#include "entry/message_line.h"
#include "service/fleet.h"

namespace service::entry::message {

// Fails with usage where the first so many words, which name this machine, name another one with the next ones joined
// on. A colon or a comma behind the name, or quotes around it, say where it ends.
void insist_on_end_of_name(const Fleet& fleet, const Machine& machine, Words words, std::size_t count);

}  // namespace service::entry::message
