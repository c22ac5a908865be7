#include "render/completion/completion.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string script_as_json(const ScriptAnswer& answer) {
  return dumped({{"shell", answer.shell}, {"script", answer.script}});
}

}  // namespace cli
