// Which fact somebody means, and which command `undo` takes back.
#include <algorithm>
#include <map>
#include <tuple>

#include "service/entry.h"

namespace service {

FactNamed fact_named(std::string_view written, const std::vector<Fact>& book) {
  FactNamed named;
  if (const auto id = parse_fact_id(written)) {
    named.id = *id;
    return named;
  }
  for (const Fact& fact : book) {
    if (short_text(fact.id) == written) named.several.push_back(fact.id);
  }
  if (named.several.size() == 1) {
    named.id = named.several.front();
    named.several.clear();
  } else if (named.several.empty()) {
    std::vector<std::string> names;
    for (const Fact& fact : book) names.push_back(short_text(fact.id));
    named.near = did_you_mean(written, names);
  }
  return named;
}

Fact strike_of(const FactId& id, Day on, std::string note) {
  Fact fact;
  fact.kind = FactKind::strike;
  fact.on = on;
  fact.strikes = id;
  fact.note = std::move(note);
  return fact;
}

std::vector<CommandInBook> standing_commands(const std::vector<Fact>& book) {
  std::map<CommandId, CommandInBook> by_id;
  for (Fact& fact : unstruck(book)) {
    CommandInBook& command = by_id[fact.id.command];
    if (command.standing.empty()) {
      command = {fact.id.command, fact.entered, fact.entered_by, fact.origin, {}};
    }
    command.standing.push_back(std::move(fact));
  }
  std::vector<CommandInBook> commands;
  for (auto& [id, command] : by_id) commands.push_back(std::move(command));
  std::sort(commands.begin(), commands.end(), [](const CommandInBook& a, const CommandInBook& b) {
    return std::tie(a.entered, a.id) > std::tie(b.entered, b.id);
  });
  return commands;
}

bool is_file_of_many(std::string_view origin, std::size_t facts) {
  return facts > 1 && (origin.starts_with("import ") || origin.starts_with("new "));
}

std::optional<CommandId> command_of(const Entered& entered) {
  if (entered.added.empty()) return std::nullopt;
  const CommandId& command = entered.added.front().id.command;
  const bool one = std::all_of(entered.added.begin(), entered.added.end(),
                               [&](const Fact& fact) { return fact.id.command == command; });
  return one && entered.own_ids ? std::optional(command) : std::nullopt;
}

Undo decide_undo(const std::vector<Fact>& book, const UndoAsk& ask) {
  constexpr std::int64_t day = 86'400'000;
  std::vector<CommandInBook> commands = standing_commands(book);
  if (ask.meant) {
    const auto named = std::find_if(commands.begin(), commands.end(),
                                    [&](const CommandInBook& command) { return command.id == *ask.meant; });
    if (named == commands.end()) return {UndoVerdict::unknown_command, {}, std::nullopt, std::nullopt};
    return {UndoVerdict::take_back, {}, std::move(*named), std::nullopt};
  }
  std::erase_if(commands, [](const CommandInBook& command) {
    return command.origin == undo_origin || command.standing.front().from_copy;
  });
  if (commands.empty()) return {};
  CommandInBook& newest = commands.front();
  const auto own = std::find_if(commands.begin(), commands.end(),
                                [&](const CommandInBook& command) { return command.entered_by == ask.who; });
  // What others entered is not laid out to be voided by somebody who entered nothing.
  if (own == commands.end()) return {UndoVerdict::none_of_ones_own, {}, std::nullopt, std::nullopt};
  Undo undo{UndoVerdict::ask_first, UndoReason::someone_elses, std::nullopt, std::nullopt};
  if (own != commands.begin()) {
    undo.own = std::move(*own);
  } else {
    if (is_file_of_many(newest.origin, newest.standing.size())) {
      undo.reason = UndoReason::file;
    } else if (newest.entered < ask.now - day) {
      undo.reason = UndoReason::old;
    } else {
      undo.verdict = UndoVerdict::take_back;
    }
  }
  undo.command = std::move(newest);
  return undo;
}

}  // namespace service
