// `check`: fleet files and record, all that is wrong or odd in one run.
#include "render/check/check.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "answering.h"
#include "commands/commands.h"
#include "render/shared/fact_words.h"
#include "service/entry.h"
#include "service/kept_books.h"
#include "session.h"

namespace cli {
namespace {

using service::Diagnostic;
using service::Fact;
using service::Severity;

// `service engine-oil of loader, 2026-03-01, y3mczx-557`
std::string named(const Fact& fact, const service::Fleet& fleet) {
  return fmt::format("{}{}, {}, {}", fact_words(fact, fleet),
                     fact.machine.empty() ? "" : " of " + service::cleaned(fact.machine), to_text(fact.on),
                     short_text(fact.id));
}

// The diagnostic with the fact that it is about, and the record as its place where it names no file.
Diagnostic told(const service::FactDiagnostic& found, const service::Fleet* fleet, const std::string& record) {
  Diagnostic what = found.what;
  if (!what.place) what.place = service::Place{record, 0, 0, 0, {}};
  if (!found.fact || fleet == nullptr) return what;
  const std::string_view link = what.code == "written-twice" ? " " : ": ";
  what.message = fmt::format("{}{}{}", named(*found.fact, *fleet), link, what.message);
  return what;
}

bool any(const std::vector<Diagnostic>& findings, Severity severity) {
  return std::any_of(findings.begin(), findings.end(), [&](const Diagnostic& d) { return d.severity == severity; });
}

}  // namespace

int check(Context& context) {
  const bool strict = context.arguments.has("strict");
  Checked checked;
  Session session;
  bool bad_fleet = false;
  try {
    session = open_fleet(context);
    checked.machines = static_cast<int>(session.fleet->machines.size());
  } catch (const service::Failure& failure) {
    // A fleet that cannot be read is no reason not to look at the record.
    if (failure.kind() != service::FailureKind::bad_fleet) throw;
    bad_fleet = true;
    checked.findings = failure.diagnostics();
  }
  const auto folder = fleet_folder(context);
  service::KeptBeside kept;
  const service::Legible book = open_record(context, folder, service::Access::read).legible(&kept);
  checked.facts = static_cast<int>(book.facts.size());
  const std::string file = (folder / "record.db").lexically_normal().string();
  for (const auto& found : check_all(session.fleet, book, session.today, session.day_is_given, strict)) {
    checked.findings.push_back(told(found, session.fleet.get(), file));
  }
  // Of damaged facts nothing is worked out anew.
  if (session.fleet != nullptr && book.diagnostics.empty()) {
    checked.odd_books = odd_books(*session.fleet, book.facts, kept.states);
    checked.odd_kinds = odd_kinds(*session.fleet, book.facts, kept);
    auto remarks = remarks_on(checked.odd_books);
    for (Diagnostic& what : remarks_on(checked.odd_kinds)) remarks.push_back(std::move(what));
    for (Diagnostic& what : remarks) {
      what.place = service::Place{file, 0, 0, 0, {}};
      checked.findings.push_back(std::move(what));
    }
  }
  put_answer(context, check_formats, checked);
  if (bad_fleet) return static_cast<int>(service::FailureKind::bad_fleet);
  if (any(checked.findings, Severity::error) || (strict && !checked.findings.empty())) {
    return static_cast<int>(service::FailureKind::bad_data);
  }
  return context.arguments.has("exit-code") && !checked.findings.empty() ? 1 : 0;
}

}  // namespace cli
