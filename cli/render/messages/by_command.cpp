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
std::string command_for(const std::vector<service::Fact>& facts, const std::string& command) {
  const service::Fact& first = facts.front();
  const bool is_look = first.kind == service::FactKind::looked_at;
  std::string text = fmt::format("{} {} {}", command, is_look ? "looked" : "done", word(first.machine));
  for (const service::Fact& fact : facts) {
    const std::string task = fact.position.empty() ? fact.task : fact.task + '@' + fact.position;
    text += ' ' + word(is_look ? fact.name : task);
  }
  text += option("at", first.at ? to_text(*first.at) : "");
  if (first.at) text += option("meter", first.meter);
  text += option("on", to_text(first.on)) + option("by", first.by);
  if (first.found) text += option("found", std::string(to_text(*first.found)));
  return text + option("note", first.note) + (first.sure ? " --sure" : "");
}

}  // namespace

std::string hint_of_line(const service::MessageLine& line, const service::Diagnostic& wrong,
                         const std::string& command) {
  const std::string hint = service::cleaned(hint_of(wrong, command));
  return line.instead.empty() ? hint : fmt::format("{}: {}", hint, command_for(line.instead, command));
}

}  // namespace cli
