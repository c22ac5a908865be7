#include "help.h"

#include <fmt/format.h>

#include "commands/commands.h"
#include "man_page.h"
#include "mistakes.h"
#include "render/json.h"
#include "run.h"
#include "service/base.h"

namespace cli {

int help(Context& context) {
  if (context.arguments.value("format").value_or("text") == "man") {
    context.out = man_page();  // all commands stand in one page
    return 0;
  }
  const bool json = context.arguments.value("format").value_or("text") == "json";
  if (context.arguments.words.empty()) {
    context.out = json ? commands_as_json(nullptr) : help_text();
    return 0;
  }
  const std::string& written = context.arguments.words[0];
  const Command* command = find_command(written);
  if (command == nullptr) {
    wrong("unknown-command", fmt::format("there is no command `{}`", written),
          service::nearest_or(written, command_names(), "`whichever help` lists the commands"));
  }
  context.out = json ? commands_as_json(command) : help_text(*command);
  return 0;
}

}  // namespace cli
