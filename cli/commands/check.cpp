// `check`: fleet files and record, all that is wrong or odd in one run.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "commands/commands.h"
#include "render/check_text.h"
#include "render/fact_words.h"
#include "render/json.h"
#include "service/usage.h"
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

const Fact* find(const std::vector<Fact>& facts, const service::FactId& id) {
  const auto found = std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.id == id; });
  return found == facts.end() ? nullptr : &*found;
}

std::string or_strike(const std::string& cure, const service::FactId& id) {
  const std::string strike = fmt::format("whichever strike {}", short_text(id));
  return cure.empty() ? strike : fmt::format("{}; or if it is wrong: {}", cure, strike);
}

class Checking {
 public:
  Checking(const Session& session, const std::vector<Fact>& facts, std::string record)
      : session_(session), fleet_(*session.fleet), facts_(facts), record_(std::move(record)) {
    for (const Fact& fact : facts) {
      if (has_day(fact) && fact.kind != service::FactKind::strike)
        newest_ = std::max(newest_.value_or(fact.on.first), fact.on.first);
    }
  }

  std::vector<Diagnostic> findings;

  void run() {
    for (const service::FactFault& fault : faults_of(fleet_, facts_, session_.today)) add(fault);
    const service::Snapshot snapshot(session_.fleet, facts_, session_.today, session_.day_is_given, {}, newest_);
    doubts(snapshot);
    odd_readings(snapshot);
    for (const auto& [one, other] : service::written_twice(facts_)) {
      const Fact* fact = find(facts_, one);
      say(Severity::remark, "written-twice",
          fmt::format("{} is written down a second time as {}; they count as one", named(*fact, fleet_),
                      short_text(other)),
          fmt::format("nothing needs doing; if one is wrong: whichever strike {}", short_text(other)));
    }
  }

 private:
  void say(Severity severity, std::string code, std::string message, std::string hint) {
    findings.push_back(
        {std::move(code), std::move(message), std::move(hint), service::Place{record_, 0, 0, 0, {}}, severity});
  }

  void add(const service::FactFault& fault) {
    const Fact* fact = find(facts_, fault.fact);
    const bool about_machine = fault.what.code == "unlisted-machine";
    say(fault.what.severity, fault.what.code,
        about_machine ? fault.what.message : fmt::format("{}: {}", named(*fact, fleet_), fault.what.message),
        about_machine || fault.what.severity == Severity::remark ? fault.what.hint
                                                                 : or_strike(fault.what.hint, fault.fact));
  }

  void doubts(const service::Snapshot& snapshot) {
    for (const service::Gap& gap :
         due_list(snapshot, {session_.today, {}, service::Detail::standings}, service::straight_line()).gaps) {
      if (gap.kind == service::GapKind::clock)
        say(Severity::error, "clock", gap.say, "mend the clock, or strike the fact");
      if (gap.kind != service::GapKind::doubt) continue;
      std::string cure;
      for (const auto& id : gap.facts)
        cure += (cure.empty() ? "whichever strike " : ", or whichever strike ") + short_text(id);
      say(Severity::error, "contradiction", fmt::format("{}: {}", service::cleaned(gap.machine), gap.say), cure);
    }
  }

  void odd_readings(const service::Snapshot& snapshot) {
    for (const service::Machine& machine : fleet_.machines) {
      for (const service::Meter& meter : machine.meters) {
        for (const service::OddStep& step : odd_steps(machine, meter, snapshot.facts_of(machine.key))) {
          const Fact* fact = find(facts_, step.fact);
          say(Severity::remark, "odd-reading",
              fmt::format("{}: that is {} {} in {}, unlike the rest", named(*fact, fleet_), to_text_tenths(step.used),
                          service::cleaned(meter.unit),
                          service::counted(service::days_between(step.from, step.to), "day", "days")),
              or_strike("look at the meter again", step.fact));
        }
      }
    }
  }

  const Session& session_;
  const service::Fleet& fleet_;
  const std::vector<Fact>& facts_;
  std::string record_;
  std::optional<service::Day> newest_;
};

bool any(const std::vector<Diagnostic>& findings, Severity severity) {
  return std::any_of(findings.begin(), findings.end(), [&](const Diagnostic& d) { return d.severity == severity; });
}

}  // namespace

int check(Context& context) {
  const bool strict = context.arguments.has("strict");
  Checked checked;
  // A fleet that cannot be read is no reason not to look at the record.
  std::optional<Session> session;
  bool bad_fleet = false;
  try {
    session = open_fleet(context);
    checked.machines = static_cast<int>(session->fleet->machines.size());
    checked.findings = session->fleet->remarks;
    if (strict) {
      for (Diagnostic& odd : odd_intervals(*session->fleet)) checked.findings.push_back(std::move(odd));
    }
  } catch (const service::Failure& failure) {
    if (failure.trouble() != service::Trouble::bad_fleet) throw;
    bad_fleet = true;
    checked.findings = failure.diagnostics();
  }
  const auto folder = fleet_folder(context);
  const auto record = open_record(folder, service::Access::read);
  const service::Legible book = record.legible();
  checked.facts = static_cast<int>(book.facts.size());
  for (Diagnostic damage : book.damage) {
    damage.place = service::Place{(folder / "record.db").lexically_normal().string(), 0, 0, 0, {}};
    checked.findings.push_back(std::move(damage));
  }
  if (session) {
    Checking checking(*session, book.facts, (folder / "record.db").lexically_normal().string());
    checking.run();
    std::move(checking.findings.begin(), checking.findings.end(), std::back_inserter(checked.findings));
  }
  const bool json = context.arguments.value("format").value_or("text") == "json";
  context.out = json ? check_as_json(checked) : check_as_text(checked);
  if (bad_fleet) return static_cast<int>(service::Trouble::bad_fleet);
  if (any(checked.findings, Severity::error) || (strict && !checked.findings.empty())) {
    return static_cast<int>(service::Trouble::bad_data);
  }
  return context.arguments.has("exit-code") && !checked.findings.empty() ? 1 : 0;
}

}  // namespace cli
