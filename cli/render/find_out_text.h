// What is not known, with blanks: to print and take round.
#pragma once

#include <string>

#include "service/standing.h"
#include "terminal/look.h"

namespace cli {

std::string find_out_as_text(const service::DueList& list, const Look& look);

}  // namespace cli
