// The script for a shell, and what that script is told when it asks.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"

namespace cli {

struct ScriptAnswer {
  std::string shell;
  std::string script;
};

std::string script_as_text(const ScriptAnswer& answer);
std::string script_as_json(const ScriptAnswer& answer);

inline constexpr Format<ScriptAnswer> completion_formats[] = {{"text", script_as_text}, {"json", script_as_json}};

using Candidates = std::vector<std::string>;

std::string candidates_as_text(const Candidates& candidates);  // one a line

inline constexpr Format<Candidates> complete_formats[] = {{"text", candidates_as_text}};

}  // namespace cli
