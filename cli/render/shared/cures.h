// What could be done about what is wrong, as command lines.
#pragma once

#include <string>

#include "service/base.h"

namespace cli {

// The hint and the cures of a diagnostic, in one line: `it could be: the value is wrong: mend it; the meter was
// replaced: whichever meter-change ...`. `command`: how printed commands begin (`Look`).
std::string hint_of(const service::Diagnostic& diagnostic, const std::string& command);

// The command that confirms a value which is in doubt; of a `confirm_value`.
std::string command_to_confirm(const service::Cure& cure, const std::string& command);

}  // namespace cli
