// What people saw, as words of a command line.
#pragma once

#include <string>
#include <vector>

#include "parser.h"
#include "service/due_list.h"

namespace cli {

// The words from the second on as one name. Fails with usage where they are empty.
std::string the_sign(const std::vector<std::string>& words);

// A name as one word of a command line.
std::string quoted(const std::string& name);

// The command by which somebody tells that he has looked. `command`: how printed commands begin.
std::string command_to_look(const service::SeenSign& seen, const std::string& command);

}  // namespace cli
