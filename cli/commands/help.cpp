// `help`: what there is, what a command takes, and the manual page.
#include "render/help/help.h"

#include <fmt/format.h>

#include "answering.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "service/base.h"

namespace cli {

int help(Context& context) {
  HelpAnswer answer;
  if (!context.arguments.words.empty()) {
    const std::string& written = context.arguments.words[0];
    answer.command = find_command(written);
    if (answer.command == nullptr) {
      wrong("unknown-command", fmt::format("there is no command `{}`", written),
            service::nearest_or(written, command_names(), "`whichever help` lists the commands"));
    }
  }
  put_answer(context, help_formats, answer);
  return 0;
}

}  // namespace cli
