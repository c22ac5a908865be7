// `merge`: the facts of another copy of the record, in any order and any number of times.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "commands/commands.h"
#include "commands/writing.h"
#include "output.h"

namespace cli {
namespace {

namespace fs = std::filesystem;
using service::Fact;

// A copy of the record, or what `export` wrote of one.
std::vector<Fact> facts_of(const fs::path& file, const std::string& shown) {
  constexpr std::string_view database = "SQLite format 3";  // how the file of a record begins
  // Of a record only the first bytes are read here, before the engine has it open.
  std::error_code error;
  const bool empty = fs::is_regular_file(file, error) && fs::file_size(file, error) == 0;
  if (empty || begins_with(file, database)) return service::Record::open(file, service::Access::read).facts();
  auto read = service::read_facts(read_file(file), shown);
  if (!read.mistakes.empty()) throw service::Failure(service::Trouble::bad_data, std::move(read.mistakes));
  std::vector<Fact> facts;
  for (service::FactRow& row : read.rows) {
    if (!row.has_id) {
      throw service::Failure(service::Trouble::bad_data,
                             {"no-ids", "these facts have no ids, so they are no copy of a record",
                              fmt::format("take them in with: whichever import {}", shown), row.place});
    }
    facts.push_back(std::move(row.fact));
  }
  return facts;
}

// The book of another fleet would not be wrong, only useless here, and not to be got rid of.
void insist_on_same_fleet(const std::vector<Fact>& facts, const service::Fleet& fleet, const std::string& shown) {
  bool about_machines = false;
  for (const Fact& fact : facts) {
    if (fact.machine.empty()) continue;
    if (fleet.machine(fact.machine) != nullptr) return;
    about_machines = true;
  }
  if (!about_machines) return;
  throw service::Failure(service::Trouble::bad_data,
                         {"other-fleet",
                          fmt::format("{} holds facts, but none about a machine of this fleet; nothing "
                                      "was stored",
                                      shown),
                          "look whether it belongs to another fleet"});
}

// What the two copies together say twice or in contradiction.
void tell_what_meets(const std::vector<Fact>& all, const std::vector<Fact>& added, Written& written) {
  std::set<service::FactId> fresh;
  for (const Fact& fact : added) fresh.insert(fact.id);
  for (const auto& [one, other] : service::written_twice(all)) {
    if (!fresh.contains(one) && !fresh.contains(other)) continue;
    const auto fact = std::find_if(all.begin(), all.end(), [&](const Fact& f) { return f.id == one; });
    written.next.push_back(
        fmt::format("It is written down twice that {} of {} was done on {} ({} and {}); it counts once.", fact->task,
                    fact->machine, to_text(fact->on), short_text(one), short_text(other)));
  }
  for (const service::Gap& gap : written.after.gaps) {
    const bool was = std::any_of(written.before.gaps.begin(), written.before.gaps.end(),
                                 [&](const service::Gap& g) { return g.kind == gap.kind && g.facts == gap.facts; });
    if (gap.kind != service::GapKind::doubt || was) continue;
    written.next.push_back(fmt::format("In doubt: {}: {}", gap.machine, gap.say));
  }
}

}  // namespace

int merge(Context& context) {
  const std::string& name = context.arguments.words[0];
  const Session session = open_fleet(context);
  const auto theirs = facts_of((context.world.folder / name).lexically_normal(), name);
  insist_on_same_fleet(theirs, *session.fleet, name);
  auto record = open_record(session.folder, service::Access::write);
  std::vector<service::Proposal> proposals;
  for (const Fact& fact : theirs) proposals.push_back({fact, true, std::nullopt});
  std::vector<Fact> all;
  const auto propose = [&](const std::vector<Fact>& known) {
    all = known;
    return proposals;
  };
  Written written = write(context, session, record, {"merge", {}, propose});
  all.insert(all.end(), written.added.begin(), written.added.end());
  tell_what_meets(all, written.added, written);
  const auto facts = static_cast<std::int64_t>(written.added.size());
  written.what = {
      fmt::format("{} new, {} already there", service::counted(facts, "fact", "facts"), written.already_there)};
  // The commands of the other copy keep their own ids, so `undo` would take back one of those.
  written.takes_back = false;
  tell(context, written);
  return 0;
}

}  // namespace cli
