// `import`: a file of facts, all rows or none.
#include <fmt/format.h>

#include <set>

#include "commands/commands.h"
#include "commands/writing.h"
#include "output.h"

namespace cli {
namespace {

// Strikes may be about any machine; without them, the machines of the file are enough to judge it.
service::Scope scope_of_rows(const std::vector<service::FactRow>& rows) {
  std::set<std::string> machines;
  for (const service::FactRow& row : rows) {
    if (row.fact.kind == service::FactKind::strike) return {};
    if (!row.fact.machine.empty()) machines.insert(row.fact.machine);
  }
  return {std::vector<std::string>(machines.begin(), machines.end())};
}

}  // namespace

int import_facts(Context& context) {
  const std::string& name = context.arguments.words[0];
  const Session session = open_fleet(context);
  const bool from_input = name == "-";
  const std::string shown = from_input ? "standard input" : name;
  const std::string text = from_input ? context.world.read_input() : read_file(context.world.folder / name);
  auto read = service::read_facts(text, shown);
  auto record = open_record(session.folder, service::Access::write);

  std::vector<service::Proposal> proposals;
  for (const service::FactRow& row : read.rows) proposals.push_back({row.fact, row.has_id, row.place});
  const std::string origin = "import " + std::filesystem::path(shown).filename().string();
  // Mistakes of reading and of judging are told together, so that a file is mended in one go.
  const auto propose = [&](const std::vector<service::Fact>& known) {
    if (read.mistakes.empty()) return proposals;
    auto all = read.mistakes;
    const service::Stamp stamp{service::make_command_id(context.world.milliseconds(), context.world.draw()), 0, "", ""};
    const auto judged = service::judge(*session.fleet, known, proposals, stamp, session.today);
    all.insert(all.end(), judged.refused.begin(), judged.refused.end());
    std::stable_sort(all.begin(), all.end(), [](const service::Diagnostic& a, const service::Diagnostic& b) {
      return (a.place ? a.place->line : 0) < (b.place ? b.place->line : 0);
    });
    throw service::Failure(service::Trouble::bad_data, std::move(all));
  };
  Written written = write(context, session, record, {origin, scope_of_rows(read.rows), propose});
  if (written.what.size() == 1 && written.added.size() > 1) written.what.clear();  // the count follows
  const auto facts = static_cast<std::int64_t>(written.added.size());
  written.what.insert(written.what.begin(),
                      fmt::format("{} new, {} already there, 0 refused", service::counted(facts, "fact", "facts"),
                                  written.already_there));
  tell(context, written);
  return 0;
}

}  // namespace cli
