// What everybody is told who is sent to a machine.
#pragma once

#include <string>
#include <vector>

namespace cli {

const std::vector<std::string>& base_cautions();

// The same in one paragraph.
std::string base_cautions_sentence();

}  // namespace cli
