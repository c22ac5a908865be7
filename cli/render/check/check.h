// What `check` found.
#pragma once

#include <string>

#include "render/answers.h"

namespace cli {

std::string check_as_text(const Checked& checked);

}  // namespace cli
