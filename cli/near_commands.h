// What to say of a command that there is not.
#pragma once

#include <string>

namespace cli {

// The command that answers what such a word asks for, else the nearest names, else where they are listed. It never
// leads from asking to writing: beside a command that asks, those that write are not named. `command`: how printed
// commands begin.
std::string instead_of_command(const std::string& written, const std::string& command);

}  // namespace cli
