// `completion`: the script for a shell. `complete`: what that script asks.
#include <fmt/format.h>

#include "commands/commands.h"
#include "completing.h"
#include "mistakes.h"
#include "render/json.h"
#include "run.h"
#include "service/base.h"

namespace cli {

int completion(Context& context) {
  const std::string& shell = context.arguments.words[0];
  context.out = completion_script(shell);
  if (context.out.empty()) {
    wrong("unknown-shell", fmt::format("there is no completion for the shell `{}`", shell), "write bash, zsh or fish");
  }
  if (context.arguments.value("format").value_or("text") == "json") context.out = script_as_json(shell, context.out);
  return 0;
}

int complete(Context& context) {
  for (const std::string& name : candidates(context, context.arguments.words)) {
    // A name with a line break would be two.
    if (service::cleaned(name) == name) context.out += name + '\n';
  }
  return 0;
}

}  // namespace cli
