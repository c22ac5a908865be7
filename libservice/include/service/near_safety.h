// Signs in their own words that may be one of a safety task: a look at them says who looked and how it was found.
#pragma once

#include <string_view>

#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// Whether a name that no task of the machine lists is near to a sign of a safety task, or of one for a competent
// person, or holds one among its words: `brake-pull badly`. Of a listed name: false.
bool may_be_of_safety(const Fleet& fleet, const Machine& machine, std::string_view sign);

}  // namespace service

#pragma GCC visibility pop
