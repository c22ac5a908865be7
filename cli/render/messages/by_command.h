// What a line says that was not taken from a message, as the commands that enter it.
#pragma once

#include <string>

#include "service/messages.h"

namespace cli {

// The hint of a diagnostic of this line, with the commands behind it where there are some.
std::string hint_of_line(const service::MessageLine& line, const service::Diagnostic& wrong,
                         const std::string& command);

}  // namespace cli
