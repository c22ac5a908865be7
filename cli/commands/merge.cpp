// `merge`: the facts of another copy of the record, in any order and any number of times.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"
#include "output.h"
#include "terminal/shell_word.h"

namespace cli {
namespace {

namespace fs = std::filesystem;
using service::Fact;

// A copy of the record, or what `export` wrote of one.
std::vector<Fact> facts_of(const fs::path& file, const std::string& shown, const std::string& command) {
  constexpr std::string_view database = "SQLite format 3";  // how the file of a record begins
  // Of a record only the first bytes are read here, before the engine has it open.
  std::error_code error;
  const bool empty = fs::is_regular_file(file, error) && fs::file_size(file, error) == 0;
  if (empty || begins_with(file, database)) return service::Record::open(file, service::Access::read).facts();
  auto read = service::read_facts(read_file(file), shown);
  if (!read.diagnostics.empty()) throw service::Failure(service::FailureKind::bad_data, std::move(read.diagnostics));
  std::vector<Fact> facts;
  for (service::FactRow& row : read.rows) {
    if (!row.has_id) {
      throw service::Failure(service::FailureKind::bad_data,
                             {"no-ids", "these facts have no ids, so they are no copy of a record",
                              fmt::format("take them in with: {} import {}", command, shell_word(shown)), row.place});
    }
    facts.push_back(std::move(row.fact));
  }
  return facts;
}

// The book of another fleet would not be wrong, only useless here, and not to be got rid of.
void insist_on_same_fleet(const std::vector<Fact>& facts, const service::Fleet& fleet, const std::string& shown) {
  if (service::about_this_fleet(fleet, facts)) return;
  throw service::Failure(service::FailureKind::bad_data,
                         {"other-fleet",
                          fmt::format("{} holds facts, but none about a machine of this fleet; nothing "
                                      "was stored",
                                      shown),
                          "look whether it belongs to another fleet"});
}

void tell_what_meets(const service::Entered& merged, std::vector<std::string>& next) {
  for (const service::Gap& gap : newly_contradicted(merged)) {
    next.push_back(fmt::format("In doubt: {}: {}", gap.machine, gap.say));
  }
}

}  // namespace

int merge(Context& context) {
  const std::string& name = context.arguments.words[0];
  const Session session = open_fleet(context);
  auto theirs = facts_of((context.world.folder / name).lexically_normal(), name, context.look.command);
  insist_on_same_fleet(theirs, *session.fleet, name);
  auto record = open_record(context, session.folder, service::Access::write);
  std::vector<service::Proposal> proposals;
  proposals.reserve(theirs.size());
  for (Fact& fact : theirs) proposals.push_back({std::move(fact), true, std::nullopt});
  theirs = std::vector<Fact>();
  const auto propose = [&](const service::Extract&) { return std::move(proposals); };  // it is asked once
  Written written = write(context, session, record, request_of(context, session, {}, propose));
  const service::Entered& entered = written.entered;
  tell_what_meets(entered, written.next);
  const auto facts = static_cast<std::int64_t>(entered.added.size());
  written.what = {
      fmt::format("{} new, {} already there", service::counted(facts, "fact", "facts"), entered.already_there)};
  tell(context, written);
  return 0;
}

}  // namespace cli
