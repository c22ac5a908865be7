// How a spreadsheet was understood, for people.
#pragma once

#include <cstddef>
#include <string>

#include "service/taking_over.h"

namespace cli {

std::string taken_in_words(const service::TakenOver& taken, std::size_t columns);

// What to do with the new fleet: its commands.
std::string next_after_taking(const service::TakenOver& taken, const std::string& folder, std::size_t columns);

}  // namespace cli
