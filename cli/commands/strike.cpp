// `strike` and `undo`: facts taken back. Nothing is deleted; the book keeps them legible.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"
#include "render/shared/fact_words.h"
#include "today.h"

namespace cli {
namespace {

service::Proposal proposed(const Context& context, const Session& session, const service::FactId& id) {
  return {service::strike_of(id, session.today, context.arguments.value("note").value_or("")), false, std::nullopt};
}

service::FactId id_named(const std::string& written, const std::vector<service::Fact>& known) {
  const service::FactNamed named = service::fact_named(written, known);
  if (named.id) return *named.id;
  if (named.several.empty()) {
    service::Diagnostic unknown{"unknown-fact", fmt::format("no fact in the record has the id `{}`", written),
                                named.near};
    if (named.near.empty()) unknown.cures = {{service::CureKind::show_facts}};
    throw service::Failure(service::FailureKind::usage, std::move(unknown));
  }
  std::vector<std::string> full;
  for (const service::FactId& id : named.several) full.push_back(to_text(id));
  throw service::Failure(service::FailureKind::usage,
                         {"two-facts", fmt::format("{} facts have the short id `{}`", full.size(), written),
                          fmt::format("write one in full: {}", fmt::join(full, ", "))});
}

// A command by its id, or by the last characters of it where exactly one answers to them. An id of one fact is refused:
// whoever means one fact would lose all that were entered with it.
service::CommandId command_named(const Context& context, const std::string& written,
                                 const std::vector<service::Fact>& known) {
  constexpr std::size_t shortest = 6;
  if (const auto id = service::parse_command_id(written)) return *id;
  std::vector<service::CommandId> found;
  for (const service::CommandInBook& command : standing_commands(known)) {
    if (written.size() >= shortest && to_text(command.id).ends_with(written)) found.push_back(command.id);
  }
  if (found.size() == 1) return found.front();
  service::Diagnostic unknown{"unknown-command-id",
                              fmt::format("no one command in the record has the id `{}`", written), ""};
  if (service::fact_named(written, known).id) {
    unknown.hint = fmt::format("to take back that fact alone: {} strike {}", context.look.command, written);
  } else {
    unknown.cures = {{service::CureKind::show_facts}};
  }
  throw service::Failure(service::FailureKind::usage, std::move(unknown));
}

// `import facts.csv` of 2026-06-15, entered by tester: what it wrote down.
std::string words_of(const service::CommandInBook& command, const service::Fleet& fleet) {
  constexpr std::size_t most = 3;
  std::vector<std::string> facts;
  for (const service::Fact& fact : command.standing) {
    if (facts.size() == most) break;
    facts.push_back((fact.machine.empty() ? "" : fact.machine + ": ") + fact_words(fact, fleet) + ", " +
                    to_text(fact.on));
  }
  if (command.standing.size() > most) facts.push_back(fmt::format("and {} more", command.standing.size() - most));
  return fmt::format("`{}`, entered by {} on {} ({})", command.origin,
                     command.entered_by.empty() ? "nobody named" : command.entered_by,
                     service::to_text(day_in_zone(command.entered, fleet.time_zone)), fmt::join(facts, "; "));
}

std::string reason_of(const service::Undo& undo, const std::string& who) {
  switch (undo.reason) {
    case service::UndoReason::file:
      return fmt::format("the newest command took in a file of {} facts", undo.command->standing.size());
    case service::UndoReason::old:
      return "the newest command is older than a day";
    case service::UndoReason::someone_elses:
      break;
  }
  return fmt::format("the newest command is not {}'s", who);
}

// Why nothing is taken back, and how to mean it: one's own first.
service::Diagnostic refusal_of(const service::Undo& undo, const service::Fleet& fleet, const std::string& who,
                               const std::string& command) {
  switch (undo.verdict) {
    case service::UndoVerdict::unknown_command:
      return {"nothing-to-undo", "nothing of this command stands in the record", ""};
    case service::UndoVerdict::none_of_ones_own:
      return {"nothing-to-undo", fmt::format("nothing that stands in the record was entered by {}", who),
              fmt::format("what is wrong is voided fact by fact, with `{0} strike ID`; `{0} history MACHINE` shows the "
                          "ids",
                          command)};
    default:
      break;
  }
  if (!undo.command) return {"nothing-to-undo", "there is nothing to take back", "the record holds no such command"};
  const std::string newest = words_of(*undo.command, fleet);
  const std::string take_it = command + " undo " + to_text(undo.command->id);
  const std::string why = reason_of(undo, who);
  if (!undo.own) {
    return {"undo-unsure", fmt::format("{}; nothing was taken back: {}", why, newest),
            "to take it back all the same: " + take_it};
  }
  return {"undo-unsure",
          fmt::format("{}; nothing was taken back. The last one of {}: {}. The newest: {}", why, who,
                      words_of(*undo.own, fleet), newest),
          fmt::format("to take back the one of {}: {} undo {}; the newest: {}", who, command, to_text(undo.own->id),
                      take_it)};
}

// Whether the same words once more would take back another command.
bool can_undo_again(const service::Entered& entered, const service::UndoAsk& ask) {
  std::vector<service::Fact> book = *entered.known;
  book.insert(book.end(), entered.added.begin(), entered.added.end());
  return service::decide_undo(book, ask).verdict == service::UndoVerdict::take_back;
}

}  // namespace

int strike(Context& context) {
  const Session session = open_fleet(context);
  auto record = open_record(context, session.folder, service::Access::write);
  const auto propose = [&](const service::Extract& known) {
    const auto id = id_named(context.arguments.words[0], known.facts);
    return std::vector<service::Proposal>{proposed(context, session, id)};
  };
  tell(context, write(context, session, record, request_of(context, session, {}, propose)));
  return 0;
}

int undo(Context& context) {
  const Session session = open_fleet(context);
  auto record = open_record(context, session.folder, service::Access::write);
  const std::string who = entered_by(context.world);
  // Asked inside the transaction, so that nothing can come between the question and the strikes.
  const auto propose = [&](const service::Extract& known) {
    service::UndoAsk ask{who, context.world.milliseconds(), std::nullopt};
    if (!context.arguments.words.empty()) ask.meant = command_named(context, context.arguments.words[0], known.facts);
    const service::Undo undo = service::decide_undo(known.facts, ask);
    if (undo.verdict != service::UndoVerdict::take_back) {
      throw service::Failure(service::FailureKind::bad_data,
                             refusal_of(undo, *session.fleet, who, context.look.command));
    }
    std::vector<service::Proposal> strikes;
    for (const service::Fact& fact : undo.command->standing) strikes.push_back(proposed(context, session, fact.id));
    return strikes;
  };
  Written written = write(context, session, record, request_of(context, session, {}, propose));
  written.undo_again = can_undo_again(written.entered, {who, context.world.milliseconds(), std::nullopt});
  tell(context, written);
  return 0;
}

}  // namespace cli
