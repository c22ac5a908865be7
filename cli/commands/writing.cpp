#include "commands/writing.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "commands/written_facts.h"
#include "render/json.h"
#include "render/written_text.h"

namespace cli {
namespace {

using service::Fact;

service::Stamp stamp_of(const World& world, const std::string& origin,
                        const std::vector<service::Proposal>& proposals) {
  const std::int64_t now = world.milliseconds();
  // A strike holds only where its id is later than its fact's, so a clock that went back must not matter.
  std::int64_t drawn_at = now;
  for (const auto& proposal : proposals) {
    if (!proposal.fact.strikes) continue;
    drawn_at = std::max(drawn_at, service::milliseconds_of(proposal.fact.strikes->command) + 1);
  }
  return {service::make_command_id(drawn_at, world.draw()), now, entered_by(world), origin};
}

// One mistyped value may concern several facts of a command; it is said once. Rows of a file are each said.
std::vector<service::Diagnostic> once_each(std::vector<service::Diagnostic> refused) {
  std::set<std::string> said;
  std::erase_if(refused, [&](const service::Diagnostic& diagnostic) {
    return !diagnostic.place && !said.insert(diagnostic.message).second;
  });
  return refused;
}

[[noreturn]] void refuse(const std::string& origin, std::vector<service::Diagnostic> refused) {
  // A name that is mistyped on the command line is a usage error; in a file it is the file that is wrong.
  const bool mistyped = !origin.starts_with("import") &&
                        std::all_of(refused.begin(), refused.end(), [](const service::Diagnostic& diagnostic) {
                          return diagnostic.code.starts_with("unknown-");
                        });
  throw service::Failure(mistyped ? service::Trouble::usage : service::Trouble::bad_data, std::move(refused));
}

// The machines that facts are about: of a strike, those of the struck fact.
service::Scope scope_of_facts(const std::vector<Fact>& added, const std::vector<Fact>& known) {
  std::set<std::string> machines;
  std::vector<const Fact*> open;
  for (const Fact& fact : added) open.push_back(&fact);
  while (!open.empty()) {
    const Fact* fact = open.back();
    open.pop_back();
    if (!fact->machine.empty()) machines.insert(fact->machine);
    if (!fact->strikes) continue;
    const auto target = std::find_if(known.begin(), known.end(), [&](const Fact& k) { return k.id == *fact->strikes; });
    if (target != known.end() && target->id < fact->id) open.push_back(&*target);
  }
  return {std::vector<std::string>(machines.begin(), machines.end())};
}

// What the added facts change on the due list.
void compare(const Session& session, const std::vector<Fact>& before, std::optional<service::Day> newest,
             Written& written) {
  auto after = before;
  after.insert(after.end(), written.added.begin(), written.added.end());
  const service::Scope scope = scope_of_facts(written.added, before);
  written.about_several = scope.machines->size() > 1;
  const auto horizon = session.today + std::chrono::days{30};
  const service::Snapshot was(session.fleet, before, session.today, session.day_is_given, scope, newest);
  const service::Snapshot is(session.fleet, std::move(after), session.today, session.day_is_given, scope, newest);
  written.before = due_list(was, horizon);
  written.after = due_list(is, horizon);
  written.changes = difference(written.before, written.after);
  written.moves = heading_changes(written.before, written.after);
  // Many facts are counted, not read back.
  constexpr std::size_t most = 20;
  constexpr std::size_t first = 5;
  const bool many = written.added.size() > most;
  if (written.dry_run && !written.understood.empty()) {
    for (std::string& line : newest_readings(written.added, was, is)) written.understood.push_back(std::move(line));
  }
  if (many) {
    written.what = {fmt::format("{} facts{}", written.added.size(), written.added.front().strikes ? " struck" : "")};
    if (!written.dry_run) return;
  }
  for (const Fact& fact : written.added) {
    if (many && written.what.size() > first) return;
    written.what.push_back(line_of(fact, was, is, before));
  }
}

}  // namespace

std::string entered_by(const World& world) {
  for (const char* name : {"WHICHEVER_USER", "USER", "LOGNAME"}) {
    if (const auto value = world.variable(name); value && !value->empty()) return *value;
  }
  return "unknown";
}

Written write(Context& context, const Session& session, service::Record& record, const Errand& errand) {
  Written written;
  written.command = std::string(context.arguments.command->name);
  written.today = session.today;
  written.dry_run = context.arguments.has("dry-run");
  written.understood = errand.understood;
  const auto newest = record.newest_day();
  std::vector<Fact> before;
  std::size_t accepted = 0;
  // The kin is read as well, so that what is expected after a fact is what the due list will say.
  const auto kin = service::kin_of(*session.fleet, errand.scope);
  written.added = record.append(kin, written.dry_run, [&](const std::vector<Fact>& known) {
    before = known;
    const auto proposals = errand.propose(known);
    const auto stamp = stamp_of(context.world, errand.origin, proposals);
    auto judgement = service::judge(*session.fleet, known, proposals, stamp, session.today);
    if (!judgement.refused.empty() && !errand.skip_bad) {
      refuse(errand.origin, once_each(std::move(judgement.refused)));
    }
    written.refused = std::move(judgement.refused);
    written.refused_rows = std::move(judgement.refused_rows);
    written.already_there = judgement.already_there;
    written.said = std::move(judgement.said);
    accepted = judgement.accepted.size();
    return std::move(judgement.accepted);
  });
  // Facts that came with an id of their own may be there from another copy of the record.
  written.already_there += static_cast<int>(accepted - written.added.size());
  context.stored = !written.dry_run && !written.added.empty();
  // Whoever may write the record spares those who only ask the parsing of files that did not change.
  if (context.stored) service::keep_compiled(session.folder, session.files);

  try {
    compare(session, before, newest, written);
  } catch (const std::exception&) {
    if (!context.stored) throw;
    // Whoever is told only of the mistake would enter the facts again.
    throw service::Failure(service::Trouble::internal,
                           {"stored-not-compared", "it is stored, but what it changed could not be worked out",
                            "do not enter it again; ask with `whichever due`"});
  }
  return written;
}

Fact fact_about(const Context& context, const Session& session, service::FactKind kind,
                const service::Machine& machine) {
  Fact fact;
  fact.kind = kind;
  fact.machine = machine.key;
  fact.on = session.today;
  if (const auto on = context.arguments.value("on")) {
    const auto span = service::parse_day_span(*on);
    const bool may_be_partial = kind == service::FactKind::service;
    if (!span || (!may_be_partial && !span.value->whole_day())) {
      throw service::Failure(
          service::Trouble::usage,
          {"bad-day", fmt::format("`--on {}` {}", *on, span ? "is not a whole day" : span.problem),
           may_be_partial ? "write a day, month or year as 2026-03-01, 2026-03 or 2026" : "write a day as 2026-03-01"});
    }
    fact.on = *span;
  }
  fact.by = context.arguments.value("by").value_or("");
  fact.note = context.arguments.value("note").value_or("");
  return fact;
}

std::string meter_option(const Arguments& arguments, const service::Machine& machine) {
  const auto written = arguments.value("meter");
  if (!written) return "";
  if (machine.meter(*written) != nullptr) return *written;
  std::vector<std::string> names;
  for (const service::Meter& meter : machine.meters) names.push_back(meter.name);
  std::string hint = service::did_you_mean(*written, names);
  if (hint.empty()) hint = names.empty() ? "it has no meters" : fmt::format("there are: {}", fmt::join(names, ", "));
  throw service::Failure(service::Trouble::usage,
                         {"unknown-meter", fmt::format("{} has no meter `{}`", machine.key, *written), hint});
}

void tell(Context& context, const Written& written) {
  const bool json = context.arguments.value("format").value_or("text") == "json";
  context.out = json ? written_as_json(written) : written_as_text(written);
}

}  // namespace cli
