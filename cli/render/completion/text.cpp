#include "render/completion/completion.h"
#include "service/base.h"

namespace cli {

std::string script_as_text(const ScriptAnswer& answer) { return answer.script; }

std::string candidates_as_text(const Candidates& candidates) {
  std::string text;
  for (const std::string& name : candidates) {
    // A name with a line break would be two.
    if (service::cleaned(name) == name) text += name + '\n';
  }
  return text;
}

}  // namespace cli
