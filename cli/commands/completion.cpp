// `completion`: the script for a shell. `complete`: what that script asks.
#include "render/completion/completion.h"

#include <fmt/format.h>

#include "answering.h"
#include "commands/commands.h"
#include "completing.h"
#include "mistakes.h"

namespace cli {

int completion(Context& context) {
  const std::string& shell = context.arguments.words[0];
  const ScriptAnswer answer{shell, completion_script(shell)};
  if (answer.script.empty()) {
    wrong("unknown-shell", fmt::format("there is no completion for the shell `{}`", shell), "write bash, zsh or fish");
  }
  put_answer(context, completion_formats, answer);
  return 0;
}

int complete(Context& context) {
  put_answer(context, complete_formats, candidates(context, context.arguments.words));
  return 0;
}

}  // namespace cli
