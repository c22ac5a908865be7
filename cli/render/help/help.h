// Help made from the command table.
#pragma once

#include <string>

#include "command_table.h"

namespace cli {

std::string version_text();
std::string help_text();                        // the program
std::string help_text(const Command& command);  // one command

}  // namespace cli
