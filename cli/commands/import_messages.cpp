#include "commands/import_messages.h"

#include <fmt/format.h>

#include <algorithm>

#include "answering.h"
#include "commands/writing.h"
#include "mistakes.h"
#include "output.h"
#include "render/messages/messages.h"
#include "service/typed.h"

namespace cli {
namespace {

void insist_on_file_options_away(const Arguments& arguments) {
  for (const char* option : {"history", "skip-bad", "rejects", "decimal", "dates"}) {
    if (!arguments.has(option)) continue;
    wrong("options-clash", fmt::format("`--{}` belongs to files of facts, and not to messages", option),
          "leave one of the two out");
  }
}

}  // namespace

void insist_on_messages(const Arguments& arguments) {
  for (const char* option : {"on", "by"}) {
    if (!arguments.has(option)) continue;
    wrong("options-clash", fmt::format("`--{}` belongs to `--messages`", option),
          "a file of facts says it in a column of its own");
  }
}

int import_messages(Context& context) {
  const Arguments& arguments = context.arguments;
  insist_on_file_options_away(arguments);
  const std::string& name = arguments.words[0];
  const Session session = open_fleet(context);
  const bool from_input = name == "-";
  service::MessagesAsk ask;
  ask.text = from_input ? context.world.read_input() : read_file(context.world.folder / name);
  ask.origin = "import " + (from_input ? "standard input" : std::filesystem::path(name).filename().string());
  ask.today = session.today;
  ask.day_is_given = session.day_is_given;
  if (arguments.has("on")) ask.on = day_option(arguments, "on", session.today);
  ask.by = arguments.value("by").value_or("");
  ask.dry_run = arguments.has("dry-run");
  auto record = open_record(context, session.folder, service::Access::write);
  MessagesWritten answer;
  answer.messages = enter_messages(session.fleet, record, ask, writer_of(context));
  answer.written.command = std::string(arguments.command->name);
  answer.written.entered = answer.messages.entered;
  if (answer.messages.utf16) answer.written.understood.emplace_back("read as UTF-16");
  const auto& lines = answer.messages.lines;
  answer.written.left_out = static_cast<std::size_t>(std::count_if(lines.begin(), lines.end(), service::is_refused));
  stored(context, session, answer.written);
  put_answer(context, messages_formats, answer);
  return std::all_of(lines.begin(), lines.end(), service::is_settled)
             ? 0
             : static_cast<int>(service::FailureKind::bad_data);
}

}  // namespace cli
