// `done`: services, and with --checked the checks that they ask for afterwards.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"
#include "render/words.h"

namespace cli {
namespace {

std::optional<service::Found> found_option(const Arguments& arguments) {
  const auto written = arguments.value("found");
  if (!written) return std::nullopt;
  for (const auto found : {service::Found::good, service::Found::worn, service::Found::failed}) {
    if (to_text(found) == *written) return found;
  }
  const std::vector<std::string> names{"good", "worn", "failed"};
  const std::string near = service::did_you_mean(*written, names);
  throw service::Failure(service::Trouble::usage, {"bad-found", fmt::format("`--found {}` is not understood", *written),
                                                   near.empty() ? "write good, worn or failed" : near});
}

void add_checks(const service::Schedule& schedule, const service::Fact& done, std::vector<service::Proposal>& all) {
  const service::Task* task = schedule.task(done.task);
  if (task == nullptr) return;
  for (const service::FollowUp& check : task->follow_ups) {
    service::Fact fact = done;
    fact.task += '/' + check.name;
    fact.found.reset();
    all.push_back({fact, false, std::nullopt});
  }
}

// Day and meter value, for a marker pen. The meter's value, not its usage: that is what people compare it with.
std::string label(const service::Fact& fact, const service::Machine& machine) {
  std::string text = to_text(fact.on);
  if (!fact.at) return text;
  const auto* meter = fact.meter.empty() ? machine.first_meter() : machine.meter(fact.meter);
  return text + " · " + with_unit(*fact.at, meter == nullptr ? "" : meter->unit);
}

}  // namespace

int done(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = machine_named(*session.fleet, arguments.words[0]);
  service::Fact fact = fact_about(context, session, service::FactKind::service, machine);
  fact.at = amount_option(arguments, "at");
  fact.meter = meter_option(arguments, machine);
  fact.found = found_option(arguments);
  if (!fact.meter.empty() && !fact.at) {
    throw service::Failure(
        service::Trouble::usage,
        {"meter-without-value", "`--meter` says which meter, but not its value", "give the value too: --at VALUE"});
  }
  std::vector<service::Proposal> proposals;
  for (std::size_t i = 1; i < arguments.words.size(); ++i) {
    const TaskName named = task_named(*session.fleet, machine, arguments.words[i]);
    fact.task = named.task;
    fact.position = named.position;
    proposals.push_back({fact, false, std::nullopt});
    if (arguments.has("checked")) add_checks(session.fleet->schedule_of(machine), fact, proposals);
  }
  auto record = open_record(session.folder, service::Access::write);
  Written written = write(context, session, record, {"done", only(machine), [&](const auto&) { return proposals; }});
  if (!written.added.empty()) written.write_on_it.push_back(label(fact, machine));
  tell(context, written);
  return 0;
}

}  // namespace cli
