// What a command that writes says afterwards.
#pragma once

#include <string>

#include "render/answers.h"

namespace cli {

std::string written_as_text(const Written& written);

// The command line that takes back what was written, `whichever undo`; empty where there is none.
std::string undo_of(const Written& written);

// `engine-oil: overdue -> later, next due 2027-03-02 or at 1761.4 h`.
std::string words_of(const service::PointChange& change, bool with_machine);

// `engine-oil: from `Overdue` to `Put off``.
std::string words_of(const service::HeadingChange& move, bool with_machine);

// True where people should hear of it: the standing, the estimate mark or the fitting changed, not only a day.
bool worth_telling(const service::PointChange& change);

}  // namespace cli
