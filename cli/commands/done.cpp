// `done`: services, and with --checked the checks that they ask for afterwards.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/found_option.h"
#include "commands/writing.h"
#include "render/shared/words.h"

namespace cli {
namespace {

std::string words_of(const service::ElementLabel& label) {
  return to_text(label.on) + (label.at ? " · " + with_unit(*label.at, label.unit) : "");
}

}  // namespace

int done(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, arguments.words[0]);
  service::Fact fact = fact_about(context, session, service::FactKind::service, machine);
  fact.at = amount_option(arguments, "at");
  fact.meter = meter_option(arguments, machine);
  fact.found = found_option(arguments);
  fact.sure = arguments.has("sure");
  if (!fact.meter.empty() && !fact.at) {
    throw service::Failure(
        service::FailureKind::usage,
        {"meter-without-value", "`--meter` says which meter, but not its value", "give the value too: --at VALUE"});
  }
  std::vector<service::Fact> facts;
  for (std::size_t i = 1; i < arguments.words.size(); ++i) {
    const TaskName named = task_named(*session.fleet, machine, arguments.words[i]);
    fact.task = named.task;
    fact.position = named.position;
    facts.push_back(fact);
    if (!arguments.has("checked")) continue;
    for (service::Fact& check : checks_after(session.fleet->schedule_of(machine), fact)) {
      facts.push_back(std::move(check));
    }
  }
  auto record = open_record(session.folder, service::Access::write);
  Written written = write(context, session, record, request_of(context, session, facts));
  if (!written.entered.added.empty()) written.write_on_it.push_back(words_of(element_label(fact, machine)));
  tell(context, written);
  return 0;
}

}  // namespace cli
