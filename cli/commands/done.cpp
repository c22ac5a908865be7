// `done`: services, and with --checked the checks that they ask for afterwards.
#include <fmt/format.h>

#include <utility>

#include "commands/commands.h"
#include "commands/found_option.h"
#include "commands/writing.h"
#include "render/overdue/words.h"
#include "render/shared/label_words.h"
#include "render/shared/sign_words.h"
#include "service/telling.h"

namespace cli {
namespace {

// A check that found the machine worn or failed moves on all the same; that it is not well is kept.
std::vector<std::string> after_found_bad(const service::SeenSign& seen, const service::UseState* state,
                                         const std::string& command) {
  std::vector<std::string> lines{fmt::format(
      "`{}`: it counts as done, and stands under \"{}\" until it is done again and found neither worn "
      "nor failed, or somebody has looked and finds it good: {}",
      service::cleaned(seen.sign), title_of(service::OverdueHeading::seen), command_to_look(seen, command))};
  if (state == nullptr || state->kind != service::UseKind::out_of_use) {
    lines.push_back(fmt::format("If it is not put right: {} out-of-use {} --note \"{}\"", command,
                                service::cleaned(seen.machine->key), service::cleaned(seen.sign)));
  }
  return lines;
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
    const service::TaskTold named = service::task_told(*session.fleet, machine, arguments.words[i]);
    fact.task = named.task;
    fact.position = named.position;
    facts.push_back(fact);
  }
  const std::vector<service::Fact> services = facts;
  if (arguments.has("checked")) facts = with_checks(*session.fleet, machine, std::move(facts));
  auto record = open_record(context, session.folder, service::Access::write);
  Written written = write(context, session, record, request_of(context, session, facts));
  if (!written.entered.added.empty()) {
    for (const service::Fact& service : services) {
      const auto label = element_label(service, *session.fleet);
      if (!label) continue;
      written.write_on_it.push_back(label_words(*label));  // all of them have the day and the value of this command
      break;
    }
  }
  for (const service::SeenSign& seen : written.entered.seen) {
    for (std::string& line :
         after_found_bad(seen, written.entered.after->state_of(*seen.machine), context.look.command))
      written.next.push_back(std::move(line));
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
