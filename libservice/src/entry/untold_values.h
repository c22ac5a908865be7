// Services by whose meter nobody told what it showed.
#pragma once

#include <vector>

#include "service/entry.h"

namespace service {

// Of the services that were added.
std::vector<UntoldValue> untold_values(const Entered& entered);

}  // namespace service
