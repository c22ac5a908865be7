// `reading`: what a meter shows.
#include "commands/commands.h"
#include "commands/writing.h"
#include "service/telling.h"

namespace cli {

int reading(Context& context) {
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, context.arguments.words[0]);
  service::Fact fact = fact_about(context, session, service::FactKind::reading, machine);
  fact.at = service::amount_told(context.arguments.words[1], "the value");
  fact.meter = meter_option(context.arguments, machine);
  fact.sure = context.arguments.has("sure");
  auto record = open_record(context, session.folder, service::Access::write);
  tell(context, write(context, session, record, request_of(context, session, {fact})));
  return 0;
}

}  // namespace cli
