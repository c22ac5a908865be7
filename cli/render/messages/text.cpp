#include <fmt/format.h>

#include <algorithm>

#include "render/messages/by_command.h"
#include "render/messages/messages.h"
#include "render/shared/label_words.h"
#include "render/shared/sign_words.h"
#include "render/shared/words.h"
#include "render/written/consequences.h"
#include "render/written/fact_lines.h"
#include "render/written/to_mind.h"

namespace cli {
namespace {

constexpr std::size_t columns_inside = 78;  // of a page, behind the indent
constexpr std::size_t longest_echo = 200;   // of a line that is refused

using service::LineFate;
using service::MessageLine;

std::string indented(const std::string& text) {
  std::string lines;
  for (std::string_view rest = text; !rest.empty();) {
    const auto end = std::min(rest.find('\n'), rest.size());
    lines += fmt::format("  {}\n", rest.substr(0, end));
    rest.remove_prefix(std::min(rest.size(), end + 1));
  }
  return lines;
}

// Of a long line its beginning is enough to find it again.
std::string shortened(const std::string& text, std::size_t most) {
  if (text.size() <= most) return text;
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return text.substr(0, end) + "...";
}

std::string wrong_lines(const MessageLine& line, service::Day today, const std::string& command) {
  // What is wrong with a long line quotes much of it.
  const std::size_t most = line.text.size() > longest_echo ? longest_echo * 3 / 4 : std::string::npos;
  std::string text;
  for (const service::Diagnostic& wrong : line.wrong) {
    text += fmt::format("Not taken: {}\n", shortened(service::cleaned(wrong.message), most));
    const std::string hint = hint_of_line(line, wrong, command);
    const bool has_command = !line.instead.empty() || !wrong.cures.empty();
    if (!hint.empty()) text += fmt::format("  {}\n", has_command ? hint : shortened(hint, most));
  }
  if (line.on && line.on->last < today) {
    text += fmt::format("  It is of {}: say that day when it is sent anew.\n", to_text(*line.on));
  }
  return text;
}

// What this line alone brought about, and what whoever sent it has to hear.
std::string taken_lines(const service::Messages& messages, const MessageLine& line, const std::string& command) {
  service::Entered part = part_of(messages, line);
  const bool stored = !part.dry_run;
  std::string text;
  for (const service::Fact& fact : line.facts) {
    text += line_of(fact, part) + '\n';
    const auto step = meter_step(part, fact);
    if (!step || !step->from || !service::read_to_whole_unit(step->to, *step->from)) continue;
    text += fmt::format("{0} {1} was read to the whole unit: the {2} {1} before it holds, and no use is counted.\n",
                        to_text(step->to), step->unit, to_text(*step->from));
  }
  if (line.as_line > 0) text += fmt::format("The rest of it is what line {} says.\n", line.as_line);
  if (line.anew) {
    text += "It was in the record already, and was answered since: taken as seen anew.\n";
    if (stored)
      text += fmt::format("If this is an old message: {} strike {}\n", command, short_text(line.facts.front().id));
  }
  if (line.near) {
    const service::Fact& seen = line.facts[line.near_fact];
    const std::string strike = stored ? fmt::format("{} strike {}; ", command, short_text(seen.id)) : "";
    text += fmt::format("Kept in its own words. If `{}` was meant: {}{}\n", line.near->name, strike,
                        command_to_say(*line.near, seen, messages.entered.today, command));
  }
  for (const service::Fact& sign : line.clears) {
    text += fmt::format("This answers: {}, seen {}\n", service::cleaned(sign.name), to_text(sign.on));
    // What was kept in its own words is no more to be looked at, which says the same.
    std::erase_if(part.answered, [&](const service::SeenSign& seen) {
      return seen.machine->key == sign.machine && seen.sign == sign.name;
    });
  }
  for (const service::Diagnostic& ask : line.asks) {
    text += fmt::format("Not all taken: {}\n  {}\n", service::cleaned(ask.message), service::cleaned(ask.hint));
  }
  text += seen_lines(part) + idle_look_lines(messages.entered, line.facts);
  text += value_lines(part, command, ToldBy::message);
  for (const service::Fact& fact : line.facts) {
    const auto label =
        fact.kind == service::FactKind::service ? element_label(fact, messages.entered.is->fleet()) : std::nullopt;
    if (!label) continue;
    text += fmt::format("Write on it: {}\n", label_words(*label));
    break;
  }
  const bool serviced = std::any_of(line.facts.begin(), line.facts.end(),
                                    [](const service::Fact& fact) { return fact.kind == service::FactKind::service; });
  return serviced ? text + check_lines(part, columns_inside) : text;
}

std::string answer_to(const service::Messages& messages, const MessageLine& line, const std::string& command) {
  switch (line.fate) {
    case LineFate::taken:
      return taken_lines(messages, line, command);
    case LineFate::already_there:
      return "In the record already; nothing was added.\n";
    case LineFate::said_before:
      return fmt::format("Says what line {} says; taken once.\n", line.as_line);
    case LineFate::heading:
      return line.sender.empty() ? "When the lines below were sent.\n" : "Who sent the lines below, and when.\n";
    case LineFate::refused:
      break;
  }
  return wrong_lines(line, messages.entered.today, command);
}

std::string counts(const MessagesWritten& written) {
  const service::Entered& entered = written.messages.entered;
  const auto& lines = written.messages.lines;
  const auto refused = std::count_if(lines.begin(), lines.end(), service::is_refused);
  const auto facts = static_cast<std::int64_t>(entered.added.size());
  std::string text = entered.added.empty() ? "Nothing was stored"
                     : entered.dry_run     ? fmt::format("Nothing was stored. Without --dry-run {} would be saved",
                                                         service::counted(facts, "fact", "facts"))
                                           : fmt::format("Saved: {}", service::counted(facts, "fact", "facts"));
  if (entered.already_there > 0) text += fmt::format("; {} already there", entered.already_there);
  if (refused > 0) text += fmt::format("; {} not taken", service::counted(refused, "line was", "lines were"));
  const auto asking =
      std::count_if(lines.begin(), lines.end(), [](const MessageLine& line) { return !line.asks.empty(); });
  if (asking > 0) text += fmt::format("; of {} not all is taken", service::counted(asking, "line", "lines"));
  return text + ".\n";
}

}  // namespace

std::string messages_as_text(const MessagesWritten& written, const Look& look) {
  const service::Messages& messages = written.messages;
  const service::Entered& entered = messages.entered;
  std::string text = out_of_use_lines(entered);
  for (const std::string& line : written.written.understood) text += service::cleaned(line) + '\n';
  for (const MessageLine& line : messages.lines) {
    const std::string written = service::cleaned(line.text);
    text += fmt::format("{}: {}\n", line.number, is_refused(line) ? shortened(written, longest_echo) : written);
    text += indented(answer_to(messages, line, look.command));
  }
  if (messages.lines.empty()) text += "There is no line in it.\n";
  text += counts(written);
  if (entered.added.empty()) return text;
  text += run_not_in_use_lines(entered, look.command);
  text += list_changes(entered, look) + meter_news_lines(entered, look.command);
  const service::Entered rest = rest_of(messages);
  text += seen_lines(rest) + values_ended_lines(entered, look.command) + values_healed_lines(entered, look.command) +
          value_lines(rest, look.command, ToldBy::message);
  const std::string undo = undo_of(written.written, look.command);
  return undo.empty() ? text : text + "Take it all back: " + undo + '\n';
}

}  // namespace cli
