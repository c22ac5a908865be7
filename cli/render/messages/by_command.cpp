#include "render/messages/by_command.h"

#include <fmt/format.h>

#include <vector>

#include "render/shared/cures.h"
#include "terminal/shell_word.h"

namespace cli {
namespace {

std::string word(const std::string& text) { return shell_word(service::cleaned(text)); }

std::string option(const char* name, const std::string& value) {
  return value.empty() ? "" : fmt::format(" --{} {}", name, word(value));
}

// What several services of one line have in common stands behind them once.
std::string command_for(const service::MessageLine& line, const std::string& command) {
  const std::vector<service::Fact>& facts = line.instead;
  const service::Fact& first = facts.front();
  if (first.kind == service::FactKind::measurement) {
    const std::string value = fmt::format("{}={}", first.name, first.value ? to_text(*first.value) : "");
    return fmt::format("{} saw {} {}", command, word(first.machine), word(value)) + option("unit", first.unit) +
           option("position", first.position) + option("on", to_text(first.on));
  }
  if (first.kind == service::FactKind::reading) {
    return fmt::format("{} reading {} {}", command, word(first.machine), first.at ? to_text(*first.at) : "") +
           option("meter", first.meter) + option("on", to_text(first.on)) + (first.sure ? " --sure" : "");
  }
  const bool is_look = first.kind == service::FactKind::looked_at;
  std::string text = fmt::format("{} {} {}", command, is_look ? "looked" : "done", word(first.machine));
  for (const service::Fact& fact : facts) {
    const std::string task = fact.position.empty() ? fact.task : fact.task + '@' + fact.position;
    text += ' ' + word(is_look ? fact.name : task);
  }
  text += option("at", first.at ? to_text(*first.at) : "");
  if (first.at) text += option("meter", first.meter);
  text += option("on", to_text(first.on)) + option("by", line.who_is_missing ? "WHO" : first.by);
  if (first.found) text += option("found", std::string(to_text(*first.found)));
  return text + option("note", first.note) + (first.sure ? " --sure" : "");
}

}  // namespace

std::string hint_of_line(const service::MessageLine& line, const service::Diagnostic& wrong,
                         const std::string& command) {
  std::string hint = service::cleaned(hint_of(wrong, command));
  if (line.instead.empty()) return hint;
  const std::string_view link = hint.ends_with("by the command") ? ": " : "; or enter it by the command: ";
  return fmt::format("{}{}{}", hint, link, command_for(line, command));
}

}  // namespace cli
