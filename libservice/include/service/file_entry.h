// A large file of facts, entered without a second copy of it.
#pragma once

#include <string>

#include "service/entry.h"

#pragma GCC visibility push(default)

namespace service {

// As `entry_of_file`, but the facts are taken out of `read`, and the request can be entered once: a second time fails
// with internal. With `skip_bad` the rows stay, without their facts, for `rejects_of`; else no row is left.
EntryRequest take_entry_of_file(FactsRead& read, std::string origin, Day today, bool day_is_given, bool skip_bad);

}  // namespace service

#pragma GCC visibility pop
