// What all that is kept beside the facts was worked out by.
#pragma once

#include <cstdint>

#include "service/fleet.h"

namespace service {

// The files of the fleet, which was read from files, and the text of this program as far as anything is worked out by
// it.
std::uint64_t inputs_of(const Fleet& fleet);

}  // namespace service
