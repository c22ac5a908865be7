// `strike` and `undo`: facts taken back. Nothing is deleted; the book keeps them legible.
#include <fmt/format.h>

#include <algorithm>

#include "commands/commands.h"
#include "commands/writing.h"

namespace cli {
namespace {

using service::Fact;

service::Proposal strike_of(const Context& context, const Session& session, const service::FactId& id) {
  Fact fact;
  fact.kind = service::FactKind::strike;
  fact.on = session.today;
  fact.strikes = id;
  fact.note = context.arguments.value("note").value_or("");
  return {fact, false, std::nullopt};
}

// The full id, or the short form where exactly one fact answers to it.
service::FactId id_named(const std::string& written, const std::vector<Fact>& known) {
  if (const auto id = service::parse_fact_id(written)) return *id;
  std::vector<std::string> full;
  std::optional<service::FactId> found;
  for (const Fact& fact : known) {
    if (short_text(fact.id) != written) continue;
    found = fact.id;
    full.push_back(to_text(fact.id));
  }
  if (full.size() == 1) return *found;
  if (full.empty()) {
    std::vector<std::string> names;
    for (const Fact& fact : known) names.push_back(short_text(fact.id));
    const std::string near = service::did_you_mean(written, names);
    throw service::Failure(service::Trouble::usage,
                           {"unknown-fact", fmt::format("no fact in the record has the id `{}`", written),
                            near.empty() ? "`whichever history MACHINE` shows the ids of its facts" : near});
  }
  throw service::Failure(service::Trouble::usage,
                         {"two-facts", fmt::format("{} facts have the short id `{}`", full.size(), written),
                          fmt::format("write one in full: {}", fmt::join(full, ", "))});
}

}  // namespace

int strike(Context& context) {
  const Session session = open_fleet(context);
  auto record = open_record(session.folder, service::Access::write);
  const auto propose = [&](const std::vector<Fact>& known) {
    const auto id = id_named(context.arguments.words[0], known);
    return std::vector<service::Proposal>{strike_of(context, session, id)};
  };
  tell(context, write(context, session, record, {"strike", {}, propose}));
  return 0;
}

int undo(Context& context) {
  const Session session = open_fleet(context);
  auto record = open_record(session.folder, service::Access::write);
  // Asked inside the transaction, so that nothing can come between the question and the strikes.
  const auto propose = [&](const std::vector<Fact>&) {
    std::vector<service::Proposal> strikes;
    for (const Fact& fact : record.last_command()) strikes.push_back(strike_of(context, session, fact.id));
    if (strikes.empty()) {
      throw service::Failure(service::Trouble::bad_data,
                             {"nothing-to-undo", "there is nothing to take back", "the record holds no such command"});
    }
    return strikes;
  };
  tell(context, write(context, session, record, {std::string(service::undo_origin), {}, propose}));
  return 0;
}

}  // namespace cli
