// Triples of jobs of which a broken choice of rounds does more than it can.
#pragma once

#include <cstddef>
#include <vector>

#include "routing/master.h"

namespace service::routing {

// The most broken ones that the program does not have yet, at most so many.
std::vector<Triple> broken_triples(const Master& master, std::size_t jobs, std::size_t most);

}  // namespace service::routing
