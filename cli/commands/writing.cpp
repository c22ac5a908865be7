#include "commands/writing.h"

#include <fmt/format.h>

#include <utility>

#include "answering.h"
#include "render/written/fact_lines.h"
#include "service/telling.h"

namespace cli {
namespace {

using service::Entered;
using service::Fact;

// Each fact in a line; many facts are counted, not read back.
std::vector<std::string> lines_of(const Entered& entered) {
  constexpr std::size_t most = 20;
  constexpr std::size_t first = 5;
  const auto& added = entered.added;
  const bool many = added.size() > most;
  std::vector<std::string> lines;
  if (many) {
    lines.push_back(fmt::format("{} facts{}", added.size(), added.front().strikes ? " struck" : ""));
    if (!entered.dry_run) return lines;
  }
  for (const Fact& fact : added) {
    if (many && lines.size() > first) break;
    lines.push_back(line_of(fact, entered));
  }
  return lines;
}

}  // namespace

std::string entered_by(const World& world) {
  for (const char* name : {"WHICHEVER_USER", "USER", "LOGNAME"}) {
    if (const auto value = world.variable(name); value && !value->empty()) return *value;
  }
  return "unknown";
}

service::Writer writer_of(const Context& context) {
  return {entered_by(context.world), context.world.milliseconds, context.world.draw};
}

void stored(Context& context, const Session& session, const Written& written) {
  context.stored = !written.entered.dry_run && !written.entered.added.empty();
  // Whoever may write the record spares those who only ask the parsing of files that did not change.
  if (context.stored) service::keep_compiled(session.folder, session.files, *session.fleet);
}

service::EntryRequest request_of(const Context& context, const Session& session, const std::vector<Fact>& facts) {
  return entry_of(std::string(context.arguments.command->name), facts, session.today, session.day_is_given);
}

service::EntryRequest request_of(const Context& context, const Session& session, const service::Scope& scope,
                                 service::Propose propose) {
  auto request = request_of(context, session, {});
  request.scope = scope;
  request.propose = std::move(propose);
  return request;
}

Written write(Context& context, const Session& session, service::Record& record, const service::EntryRequest& request,
              std::vector<std::string> understood) {
  service::EntryRequest asked = request;
  asked.dry_run = context.arguments.has("dry-run");
  asked.comparing = telling(context.progress,
                            asked.dry_run ? "working out what it would change" : "stored; working out what it changes");
  Written written;
  written.command = std::string(context.arguments.command->name);
  written.entered = enter(session.fleet, record, asked, writer_of(context));
  stored(context, session, written);
  written.understood = std::move(understood);
  if (asked.dry_run && !written.understood.empty()) {
    for (std::string& line : newest_reading_lines(written.entered)) written.understood.push_back(std::move(line));
  }
  written.what = lines_of(written.entered);
  return written;
}

Fact fact_about(const Context& context, const Session& session, service::FactKind kind,
                const service::Machine& machine) {
  Fact fact;
  fact.kind = kind;
  fact.machine = machine.key;
  fact.on = session.today;
  if (const auto on = context.arguments.value("on")) {
    const auto span = service::typed_day_span(*on, session.today);
    const bool may_be_partial = kind == service::FactKind::service;
    if (!span || (!may_be_partial && !span.value->whole_day())) {
      throw service::Failure(
          service::FailureKind::usage,
          {"bad-day", fmt::format("`--on {}` {}", *on, span ? "is not a whole day" : span.problem),
           may_be_partial ? "write a day, month or year as 2026-03-01, 15.06.2026, yesterday, -3d, 2026-03 or 2026"
                          : std::string(service::forms_of_days)});
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
  return service::meter_told(machine, *written);
}

void tell(Context& context, const Written& written) { put_answer(context, written_formats, written); }

}  // namespace cli
