// `strike` and `undo`: facts taken back. Nothing is deleted; the book keeps them legible.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"

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
    throw service::Failure(service::Trouble::usage, std::move(unknown));
  }
  std::vector<std::string> full;
  for (const service::FactId& id : named.several) full.push_back(to_text(id));
  throw service::Failure(service::Trouble::usage,
                         {"two-facts", fmt::format("{} facts have the short id `{}`", full.size(), written),
                          fmt::format("write one in full: {}", fmt::join(full, ", "))});
}

}  // namespace

int strike(Context& context) {
  const Session session = open_fleet(context);
  auto record = open_record(session.folder, service::Access::write);
  const auto propose = [&](const service::Extract& known) {
    const auto id = id_named(context.arguments.words[0], known.facts);
    return std::vector<service::Proposal>{proposed(context, session, id)};
  };
  tell(context, write(context, session, record, request_of(context, session, {}, propose)));
  return 0;
}

int undo(Context& context) {
  const Session session = open_fleet(context);
  auto record = open_record(session.folder, service::Access::write);
  // Asked inside the transaction, so that nothing can come between the question and the strikes.
  const auto propose = [&](const service::Extract& known) {
    const service::Undo undo =
        service::decide_undo(known.facts, {entered_by(context.world), context.world.milliseconds(), std::nullopt});
    if (!undo.command) {
      throw service::Failure(service::Trouble::bad_data,
                             {"nothing-to-undo", "there is nothing to take back", "the record holds no such command"});
    }
    std::vector<service::Proposal> strikes;
    for (const service::Fact& fact : undo.command->standing) strikes.push_back(proposed(context, session, fact.id));
    return strikes;
  };
  tell(context, write(context, session, record, request_of(context, session, {}, propose)));
  return 0;
}

}  // namespace cli
