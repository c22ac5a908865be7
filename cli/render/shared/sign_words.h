// What people saw, as words of a command line.
#pragma once

#include <string>

#include "service/due_list.h"

namespace cli {

// A name as one word of a command line.
std::string quoted(const std::string& name);

// The command that says of a machine what near the name of a fact is; a value that was told goes with it.
std::string command_to_say(const service::NearName& near, const service::Fact& fact, const std::string& command);

// The command by which somebody tells that he has looked. `command`: how printed commands begin.
std::string command_to_look(const service::SeenSign& seen, const std::string& command);

}  // namespace cli
