#include "render/shared/cautions.h"

#include <fmt/format.h>

namespace cli {

const std::vector<std::string>& base_cautions() {
  static const std::vector<std::string> cautions{
      "stop the engine and take the key",
      "set the parking brake and chock the wheels",
      "wait until everything has stopped",
      "let pressure off",
      "block what is raised",
      "let hot parts cool",
      "follow the operator's manual, local rules and licensed practice",
  };
  return cautions;
}

std::string base_cautions_sentence() {
  return fmt::format("Before you touch a machine: {}.", fmt::join(base_cautions(), "; "));
}

}  // namespace cli
