// `meter-change`: the meter itself was replaced.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"

namespace cli {
namespace {

service::Amount needed(const Arguments& arguments, const std::string& name, const char* meaning) {
  if (const auto amount = amount_option(arguments, name)) return *amount;
  throw service::Failure(service::FailureKind::usage,
                         {"missing-option", fmt::format("`meter-change` needs --{} VALUE: {}", name, meaning),
                          "write both values: --last VALUE --first VALUE"});
}

}  // namespace

int meter_change(Context& context) {
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, context.arguments.words[0]);
  service::Fact fact = fact_about(context, session, service::FactKind::meter_change, machine);
  fact.last = needed(context.arguments, "last", "what the old meter showed");
  fact.first = needed(context.arguments, "first", "what the new meter shows");
  fact.meter = meter_option(context.arguments, machine);
  fact.sure = context.arguments.has("sure");
  auto record = open_record(context, session.folder, service::Access::write);
  tell(context, write(context, session, record, request_of(context, session, {fact})));
  return 0;
}

}  // namespace cli
