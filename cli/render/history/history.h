// The book of a machine, for people.
#pragma once

#include <string>

#include "render/answers.h"

namespace cli {

std::string history_as_text(const Book& book);

}  // namespace cli
