// What people saw, as words of a command line.
#pragma once

#include <string>

#include "service/due_list.h"

namespace cli {

// A name as one word of a command line.
std::string quoted(const std::string& name);

// The command that says of a machine what near the name of a fact is; a value that was told goes with it, and the day
// where that is not the one on which it is typed.
std::string command_to_say(const service::NearName& near, const service::Fact& fact, service::Day today,
                           const std::string& command);

// The command by which somebody tells that he has looked. `command`: how printed commands begin.
std::string command_to_look(const service::SeenSign& seen, const std::string& command);

// The same with who looked and how it was found, where the sign may be one of a safety task in other words.
std::string command_to_look(const service::SeenSign& seen, const service::Fleet& fleet, const std::string& command);

}  // namespace cli
